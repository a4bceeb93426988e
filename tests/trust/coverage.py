"""coverage.py COVERAGE.json TREE: shares by folder, the files that lack most, branches of the readers that were never taken,
and every complaint that was never made. Ends with 1 where a goal of coverage.sh is not met."""
import json
import os
import re
import sys
from collections import defaultdict

data = json.load(open(sys.argv[1]))
tree = sys.argv[2]
READERS = re.compile(r"model/base/(toml|csv|param|sources|date|time|units|number|clock_rule)|model/climate/climate_(log|columns|time|normals)"
                     r"|model/house/(kept_read|record_(read|cells|columns)|scenario_value|scenario_walk)|model/market/(grade|ripen)_read")
# Calls that tell a person that something is wrong or doubtful, by the last word of their name; and the reasons of cli/write.
COMPLAINT = re.compile(r"\b(?:\w+_)?(?:fail|wrong|warn|refuse|complain|says|no_memory|fail_memory)\(|\bsnprintf\(why,")
# FILE: how the words begin: why. For a branch of the readers "branch FILE: how the line begins: why".
answered = [re.match(r"((?:branch )?\S+): (.+): (.+)", row).groups()
            for row in open(f"{os.path.dirname(os.path.abspath(__file__))}/unseen.txt")]
used = set()


def answer(name, words):
    for i, (file, begins, _) in enumerate(answered):
        if file == name and words.startswith(begins):
            used.add(i)
            return True
    return False


lines, branches, missing, silent, untaken = defaultdict(lambda: [0, 0]), defaultdict(lambda: [0, 0]), [], [], []
sites = excused = known = 0
for f in data["files"]:
    name = f["file"]
    if not name.startswith(("model/", "cli/")):
        continue
    part = "/".join(name.split("/")[:2]) if name.startswith("model/") else "/".join(name.split("/")[:-1])
    text = open(f"{tree}/{name}").read().splitlines()
    seen = [n for n in f["lines"] if not n.get("gcovr/noncode")]
    got = sum(n["count"] > 0 for n in seen)
    # an assert that fails ends the program: that way is no branch of ours
    ways = [(n["line_number"], b) for n in seen for b in n["branches"] if "assert(" not in text[n["line_number"] - 1]]
    taken = sum(b["count"] > 0 for _, b in ways)
    for key in (part, name.split("/")[0]) + (("readers, dates, units",) if READERS.match(name) else ()):
        lines[key][0] += got
        lines[key][1] += len(seen)
        branches[key][0] += taken
        branches[key][1] += len(ways)
    if len(seen) > got:
        missing.append((len(seen) - got, name, [n["line_number"] for n in seen if n["count"] == 0]))
    if READERS.match(name):
        open_at = [n for n, b in ways if b["count"] == 0]
        said = {n for n in set(open_at) if answer(f"branch {name}", text[n - 1].strip())}
        known += sum(n in said for n in open_at)
        open_at = [n for n in open_at if n not in said]
        if open_at:
            untaken.append((len(open_at), name, sorted(set(open_at))))
    for n in seen:
        at = n["line_number"]
        if not COMPLAINT.search(text[at - 1]) or not text[at - 1].startswith(" "):
            continue
        sites += 1
        if n["count"] == 0:
            call = " ".join(s.strip() for s in text[at - 1:at + 5])
            call = call[:call.find(");") + 1]
            words = re.search(r'"((?:[^"\\]|\\.)+)', call)
            words = words[1] if words else call
            if answer(name, words):
                excused += 1
            else:
                silent.append(f"{name}:{at}: {words}")

share = {key: (100 * lines[key][0] / lines[key][1], 100 * branches[key][0] / max(branches[key][1], 1)) for key in lines}
for key in sorted(lines):
    print(f"{key:24} lines {share[key][0]:5.1f} % of {lines[key][1]:6}   branches {share[key][1]:5.1f} % of {branches[key][1]:6}")
print("\nMost lines missed:")
for count, name, at in sorted(missing, reverse=True)[:25]:
    print(f"{count:5} {name}: {' '.join(map(str, at[:18]))}")
print(f"\nReaders, dates, units: {sum(u[0] for u in untaken)} branches never taken, {known} more answered in unseen.txt:")
for count, name, at in sorted(untaken, reverse=True):
    print(f"{count:5} {name}: {' '.join(map(str, at))}")
print(f"\nComplaints: {sites} places, {len(silent) + excused} never made, {excused} of these answered in unseen.txt; the others:")
print("\n".join(silent))
for i, row in enumerate(answered):
    if i not in used:
        print(f"unseen.txt answers what is made, taken or gone: {row[0]}: {row[1]}")
met = share["model"][0] >= 95 and share["cli"][0] >= 85 and not untaken and not silent
print("\nEvery goal is met." if met else "\nNot every goal is met (coverage.sh names them).")
sys.exit(not met)
