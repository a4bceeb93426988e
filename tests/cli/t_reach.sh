#!/bin/sh
# A beginner's 20 kg a plant is questioned: by the run, by the records, by an order; so is next to
# nothing; what is usual is not.
. "$(dirname -- "$0")/lib.sh"

at="--today 2026-07-14 --params $VINEHAND_SOURCE/params"
# One line of all, so that the wrapping does not matter.
tells() { tr '\n' ' ' <"$work/out" | tr -s ' ' | grep -qF -e "$1" || tell "standard output lacks: $1"; }
warned() { grep -cF -e "$1" out/warnings.csv; }

small_scenario >usual.toml
run check usual.toml $at; exits 0; quiet_err
says "HARVEST, AND WHAT SUCH HOUSES REACH"; says "slicers"; tells "weeks of picking; such houses reach"
bad "the usual is not questioned" grep -q Questioned "$work/out"
run check usual.toml $at --units us; exits 0; tells "lb a plant"; tells " a ft2"
run forecast usual.toml $at --members 1 --out out; exits 0; says "REACH      slicers"
good "no warning of it" [ "$(warned questioned)" -eq 0 ]

# two and a half times the light, and air as rich as can be bought
small_scenario | sed 's/^cover = .*/cover_transmission = 1.0\nlight_factor = 1.6/
    s/^heat_c = .*/heat_c = 17.0\nco2_ppm = 1000/' >much.toml
run check much.toml $at; exits 0; tells "Questioned: that is more than such houses reach"
run forecast much.toml $at --members 1 --out out; exits 0
tells "the season's harvest is questioned: more than such houses reach"
good "how much a plant is said once on the screen" [ "$(tr '\n' ' ' <"$work/out" | grep -oE '[0-9.]+ +kg +a +plant' | sort -u | wc -l)" -eq 1 ]
good "the warning stands once" [ "$(warned 'more than such houses reach')" -eq 1 ]

small_scenario | sed 's/^heat_c = .*/heat_c = 17.0\nshade_share_taken = 0.85/' >little.toml
run check little.toml $at; exits 0; tells "Questioned: that is less than such houses reach"
run forecast little.toml $at --members 1 --out out; exits 0
good "the warning stands once" [ "$(warned 'less than such houses reach')" -eq 1 ]

small_scenario | sed 's/^pull_out = .*/pull_out = 2026-03-20/' >never.toml
run check never.toml $at; exits 0; tells "slicers nothing is ripe before it is pulled out"
run forecast never.toml $at --members 1 --out out; exits 0
good "the warning stands once" [ "$(warned 'nothing is ripe')" -eq 1 ]

# 20 kg a plant weighed in twelve weeks: 80 kg a week on 48 plants
{ small_scenario; printf '[records]\nfile = "records.csv"\n'; } >records.toml
claim() {
    awk -v kg="$1" 'BEGIN { print "date,planting,item,value"
        for (i = 0; i < 9; i++) printf "2026-%02d-%02d,slicers,picked_kg,%s\n", 5 + int((i * 7 + 4) / 31), (i * 7 + 4) % 31 + 1, kg }' >records.csv
}
claim 107
run check records.toml $at; exits 0
complains "records.toml:22:8: warning: by the records slicers gave 20.1 kg a plant in 9 weeks: such houses reach 7.8"
claim 30
run check records.toml $at; exits 0; quiet_err

{ small_scenario; printf '%s\n' '[market]' 'days = ["sat"]' '[[market.order]]' 'who = "hotel"' \
    'crop = "tomato-large"' 'from = 2026-05-01' 'kg = 60'; } >order.toml
run check order.toml $at; exits 0
complains "order.toml:23:1: warning: hotel orders 960 kg in 16 weeks, but such houses reach 576 kg" # the last on the Saturday after pull-out
sed 's/^kg = 60/kg = 720/' order.toml >large.toml
run check large.toml $at; exits 0; complains "hotel orders 11500 kg in 16 weeks"
sed 's/^kg = 60/kg = 20/' order.toml >fits.toml
run check fits.toml $at; exits 0; quiet_err

run explain habit.reach_high_kg_m2_week; exits 0; says "Government of Alberta"
finish
