#!/bin/sh
# Pick and keep: the columns of picks.csv against a second reckoning in Python from params/ alone, and the
# PICK line of week. Warnings of cold and of fruits that must not lie together.
. "$(dirname -- "$0")/lib.sh"
two="$VINEHAND_SOURCE/scenarios/two-bays"

run week "$two" --members 1 --today 2026-07-14 --out out; exits 0
says "kg plums pink: keep at 18 to 20 C"
says "kg plums red: keep at 10 to 13 C"
says "cucumbers: keep at 10 to 12 C, never beside"
good "said once" [ "$(grep -c "never beside" "$work/out")" -eq 1 ]
good "fruits that must not lie together are warned, with all they must be kept from" grep -q '^[^,]*,cucumbers,must not lie beside slicers or plums in store,' out/warnings.csv
bad "nothing is too cold" grep -q "hurts them" out/warnings.csv
python3 - "$VINEHAND_SOURCE/params" out/picks.csv >"$work/said" <<'PY' || tell "picks.csv is not as params say: $(cat "$work/said")"
import csv, datetime, math, sys
params, picks = sys.argv[1:]
def rows(name):
    got = {}
    for r in csv.DictReader(open(f"{params}/crops/{name}.csv", newline="")):
        got[r["name"]] = r["value"]
    return {**(rows(got["base"]) if "base" in got else {}), **got}
stages = ["mature-green", "breaker", "turning", "pink", "light-red", "red"]
table = {}
for r in csv.DictReader(open(f"{params}/off-vine.csv", newline="")):
    table.setdefault(r["stage"], []).append((float(r["temp_c"]), float(r["days"])))
def to_red(stage, c):
    if stage == "red": return 0.0
    if stage == "light-red": return to_red("pink", c) / 2
    t = table[stage]
    c = min(max(c, t[0][0]), t[-1][0])
    for (a, x), (b, y) in zip(t, t[1:]):
        if a <= c <= b: return x + (y - x) * (c - a) / (b - a)
def share(days, mean, cv):
    if days <= 0: return 0.0
    s = math.sqrt(math.log(1 + cv * cv))
    return 0.5 * math.erfc(-(math.log(days / mean) / s + s / 2) / math.sqrt(2))
crop = {"slicers": rows("tomato-large"), "plums": rows("tomato-plum"), "cucumbers": rows("cucumber-long")}
seen = 0
for r in csv.DictReader(open(picks, newline="")):
    if not r["keep_low_c"]: continue
    n = {k[6:]: float(v) for k, v in crop[r["planting"]].items() if k.startswith("store.") and v not in ("yes", "no")}
    days = (datetime.date.fromisoformat(r["market_day"]) - datetime.date.fromisoformat(r["date"])).days
    c = (float(r["keep_low_c"]) + float(r["keep_high_c"])) / 2
    wait = to_red(r["pick_colour"], c) if r["pick_colour"] else 0.0
    life = n["life_d"] * n["q10"] ** (-max(0, c - n["best_high_c"]) / 10)
    lost = share(days - wait, life, n["life_cv"])
    if not 0 <= days < 7 and r["market_day"] != "2026-04-25": sys.exit(f"{r}: not the next Saturday")
    if abs(lost - float(r["lost_share"])) > 1e-5 * lost + 1e-12: sys.exit(f"{r}: lost {lost}")
    if r["pick_colour"] and days - wait < -0.5 * to_red("light-red", c): sys.exit(f"{r}: not red by then")
    if not 0 <= float(r["unmarketable_kg"]) <= float(r["kg"]): sys.exit(f"{r}: unmarketable")
    seen += 1
print(seen, "picks")
if seen < 100: sys.exit("too few")
PY

# a store that is too cold; buyers twice a week; another colour of tomatoes
mkdir cold && sed -e 's/^from_g = 350.*/from_g = 350\nhold_c = 6/' -e 's/^days = \["sat"\]/days = ["wed", "sat"]/' "$two/scenario.toml" >cold/scenario.toml
cp "$two"/*.csv cold
run week cold --members 1 --today 2026-07-14 --out out; exits 0
good "cold is warned" grep -q "cucumbers,a store at 6 C hurts them: half within" out/warnings.csv
says "cucumbers: keep at 6 C"
run week cold --members 1 --today 2026-07-14 --units us --out out; exits 0
says "cucumbers: keep at 43 F"

# without market days a line a day, as before; no columns are filled
mkdir none && sed -e '/^\[market\]/,/^\[labour\]/{/^\[labour\]/!d}' "$two/scenario.toml" >none/scenario.toml
cp "$two"/*.csv none
run week none --members 1 --today 2026-07-14 --out out; exits 0
bad "no keeping without market days" grep -q "keep at" "$work/out"
says "PICK       Tue "
good "the columns stay empty" python3 -c '
import csv
assert all(not r["market_day"] and not r["keep_low_c"] and not r["lost_share"] for r in csv.DictReader(open("out/picks.csv")))'
finish
