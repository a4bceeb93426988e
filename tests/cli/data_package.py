"""Is a results folder what its datapackage.json and run.json say? Reads with Python's own strict readers."""
import csv
import datetime
import hashlib
import json
import os
import re
import sys

wrong = 0


def say(text):
    global wrong
    wrong += 1
    print("WRONG:", text)


def no_twice(pairs):
    keys = [k for k, _ in pairs]
    if len(keys) != len(set(keys)):
        say("a JSON object has a key twice: %s" % keys)
    return dict(pairs)


def read_json(path):
    with open(path, encoding="utf-8") as f:
        return json.load(f, object_pairs_hook=no_twice,
                         parse_constant=lambda c: say("%s in %s" % (c, path)))


NUMBER = re.compile(r"-?(0|[1-9][0-9]*)(\.[0-9]+)?(e[-+][0-9]{2,3})?$")
INTEGER = re.compile(r"(0|-?[1-9][0-9]*)$")


def cell_is(kind, text):
    if text == "" or kind == "string":
        return True
    if kind == "date":
        try:
            return datetime.date.fromisoformat(text).isoformat() == text
        except ValueError:
            return False
    return bool((INTEGER if kind == "integer" else NUMBER).match(text)) and text != "-0"


def check_table(folder, resource):
    path = os.path.join(folder, resource["path"])
    with open(path, "rb") as f:
        data = f.read()
    if len(data) != resource["bytes"]:
        say("%s: bytes" % path)
    if "sha256:" + hashlib.sha256(data).hexdigest() != resource["hash"]:
        say("%s: hash" % path)
    if b"\r" in data or not data.endswith(b"\n") or data.startswith(b"\xef\xbb\xbf"):
        say("%s: line ends or a byte order mark" % path)
    rows = list(csv.reader(data.decode("utf-8").splitlines(keepends=True), strict=True))
    fields = resource["schema"]["fields"]
    if rows[0] != [f["name"] for f in fields]:
        say("%s: header %s" % (path, rows[0]))
    for n, row in enumerate(rows[1:], 2):
        if len(row) != len(fields):
            say("%s:%d: %d cells" % (path, n, len(row)))
            break
        for field, text in zip(fields, row):
            if not cell_is(field["type"], text):
                say("%s:%d: %s is no %s" % (path, n, text, field["type"]))
            if field["type"] == "string" and text[:1] in ("=", "+", "-", "@", "\t"):
                say("%s:%d: %r would be a formula" % (path, n, text))


def main(folder, schema):
    package = read_json(os.path.join(folder, "datapackage.json"))
    run = read_json(os.path.join(folder, "run.json"))
    try:
        import jsonschema
        for error in jsonschema.Draft7Validator(read_json(schema)).iter_errors(package):
            say("datapackage.json: %s: %s" % (list(error.absolute_path), error.message))
    except ImportError:
        print("python3-jsonschema is missing: datapackage.json not held against its schema")
    for resource in package["resources"]:
        check_table(folder, resource)
    there = sorted(n for n in os.listdir(folder) if n.endswith(".csv"))
    if sorted(r["path"] for r in package["resources"]) != there:
        say("datapackage.json does not list just the CSV files that are there: %s" % there)
    if sorted(f["path"] for f in run["files"]) != sorted(there + ["datapackage.json"] + [n for n in ("report.html", "sheet.html", "work.ics") if os.path.exists(os.path.join(folder, n))]):
        say("run.json does not list just the files that are there")
    for f in run["files"]:
        with open(os.path.join(folder, f["path"]), "rb") as file:
            data = file.read()
        if len(data) != f["bytes"] or hashlib.sha256(data).hexdigest() != f["sha256"]:
            say("run.json: %s" % f["path"])
    for key in ("scenario_sha256", "parameters_sha256"):
        if not re.match("[0-9a-f]{64}$", run[key]):
            say("run.json: %s is %r" % (key, run[key]))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
