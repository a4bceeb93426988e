#!/bin/sh
# What is possible but doubtful is said with its line, and the season is reckoned all the same.
. "$(dirname -- "$0")/lib.sh"

check() { run check s.toml --today 2026-07-14 --params "$VINEHAND_SOURCE/params"; exits 0; }

small_scenario >plain.toml
cp plain.toml s.toml
check; quiet_err

# Without the wire's height nothing can be lowered, and check says so once.
says "not given: no lean-and-lower plan is"
sed 's/^utc_offset_h.*/&\nwire_height_m = 2.9/' plain.toml >s.toml
check; quiet_err
good "with a wire there is a plan" [ "$(grep -c lean-and-lower "$work/out")" -eq 0 ]

# The minus of the longitude forgotten: noon would fall in the night. A logger may run on UTC.
sed 's/^utc_offset_h.*/&\nlongitude_deg = 72.6/' plain.toml >s.toml
check; complains "s.toml:5:17: warning: the clock of \`utc_offset_h\` on line 4 is 10 h from the sun"
sed 's/^utc_offset_h.*/&\nlongitude_deg = -72.6/' plain.toml >s.toml
check; quiet_err
sed 's/^utc_offset_h.*/utc_offset_h = 0\nlongitude_deg = 151.0/' plain.toml >s.toml
check; quiet_err
# Across the date line the clock is close to the sun though the numbers are far apart.
sed 's/^utc_offset_h.*/utc_offset_h = 14\nlongitude_deg = -157.4/' plain.toml >s.toml
check; quiet_err

# A row of the records that is not used is marked as the warning that it is.
{ cat plain.toml; printf '[records]\nfile = "late.csv"\n'; } >s.toml
printf 'date,planting,item,value\n2026-07-10,slicers,picked_kg,14\n2026-08-10,slicers,picked_kg,15\n' >late.csv
check; says "late.csv  warning: 1 row after today: not used (line 3)"

# A crop cannot have been looked at tomorrow.
{ sed '/^set_out/d' plain.toml; printf '[planting.standing]\non = 2026-07-15\nflowering_truss = 9\npicking_truss = 2\n'; } >s.toml
check; complains "s.toml:21:6: warning: the plants cannot have been seen on a day after today"
sed 's/2026-07-15/2026-07-14/' s.toml >today.toml && mv today.toml s.toml
check; quiet_err

# Pollination by hand of a crop that sets without it is wasted work.
{ sed 's/tomato-large/cucumber-long/' plain.toml; printf '[planting.pollination]\nby = "hand"\n'; } >s.toml
check; complains "cucumber-long sets fruit without pollination; these visits change nothing"
sed 's/cucumber-long/tomato-large/' s.toml >tomato.toml && mv tomato.toml s.toml
check; quiet_err

# Cucumbers of 250 g that are picked from 350 g on.
sed 's/tomato-large/cucumber-long/; s/^set_out.*/&\nusual_fruit_g = 250/' plain.toml >s.toml
check; complains "s.toml:20:17: warning: cucumber-long is picked from 350 g on, whatever is usual; give from_g in [planting.pick] for your variety"
sed 's/^\[house\].*/&\nunits = "us"/; s/usual_fruit_g = 250/usual_fruit_oz = 9/' s.toml >us.toml && cp s.toml g.toml && mv us.toml s.toml
check; complains "cucumber-long is picked from 12.3 oz on, whatever is usual; give from_oz in [planting.pick] for your variety"
printf '[planting.pick]\nfrom_oz = 8\n' >>s.toml
check; quiet_err
mv g.toml s.toml
printf '[planting.pick]\nfrom_g = 230\n' >>s.toml
check; quiet_err

# A first flower later than any young plant can wait for; and one before it stands in the house.
sed 's/^set_out.*/&\nfirst_flower = 2026-06-20/' plain.toml >s.toml
run forecast s.toml --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out out; exits 0
complains "s.toml:20:16: warning: \`first_flower\` is 2026-06-20, but even plants set out with one leaf flower by 2026-0"
# On the very day that is named there is nothing to doubt.
by=$(sed -n 's/.*one leaf flower by \(2026-0[0-9]-[0-9]*\).*/\1/p' "$work/err")
good "the day is named" [ -n "$by" ]
sed "s/2026-06-20/$by/" s.toml >by.toml
run forecast by.toml --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out out; exits 0
quiet_err
sed 's/2026-06-20/2026-03-10/' s.toml >soon.toml && mv soon.toml s.toml
run forecast s.toml --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out out; exits 0
quiet_err
sed 's/2026-03-10/2026-02-19/' s.toml >early.toml && mv early.toml s.toml
run check s.toml --today 2026-07-14 --params "$VINEHAND_SOURCE/params"; exits 2
complains "s.toml:20:16: \`first_flower\` is 2026-02-19, but the planting stands in the house from 2026-02-20"

# A log of another year.
printf 'time,t_air_c\n2024-03-01T00:00,18\n2024-03-01T01:00,18\n' >inside.csv
sed 's/^heat_c = 17.0/log = "inside.csv"/' plain.toml >s.toml
check; good "a log of another year" grep -qxF 'inside.csv: warning: no row lies in the season; the outlook stands in' "$work/err"

# A sensor that is stuck: told while it is new, marked in check's list as long as it stands there.
awk 'BEGIN { print "time,t_air_c"; for (d = 1; d <= 14; d++) for (h = 0; h < 24; h++)
    printf "2026-07-%02dT%02d:00,%.1f\n", d, h, (d >= 8 && d < 12 ? 21.3 : 18 + (h * 7 + d) % 10 / 2) }' >inside.csv
check; complains "inside.csv:170: warning: hours of the same temperature: 96 (to line 265); used as they stand"
says "inside.csv  warning: 96 hours of the same temperature: used as they stand"
says "No error; 1 warning above."
run check s.toml --today 2026-08-09 --params "$VINEHAND_SOURCE/params"; exits 0
bad "an old fault is told each week" grep -q 'same temperature' "$work/err"
says "inside.csv  warning: 96 hours of the same temperature: used as they stand"
says "No error; 1 warning above."

# Rows of the season of which none can be used are not called missing.
printf 'date,tmin_c,tmax_c\n2026-03-01,20,18\n2026-03-02,20,18\n' >inside.csv
check; good "a log with its ends exchanged" grep -qxF 'inside.csv: warning: no row of the season can be used; the outlook stands in' "$work/err"
# Of several logs the one with the temperatures is named where they end.
printf 'time,t_air_c\n2026-03-01T00:00,18\n2026-03-01T01:00,18\n' >inside.csv
printf 'time,par_umol_m2_s\n2026-03-01T00:00,0\n2026-03-01T01:00,0\n' >light.csv
sed 's/^log = .*/log = ["inside.csv", "light.csv"]/' s.toml >two.toml && mv two.toml s.toml
check; complains "inside.csv: note: temperatures end on 2026-03-01, 135 days before today"

# A season that ends in another year says so.
sed 's/^pull_out.*/pull_out = 2027-02-10/' plain.toml >s.toml
run forecast s.toml --members 1 --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out out; exits 0
says "season to 10 February 2027"
cp plain.toml s.toml
run forecast s.toml --members 1 --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out out; exits 0
good "the year of today is said once" [ "$(grep -c 2026 "$work/out")" -eq 1 ]
# What is doubted is said as she wrote it, in whatever units she reads.
{ cat plain.toml; printf '[records]\nfile = "pounds.csv"\n'; } >s.toml
printf 'date,planting,item,value\n2026-07-13,slicers,picked_lb,3000\n' >pounds.csv
check; complains "pounds.csv:2: warning: picked_lb of slicers is 3000, more than the 1587.33 that can be" # 48 x 15 kg / 0.45359237
for units in us metric; do
    run week s.toml --units $units --members 1 --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out out; exits 0
    says "13 July slicers: picked_lb 3000 is doubted"
done

# One of each finding is told as one: nothing of it is left in the plural.
{
    printf 'time,t_air_c,par_umol_m2_s\n'
    for d in 1 2 3; do for h in 0 1 2 3 4 5 6 7 8 9; do echo "2026-03-0${d}T0$h:00,18,0"; done; done
    printf '2026-03-04T00:00,900,0\n2026-03-04T01:00,18,-900\n2026-03-04T02:00,18,x\n2026-03-04T03:00,18,-1\n2026-03-04T02:30,18,0\n'
    printf '2026-07-20T03:00,18,0\n'
} >inside.csv
printf 'date,planting,item,value\n2026-07-10,slicers,picked_kg,12\n2026-07-10,slicers,picked_kg,12\n2026-07-10,slicers,fruits_left,3\n2026-07-20,slicers,picked_kg,3\n' >one.csv
{ sed 's/^heat_c = 17.0/log = "inside.csv"/' plain.toml; printf '[records]\nfile = "one.csv"\n'; } >s.toml
check
for one in "1 temperature that cannot be:" "1 value that cannot be:" "1 cell without a number:" "1 step back in time:" "1 value of light a little below 0:" \
    "1 row after today:" "1 row equal to an earlier row:" "1 row of one truss without its number:"; do says "$one"; done
good "one of anything is singular" [ "$(grep -cE '[.]csv 1 [a-z]+s[ :]' "$work/out")" -eq 0 ]

# A pick sooner than any flower of a young plant can have come to one; plants with fruit on stand already. Left undone and picked on
# one day: she picked. What her note calls right is believed.
picked() { { cat plain.toml; printf '[records]\nfile = "picked.csv"\n'; } >s.toml; { echo 'date,planting,item,value,note'; printf '2026-%s\n' "$@"; } >picked.csv; check; }
picked 03-10,slicers,picked_kg,2,; complains "picked.csv:2: warning: picked_kg of slicers is 2, 18 d after set-out, but from flower to pick it takes 40 at least"
picked 03-10,slicers,picked_kg,2,right; quiet_err
picked 03-10,slicers,picked_kg,0,; quiet_err
picked 03-19,slicers,picked_fruits,4,; complains "picked.csv:2: warning: picked_fruits of slicers is 4, 27 d after"
picked 03-20,slicers,picked_fruits,4,; quiet_err # params/records.csv: 0.7 of 40 d is 28
sed -i 's/^set_out.*/&\nfirst_flower = 2026-03-10/' plain.toml
picked 03-20,slicers,picked_fruits,4,; complains "10 d after \`first_flower\`, but"
picked 03-05,slicers,picked_fruits,4,; complains "picked_fruits of slicers is 4, 5 d before \`first_flower\`, but"
sed -i '/^first_flower/d; s/tomato-large/cucumber-long/' plain.toml
picked 02-22,slicers,picked_fruits,4,; complains "2 d after set-out, but from flower to pick it takes 10 at least"
sed -i 's/cucumber-long/tomato-large/' plain.toml
picked 07-10,slicers,done_pick,0, 07-10,slicers,picked_kg,4,; complains "picked.csv:2: warning: done_pick of slicers is 0, with 4 kg picked that day; it hardly counts: mend it, or begin its note with"
picked 07-10,slicers,picked_fruits,12, 07-10,slicers,done_pick,0.3,; complains "picked.csv:3: warning: done_pick of slicers is 0.3, with 12 fruits picked that day"
picked 07-10,slicers,done_pick,0, 07-10,slicers,picked_kg,0,; quiet_err
picked 07-10,slicers,done_pick,1, 07-10,slicers,picked_kg,4,; quiet_err
picked 07-10,slicers,done_pick,0,right 07-10,slicers,picked_kg,4,; quiet_err

finish
