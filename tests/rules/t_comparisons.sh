#!/bin/sh
# Criterion 2.4.1 writes gt(T, a, b) as !(a < b) in C: it holds where both are equal, and for no number; ge does so for no number.
# So `a is more than b` is written lt(T, b, a) in our tests, and `at least` of doubles le(dbl, b, a): no test that cannot fail.
set -u
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT

# A call may be broken behind its bracket.
find_in() {
    find "$1" -name '*.[ch]' -exec awk '
        function told() { print FILENAME ":" FNR ": " $0 }
        FNR == 1 { open = 0 }
        { blank = " " $0 }
        blank ~ /[^A-Za-z0-9_]gt[ \t]*\(/ || blank ~ /[^A-Za-z0-9_]ge[ \t]*\([ \t]*(dbl|flt|ldbl)[ \t]*,/ ||
            (open && $0 ~ /^[ \t]*(dbl|flt|ldbl)[ \t]*,/) { told() }
        { open = blank ~ /[^A-Za-z0-9_]ge[ \t]*\([ \t]*$/ }' {} +
}

printf 'cr_assert(gt(sz, n, 0));\n    ge (dbl, x, 0.0)\n        ge(\n            dbl, x, 0.0)\n' >"$work/planted.c"
[ "$(find_in "$work" | wc -l)" -eq 3 ] || { echo "WRONG: the rule does not see what was planted"; exit 1; }
printf 'cr_assert(ge(int, status, VH_OK));\ncr_assert(lt(sz, 0, n)); /* longt( */\nge(\n    int, a, b)\n' >"$work/planted.c"
[ -z "$(find_in "$work")" ] || { echo "WRONG: the rule sees what is fine"; exit 1; }
found=$(find_in "${VINEHAND_SOURCE:?}/tests")
[ -z "$found" ] && exit 0
echo "$found"
echo "WRONG: gt holds for equal numbers, and ge for no number: write lt(type, less, more), le(dbl, less, more)"
exit 1
