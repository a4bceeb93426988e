#!/bin/sh
# hindcast.sh - how good the program's forecasts of the measured seasons would have been, by the
# command that a grower has for it: `vinehand learn`. Prints one table.
#     VINEHAND_DATA=FOLDER [VINEHAND=PROGRAM] sh tests/validate/hindcast.sh [--markdown]
# Each season is the scenario of run.sh without its light_factor, which must be learnt, and its
# picks, counts and lengths as a records file (records.awk). Scored are all forecasts one to four
# weeks ahead that were made after six weeks of picks. Without FOLDER nothing can be said and the
# exit status is 77. Exit 1: the program failed, or a number left its band in hindcast-bands.csv.
set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P) || exit 1
markdown=0
[ "${1:-}" != --markdown ] || markdown=1

# shellcheck source=tests/validate/measured.sh
. "$here/measured.sh"

# Season and the day of the run, after its end.
seasons='cucumber2018-REF,2018-12-31 cucumber2018-B,2018-12-31
cherrytomato_ohio2024-REF,2024-12-31 cherrytomato_tucson2003-V1_LE,2003-12-31
cherrytomato_nl2019_2020-REF,2020-06-30 cherrytomato_nl2019_2020-B,2020-06-30'

for entry in $seasons; do
    season=${entry%,*}
    today=${entry#*,}
    folder=$work/$season
    measured=$data/$(echo "$season" | sed 's,-,/,')
    [ -d "$measured" ] || { echo "hindcast.sh: $VINEHAND_DATA has no $measured" >&2; exit 1; }
    mkdir "$folder" && ln -s "$measured" "$folder/data" || exit 1
    sed '/^light_factor/d' "$here/$season/scenario.toml" > "$folder/scenario.toml"
    printf '\n[records]\nfile = "records.csv"\n' >> "$folder/scenario.toml"
    awk -f "$here/records.awk" reading=scenario "$folder/scenario.toml" \
        reading=harvest "$measured/harvest.csv" reading=work "$measured/crop_work.csv" \
        > "$folder/records.csv" || exit 1
    if grep -q '"lamps.csv"' "$folder/scenario.toml"; then
        awk -v full=18.36 -v hours=18 -f "$here/lamps.awk" "$measured/crop_work.csv" \
            > "$folder/lamps.csv"
    fi
    "$program" learn "$folder" --today "$today" --members 200 --out "$folder/out" \
        > "$folder/said" 2>&1 ||
        { echo "hindcast.sh: the program failed on $season:" >&2; cat "$folder/said" >&2; exit 1; }
    awk -v season="$season" -f "$here/hindcast.awk" "$folder/out/hindcast.csv" >> "$work/all" ||
        exit 1
done

awk -v markdown=$markdown -f "$here/hindcast-table.awk" "$work/all" > "$work/table" || exit 1
sed '/^band	/d' "$work/table"
sed -n 's/^band	//p' "$work/table" > "$work/bands"
awk -f "$here/bands.awk" "$here/hindcast-bands.csv" "$work/bands"
