"""turn.py SCENARIO.toml [PLANTING]: its plantings, prices and orders each in the other order, or with that planting alone."""
import re
import sys

GROUPS = ["planting", "market.price", "market.order"]
alone = sys.argv[2] if len(sys.argv) > 2 else None
rest, group = [], {name: [] for name in GROUPS}
for block in re.split(r"(?m)^(?=\[)", open(sys.argv[1], encoding="utf-8").read()):
    name = re.match(r"\[*([a-z_.]*)", block)[1]
    if name.startswith("planting.") or (name == "planting.fruits_kept"):
        group["planting"][-1] += block
    elif name in group:
        group[name].append(block)
    elif not (alone and name == "compare"):
        rest.append(block)
if alone:
    group["planting"] = [b for b in group["planting"] if f'name = "{alone}"' in b]
    crop = re.search(r'crop = "[a-z-]+"', group["planting"][0])[0]
    for name in GROUPS[1:]:
        group[name] = [b for b in group[name] if crop in b]
market = [i for i, b in enumerate(rest) if b.startswith("[market]")][0] + 1
rest[market:market] = group["market.price"][::-1] + group["market.order"][::-1]
print("".join(rest + group["planting"][::-1]), end="")
