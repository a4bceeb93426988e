#!/bin/sh
# Her hours stand on both screens and on the page, for the same seven days and the same weeks; what else she does is named, not
# counted in. The sums are those of tasks.csv and hours.csv.
. "$(dirname -- "$0")/lib.sh"
cp -r "$VINEHAND_SOURCE/scenarios/two-bays" house
at="--params $VINEHAND_SOURCE/params --members 8 --threads 1 --today 2026-07-14 --no-records"
line() { tr '\n' ' ' <"$1" | tr -s ' '; }

run week house $at --out out; exits 0
sum=$(python3 -c "
import csv
print('%.1f' % (sum(float(t['minutes']) for t in csv.DictReader(open('out/tasks.csv')) if '2026-07-14' <= t['date'] < '2026-07-21' and t['done'] != '1') / 60))")
good "the sum beside her hours" grep -qE "; in all of your 12 h +[0-9 hmin]+$" "$work/out"
good "the page says it of the same days" grep -qF "That is from 14 July to 20 July, $sum of your 12 h; lettuce (9 h) not counted in." out/report.html
full=$(python3 -c "
import collections, csv
week = collections.Counter()
for t in csv.DictReader(open('out/hours.csv')):
    week[t['monday']] += float(t['hours']) * (t['task'] != 'lettuce')
print('%.1f' % max(h for monday, h in week.items() if monday >= '2026-07-13'))")

run forecast house $at --out out; exits 0
line "$work/out" >said
good "forecast has the fullest week" grep -qE "HOURS fullest week from Monday [0-9]+ [A-Z][a-z]+: $full of your 12 h; lettuce \(9 h\) not counted in" said
good "and the page the same" grep -qE "most work to come is $full[^h]*hours in the week from Monday" out/report.html
good "clips run out" grep -qE "SUPPLIES clips: [0-9]+ left after this week, gone [0-9]+ [A-Z][a-z]+: order by [0-9]+ [A-Z][a-z]+; [0-9 ]+ are used to the end" said

# too few: said beside the sum, and no day of it is past
sed -i 's/^hours_per_week = 12/hours_per_week = 1.5/; s/^clips = .*/clips = 9000/' house/scenario.toml
run week house $at --out out; exits 0
good "too few beside the sum" grep -qE "; in all, you have 1.5 h +[0-9 hmin]+$" "$work/out"
good "the warning begins today at the soonest" awk -F, '/hours do not suffice/ { n++; if ($1 < "2026-07-14") exit 1 } END { exit n == 0 }' out/warnings.csv
run forecast house $at --out out; exits 0; line "$work/out" >said
good "forecast says so too" grep -qE "HOURS fullest week from Monday [0-9]+ [A-Z][a-z]+: $full h, you have 1.5 h; lettuce" said
good "what lasts is told together" grep -qE "to the end last: [a-z, ]*clips" said

# without hours there is nothing to hold them against
sed -i '/^hours_per_week = 1.5/d' house/scenario.toml
run week house $at --out out; exits 0; bad "no hours of hers" grep -qE "in all of your|you have" "$work/out"
run forecast house $at --out out; exits 0; line "$work/out" >said
good "the fullest week all the same" grep -qE "HOURS fullest week from Monday [0-9]+ [A-Z][a-z]+: $full hours [A-Z]" said
finish
