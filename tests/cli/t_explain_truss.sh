#!/bin/sh
# explain PLANTING TRUSS and explain DATE: the chain that is printed, reckoned once more in Python from the
# rows above and from the CSVs of the same run, with the plants of the book and with what another season or
# this one's records taught; what cannot be asked is refused.
. "$(dirname -- "$0")/lib.sh"
two="$VINEHAND_SOURCE/scenarios/two-bays"

narrow() { good "80 columns" [ "$(awk 'length > 80' "$work/out" | wc -l)" -eq 0 ]; }
asked() {  # SCENARIO FOLDER TRUSSES: a forecast of the mean run and its chains
    mkdir "$2"
    run forecast "$1" --members 1 --today 2026-07-14 --out "$2/out"; exits 0
    for truss in $3; do
        run explain "$1" slicers $truss --members 1 --today 2026-07-14; exits 0; narrow
        cp "$work/out" "$2/truss-$truss"
    done
    run explain "$1" cucumbers 40 --members 1 --today 2026-07-14; exits 0; says "g a fruit"; narrow
    cp "$work/out" "$2/node-40"
    run explain "$1" 2026-07-18 --members 1 --today 2026-07-14; exits 0; narrow
    cp "$work/out" "$2/day"
}
asked "$two" book "3 12 20"
# the answer comes first, from the tables of the same run: one future has no range
cat >first.py <<'PY'
import csv, datetime, sys
def said(day): d = datetime.date.fromisoformat(day); return f"{d.day} {d:%B}"
def days(a, b): return said(a) if a == b else f"{a[8:].lstrip('0')} to {said(b)}" if a[:7] == b[:7] else f"{said(a)} to {said(b)}"
def mass(g): step = 1 if g < 150 else 5 if g < 300 else 10; return step * int(g / step + 0.5)
row = {r["truss"]: r for r in csv.DictReader(open("book/out/trusses.csv")) if r["planting"] == "slicers"}
for truss in ("3", "12", "20"):
    r, answer = row[truss], " ".join(open(f"book/truss-{truss}").read().split("\n\n")[1].split())
    past = lambda day: day < "2026-07-14"
    want = (f"It {'flowered' if past(r['last_flower']) else 'flowers'} {days(r['first_flower'], r['last_flower'])},"
            f" {'was' if past(r['last_ripe']) else 'is'} ready to pick {days(r['first_ripe'], r['last_ripe'])}:"
            f" about {float(r['kept']):.{1 if float(r['kept']) < 10 else 0}f} fruits a stem, {mass(float(r['fruit_g']))} g each.")
    if answer != want: sys.exit(f"{answer}\nis not\n{want}")
PY
good "the short answer is that of trusses.csv" python3 first.py
good "a market day's short answer too" grep -q "^SATURDAY   slicers .* kg likely" book/day
run explain "$two" slicers 26 --members 1 --today 2026-07-14; exits 0
says "is not ready before the plants come out on"
run explain "$two" 2026-09-12 --members 1 --today 2026-07-14; exits 0
good "a long date has a line for itself" grep -q "^12 September$" "$work/out"
for key in tap2000 adams2001 vanthoor2011 hanna2009; do
    good "$key is cited in full" grep -q "^  $key " book/truss-12
done
# plants that another season taught of
cp -r "$two" other
cat >other/kept.csv <<'CSV'
crop_or_planting,name,factor,low,high
house,light,0.93,0.88,0.98
house,log_offset_c,-0.4,-0.8,0.1
slicers,truss_pace,1.03,1,1.06
slicers,fruit_pace,0.96,0.93,0.99
slicers,fruit_mass,0.91,0.85,0.97
slicers,set,0.95,0.9,1
slicers,marketable,1.04,1.01,1.07
cucumbers,fruit_mass,0.9,0.85,0.95
CSV
printf '\n[parameters]\nfile = "kept.csv"\n' >>other/scenario.toml
asked other/scenario.toml taught 12
good "whose plants they are: the book's" grep -q "= plants of the book: every factor 1" book/truss-12
good "and another season's" grep -q "= moved by another season (kept file), each 1 in the book" taught/truss-12

cat >check.py <<'PY'
import csv, datetime, math, os, re, sys
os.chdir(sys.argv[1])
taught = sys.argv[1] != "book"
def table(name): return list(csv.DictReader(open(f"out/{name}.csv", newline="")))
def steps(file):
    got, part = {}, ""
    for line in open(file):
        if re.match(r"[A-Za-z][A-Za-z ]*$", line): part = line.strip()
        m = re.match(r"  (\S.*?) {2,}(?:(\d{4}-\d\d-\d\d))?,? ?(-?[\d.e+-]+)? ?(.*)$", line) if line.startswith("  ") and line[2] not in " " else None
        if m and part not in ("PICKS", "SOURCES"): got[part, m[1]] = (m[2], float(m[3]) if m[3] else None)
    return got
def same(what, a, b, relative=2e-4, absolute=0.0):
    if not abs(a - b) <= relative * abs(b) + absolute: sys.exit(f"{what}: {a} is not {b}")
def picks_of(file):
    text = open(file).read().split("\nPICKS\n")[1].split("\nSOURCES\n")[0]
    for block in re.split(r"\n(?=  \d{4}-)", text): yield " ".join(block.split())
def number(pattern, text): return float(re.search(pattern, text)[1])
def factors_of(file):
    """What the line of learnt says, and that it is what kept.csv holds."""
    text = re.search(r"learnt from .*?: (.*?)\n\n|learnt from", open(file).read(), re.S)
    said = dict(re.findall(r"(\w+) (-?[\d.]+)", " ".join((text[1] or "").split()).replace("the log", "log")))
    f = {k: float(said.get(k, 1)) for k in ("light", "truss_pace", "fruit_pace", "fruit_mass", "set", "marketable")}
    kept = {"light": .93, "truss_pace": 1.03, "fruit_pace": .96, "fruit_mass": .91, "set": .95, "marketable": 1.04}
    if file == "node-40": kept = {"light": .93, "fruit_mass": .9}
    if f != {k: kept.get(k, 1) if taught else 1 for k in f}: sys.exit(f"{file}: factors {f}")
    if taught and float(said["log"]) != -0.4: sys.exit(f"log {said}")
    return f
climate = {r["date"]: r for r in table("climate_days")}
plant = {(r["date"], r["planting"]): r for r in table("plant_days")}
stem = {(r["date"], r["planting"]): r for r in table("stem")}
def day(date, add): return (datetime.date.fromisoformat(date) + datetime.timedelta(add)).isoformat()
def heat(c): # adams2001, ends vanthoor2011
    t, f = [6, 14, 22, 26, 32], [0, .59, 1, .40, 0]
    for i in range(4):
        if t[i] <= c <= t[i + 1]: return f[i] + (f[i + 1] - f[i]) * (c - t[i]) / (t[i + 1] - t[i])
def pollen(date):
    s = w = 0
    for k in range(15):
        weight = 1 - ((k - 9) / 6 if k > 9 else (9 - k) / 10)
        if weight > 0: s, w = s + weight * float(climate[day(date, -k)]["tmean_c"]), w + weight
    return s / w
def truss(n):
    file, s, f = f"truss-{n}", steps(f"truss-{n}"), factors_of(f"truss-{n}")
    row = [r for r in table("trusses") if r["planting"] == "slicers" and r["truss"] == str(n)][0]
    opens, hour = s["FLOWER", "first flower opens"]
    if opens != row["first_flower"]: sys.exit(f"flower {opens}, {row['first_flower']}")
    before = s["FLOWER", "clock on the evening before"][1]
    same("clock", before, float(stem[day(opens, -1), "slicers"]["flowering_truss"]), 1e-4)
    mean = s["FLOWER", "mean of that day"][1]
    same("mean", mean, float(climate[opens]["tmean_c"]), 1e-4)
    if 17 <= mean <= 23 and float(climate[opens]["hours_above_30_c"]) == 0: # tap2000; -0.302 fitted
        same("rate", s["FLOWER", "trusses that day"][1], (-0.302 + 0.1454 * math.log(mean) - 0.001 * before) * f["truss_pace"])
    same("hour", hour, (n - before) / s["FLOWER", "trusses that day"][1], 1e-3, 2e-3)
    c, f_t = s["SET", "temperature while pollen formed"][1], s["SET", "heat"][1]
    same("pollen", c, pollen(opens), 1e-4)
    same("heat", f_t, heat(c), 2e-4)
    r = [1 / float(plant[day(opens, -k), "slicers"]["load"]) for k in range(4, 11)]
    same("supply", s["SET", "supply over demand before"][1], sum(r) / 7)
    same("fed", s["SET", "fed"][1], min(1, sum(r) / 7 / 0.25))
    same("set", s["SET", "set on that day"][1], 0.95 * f["set"] * f_t * s["SET", "visited"][1] * s["SET", "fed"][1])
    flowers = 6 * (200 / 180) ** -0.5  # fruit of 200 g where the type has 180
    same("flowers", s["FLOWER", "flowers"][1], flowers)
    same("fruits set", s["KEPT", "fruits set"][1], flowers * s["SET", "set of these flowers"][1])
    same("kept", s["KEPT", "fruits kept"][1], min(s["KEPT", "your rule"][1], s["KEPT", "fruits set"][1]))
    same("kept", s["KEPT", "fruits kept"][1], float(row["kept"]))
    same("days to ripe", s["RIPE", "first fruit ready to pick"][1], float(row["days_flower_to_ripe"]))
    same("could grow", s["GROWTH", "a fruit could grow"][1], 1.55 * 200 * 0.056 * s["SET", "mass that its pollen allows"][1] * f["fruit_mass"])
    same("kept in trusses.csv", s["FORECAST", "fruits kept"][1], float(row["kept"]))
    same("fruit in trusses.csv", s["FORECAST", "mean fruit"][1], float(row["fruit_g"]))
    same("fruit", s["MASS", "mean fruit"][1], float(row["fruit_g"]))
    same("diameter", s["MASS", "diameter"][1], (s["MASS", "mean fruit"][1] / 4.8e-4) ** (1 / 3))
    grades = sum(v[1] for k, v in s.items() if k[0] == "GRADE" and k[1] != "scatter of fruit mass")
    same("grades", grades, 1, 0, 0.02) # the rest is too small for any
    days = [line.split() for line in open(file) if re.match(r"\d{4}-\d\d-\d\d +[\d.]", line)]
    potential, stage, grown, dry, off, checked = s["GROWTH", "a fruit could grow"][1], 0, 0, 0, s.get(("KEPT", "taken off"), ("",))[0], 0
    for date, *x in days:
        t, light, rate, share, s1, g1, warm, asked, fed, d1, fruits = map(float, x)
        same(f"{date} mean", t, float(climate[date]["tmean_c"]), 1e-3)
        same(f"{date} fed", fed, float(plant[date, "slicers"]["supply_share"]), 0, 6e-4)
        if 17 <= t <= 27 and stage < 1: # tap2000
            p = 0.03923 - 0.2127 * stage + 0.4505 * stage ** 2 - 0.2400 * stage ** 3
            same(f"{date} rate", rate, (0.0165 + 0.0012 * math.log(light) - 0.00005 * n + math.log(t / 20) * p) * f["fruit_pace"], 0, 7e-5)
        if date != opens: same(f"{date} stage", s1 - stage, rate * share, 0, 2e-4)
        same(f"{date} grown", g1, math.exp(-math.exp(-4.36 * (min(s1, 1) - 0.455))), 0, 6e-4)
        if s1 < 0.8 and date not in (opens, off) and g1 > 0.1: # none is picked yet
            w = fruits if fruits == 4 else None # 4 kept: weights of a mean of 1
            if w: same(f"{date} asked", asked, potential * warm * w * (g1 - grown), 0, potential * 4 * 0.0011)
            same(f"{date} dry", d1 - dry, asked * fed, 0, 0.006)
            checked += 1
        stage, grown, dry = s1, g1, d1
    if checked < 15: sys.exit(f"only {checked} days")
    same("dry matter", s["GROWTH", "dry matter of the truss"][1], dry, 1e-4, 1e-3)
    total = 0
    for k in picks_of(file):
        c = number(r"since the flower ([\d.]+) C", k)
        content = 0.056 * min(max(1 - 0.025 * (c - 20) - 0.166 * min(0, c - 18), 0.95), 1.82)
        same("content", number(r"content ([\d.]+) =", k), content, 2e-4)
        same("fruit", number(r"= ([\d.]+) g x", k), number(r"([\d.]+) g dry", k) / content, 3e-4)
        fruits = number(r"([\d.]+) fruits a stem", k) * number(r"x ([\d.]+) stems", k)
        same("kg", number(r"fruits, ([\d.]+) kg", k), fruits * number(r"= ([\d.]+) g x", k) / 1000, 3e-4)
        left = number(r"fruits, ([\d.]+) kg", k)
        for why in ("cracked", "misshapen", "end rot", "over-ripe", "too large"): left *= 1 - number(why + r" ([\d.e-]+)", k)
        if taught: same("for sale", number(r"as learnt, x ([\d.]+)", k), 1.04)
        left *= f["marketable"]
        same("left", number(r"left ([\d.]+) kg", k), left, 3e-4)
        table_kg = number(r"on the table ([\d.]+) kg", k)
        same("table", table_kg, left * (1 - number(r"lost ([\d.e-]+);", k)), 3e-4)
        total += table_kg
    same("store", s["STORE", "for the market days"][1], total, 3e-4)
for n in (12,) if taught else (3, 12, 20): truss(n)
# a market day: the picks make the number of market_days.csv
s, sums = steps("day"), {}
for k in picks_of("day"):
    name = re.search(r"\d (\w+): ", k)[1]
    sums[name] = sums.get(name, 0) + number(r"on the table ([\d.]+) kg", k)
for name, kg in sums.items():
    row = [r for r in table("market_days") if (r["date"], r["planting"], r["grade"]) == ("2026-07-18", name, "all")][0]
    same(name, s[name, "left after the store"][1], kg, 3e-4)
    same(f"{name} in market_days.csv", float(row["kg"]), kg, 3e-3 if name == "slicers" else 3e-4)
if set(sums) != {"slicers", "plums", "cucumbers"}: sys.exit(f"{sums}")
# a cucumber: the logistic step of its own mass, degree-days above 5
s, f = steps("node-40"), factors_of("node-40")
book = {r[0]: float(r[1]) for r in csv.reader(open(sys.argv[2])) if r[0] in ("fruit.dm_content_20", "fruit.cap_g", "fruit.growth_per_cd")}
days = [[float(x) if x != "-" else math.nan for x in line.split()[1:]] for line in open("node-40") if re.match(r"\d{4}-\d\d-\d\d +[\d.]", line)]
open_share = 1 - s["FLOWER", "first flower opens"][1] # of the first day
for k in range(5, 16):
    a, b = days[k - 1], days[k]
    mean = (open_share * days[0][0] + sum(d[0] for d in days[1:k + 1])) / (open_share + k)
    content = book["fruit.dm_content_20"] * (1 - 0.025 * (mean - 20))
    w = a[6] / (b[7] * content)
    cap = book["fruit.cap_g"]
    to = cap / (1 + (cap / w - 1) * math.exp(-book["fruit.growth_per_cd"] * b[1]))
    same("asked", b[4], (to - w) * content * b[7] * f["fruit_mass"], 1e-3)
    same("dry", b[6] - a[6], b[4] * b[5], 1e-3)
PY
for of in book taught; do
    python3 check.py $of "$VINEHAND_SOURCE/params/crops/cucumber-long.csv" >"$work/said" 2>&1 || tell "the chain does not hold ($of): $(tail -3 "$work/said")"
done

# what the records taught: the same factors as in learned.csv, and the chain ends at the forecast's number,
# in her units
run forecast "$two" --members 20 --today 2026-07-14 --out learnt; exits 0
run explain "$two" 2026-07-18 --members 20 --today 2026-07-14 --units us; exits 0; narrow; cp "$work/out" learnt-day
run explain "$two" slicers 16 --members 20 --today 2026-07-14; exits 0; narrow; cp "$work/out" learnt-truss
run explain "$two" slicers 3 --members 20 --today 2026-07-14 --units us; exits 0; narrow # an inch is 25.4 mm by definition
good "inches beside millimetres" awk '/ diameter .* in \(.* mm\)/ { n++; mm = $4; sub(/\(/, "", mm); off = $2 * 25.4 - mm; if (off < -0.01 || off > 0.01) bad = 1 }
    END { exit !(n == 1 && !bad) }' "$work/out"
cat >learnt.py <<'PY'
import csv, re, sys
def table(name): return list(csv.DictReader(open(f"learnt/{name}.csv", newline="")))
def same(what, a, b, relative=2e-4, absolute=0.0):
    if not abs(a - b) <= relative * abs(b) + absolute: sys.exit(f"{what}: {a} is not {b}")
truss, day = open("learnt-truss").read(), open("learnt-day").read()
said = " ".join(re.search(r"learnt from .*?: (.*?)\n\n", truss, re.S)[1].split())
rows = [r for r in table("learned") if r["planting"] in ("", "slicers")]
for r in rows:
    name = "log" if r["name"] == "log_offset_c" else r["name"]
    same(r["name"], float(re.search(name + r" ([-+]?[\d.]+)", said)[1]), float(r["after"]), 0, 6e-4)
if len(rows) < 6 or not int(re.search(r"learnt from +(\d+) entries of your records", truss)[1]) > 20: sys.exit("no records")
row = [r for r in table("trusses") if r["planting"] == "slicers" and r["truss"] == "16"][0]
def after(part, what, text): return [float(x) for x in re.findall(r"^  " + what + r" +(-?[\d.e-]+)", text.split(part, 1)[1], re.M)]
of_futures, average = after("\nFORECAST\n", "mean fruit", truss)[0], after("\nMASS\n", "mean fruit", truss)[0]
same("fruit", of_futures, float(row["fruit_g"]))
same("fruit by the spread", after("\nFORECAST\n", "of it by the spread", truss)[0], of_futures - average, 0, 1e-3)
day = day.split("\nPICKS\n")
for name in ("slicers", "plums", "cucumbers"):
    part = re.split(r"\n\n", day[0].split(f"\n{name}\n")[1])[0]
    row = [r for r in table("market_days") if (r["date"], r["planting"], r["grade"]) == ("2026-07-18", name, "all")][0]
    pounds = sum(float(x) for x in re.findall(r"on the table ([\d.]+) lb", " ".join(" ".join(b.split()) for b in re.split(r"\n(?=  \d{4}-)", day[1]) if f" {name}: " in b)))
    same(name, float(re.search(r"left after the store +([\d.]+) lb", part)[1]), pounds, 3e-4)
    table_lb = re.search(r"(?:as it was written down|on the table) +([\d.]+) lb", part)
    table_lb = float(table_lb[1]) if table_lb else pounds
    mean, spread = (float(re.search(w + r" +(-?[\d.]+) lb", part)[1]) for w in ("mean of the futures", "of it by their spread"))
    same(f"{name}: mean", mean * 0.45359237, float(row["kg"]))
    same(f"{name}: adds up", table_lb + spread, mean, 3e-4)
    same(f"{name}: promise", float(re.search(r"safe to promise +([\d.]+) lb", part)[1]) * 0.45359237, float(row["promise_kg"]))
PY
python3 learnt.py >"$work/said" 2>&1 || tell "what was learnt is not in the chain: $(tail -3 "$work/said")"

refused() {
    text=$1
    shift
    run explain "$@"
    exits 2
    quiet_out
    grep -v warning: "$work/err" >"$work/errors"
    good "complains: $text" grep -qF -- "$text" "$work/errors"
    good "one line of complaint" [ "$(wc -l <"$work/errors")" -eq 1 ]
}
refused "there is no planting called beans; there is slicers, plums, cucumbers" "$two" beans 3 --today 2026-07-14
refused "truss 99 of slicers never comes: by pull-out the last is " "$two" slicers 99 --today 2026-07-14
refused "2026-07-17 is no market day; the next is 2026-07-18" "$two" 2026-07-17 --members 1 --today 2026-07-14
refused "2027-01-01 is no market day; the last is 2026-11-07" "$two" 2027-01-01 --members 1 --today 2026-07-14
refused "the scenario has no market days" "$VINEHAND_SOURCE/scenarios/no-thermometer" 2026-07-18 --members 1 --today 2026-07-14
refused "zero is no truss or market day" "$two" slicers zero
refused "0 is no truss or market day" "$two" slicers 0
refused "is no truss or market day" "$two" slicers 1 2
good "nothing was written" [ ! -e "$two/out/run.json" ]
run explain "$two" slicers 12 --quiet --members 1 --today 2026-07-14; exits 0; quiet_out
# in a folder with a scenario it may be left out
# of a market day gone by nothing is likely or safe any more
run explain "$two" 2026-07-04 --members 1 --today 2026-07-14; exits 0; narrow; head -5 "$work/out" >past-day
good "words of the past" grep -q '^4 July .* kg for sale' past-day; bad "words of what is to come" grep -qE 'likely|safe|stall' past-day
# nothing can be promised any more for a day that is past
run explain "$two" 2026-07-04 --members 10 --no-records --today 2026-07-14; exits 0; narrow
good "what would have been safe" [ "$(grep -c '^  would have been safe to promise' "$work/out")" -eq 3 ]
bad "a promise for a past day" grep -q '^  safe to promise' "$work/out"
cd "$two" && run explain plums 3 --members 1 --today 2026-07-14; exits 0; says "plums"; says "DAY BY DAY"
cd "$work/in" || exit 1
finish
