#!/bin/sh
# start: from eight answers, or none at all, a scenario that runs; asked on a terminal, told by options; never over a file.
. "$(dirname -- "$0")/lib.sh"

# clean WHAT FOLDER: `check` of what was written finds no error, and the program runs it
clean() {
    run check "$2" --today 2026-07-14; exits 0; says "No error"
    good "$1: files" [ "$(ls -A "$2" | tr '\n' ' ')" = "inside.csv records.csv scenario.toml " ]
}
# has FOLDER LINE: the scenario has a line that begins so
has() { good "$1/scenario.toml has: $2" grep -q "^$2" "$1/scenario.toml"; }
# refused TEXT ARG...: exit 2, TEXT in one line, nothing written
refused() {
    text=$1
    shift
    ls -AR >"$work/before"
    run "$@"
    exits 2
    quiet_out
    complains "$text"
    good "one line of complaint" [ "$(wc -l <"$work/err")" -eq 1 ]
    good "nothing was written" [ "$(ls -AR | cmp - "$work/before")" = "" ]
}

# Nothing known, no terminal: no question, guesses that are called guesses.
run start none --today 2026-07-14; exits 0; quiet_err
bad "it asks without a terminal" grep -q '^> ' "$work/out"
for word in "FIRST PICK" "BEST WEEK" "MARKET DAY" "STRING" "GUESSED" "WRITE DOWN" " 1 what you pick" " 2 once a week" " 3 the air"; do
    says "$word"
done
says "Nothing was asked, for this is no terminal"
# The line to be typed is as long as the program's path is.
good "no line beyond 80 columns" [ "$(grep -v '/vinehand week$' "$work/out" | grep -cE '^.{81}')" -eq 0 ]
good "the next line can be typed as it stands" grep -qxF "           $(realpath "$VINEHAND") week" "$work/out"
good "guesses are called so" [ "$(grep -c 'A GUESS' none/scenario.toml)" -ge 7 ]
good "the ranges of the weather are said" [ "$(grep -c '(from -\?[0-9]* to -\?[0-9]*)' none/scenario.toml)" -eq 4 ]
clean "nothing known" none
good "header of records" [ "$(cat none/records.csv)" = "date,planting,item,value,truss,of,note" ]
run forecast none --members 1 --today 2026-07-14; exits 0; good "it forecasts" [ -s none/out/weeks.csv ]
run start late --members 1 --set-out 2026-03-20 --heat 16C --today 2026-09-14; exits 0
best=$(sed -n 's/^BEST WEEK  the week of \([^,]*\),.*/\1/p' "$work/out")
run forecast late --members 1 --today 2026-09-14; exits 0; says "BEST WEEK  tomatoes in the week of $best,"
# The log's header is one that the reader takes once a row is in it.
sed 's/^# log = /log = /' none/scenario.toml >none/logged.toml
run check none/logged.toml --today 2026-07-14; exits 0
complains "inside.csv: warning: there is no row below the header yet; the outlook stands in"
run week none/logged.toml --members 1 --today 2026-07-14 --out none/out; exits 0; says "no thermometer"
echo "2026-07-01T06:00,14.5,,," >>none/inside.csv
run check none/logged.toml --today 2026-07-14; exits 0; says "No error"

# Either system of units, words of the trade, wherever the house lies.
run start us --units us --latitude "44 30 N" --heat 55F --cover glass --wire-height 7ft --crop eggplants --plants 20 \
    --set-out "15 May" --market-day wed,sat --today 2026-07-14
exits 0; quiet_err; says " lb each Wednesday and Saturday"; says " ft a stem"; bad "kg in US units" grep -q ' kg' "$work/out"
has us 'latitude_deg = 44.5 '; has us 'heat_f = 55 '; has us 'cover = "glass"'; has us 'wire_height_ft = 7 '
has us 'units = "us" '; has us 'crop = "aubergine-large"'; has us 'plants = 20 '; has us 'set_out = 2026-05-15 '; has us 'days = \["wed", "sat"\]'
has us 'warmest_high_f'; says 'picked_lb 7.1'; good "her log is in her degrees" grep -q '^time,t_air_f,' us/inside.csv; bad "a guess where all was told" grep -q 'A GUESS' us/scenario.toml
# picked FOLDER DAYS: the picks are fitted to the market (which days: tests/unit/t_start_picks.c), and it says so
picked() {
    good "$1: picked on $2" [ "$(sed -n '/^\[planting.pick\]/,/^days/s/^days = //p' "$1/scenario.toml")" = "[$2]" ]
    good "$1: the line above says why" [ "$(grep -B1 '^\[planting.pick\]' "$1/scenario.toml" | grep -c '^# a guess: .*the day before you sell')" -eq 1 ]
}
picked us '"tue", "fri"'; good "among the guesses" grep -q 'GUESSED.*; picks on Tuesday' "$work/out"
bad "picks without a market day" grep -q 'planting.pick' none/scenario.toml
clean "all told, US" us; bad "the crop's rhythm beside" grep -q 'pick.every_d' "$work/out"
run start south --latitude -33.5 --heat none --wire-height 220cm --crop cucumber-long --today 2026-07-14; exits 0
bad "options were given, that is asking enough" grep -q "Nothing was asked" "$work/out"
has south 'latitude_deg = -33.5'; has south 'wire_height_m = 2.2 '; has south 'set_out = 2026-11-15'
good "where the next words are typed" grep -qx " *cd south" "$work/out"; says "vinehand week"
says "picked_fruits"; clean "south" south
run start ft --wire-height "7 ft 6 in" --heat 13C --units us --today 2026-07-14; exits 0
has ft 'wire_height_ft = 7.5 '; has ft 'heat_c = 13 '; clean "inches" ft
# the guess of 2.2 m (start.wire_m of params/start.csv) is 7.2 ft: a foot is near enough, in the file and on the screen
run start feet --heat 55F --units us --today 2026-07-14; exits 0; has feet 'wire_height_ft = 7 '; says "wire at 7 ft"; clean "feet" feet
crops="tomato-large tomato-plum tomato-cherry tomato-cluster tomato-cocktail cucumber-long cucumber-mini pepper-large
    pepper-small aubergine-large"
places="0 15 -15 25 45 -45 60 66 -66"
# Each start runs a whole forecast: under sanitizers two crops and one place.
if grep -q 'VINEHAND_SANITIZE:BOOL=ON' "$VINEHAND_BUILD/CMakeCache.txt" 2>"$work/none"; then
    crops="tomato-cherry cucumber-mini"
    places="-45"
fi
for crop in $crops; do
    run start "crop-$crop" --crop $crop --today 2026-07-14; exits 0; has "crop-$crop" "crop = \"$crop\""; clean $crop "crop-$crop"
done
[ "$places" = -45 ] || good "every crop of params can be begun" [ "$(ls "$VINEHAND_SOURCE/params/crops" | wc -l)" -eq "$(ls -d crop-* | wc -l)" ]
for place in $places; do
    run start "at$place" --latitude "$place" --today 2026-01-31; exits 0; clean "latitude $place" "at$place"
done

# Options that are none of the answers.
refused "--latitude 95 is not understood; write the latitude" start x --latitude 95
refused "--latitude 44 70" start x --latitude "44 70 N"
refused "--latitude -44 S" start x --latitude "-44 S"
refused "--heat 120" start x --heat 120
refused "--heat 13K" start x --heat 13K
refused "--cover straw" start x --cover straw
refused "--wire-height 30" start x --wire-height 30
refused "--wire-height 7 ft 13 in" start x --wire-height "7 ft 13 in"
refused "--crop vines is not understood; write a crop, one for now: tomatoes" start x --crop vines
refused "--crop 48 vines is not understood; write a crop, one for now: tomatoes" start x --crop "48 vines"
refused "--crop 0 tomatoes is not understood; write a whole number of plants from 1, as in 48 tomatoes" start x --crop "0 tomatoes"
refused "--plants 0" start x --plants 0
refused "--plants 4.5" start x --plants 4.5
refused "--set-out 5/6" start x --set-out 5/6
refused "--set-out 2026-02-30" start x --set-out 2026-02-30
refused "--set-out 2019-05-15" start x --set-out 2019-05-15 --today 2026-07-14
refused "--market-day someday" start x --market-day someday
refused "start wants a folder" start
refused "one name too many" start x y
refused "--heat belongs to vinehand start" forecast --heat 13C

# What stands for an unknown answer is a row of params, and can be asked for.
cp -r "$VINEHAND_SOURCE/params" own && sed -i 's/^start.wire_m,2.2/start.wire_m,3.1/; s/^start.north_45.warmest_high_c,27/start.north_45.warmest_high_c,26/' own/start.csv
sed -i 's/^start.north_45.warmest_low_c,15,degC,10,20/start.north_45.warmest_low_c,15,degC,13,17/; s/^start.north_45.coldest_low_c,-9,degC,-18,0/start.north_45.coldest_low_c,-9,degC,,/' own/start.csv
sed -i 's/^habit.plants_per_m2,2.5/habit.plants_per_m2,2.9/' own/crops/tomato-cluster.csv
run start guessed --params own --today 2026-07-14; exits 0; says "wire at 3.1 m"
for line in "wire_height_m = 3.1" "warmest_high_c = 26" "plants_per_m2 = 2.9" "# usual_fruit_g = 180"; do
    good "a guess by params: $line" grep -q "^$line " guessed/scenario.toml
done
has guessed 'warmest_high_c = 26 .*month (from 21 to 31)$'; has guessed 'warmest_low_c = 15 .*its night (from 13 to 17)$'
has guessed 'coldest_low_c = -9 .*and its night$' # its row has no bounds
run explain start.wire_m; exits 0; says "2.2 m (1.8 to 4); assumed"
run start sweet --crop "50 sweet-pepper" --today 2026-07-14; exits 0; has sweet 'crop = "pepper-large"'; has sweet 'plants = 50 '
run explain planting.crop; tr -s ' \n' '  ' <"$work/out" >kinds
for file in "$VINEHAND_SOURCE"/params/crops/*.csv; do
    good "explain planting.crop lists $file" grep -q "[ ,]$(basename "$file" .csv)[, ]" kinds
done
run start minis --crop "mini cucumbers" --plants 30 --today 2026-07-14; exits 0; says "picked_kg 3.2" # they are sold by weight
says "the node in flower"; good "her fruit" grep -q '^# usual_fruit_g = 135 ' minis/scenario.toml

# Never over anything.
refused "none/scenario.toml is there already" start none
cp none/scenario.toml "$work/kept"; run start none --crop peppers; good "it stays" cmp -s none/scenario.toml "$work/kept"
mkdir mine && echo "mine" >mine/records.csv
refused "mine/records.csv is there already" start mine
# What a killed run left in a folder that was there is finished by the next one: files just as they would be written
run start whole --today 2026-07-14; exits 0; mkdir killed && cp whole/records.csv whole/inside.csv killed
run start killed --today 2026-07-14; exits 0; quiet_err
good "all three are there" [ "$(ls -A killed | tr '\n' ' ')" = "inside.csv records.csv scenario.toml " ]
refused "killed/scenario.toml is there already" start killed
good "her file stays" [ "$(cat mine/records.csv)" = mine ]
echo x >file; refused "is no folder" start file
ln -s nowhere dangling; refused "is no folder" start dangling
refused "there is no folder no/" start no/such
# What she would be asked in vain is not asked.
refused "own/crops holds no parameters (sources.csv is not there); name their folder, as in --params params" start x --params own/crops
mkdir half && echo "notes" >half/notes.txt
run start half --today 2026-07-14; exits 0; good "beside her own files" [ "$(ls -A half | wc -l)" -eq 4 ]
mkdir here && ln -s "$VINEHAND" vinehand; ( cd here && PATH=..:$PATH vinehand start . --today 2026-07-14 >"$work/out" 2>"$work/err" </dev/null ); rc=$?
last="start ."; exits 0; good "in the current folder" [ -f here/scenario.toml ]; rm vinehand
good "called by its name, the name is typed next" grep -qx " *vinehand week" "$work/out"
run start slash/ --today 2026-07-14; exits 0; good "with a stroke behind" [ -f slash/scenario.toml ]
run start 'Say "hi"' --today 2026-07-14; exits 0; has 'Say "hi"' 'name = "My house"'; says "cd 'Say \"hi\"'"
good "no hidden folder is left" [ -z "$(find . -name '.vh-*')" ]
run start quiet --quiet --today 2026-07-14; exits 0; quiet_out; good "written" [ -f quiet/scenario.toml ]

# On a terminal: eight questions, a bad answer asked again with what would be right, Enter where she does not know.
ask() {
    last="start (asked)"
    python3 "$VINEHAND_SOURCE/tests/cli/ask.py" "$VINEHAND" "$@" <"$work/typed" >"$work/out" 2>"$work/err"
    rc=$?
    look_for_faults
}
printf '%s\n' us north "44 30 N" 55 "double film" 7 "48 tomatos" "48 plum tomatoes" "15 May" sat >"$work/typed"
ask start asked --today 2026-07-14
exits 0; says "8  On which days"; says "not understood; write the latitude from 66 S"; says "not understood; write a crop, one for"
sed "/: wrote/,\$d; / % /d" "$work/out" >"$work/questions" # progress, which goes back over its line, is none
bad "a question beyond 80 columns" grep -qE '^.{81}' "$work/questions"
good "ten times" [ "$(grep -c '^> ' "$work/out")" -eq 10 ]
says "FIRST PICK plums"; says " lb each Saturday"
has asked 'latitude_deg = 44.5 '; has asked 'heat_f = 55 '; has asked 'cover = "film-double"'; has asked 'wire_height_ft = 7 '
has asked 'plants = 48 '; has asked 'crop = "tomato-plum"'; has asked 'set_out = 2026-05-15 '; clean asked asked
printf '%s\n' "" "?" "don't know" "" "" "" "" "" >"$work/typed"
ask start unknown --today 2026-07-14
exits 0; says "GUESSED"; sed 's/"unknown"/"none"/' unknown/scenario.toml >"$work/unknown"
good "knowing nothing is the same, asked or not" cmp -s "$work/unknown" "$work/kept"
printf '%s\n' metric 44.5 "^D" >"$work/typed"
ask start gone --today 2026-07-14; exits 1; says "nothing was written"
printf '%s\n' metric "^C" >"$work/typed"
ask start gone --today 2026-07-14; exits 130
good "nothing after Ctrl-C" [ ! -e gone ]
printf '%s\n' 44.5 >"$work/typed"
ask start told --latitude 44.5 --today 2026-07-14; exits 0; bad "asks beside options" grep -q '^> ' "$work/out"

# Sent in by a pipe or a file, line by line as they would be typed; where a line is wrong nothing is written.
sent() {
    last="start $1 (sent)"
    "$VINEHAND" start "$@" --today 2026-07-14 <"$work/typed" >"$work/out" 2>"$work/err"
    rc=$?
    look_for_faults
}
printf '%s\n' us "44 30 N" 55 "double film" 7 "48 plum tomatoes" "15 May" sat >"$work/typed"
sent sent; exits 0; quiet_err; bad "it says that it took nothing" grep -q "Nothing was asked" "$work/out"
sed 's/"sent"/"asked"/' sent/scenario.toml >"$work/sent"; good "sent or typed, the same" cmp -s "$work/sent" asked/scenario.toml
head -n 3 "$work/typed" | tr '\n' '|' | sed 's/|$//' | tr '|' '\n' >"$work/few"; cp "$work/few" "$work/typed" # the third has no line end
sent few; exits 0; has few 'heat_f = 55 '; good "the rest is guessed" grep -q 'A GUESS\|a guess' few/scenario.toml
printf '%s\n' metric 44.5 13C "" 2.2 "48 tomatoes" 20.4. sat >"$work/typed"
sent wrong; exits 2; quiet_out; good "nothing is written" [ ! -e wrong ]
complains "standard input, line 7: 20.4. is not understood; write a date near today, the month by its name, as in 15 May, or 2026-05-15"

finish
# a crop and a day as people say them
for when in "mid May" mid-May "15th May" "May 15th"; do
    rm -rf said; run start said --latitude 44.5 --crop beefsteaks --plants 40 --set-out "$when" --today 2026-03-01 --quiet; exits 0
    good "$when" grep -q '^set_out = 2026-05-15' said/scenario.toml
    good "beefsteaks" grep -q '^crop = "tomato-large"' said/scenario.toml
done
run start never --latitude 44.5 --set-out "32nd May" --today 2026-03-01; exits 2
