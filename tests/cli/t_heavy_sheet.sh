#!/bin/sh
# The sheet: youngest first with hands washed between, dawn first in heat, and every word for a record one that the
# records take.
. "$(dirname -- "$0")/lib.sh"

{
    small_scenario | sed 's/^cover.*/&\nwire_height_m = 2.6/'
    cat <<EOF
$(planting late cucumber-long 20 1.6 2026-04-10 2026-08-10)
[[climate.spell]]
from = 2026-06-01
until = 2026-06-12
day_c = 36
night_c = 22
sky = "clear"
[records]
file = "records.csv"
EOF
} >two.toml
for units in metric us; do
    rm -f records.csv
    echo 'date,planting,item,value' >records.csv
    run forecast two.toml --today 2026-06-02 --members 1 --units $units --params "$VINEHAND_SOURCE/params" --out two; exits 0
    tr '<' '\n' <two/sheet.html | grep -oE '^code[^>]*>[a-z_]+$' | sed 's/.*>//' | grep _ | sort -u >items
    good "the sheet has words of records" [ "$(grep -c . items)" -ge 10 ]
    awk -v day=2026-06-01 '{ for (p = 0; p < 2; p++) print day "," (p ? "late" : "slicers") "," $1 ",1" }' items >>records.csv
    run check two.toml --today 2026-06-02 --params "$VINEHAND_SOURCE/params"; exits 0
done
tr '<' '\n' <two/sheet.html >lines
order=$(grep -nE 'dawn|^b>1 Late|Then the slicers|^b>2 Slicers' lines | sed 's/:.*\(Begin at dawn\|Late\|Then\|Slicers\).*/ \1/' | awk '{ print $2 }' | head -4 | tr '\n' ' ')
good "dawn, the youngest, clean hands, the oldest: $order" [ "$order" = "Begin Late Then Slicers " ]
finish
