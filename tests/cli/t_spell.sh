#!/bin/sh
# Weather she expects and its echo: more picks now, set that is lost, thin market days weeks later,
# each with its dates; none of it where the spell is what the days are like anyway.
. "$(dirname -- "$0")/lib.sh"

at="--today 2026-07-10 --params $VINEHAND_SOURCE/params --members 1 --out out"
scenario() {
    small_scenario | sed 's/^pull_out = .*/pull_out = 2026-10-31/
        s/^warmest_high_c = .*/warmest_high_c = 22/; s/^warmest_low_c = .*/warmest_low_c = 12/'
    printf '[market]\ndays = ["sat"]\n'
}
spell() { printf '[[climate.spell]]\nfrom = %s\nuntil = %s\nday_c = %s\nnight_c = %s\n' "$@"; }
rows() { grep -c 'the season was run with them and without' out/warnings.csv; }
# The date, what is said and the date of a row whose text holds $1.
row() { grep -F -e "$1" out/warnings.csv; }

scenario >plain.toml
run forecast plain.toml $at; exits 0
good "without a spell nothing is said of one" [ "$(rows)" -eq 0 ]
cp out/weeks.csv plain-weeks.csv

{ scenario; spell 2026-07-15 2026-07-21 28 20; } >hot.toml
run forecast hot.toml $at; exits 0
good "three echoes" [ "$(rows)" -eq 3 ]
row 'more to pick' >more
good "more now, from the first days of it" grep -qE '^2026-07-1[5-9],slicers,"?about [0-9.]+ kg more to pick 1[5-9] to [0-9]+ (July|August) than' more
good "it says which days are meant" grep -q 'the hot days you expect 15 to 21 July' more
row 'of the set is lost' >set
good "set lost on trusses in flower then or within a fortnight after" \
    grep -qE '^2026-(07-(0[89]|1[0-9]|2[0-9]|3[01])|08-0[0-4]),slicers,"truss(es)? [0-9 to]+, in flower ' set
good "it is to be acted on before" grep -qE ',2026-07-15,do$' set
# of a longer one the trusses that are named are those that open on the days that are named
{ scenario; spell 2026-07-15 2026-07-31 31 23; } >long.toml
run forecast long.toml ${at%out}long; exits 0
python3 - >"$work/out" 2>&1 <<'PY' || tell "the trusses that lose their set: $(cat "$work/out")"
import csv, datetime, re, sys
say = lambda d: (lambda d: f"{d.day} {d:%B}")(datetime.date.fromisoformat(d))
opens = {r["truss"]: say(r["first_flower"]) for r in csv.DictReader(open("long/trusses.csv"))}
what = [r["what"] for r in csv.DictReader(open("long/warnings.csv")) if "of the set is lost" in r["what"]]
first, last, days = re.fullmatch(r"trusses (\d+) to (\d+), in flower (.*): about .*", what[0]).groups()
from_day, to_day = days.split(" to ")
if not re.search("[a-z]", from_day): from_day += " " + to_day.split()[1]
sys.exit(0 if (opens[first], opens[last]) == (from_day, to_day) else f"{what}: {opens[first]}, {opens[last]}")
PY
row 'thin market day' >thin
good "thin days weeks after" \
    awk -F, '$1 >= "2026-08-08" && $1 <= "2026-10-05" { ok = 1 } END { exit !ok }' thin
good "their dates are Saturdays" grep -qE 'thin market days 8, 15 August' thin
# what is said is the difference of the two forecasts
awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i }
    FNR == 1 { next }
    FNR == NR { plain[$at["monday"]] = $at["kg"]; next }
    { d = $at["kg"] - plain[$at["monday"]]
      if ($at["monday"] >= "2026-07-13" && $at["monday"] <= "2026-08-03" && d > 0) more += d
      if ($at["monday"] >= "2026-08-03" && d < 0) less -= d }
    END { print more, less }' plain-weeks.csv out/weeks.csv >sums
read -r more less <sums
said_more=$(sed 's/.*about \([0-9.]*\) kg more.*/\1/' more)
said_less=$(sed 's/.* less, \([0-9.]*\) kg in all.*/\1/' thin)
good "the kilograms now ($said_more) are those of the weeks ($more)" \
    awk -v a="$said_more" -v b="$more" 'BEGIN { exit !(a > 0.8 * b && a < 1.3 * b) }'
good "the kilograms later ($said_less) are no more than the weeks lack ($less)" \
    awk -v a="$said_less" -v b="$less" 'BEGIN { exit !(a > 0.5 * b && a < 1.1 * b) }'

# so hot that no fruit turns red: behind first, then all at once
{ scenario; spell 2026-07-15 2026-07-21 36 25; } >red.toml
run forecast red.toml $at; exits 0
good "behind first" grep -qE '^2026-07-1[5-9],slicers,about [0-9.]+ kg less to pick' out/warnings.csv
good "then more" grep -qE '^2026-07-2[0-9],slicers,about [0-9.]+ kg more to pick' out/warnings.csv

# without a market the weeks are named; past weather is told by the log, not by a spell
sed '/^\[market\]/,/^days/d' hot.toml >weeks.toml
run forecast weeks.toml $at; exits 0
good "weeks are named" grep -qF 'thin weeks from' out/warnings.csv
run forecast hot.toml --today 2026-07-22 --params "$VINEHAND_SOURCE/params" --members 1 --out out; exits 0
good "a spell that is over is not told" [ "$(rows)" -eq 0 ]

# cold holds back; what changes nothing is not told
{ scenario; spell 2026-07-15 2026-07-28 14 4; } >cold.toml
run forecast cold.toml $at; exits 0
good "cold: less now" grep -qE 'kg less to pick .* than without the cold days' out/warnings.csv
good "cold days are called so" grep -qF 'the cold days you expect 15 to 28 July' out/warnings.csv
{ scenario; printf '[[climate.spell]]\nfrom = 2026-07-15\nuntil = 2026-07-16\nsky = "mixed"\n'; } >same.toml
run forecast same.toml $at; exits 0
good "the usual sky is no echo" [ "$(rows)" -eq 0 ]
finish
# days that are likely to be above 30 C are told apart, those she typed among them; others may be in one future of ten
cp -r "$VINEHAND_SOURCE/scenarios/two-bays" bays
run week bays --today 2026-07-14 --members 40 --out out; exits 0
bad "a day that is not likely to be hot" grep -q 'begin at dawn' "$work/out" out/report.html out/sheet.html
printf '\n[[climate.spell]]\nfrom = 2026-07-15\nuntil = 2026-07-18\nday_c = 33\nnight_c = 21\nsky = "clear"\n' >>bays/scenario.toml
run week bays --today 2026-07-14 --members 40 --out out; exits 0
good "the days she typed" grep -qE '^CARE +We Th Fr Sa 3[2-6] to 3[5-9] C: begin at dawn' "$work/out"
good "the report's first" grep -qE 'class="care"><li>We Th Fr Sa 3[2-6] to 3[5-9] °C: begin at dawn' out/report.html
good "the sheet" grep -qE 'class="care"><p><b>Wed 3[2-6] °C, Thu 3[2-6] °C, Fri 3[2-6] °C, Sat 3[2-6] °C\.</b> Begin at dawn' out/sheet.html
