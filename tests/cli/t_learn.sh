#!/bin/sh
# learn: what it prints, that it changes nothing, that what it saves is read next season; forecast and
# week learn by themselves.
. "$(dirname "$0")/lib.sh"

house=$work/house
mkdir "$house"
cp "$VINEHAND_SOURCE"/scenarios/two-bays/* "$house"
# four weeks of records: each week gone is forecast anew, which takes its time
awk -F, 'NR == 1 || $1 >= "2026-06-15"' "$VINEHAND_SOURCE/scenarios/two-bays/records.csv" >"$house/records.csv"
cat "$house"/* | cksum >"$work/before"
season="--today 2026-07-14 --params $VINEHAND_SOURCE/params --members 20 --threads 2"
cd "$work/in" || exit 1

run learn "$house" $season --out "$work/out-1" --save kept.csv; exits 0
says " records to 12 July"
says "LEARNT"
says "HOW FAR"
says "Left out: cucumbers, for their picks were counted, not weighed; note"
good "and on the page" grep -q "Left out: cucumbers, for their picks were counted" "$work/out-1/report.html"
says "truss in flower, 2"
says "Kept in kept.csv for next season"
says "Nothing in your files was changed"
good "80 columns" [ "$(awk 'length > 80' "$work/out" | wc -l)" -eq 0 ]
good "her files are as they were" [ "$(cat "$house"/* | cksum)" = "$(cat "$work/before")" ]
good "learned.csv has the light of the house" grep -q '^,light,1,1,' "$work/out-1/learned.csv"
good "learned.csv has the slicers' trusses" grep -q '^slicers,truss_pace,' "$work/out-1/learned.csv"
says "MEASURE    one count today would narrow Saturday's range most: slicers, "
good "to_measure.csv says by how much, the most worth first" awk -F, '
    NR == 1 && $0 != "planting,item,truss,of,expect,market_day,until,kg,kg_low,kg_high,narrows" { exit 1 }
    NR > 1 && ($11 < 0 || $11 > 1 || ($1 == was && $11 + 0 > last) || !($9 < $8 && $8 < $10)) { exit 1 }
    { was = $1; last = $11 + 0 } END { if (NR < 4) exit 1 }' "$work/out-1/to_measure.csv"
good "the kept file names what it is" [ "$(head -n 1 kept.csv)" = crop_or_planting,name,factor,low,high ]

# nothing is written over
cksum <kept.csv >"$work/kept"
run learn "$house" $season --out "$work/none" --save nowhere/kept.csv; exits 2
complains "there is no folder nowhere to save in; make it, or name another"
run learn "$house" $season --out "$work/none" --save kept.csv/kept.csv; exits 2
complains "there is no folder kept.csv to save in; make it, or name another"
bad "it learnt first" test -e "$work/none"
run learn "$house" $season --out "$work/out-1" --save kept.csv; exits 2
complains "is there already and stays as it is"
good "the kept file is as it was" [ "$(cksum <kept.csv)" = "$(cat "$work/kept")" ]
run forecast "$house" $season --out "$work/out-1" --save other.csv; exits 2
complains "--save belongs to learn"

# next season's scenario reads it: what was learnt is what it begins with
cp kept.csv "$house/kept.csv"
printf '\n[parameters]\nfile = "kept.csv"\n' >>"$house/scenario.toml"
run check "$house" --today 2026-07-14; exits 0; says "begins with kept.csv of [parameters]"
run forecast "$house" --members 1 --today 2026-07-14 --out kept-out; exits 0; says "begins with kept.csv"
run learn "$house" $season --no-records --out "$work/out-2" --save again.csv; exits 1
complains "nothing was learnt"
good "nothing was saved" [ ! -e again.csv ]
ln -s house "$work/my house"
run learn "$work/my house" $season --out "$work/out-2"; exits 0
says "vinehand learn \"$work/my house\" --save kept.csv"
kept=$(awk -F, '$1 == "house" && $2 == "light" { print $3 }' kept.csv)
good "the book's place is taken by what was kept" grep -q "^,light,1,$kept," "$work/out-2/learned.csv"

# a fortnight of records tells light from little else: it moves the forecast all the same
mkdir "$work/fresh"
cp "$VINEHAND_SOURCE"/scenarios/two-bays/* "$work/fresh"
cp "$house/records.csv" "$work/fresh/records.csv"
run forecast "$work/fresh" --today 2026-06-30 --params "$VINEHAND_SOURCE/params" --members 20 --threads 2 --out "$work/out-fresh"; exits 0
good "what is not sure but moves the forecast is said too" python3 - "$work/out" "$work/out-fresh/learned.csv" <<'PY'
import csv, re, sys
said = re.search(r"^LEARNT.*?(?=^[A-Z])", open(sys.argv[1]).read(), re.M | re.S)[0]
rows = [r for r in csv.DictReader(open(sys.argv[2])) if r["told_apart"] != "yes"]
felt = [r for r in rows if abs(float(r["after"]) - float(r["before"])) >= (0.5 if r["unit"] == "K" else 0.05)]
unsure = " ".join(said.split()).partition("reckoned with, but not sure yet: ")[2]
sys.exit(not felt or len(unsure.split("; ")) != min(2, len(felt)))
PY

# forecast and week say so; without records, or with one future, they do not
run forecast "$house" $season --out "$work/out-3"; exits 0
says "LEARNT     from your records to 12 July"
run week "$house" $season --out "$work/out-3"; exits 0
says " - records to 12 July"; bad "a line beyond 80 columns" grep -qE '^.{81}' "$work/out"
good "one line says what to measure, where a count is worth it" python3 - "$work/out" "$work/out-3/to_measure.csv" <<'PY'
import csv, re, sys
most = max(float(r["narrows"]) for r in csv.DictReader(open(sys.argv[2])))
said = re.search(r"^MEASURE +\S.*?narrows\s+Saturday's\s+range\s+most \((\d+) %\)", open(sys.argv[1]).read(), re.M | re.S)
sys.exit(said is not None if most < 0.02 else not said or said[1] != f"{100 * most:.0f}")
PY
run forecast "$house" $season --no-records --out "$work/out-3"; exits 0
good "no word of learning" [ "$(grep -c LEARNT "$work/out")" -eq 0 ]
run learn "$house" --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --members 1 --out "$work/out-3"
exits 0; bad "to keep what was not learnt" grep -q -e '--save' "$work/out"
says "so few futures have in common is mostly chance"

# names as long as a sentence have lines for themselves: no line is wider than a terminal
sed -i 's/"Two bays"/"The two long bays behind the barn by the road to the mill - eastern side"/; s/"slicers"/"the slicers in the long bay by the road"/; s/"plums"/"plums of the middle row - eastern"/; s/"cucumbers"/"the very first planting of long cucumbers in the northern bay beside the road A"/' "$house/scenario.toml"
sed -i 's/,slicers,/,the slicers in the long bay by the road,/; s/,plums,/,plums of the middle row - eastern,/; s/,cucumbers,/,the very first planting of long cucumbers in the northern bay beside the road A,/' "$house/records.csv"
grep -q '"the very first planting' "$house/scenario.toml" || tell "no longest name"
for command in check learn week forecast; do
    run $command "$house" $season --out "$work/out-long"; exits 0
    bad "a line of $command beyond 80 columns" grep -qE '^.{81}' "$work/out"
done

finish
