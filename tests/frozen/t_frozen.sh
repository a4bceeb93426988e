#!/bin/sh
# Our own whole outputs, number by number: a change must be looked at and given a reason in REASONS.md beside this file.
# To renew: sh tests/frozen/t_frozen.sh --renew (VINEHAND and VINEHAND_SOURCE as in the tests), then write why.
set -u
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

for name in two-bays no-thermometer; do
    "$VINEHAND" forecast "$VINEHAND_SOURCE/scenarios/$name" --members 1 --today 2026-07-14 --out "$work/$name" >/dev/null 2>"$work/err" ||
        { cat "$work/err"; exit 1; }
    for table in weeks trusses; do
        kept=$here/$name-$table.csv
        if [ "${1:-}" = --renew ]; then cp "$work/$name/$table.csv" "$kept"; continue; fi
        cmp -s "$kept" "$work/$name/$table.csv" && continue
        bad=1
        echo "FAIL $name/$table.csv moved; the first rows that differ (frozen <, now >):"
        diff "$kept" "$work/$name/$table.csv" | head -6
    done
done
exit $bad
