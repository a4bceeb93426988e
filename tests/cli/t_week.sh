#!/bin/sh
# week: one screen of at most 40 lines and 80 columns, the blocks in the order of urgency, true to tasks.csv.
. "$(dirname -- "$0")/lib.sh"
two="$VINEHAND_SOURCE/scenarios/two-bays"

# screen WHAT: what stands in $work/out is a screen
screen() {
    good "$1: at most 40 lines" [ "$(wc -l <"$work/out")" -le 40 ]
    bad "$1: a line beyond 80 columns" grep -qE '^.{81}' "$work/out"
    bad "$1: columns run together" grep -qE '(days|daily|Mon|Tue|Wed|Thu|Fri|Sat|Sun|Mo|Tu|We|Th|Fr|Sa|Su|wait)[0-9]' "$work/out"
    good "$1: blocks in their order" [ "$(grep -oE '^(SATURDAY|DO FIRST|PICK|ORDER|CARE|LOOK)' "$work/out" | grep -v ORDER |
        tr '\n' ';')" = "SATURDAY;DO FIRST;PICK;CARE;LOOK;" ]
}
for day in 2026-05-04 2026-06-01 2026-07-14 2026-09-01; do
    run week "$two" --members 1 --today $day --out out; exits 0; screen $day
    bad "$day: letters beyond ASCII" grep -q '[^ -~]' "$work/out"
    says "Blades cut"; says "licensed"
    [ $day != 2026-07-14 ] || good "$day: both visits of the week are told" grep -qE 'lower cucumbers [0-9]+ to [0-9]+ cm' "$work/out"
    # DO FIRST has each task of the seven days in one line with the plantings that may wait as long; what finds no room costs
    # least to put off
    python3 - out/tasks.csv $day "$work/out" >"$work/list" <<'PY' || tell "the list is not that of tasks.csv: $(cat "$work/list")"
import csv, datetime, re, sys
today = datetime.date.fromisoformat(sys.argv[2])
words = {"suckers": "sucker", "truss supports": "support", "leaves off": "leaf", "take the heads off": "top", "hang strings": "string",
         "set out": "plant", "take out": "pull_out", "clean the blades": "clean"}
tasks = {} # (task, planting): days to the last on which its first visit may be made, days it may wait, cost
for row in csv.DictReader(open(sys.argv[1], newline="")):
    d = (datetime.date.fromisoformat(row["date"]) - today).days
    if 0 <= d < 7 and row["task"] != "walk":
        t = tasks.setdefault((row["task"], row["planting"]), [d, 1e9, 0.0])
        t[1] = min(t[1], float(row["may_wait_d"] or 1e9))
        t[2] += float(row["cost_of_waiting"] or 0)
lines = []
for line in open(sys.argv[3]).read().split("DO FIRST")[1].split("PICK ")[0].splitlines()[1:]:
    if m := re.match(r" {1,2}\d+  (.{45}) (.{10})(.{8})", line): lines.append([m[1], m[2] + m[3]])
    elif "in all" in line: break
    else: lines[-1][0] += " " + line
more = int(m[1]) if (m := re.search(r"(\d+) more in tasks.csv", line)) else 0
last, costs = -1, []
for text, when in lines:
    head = re.split("[:;(]", text)[0]
    task = next((t for w, t in words.items() if head.startswith(w)), head.split()[0])
    mine = [k for k in tasks if k[0] == task and (task == "pick" or not k[1] or re.search(rf"\b{k[1]}\b", head))]
    if task == "lower": mine = [k for k in mine if k[1] in text]
    if not mine: sys.exit(f"not in tasks.csv: {text}")
    told = [tasks.pop(k) for k in mine]
    wait = min(w for d, w, c in told)
    said = "cannot" if wait < 1 else f"{int(wait)} day" if wait < 1e8 else ""
    if said not in when: sys.exit(f"may wait {wait}: {text} {when}")
    if task != "pick" and len({int(w) for d, w, c in told}) > 1: sys.exit(f"not as long: {text}")
    latest = min(d + (int(w) if w < 1e8 else w) for d, w, c in told)
    if latest < last: sys.exit(f"not the most urgent first: {text}")
    last = latest
    if task != "pick" and wait >= 3: costs.append(sum(c for d, w, c in told))
if bool(tasks) != bool(more) or more > len(tasks): sys.exit(f"{more} more, {tasks}")
if tasks and costs and max(c for d, w, c in tasks.values()) > min(costs) + 1e-9: sys.exit(f"left out though dearer: {tasks}, {costs}")
if len(lines) < 5: sys.exit(f"only {len(lines)} lines, {tasks}")
PY
    python3 "$VINEHAND_SOURCE/tests/cli/week_times.py" out $day "$work/out" >"$work/list" 2>&1 || tell "the times: $(cat "$work/list")"
done
run week "$two" --members 40 --today 2026-07-14 --out out; exits 0; screen "the whole week"
bad "the week has room but for a line" grep -qE "([2-9]|[0-9][0-9]) more in tasks.csv" "$work/out"
says "pollinate plums and slicers; late "; says "suckers, plums, cucumbers and slicers; late"
# stems of several rounds are those of each
cp -r "$two" bees; sed -i '0,/^by = "hand".*/s//by = "bees"/' bees/scenario.toml
run week bees --members 1 --today 2026-07-14 --out out; exits 0; says "pollinate plums (40 stems each time)"
LC_ALL=C.UTF-8 "$VINEHAND" week "$two" --members 1 --today 2026-07-14 --out out >"$work/out" 2>"$work/err"
good "a dot where the locale is UTF-8" grep -q '·' "$work/out"
run week "$two" --members 3 --today 2026-07-14 --out out; exits 0
bad "halves of a turn stand as such on a page" grep -qE "1/2 turn" out/sheet.html out/report.html; good "there are some" grep -q "1½ turn" out/sheet.html
bad "turns are halves for people, in all futures too" grep -qE '[0-9][.][0-9]+ turn' out/tasks.csv out/sheet.html out/report.html out/work.ics
run week "$two" --members 1 --today 2026-07-14 --out out; exits 0
good "the run is week's" grep -q '"command": "week"' out/run.json
good "the same tables as forecast" [ -s out/weeks.csv ] && [ -s out/work.ics ]
run week "$two" --members 1 --today 2026-07-14 --units us --out out; exits 0; screen us
bad "metric in her calendar" sh -c "tr -d '\r' <out/work.ics | sed -e ':a' -e 'N;s/\\n //;ba' | grep -qE '[0-9] (kg|cm)'"; good "pounds in it" grep -q "[0-9] lb" out/work.ics
says " lb"; bad "metric in US units" grep -qE '[0-9] (kg|cm|C)\b' "$work/out"
cp "$work/out" us; cp -r "$two" pounds; sed -i 's/^name = "Two bays"/&\nunits = "us"/' pounds/scenario.toml
run week pounds --members 1 --today 2026-07-14 --out out; exits 0; good "the scenario's own units" cmp -s us "$work/out"
run week pounds --members 1 --today 2026-07-14 --units metric --out out; exits 0; says " kg likely"
run week "$two" --members 1 --today 2026-07-14 --out out --quiet; exits 0; quiet_out
run week no-such; exits 2; quiet_out
run week "$two" --members 1 --today 2026-12-24 --out over; exits 0
# before the first fruit: none, not 0.0; and no log is no hours
{ small_scenario; printf '[market]\ndays = ["sat"]\n'; } >young.toml
run week young.toml --members 2 --today 2026-03-10 --out young; exits 0
says "SATURDAY   slicers   none"; says "21 March: slicers none"; bad "a zero" grep -q '0[.]0' "$work/out"
run forecast young.toml --members 2 --today 2026-03-10 --out young; exits 0
says "7 DAYS     slicers none"; says "SATURDAY   slicers   none"; says "CLIMATE    no hours logged"
bad "a zero" grep -q '0[.]0' "$work/out"
run week "$two" --members 1 --today 2026-12-24 --out over; exits 0
says "OVER       the last day of this scenario was 10 November 2026"; says "learn SCENARIO --save kept.csv"
good "the sheet has no box for plants that are out" grep -q "Nothing stands in the house this week" over/sheet.html
bad "a box for plants that are out" grep -q "<section class=.pl" over/sheet.html
bad "plants that are out are counted" grep -q "^LOOK" "$work/out"
run week "$two" --members 1 --today 2026-10-20 --out over; exits 0; says "LOOK       which is in flower, on 5 plants (expect slicers"
bad "cucumbers are out since 10 October" grep -q "cucumbers node" "$work/out"
run week young.toml --members 2 --today 2026-02-10 --out young; exits 0; says "BEGINS     the season on 20 February 2026, in 10 days"
# what was picked since the last market day lies in store: as written down, else as foreseen; of today's pick only
# what is not written down is still to be picked
run week "$two" --members 1 --today 2026-07-14 --out out; exits 0
foreseen=$(python3 -c 'import csv; print(round(sum(float(r["fruits"]) for r in csv.DictReader(open("out/picks.csv"))
    if r["planting"] == "cucumbers" and "2026-07-11" < r["date"] < "2026-07-14")))')
says "           in store by now, as foreseen: $foreseen cucumbers"; good "slicers are to be picked" grep -q "^PICK       Tue [0-9]* kg slicers, " "$work/out"
cp -r "$two" noted; printf '2026-07-13,cucumbers,picked_fruits,41,,,\n2026-07-14,slicers,picked_kg,14.2,,,\n' >>noted/records.csv
run week noted --members 1 --today 2026-07-14 --out out; exits 0
good "the sheet asks for plums alone on Tuesday" [ "$(grep -o 'class="wh">Tue [0-9.]*, Fri' out/sheet.html | wc -l)" -eq 1 ]
bad "the page does not ask for what is picked" grep -q "Tue [0-9.]*, Fri [0-9.]* kg slicers" out/report.html
good "both as written down" grep -q "in store by now 14 kg slicers, 41 cucumbers$" "$work/out"
good "slicers are picked" grep -q "^PICK       Tue [0-9]* kg plums " "$work/out"
# ... and so it is with all other work of today, by whichever of its items it is written down: it is no longer asked for
cp -r "$two" done; for item in done_lower,1 done_leaf,1; do echo "2026-07-14,cucumbers,$item,,,"; done >>done/records.csv
asked() { sed -n '/<b>1 Cucumbers/,/<b>2 /p' out/sheet.html | sed 's/<b>2 .*//' | grep -o "<b>$1</b> <span class=\"wh\">[^<]*" | sed 's/.*>//'; }
run week "$two" --members 1 --today 2026-07-14 --out out; exits 0
good "lowering is asked for" [ "$(asked Lower)" = "Tue, Fri" ]; good "leaves are" [ "$(asked Leaves | grep -c Tue)" -eq 1 ]
good "on the screen too" grep -qE '^ +[0-9]+  lower cucumbers .* Tue Fri ' "$work/out"
good "nothing is done of it" [ "$(grep -cE '^2026-07-14,cucumbers,(lower|leaf),.*,0$' out/tasks.csv)" -eq 2 ]
run week done --members 1 --today 2026-07-14 --out out; exits 0
good "both are done" [ "$(grep -cE '^2026-07-14,cucumbers,(lower|leaf),.*,1$' out/tasks.csv)" -eq 2 ]
bad "what is lowered today is not lowered again" grep -qE '^ +[0-9]+  lower cucumbers .* Tue ' "$work/out"
bad "nor on the sheet" [ "$(asked Lower | grep -c Tue)" -ne 0 ]; good "no leaves today" [ "$(asked Leaves | grep -c Tue)" -eq 0 ]
sed -i 's/cucumbers,done_lower,1/cucumbers,lowered_cm,30/; s/cucumbers,done_leaf,1/cucumbers,minutes_leaf,4/' done/records.csv
run week done --members 1 --today 2026-07-14 --out out; exits 0
good "by centimetres and minutes too" [ "$(asked Lower | grep -c Tue)$(asked Leaves | grep -c Tue)" = 00 ]
# what is picked has its colour and its place on the sheet, and the market day the numbers of the screen
run week "$two" --members 3 --today 2026-07-14 --out out; exits 0
cat >kept.py <<'PY'
import re, sys
screen = " ".join(open(sys.argv[1]).read().split("AFTER")[0].split())
sheet = open("out/sheet.html", encoding="utf-8").read()
wanted = {"cucumbers": r"Keep at 10 to 12 °C, never beside slicers or plums\. ",
          "slicers": r"Tue [a-z ]+, keep at 18 to 20 °C; Fri [a-z ]+, keep at 10 to 13 °C, never beside cucumbers\. ",
          "plums": r"Tue [a-z ]+, keep at 18 to 20 °C; Fri [a-z ]+, keep at 10 to 13 °C, never beside cucumbers\. "}
for name, kept in wanted.items():
    section = re.search(rf"<b>\d {name.capitalize()}</b>.*?</section>", sheet, re.S)[0]
    under = re.search(r'<b>Pick</b>.*?</small><small class="kept">(.*?)</small>', section, re.S)[1]
    likely, safe, ordered, stall = re.search(rf"{name} ([\d.]+)(?: kg)? likely.*? safe ([\d.]+)(?: ([\d.]+) ordered, ([\d.]+) stall)?", screen).groups()
    market = f"Saturday: safe {safe}" + ("" if name == "cucumbers" else " kg") + (f", {ordered} ordered, {stall} stall" if ordered else "") + "."
    if not re.fullmatch(kept + re.escape(market), under): print(f"{name}: {under}; the screen: {market}")
    # each visit has its own line to write on, with its day where there are several; the leaves on a stem are asked for once
    visits = [(title, [day.split()[0] for day in days.split(", ")], task) for title, days, task
              in re.findall(r'<li class="task"><div><b>([^<]*)</b> <span class="wh">([^<]*)<(.*?)</li>', section, re.S)]
    for title, days, task in visits:
        lines = re.findall(r'<span class="bl"></span>[^<,]*(?:, (\w+))?<', task)
        if lines != (days if len(days) > 1 or title == "Pick" else [""]) or task.count("</span>not done<") != len(days): print(f"{name}: {title} on {days}, lines for {lines}")
    if not any(len(days) > 1 and title not in ("Pick", "Lower") for title, days, task in visits) and name != "slicers": print(f"{name}: {visits}")
    asked = sheet.count("leaves_on_stem"), len(re.findall(r'<div class="rec[ a-z]*"><div>[^<]*: leaves on a stem<', sheet))
    if asked[0] != asked[1] or asked[0] != 3: print(f"{name}: leaves asked for {asked}")
PY
python3 kept.py "$work/out" >said 2>&1
good "the sheet's picks: $(cat said)" [ ! -s said ]
run week "$two" --members 1 --today 2026-07-14 --out out; exits 0
good "one future promises nothing" grep -qE 'plums[.] Saturday: likely [0-9]+, 15 ordered[.]<' out/sheet.html
# doubts of several plantings: all of them are named, and how many more warnings there are
cp -r "$two" slips; printf '2026-07-12,cucumbers,picked_fruits,900,,,\n2026-07-13,slicers,picked_kg,150,,,\n2026-07-13,plums,picked_kg,140,,,\n' >>slips/records.csv
run week slips --members 1 --today 2026-07-14 --out out; exits 0
good "the others too" sh -c "tr -s ' \n' '  ' <'$work/out' | grep -qE '12 July cucumbers: picked_fruits 900 is doubted; [^;]*; mend it if it is a slip or begin its note with .right.; likewise slicers and plums; [0-9]+ more in warnings.csv'"
# cucumbers that stand close with a fruit at every leaf are fed too little and picked by their age: that is said, with the mass of the week
bad "they are large enough" grep -q "stay small" "$work/out"
cp -r "$two" hungry; sed -i 's/^fruits = 0.5 /fruits = 1.0 /; s/^plants_per_m2 = 1.6/plants_per_m2 = 3/' hungry/scenario.toml
run week hungry --members 1 --today 2026-07-14 --out out; exits 0; says "cucumbers stay small, about "; says "you pick from 350 g"
mean=$(awk -F, '$2 == "cucumbers" && $1 >= "2026-07-14" && $1 < "2026-07-21" { kg += $4; n += $3 } END { g = 1000 * kg / n; step = g < 300 ? 5 : 10; printf "%d", step * int(g / step + 0.5) }' out/picks.csv) # as a scale shows it
says "stay small, about $mean g"
for name in others more; do planting $name cucumber-long 20 3 2026-05-08 2026-10-10 >>hungry/scenario.toml; done
run week hungry --members 1 --today 2026-07-14 --out out; exits 0
good "both in one block" [ "$(grep -c "stay small" "$work/out")" -eq 1 ]; good "the other is named" sh -c "tr -s ' \n' '  ' <'$work/out' | grep -qE '; likewise others [(]about [0-9]+ g[)] and more [(]about [0-9]+ g[)] '"
run explain hungry 2026-07-18 --members 1 --today 2026-07-14; exits 0; says "smaller than it is picked from"
# what was written down stands beside the model's count
run forecast noted --members 1 --today 2026-07-14 --out out; exits 0
weighed=$(awk -F, '$2 == "slicers" && $3 == "picked_kg" { s += $4 } $2 == "slicers" && $3 == "picked_lb" { s += $4 * 0.45359237 }
    END { printf "%d0", s / 10 + 0.5 }' noted/records.csv)
says "BY NOW     counts what you wrote down, and the model elsewhere: slicers $weighed kg"
# check reckons by the book and says so
run check noted --today 2026-07-14; exits 0; says "before learning from your records"
# a count that is not worth it is not asked for; who never wrote anything down is told to weigh, once there is a pick
run week "$two" --members 40 --today 2026-03-10 --out out; exits 0; bad "nothing to measure yet" grep -q "^MEASURE" "$work/out"
sed '/^\[records\]/,/^$/d' "$two/scenario.toml" >noted/scenario.toml
run week noted --members 1 --today 2026-07-14 --out out; exits 0; says "MEASURE    weigh each pick and note it (picked_kg)"
run week noted --members 1 --today 2026-03-10 --out out; exits 0; bad "no pick yet" grep -q "^MEASURE" "$work/out"
# leaves of sweet pepper are planned every fortnight: that is no fortnight missed
{ sed 's/tomato-[a-z]*/pepper-large/' "$VINEHAND_SOURCE/tests/cli/one-bay.toml"
  printf 'set_out = 2026-05-10\npull_out = 2026-10-10\n[records]\nfile = "none.csv"\n'; } >pepper.toml
echo 'date,planting,item,value,truss,of,note' >none.csv
run week pepper.toml --members 1 --today 2026-07-07 --out out; exits 0
good "leaves come off" grep -q ",leaf," out/tasks.csv
bad "leaves are behind" grep -q "behind" out/warnings.csv out/tasks.csv
printf '2026-06-07,slicers,done_leaf,1,,,\n2026-06-21,slicers,done_leaf,0,,,\n2026-07-05,slicers,done_leaf,0,,,\n' >>none.csv
run week pepper.toml --members 1 --today 2026-07-07 --out out; exits 0
good "two visits that were missed are" grep -q "leaves are a fortnight behind" out/warnings.csv
# a crop of which nothing can be picked yet has no block before DO FIRST, and no second empty line
small_scenario >bare.toml
run week bare.toml --members 1 --today 2026-02-20 --out out; exits 0
bad "no flower is looked for before the first" grep -q '^LOOK' "$work/out"
good "one empty line before the list" [ "$(sed -n 2,3p "$work/out" | cut -c1-8 | tr '\n' '|')" = "|DO FIRST|" ]
# what is safe beyond orders goes to the stall as far as it sells there; the rest is named
stall() { sed -n '/^SATURDAY/,/^AFTER/p' "$work/out" | tr -s ' \n' '  ' | grep -oE 'cucumbers .*' | grep -oE 'safe .*stall(, [0-9]+ more than sells)?'; }
run week "$two" --members 3 --today 2026-07-14 --out out; exits 0; bad "all of it sells" grep -q 'more than sells' "$work/out"
says "all that comes off; for the market only what can be sold counts"
cp -r "$two" few; sed -i 's/^sells_fruits = 70.*/sells_fruits = 5/' few/scenario.toml
run week few --members 3 --today 2026-07-14 --out out; exits 0
good "5 sell, the rest is named: $(stall)" [ "$(stall | sed -nE 's/safe ([0-9]+) ([0-9]+) ordered, 5 stall, ([0-9]+) more than sells/\1 - \2 - \3/p')" != "" ]
good "they add up: $(stall)" [ "$(($(stall | sed -E 's/safe ([0-9]+) ([0-9]+) ordered, 5 stall, ([0-9]+) more than sells/\1 - \2 - \3/')))" -eq 5 ]
beyond=$(stall | grep -oE '[0-9]+ more' | grep -oE '[0-9]+')
good "the page says the same" grep -q " ordered, 5 for the stall, $beyond more than sells" out/report.html
good "and offers 5, the rest to be ordered" sh -c "grep -o 'To send to customers.*order them ahead' out/report.html | grep 'about 5 cucumbers' | grep -q 'More than the stall sells: about $((beyond < 10 ? beyond : beyond / 5 * 5)) cucumbers'"
finish
