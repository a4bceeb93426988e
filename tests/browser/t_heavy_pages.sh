#!/bin/sh
# report.html and sheet.html in a real browser: every chart there, no text over another or out of its frame, on a phone,
# a screen and paper, light and dark; nothing asked for; contrast; the numbers those of the tables.
. "$(dirname -- "$0")/../cli/lib.sh"
here="$VINEHAND_SOURCE/tests/browser"
params="$VINEHAND_SOURCE/params"

for tool in chromium pdftotext; do
    command -v "$tool" >/dev/null 2>&1 || { echo "$tool is not there: the pages are not looked at in a browser"; exit 77; }
done
python=python3
$python -c 'import html5lib' 2>/dev/null || python=/usr/bin/python3 # Debian's, where another comes first
$python -c 'import html5lib' 2>/dev/null || { echo "python3-html5lib is not there: the pages are not looked at"; exit 77; }

# the demo with its choices, and in US units; one planting before its first fruit, of which nothing was written down; the
# season over; six plantings with the longest names
run compare "$VINEHAND_SOURCE/scenarios/two-bays" --today 2026-07-14 --members 20 --params "$params" --out demo; exits 0
run forecast "$VINEHAND_SOURCE/scenarios/two-bays" --today 2026-07-14 --members 3 --units us --params "$params" --out us; exits 0
small_scenario | sed 's/^cover.*/&\nwire_height_m = 2.6/' >s.toml
run forecast s.toml --today 2026-03-10 --members 1 --params "$params" --out early; exits 0
run forecast s.toml --today 2026-12-01 --members 3 --params "$params" --out over; exits 0
{
    small_scenario | sed '/^\[\[planting\]\]/,$d; s/^cover.*/&\nwire_height_m = 2.6/'
    for i in 1 2 3 4 5 6; do
        cat <<PLANTING
[[planting]]
name = "Row $i (a name of hers that is as long as names may be. or so)"
crop = "$(echo tomato-large tomato-plum cucumber-long tomato-cherry pepper-large tomato-cluster | cut -d' ' -f$i)"
plants = 40
plants_per_m2 = 2.5
set_out = 2026-0$((i + 1))-10
[planting.lower]
path = "$(echo straight row-end around-containers straight row-end around-containers | cut -d' ' -f$i)"
PLANTING
    done
} >six.toml
run forecast six.toml --today 2026-08-10 --members 2 --params "$params" --out six; exits 0

$python -B "$here/check_pages.py" --spoiled "$here/spoiled.html" demo us=quick early=quick over=quick six=quick >said 2>&1 ||
    tell "the pages: $(cat said)"
grep '^#' said
# a planting that is shorter than a page of the sheet stays on one: where it went over, its name would stand there again
chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --user-data-dir="$work/profile" --print-to-pdf=sheet.pdf "file://$PWD/demo/sheet.html" >/dev/null 2>&1
pdftotext -layout sheet.pdf sheet.txt
for name in "1 Cucumbers" "2 Plums" "3 Slicers"; do good "$name on one page" [ "$(grep -c "^[^a-z]*$name" sheet.txt)" -eq 1 ]; done
good "the demo needs five pages of paper at most" grep -qE '^# us: pages on paper: report A4 [1-5],' said
finish
