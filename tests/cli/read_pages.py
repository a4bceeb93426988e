"""Are the pages of a results folder well formed, and do their tables hold the numbers of the CSV files?"""
import csv
import html.parser
import os
import sys

EMPTY = {"meta", "br", "link", "img", "input", "hr"}


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.open, self.ids, self.faults, self.tables = [], set(), [], {}
        self.svg, self.has, self.caption, self.row, self.cell = None, set(), None, None, None

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if "id" in attrs:
            if attrs["id"] in self.ids:
                self.faults.append("id %s stands twice" % attrs["id"])
            self.ids.add(attrs["id"])
        if tag == "svg":
            self.svg, self.has = attrs, set()
        if self.svg is not None and tag in ("title", "desc"):
            self.has.add(tag)
        if tag == "caption":
            self.caption = ""
        if tag == "tr":
            self.row = []
        if tag in ("td", "th"):
            self.cell = ""
        if tag not in EMPTY and not self.get_starttag_text().endswith("/>"):
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)

    def handle_endtag(self, tag):
        if tag == "tr" and self.row is not None and self.caption is not None:
            self.tables.setdefault(self.caption, []).append(self.row)
        if tag in ("td", "th") and self.row is not None:
            self.row.append(self.cell)
            self.cell = None
        if tag == "svg":
            if self.svg.get("aria-hidden") != "true" and self.has != {"title", "desc"}:
                self.faults.append("a drawing without title and description")
            self.svg = None
        if tag in EMPTY:
            return
        if not self.open or self.open.pop() != tag:
            self.faults.append("</%s> closes something else" % tag)

    def handle_data(self, data):
        if self.open and self.open[-1] == "caption":
            self.caption += data
        if self.cell is not None:
            self.cell += data


def read(path):
    page = Page()
    with open(path, encoding="utf-8") as f:
        page.feed(f.read())
    page.close()
    for tag in page.open:
        page.faults.append("<%s> is never closed" % tag)
    return page


folder = sys.argv[1]
for name in ("report.html", "sheet.html"):
    page = read(os.path.join(folder, name))
    for fault in page.faults:
        print("%s: %s" % (name, fault))
    if name != "report.html":
        continue
    shown = page.tables.get("Picks by week", [])
    with open(os.path.join(folder, "weeks.csv"), encoding="utf-8", newline="") as f:
        weeks = list(csv.DictReader(f))
    if len(shown) != len(weeks) + 1:
        print("the report shows %d weeks, weeks.csv has %d" % (len(shown) - 1, len(weeks)))
        continue
    kg = shown[0].index("kg")
    for row, week in zip(shown[1:], weeks):
        if "%.1f" % float(week["kg"] or "nan") != (row[kg] or "nan"):
            print("the report shows %s kg in the week of %s, weeks.csv %s" % (row[kg], row[0], week["kg"]))
