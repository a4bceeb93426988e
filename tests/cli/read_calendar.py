"""read_calendar.py FOLDER TODAY: reads work.ics with an independent parser, checks the rules of RFC 5545 that it passes over
(line ends, octets of a line, what must be there), and holds it against tasks.csv line by line."""
import csv, datetime, sys
from icalendar import Calendar

folder, today = sys.argv[1], datetime.date.fromisoformat(sys.argv[2])
wrong = []
raw = open(f"{folder}/work.ics", "rb").read()
if not raw.endswith(b"\r\n"):
    wrong.append("the last line has no CRLF")
lines = raw.split(b"\r\n")[:-1]
for n, line in enumerate(lines, 1):
    if b"\n" in line or b"\r" in line:
        wrong.append(f"line {n}: a lone line end")
    if len(line) > 75:
        wrong.append(f"line {n}: {len(line)} octets")
    try:
        line.decode("utf-8")
    except UnicodeDecodeError:
        wrong.append(f"line {n}: a character is cut")
if lines[:1] != [b"BEGIN:VCALENDAR"] or lines.count(b"VERSION:2.0") != 1 or sum(l.startswith(b"PRODID:") for l in lines) != 1:
    wrong.append("BEGIN, VERSION or PRODID")

calendar = Calendar.from_ical(raw)
if calendar.errors:
    wrong.append(f"the parser found {calendar.errors}")
days, minutes = {}, {}


def time(whole):
    """As people say it: 25 min, 1 h, 1 h 20 min."""
    return " ".join([f"{whole // 60} h"] * (whole >= 60) + [f"{whole % 60} min"] * (whole % 60 > 0))


def unit(row):
    """1 plant, 2 plants"""
    one = int(float(row["count"]) + 0.5) == 1
    return {"trusses": "truss", "leaves": "leaf"}.get(row["unit"], row["unit"].removesuffix("s")) if one else row["unit"]


for row in csv.DictReader(open(f"{folder}/tasks.csv", newline="", encoding="utf-8")):
    text = row["task"].replace("_", " ") + (" " + row["planting"] if row["planting"] else "")
    if row["count"]:
        text += f", {int(float(row['count']) + 0.5)}" + (" " + unit(row) if row["unit"] else "")
    if row["minutes"]:
        text += f", {int(float(row['minutes']) + 0.5)} min"
    text += ": " + row["note"] if row["note"] else ""
    days.setdefault(row["date"], []).append(text)
    minutes[row["date"]] = minutes.get(row["date"], 0.0) + float(row["minutes"] or 0)
uids = set()
for event in calendar.walk("VEVENT"):
    if event.errors:
        wrong.append(f"an event: {event.errors}")
    day, end = event["DTSTART"].dt, event["DTEND"].dt
    if isinstance(day, datetime.datetime) or end - day != datetime.timedelta(1):
        wrong.append(f"{day} to {end} is no whole day")
    if event["DTSTAMP"].dt.date() != today:
        wrong.append(f"DTSTAMP of {day}")
    if event["UID"] in uids:
        wrong.append(f"UID {event['UID']} twice")
    uids.add(event["UID"])
    if f": {time(max(1, int(minutes[day.isoformat()] + 0.5)))}, " not in str(event["SUMMARY"]):
        wrong.append(f"{day}: {event['SUMMARY']} is not {minutes[day.isoformat()]} min")
    said, wanted = str(event["DESCRIPTION"]).split("\n"), days.pop(day.isoformat(), None)
    if said != wanted:
        wrong.append(f"{day}: {said} is not {wanted}")
wrong += [f"{day} is in tasks.csv, not in the calendar" for day in days if day >= today.isoformat()]
wrong += [f"{day} is past" for day in {str(event["DTSTART"].dt) for event in calendar.walk("VEVENT")} if day < today.isoformat()]
for text in wrong[:10]:
    print("WRONG:", text)
print(len(uids), "days")
sys.exit(1 if wrong else 0)
