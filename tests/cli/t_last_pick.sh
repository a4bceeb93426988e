#!/bin/sh
# planting.pick.last_stage and last_from_g: the day of pull_out alone changes, it gives more, and `week`, tasks.csv and
# `explain` say why.
. "$(dirname -- "$0")/lib.sh"

scenario() { # KEY-LINE for tomatoes, KEY-LINE for cucumbers
    cat <<END
[house]
name = "Bay"
latitude_deg = 44.5
wire_height_m = 2.9
[climate]
heat_c = 18
[climate.roughly]
warmest_high_c = 28
warmest_low_c = 16
coldest_high_c = -2
coldest_low_c = -12
[market]
days = ["sat"]
$(planting slicers tomato-large 48 2.5 2026-04-20 2026-09-25)
[planting.pick]
days = ["tue", "fri"]
$1
$(planting cucumbers cucumber-long 24 1.6 2026-06-01 2026-09-26)
[planting.pick]
every_d = 2
$2
END
}
at="--today 2026-09-21 --members 1"
season() { run forecast "$1.toml" $at --out "$1"; exits 0; } # season NAME: of NAME.toml, into NAME
scenario "" "" >plain.toml
scenario 'last_stage = "breaker"' 'last_from_g = 150' >last.toml
season plain
season last
for planting in slicers cucumbers; do
    for run in plain last; do awk -F, -v p=$planting '$2 == p { print $1, $4 }' $run/picks.csv >$run.$planting; done
    good "$planting: only the last pick is another" \
        [ "$(sed '$d' plain.$planting)" = "$(sed '$d' last.$planting)" ]
    good "$planting: the last pick is more" awk 'NR == 1 { was = $2 } NR == 2 { exit !($2 > 1.05 * was) }' \
        <<END
$(tail -n 1 plain.$planting)
$(tail -n 1 last.$planting)
END
done
# pulled out on a Friday, alone in the house: Saturday's market sells what was picked last, all of it
for run in plain last; do
    sed '/^\[\[planting\]\]/{x;s/^/x/;/xx/{x;q};x}' $run.toml | sed '$d' >$run-alone.toml
    season $run-alone
done
sold() { awk -F, '$1 == "2026-09-26" && $2 == "slicers" && $3 == "all" { print $4 }' "$1-alone/market_days.csv"; }
sound() { awk -F, '$1 > "2026-09-19" && $2 == "slicers" { kg += $4 - $6 } END { print kg }' "$1-alone/picks.csv"; }
for run in plain last; do
    good "$run: the market day after the pull-out sells what was picked in its week" \
        awk 'NR == 1 { sold = $1 } NR == 2 { exit !(sold > 1 && sold > 0.999 * $1 && sold < 1.001 * $1) }' <<END
$(sold $run)
$(sound $run)
END
done
run explain last-alone.toml 2026-09-26 $at; exits 0; says "of it by the last pick alone"
run week last-alone.toml $at --out last-alone; exits 0; says "SATURDAY"
good "the tomatoes' last pick is told" grep -q "Fri slicers, the last pick" "$work/out"

good "tasks.csv says so of the last pick alone" [ "$(grep -c 'the last pick: ' last/tasks.csv)" -eq 2 ]
good "and where it is not asked for of none" [ "$(grep -c 'the last pick: ' plain/tasks.csv)" -eq 0 ]
scenario 'stage = "pink"
last_stage = "pink"' 'from_g = 300
last_from_g = 300' >same.toml
season same
good "and of none where it takes no more than others" [ "$(grep -c 'the last pick: ' same/tasks.csv)" -eq 0 ]
grep -q '2026-09-25,slicers,pick,.*the last pick: all goes from breaker on' last/tasks.csv
good "tasks.csv: slicers" [ $? -eq 0 ]
run week last.toml $at --out last; exits 0
says "Fri slicers, the last pick: all goes from breaker on"
says "Sat cucumbers, the last pick: all goes from 150 g on"
run week last.toml $at --units us --out last; exits 0
says "Sat cucumbers, the last pick: all goes from 5.3 oz on"
good "the sheet says so too, where two days are picked and where four are" \
    [ "$(grep -c 'the last pick: all goes from breaker on' last/sheet.html)/$(grep -c 'the last pick: all goes from 5.3 oz on' last/sheet.html)" = 1/1 ]
good "and the report" \
    [ "$(grep -o '(Fri the last pick: all goes from breaker on)\|(Sat the last pick: all goes from 5.3 oz on)' last/report.html | wc -l)" -eq 2 ]
{ cat last.toml; printf '[records]\nfile = "picked.csv"\n'; } >noted.toml
printf 'date,planting,item,value\n2026-09-25,slicers,picked_kg,20\n2026-09-25,cucumbers,picked_kg,8\n' >picked.csv
run week noted.toml --today 2026-09-25 --members 1 --out noted; exits 0
good "once it is noted week says it no more" [ "$(grep -c "slicers, the last pick" "$work/out")" -eq 0 ]
says "Sat cucumbers, the last pick"
run explain last.toml 2026-09-26 $at; exits 0; says "of it by the last pick alone"; says "planting.pick.last_stage"
run explain plain.toml 2026-09-26 $at; exits 0; good "of an ordinary last pick it says nothing" [ "$(grep -c "by the last pick alone" "$work/out")" -eq 0 ]
finish
