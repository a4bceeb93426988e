#!/bin/sh
# report.html and sheet.html: whole, without script, asking for nothing, every drawing with its words, and with the
# numbers of the tables.
. "$(dirname -- "$0")/lib.sh"

small_scenario | sed 's/^cover.*/&\nwire_height_m = 2.6/' >s.toml
run forecast s.toml --today 2026-06-02 --params "$VINEHAND_SOURCE/params" --out out; exits 0
for page in report.html sheet.html; do
    good "$page is there" [ -s "out/$page" ]
    good "$page has no script" [ "$(grep -ci '<script\|onload=\|onclick=\|javascript:' "out/$page")" -eq 0 ]
    good "$page asks for nothing" [ "$(grep -c 'https\?://\|url(\|@import\|<link\|<img' "out/$page")" -eq 0 ]
    good "$page forbids it too" [ "$(grep -c "default-src 'none'" "out/$page")" -eq 1 ]
    good "$page ends with its caution" [ "$(grep -c 'Local rules, the label and licensed advice come before this' "out/$page")" -ge 1 ]
done
good "the report is under 1 MB" [ "$(wc -c <out/report.html)" -lt 1000000 ]
python3 "$VINEHAND_SOURCE/tests/cli/read_pages.py" out >said 2>&1
good "pages are well formed and have the numbers of the tables: $(cat said)" [ ! -s said ]

# The sheet: youngest first with hands washed between, dawn first in heat, and every word for a record one that the
# records take.
{
    small_scenario | sed 's/^cover.*/&\nwire_height_m = 2.6/'
    cat <<'EOF'
[[planting]]
name = "late"
crop = "cucumber-long"
plants = 20
plants_per_m2 = 1.6
set_out = 2026-04-10
pull_out = 2026-08-10
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
