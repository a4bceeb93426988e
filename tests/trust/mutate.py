"""mutate.py TREE QUICK SANITIZED SEEN COUNT SEED [FIRST]: changes one token of model/ at a time and asks the tests.

TREE is a copy that may be changed. QUICK is a finished build of it with a shared library, so that a change is one file compiled and
one link; SANITIZED one as CI has it, that need only be configured (-: none). SEEN is what coverage.sh leaves, a folder a test with
what it reached; or -. A change that does not compile, or that leaves the same code of the machine (it can change nothing), is not
counted. Asked in this order, until one notices: kept bytes and complaints in QUICK; then the tests that reach the file, those of the
line first, the shortest first, for MUTATE_S seconds (60); then in SANITIZED kept bytes, complaints and where memory runs out.
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

tree, quick, sanitized, seen_in, count, seed = *sys.argv[1:5], int(sys.argv[5]), int(sys.argv[6])
first = int(sys.argv[7]) if len(sys.argv) > 7 else 1
most_s = float(os.environ.get("MUTATE_S", "60"))
SOON = ["frozen.complaints_short", "frozen.complaints_rows", "frozen.complaints_notes"]
LATER = ["frozen.drawn", "frozen.complaints_keys", "frozen.complaints"]
ALWAYS = SOON + ["frozen.frozen"] + LATER
MEMORY = ["unit.memory", "unit.memory_files"]  # they hold the library's own calls, so not in a shared one
HANG_S = 60
SLOWER = 10  # under sanitizers; what only takes long there has noticed nothing
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
    """Tests that ran this line, of a line without code of its own those that ran the file, the shortest first; without coverage all."""
    for test in sorted(durations, key=durations.get):
        data = f"{seen_in}/{test}/{path}.gcda"
        if seen_in != "-":
            if not os.path.exists(data):
                continue
            with tempfile.TemporaryDirectory() as work:
                os.symlink(data, f"{work}/x.gcda")
                os.symlink(f"{seen_in}/notes/{path}.gcno", f"{work}/x.gcno")
                out = subprocess.run(["gcov", "--json-format", "--stdout", f"{work}/x.gcda"], capture_output=True, cwd=work).stdout
            ran = {n["line_number"]: n["count"] for file in (json.loads(out)["files"] if out else []) if file["file"].endswith(path)
                   for n in file["lines"]}
            if line in ran and not ran[line] or not any(ran.values()):
                continue
        yield test


def ask(test, build):
    """Does the test fail on what is built?"""
    wait_s = int(max(HANG_S, 5 * durations.get(test, 0)) * (SLOWER if build == sanitized else 1))
    command = ["ctest", "--test-dir", build, "-R", f"^{re.escape(test)}$", "--timeout", str(wait_s)]
    try:
        return run(command, timeout=2 * wait_s, env=dict(os.environ, VH_FIRST="1")).returncode != 0
    except subprocess.TimeoutExpired:
        return True


def built(build, *targets):
    return run(["ninja", "-C", build, *targets]).returncode == 0


def in_sanitized(path):
    """The first of the tests under sanitizers that fails."""
    tests = (["frozen.frozen", "frozen.drawn"] if SILENT.match(path) else ALWAYS) + MEMORY
    targets = [f"{test.split('.')[0]}_t_{test.split('.')[1]}" for test in tests if test != "frozen.frozen"]
    if not built(sanitized, "vinehand_cli", *targets):
        sys.exit(f"{path}: cannot be built with sanitizers")
    return next((test for test in tests if ask(test, sanitized)), None)


def is_sound(test, path):
    """Does it pass on what nobody changed? Some do not, in this build."""
    mine = open(f"{tree}/{path}").read()
    open(f"{tree}/{path}", "w").write(text)
    good = built(quick, "vinehand") and not ask(test, quick)
    open(f"{tree}/{path}", "w").write(mine)
    return built(quick, "vinehand") and good


def who_notices(path, line):
    """The first test that fails, and how many were asked."""
    asked = 0
    for test in ["frozen.frozen", "frozen.drawn"] if SILENT.match(path) else ALWAYS:
        asked += 1
        if ask(test, quick):
            return test, asked
    left_s = most_s
    for test in reached(path, line):
        if test in ALWAYS:
            continue
        if durations[test] > left_s:
            break
        left_s -= durations[test]
        asked += 1
        if ask(test, quick):
            if is_sound(test, path):
                return test, asked
            durations.pop(test)
    test = in_sanitized(path) if sanitized != "-" else None
    return test and f"{test} under sanitizers", asked


signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # what was changed is put back
listed = run(["ctest", "--test-dir", quick, "-N", "-E", "^(fuzz|rules|faults|browser|validate)|package|ranks|[.]heavy_"]).stdout.decode()
took = {} if seen_in == "-" else {row.split()[0]: float(row.split()[1]) for row in open(f"{seen_in}/seconds")}
durations = {name: took.get(name, 1) for name in re.findall(r"Test +#\d+: (\S+)", listed) if name not in MEMORY}
for test in ALWAYS:
    durations.setdefault(test, 10)
    if first == 1 and ask(test, quick):
        sys.exit(f"{test} fails before anything is changed")
places = list(sites())
random.Random(seed).shuffle(places)
tally = {"noticed": 0, "not": 0}
tried = same = 0
for path, at, token in places:
    if tried == count:
        break
    text = open(f"{tree}/{path}").read()
    line = text.count("\n", 0, at) + 1
    source = f"{tree}/{path}"
    made = f"{quick}/CMakeFiles/vinehand.dir/{path}.o"
    if not built(quick, f"CMakeFiles/vinehand.dir/{path}.o"):
        sys.exit(f"{path} cannot be built")
    before = open(made, "rb").read()
    open(source, "w").write(text[:at] + OTHER[token] + text[at + len(token):])
    try:
        if not built(quick, f"CMakeFiles/vinehand.dir/{path}.o"):
            continue
        if open(made, "rb").read() == before:
            same += 1
            continue
        tried += 1
        if tried < first:
            continue
        began = time.time()
        seen, asked = who_notices(path, line) if built(quick, "vinehand") else ("the linker", 0)
        tally["noticed" if seen else "not"] += 1
        said = f"noticed by {seen}" if seen else f"NOT NOTICED by {asked} tests"
        print(f"{tried} {path}:{line}: {token} -> {OTHER[token]}: {said} ({time.time() - began:.0f} s)", flush=True)
        if not seen:
            print("    " + text.splitlines()[line - 1].strip() + f" [{at - text.rfind(chr(10), 0, at)}]", flush=True)
    finally:
        open(source, "w").write(text)
print(f"{sum(tally.values())} changes: {tally['noticed']} noticed, {tally['not']} not noticed by the tests asked; {same} more leave the same code")
