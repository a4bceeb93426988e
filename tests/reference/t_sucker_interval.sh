#!/bin/sh
# Visits for suckers every 7, 10, 14 and 21 days, through the whole program: sucker-interval.csv.
# Navarrete & Jeannequin 2000, Scientia Horticulturae 86:197-210 (pages from memory), abstract: yield at 10 and 14 days not
# reduced against 7; at 21 days significantly lower, fewer fruits, later first harvest. The source
# gives direction and significance; the bands (2 %; 2 to 20 %) are ours.
# shellcheck source=tests/reference/trial_lib.sh
. "${VINEHAND_SOURCE:?the path of the source tree}/tests/reference/trial_lib.sh"

# The abstract gives no climate: a mild, bright, even spring is ours.
climate air 230 day_c=24 night_c=18 light_h=14 dli=20 co2=400
for d in 7 10 14 21; do
    season "every$d" air tomato-large 2.5 220 "[planting.suckers]
every_d = $d
overlooked = 0"
done
change() { reckon "100 * ($2 / $1 - 1)"; }
for d in 10 14 21; do
    value "navarrete2000-yield-$d" "$(change "$(total every7 kg)" "$(total "every$d" kg)")"
done
value navarrete2000-number-21 "$(change "$(total every7 fruits)" "$(total every21 fruits)")"
value navarrete2000-first-21 "$(reckon "$(first_pick every21) - $(first_pick every7)")"
verdict "$here/sucker-interval.csv"
