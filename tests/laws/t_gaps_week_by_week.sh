#!/bin/sh
# What is short in autumn, and what to sow against it, follows from what was said the week before: the same house, whose weather
# comes as it was expected, on every Tuesday of three months. common practice, no source.
. "$VINEHAND_SOURCE/tests/cli/lib.sh"

cat >house.toml <<END
[house]
name = "Two batches"
latitude_deg = 40.3
cover = "film-double"
[climate]
heat_c = 13
vent_c = 24
$(roughly 29 17 3 -6)
$(planting first cucumber-mini 50 2.2 2026-05-08 2026-07-25)
$(planting second cucumber-mini 50 2.2 2026-07-18 2026-10-20)
[market]
days = ["sat"]
from = 2026-05-16
until = 2026-10-31
[[market.price]]
crop = "cucumber-mini"
per_fruit = 0.75
sold_by = "each"
wants_fruits = 150
[futures]
members = 20
END
mkdir out
tuesdays=$(python3 -c 'import datetime
for w in range(13): print(datetime.date(2026, 6, 2) + datetime.timedelta(7 * w))')
for day in $tuesdays; do
    run week house.toml --today "$day" --out "out/$day"; exits 0
done
python3 - $tuesdays >said 2>&1 <<'END'
import csv, datetime, sys
date = datetime.date.fromisoformat
weeks = []
for day in sys.argv[1:]:
    gaps = list(csv.DictReader(open(f"out/{day}/gaps.csv")))
    print(day, *(f'{g["from"]}..{g["until"]} {g["short_fruits"]} by {g["sow_by"]} {g["plants"]}' for g in gaps), sep="\n  ")
    weeks.append((day, gaps))
assert all(gaps for day, gaps in weeks)
def of(gaps, day): # the gap that a market day lies in
    return [g for g in gaps if g["from"] <= day <= g["until"]]
autumn = [sum(float(g["short_fruits"]) for g in gaps if g["until"] >= "2026-09-01") for day, gaps in weeks]
print("autumn", autumn)
assert all(abs(a - b) < 0.25 * max(a, b) for a, b in zip(autumn, autumn[1:])), "what is short in autumn jumps"
for market_day in "2026-08-01", "2026-10-03", "2026-10-17", "2026-10-24":
    late, days = False, []
    for day, gaps in weeks:
        for g in of(gaps, market_day):
            assert not late or not g["plants"], f"{market_day}: too late, and then sown for on {day}"
            late = not g["plants"]
            if not late:
                days.append(date(g["sow_by"]))
            else: # what was missed is said to be past
                assert g["sow_by"] and g["sow_by"] < day, (market_day, day, g)
    print(market_day, *days)
    # a sowing that is still to come moves by a fortnight at most from one Tuesday to the next
    assert all(abs((b - a).days) <= 14 for a, b in zip(days, days[1:])), f"{market_day}: {days}"
first = [of(gaps, "2026-08-01")[0] for day, gaps in weeks[:8]]
assert len({g["plants"] != "" for g in first[:2]}) == 1 and all(g["until"] < "2026-09-01" for g in first), "two gaps told as one"
assert any(of(gaps, "2026-10-17")[0]["plants"] for day, gaps in weeks if day >= "2026-08-01"), "October can be sown for in August"
END
follows=$?
good "$(cat said)" [ "$follows" -eq 0 ]
finish
