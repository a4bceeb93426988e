#!/bin/sh
# What must be met at once is read first: on the screen, however full it is, in the forecast and in the report; and work that
# cannot wait has its reason beside it.
. "$(dirname -- "$0")/lib.sh"
cp -r "$VINEHAND_SOURCE/scenarios/two-bays" late
for day in 2026-06-25 2026-07-02 2026-07-09; do echo "$day,slicers,done_lower,0,,," >>late/records.csv; done
heads="14 July slicers: heads stand above the wire already; lower them in two passes on two days"
said() { tr -s ' \n' '  ' <"$work/out" | grep -qF "$1"; }
run week late --members 1 --today 2026-07-14 --out out; exits 0
good "it is harm" grep -qE '^2026-07-14,slicers,heads stand above the wire already,.*,harm$' out/warnings.csv
good "other warnings stand before it in the table" [ "$(grep -c '^2026-07-14' out/warnings.csv)" -gt 1 ]
good "the screen says it, first" said "CARE $heads"
good "the screen is full" said "more in tasks.csv"
good "why it cannot wait" said "lower slicers 40 cm, 2 turns; a week late Tue Thu cannot 15 min heads, above the wire already, stand"
good "on the sheet too" grep -q "cannot wait</span><small>[^<]*; a week late heads, above the wire already, stand" out/sheet.html
good "in the report first" grep -q 'class="care"><li><b>14 July, slicers:</b> heads stand above the wire already' out/report.html
run forecast late --members 1 --today 2026-07-14 --out out; exits 0
good "the forecast, first" said "CARE $heads"
# Heads that stay below the wire for a week: lowering may wait, and no reason is given that is none.
run week "$VINEHAND_SOURCE/scenarios/two-bays" --members 1 --today 2026-07-14 --out out; exits 0
bad "a reason that is none" grep -rq "stay below the wire" out
good "it may wait" grep -qE '^2026-07-16,slicers,lower,.*,7,,' out/tasks.csv
# Of many houses the one warning that is told is of harm.
echo late >list; run houses list --members 1 --today 2026-07-14 --out all; exits 0
good "the worst warning" grep -qE '^[^,]*late[^,]*,slicers,.*heads stand above the wire already' all/houses.csv
finish
