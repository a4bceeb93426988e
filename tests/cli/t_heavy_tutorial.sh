#!/bin/sh
# The tutorial of scenarios/README.md as a newcomer types it, line by line: every command works, and leaves what it says.
. "$(dirname -- "$0")/lib.sh"

cp -r "$VINEHAND_SOURCE/scenarios" . && chmod -R u+w scenarios && mkdir notebooks-out
awk '/<!-- tutorial begins -->/ { on = 1 } /<!-- tutorial ends -->/ { on = 0 }
    on && /^```/ { block = !block && /^```sh/; next } on && block { print }' \
    "$VINEHAND_SOURCE/scenarios/README.md" | sed 's,^build/vinehand,vinehand,' >typed.sh
good "the tutorial has commands" [ "$(grep -c '^vinehand ' typed.sh)" -ge 8 ]

# Few futures: what is tried here is the way, not the numbers.
cat >run.sh <<'EOF'
vinehand() {
    case $1 in
    forecast | week | compare | learn) "$VINEHAND" "$@" --members 3 ;;
    *) "$VINEHAND" "$@" ;;
    esac || { echo "fails: vinehand $*" >&2; exit 1; }
}
EOF
cat typed.sh >>run.sh
last="tutorial"
sh run.sh >"$work/out" 2>"$work/err" || tell "a command of the tutorial fails"
look_for_faults
for file in scenario.toml records.csv out/report.html out/sheet.html; do
    good "my-house/$file is there" [ -s "my-house/$file" ]
done
good "the records have the three notes" [ "$(grep -c '^2026-06-1[24],tomatoes,' my-house/records.csv)" -eq 3 ]
says "fruits_kept"
run week my-house --today 2026-06-15 --members 3; exits 0; says "cucumbers"; says "tomatoes"
good "two plantings, picked on days of their own" [ "$(grep -A1 '^\[planting.pick\]' my-house/scenario.toml | grep -c '^days = ')" -eq 2 ]
finish
