#!/bin/sh
# cmake in the source folder is refused and leaves nothing that git shows.
set -u
cd "${VINEHAND_SOURCE:?}" || exit 1
git() { command git -c safe.directory='*' "$@"; }
if ! git rev-parse --is-inside-work-tree >/dev/null 2>&1; then
    echo "no git work tree here: skipped"
    exit 77
fi
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
git ls-files --cached --others --exclude-standard | while read -r file; do
    [ -f "$file" ] && echo "$file"
done | tar -c -T - -f - | tar -x -C "$copy" -f -
cd "$copy" || exit 1
git init -q . && git add . && git -c user.name=t -c user.email=t@example.org commit -qm "A copy" || exit 1
if cmake . >cmake.log 2>&1; then
    echo "WRONG: cmake . was not refused"
    exit 1
fi
grep -q 'folder of its own' cmake.log || { echo "WRONG: it does not say what would be right"; cat cmake.log; exit 1; }
rm cmake.log
left=$(git status --porcelain)
[ -z "$left" ] || { echo "WRONG: git shows $left"; exit 1; }
