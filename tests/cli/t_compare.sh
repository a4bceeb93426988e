#!/bin/sh
# The same season under other choices: what is printed, what is written, and what stays when it is stopped.
. "$(dirname -- "$0")/lib.sh"
LC_ALL=C.UTF-8
export LC_ALL

compare() { 
    case $* in *--threads*) ;; *) set -- "$@" --threads 1 ;; esac
    run compare s.toml --today 2026-02-01 --params "$VINEHAND_SOURCE/params" "$@"
}
choices() { small_scenario; printf '\n[compare]\n%s\n' "$1"; }
# column of the row whose first cells are CHOICE and PLANTING
cell() {
    python3 - "$1" "$2" "$3" "$4" <<'PY'
import csv, sys
for row in csv.DictReader(open(sys.argv[1])):
    if row["choice"] == sys.argv[2] and row["planting"] == sys.argv[3]:
        print(row[sys.argv[4]])
PY
}
sums() { (cd "$1" && sha256sum -- * | sort); }

# Nothing to compare: what to add, and nothing written.
small_scenario >s.toml
compare --members 2 --out out; exits 2; quiet_out
complains "nothing to compare"
complains "    fruits_kept = [2, 3, 4]"
bad "something was written" [ -e out ]
choices 'all_combinations = false' >s.toml
compare --members 2 --out out; exits 2; complains "nothing to compare"

# The plan first, then one choice after the other; a choice that is the plan differs in nothing.
choices 'planting = "slicers"
fruits_kept = [2, 4]
suckers_every_d = [7, 21]
pull_out = [2026-08-20]' >s.toml
compare --members 5 --threads 1 --out one; exits 0
says "One bay · slicers · 5 choices from 1 February, the same 5 futures for each"
says "as planned"; says "leave 2 "; says "THE PLAN   leave 4; suckers every 7 days"
says "Money is not counted: no price is given"
bad "a money column without money" [ -n "$(cell one/choices.csv 'leave 2' slicers margin)" ]
bad "a line beyond 80 columns" grep -qE '^.{81}' "$work/out"
sed "s/^name = \"One bay\"/name = \"The bay behind the old pear tree\"/" s.toml >far.toml
run compare far.toml --today 2026-02-01 --params "$VINEHAND_SOURCE/params" --members 2 --out far; exits 0
bad "a long name beyond 80 columns" grep -qE '^.{81}' "$work/out"; rm -r far
run forecast far.toml --today 2026-02-01 --params "$VINEHAND_SOURCE/params" --members 1 --out far; exits 0
bad "a long name beyond 80 columns" grep -qE '^.{81}' "$work/out"; rm -r far
cat >"$work/header" <<'CSV'
choice,planting,fruit_g,kg_per_plant,market_kg,income,hours,supplies_cost,heating_cost,margin,better_chance
CSV
good "the columns of interface.md" [ "$(head -1 one/choices.csv | cut -d, -f1-11)" = "$(cat "$work/header")" ]
good "differences behind" sh -c 'head -1 one/choices.csv | grep -q ",fruit_g_diff,fruit_g_diff_p10,fruit_g_diff_p90,.*,margin_diff_p90,flips_if$"'
good "the plan is the first row" sh -c 'sed -n 2p one/choices.csv | grep -q "^as planned,slicers,"'
good "the plan again differs in nothing" [ "$(cell one/choices.csv 'suckers every 7 days' slicers market_kg_diff)" = 0 ]
good "fewer fruits are heavier" sh -c "awk 'BEGIN { exit !($(cell one/choices.csv 'leave 2' slicers fruit_g_diff) > 5) }'"
good "longer in the house, more fruit" sh -c "awk 'BEGIN { exit !($(cell one/choices.csv 'pull out 20 August' slicers market_kg_diff_p10) > 0) }'"
good "listed in datapackage.json" grep -q '"choices.csv"' one/datapackage.json

# The files of the forecast are those of the forecast; any number of threads, the same bytes.
run forecast s.toml --today 2026-02-01 --params "$VINEHAND_SOURCE/params" --members 5 --out plain; exits 0
for file in weeks picks trusses tasks supplies; do
    good "$file.csv is the forecast's" cmp -s plain/$file.csv one/$file.csv
done
bad "choices of a forecast" [ -e plain/choices.csv ]
compare --members 5 --threads 8 --out eight; exits 0
good "the same bytes with 8 threads" cmp -s one/choices.csv eight/choices.csv
compare --members 5 --draw 2 --out other; exits 0
bad "another draw, the same numbers" cmp -s one/choices.csv other/choices.csv
compare --members 1 --out mean --units us; exits 0
says "one future, no ranges"; says "lb"
bad "a range of one future" [ -n "$(cell mean/choices.csv 'leave 2' slicers market_kg_diff_p10)" ]

# What is past stays: a choice made late in the season changes little of it.
run compare s.toml --today 2026-07-20 --params "$VINEHAND_SOURCE/params" --members 4 --out late; exits 0
good "three weeks before the end there is little left to choose" sh -c "awk 'BEGIN {
    late = $(cell late/choices.csv 'leave 2' slicers fruit_g_diff); early = $(cell one/choices.csv 'leave 2' slicers fruit_g_diff)
    exit !(late >= 0 && late < early / 4) }'"

# Every choice with every other; several plantings, and their sum.
{ small_scenario | sed 's/2026-08-10/2026-06-20/'
    small_scenario | sed -n '/^\[\[planting/,$p' | sed 's/slicers/more/; s/2026-08-10/2026-06-20/'
    printf '[compare]\nfruits_kept = [2, 3]\nleaves_kept = [12, 14, 18]\nall_combinations = true\n'; } >s.toml
compare --members 2 --out all; exits 0; says "all plantings"
good "six choices and the plan, of two plantings and all" [ "$(wc -l <all/choices.csv)" -eq 22 ]
good "their names" grep -q '^"leave 3, keep 18 leaves",all,' all/choices.csv
good "the sum is the sum" python3 - <<'PY'
import csv, sys
kg = {r["planting"]: float(r["market_kg"]) for r in csv.DictReader(open("all/choices.csv")) if r["choice"] == "as planned"}
sys.exit(abs(kg["slicers"] + kg["more"] - kg["all"]) > 1e-3)
PY

# What is proposed of topping is what comparing its days says, and pays.
small_scenario >s.toml
run forecast s.toml --today 2026-06-05 --params "$VINEHAND_SOURCE/params" --members 20 --threads 1 --out top; exits 0
on=$(awk -F, '$3 == "top" { print $1 }' top/tasks.csv)
choices "top_on = [$(date -u -d "$on - 7 days" +%F), $on, $(date -u -d "$on + 7 days" +%F)]" >s.toml
run compare s.toml --today 2026-06-05 --params "$VINEHAND_SOURCE/params" --members 20 --threads 1 --out top; exits 0
good "the day that is proposed pays most" python3 - <<'PY'
import csv, sys
plan, *diff = [float(r["market_kg_diff"] or 0) for r in csv.DictReader(open("top/choices.csv"))]
sys.exit(not (diff[1] > 0 and diff[1] == max(diff)))
PY

# A floor that is full: of the longer stay of one and the earlier coming of the other.
{ small_scenario | sed 's/^\[house\]/[house]\nfloor_area_ft2 = 240/; s/2026-08-10/2026-04-20/'
    small_scenario | sed -n '/^\[\[planting/,$p' | sed 's/slicers/more/; s/2026-08-10/2026-06-20/; s/2026-02-20/2026-04-20/'
    printf '[compare]\nplanting = "more"\nset_out = [2026-04-10, 2026-04-24]\n'; } >s.toml
compare --members 2 --units us --out full; exits 0
says "NO ROOM    Set out 10 April: from 10 April to 19 April all would need 413 ft2 of"
bad "no room where there is" grep -qi 'room.*24 April' "$work/out"
good "in the table" [ "$(cell full/choices.csv 'set out 10 April' more floor_from)" = 2026-04-10 ]
good "for that choice alone" [ -z "$(cell full/choices.csv 'set out 24 April' more floor_from)" ]
sed 's/set_out = 2026-04-20/set_out = 2026-04-10/; /^set_out = \[/d; $a fruits_kept = [2]' s.toml >late.toml
run check late.toml --params "$VINEHAND_SOURCE/params"
complains "from 2026-04-10 to 2026-04-19 need 413.3 ft2"; complains "the floor has 240 ft2"

# A choice that changes the past cannot change what she wrote down of it, and says so.
said() { tr -s '\n ' '  ' <"$work/out" | grep -qF "$1"; }
later() { run compare s.toml --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --threads 1 "$@"; }
choices 'set_out = [2026-03-06]' >s.toml
later --members 2 --out back; exits 0; says "they say what would have been."
{ cat s.toml; printf '[records]\nfile = "picked.csv"\n'; } >back.toml; mv back.toml s.toml
printf 'date,planting,item,value\n2026-06-01,slicers,picked_kg,12\n' >picked.csv
later --members 2 --out back; exits 0
good "her picks stay" said "they say what would have been, but picks that you wrote down count in each of them as they are"
later --members 2 --no-records --out back; exits 0; says "they say what would have been."

# Money: what is left over is what is said of its parts, in two decimals.
{ choices 'fruits_kept = [3]'
    printf '[market]\ndays = ["sat"]\n[[market.price]]\ncrop = "tomato-large"\nper_kg = 6\n[labour]\nper_h = 18\n[stock.cost]\nplant = 2.5\n'; } >s.toml
compare --members 4 --out money; exits 0; says "money left over"; says "Money left over = income less"
says "heating (house.heat_loss_w_k is not given)"
good "the sum of its parts" python3 - <<'PY'
import csv, re, sys
for r in csv.DictReader(open("money/choices.csv")):
    money = [r[c] for c in ("income", "supplies_cost", "margin")]
    if not all(re.fullmatch(r"-?[0-9]+\.[0-9][0-9]", m) for m in money) or r["heating_cost"]:
        sys.exit("no money: %s" % money)
    income, supplies, margin = map(float, money)
    if abs(income - 18 * float(r["hours"]) - supplies - margin) > 0.05 or supplies != 120:
        sys.exit("%g - 18 x %s - %g is not %g" % (income, r["hours"], supplies, margin))
PY

# The search says what it tried, and claims no gain that could be chance.
choices 'search = "margin"' >s.toml
compare --members 4 --out found; exits 0; says "SEARCH     slicers, for more money:"; says "choices of fruits tried in"
compare --members 4 --out again --threads 3; exits 0
good "the same search with other threads" cmp -s found/choices.csv again/choices.csv
choices 'search = "size"
at_least_g = 165' >s.toml
compare --members 4 --out found; exits 0; says "for size:"; says "a search from 1 February"
good "fruit heavier by a tenth at least" python3 - <<'PY'
import csv, sys
plan, *_, found = [float(r["fruit_g"]) for r in csv.DictReader(open("found/choices.csv"))]
sys.exit(found < 1.1 * plan)
PY
choices 'search = "gaps"' >s.toml
compare --members 2 --out found; exits 0; says "GAPS       no market day to come stays below"
bad "a word on choices where there are none" grep -q '^SURE' "$work/out"
# what it finds is no worse than what she asks of, more than the one that a cucumber's node keeps among it
choices 'fruits_kept = [2]
search = "margin"' | sed 's/tomato-large/cucumber-mini/; s/2026-08-10/2026-06-10/' >s.toml
compare --members 4 --out found; exits 0; says "from node"
good "three a node is the most it tries, and it says so" sh -c "tr -s '\n ' '  ' <'$work/out' | grep -q 'more than 3 were not tried'"
good "as good as the best of the table" python3 - <<'PY'
import csv, sys
plan, two, found = [float(r["market_kg"]) for r in csv.DictReader(open("found/choices.csv"))]
sys.exit(two < 1.05 * plan or found < two)
PY

# Stopped: the old results stay whole. (--foreground: else timeout sends the signal twice, and a second Ctrl-C ends at once.)
choices 'fruits_kept = [1, 2, 3, 5]' >s.toml
compare --members 2 --out kept; exits 0; first=$(sums kept)
timeout --foreground --preserve-status -s INT 1 "$VINEHAND" compare s.toml --today 2026-02-01 --params "$VINEHAND_SOURCE/params" \
    --members 20000 --out kept >"$work/out" 2>"$work/err"; rc=$?
last="compare (Ctrl-C)"; look_for_faults; exits 130; quiet_out; complains "earlier results stay"
good "the old set stays" [ "$first" = "$(sums kept)" ]
good "no leftovers" [ "$(find . -maxdepth 1 -name '.vh-*' | wc -l)" -eq 0 ]
# the demo sells by the pound and has no price of fuel: a screen of kilograms says prices a kilogram, and what is not counted
# is not told as a cost
run compare "$VINEHAND_SOURCE/scenarios/two-bays" --members 20 --today 2026-07-14 --out demo; exits 0
bad "pounds in a metric screen" grep -qE ' a lb|[0-9] lb' "$work/out"
says "Money left over = income less paid hours, supplies and plants. Not counted:"
run compare "$VINEHAND_SOURCE/scenarios/two-bays" --members 20 --today 2026-07-14 --units us --out demo; exits 0
bad "kilograms in a US screen" grep -qE ' a kg|[0-9] kg|(^| )0[.]0( |$)' "$work/out"
# tomatoes and cucumbers have no mean mass of a fruit between them; each planting has its own
cp -r "$VINEHAND_SOURCE/scenarios/two-bays" mixed
sed -i '/^\[compare\]/,$ { /^planting = /d; /^leaves_kept/d; /^suckers_every_d/d }' mixed/scenario.toml
run compare mixed --members 5 --today 2026-07-14 --out demo; exits 0; says "all plantings"
bad "a mean fruit of two crops" grep -q 'grams' "$work/out"
good "none in the table" [ -z "$(cell demo/choices.csv 'as planned' all fruit_g)" ]
good "each planting has one" [ -n "$(cell demo/choices.csv 'as planned' cucumbers fruit_g)" ]
finish
