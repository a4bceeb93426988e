#!/bin/sh
# What is judged of a promise and what is promised of a slip, over some weeks of one small house; t_said.sh and the units
# go the same ways under sanitizers.
. "$VINEHAND_SOURCE/tests/cli/lib.sh"

holds() { awk "BEGIN { exit !($1) }"; }

# ---- a promise of days of which nothing is written down is not called short; one that was a slip is said anew ----

short_season "Silent" | sed 's/^pull_out = .*/pull_out = 2026-06-30/' >silent.toml
printf '[records]\nfile = "silent.csv"\n' >>silent.toml
usual='2026-05-18 6 2026-05-22 6 2026-05-25 6 2026-05-29 6'
{ echo date,planting,item,value; printf '%s,slicers,picked_kg,%s\n' $usual; } >silent.csv
one_line() { tr -s '\n ' '  ' <"$work/out" >"$work/line" && grep -qF "$1" "$work/line"; }
silent() { run "$@" silent.toml --members 20 --out silent; exits 0; }
silent week --today 2026-05-30
said=$(grep -c '^2026-05-30,2026-06-06,slicers,all,' silent/said.csv)
good "promised once" [ "$said" = 1 ]
silent learn --today 2026-06-09
good "not known" one_line "PROMISES not known: slicers 6 June (no pick written down between 31 May and 6 June)"
good "nor on the page" grep -q 'not known: no pick written down between 31.May and 6.June' silent/report.html
echo silent.toml >silent.list
run houses silent.list --members 20 --today 2026-05-30 --out many; exits 0
run houses silent.list --members 20 --today 2026-06-09 --out many; exits 0
kept_kg() { awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next } { print $at["said_kg"] $at["picked_kg"] }' many/houses.csv; }
good "nor among many houses" [ -z "$(kept_kg)" ]
# the first half of the week alone: the pick before the market day is missing
echo 2026-06-02,slicers,picked_kg,6 >>silent.csv
silent learn --today 2026-06-09
good "one is missing" one_line "PROMISES not known: slicers 6 June (no pick written down between 3 June and 6 June)"
# and all of it
echo 2026-06-05,slicers,picked_kg,0.1 >>silent.csv
silent learn --today 2026-06-09
says "of 1 kept"
# a slip is promised, mended, and what is right is said once more, behind it
silent week --today 2026-06-10
tail_of() { grep '^2026-06-10,2026-06-13,slicers,all,' silent/said.csv; }
right=$(tail_of)
sed -i 's/^2026-06-05,.*/2026-06-05,slicers,picked_kg,16/' silent.csv
silent week --today 2026-06-10
good "the slip changed what is promised" [ "$(tail_of | wc -l)" = 2 ]
sed -i 's/^2026-06-05,.*/2026-06-05,slicers,picked_kg,0.1/' silent.csv
silent week --today 2026-06-10
good "what is right is the last word" [ "$(tail_of | tail -n 1)" = "$right" ]
good "and both stand before it" [ "$(tail_of | wc -l)" = 3 ]

# ---- a pick of ten times what she picks is asked about, and nothing is promised from it ----

sed 's/silent/slips/' silent.toml >slips.toml
slips() { run week slips.toml --today 2026-06-02 --members 20 --out "slips-$1"; exits 0; }
most() { awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
    $at["date"] == "2026-06-06" && $at["kg_p90"] > most { most = $at["kg_p90"] } END { print most + 0 }' "slips-$1/market_days.csv"; }
{ echo date,planting,item,value; printf '%s,slicers,picked_kg,%s\n' 2026-05-15 7 2026-05-18 8 2026-05-22 9 2026-05-25 8; } >slips.csv
slips without
echo 2026-06-02,slicers,picked_kg,80 >>slips.csv
slips slip
complains "slips.csv:6: warning: picked_kg of slicers is 80: you usually pick 7.75 to 8.25; is 80 right?"
good "promised of 80 for 8: $(most slip), without the line: $(most without)" holds "$(most slip) <= 1.1 * $(most without)"
finish
