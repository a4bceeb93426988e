#!/bin/sh
# What README.md, DEVELOPERS.md and the help say can be done: scripts are there, commands and options are known,
# links lead somewhere, and the printed summary is the one the program prints.
set -u
cd "${VINEHAND_SOURCE:?}" || exit 1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
wrong=0
say() { echo "WRONG: $*"; wrong=1; }
"${VINEHAND:?}" --help >"$work/help" || say "--help fails"

for page in README.md DEVELOPERS.md; do
    # scripts: "sh cli/first-run.sh" and the like
    for script in $(grep -oE '\bsh [a-z-]+/[a-z/_.-]+\.sh' "$page" | sed 's/^sh //' | sort -u); do
        [ -f "$script" ] || say "$page: there is no $script"
    done
    # links of Markdown that are no web addresses
    for link in $(grep -oE '\]\([^)#]+' "$page" | sed 's/^](//' | grep -v '^https\?:' | sort -u); do
        [ -e "$link" ] || say "$page: the link $link leads nowhere"
    done
done

# Commands in code blocks: they must be commands of this version.
cat README.md scenarios/README.md | sed -n '/^```/,/^```/p; /^    /p' | grep -oE '(build/)?vinehand [a-z]+' | awk '{ print $2 }' | sort -u |
    while read -r word; do
        grep -qE "^  vinehand $word " "$work/help" || echo "README.md or scenarios/README.md: vinehand $word is not in the help"
    done >"$work/commands"
[ -s "$work/commands" ] && say "$(cat "$work/commands")"
for option in $(cat README.md scenarios/README.md | grep -E 'vinehand|^    --' | grep -oE ' --[a-z-]+' | sort -u); do
    grep -qF -e "$option" "$work/help" || say "README.md or scenarios/README.md: $option is not in the help"
done

# The summary, if it is there already.
sed -n '/<!-- summary begins -->/,/<!-- summary ends -->/p' README.md | sed '1d;$d' | grep -v '^```' >"$work/shown"
if grep -q 'FILL IN' "$work/shown"; then
    echo "README.md has no real summary yet: not compared"
elif [ ! -s "$work/shown" ]; then
    say "README.md: the lines that mark the summary are gone"
else
    LC_ALL=C.UTF-8 "$VINEHAND" forecast scenarios/two-bays --today 2026-07-14 --out "$work/out" 2>"$work/err" |
        sed 's,^\(Wrote .* files to\) .*,\1,' >"$work/now"
    sed 's,^\(Wrote .* files to\) .*,\1,' "$work/shown" | diff - "$work/now" || say "README.md: the summary is another one now"
fi

# The command of the picture is one that draws it.
draws=$(grep -oE 'sh scenarios/picture[.]sh [^`>]+' README.md | head -n 1 | sed "s,notebooks-out/two-bays,$work/out,")
if [ -f "$work/out/weeks.csv" ]; then
    # shellcheck disable=SC2086
    $draws >"$work/picture" 2>/dev/null && grep -q '^</svg>' "$work/picture" || say "README.md: this draws nothing: $draws"
fi

# The picture beside it is drawn from the same numbers.
[ ! -f "$work/out/weeks.csv" ] || sh scenarios/picture.sh "$work/out" 2026-07-14 | cmp -s - scenarios/two-bays/weeks.svg ||
    say "scenarios/two-bays/weeks.svg is another picture now: sh scenarios/picture.sh RESULT_FOLDER 2026-07-14"
exit $wrong
