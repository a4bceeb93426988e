"""All benchmarks: what each takes beside what it cannot go below, and beside the last release.

Usage: bench.py PROGRAM TOOLS_FOLDER SOURCE_FOLDER [--json FILE] [--only WORD] [--keep]
Times are of interleaved pairs (ours, reference; the order turns with each pair); a row shows the median
of the ratios and their quartiles. Instructions are counted by valgrind, in runs of one thread.
"""
import json, os, resource, shutil, statistics, subprocess, sys, tempfile, time

PAIRS = int(os.environ.get("PAIRS", "5"))
MEMBERS = int(os.environ.get("MEMBERS", "1000"))
HOUSES = int(os.environ.get("HOUSES", "1000"))
LIGHT_HOURS, HOURS = 14, 24  # of a day: logarithms and exponentials that no season can be quit of
SLOWER = 1.02  # instructions over the release's beyond which a row is called slower
rows = []


def args():
    a = [x for x in sys.argv[1:] if not x.startswith("--")]
    opt = {}
    for flag in ("--json", "--only"):
        if flag in sys.argv:
            opt[flag] = sys.argv[sys.argv.index(flag) + 1]
            a.remove(opt[flag])
    return a, opt


(program, tools, source), option = args()
work = tempfile.mkdtemp(prefix="bench-")
bare = os.path.join(tools, "bench_bare")
season = os.path.join(tools, "bench_season")
demo = os.path.join(source, "scenarios", "two-bays")


def run(command, **env):
    """Wall ms, processor ms, MB of one run."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.monotonic()
    p = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={**os.environ, **env})
    _, status, use = os.wait4(p.pid, 0)
    wall = (time.monotonic() - start) * 1e3
    if status != 0:
        sys.exit("bench: this failed: " + " ".join(command))
    return wall, (use.ru_utime + use.ru_stime) * 1e3, use.ru_maxrss / 1024


def instructions(command):
    """Of one run, in millions; None without valgrind."""
    if not shutil.which("valgrind"):
        return None
    p = subprocess.run(["valgrind", "--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null"] + command,
                       stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    for line in p.stderr.splitlines():
        if "I" in line and "refs:" in line:
            return int(line.split("refs:")[1].replace(",", "")) / 1e6
    return None


def wanted(name):
    return option.get("--only", "") in name


def add(name, against, ms, ratio, q1, q3, counted, mb=None, cpu=None):
    row = {"row": name, "against": against, "ms": ms, "ratio": ratio, "q1": q1, "q3": q3,
           "million_instructions": counted, "mb": mb, "processor_ms": cpu}
    rows.append(row)
    print(line(row), flush=True)


def pairs(name, ours, against, reference, counted=None, pairs_n=PAIRS, **env):
    """reference: a command, or None: the ratio is left out."""
    if not wanted(name):
        return
    took, ratio, cpu, mb = [], [], [], 0
    for k in range(pairs_n):
        second = run(reference) if reference and k % 2 else None
        a = run(ours, **env)
        b = second or (run(reference) if reference else None)
        took.append(a[0])
        cpu.append(a[1])
        mb = max(mb, a[2])
        if b:
            ratio.append(a[1] / max(b[1], 0.01))
    q = statistics.quantiles(ratio, n=4) if len(ratio) > 1 else [None] * 3
    add(name, against, statistics.median(took), statistics.median(ratio) if ratio else None, q[0], q[2],
        instructions(counted) if counted else None, mb, statistics.median(cpu))


def calls(seasons, days):
    return [bare, "calls", str(int(seasons * days * LIGHT_HOURS)), str(int(seasons * days * HOURS))]


def forecast(folder, members, threads=1, *more, command="forecast", today="2026-07-14"):
    return [program, command, folder, "--members", str(members), "--threads", str(threads), "--today", today,
            "--out", os.path.join(work, "out"), "--quiet", *more]


def write(path, text):
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "w") as f:
        f.write(text)


HOUSE = """[house]
name = "Bench"
latitude_deg = 44.5
floor_area_m2 = 30
[climate]
heat_c = 17
vent_c = 24
[climate.roughly]
warmest_high_c = 27
warmest_low_c = 15
coldest_high_c = -2
coldest_low_c = -12
sky = "mixed"
[[planting]]
name = "slicers"
crop = "tomato-large"
plants = 48
plants_per_m2 = 2.5
set_out = %s
pull_out = %s
"""


def one_planting(name, more="", set_out="2026-02-20", pull_out="2026-11-10"):
    folder = os.path.join(work, name)
    write(os.path.join(folder, "scenario.toml"), HOUSE % (set_out, pull_out) + more)
    return folder


def records():
    """20 weeks of a house that was weighed and looked at once a week; invented."""
    lines = ["date,planting,item,value"]
    for week in range(20):
        day = time.strftime("%Y-%m-%d", time.gmtime(1777852800 + week * 7 * 86400))  # from 2026-05-04
        lines.append("%s,slicers,picked_kg,%.1f" % (day, min(2.0 + 4.0 * week, 22.0) + 2.0 * (week % 3)))
        lines.append("%s,slicers,flowering_truss,%.1f" % (day, 8.5 + 0.9 * week))
    return "\n".join(lines) + "\n"


def seasons_rows():
    for crop, members in (("tomato-cluster", 1), ("cucumber-long", 1), ("tomato-cluster", 8), ("cucumber-long", 8)):
        name = "season of 300 days, " + crop + (", each of %d side by side" % members if members > 1 else "")
        if not wanted(name):
            continue
        params = os.path.join(source, "params")
        ms, bare_ms, ratio, q1, q3 = map(float, subprocess.check_output([season, params, crop, str(members)]).split())
        few, many = (instructions([season, params, crop, str(members), str(n)]) for n in (1, 11))
        add(name, "its bare exp and log, %.3f ms" % bare_ms, ms, ratio, q1, q3,
            (many - few) / 10 / members if few else None)


def forecast_rows():
    quiet = os.path.join(work, "no_fsync.so")
    subprocess.check_call(["cc", "-shared", "-fPIC", "-o", quiet, os.path.join(source, "tests/bench/no_fsync.c")])
    shape = calls(4, 260)
    pairs("demo, 1 member, with fsync", forecast(demo, 1), "exp and log of its seasons", shape)
    pairs("demo, 1 member, without fsync", forecast(demo, 1), "exp and log of its seasons", shape,
          forecast(demo, 1), LD_PRELOAD=quiet)
    pairs("demo, 400 members, 2 threads", forecast(demo, 400, 2), "exp and log of its seasons",
          calls(400 * (5 * 2 * 0.5 + 3), 260), forecast(demo, 40), min(PAIRS, 3))
    folder = one_planting("members")
    name = "one planting, %d members" % MEMBERS
    pairs(name, forecast(folder, MEMBERS), "exp and log of its seasons", calls(MEMBERS, 264), forecast(folder, 40),
          min(PAIRS, 3))
    if wanted("two threads over one"):
        ratio = []
        for _ in range(min(PAIRS, 3)):
            one, two = run(forecast(folder, MEMBERS)), run(forecast(folder, MEMBERS, 2))
            ratio.append(one[0] / (2 * two[0]))
        add("two threads over one, wall time", "2: all of both cores", None, statistics.median(ratio), min(ratio),
            max(ratio), None)


def learning_rows():
    folder = one_planting("learn", '[records]\nfile = "records.csv"\n')
    write(os.path.join(folder, "records.csv"), records())
    today = "2026-09-18"
    with_records = forecast(folder, 400, 2, today=today)
    pairs("forecast after 20 weeks of records, 400 members", with_records, "the same without learning",
          forecast(folder, 400, 2, "--no-records", today=today), forecast(folder, 40, today=today), min(PAIRS, 3))
    pairs("hindcast of 20 weeks, 400 members", forecast(folder, 400, 2, command="learn", today=today),
          "exp and log of its seasons", calls(20 * 60 * 5, 150), forecast(folder, 20, command="learn", today=today), 1)


def compare_rows():
    folder = one_planting("compare", "[compare]\nleaves_kept = [%s]\n" % ", ".join(str(8 + k) for k in range(40)))
    pairs("compare 40 choices, 100 members", forecast(folder, 100, 2, command="compare", today="2026-03-01"),
          "exp and log of its seasons", calls(41 * 100, 264),
          forecast(folder, 2, command="compare", today="2026-03-01"), min(PAIRS, 3))


def reading_rows():
    log = os.path.join(work, "log.csv")
    with open(log, "w") as f:
        f.write("time,t_air_c,par_umol_m2_s\n")
        for i in range(300000):
            f.write("2026-%02d-%02dT%02d:%02d,%.1f,%d\n" % (1 + i // 43200 % 12, 1 + i // 1440 % 28, i // 60 % 24,
                                                           i % 60, 18 + i % 60 / 60, 400 * (i // 720 % 2)))
    pairs("CSV of 300,000 rows", [bare, "csv", log, "3"], "reading its bytes", [bare, "read", log, "3"],
          [bare, "csv", log, "1"])
    toml = os.path.join(work, "long.toml")
    write(toml, "".join('[[planting]]\nname = "bay %d"\nplants = %d\nset_out = 2026-02-20\n'
                        'share = 0.25 # of it\ndays = ["tue", "fri"]\n' % (k, k) for k in range(8000)))
    pairs("TOML of 8,000 tables", [bare, "toml", toml, "5"], "reading its bytes", [bare, "read", toml, "5"],
          [bare, "toml", toml, "1"])


def houses_row():
    name = "houses over %d scenarios, 1 member" % HOUSES
    if not wanted(name):
        return
    help_text = subprocess.run([program, "--help"], stdout=subprocess.PIPE, text=True).stdout
    if "houses" not in help_text:
        print("%-48s this build has no such command" % name)
        return
    for k in range(HOUSES):
        one_planting("houses/h%04d" % k, "", "2026-05-%02d" % (1 + k % 28), "2026-06-%02d" % (1 + k % 28))
    out = os.path.join(work, "houses-out")

    def command(folder, threads):
        return ["sh", "-c", 'rm -rf "$0"; exec "$@"', out, program, "houses", folder, "--members", "1", "--threads",
                str(threads), "--today", "2026-05-10", "--out", out, "--quiet"]
    pairs(name, command(os.path.join(work, "houses"), 2), "exp and log of its seasons", calls(HOUSES, 31), None, 1)


def last_release():
    path = os.path.join(source, "tests", "bench", "release.json")
    if not os.path.exists(path):
        return {}
    with open(path) as f:
        return {r["row"]: r for r in json.load(f)["rows"]}


def number(x, digits=1):
    return "-" if x is None else "%.*f" % (digits, x)


def line(r):
    before = release.get(r["row"], {}).get("million_instructions")
    now = r["million_instructions"]
    share = now / before if now and before else None
    verdict = "" if share is None else "  slower" if share > SLOWER else "  faster" if share < 1 / SLOWER else "  same"
    return "%-48s %9s ms %8s cpu %6s MB  x%-6s [%s..%s]  %9s M  %s%s  (x: %s)" % (
        r["row"], number(r["ms"], 2), number(r["processor_ms"], 0), number(r["mb"], 0), number(r["ratio"], 2),
        number(r["q1"], 2), number(r["q3"], 2), number(now), number(share, 3), verdict, r["against"])


release = last_release()
print("row, median wall time, processor time, memory, ratio [quartiles], million instructions, over the release's")
try:
    seasons_rows()
    reading_rows()
    forecast_rows()
    compare_rows()
    learning_rows()
    houses_row()
finally:
    if "--keep" not in sys.argv:
        shutil.rmtree(work, ignore_errors=True)
if "--json" in option:
    with open(option["--json"], "w") as f:
        json.dump({"load": os.getloadavg()[0], "cores": os.cpu_count(), "rows": rows}, f, indent=1)
        f.write("\n")
slow = [r["row"] for r in rows if r["million_instructions"] and r["row"] in release
        and release[r["row"]].get("million_instructions")
        and r["million_instructions"] > SLOWER * release[r["row"]]["million_instructions"]]
if slow:
    print("more instructions than the last release: " + "; ".join(slow))
    sys.exit(1)
