#!/bin/sh
# note: one checked line more in the records file; every other byte stays as it is.
. "$(dirname -- "$0")/lib.sh"
PARAMS=$VINEHAND_SOURCE/params

scenario() {
    small_scenario
    printf '[records]\nfile = "records.csv"\n'
}
note() { run note "$@" --today 2026-07-14 --params "$PARAMS"; }

# becomes BEFORE AFTER ARG...: the file (printf texts) turns into just these bytes
becomes() {
    before=$1 after=$2
    shift 2
    printf "$before" >records.csv
    printf "$after" >"$work/after"
    note "$@"
    exits 0
    cp "$work/out" "$work/noted"
    cmp records.csv "$work/after" >"$work/differs" 2>&1 || tell "not as it should be: $(cat "$work/differs"; cat records.csv)"
    run check --today 2026-07-14 --params "$PARAMS"
    exits 0
}
# refused BEFORE TEXT ARG...: exit 2, TEXT on standard error, not a byte changed, nothing left beside
refused() {
    before=$1 text=$2
    shift 2
    printf "$before" >records.csv
    cp records.csv "$work/kept"
    note "$@"
    exits 2
    quiet_out
    complains "$text"
    good "the file is as it was" cmp -s records.csv "$work/kept"
    good "nothing lies beside it" [ "$(ls -A | wc -l)" -eq 2 ]
}

# ---- no file, no [records] ----

small_scenario >scenario.toml
note slicers picked_kg 14.2
exits 2; quiet_out
complains 'add the two lines [records] and file = "records.csv"'
good "nothing was made" [ "$(ls -A)" = scenario.toml ]

scenario >scenario.toml
note slicers picked_kg 14.2
exits 0; quiet_err
says "records.csv, line 2, a new file: 2026-07-14,slicers,picked_kg,14.2,,,"
good "our header" [ "$(head -1 records.csv)" = date,planting,item,value,truss,of,note ]
good "two lines" [ "$(wc -l <records.csv)" -eq 2 ]
run check --today 2026-07-14 --params "$PARAMS"
exits 0; says "1 row: read"; says "1 value: used, the last of 2026-07-14"

# ---- long form ----

H='date,planting,item,value,truss,of,note\n'
R='2026-07-10,slicers,picked_kg,13.1,,,"hot, dry"\n'
becomes "$H$R" "$H${R}2026-07-14,slicers,picked_kg,14.2,,,\n" slicers picked_kg 14.2
good "it says what it wrote" grep -qxF "records.csv, line 3: 2026-07-14,slicers,picked_kg,14.2,,," "$work/noted"
becomes "$H$R" "$H${R}2026-07-12,slicers,fruits_left,4,12,6,\n" \
    slicers fruits_left 4 --date 2026-07-12 --truss 12 --of 6
becomes "$H$R" "$H${R}2026-07-14,slicers,picked_lb,31,,,\n" slicers picked_lb 31
becomes "$H$R" "$H${R}2026-07-14,slicers,picked_kg,14.2,,,\n" slicers picked_kg 14,2
becomes "$H$R" "$H${R}2026-07-14,slicers,done_lower,0.5,,,\n" . slicers done_lower 0.5
# a last line without an end stays without one
becomes 'date,planting,item,value\n2026-07-10,slicers,picked_kg,13.1' \
    'date,planting,item,value\n2026-07-10,slicers,picked_kg,13.1\n2026-07-14,slicers,picked_kg,9' slicers picked_kg 9
# a header alone, without a line end
becomes 'date,planting,item,value' 'date,planting,item,value\n2026-07-14,slicers,picked_kg,9' slicers picked_kg 9
# other order, semicolons, decimal commas, Windows line ends, a byte order mark
B='\357\273\277planting;value;date;item\r\nslicers;13,1;2026-07-10;picked_kg\r\n'
becomes "$B" "${B}slicers;14,2;2026-07-14;picked_kg\r\n" slicers picked_kg 14.2
becomes 'date;planting;item;value\r\n2026-07-10;slicers;picked_kg;13,1' \
    'date;planting;item;value\r\n2026-07-10;slicers;picked_kg;13,1\r\n2026-07-14;slicers;picked_kg;9,5' slicers picked_kg 9.5
becomes 'date\tplanting\titem\tvalue\n2026-07-10\tslicers\tpicked_kg\t13.1\n' \
    'date\tplanting\titem\tvalue\n2026-07-10\tslicers\tpicked_kg\t13.1\n2026-07-14\tslicers\tpicked_kg\t9.5\n' slicers picked_kg 9.5
# columns of hers stay, and stay empty
becomes 'date,who,planting,item,value\n2026-07-10,me,slicers,picked_kg,13\n' \
    'date,who,planting,item,value\n2026-07-10,me,slicers,picked_kg,13\n2026-07-14,,slicers,picked_kg,9\n' slicers picked_kg 9

# ---- wide form: one line a visit ----

W='date,planting,picked_kg,flowering_truss,note\n'
becomes "${W}2026-07-14,slicers,14.2,,\n2026-07-10,slicers,13,,\n" \
    "${W}2026-07-14,slicers,14.2,16.5,\n2026-07-10,slicers,13,,\n" slicers flowering_truss 16.5
good "it says so" grep -qF "line 2, filled" "$work/noted"
becomes "${W}2026-07-10,slicers,13.1,,\n" "${W}2026-07-10,slicers,13.1,,\n2026-07-14,slicers,14.2,,\n" slicers picked_kg 14.2
becomes "${W}2026-07-14,slicers,,16,\"a, \"\"b\"\"\"\r\n" "${W}2026-07-14,slicers,14.2,16,\"a, \"\"b\"\"\"\r\n" slicers picked_kg 14.2
# her pounds, and a kilogram typed
becomes 'date;planting;picked_lb\n2026-07-10;slicers;28,5\n' \
    'date;planting;picked_lb\n2026-07-10;slicers;28,5\n2026-07-14;slicers;22,0462\n' slicers picked_kg 10
# another truss is another line; what is weighed of the planting is not
T='date,planting,truss,picked_kg,fruits_set\n2026-07-14,slicers,11,,4\n'
becomes "$T" "${T}2026-07-14,slicers,12,,5\n" slicers fruits_set 5 --truss 12
becomes "$T" 'date,planting,truss,picked_kg,fruits_set\n2026-07-14,slicers,11,9.5,4\n' slicers picked_kg 9.5
refused "${W}2026-07-14,slicers,13.1,,\n" 'records.csv:2: picked_kg of slicers has 13.1 on 2026-07-14 already' slicers picked_kg 14.2
refused "${W}2026-07-14,slicers,13.1,,\n" 'there is no column for stem_cm' slicers stem_cm 400
refused "${W}2026-07-14,slicers,13.1,,\n" 'there is no column truss' slicers flowering_truss 16 --truss 3
refused "${W}2026-07-14,slicers,13.1,,\n" 'there is no column of; add it' slicers flowering_truss 16 --of 3
refused "${W}2026-07-14,slicers,13.1,,\n" 'no item is called `picked_kgs`; did you mean picked_kg?' slicers picked_kgs 14.2
# a number of pieces is never written as so many kilograms: whether the file is wide or long
for unknown in sold_fruits:sold_kg unmarketable_fruits:unmarketable_kg thrown_fruits:unmarketable_kg left_pieces:left_kg rot_fruits:rot_kg; do
    for form in "${W}2026-07-14,slicers,13.1,,\n" "$H$R"; do
        refused "$form" "no item is called \`${unknown%:*}\`; it is known by weight alone: weigh them, or take the pieces times what one weighs, and write ${unknown#*:}" slicers "${unknown%:*}" 70
    done
done
refused "$H$R" 'no item is called `picked_pieces`; did you mean picked_kg or picked_fruits?' slicers picked_pieces 70
refused "${W}2026-07-14,slicers,13.1,,\n" 'records.csv: no item is called `zzzzz`; write one of ours, as in picked_kg or done_lower' slicers zzzzz 3
refused "${W}2026-07-14,slicers,13.1,,\n" 'records.csv: `stem_in` may be two items in another unit; write the item in centimetres, millimetres or metres' slicers stem_in 80

# ---- refused as check would refuse it ----

for case in 'slicer picked_kg 14' 'slicers picked_kgs 14' 'slicers picked_kg many' 'slicers picked_kg 1e9' \
    'slicers done_lower 2' 'slicers stem_in 90'; do
    printf "$H$R" >records.csv
    # shellcheck disable=SC2086
    note $case
    exits 2
    cp "$work/err" "$work/said"
    good "the file is as it was: $case" [ "$(wc -l <records.csv)" -eq 2 ]
    # shellcheck disable=SC2086
    set -- $case
    printf '2026-07-14,%s,%s,%s,,,\n' "$1" "$2" "$3" >>records.csv
    run check --today 2026-07-14 --params "$PARAMS"
    exits 2
    good "the same words: $case" cmp -s "$work/err" "$work/said"
done
refused "$H$R" 'is before slicers was set out (2026-02-20)' slicers picked_kg 3 --date 2026-01-10
refused "$H${R}2026-07-12,slicers,picked_kg,much,,,\n" 'records.csv:3: `picked_kg` is "much", no number' slicers picked_kg 3
refused '' 'the value is missing; write it last, as in vinehand note slicers picked_kg 14.2' slicers picked_kg
refused '' 'the value is missing; write it last, as in vinehand note slicers done_lower 1' slicers done_lower
refused '' 'the value is missing; write it last, as in vinehand note . slicers picked_kg 14.2' . slicers picked_kg
refused '' 'the planting or the item is missing before 3.2; as in vinehand note slicers picked_kg 3.2' slicers 3.2
refused '' 'the planting or the item is missing before 3.2; as in vinehand note . slicers picked_kg 3.2' . slicers 3.2
# a house of that name beside it is not meant
mkdir slicers && small_scenario >slicers/scenario.toml
becomes "$H" "${H}2026-07-14,slicers,picked_kg,3.2,,,\n" slicers picked_kg 3.2
rm -r slicers
refused '' 'the item and the value are missing; as in vinehand note slicers picked_kg 14.2' slicers
refused '' 'the item and the value are missing; as in vinehand note . "early slicers" picked_kg 14.2' . 'early slicers'
refused '' 'no more words; a name with blanks stands in quotation marks' . early slicers picked kg 3
refused '' 'an amount is never below 0' slicers picked_kg -5
refused '' 'note wants a planting, an item and a value'
refused '' '--date 14/7/2026 is no date; write year-month-day, as in --date 2026-07-14, or --date "14 July"' slicers picked_kg 3 --date 14/7/2026
refused '' '--date ? is no date' slicers picked_kg 3 --date '?'
refused '' '--date 31 June is no date' slicers picked_kg 3 --date '31 June'
# the reader of start's dates: a month by its name, of the year that lies nearest
becomes "$H" "${H}2026-06-26,slicers,picked_kg,3,,,\n" slicers picked_kg 3 --date '26 June'
becomes "$H" "${H}2026-06-26,slicers,picked_kg,3,,,\n" slicers picked_kg 3 --date 'Jun 26'
# a unit behind the number: the item that bears it
refused "$H$R" '`picked_kg` is "31lb", no number; write 31 as picked_lb, or leave' slicers picked_kg 31lb
refused "$H$R" '`picked_kg` is "31.5 lbs", no number; write 31.5 as picked_lb, or leave' slicers picked_kg '31.5 lbs'
refused "$H$R" '`picked_kg` is "14 KG", no number; write digits alone, as in 12.5, or leave' slicers picked_kg '14 KG'
refused "$H$R" '`picked_kg` is "3cm", no number; write digits alone, as in 12.5, or leave' slicers picked_kg 3cm
refused "$H$R" '`picked_kg` is "1,250 lb", no number; write digits alone, as in 12.5' slicers picked_kg '1,250 lb'
refused "$H$R" '`picked_kg` is "31 LB", no number; write 31 as picked_lb, or leave' slicers picked_kg '31 LB'
refused "$H$R" '`picked_kg` is "lb", no number; write digits alone, as in 12.5, or leave' slicers picked_kg lb
refused "$H$R" '`picked_kg` is "31 kilogrammes", no number; write digits alone, as in 12.5, or leave' slicers picked_kg '31 kilogrammes'
refused '' '--truss 0 is no whole number' slicers picked_kg 3 --truss 0

refused "$H" 'no item is called `qqqq`; write one of ours, as in picked_kg or done_lower; vinehand explain items lists them' slicers qqqq 3

# ---- doubts of this line alone, and days to come ----

printf "${H}2026-07-14,slicers,stem_cm,300,,5,\n" >records.csv
note slicers stem_cm 300 --of 5
exits 0; complains "records.csv:3: warning: an earlier line says the same; it counts once"
bad "the sum of two equal stems" grep -q "their sum" "$work/err"
# Blanks round the name are no other planting.
note ' slicers' stem_cm 300 --of 5
exits 0; complains "records.csv:4: warning: an earlier line says the same; it counts once"
printf "${H}2026-07-14,slicers,picked_kg,14,,,\n" >records.csv
note slicers picked_kg 14
exits 0; complains "records.csv:3: warning: an earlier line says the same; it counts once. Were there two such lots that day, make one line of both, with their sum"

printf "${H}2026-07-14,slicers,picked_kg,140,,,\n" >records.csv
note slicers picked_kg 14
exits 0; complains "records.csv:3: warning: 2026-07-14 has 140 already, on line 2, which is doubted and counts for nothing beside this; if that was a slip, take line 2 out of the file"
printf "${H}2026-07-14,slicers,picked_kg,18,,,\n" >records.csv
note slicers picked_kg 14
exits 0; complains "records.csv:3: warning: 2026-07-14 has 18 already, on line 2, and both are added; if one of them is a slip, take line 3 or 2 out of the file"
printf "${H}2026-06-29,slicers,picked_kg,14,,,\n2026-07-02,slicers,picked_kg,14,,,\n2026-07-06,slicers,picked_kg,14,,,\n2026-07-10,slicers,picked_kg,14,,,\n2026-07-14,slicers,picked_kg,140,,,\n" >records.csv
note slicers picked_kg 150
exits 0; complains "records.csv:7: warning: 2026-07-14 has 140 already, on line 6, and both are doubted and count for nothing; if one of them is a slip, take line 6 or 7 out of the file"
complains "records.csv:7: warning: picked_kg of slicers is 150: you usually pick 14; is 150 right?"
printf "${H}2026-07-01,slicers,picked_kg,12,,,\n2026-07-04,slicers,picked_kg,11,,,\n2026-07-08,slicers,picked_kg,13,,,\n2026-07-11,slicers,picked_kg,12,,,\n2026-07-14,slicers,picked_kg,14,,,\n" >records.csv
note slicers picked_kg 140
exits 0; complains "records.csv:7: warning: 2026-07-14 has 14 already, on line 6, beside which this one counts for nothing; if this is the slip, take line 7 out of the file"
printf "${H}2026-07-01,slicers,picked_kg,12,,,\n2026-07-03,slicers,picked_kg,11,,,\n2026-07-06,slicers,picked_kg,130,,,\n2026-07-10,slicers,picked_kg,12,,,\n" >records.csv
note slicers picked_kg 12
exits 0; quiet_err
note slicers picked_kg 120 --date 2026-07-13
exits 0; complains "records.csv:7: warning: picked_kg of slicers is 120"
good "one doubt" [ "$(wc -l <"$work/err")" -eq 1 ]
note slicers picked_kg 12 --date 2026-07-20
exits 0; complains "the day is after today"
note slicers fruits_left 3
exits 0; complains "is of one truss"
# a truss that cannot have come yet: set out on 20 February, at the crop's fastest no more than truss 29 flowers by 14 July
note slicers fruits_set 5 --truss 99
exits 0; complains "records.csv:10: warning: fruits_set of slicers is of truss 99, but by 2026-07-14 it can have made 2"
complains "write the truss it was counted on"
note slicers flowering_truss 99
exits 0; complains "records.csv:11: warning: flowering_truss of slicers is 99, more than the 2"
note slicers fruits_set 5 --truss 17
exits 0; quiet_err
good "one doubt each" [ "$(wc -l <records.csv)" -eq 12 ]
sed -i '10,12d' records.csv
# more stems looked at than stand there
cp records.csv "$work/kept"
note slicers flowering_truss 16.4 --of 60
exits 2; complains 'records.csv:10: `of` is 60, but slicers is 48 plants with 48 stems; write how many of them were looked at'
good "the file is as it was" cmp -s records.csv "$work/kept"
note slicers fruit_g 180 --of 60
exits 0; quiet_err
sed -i '10d' records.csv
run check --today 2026-07-14 --params "$PARAMS"
says "1 row after today: not used"

# what she usually picks is known after four picks: a comma in the wrong place is told, a flush is not
usual="${H}2026-06-19,slicers,picked_kg,22,,,\n2026-06-23,slicers,picked_kg,30,,,\n2026-06-26,slicers,picked_kg,20,,,\n2026-06-30,slicers,picked_kg,26,,,\n"
printf "$usual" >records.csv
note slicers picked_kg 280 --date 2026-07-03
exits 0; complains "records.csv:6: warning: picked_kg of slicers is 280: you usually pick 21.5 to 27.0; is 280 right?"
run check --today 2026-07-14 --params "$PARAMS"
exits 0; complains "is 280 right?"
printf "$usual" >records.csv
note slicers picked_kg 70 --date 2026-07-03
exits 0; quiet_err

# ---- written safely ----

# ---- what is counted is whole where it is typed; a file may hold means (tests/validate/records.awk makes such) ----

refused "$H$R" 'records.csv:3: `picked_fruits` is 12.5; it is counted in whole pieces, write 12 or 13' slicers picked_fruits 12.5
refused "$H$R" 'records.csv:3: `picked_fruits` is 12,5; it is counted in whole pieces, write 12 or 13' slicers picked_fruits 12,5
refused "$H$R" 'records.csv:3: `picked_fruits` is 12,000; write digits alone, as in 12' slicers picked_fruits 12,000
refused "$H$R" 'no number; write digits alone, as in 12, or' slicers picked_fruits sixty
becomes "$H$R" "$H${R}2026-07-14,slicers,picked_fruits,12.0,,,\n" slicers picked_fruits 12.0
becomes "$H$R" "$H${R}2026-07-14,slicers,picked_kg,12.5,,,\n" slicers picked_kg 12.5

printf "$H$R" >kept.csv
chmod 640 kept.csv
rm -f records.csv
ln -s kept.csv records.csv
note slicers picked_kg 14.2
exits 0
good "still a link" [ -h records.csv ]
good "what it points to has the line" [ "$(wc -l <kept.csv)" -eq 3 ]
good "permissions are kept" [ "$(stat -c %a kept.csv)" = 640 ]
rm records.csv
printf "$H$R" >records.csv
printf 'mine' >"$work/out-of-it"
note slicers picked_kg 14.2 --quiet
exits 0; quiet_out; quiet_err
if [ "$(id -u)" -ne 0 ]; then
    chmod 444 records.csv
    note slicers picked_kg 15.2
    exits 1
    complains "cannot be written"
fi
good "no hidden file is left" [ "$(ls -A | grep -c '^\.vh')" -eq 0 ]
# ---- a crop that is seen standing: what was before is not of this reckoning ----

{ small_scenario | sed 's/^set_out.*//'; printf '[records]\nfile = "records.csv"\n[planting.standing]\non = 2026-05-12\nflowering_truss = 9\npicking_truss = 2\n'; } >scenario.toml
sed -n '/^\[records\]/,/^file/p' scenario.toml >"$work/records_table"; sed -i '/^\[records\]/,/^file/d' scenario.toml; cat "$work/records_table" >>scenario.toml
printf 'date,planting,item,value,truss,of,note\n' >records.csv
note slicers picked_kg 3 --date 2026-05-01; exits 0
complains "the day is before the standing crop was seen; it does not count"
note slicers picked_kg 3 --date 2026-05-15; exits 0; quiet_err

# A column that the scenario names another way is filled by our word and by hers.
mkdir mapped
{ short_season Mapped; printf '[records]\nfile = "r.csv"\n[records.columns]\npicked_kg = "Harvest"\n'; } >mapped/scenario.toml
printf 'date,planting,Harvest,leaves_made\n2026-05-10,slicers,3.5,\n' >mapped/r.csv
run note mapped slicers picked_kg 3 --date 2026-05-15 --today 2026-05-15; exits 0; says "2026-05-15,slicers,3,"
run note mapped slicers Harvest 4 --date 2026-05-16 --today 2026-05-16; exits 0; says "2026-05-16,slicers,4,"
finish
