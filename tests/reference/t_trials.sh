#!/bin/sh
# t_trials.sh - published trials, run through the whole program with a scenario each; trials.csv
# holds what was published, with its source, and decides. README.md names what misses.
#     VINEHAND=PROGRAM VINEHAND_SOURCE=TREE sh tests/reference/t_trials.sh [--table]
# Most sources were read as abstracts, which give no climate: that of a trial here is ours, stated
# beside it. --table prints every row.
table=0
[ "${1:-}" != --table ] || table=1
# shellcheck source=tests/reference/trial_lib.sh
. "${VINEHAND_SOURCE:?the path of the source tree}/tests/reference/trial_lib.sh"

# kept FRUITS [TRUSSES]: a rule of fruits kept
kept() {
    echo '[[planting.fruits_kept]]'
    [ -z "${2:-}" ] || echo "trusses = \"$2\""
    echo "fruits = $1"
}

# row CROP NAME VALUE: a parameter of its own
row() { printf '[[parameters.row]]\ncrop = "%s"\nname = "%s"\nvalue = %s\n' "$1" "$2" "$3"; }

# leaves NUMBER: left on a stem, once a week
leaves() { printf '[planting.leaves]\nkeep = %s\nevery_d = 7\nmost_per_visit = 6\n' "$1"; }

# change A B: B against A in percent;  seasons A B: of their totals
change() { reckon "100 * (($2) / ($1) - 1)"; }
seasons() { change "$(total "$1" kg)" "$(total "$2" kg)"; }

# ---- Tomato: load -------------------------------------------------------------------------------
# Heuvelink 1997 and 1995, Wageningen, climate not in the abstracts: 20 degC, 10.8 mol m-2 d-1.
# Twelve flowers a truss, so that ten can be kept; the rest off at bud.
climate even 230 day_c=20 night_c=20 light_h=12 dli=10.8
for n in 7 2 4 10; do
    season load$n even tomato-cluster 2.1 220 \
        "$(kept $n; echo 'at = "bud"'; row tomato-cluster flower.flowers 12)"
    value "heuvelink1997-share-$n" "$(share load$n 90 118)"
    [ $n -eq 7 ] ||
        value "heuvelink1997-mass-$n" "$(reckon "$(fruit_g load$n 100) / $(fruit_g load7 100)")"
done

# Fruits on the plant against the share of the week: F = N/(24.2 + N).
on_plant=$(awk -F, -v day="$(date_of 104)" '
    FILENAME ~ /trusses/ && FNR > 1 && $4 <= day { n += $8 - $11 }
    FILENAME ~ /picks/ && FNR > 1 && $1 <= day { n -= $3 / 2100 }
    END { print n }' "$work/load4/out/trusses.csv" "$work/load4/out/picks.csv")
value heuvelink1997-on-plant \
    "$(reckon "$(share load4 101 107) - $on_plant / (24.2 + $on_plant)")"

for d in 1.6 2.1 3.1; do
    season stand$d even tomato-cluster $d 115 "first_flower = 2026-01-11
$(kept 7)
at = \"bud\""
    value "heuvelink1995-share-$d" "$(reckon "100 * $(share stand$d)")"
done

# Cockshull & Ho 1995, thinning: 30 % of the fruits of trusses 1 to 3, at 3 stems m-2 in an even
# house, and in a heated one at 51 degN planted in winter. Light of that after Littlehampton
# (2.8 mol m-2 d-1 in December, 26 in June, our estimate), 20 degC by day, 18 by night.
climate south_coast 310 day_c=20 night_c=18 light_h=16 light_h_winter=8 dli=26 dli_winter=2.8 \
    co2=450
first_trusses() { # RUN: kg a stem, and fruits
    awk -F, 'FNR > 1 && $2 <= 3 { kg += ($8 - $11) * $15 / 1000; n += $8 - $11 }
        END { print kg, n }' "$work/$1/out/trusses.csv"
}
cut_back() { # RUN: rules that leave 70 % of what its first trusses carried
    awk -F, 'FNR > 1 && $2 <= 3 { print $2, 0.7 * ($8 - $11) }' "$work/$1/out/trusses.csv" |
        while read -r truss n; do kept "$n" "$truss"; done
}
thinning() { # CLIMATE PER_M2 DAYS
    season "full_$1" "$1" tomato-cluster "$2" "$3" "$(kept 7)"
    # shellcheck disable=SC2046  # two numbers each
    set -- "$@" $(first_trusses "full_$1")
    season "cut_$1" "$1" tomato-cluster "$2" "$3" "$(kept 7; cut_back "full_$1")"
    # shellcheck disable=SC2046
    set -- "$@" $(first_trusses "cut_$1")
    value "cockshull1995-thinned-yield-$1" "$(change "$4" "$6")"
    value "cockshull1995-thinned-mass-$1" "$(reckon "100 * ($6 / $7 / ($4 / $5) - 1)")"
    value "cockshull1995-thinned-season-$1" "$(seasons "full_$1" "cut_$1")"
}
thinning even 3 220
thinning south_coast 2.55 300

# The same, density; plants set out at their first flower, as was usual there. Early: eight weeks of
# picks, the abstract does not say.
for d in 2.04 3.06; do
    season row$d south_coast tomato-cluster $d 300 "seedling_leaves = 12
$(kept 7)"
done
early=$(reckon "$(first_pick row2.04) + 56")
value cockshull1995-dense-early \
    "$(change "$(total row2.04 kg 0 "$early")" "$(total row3.06 kg 0 "$early")")"
value cockshull1995-dense-season "$(seasons row2.04 row3.06)"
value cockshull1995-dense-mass "$(change "$(fruit_g row2.04)" "$(fruit_g row3.06)")"
# Side shoots let grow at the end of winter: 2.04 stems m-2, then 3.06.
season shoots south_coast tomato-cluster 2.04 300 "seedling_leaves = 12
$(kept 7)
[[planting.extra_head]]
from = 2026-03-15
heads_per_plant = 1.5"
value cockshull1995-shoots-season "$(seasons row3.06 shoots)"

# Adams & Valdes 2002: every truss pruned to five.
season pruned5 south_coast tomato-cluster 2.04 300 "seedling_leaves = 12
$(kept 5)"
value adams2002-pruned-mass "$(change "$(fruit_g row2.04)" "$(fruit_g pruned5)")"

# ---- Tomato: warmth ------------------------------------------------------------------------------
# Adams, Cockshull & Cave 2001: 12 h of 315 umol m-2 s-1, 1000 ppm, 2.2 plants m-2; from the 21st
# day after sowing to week 26, that is 161 d. Ours: a small round type, 60 g, three leaves at first.
for t in 14 18 22 26; do
    climate grow$t 170 day_c=$t night_c=$t light_h=12 dli=13.608 co2=1000
    season warm$t grow$t tomato-cluster 2.2 161 "seedling_leaves = 3
usual_fruit_g = 60
$(kept 9)
$(row tomato-cluster flower.flowers 9)"
    eval "dry$t=\$(picked_dm warm$t)"
    [ $t -eq 14 ] || value "adams2001-days-$t" "$(trusses warm$t days_flower_to_ripe 1 3)"
done
for t in 14 18 26; do
    eval "value adams2001-relative-$t \"\$(reckon \"\$dry$t / \$dry22\")\""
    [ $t -eq 18 ] ||
        value "adams2001-mass-$t" "$(reckon "$(fruit_g warm$t) / $(fruit_g warm22)")"
done
value adams2001-dm-22 "$dry22"
value adams2001-order \
    "$(reckon "($dry22 > $dry18) * ($dry18 > $dry26) * ($dry26 > $dry14)")"

# Adams & Valdes 2002: a week 4.5 K warmer in a crop that is being picked.
climate mild 240 day_c=19 night_c=19 light_h=14 dli=18
climate spell 240 day_c=19 night_c=19 light_h=14 dli=18 warm_from=120 warm_days=7 warm_k=4.5
for c in mild spell; do
    season week_$c $c tomato-cluster 2.5 230 "$(kept 7)"
done
value adams2002-week-soon "$(change "$(total week_mild kg 120 140)" \
    "$(total week_spell kg 120 140)")"
value adams2002-week-later "$(change "$(total week_mild kg 141 165)" \
    "$(total week_spell kg 141 165)")"
value adams2002-week-season "$(seasons week_mild week_spell)"

# ---- Light ---------------------------------------------------------------------------------------
# Tewolde et al. 2018: climate and training not in the abstract. A crop of 200 d in 18 mol m-2 d-1.
for s in 0 0.26 0.40; do
    climate shade$s 210 day_c=22 night_c=18 light_h=14 dli=18 shade=$s
    season under$s shade$s tomato-cluster 2.5 200 "$(kept 7)"
done
for s in 0.26 0.40; do
    value "tewolde2018-yield-$s" "$(seasons under0 under$s)"
    value "tewolde2018-growth-$s" "$(change "$(grown under0)" "$(grown under$s)")"
done

# Marcelis et al. 2006: a hundredth of the light for 0.7 to 1 % of the yield of fruit vegetables.
# Set out on 1 January as above, 600 ppm; and in even light of 16 mol m-2 d-1.
for f in 0.95 1.05; do
    climate year$f 310 day_c=20 night_c=18 light_h=16 light_h_winter=8 co2=600 \
        dli="$(reckon "26 * $f")" dli_winter="$(reckon "2.8 * $f")"
    climate lit$f 310 day_c=22 night_c=20 light_h=16 co2=600 dli="$(reckon "16 * $f")"
done
per_light() { # CROP PER_M2 DAYS
    for c in year lit; do
        for f in 0.95 1.05; do
            season "$1-$c$f" $c$f "$1" "$2" "$3"
        done
        value "marcelis2006-$1-$c" "$(reckon \
            "log($(total "$1-${c}1.05" kg) / $(total "$1-${c}0.95" kg)) / log(1.05 / 0.95)")"
    done
}
per_light tomato-cluster 2.5 300
per_light tomato-large 2.5 300
per_light tomato-cherry 3 300
per_light cucumber-long 3 200
per_light pepper-large 6.5 300

# ---- Pepper: warmth ------------------------------------------------------------------------------
# Bakker & van Uffelen 1988: twelve regimes of 16.3 to 23.8 degC, December to April; light and the
# last pick not given. Ours: set out on 1 January, picked until the end of May, light of the south
# coast, 400 ppm; of whole degrees the one with the greatest yield.
for t in 16 17 18 19 20 21 22 23 24; do
    climate spring$t 160 day_c=$t night_c=$t light_h=16 light_h_winter=8 dli=26 dli_winter=2.8
    season peppers$t spring$t pepper-large 6.5 151
    echo "$t $(total peppers$t kg)"
done > "$work/by_warmth"
value bakker1988-best "$(sort -k2,2gr "$work/by_warmth" | sed -n '1s/ .*//p')"

# ---- Tomato: leaves ------------------------------------------------------------------------------
# Long days, 18 mol m-2 d-1. The numbers of leaves give the leaf areas stated.
for n in 27.8 16.3 17.6 15.4 22.9; do
    season leaves$n mild tomato-cluster 2.5 230 "$(leaves $n)"
    value "leaf-area-$n" "$(stems leaves$n mean lai_m2_m2 100 222)" # old leaves stay on in the last week
done
value adams2002b-old-leaves "$(seasons leaves27.8 leaves16.3)"
value leafb-old-leaves "$(seasons leaves17.6 leaves15.4)"
value leafb-growth "$(change "$(grown leaves17.6)" "$(grown leaves15.4)")"
# Every third young leaf off: no lever of the program; leaves of 0.7 of their area stand for it.
for a in 0.099 0.070; do
    season area$a mild tomato-cluster 2.5 230 \
        "$(leaves 21.2; row tomato-cluster leaf.potential_area_m2 $a)"
    value "leaf-area-young-$a" "$(stems area$a mean lai_m2_m2 100 222)"
done
value adams2002b-young-leaves "$(seasons area0.099 area0.070)"

# ---- Cucumber ------------------------------------------------------------------------------------
# Directions, long type, one fruit a node but for the first seven, 120 d. Ours: 2.4 stems m-2,
# 20 mol m-2 d-1, 21 degC, 420 ppm where a trial does not change it.
vine_house() { # NAME, then what differs
    name=$1
    shift
    climate "$name" 130 day_c=21 night_c=21 light_h=14 dli=20 co2=420 "$@"
}
vine_house mid
vine_house cool day_c=18 night_c=18
vine_house warm day_c=25 night_c=25
vine_house dim_cool day_c=18 night_c=18 dli=8
vine_house dim_warm day_c=25 night_c=25 dli=8
vine_house dim dli=10
vine_house warm_days day_c=27 night_c=23 light_h=12
vine_house warm_nights day_c=23 night_c=27 light_h=12
vines() { season "$1" "$2" cucumber-long "${3:-2.4}" 120 "$(kept "${4:-1}"; kept 0 1-7)"; }
for c in mid cool warm dim_cool dim_warm dim warm_days warm_nights; do
    vines vine_$c $c
done
flower_to_pick() { trusses "$1" days_flower_to_ripe 20 60; }
dropped() { reckon "$(trusses "$1" aborted 20 60) / $(trusses "$1" set 20 60)"; }

value CS02-short "$(change "$(fruit_g vine_dim_cool)" "$(fruit_g vine_dim_warm)")"
vines vine_third mid 2.4 0.33
value CS03-days "$(change "$(flower_to_pick vine_third)" "$(flower_to_pick vine_mid)")"
value CS04-number "$(change "$(total vine_cool fruits)" "$(total vine_warm fruits)")"
value CS04-fresh "$(seasons vine_cool vine_warm)"
value CS04-dry "$(change "$(picked_dm vine_cool)" "$(picked_dm vine_warm)")"
vines vine_two_of_three mid 2.4 0.6667
value CS05-number "$(change "$(total vine_mid fruits)" "$(total vine_two_of_three fruits)")"
value CS05-dropped "$(reckon "100 * ($(dropped vine_two_of_three) - $(dropped vine_mid))")"
value CS05-days "$(change "$(flower_to_pick vine_mid)" "$(flower_to_pick vine_two_of_three)")"
value CS05-growth "$(change "$(grown vine_mid)" "$(grown vine_two_of_three)")"
vines vine_dense mid 5.4
value CS06-area "$(seasons vine_mid vine_dense)"
value CS06-plant "$(change "$(total vine_mid kg) / 2.4" "$(total vine_dense kg) / 5.4")"
value CS06-dropped "$(reckon "100 * ($(dropped vine_dense) - $(dropped vine_mid))")"
value CS08-stem "$(change "$(stems vine_warm_days last stem_cm)" \
    "$(stems vine_warm_nights last stem_cm)")"
value CS08-first "$(reckon "$(first_pick vine_warm_nights) - $(first_pick vine_warm_days)")"
value CS09-leaves "$(change "$(stems vine_mid last flowering_truss)" \
    "$(stems vine_dim last flowering_truss)")"

# CU79: Nederhoff 1994 (second-hand), 364 to 620 ppm; light not given.
for p in 364 620; do
    for light in 8 15 25; do
        vine_house air$p-$light dli=$light co2=$p
        vines vine$p-$light air$p-$light
    done
done
for light in 8 15 25; do
    value nederhoff1994-yield-$light "$(seasons vine364-$light vine620-$light)"
done
value nederhoff1994-number \
    "$(reckon "log($(total vine620-15 fruits) / $(total vine364-15 fruits)) / \
    log($(total vine620-15 kg) / $(total vine364-15 kg))")"

verdict "$here/trials.csv"
