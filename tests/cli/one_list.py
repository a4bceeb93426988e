"""one_list.py FOLDER [THINNED...]: with many futures tasks.csv is still one list of work: each truss is thinned once, on the day and
by the number of trusses.csv; a day with work has its walk; hours.csv is the sum of the minutes. Each planting THINNED is thinned."""
import collections, csv, datetime, re, sys

folder, thinned_at_all = sys.argv[1], sys.argv[2:]
rows = lambda name: list(csv.DictReader(open(f"{folder}/{name}.csv", newline="")))
tasks, wrong = rows("tasks"), []
if "count_p90" not in tasks[0]:
    sys.exit("one future alone")

thin = collections.defaultdict(list)
for t in tasks:
    truss = re.search(r"\btruss (\d+)", t["note"])
    if t["task"] == "thin" and truss:
        thin[t["planting"], truss[1]].append(t)
wrong += [f"{which}: thinned {len(found)} times" for which, found in thin.items() if len(found) > 1]
for name in thinned_at_all:
    if sum(1 for planting, _ in thin if planting == name) < 3:
        wrong.append(f"{name} is not thinned")

LEAST = 0.05  # params/work.csv, work.thin_least_off
of_nodes = {t["planting"] for t in tasks if t["task"] == "thin" and "nodes " in t["note"]}
supports = {(t["planting"], re.search(r"\btruss (\d+)", t["note"])[1], t["date"]) for t in tasks if t["task"] == "support"}
for r in rows("trusses"):
    which = r["planting"], r["truss"]
    if r["support_on"] and (*which, r["support_on"]) not in supports:
        wrong.append(f"{which}: no support on {r['support_on']}")
    off = float(r["take_off"] or 0)
    if r["planting"] in of_nodes or off <= LEAST:
        continue
    found = thin.pop(which, [])
    if not found and r["take_off_on"]:
        wrong.append(f"{which}: {off} to take off, and no row")
        continue
    if not found:  # of so young fruit that the season ends before
        continue
    t = found[0]
    if t["date"] != r["take_off_on"]:
        wrong.append(f"{which}: on {t['date']}, not {r['take_off_on']}")
    # "leave 4, take 1 off (48)": 48 trusses of `take_off` each
    said = re.search(r"leave .*, take .* off \((\d+)\)", t["note"])
    if said and abs(int(said[1]) - off * float(t["count"])) > 0.51:
        wrong.append(f"{which}: {t['note']}, of {t['count']} with {off} each")
wrong += [f"{which}: no such truss, or nothing to take off" for which, found in thin.items() if which[0] not in of_nodes and "left" not in found[0]["note"]]

on = collections.defaultdict(set)
minutes, hours = collections.Counter(), collections.Counter()
for t in tasks:
    day = datetime.date.fromisoformat(t["date"])
    on[day].add(t["task"])
    minutes[day - datetime.timedelta(days=day.weekday()), t["task"]] += float(t["minutes"])
for day, what in on.items():
    if what == {"walk"} or what == {"walk", "clean"} or ("walk" not in what and what != {"top"}):
        wrong.append(f"{day}: {sorted(what)}")
for h in rows("hours"):
    if h["task"] in {t["task"] for t in tasks}:
        hours[datetime.date.fromisoformat(h["monday"]), h["task"]] += 60 * float(h["hours"])
for key in minutes.keys() | hours.keys():
    if abs(minutes[key] - hours[key]) > 0.001 * minutes[key] + 0.001:
        wrong.append(f"{key[1]} in the week of {key[0]}: {minutes[key]} min of tasks, {hours[key]} min of hours.csv")
print("\n".join(wrong[:20]))
sys.exit(bool(wrong))
