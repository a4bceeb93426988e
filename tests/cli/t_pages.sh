#!/bin/sh
# report.html and sheet.html: whole, without script, asking for nothing, every drawing with its words, and with the
# numbers of the tables.
. "$(dirname -- "$0")/lib.sh"

small_scenario | sed 's/^cover.*/&\nwire_height_m = 2.6/' >s.toml
run forecast s.toml --today 2026-06-02 --params "$VINEHAND_SOURCE/params" --out out; exits 0
# one number for the load of the hungriest week: on the screen, on the page, in weeks.csv
load=$(awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
    $at["monday"] > "2026-05-26" && $at["load"] > most { most = $at["load"] } END { printf "%.1f", most }' out/weeks.csv)
good "the screen has the load of weeks.csv, $load" grep -q "most $load in the" "$work/out"
good "the page too" grep -q "Highest to come: $load in the" out/report.html
for page in report.html sheet.html; do
    good "$page is there" [ -s "out/$page" ]
    good "$page has no script" [ "$(grep -ci '<script\|onload=\|onclick=\|javascript:' "out/$page")" -eq 0 ]
    good "$page asks for nothing" [ "$(grep -c 'https\?://\|url(\|@import\|<link\|<img' "out/$page")" -eq 0 ]
    good "$page forbids it too" [ "$(grep -c "default-src 'none'" "out/$page")" -eq 1 ]
    good "$page ends with its caution" [ "$(grep -c 'Local rules, the label and licensed advice come before this' "out/$page")" -ge 1 ]
done
good "clips are used" grep -q "<dt>clips</dt><dd>[0-9 ]* are used to the end</dd>" out/report.html
bad "they last, though no stock is known" grep -q "they last" out/report.html
good "the report is under 1 MB" [ "$(wc -c <out/report.html)" -lt 1000000 ]
python3 "$VINEHAND_SOURCE/tests/cli/read_pages.py" out >said 2>&1
good "pages are well formed and have the numbers of the tables: $(cat said)" [ ! -s said ]
# weekly picks of the demo, to 14 July: the best week's name lies over the bands, and no bar of the model's on one of hers
run forecast "$VINEHAND_SOURCE/scenarios/two-bays" --today 2026-07-14 --members 5 --out demo; exits 0
cat >picks.py <<'PY'
import re
part = open("demo/report.html", encoding="utf-8").read().split('id="picks"')[1].split("</section>")[0]
for panel in re.findall("<svg.*?</svg>", part, re.S):
    name = re.search("<title[^>]*>([^<]*)", panel)[1]
    band = re.search(r'<path d="M([^"Z]*)Z?" class="band8', panel) or re.search(r'<path class="band8[^>]* d="M([^"Z]*)', panel)
    top = min(map(float, band[1].replace("L", " ").split()[1::2]))
    label = re.search(r'y="([\d.]+)" class="halo n[" ]', panel)
    if not float(label[1]) < top: print(f"{name}: the label at {label[1]}, the band to {top}")
    bars = {kind: re.findall(r'<rect x="([\d.]+)"[^>]*class="%s' % kind, panel) for kind in ("known", "open")}
    if not bars["known"] or set(bars["known"]) & set(bars["open"]): print(f"{name}: {bars}")
PY
python3 picks.py >said 2>&1
good "weekly picks: $(cat said)" [ ! -s said ]
finish
