#!/bin/sh
# Every scenario of the repository runs without an error, balances its dry matter every day to 1e-9, gives the same bytes
# twice, and whatever the language, time zone and folder of the person who runs it.
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0
say() { echo "FAIL $*"; bad=1; }

for folder in "$VINEHAND_SOURCE"/scenarios/*/; do
    name=$(basename "$folder")
    run() { "$VINEHAND" forecast "$folder" --members 8 --today 2026-07-14 --out "$1" >"$1.txt" 2>"$1.err"; }
    run "$work/$name" || { say "$name: $(cat "$work/$name.err")"; continue; }
    worst=$(awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "balance_error") c = i; next }
        { e = $c < 0 ? -$c : $c; if (e > worst) worst = e; n++ } END { if (!n) print "no rows"; else printf "%g", worst }' \
        "$work/$name/plant_days.csv")
    awk -v w="$worst" 'BEGIN { exit !(w != "no rows" && w + 0 <= 1e-9) }' || say "$name: dry matter does not balance: $worst"
    (cd / && LC_ALL=de_DE.UTF-8 TZ=Asia/Tokyo run "$work/$name.again") || say "$name: second run failed"
    diff -r "$work/$name" "$work/$name.again" >"$work/diff" || say "$name: two runs differ: $(head -3 "$work/diff")"
    grep -qwi nan "$work/$name"/*.csv && say "$name: nan in a table"
    awk -F, 'FNR == 1 { n = NF } NF < n { print FILENAME ": row " FNR; exit 1 }' "$work/$name"/picks.csv || say "$name: ragged rows"
done
exit $bad
