"""coverage.py COVERAGE.json TREE: shares by folder, the files that lack most, and every complaint that was never made."""
import json
import re
import sys
from collections import defaultdict

data = json.load(open(sys.argv[1]))
tree = sys.argv[2]
READERS = re.compile(r"model/base/(toml|csv|param|sources|date|time|units|number|clock_rule)|model/climate/climate_(log|columns|time|normals)"
                     r"|model/house/(kept_read|record_(read|cells|columns)|scenario_value|scenario_walk)|model/market/(grade|ripen)_read")
# Calls that say something is wrong to a person.
COMPLAINT = re.compile(r"\b(?:\w+_)?(?:fail|wrong|warn|refuse|complain|says|caution|note_once)(?:_\w+)?\(|\bsnprintf\(why,")

lines, branches, missing, silent = defaultdict(lambda: [0, 0]), defaultdict(lambda: [0, 0]), [], []
for f in data["files"]:
    name = f["file"]
    if not name.startswith(("model/", "cli/")):
        continue
    part = "/".join(name.split("/")[:2]) if name.startswith("model/") else "/".join(name.split("/")[:-1])
    text = open(f"{tree}/{name}").read().splitlines()
    seen = [n for n in f["lines"] if not n.get("gcovr/noncode")]
    got = sum(n["count"] > 0 for n in seen)
    ways = [b for n in seen for b in n["branches"]]
    taken = sum(b["count"] > 0 for b in ways)
    for key in (part, name.split("/")[0]) + (("readers, dates, units",) if READERS.match(name) else ()):
        lines[key][0] += got
        lines[key][1] += len(seen)
        branches[key][0] += taken
        branches[key][1] += len(ways)
    if len(seen) > got:
        missing.append((len(seen) - got, name, [n["line_number"] for n in seen if n["count"] == 0]))
    for n in seen:
        if n["count"] == 0 and COMPLAINT.search(text[n["line_number"] - 1]):
            around = " ".join(s.strip() for s in text[n["line_number"] - 1:n["line_number"] + 3])
            words = re.search(r'"([^"]+)', around)
            silent.append(f'{name}:{n["line_number"]}: {words[1] if words else around[:70]}')

for key in sorted(lines):
    share = [100 * a / b if b else 100 for a, b in (lines[key], branches[key])]
    print(f"{key:24} lines {share[0]:5.1f} % of {lines[key][1]:6}   branches {share[1]:5.1f} % of {branches[key][1]:6}")
print("\nMost lines missed:")
for count, name, at in sorted(missing, reverse=True)[:25]:
    print(f"{count:5} {name}: {' '.join(map(str, at[:18]))}")
print(f"\nComplaints never made ({len(silent)}):")
print("\n".join(silent))
