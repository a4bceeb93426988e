"""week_times.py FOLDER TODAY SCREEN: the times of the week as screen, report and sheet say them: rows that add up to the total,
the same total in all three, and that of tasks.csv."""
import csv, datetime, html, re, sys

folder, today, screen = sys.argv[1], datetime.date.fromisoformat(sys.argv[2]), open(sys.argv[3], encoding="utf-8").read()
TIME = r"(?:(\d+) h)? ?(?:(\d+) min)?"


def minutes(text):
    m = re.fullmatch(TIME, text.strip())
    if not m: # nothing is said for what is only proposed
        sys.exit(f"'{text}' is no time")
    return 60 * int(m[1] or 0) + int(m[2] or 0)


def page(name):
    return open(f"{folder}/{name}", encoding="utf-8").read()


def only(pattern, text, where):
    m = re.findall(pattern, text)
    if len(m) != 1:
        sys.exit(f"{where}: {len(m)} times {pattern}")
    return m[0]


true = 0.0
for row in csv.DictReader(open(f"{folder}/tasks.csv", newline="", encoding="utf-8")):
    if 0 <= (datetime.date.fromisoformat(row["date"]) - today).days < 7 and row["minutes"]:
        true += float(row["minutes"])
said = {}
block = screen[screen.index("DO FIRST"):screen.index("\nPICK")]
rows = [minutes(m[1]) for line in block.splitlines()[1:] if (m := re.search(r"  ((?:\d+ h ?)?(?:\d+ min)?)$", line)) and m[1]]
beside = only(r"(?:\d+ more in tasks.csv (.*), )?walking (.*); in all ", block, "week")
said["week"] = rows[-1]
if sum(rows[:-1]) + sum(minutes(b) for b in beside if b) != rows[-1]:
    sys.exit(f"week: {rows[:-1]} and {beside} are not {rows[-1]}")
report = page("report.html")
rows = [minutes(t) for t in re.findall(r'<span class="h">([^<]*)</span>', report)]
total, walking, more = only(r"All together ([^,<]*), (.*?) of it walking(?:, (.*?) of it in \d+ more on the sheet)?\. That is from ", report, "report")
said["report"] = minutes(total)
if sum(rows) + minutes(walking) + (minutes(more) if more else 0) != minutes(total):
    sys.exit(f"report: {rows}, {walking}, {more} are not {total}")
sheet = re.sub(r'<small class="kept">.*?</small>', "", page("sheet.html")) # amounts of the market day are no times
rows = [minutes(t) for t in re.findall(r"([\d hmin]*)\.(?: On [^<]* by 9\.)?</small>", sheet) if t.strip()]
total, walking, blades = only(r"<p>([^<]*?) in all, (.*?) of it walking(?:, (.*?) cleaning blades)?\.</p>", sheet, "sheet")
said["sheet"] = minutes(total)
if sum(rows) + minutes(walking) + (minutes(blades) if blades else 0) != minutes(total):
    sys.exit(f"sheet: {rows}, {walking}, {blades} are not {total}")
if len(set(said.values())) != 1:
    sys.exit(f"not the same: {said}")
if abs(said["week"] - true) > (5 if true >= 300 else 1):
    sys.exit(f"{said['week']} min, {true} in tasks.csv")
