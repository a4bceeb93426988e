"""scaled.py ONE OTHER FACTOR COLUMNS [BUT]: in two folders of results, every number of the columns (a pattern for
"table.column", ranges and differences included) is FACTOR times the other's, and every other cell the same, but for the
columns BUT. Of the tables TOLD.
"""
import csv
import re
import sys

TOLD = "climate_days gaps market_days picks said said_fruits weeks trusses stem plant_days lowering to_measure choices".split()
one, other, factor, pattern = sys.argv[1], sys.argv[2], float(sys.argv[3]), re.compile(sys.argv[4])
but = re.compile(sys.argv[5] if len(sys.argv) > 5 else "-")
HALF_CENT = 0.005  # money is told in cents
NOTHING = 1e-6  # smaller numbers are written as 0 (cli/write/csv_out.c)
NO_PICK = 0.5  # fruits: a day on which fewer are picked has no row, so the larger house may have some that the other lacks


def without_small_picks(rows, others):
    """rows but those whose date and planting others lack, if they are no pick there."""
    known = {(row["date"], row["planting"]) for row in others}
    return [
        row
        for row in rows
        if (row["date"], row["planting"]) in known or max(float(row["fruits"]), float(row["fruits_p90"])) >= factor * NO_PICK
    ]


wrong = scaled = same = 0
for table in TOLD:
    try:
        a, b = (list(csv.DictReader(open(f"{folder}/{table}.csv", newline="", encoding="utf-8"))) for folder in (one, other))
    except FileNotFoundError:
        continue
    if table == "picks":
        b = without_small_picks(b, a)
    if len(a) != len(b):
        print(f"{table}: {len(a)} and {len(b)} rows")
        wrong += 1
    for x, y in zip(a, b):
        for column in x:
            name = re.sub(r"(_diff)?(_p[159]0)?$", "", column)
            if but.fullmatch(f"{table}.{name}"):
                continue
            if not pattern.fullmatch(f"{table}.{name}") or not x[column] or not y[column]:
                same += 1
                is_right = x[column] == y[column]
            else:
                scaled += 1
                should = factor * float(x[column])
                least = (factor + 1) * HALF_CENT if name in ("income", "supplies_cost", "margin") else factor * NOTHING
                is_right = abs(float(y[column]) - should) <= 2e-5 * abs(should) + least
            if not is_right:
                wrong += 1
                if wrong <= 12:
                    print(f"{table} {column}: {x[column]}, then {y[column]}: {list(x.values())[:3]}")
print(f"{wrong} wrong of {scaled} scaled and {same} that stay")
sys.exit(1 if wrong or scaled < 500 or same < 500 else 0)
