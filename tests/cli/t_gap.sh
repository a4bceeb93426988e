#!/bin/sh
# Work left undone: the records say so, the season is run both ways, and what the gap cost is told; nothing is told where
# nothing was left undone.
. "$(dirname -- "$0")/lib.sh"

small_scenario >s.toml
printf '\n[records]\nfile = "records.csv"\n' >>s.toml
costs() { grep -c 'work left undone costs about' out/warnings.csv; }
season() { awk -F, 'NR > 1 { kg += $5 } END { printf "%.3f\n", kg }' out/weeks.csv; }
go() { run forecast s.toml --members 1 --today 2026-06-20 --params "$VINEHAND_SOURCE/params" --out out; exits 0; }

{ echo date,planting,item,value; for day in 2026-04-24 2026-05-01 2026-05-08 2026-05-15 2026-05-22 2026-05-29 2026-06-05; do
    echo "$day,slicers,done_sucker,1"; done; } >records.csv
go; good "nothing left undone costs nothing" [ "$(costs)" -eq 0 ]
kept=$(season)
sed -i 's/,1$/,0/' records.csv
go; good "the gap is told" [ "$(costs)" -eq 1 ]
lost=$(season)
good "and the season is the poorer by it ($kept, then $lost kg)" [ "$(awk "BEGIN { print ($lost < $kept) }")" -eq 1 ]
said=$(sed -n 's/.*work left undone costs about \([0-9.]*\) kg.*/\1/p' out/warnings.csv)
good "by about as much as is said ($said kg)" [ "$(awk "BEGIN { d = $kept - $lost - $said; print (d < 0.06 && d > -0.06) }")" -eq 1 ]
finish
