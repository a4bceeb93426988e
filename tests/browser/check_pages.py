"""Looks at the pages of results folders in a real browser: phone, screen and paper, light and dark.

    check_pages.py FOLDER[=WHAT]... [--spoiled FILE]
    WHAT: what is looked at, "all" or "quick" (phone, screen and one paper); FILE: the page that has every fault, each of
    which must be found. One browser looks at all; each page is loaded once and then only looked at in another way.
Prints every fault, and at the end how many pages paper takes. Ends with 1 if there was a fault, 77 without a browser.
"""
import csv
import datetime
import html.parser
import os
import re
import subprocess
import sys
import tempfile
import time

from browser import Browser

HERE = os.path.dirname(os.path.abspath(__file__))
PAPER = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}
LEAST_FILLED = 0.5   # of a printed page, but for the last one
PHONE, SCREEN = (360, 740), (1280, 800)
# marks at both ends of every drawing, so that a cut one is found in the printed text
MARK = """(() => { let n = 0; for (const s of document.querySelectorAll('svg[role=img]')) {
    if (!s.checkVisibility()) continue;
    const b = s.viewBox.baseVal, put = (y, end) => { const t = document.createElementNS('http://www.w3.org/2000/svg', 'text');
      t.setAttribute('x', 1); t.setAttribute('y', y); t.style.fontSize = '3px'; t.textContent = 'QQ' + n + end; s.append(t); };
    put(3, 'A'); put(b.height, 'Z'); n++; } return n; })()"""
ESCAPE = """(async () => { const seen = []; addEventListener('securitypolicyviolation', (e) => seen.push(e.effectiveDirective));
    const tried = await fetch('https://example.invalid/').then(() => 'went', () => 'stopped');
    const i = new Image(); i.src = 'https://example.invalid/a.png';
    const s = document.createElement('script'); s.textContent = 'window.ran = 1'; document.head.append(s);
    await new Promise((done) => setTimeout(done, 60));
    return [tried, !!window.ran, [...new Set(seen)].sort().join(' ')]; })()"""

faults = []


def wrong(where, what):
    line = "%s: %s" % (where, what)
    if line not in faults:
        faults.append(line)
        if where != "page": # the spoiled one, whose faults are asked for
            print(line)


def measure(browser, where, width):
    with open(os.path.join(HERE, "measure.js"), encoding="utf-8") as f:
        browser.js("window.wanted = %d" % width)
        seen = browser.js(f.read())
    for fault in seen["faults"]:
        wrong(where, fault)
    return seen


def listen(browser, where, path):
    """What the page did while it loaded: nothing but load."""
    for event in browser.events:
        name, params = event.get("method"), event.get("params", {})
        if name == "Network.requestWillBeSent" and not params["request"]["url"].startswith("file://" + os.path.abspath(path)):
            wrong(where, "asks for " + params["request"]["url"][:80])
        if name in ("Runtime.exceptionThrown", "Runtime.consoleAPICalled", "Log.entryAdded"):
            wrong(where, "says on the console: %s" % str(params)[:160])


# Opens the vine of every planting, and of its weeks the first, the middle or the last
WEEKS = """((which) => { const groups = [...document.querySelectorAll('details.weeks')];
    for (const d of groups) { d.open = true; const r = [...d.querySelectorAll('input[type=radio]')];
      r[Math.round(which * (r.length - 1))].checked = true; }
    return groups.map((d) => [d.querySelectorAll('input[type=radio]').length,
      [...d.querySelectorAll('figure')].filter((f) => f.checkVisibility()).length]); })"""


def look(browser, path, where, quick):
    views = [("phone", PHONE, True, False), ("screen", SCREEN, False, False)]
    if not quick:
        views.append(("dark", SCREEN, False, True))
    first = None
    browser.look(*PHONE, phone=True)
    browser.open(path)
    for k, (name, (width, height), phone, dark) in enumerate(views):
        browser.look(width, height, phone, dark)
        weeks = browser.js("%s(%s)" % (WEEKS, k / 2))
        if any(shown != 1 for _, shown in weeks):
            wrong("%s, %s" % (where, name), "a week's vine does not show when it is chosen: %s" % weeks)
        seen = measure(browser, "%s, %s" % (where, name), width)
        seen["weeks"] = [n for n, _ in weeks]
        if name == "screen":
            first = seen
            if not quick:
                check_first_screen(browser, where)
    browser.js("for (const d of document.querySelectorAll('details')) d.open = false")
    listen(browser, where, path)
    return first


def check_first_screen(browser, where):
    """Without scrolling: the promise, if there is one, and where the week's work begins."""
    if not where.endswith("report.html"):
        return
    tops = browser.js("[...document.querySelectorAll('#market .big, #work h2, #careful h2, ol.work li')].slice(0, 8)"
                      ".map((e) => [e.tagName, e.getBoundingClientRect().bottom])")
    work = [bottom for tag, bottom in tops if tag == "LI"]
    if work and work[0] > SCREEN[1]:
        wrong(where, "the first task is %d pixels down" % work[0])


def escape(browser, where):
    tried = browser.js(ESCAPE)
    if tried[0] != "stopped" or tried[1] or "connect-src" not in tried[2] or "img-src" not in tried[2]:
        wrong(where, "its policy lets something through: %s" % tried)


def mark(browser):
    """Marks the drawings that paper shows; how many. The page as it is open is spoilt by that."""
    browser.look(800, 1100, media="print")
    return browser.js(MARK)


def printed(browser, drawings, where, paper):
    """Pages of one print: no drawing cut, none mostly empty. How many."""
    measure_print = {}
    with tempfile.TemporaryDirectory() as folder:
        pdf = os.path.join(folder, "a.pdf")
        browser.pdf(pdf, *PAPER[paper])
        text = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, text=True, check=True).stdout
    pages = re.findall(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', text, re.S)
    for number, (_, height, words) in enumerate(pages, 1):
        tops = [float(y) for y in re.findall(r'yMax="([\d.]+)"', words)]
        if number < len(pages) and (not tops or max(tops) < LEAST_FILLED * float(height)):
            wrong(where, "%s: page %d of %d is mostly empty" % (paper, number, len(pages)))
        for n, end in re.findall(r">QQ(\d+)([AZ])<", words):
            measure_print.setdefault(int(n), {})[end] = number
    for n in range(drawings):
        ends = measure_print.get(n, {})
        if len(ends) != 2 or ends["A"] != ends["Z"]:
            wrong(where, "%s: drawing %d is cut: %s" % (paper, n, ends))
    return len(pages)


def valid(path, where):
    """HTML by the letter of the standard's parser."""
    import html5lib
    with open(path, "rb") as f:
        data = f.read()
    parser = html5lib.HTMLParser()
    parser.parse(data)
    for (line, column), code, more in parser.errors[:5]:
        wrong(where, "line %d, column %d: %s %s" % (line, column, code, more or ""))
    if len(data) >= 1000000:
        wrong(where, "%d bytes" % len(data))


class Tables(html.parser.HTMLParser):
    """Every table of a page by its caption, and for each drawing the texts in it."""

    def __init__(self, path):
        super().__init__(convert_charrefs=True)
        self.tables, self.caption, self.row, self.cell = {}, None, None, None
        with open(path, encoding="utf-8") as f:
            self.feed(f.read())

    def handle_starttag(self, tag, attrs):
        if tag == "caption":
            self.caption = ""
        elif tag == "tr":
            self.row = []
        elif tag in ("td", "th"):
            self.cell = ""

    def handle_endtag(self, tag):
        if tag == "tr" and self.row is not None:
            self.tables.setdefault(self.caption, []).append(self.row)
            self.row = None
        elif tag in ("td", "th") and self.row is not None:
            self.row.append(self.cell)
            self.cell = None
        elif tag == "table":
            self.caption = None

    def handle_data(self, data):
        if self.cell is not None:
            self.cell += data
        elif self.caption is not None and self.row is None and not self.tables.get(self.caption):
            self.caption += data


MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")
# caption in the report: file, and for each heading its column and how many decimals are shown
SHOWN = {
    "Picks by week": ("weeks", {"Week of": ("monday", None), "Planting": ("planting", ""), "kg": ("kg", 1),
                                "kg, low": ("kg_p10", 1), "kg, high": ("kg_p90", 1), "Fruits": ("fruits", 0),
                                "g a fruit": ("fruit_g", 0)}),
    "Trusses": ("trusses", {"Truss": ("truss", 0), "Left": ("kept", 1), "First ripe": ("first_ripe", None),
                            "g a fruit": ("fruit_g", 0)}),
    "Mean fruit by truss": ("trusses", {"g": ("fruit_g", 0), "low": ("fruit_g_p10", 0), "high": ("fruit_g_p90", 0),
                                        "mm across": ("diameter_mm", 0)}),
    "Lowering, visit by visit": ("lowering", {"Visit": ("date", None), "Let out, cm": ("lower_cm", 0),
                                              "Laid, cm": ("laid_cm", 0), "String left, m": ("string_left_m", 1)}),
    "Load: asked divided by fed": ("weeks", {"Load": ("load", 2), "Share fed": ("supply_share", 2)}),
    "Hours by week and task": ("hours", {"Hours": ("hours", 2), "Hours left in the week": ("hours_left", 1)}),
    "Climate by day": ("climate_days", {"Day": ("date", None), "Highest": ("tmax_c", 1), "Light, mol": ("dli_mol_m2_d", 1)}),
    "Choices": ("choices", {"Choice": ("choice", ""), "Hours": ("hours", 0), "Money left": ("margin", 0)}),
    "Foreseen and picked": ("hindcast", {"Picked, kg": ("observed_kg", 1), "Foreseen, kg": ("forecast_kg", 1)}),
}


# by the end of a column's name: unit in a heading, in US units, factor, decimals more; NIST SP 811, 2008, B.8
US = (("kg", "kg", "lb", lambda x: x / 0.45359237, 0), ("_g", "g", "oz", lambda x: x / 28.349523125, 1),
      ("_cm", "cm", "in", lambda x: x / 2.54, 1), ("_mm", "mm", "in", lambda x: x / 25.4, 2),
      ("_m", "m", "ft", lambda x: x / 0.3048, 0), ("_c", "C", "F", lambda x: 32 + 1.8 * x, 0))


def in_us(heading, column, decimals):
    """Heading, number and decimals as a page in US units shows them."""
    name = re.sub("_p[159]0$", "", column)
    for end, word, theirs, of, more in US:
        if isinstance(decimals, int) and name.endswith(end):
            return re.sub(r"\b%s\b" % word, theirs, heading), of, decimals + more
    return heading, float, decimals


def same(shown, cell, decimals, of=float):
    if decimals == "" or not cell or not shown:
        return shown == cell
    if decimals is None:
        _, month, day = cell.split("-")
        return shown == "%d %s" % (int(day), MONTHS[int(month) - 1])
    # the CSV has six digits, so its own rounding may tip a half
    return abs(float(shown) - of(float(cell))) <= 0.5 * 10.0 ** -decimals + 1e-5 * abs(of(float(cell)))


def numbers(folder, where):
    page, compared = Tables(os.path.join(folder, "report.html")), 0
    us = "lb" in page.tables.get("Picks by week", [[]])[0]
    for caption, (name, columns) in SHOWN.items():
        path, shown = os.path.join(folder, name + ".csv"), page.tables.get(caption)
        if not os.path.exists(path) or shown is None:
            continue
        with open(path, encoding="utf-8", newline="") as f:
            rows = list(csv.DictReader(f))
        if len(rows) != len(shown) - 1:
            wrong(where, "%s: %d rows, %s.csv has %d" % (caption, len(shown) - 1, name, len(rows)))
            continue
        for heading, (column, decimals) in columns.items():
            if column not in (rows[0] if rows else {}):
                continue
            heading, of, decimals = in_us(heading, column, decimals) if us else (heading, float, decimals)
            at = next((i for i, h in enumerate(shown[0]) if h == heading or h.startswith(heading + ", ")), None)
            if at is None:
                wrong(where, "%s has no column %s" % (caption, heading))
                continue
            for line, row in zip(shown[1:], rows):
                compared += 1
                if not same(line[at], row[column], decimals, of):
                    wrong(where, "%s, %s: shows %s, %s.csv has %s" % (caption, heading, line[at], name, row[column]))
    return compared


def charts(folder, seen, where):
    """Every part that its table has rows for, a drawing for each planting."""
    with open(os.path.join(folder, "weeks.csv"), encoding="utf-8", newline="") as f:
        plantings = len({row["planting"] for row in csv.DictReader(f)})
    wanted = {"picks": plantings, "trusses": plantings, "mass": plantings, "load": plantings, "hours": 1, "climate": 3}
    for name, part in (("market_days", "market"), ("choices", "choices"), ("hindcast", "kept")):
        path = os.path.join(folder, name + ".csv")
        if os.path.exists(path) and sum(1 for _ in open(path, encoding="utf-8")) > 1:
            wanted[part] = 1
    with open(os.path.join(folder, "stem.csv"), encoding="utf-8", newline="") as f:
        vines = [r for r in csv.DictReader(f) if r["laid_cm"] and datetime.date.fromisoformat(r["date"]).weekday() == 0]
    for planting, weeks in zip(dict.fromkeys(r["planting"] for r in vines), seen["weeks"]):
        mondays = sum(r["planting"] == planting for r in vines)
        if weeks != (mondays if plantings <= 4 else (mondays + 1) // 2):
            wrong(where, "%s can be seen in %d weeks of %d" % (planting, weeks, mondays))
    for part, least in wanted.items():
        if seen["charts"].get(part, 0) < least:
            wrong(where, "%s has %s drawings, not %d" % (part, seen["charts"].get(part, "no"), least))


BARS = """[...document.querySelectorAll('#picks figure')].map((f) => [f.querySelector('figcaption').firstChild.data.trim(),
    [...f.querySelectorAll('text')].map((t) => [t.textContent, +t.getAttribute('y')]),
    [...f.querySelectorAll('rect.known')].map((r) => +r.getAttribute('height'))])"""


def bars(browser, folder, where):
    """As high as what the records say was picked, by the axis beside them."""
    with open(os.path.join(folder, "weeks.csv"), encoding="utf-8", newline="") as f:
        weeks = list(csv.DictReader(f))
    compared = 0
    for planting, texts, heights in browser.js(BARS):
        ticks = sorted((float(t), y) for t, y in texts if re.fullmatch(r"[\d.]+", t))
        per_unit = (ticks[0][1] - ticks[-1][1]) / (ticks[-1][0] - ticks[0][0])
        column = "picked_fruits" if any(t == "pieces a week" for t, _ in texts) else "picked_kg"
        wanted = [float(w[column]) for w in weeks if w["planting"].lower() == planting.lower() and w[column]]
        if len(heights) != len(wanted):
            wrong(where, "%s: %d bars, weeks.csv has %d" % (planting, len(heights), len(wanted)))
        for height, amount in zip(heights, wanted):
            compared += 1
            if abs(height - amount * per_unit) > 0.11:   # places are rounded to a tenth
                wrong(where, "%s: a bar of %.2f, weeks.csv has %s" % (planting, height / per_unit, amount))
    return compared


def check_folder(browser, folder, quick):
    counts = []
    for page in ("report.html", "sheet.html"):
        path, where = os.path.join(folder, page), "%s/%s" % (os.path.basename(folder), page)
        valid(path, where)
        seen = look(browser, path, where, quick)
        if page == "report.html":
            charts(folder, seen, where)
            if not quick and not bars(browser, folder, where):
                wrong(where, "no bar was compared")
            if not numbers(folder, where):
                wrong(where, "no number was compared")
        drawings = mark(browser)
        for paper in ("A4",) if quick else PAPER:
            counts.append("%s %s %d" % (page.split(".")[0], paper, printed(browser, drawings, where, paper)))
        if not quick:
            escape(browser, where)
    print("# %s: pages on paper: %s" % (os.path.basename(folder), ", ".join(counts)))


def check_spoiled(browser, path):
    """Each planted fault names, in the page, the words it must be found by."""
    with open(path, encoding="utf-8") as f:
        wanted = re.findall(r"<!-- finds: (.*?) -->", f.read())
    found, before = [], len(faults)
    browser.look(*PHONE, phone=True)
    browser.open(path)
    measure(browser, "page", PHONE[0])
    listen(browser, "page", path)
    valid(path, "page")
    printed(browser, mark(browser), "page", "A4")
    found += [f.replace("page: ", "", 1) for f in faults[before:]]
    del faults[before:]
    for words in wanted:
        if not any(words in f for f in found):
            wrong("spoiled page", "not found: %s" % words)
    if not wanted:
        wrong("spoiled page", "plants no fault")


def main():
    start = time.monotonic()
    try:
        browser = Browser()
    except (FileNotFoundError, RuntimeError) as why:
        print("no browser: %s" % why)
        return 77
    try:
        words = sys.argv[1:]
        if "--spoiled" in words:
            at = words.index("--spoiled")
            check_spoiled(browser, words[at + 1])
            del words[at:at + 2]
        for word in words:
            folder, _, what = word.partition("=")
            check_folder(browser, folder, what == "quick")
    finally:
        browser.close()
    print("# %d faults, %.1f s" % (len(faults), time.monotonic() - start))
    return 1 if faults else 0


sys.exit(main())
