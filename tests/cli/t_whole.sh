#!/bin/sh
# What is counted is whole wherever a person reads it: few cucumbers, on screen, report and sheet; what is safe is the same
# number everywhere, rounded down; nothing is said as 0.0.
. "$(dirname -- "$0")/lib.sh"
sed 's/tomato-[a-z]*/cucumber-long/; s/^plants = .*/plants = 4/; s/slicers/long ones/' "$VINEHAND_SOURCE/tests/cli/one-bay.toml" >few.toml
cat >>few.toml <<END
set_out = 2026-05-01
pull_out = 2026-08-20
$(planting reds tomato-large 6 2.5 2026-03-01 2026-09-20)
[market]
days = ["sat"]
[[market.price]]
crop = "cucumber-long"
per_fruit = 1.5
sold_by = "each"
wants_fruits = 9
[[market.price]]
crop = "tomato-large"
per_kg = 5
END
for today in 2026-06-09 2026-08-11; do
    for command in week forecast; do
        run $command few.toml --members 10 --today $today --out out; exits 0
        bad "$today $command: part of a fruit" grep -qE 'long ones +(about )?[0-9]+[.][0-9]+( [^kn]|[,;)])|[0-9][.][0-9] fruits' "$work/out"
        bad "$today $command: safe parts" grep -qE 'long ones[^;,(]*\((safe )?[0-9]+[.]' "$work/out"
        bad "$today $command: 0.0" grep -qE '(^|[^0-9.])0[.]0' "$work/out"
        python3 - out $today "$work/out" >"$work/said" 2>&1 <<'PY' || tell "$today $command: $(cat "$work/said")"
import csv, html, math, re, sys
today, text = sys.argv[2], open(sys.argv[3]).read()
rows = [r for r in csv.DictReader(open(f"{sys.argv[1]}/market_days.csv", newline="")) if r["date"] >= today and r["grade"] == "all"]
rows = [r for r in rows if r["date"] == rows[0]["date"]]
page = html.unescape(re.sub(r"<[^>]+>", " ", open(f"{sys.argv[1]}/report.html").read().split("</style>")[1]))
for r in rows:
    pieces = r["planting"] == "long ones"
    promise = float(r["promise_fruits" if pieces else "promise_kg"])
    safe = math.floor(promise) if pieces or promise >= 10 else math.floor(promise * 10) / 10
    safe = f"{safe:g}" if pieces or safe == 0 or promise >= 10 else f"{safe:.1f}"
    line = re.search(rf"{r['planting']} +(none|.* likely.*)", text)[0]
    if promise > 0 and not line.endswith("none") and f"safe {safe}" not in line: sys.exit(f"safe {safe} of {promise}: {line}")
    if promise > 0 and not re.search(rf"(^| |>){re.escape(safe)} +(kg)? *safe to promise", page): sys.exit(f"the page lacks {safe} of {r['planting']}")
PY
    done
    python3 - out/sheet.html >"$work/said" 2>&1 <<'PY' || tell "$today sheet: $(cat "$work/said")"
import html, re, sys
text = re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", open(sys.argv[1]).read())))
bad = re.findall(r"\d+\.\d+ (?:off|fruits|turns|leaves)[^.]*|leave \d+\.\d+|take \d+\.\d+", text)
if bad: sys.exit(str(bad))
PY
    bad "$today: parts of leaves and turns" grep -qE '[0-9][.][0-9]+ (off|turns)' out/tasks.csv
done
finish
