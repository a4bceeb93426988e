"""mutate.py TREE BUILD SEEN COUNT SEED [FIRST]: changes one token of model/ at a time and asks the tests.

TREE is a copy that may be changed, BUILD a finished build of it with sanitizers, SEEN what coverage.sh leaves: a folder a test
with what it reached; or -. A change that does not compile is not counted. Kept bytes and complaints are asked always, then the
tests that reach the line, the shortest first, for MUTATE_S seconds (180) a change; how many of them were asked is told.
"""
import json
import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import time

tree, build, seen_in, count, seed = sys.argv[1], sys.argv[2], sys.argv[3], int(sys.argv[4]), int(sys.argv[5])
first = int(sys.argv[6]) if len(sys.argv) > 6 else 1
most_s = float(os.environ.get("MUTATE_S", "180"))
SOON = ["frozen.complaints_short", "frozen.complaints_rows", "frozen.complaints_notes"]
LATER = ["frozen.complaints_keys", "frozen.complaints"]
ALWAYS = SOON + ["frozen.frozen"] + LATER
ALWAYS_S = 300  # at most, each
SILENT = re.compile(r"model/(plant|work|ensemble|learn|choose)/|model/house/(chain|explain|result|season)")  # complains of no input
STEPS = "base climate plant work market house ensemble learn choose".split()
OTHER = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "&&": "||", "||": "&&", "+": "-", "-": "+", "*": "/",
         "/": "*", "+=": "-=", "-=": "+=", "true": "false", "false": "true", "vh_min": "vh_max", "vh_max": "vh_min", "break": ";",
         "1": "2", "0": "1", "2": "3", "1.0": "1.1", "0.0": "0.1", "0.5": "0.6", "2.0": "2.1"}
TOKEN = re.compile(r"""//.*|/\*.*?\*/|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*'|^[ \t]*\#.*?(?<!\\)$|->|\+\+|--|<<=?|>>=?|[<>=!+*/-]=|&&|\|\|"""
                   r"""|[A-Za-z_]\w*|\d[\w.]*(?:[eE][+-]?\d+)?|[^\s]""", re.S | re.M)


def run(command, **more):
    return subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, **more)


def sites():
    for step in STEPS:
        folder = f"{tree}/model/{step}"
        for name in sorted(os.listdir(folder)):
            # Key tables and columns hold offsets and limits by hand: what stands there is data, tried by the tests of inputs.
            if not name.endswith(".c") or name.startswith(("scenario_keys", "crop_fields", "result_columns")):
                continue
            text = open(f"{folder}/{name}").read()
            depth = 0
            for token in TOKEN.finditer(text):
                depth += (token[0] == "{") - (token[0] == "}")
                before = text[token.start() - 1]
                is_unary = token[0] in "*-+" and re.search(r"(?:[(,=<>{\[?:&|!+*/-]|return|double|int|char|size_t|void|const)\s*$", text[:token.start()])
                is_pointer = token[0] == "*" and re.search(r"(?:struct \w+|double|int|char|void|bool|_t|const|FILE) *$", text[:token.start()])
                if depth > 0 and token[0] in OTHER and not is_unary and not is_pointer and before not in "'":
                    yield f"model/{step}/{name}", token.start(), token[0]


def reached(path, line):
    """Tests that ran this line, the shortest first; of a line without code of its own those that ran the file."""
    found, ran_file, is_code = [], [], False
    for test in durations:
        data = next(iter(here for here in [f"{seen_in}/{test}/{path}.gcda"] if os.path.exists(here)), None)
        if not data:
            continue
        with tempfile.TemporaryDirectory() as work:
            os.symlink(data, f"{work}/x.gcda")
            os.symlink(f"{seen_in}/notes/{path}.gcno", f"{work}/x.gcno")
            out = subprocess.run(["gcov", "--json-format", "--stdout", f"{work}/x.gcda"], capture_output=True, cwd=work).stdout
        for file in json.loads(out)["files"] if out else []:
            if not file["file"].endswith(path):
                continue
            ran = {n["line_number"]: n["count"] for n in file["lines"]}
            is_code = is_code or line in ran
            found += [test] if ran.get(line) else []
            ran_file += [test] if any(ran.values()) else []
    return sorted(found if is_code else ran_file, key=durations.get)


def ask(test, left_s):
    """Does the test fail on what stands in the tree now?"""
    folder, name = test.split(".", 1)
    target = f"{folder}_t_{name}" if os.path.exists(f"{tree}/tests/{folder}/t_{name}.c") else "all"
    targets = [target] if target != "all" else ["vinehand_cli"] + (["vinehand_faults"] if folder == "faults" else [])
    if run(["ninja", "-C", build] + targets).returncode:
        sys.exit(f"{test}: cannot be built")
    try:
        wait_s = ALWAYS_S if test in ALWAYS else int(max(30, 10 * durations[test]))
        done = run(["ctest", "--test-dir", build, "-R", f"^{re.escape(test)}$", "--timeout", str(wait_s)], timeout=max(2 * wait_s, left_s * 2),
                   env=dict(os.environ, VH_FIRST="1"))
    except subprocess.TimeoutExpired:
        return True
    return done.returncode != 0


signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # what was changed is put back
durations = {} if seen_in == "-" else {row.split()[0]: float(row.split()[1]) for row in open(f"{seen_in}/seconds")}
for test in ALWAYS:
    if ask(test, most_s):
        sys.exit(f"{test} fails before anything is changed")
unsound = set()
places = list(sites())
random.Random(seed).shuffle(places)
tally = {"noticed": 0, "not": 0}
tried = 0
for path, at, token in places:
    if tried == count:
        break
    text = open(f"{tree}/{path}").read()
    line = text.count("\n", 0, at) + 1
    source = f"{tree}/{path}"
    open(source, "w").write(text[:at] + OTHER[token] + text[at + len(token):])
    try:
        if run(["ninja", "-C", build, f"CMakeFiles/vinehand.dir/{path}.o"]).returncode:
            continue
        tried += 1
        if tried < first:
            continue
        tests = ["frozen.frozen"] if SILENT.match(path) else list(ALWAYS)
        tests += [test for test in reached(path, line) if test not in ALWAYS]
        seen, asked, began = None, 0, time.time()
        for test in tests:
            if test not in ALWAYS and time.time() - began + durations[test] > most_s:
                continue
            asked += 1
            if ask(test, most_s) and test not in unsound:
                if test in ALWAYS:
                    seen = test
                    break
                open(source, "w").write(text)
                is_sound = not ask(test, most_s)
                open(source, "w").write(text[:at] + OTHER[token] + text[at + len(token):])
                if is_sound:
                    seen = test
                    break
                unsound.add(test)
        verdict = "noticed" if seen else "not"
        tally[verdict] += 1
        said = f"noticed by {seen}" if seen else f"NOT NOTICED by {asked} of {len(tests)} tests"
        print(f"{tried} {path}:{line}: {token} -> {OTHER[token]}: {said}", flush=True)
        if not seen:
            print("    " + text.splitlines()[line - 1].strip(), flush=True)
    finally:
        open(source, "w").write(text)
print(f"{sum(tally.values())} changes: {tally['noticed']} noticed, {tally['not']} not noticed by the tests asked")
