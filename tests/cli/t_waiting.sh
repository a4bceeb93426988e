#!/bin/sh
# What a week of waiting costs, for each open task of the week: in money where the model reckons fruit, in words where it
# does not; the words are reckoned once more from stem.csv.
. "$(dirname -- "$0")/lib.sh"

small_scenario >s.toml
sed -i 's/^\[climate\]$/wire_height_m = 2.4\n[climate]/' s.toml
cat >>s.toml <<'END'
[planting.pick]
days = ["fri"]
[planting.lower]
head_clearance_cm = 5
days = ["tue"]
[market]
days = ["sat"]
[[market.price]]
crop = "tomato-large"
per_kg = 5
END
run forecast s.toml --members 1 --today 2026-06-22 --params "$VINEHAND_SOURCE/params" --out out; exits 0
cat >check.py <<'PY'
import csv, datetime, re, sys
rows = lambda name: list(csv.DictReader(open(f"out/{name}.csv", newline="")))
date = datetime.date.fromisoformat
today = date("2026-06-22")
week = [r for r in rows("tasks") if 0 <= (date(r["date"]) - today).days < 7]
stem = {date(r["date"]): r for r in rows("stem")}
week_later = [r for r in rows("tasks") if r["if_late"] and not 0 <= (date(r["date"]) - today).days < 7]
if week_later: sys.exit(f"told of another week: {week_later[0]}")
told = {r["task"]: r for r in week}
# picks: fruit that hangs a week longer is sold a week later, and some of it no longer; never more than it brings
pick = told["pick"]
saturday = [r for r in rows("market_days") if r["date"] == "2026-06-27" and r["grade"] == "all"][0]
if not 0 < float(pick["cost_of_waiting"]) < float(saturday["income"]): sys.exit(f"pick {pick['cost_of_waiting']} of {saturday['income']}")
if pick["if_late"]: sys.exit("picks are told in money")
# lowering: no kilogram is reckoned; the heads rise along the string as it hung before the visit
lower = told["lower"]
if lower["cost_of_waiting"]: sys.exit(f"lowering costs {lower['cost_of_waiting']}")
first = date(lower["date"])
eve = stem[first - datetime.timedelta(1)]
import math
def head(day):
    grown = float(stem[day]["stem_cm"]) - float(eve["stem_cm"])
    return float(eve["head_height_cm"]) + grown * math.sin(math.radians(float(eve["lean_deg"])))
days = [first + datetime.timedelta(k) for k in range(8)]
over = [d for d in days if head(d) >= 241]
m = re.fullmatch(r"heads grow above the wire on (\d+) June, in the end by (\d+) cm: they bend and break", lower["if_late"])
if over:
    if not m or int(m[1]) != over[0].day or abs(int(m[2]) - (max(map(head, days)) - 240)) > 0.6: sys.exit(f"{lower['if_late']}, {over[0]} {head(days[-1]):.1f}")
elif lower["if_late"]: sys.exit(lower["if_late"]) # they stay below it: nothing is lost
# ... and it may wait as many days as they stay below it, to what an eye sees (1 cm), a week at most
waits = next((k for k in range(8) if head(first + datetime.timedelta(k)) >= 241), 8) - 1
if float(lower["may_wait_d"]) != max(0, waits): sys.exit(f"lowering may wait {lower['may_wait_d']}, not {waits}")
if not over: sys.exit("the season was to show heads over the wire")
clip = told["clip"]
d = date(clip["date"])
grown = float(stem[d + datetime.timedelta(7)]["stem_cm"]) - float(stem[d]["stem_cm"])
m = re.fullmatch(r"(\d+) cm of stem more without hold: heads topple and kink", clip["if_late"])
if not m or abs(int(m[1]) - grown) > 0.6 or clip["cost_of_waiting"]: sys.exit(f"clips {clip['if_late']}, {grown:.1f}")
for task in ("sucker", "leaf"):
    if task in told and told[task]["cost_of_waiting"] == "": sys.exit(f"{task} has no cost")
PY
python3 check.py >"$work/said" 2>&1 || tell "what waiting costs: $(cat "$work/said")"
run week s.toml --members 1 --today 2026-06-22 --params "$VINEHAND_SOURCE/params" --out out; exits 0
says "pick; a week late costs"
says "heads grow above the wire on"
run week s.toml --members 1 --today 2026-06-22 --params "$VINEHAND_SOURCE/params" --units us --out out; exits 0
bad "metric in US units" grep -qE '[0-9] (kg|cm|C)\b' "$work/out"

# What is done waits no longer; the next pick of the week does.
{ sed 's/^days = \["fri"\]/days = ["mon", "fri"]/' s.toml; printf '[records]\nfile = "done.csv"\n'; } >done.toml
printf 'date,planting,item,value\n2026-06-22,slicers,picked_kg,9\n2026-06-26,slicers,picked_kg,9\n' >done.csv
run forecast done.toml --members 1 --today 2026-06-26 --params "$VINEHAND_SOURCE/params" --out done; exits 0
picks_cost() { python3 -c 'import csv, sys
for r in csv.DictReader(open("done/tasks.csv", newline="")):
    if r["task"] == "pick" and r["date"] == sys.argv[1]: print("done" if float(r["done"]) else "due", "costs" if r["cost_of_waiting"] else "")' "$1"; }
good "today: $(picks_cost 2026-06-26)" [ "$(picks_cost 2026-06-26)" = "done " ]
good "Monday: $(picks_cost 2026-06-29)" [ "$(picks_cost 2026-06-29)" = "due costs" ]

# All plantings' tasks are put off in one run, and each is held against the plan alone: with prices of their own two plantings
# side by side lose what each loses by itself.
house() {
    sed '/^\[\[planting\]\]/,$d' s.toml
    printf '[market]\ndays = ["sat"]\n'
    for name in "$@"; do
        printf '[[market.price]]\nplanting = "%s"\nper_kg = 5\nsells_kg = 9\nprice_share_beyond = 0.5\n' "$name"
    done
    for name in "$@"; do
        printf '[[planting]]\nname = "%s"\ncrop = "tomato-%s"\nplants = 48\nplants_per_m2 = 2.5\n' "$name" "$name"
        printf 'set_out = 2026-02-20\npull_out = 2026-08-10\n[planting.pick]\ndays = ["fri"]\n'
    done
}
for names in "large" "plum" "large plum"; do
    # shellcheck disable=SC2086  # a list of words
    house $names >"$(echo $names | tr ' ' -).toml"
    run forecast "$(echo $names | tr ' ' -).toml" --members 1 --today 2026-06-22 --params "$VINEHAND_SOURCE/params" --out "of-$(echo $names | tr ' ' -)"
    exits 0
done
costs() {
    python3 -c 'import csv, sys
for name in sys.argv[1:]:
    for r in csv.DictReader(open(f"of-{name}/tasks.csv", newline="")):
        if r["planting"] and r["cost_of_waiting"]: print(r["planting"], r["date"], r["task"], r["cost_of_waiting"])' "$@" | sort
}
costs large plum >alone
costs large-plum >together
good "some task costs something" grep -qE ' [0-9.]*[1-9]' alone
good "each loses what it loses alone" cmp alone together
finish
