"""columns.py SCENARIO OUT [COMPARED [HOUSES [LEARNED...]]]: columns of the results, worked out a second way from others.

SCENARIO is the folder of the demo, OUT what `forecast --members 1 --no-records` wrote of it, COMPARED what `compare` did, HOUSES what
`houses` did of a list of that one house, LEARNED what `learn` did of it, with and without its market. What is held: sums over
days, weeks, tasks and grades; the ISO week (Python's own calendar); the triangle of wire, hook and laid stem (model.md section
7); the money of a market day (section 10: orders, then the stall, then what is above); differences of choices; what the records
hold of each thing that is learned.
"""
import collections
import csv
import datetime
import math
import sys
import tomllib

KG_PER_LB = 0.45359237  # by definition (NIST SP 811, 2008, appendix B)
DIAMETER_A = 4.8e-4  # g mm-3, round fruit (Cockshull, project PC 065: 47 to 57 mm = 50 to 90 g)
MOST_LOAD = 10.0  # model.md section 6
KNOTS_CM = 50.0  # model.md section 7
HALF_A_FRUIT, DAYS_PER_WEEK = 0.5, 7  # a pick that rounds to no fruit has no row
TODAY = datetime.date(2026, 7, 14)  # of all these runs
wrong = 0


def near(what, is_, should, rel=2e-5, least=2e-6):
    global wrong
    if not abs(is_ - should) <= least + rel * abs(should):
        wrong += 1
        if wrong <= 20:
            print(f"WRONG {what}: {is_}, worked out {should}")


def table(folder, name):
    with open(f"{folder}/{name}.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def number(row, column):
    return float(row[column]) if row[column] else math.nan


def date(text):
    return datetime.date.fromisoformat(text)


def week(text):
    year, number_, _ = date(text).isocalendar()
    return f"{year}-W{number_:02d}"


def weeks_of(out, planting):
    """Sums of the picks and means of the days, week by week."""
    sums = collections.defaultdict(lambda: [0.0, 0.0, 0.0])
    for row in table(out, "picks"):
        key = week(row["date"]), row["planting"]
        for i, column in enumerate(["fruits", "kg", "unmarketable_kg"]):
            sums[key][i] += number(row, column)
        if number(row, "fruits") > 1e-4:
            near(f"picks fruit_g {row['date']}", number(row, "fruit_g"), 1000 * number(row, "kg") / number(row, "fruits"), 1e-4)
    days = collections.defaultdict(list)
    for row in table(out, "plant_days"):
        days[week(row["date"]), row["planting"]].append((number(row, "load"), number(row, "supply_share")))
        if number(row, "load") < MOST_LOAD and number(row, "load") > 0:
            near(f"supply_share {row['date']}", number(row, "supply_share"), min(1.0, 1.0 / number(row, "load")), 1e-4)
    total = collections.Counter()
    rows = table(out, "weeks")
    for row in rows:
        name = row["planting"]
        key = row["week"], name
        plants, per_m2 = planting[name]["plants"], planting[name]["plants_per_m2"]
        if key in sums:
            fruits, kg, spoilt = sums[key]
        else:  # what rounds to no fruit of the planting has no row among the picks
            fruits, kg = number(row, "fruits"), number(row, "kg")
            spoilt = kg - number(row, "market_kg")
            near(f"weeks fruits {key}", fruits < HALF_A_FRUIT * DAYS_PER_WEEK, True)
        total[name] += kg
        near(f"weeks monday {key}", date(row["monday"]).weekday(), 0)
        near(f"weeks week {key}", week(row["monday"]) == row["week"], True)
        for column, should in [("fruits", fruits), ("kg", kg), ("market_kg", kg - spoilt), ("kg_per_plant", kg / plants),
                               ("kg_m2", kg / plants * per_m2), ("cumulative_kg", total[name]),
                               ("load", sum(a for a, _ in days[key]) / len(days[key])),
                               ("supply_share", sum(a for _, a in days[key]) / len(days[key]))]:
            near(f"weeks {column} {key}", number(row, column), should, 1e-4, 1e-5)
        if fruits > 1e-4:
            near(f"weeks fruit_g {key}", number(row, "fruit_g"), 1000 * kg / fruits, 1e-4)
            if planting[name]["crop"].startswith("tomato"):
                near(f"weeks diameter_mm {key}", number(row, "diameter_mm"), (number(row, "fruit_g") / DIAMETER_A) ** (1 / 3), 1e-4)
    near("weeks", len(rows) > 80, True)
    return total


def trusses_of(out, planting):
    rows = table(out, "trusses")
    for row in rows:
        key = row["planting"], row["truss"]
        if row["take_off"]:
            near(f"take_off {key}", number(row, "take_off"), number(row, "set") - number(row, "kept"), 1e-4, 1e-4)
        if row["days_flower_to_ripe"] and row["first_ripe"]:
            # the days are of moments, the dates of whole days
            near(f"days_flower_to_ripe {key}", number(row, "days_flower_to_ripe"),
                 (date(row["first_ripe"]) - date(row["first_flower"])).days, 0, 1.0)
        for first, last in [("first_flower", "last_flower"), ("first_ripe", "last_ripe"), ("first_flower", "take_off_on")]:
            near(f"{first} {last} {key}", not row[first] or not row[last] or row[first] <= row[last], True)
        if row["diameter_mm"] and planting[key[0]]["crop"].startswith("tomato"):
            near(f"trusses diameter_mm {key}", number(row, "diameter_mm"), (number(row, "fruit_g") / DIAMETER_A) ** (1 / 3), 1e-4)
    near("trusses", len(rows) > 100, True)


def stem_of(out, wire_cm, base_cm, turn_cm, wound_cm):
    rise = wire_cm - base_cm
    stem = {(row["date"], row["planting"]): row for row in table(out, "stem")}
    for key, row in stem.items():
        lean = math.radians(number(row, "lean_deg"))
        near(f"head_height_cm {key}", number(row, "head_height_cm"),
             base_cm + (number(row, "stem_cm") - number(row, "laid_cm")) * math.sin(lean), 1e-4)
    before, visits = {}, 0
    for row in table(out, "lowering"):
        key, name = (row["date"], row["planting"]), row["planting"]
        string, laid, hook = (number(row, c) for c in ("string_in_use_cm", "laid_cm", "hook_from_root_cm"))
        near(f"hook, wire and string {key}", (string - laid) ** 2, rise**2 + (hook - laid) ** 2, 1e-4)
        near(f"lean_deg {key}", math.radians(number(stem[key], "lean_deg")), math.asin(min(1.0, rise / (string - laid))), 1e-3)
        near(f"turns {key}", number(row, "turns"), number(row, "lower_cm") / turn_cm)
        near(f"string_left_m {key}", 100 * number(row, "string_left_m"), wound_cm[name] - KNOTS_CM - string, 2e-4)
        was = before.get(name, (rise, 0.0))
        near(f"lower_cm {key}", number(row, "lower_cm"), string - was[0], 1e-4, 0.02)
        near(f"hook_moves_cm {key}", number(row, "hook_moves_cm"), hook - was[1], 1e-4, 0.02)
        for column in ["stem_cm", "laid_cm", "lowest_fruit_cm"]:
            near(f"stem.csv {column} {key}", number(stem[key], column), number(row, column))
        before[name] = string, hook
        visits += 1
    near("lowering", visits > 50, True)


def work_of(out, scenario):
    minutes = collections.Counter()
    for row in table(out, "tasks"):
        minutes[week(row["date"]), row["task"]] += number(row, "minutes") if row["minutes"] else 0.0
    other = {work["what"]: work["hours_per_week"] for work in scenario["labour"]["other_work"]}
    told, left = set(), {}
    for row in table(out, "hours"):
        key = row["week"], row["task"]
        told.add(key)
        near(f"hours {key}", number(row, "hours"), other.get(row["task"], minutes[key] / 60), 1e-4)
        left.setdefault(row["week"], set()).add(row["hours_left"])
    near("tasks whose hours are not told", [k for k, v in minutes.items() if v > 0 and k not in told] == [], True)
    for name, values in left.items():
        near(f"hours_left {name} has one value", len(values), 1)
        used = sum(v for k, v in minutes.items() if k[0] == name) / 60
        near(f"hours_left {name}", float(values.pop()), scenario["labour"]["hours_per_week"] - used, 1e-4, 2e-4)
    for row in table(out, "supplies"):
        if row["runs_out"]:
            near(f"order_by {row['item']}", (date(row["runs_out"]) - date(row["order_by"])).days, scenario["stock"]["delivery_d"])


def market_of(out, scenario, planting):
    brought = collections.Counter()
    for row in table(out, "picks"):
        kg = number(row, "kg")
        if row["market_day"]:
            brought[row["market_day"], row["planting"]] += kg - number(row, "unmarketable_kg")
    good = {price["crop"]: price for price in scenario["market"]["price"]}
    orders = {order["crop"]: order for order in scenario["market"]["order"]}
    grades = collections.defaultdict(lambda: [0.0, 0.0, 0.0])
    rows = table(out, "market_days")
    ungraded = collections.Counter()  # too small or too large for the table: beside the others, not among them
    for row in rows:
        if row["grade"] == "ungraded":
            ungraded[row["date"], row["planting"]] = number(row, "kg")
        elif row["grade"] != "all":
            for i, column in enumerate(["kg", "fruits", "income"]):
                grades[row["date"], row["planting"]][i] += number(row, column)
    for row in (row for row in rows if row["grade"] == "all"):
        key = row["date"], row["planting"]
        crop = planting[row["planting"]]["crop"]
        price, order = good[crop], orders.get(crop)
        kg, fruits = number(row, "kg"), number(row, "fruits")
        near(f"kg on the table {key}", kg + ungraded[key] + number(row, "lost_in_store_kg"), brought[key], 1e-4, 1e-4)
        if key in grades:
            for i, column in enumerate(["kg", "fruits", "income"]):
                near(f"grades {column} {key}", grades[key][i], number(row, column), 1e-4, 0.04 if column == "income" else 1e-5)
        by_piece = price["sold_by"] == "each"
        ordered = 0.0
        if order and order["from"] <= date(row["date"]) <= order["until"]:
            ordered = order["fruits"] if by_piece else order["lb"] * KG_PER_LB
        told = row["orders_fruits" if by_piece else "orders_kg"]
        near(f"orders {key}", float(told or 0.0), ordered)
        has = fruits if by_piece else kg
        full = min(has, ordered + (price["sells_fruits"] if by_piece else price["sells_lb"] * KG_PER_LB))
        near(f"beyond_sales_kg {key}", number(row, "beyond_sales_kg"), (has - full) * (kg / has if has > 0 else 0.0), 1e-4, 1e-4)
        if "per_fruit" in price or isinstance(price["per_lb"], float):
            each = price["per_fruit"] if by_piece else price["per_lb"] / KG_PER_LB
            near(f"income {key}", number(row, "income"), each * (full + price["price_share_beyond"] * (has - full)), 1e-5, 0.006)
    near("market_days", len(rows) > 200, True)


def compared(out, scenario):
    names = ["fruit_g", "kg_per_plant", "market_kg", "income", "hours", "supplies_cost", "margin"]
    plan, others = {}, 0
    for row in table(out, "choices"):
        near(f"margin {row['choice']}", number(row, "margin"), number(row, "income") - number(row, "supplies_cost")
             - number(row, "hours") * scenario["labour"]["per_h"] - (number(row, "heating_cost") if row["heating_cost"] else 0.0), 1e-5, 0.03)
        if row["choice"] == "as planned":
            plan[row["planting"]] = row
            continue
        others += 1
        for name in names:
            if name == "fruit_g" and row["planting"] == "all":  # of two crops: a mean of nobody's
                near(f"fruit_g of all {row['choice']}", row["fruit_g"] + row["fruit_g_diff"] == "", True)
                continue
            should = number(row, name) - number(plan[row["planting"]], name)
            near(f"{name}_diff {row['choice']}", number(row, f"{name}_diff"), should, 1e-5, 1e-5 * abs(number(row, name)) + 0.011)
    near("choices", others > 5, True)


def houses(folder, out, planting, total):
    minutes = collections.Counter()
    for row in table(out, "tasks"):
        minutes[row["planting"]] += number(row, "minutes") if row["minutes"] else 0.0
    for row in table(folder, "houses"):
        name = row["planting"]
        near(f"houses kg_m2 {name}", number(row, "kg_m2"), total[name] / planting[name]["plants"] * planting[name]["plants_per_m2"], 1e-4)
        near(f"houses kg_per_hour {name}", number(row, "kg_per_hour"), total[name] / (minutes[name] / 60), 1e-4)


def learned(folder, records):
    """What was learned and what is still worth measuring, beside the records and the market day it is for."""
    entries = collections.Counter()
    noted = [(r["planting"], r["date"], r["item"].replace("_lb", "_kg")) for r in csv.DictReader(open(records, newline="", encoding="utf-8"))]
    for name, day, item in noted:
        is_both = item == "picked_kg" and (name, day, "picked_fruits") in noted  # number and weight of a pick: what a fruit weighs
        entries[name, "fruit_g" if is_both else item] += 1
    rows = table(folder, "learned")
    for row in rows:
        key = row["planting"], row["name"]
        near(f"before {key}", number(row, "before"), 0.0 if row["unit"] == "K" else 1.0)
        low, high = number(row, "before_low"), number(row, "before_high")
        # nine futures in ten lie as far above as below: a normal error, or a factor as far below 1 as above it, whose mean is 1
        spread = math.log(high / low) / 2 / 1.2815515655 if row["unit"] == "1" else 0.0
        near(f"before {key}, its ends", low + high if row["unit"] == "K" else low * high, 0.0 if row["unit"] == "K" else math.exp(-spread**2), 1e-4)
        near(f"after {key} between its ends", number(row, "after_low") < number(row, "after") < number(row, "after_high"), True)
        seen = sum(n for (name, item), n in entries.items() if item == row["seen_in"] and row["planting"] in ("", name))
        near(f"entries {key}", number(row, "entries"), seen)
    near("learned", len(rows) > 12, True)
    sold = {(row["date"], row["planting"]): row for row in table(folder, "market_days") if row["grade"] == "all"}
    before = {}
    for row in table(folder, "to_measure"):
        name = row["planting"]
        if row["market_day"]:
            of = sold[row["market_day"], name]
            for column, theirs in [("kg", "kg"), ("kg_low", "kg_p10"), ("kg_high", "kg_p90")]:
                near(f"to_measure {column} {name}", number(row, column), number(of, theirs))
            near(f"to_measure until {name}", row["until"] == row["market_day"], True)
        else:  # no market: the picks of the seven days to come
            days = [str(date(row["until"]) - datetime.timedelta(d)) for d in range(7)]
            near(f"to_measure until {name}", date(row["until"]) == TODAY + datetime.timedelta(7), True)
            near(f"to_measure kg {name}", number(row, "kg"), sum(number(pick, "kg") for pick in table(folder, "picks")
                                                                if pick["planting"] == name and pick["date"] in days), 1e-4)
        near(f"to_measure {row['item']} {name}, the most worth first", number(row, "narrows") <= before.get(name, 1.0), True)
        before[name] = number(row, "narrows")
    near("to_measure", len(before), 3)


def main(folder, out, *more):
    with open(f"{folder}/scenario.toml", "rb") as file:
        scenario = tomllib.load(file)
    planting = {p["name"]: p for p in scenario["planting"]}
    total = weeks_of(out, planting)
    trusses_of(out, planting)
    # defaults of the crops' files: 12 m of string are wound, 16 m for cucumber; 25 cm to the laid stem, 18 cm a turn
    wound = {name: 1600.0 if p["crop"].startswith("cucumber") else 1200.0 for name, p in planting.items()}
    stem_of(out, 100 * scenario["house"]["wire_height_m"], 25.0, 18.0, wound)
    work_of(out, scenario)
    market_of(out, scenario, planting)
    for row in table(out, "climate_days"):
        near(f"hours of {row['date']}", number(row, "hours_logged") + number(row, "hours_outlook"), 24)
    if more:
        compared(more[0], scenario)
    if len(more) > 1:
        houses(more[1], out, planting, total)
    for learn in more[2:]:
        learned(learn, f"{folder}/records.csv")
    print(f"{wrong} wrong" if wrong else "all columns come out")
    return 1 if wrong else 0


sys.exit(main(*sys.argv[1:]))
