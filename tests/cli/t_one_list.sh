#!/bin/sh
# With many futures the plan is one list: it has every work of the mean run, once, and trusses, hours and calendar tell the same.
# Futures come to a truss days apart, so that a list of what most of them do on a day had no thinning at all.
. "$(dirname -- "$0")/lib.sh"
here=$VINEHAND_SOURCE/tests/cli
at="--params $VINEHAND_SOURCE/params --members 40 --threads 1"

run week "$VINEHAND_SOURCE/scenarios/two-bays" --today 2026-06-16 $at --out out; exits 0
good "the demo has one list of work" python3 "$here/one_list.py" out slicers plums

# a planting of each kind that is thinned by the truss, under a label's lock in a dull spring
sed '/^\[\[planting\]\]/,$d' "$here/one-bay.toml" >all.toml
for crop in tomato-cherry tomato-cluster tomato-cocktail aubergine-large; do
    planting "$crop" $crop 20 2.5 2026-03-10 2026-07-20 >>all.toml
done
printf '[[planting.spray]]\non = 2026-06-12\nno_entry_h = 24\nno_pick_d = 3\n' >>all.toml
run forecast all.toml --today 2026-05-05 $at --out all; exits 0
good "a planting of each crop has one" python3 "$here/one_list.py" all tomato-cherry tomato-cluster tomato-cocktail
finish
