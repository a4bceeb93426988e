"""mutate.py TREE BUILD COUNT SEED: changes one token of model/ at a time and asks the quick tests whether they notice.

BUILD is a finished build of TREE with its tests (-DVINEHAND_TESTS=ON). A change that does not compile is not counted. A change
that the quick tests (unit, reference) let pass is tried on the demo: where a number of its season moves, tests/frozen sees it.
"""
import os
import random
import re
import subprocess
import sys
import tempfile

tree, build, count, seed = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
most = int(os.environ.get("MUTATE_TESTS", "1000"))  # of the tests, those nearest by name
work = tempfile.mkdtemp(prefix="mutate-")
STEPS = "base climate plant work market house ensemble learn choose".split()
FLAGS = ["-std=c17", "-D_POSIX_C_SOURCE=200809L", '-DVINEHAND_VERSION="0.1.0"', "-ffp-contract=off", "-fno-fast-math",
         "-fno-trapping-math", "-fPIC", "-w", "-O1", "-fopenmp", "-DNDEBUG", f"-I{tree}/model"] + [f"-I{tree}/model/{s}" for s in STEPS]
LIBS = subprocess.run(["pkg-config", "--libs", "gsl", "criterion"], capture_output=True, text=True).stdout.split() + ["-lcsv", "-lm"]
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
                    yield f"{folder}/{name}", token.start(), token[0]


def link_tests():
    library = f"{work}/libmutant.so"
    run(["gcc", "-shared", "-o", library, "-Wl,--whole-archive", f"{build}/libvinehand.a", "-Wl,--no-whole-archive", "--coverage", "-fopenmp"] + LIBS)
    tests = []
    for folder in ("unit", "reference"):
        for source in sorted(os.listdir(f"{tree}/tests/{folder}")):
            if not re.match(r"t_(?!heavy_|(?:trials|parts|sucker_interval)\.).*\.c$", source):
                continue
            name = f"{folder}_{source[:-2]}"
            objects = f"{build}/tests/CMakeFiles/{name}.dir/{folder}/{source}.o"
            if not os.path.exists(objects):
                continue
            linked = run(["gcc", "-o", f"{work}/{name}", objects, f"{build}/libvinehand_text.a", f"{build}/libvinehand_write.a", library,
                          f"-Wl,-rpath,{work}", "--coverage", "-fopenmp"] + LIBS)
            if linked.returncode:
                sys.exit(f"{name}: {linked.stdout.decode()[:400]}")
            tests.append(name)
    linked = run(["gcc", "-std=c17", f"-I{tree}/model", f"{tree}/tests/trust/same_bits.c", library, f"-Wl,-rpath,{work}", "-o", f"{work}/bits", "--coverage",
                  "-fopenmp"] + LIBS)
    if linked.returncode:
        sys.exit(linked.stdout.decode()[:400])
    return tests


ENVIRONMENT = dict(os.environ, GCOV_PREFIX=f"{work}/gcov", LC_ALL="C", OMP_NUM_THREADS="1")


def noticed_by(tests):
    for name in tests:
        try:
            done = run([f"{work}/{name}", "-j1", "--quiet"], timeout=120, env=ENVIRONMENT, cwd=work)
        except subprocess.TimeoutExpired:
            return name + " (time)"
        if done.returncode:
            return name
    return None


def link_mutant(objects):
    return run(["gcc", "-shared", "-o", f"{work}/libmutant.so"] + objects + ["-Wl,--allow-multiple-definition", "-Wl,--whole-archive",
               f"{build}/libvinehand.a", "-Wl,--no-whole-archive", "--coverage", "-fopenmp"] + LIBS).returncode == 0


sound = {}


def is_sound(name):
    """Whether the test passes on the tree as it is: asked when it first fails on a change."""
    if name not in sound:
        os.rename(f"{work}/libmutant.so", f"{work}/aside.so")
        link_mutant([])
        sound[name] = noticed_by([name]) is None
        os.replace(f"{work}/aside.so", f"{work}/libmutant.so")
    return sound[name]


def bits():
    try:
        done = run([f"{work}/bits", f"{tree}/params", f"{tree}/scenarios/two-bays/scenario.toml"], timeout=300, env=ENVIRONMENT)
    except subprocess.TimeoutExpired:
        return b"time"
    return done.stdout


tests = link_tests()
whole = bits()
places = list(sites())
random.Random(seed).shuffle(places)
quick = frozen = tried = 0
for path, at, token in places:
    if tried == count:
        break
    text = open(path).read()
    changed = text[:at] + OTHER[token] + text[at + len(token):]
    source = f"{work}/{os.path.basename(path)}"
    open(source, "w").write(changed)
    if run(["gcc"] + FLAGS + [f"-I{os.path.dirname(path)}", "-c", source, "-o", f"{work}/mutant.o"]).returncode:
        continue
    if not link_mutant([f"{work}/mutant.o"]):
        continue
    tried += 1
    line = text.count("\n", 0, at) + 1
    # Tests of the same subject first: most changes are seen there.
    stem = os.path.basename(path)[:-2].split("_")
    order = sorted(tests, key=lambda name: -sum(word in name for word in stem if len(word) > 2))
    order = [name for name in order if sound.get(name, True)][:most]
    seen = noticed_by(order)
    while seen and not is_sound(seen.split()[0]):
        order = order[order.index(seen.split()[0]) + 1:]
        seen = noticed_by(order)
    moved = seen is None and bits() != whole
    quick += seen is not None
    frozen += moved
    verdict = f"noticed by {seen}" if seen else "noticed by the demo's numbers" if moved else "NOT NOTICED"
    print(f"{os.path.relpath(path, tree)}:{line}: {token} -> {OTHER[token]}: {verdict}", flush=True)
    if not seen:
        print("    " + text.splitlines()[line - 1].strip(), flush=True)
print(f"{tried} changes: {quick} noticed by the quick tests, {frozen} more by the demo's numbers, {tried - quick - frozen} not noticed")
