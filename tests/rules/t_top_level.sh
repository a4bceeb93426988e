#!/bin/sh
# The top of the tree holds what DEVELOPERS.md says and nothing else; source files have names of their own.
set -u
cd "${VINEHAND_SOURCE:?}" || exit 1
wrong=0

if git -c safe.directory='*' rev-parse --is-inside-work-tree >/dev/null 2>&1; then
    names=$(git -c safe.directory='*' ls-files --cached --others --exclude-standard | sed 's,/.*,,' | sort -u)
else
    names=$(ls)
fi
for name in $names; do
    case $name in
    README.md | DEVELOPERS.md | LICENSE | CMakeLists.txt | model | cli | tests | params | scenarios | notebooks-out) ;;
    .*) ;;
    build*) ;;
    *)
        echo "WRONG: $name does not belong at the top"
        wrong=1
        ;;
    esac
done
for name in README.md DEVELOPERS.md LICENSE CMakeLists.txt model cli tests params scenarios notebooks-out/README.md; do
    [ -e "$name" ] || { echo "WRONG: $name is missing"; wrong=1; }
done
grep -q 'Version 3, 29 June 2007' LICENSE || { echo "WRONG: LICENSE is not the GPL, version 3"; wrong=1; }

twice=$(find model cli -name '*.[ch]' | sed 's,.*/,,' | sort | uniq -d)
[ -z "$twice" ] || { echo "WRONG: names used twice:" $twice; wrong=1; }
exit $wrong
