"""Every command with calls that fail, and killed: what is on the disk is one complete set, old or new, never a mix.

    python3 faults.py PROGRAM PARAMS WORK POINTS KILLS [DEMO]

PROGRAM is the one of faults.c. Each command runs with its Nth call failing, once and from then on: POINTS values of N a
command and kind, spread evenly (0: every one; of the memory asked for while parameters are read, 200). Then KILLS runs are
killed (SIGKILL), half of them before a call that changes the disk, half at a random moment. All is done in WORK. KILLS 0: three commands, memory and writing alone.
VINEHAND_FAULTS_ONLY="note houses" tries these alone. DEMO: the
folder of a larger scenario, whose forecast is tried as well.
"""
import errno as reasons, hashlib, os, random, resource, shutil, signal, subprocess, sys, time

program, params, work = sys.argv[1:4]
points, kills = int(sys.argv[4]), int(sys.argv[5])
demo = sys.argv[6] if len(sys.argv) > 6 else None
quick = kills == 0  # three commands, memory and writing alone: what sanitizers have time for
only = os.environ.get("VINEHAND_FAULTS_ONLY", "forecast note houses" if quick else "").split()
DAYS = ("2026-05-20", "2026-05-21")  # said.csv gathers promises of both
READING_POINTS = 200
IS_WRITTEN = "is written, but the disk may not keep it"
wrong, ran = 0, 0


sys.stdout.reconfigure(line_buffering=True)


def tell(what, r=None):
    global wrong
    wrong += 1
    if wrong > 40:
        return
    print("WRONG:", what)
    if r is not None:
        print("  exit", r.returncode, "|", r.stderr.decode(errors="replace")[:600].strip())


def run(args, fault="none", at=0, on=False, errno=None, count=None, limit=None, steps=False):
    global ran
    ran += 1
    env = dict(os.environ, VH_FAULT=fault, VH_FAULT_AT=str(at), VH_FAULT_ON="1" if on else "0",
               VH_FAULT_STEPS="1" if steps else "0", LC_ALL="C")
    if errno:
        env["VH_FAULT_ERRNO"] = str(errno)
    if count:
        env["VH_FAULT_COUNT"] = count
    pre = (lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))) if limit else None
    return subprocess.run([program] + args + ["--params", params], stdin=subprocess.DEVNULL, capture_output=True, env=env,
                          preexec_fn=pre)


def calls(args, fault, steps=False):
    run(args, fault, 10**9 if fault == "room" else 0, count="count", steps=steps)
    with open("count") as f:
        return int(f.read())


def digest(path):
    """All names and bytes under a path; None where there is nothing."""
    if os.path.isfile(path):
        return hashlib.sha256(open(path, "rb").read()).hexdigest()
    if not os.path.isdir(path):
        return None
    return {n: digest(os.path.join(path, n)) for n in sorted(os.listdir(path)) if not n.startswith(".vh-")}


def leftovers():
    return [os.path.join(d, n) for d, ds, fs in os.walk(".") for n in ds + fs if n.startswith(".vh-")]


CLI = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "cli")
SEASON = open(CLI + "/one-bay.toml").read().replace("One bay", "%s") + open(CLI + "/one-month.toml").read() + """[records]
file = "records.csv"
[compare]
planting = "slicers"
fruits_kept = [3]
"""
RECORDS = "date,planting,item,value\n2026-05-08,slicers,picked_kg,8.2\n2026-05-12,slicers,picked_kg,9.1\n" \
    "2026-05-14,slicers,picked_kg,9.5\n2026-05-16,slicers,picked_kg,8.8\n2026-05-18,slicers,picked_kg,9.9\n"


def put(path, text):
    with open(path, "w") as f:
        f.write(text)


class Command:
    """args: as typed, {day} filled; sets: what is written; fresh: is there only before the run where it is not there."""

    def __init__(self, name, args, sets=(), twice=True, parts=False, prepare=None):
        self.name, self.args, self.sets, self.twice, self.parts = name, args, sets, twice, parts
        self.prepare = prepare

    def typed(self, day):
        return [a.replace("{day}", day) for a in self.args]

    def state(self):
        return [digest(s) for s in self.sets]

    def begin(self):
        """Learns the two states that may be, and leaves the folder in the first."""
        os.makedirs(self.name)
        os.chdir(self.name)
        os.makedirs("list/a"), os.makedirs("list/b")
        for where in (".", "list/a", "list/b"):
            put(where + "/scenario.toml", SEASON % ("Bay " + where[-1].upper().replace(".", "0")))
            put(where + "/records.csv", RECORDS)
        if self.prepare:
            self.prepare()
        self.out, self.of_day = {}, {}
        if self.twice:  # promises gather: after a round of both days nothing more is added
            self.clean(DAYS[1])
            if not self.parts:
                put(self.sets[0] + "/hers.txt", "What she put there stays.\n")
            for day in DAYS + DAYS:
                self.clean(day)
            self.now = DAYS[1]
        else:
            self.restore()
            self.of_day[None] = self.state()
            self.clean(DAYS[0])
            self.restore()
            self.now = None

    def clean(self, day):
        r = run(self.typed(day))
        if r.returncode != 0 or (r.stderr and self.name != "demo"):  # the demo's log has gaps to warn of
            tell("%s does not run" % self.name, r)
        self.out[day], self.of_day[day] = r.stdout, self.state()

    def restore(self):
        for s in self.sets:
            shutil.rmtree(s) if os.path.isdir(s) else os.path.exists(s) and os.remove(s)
        put("records.csv", RECORDS)

    def next(self):
        return DAYS[0] if not self.twice or self.now == DAYS[1] else DAYS[1]

    def went_well(self):
        """It was run with nothing that fails."""
        if self.twice:
            self.now = self.next()
        else:
            self.restore()

    def is_whole(self, old, new, state):
        if not self.parts:
            return state == old or state == new
        for path, s, o, n in zip(self.sets, state, old, new):
            if s == o or s == n or s is None:
                continue
            if not isinstance(s, dict) or "a" not in self.houses():
                return False
            if any(s.get(h) not in ((o or {}).get(h), (n or {}).get(h)) for h in ("a", "b")) or not self.fits(path, s):
                return False
        return True

    def houses(self):
        return ("a", "b") if self.name == "houses" else ()

    def fits(self, path, s):
        """houses.csv stands only where it tells of the folders beside it: their rows, or why one failed."""
        if "houses.csv" not in s:
            return True
        lines = open(path + "/houses.csv").read().splitlines()[1:]
        for h in ("a", "b"):
            told = [l for l in lines if l.startswith(h + ",")]
            own = open(path + "/" + h + "/houses.csv").read().splitlines()[1:] if h in s else []
            if told != own and not (len(told) == 1 and told[0].startswith(h + ",,") and ("could not: " in told[0] or
                                                                                        "wrong: " in told[0])):
                return False
        return s["houses.csv"] in open(path + "/run.json").read()

    def judge(self, what, r, exits, day):
        old, new, state = self.of_day[self.now], self.of_day[day], self.state()
        err = r.stderr.decode(errors="replace")
        if "Sanitizer" in err or "runtime error" in err:
            tell(what + ": a sanitizer found a fault", r)
            print(err[:3000])
        elif r.returncode not in exits + (0,):
            tell(what + ": another exit", r)
        elif r.returncode == 0 and (state != new or (self.out[day] != r.stdout and r.stderr == b"")):
            tell(what + ": done, but not the new set or another answer", r)
        elif r.returncode != 0 and not self.is_whole(old, new, state):
            tell(what + ": neither the old nor the new set", r)
        elif IS_WRITTEN in err and self.sets and not self.parts and state != new:
            tell(what + ": is not written, though it says so", r)
        elif r.returncode != 0 and not self.parts and len(self.sets) == 1 and state != old and IS_WRITTEN not in err:
            tell(what + ": failed, but the old set is gone", r)
        elif r.returncode != 0 and not err.strip():
            tell(what + ": failed without a word", r)
        elif r.returncode != 0 and len(err.strip().split("\n")) != 1 and not self.parts and \
                "read" not in what and self.name != "demo":
            tell(what + ": more than a line", r)
        elif r.returncode == 1 and exits == (1,) and "alloc" in what and "memory" not in err:
            tell(what + ": does not say that memory is out", r)
        if self.twice:
            if self.parts and state not in (old, new):
                self.mend(what)
            else:
                self.now = day if state == new else self.now
        else:
            self.restore()

    def mend(self, what):
        """The next run ends with the new set and leaves nothing hidden."""
        day = self.next()
        r = run(self.typed(day))
        if r.returncode != 0 or self.state() != self.of_day[day]:
            tell(what + ": the next run does not put it right", r)
            if self.twice:
                shutil.rmtree(self.sets[0], ignore_errors=True)
                for d in DAYS + DAYS:
                    self.clean(d)
                day = DAYS[1]
        if leftovers():
            tell("%s: left behind after the next run: %s" % (what, leftovers()))
            for path in leftovers():
                shutil.rmtree(path, ignore_errors=True) if os.path.isdir(path) else os.remove(path)
        if self.twice:
            self.now = day
        else:
            self.restore()


def spread(low, high, n):
    """n of low + 1 ... high; all of them where n is 0 or too many."""
    if n == 0 or high - low <= n:
        return list(range(low + 1, high + 1))
    return sorted({low + 1 + (high - low - 1) * i // (n - 1) if n > 1 else low + (high - low) // 2 for i in range(n)})


def try_all(c, reading):
    for fault, exits in (("alloc", (1,)), ("write", (1,)), ("read", (1, 2)))[: 2 if quick else 3]:
        total = calls(c.typed(c.next()), fault)
        c.went_well()
        low = min(reading, total) if fault == "alloc" else 0
        for on in (False, True):
            places = spread(low, total, points)
            if fault == "alloc":
                places += spread(0, low, (READING_POINTS if points == 0 else max(1, points // 4)) if c.name == "check" else 1)
            for n in places:
                what = "%s, %s %d of %d%s" % (c.name, fault, n, total, " and on" if on else "")
                day = c.next()
                c.judge(what, run(c.typed(day), fault, n, on), exits, day)
        c.mend("%s, %s" % (c.name, fault))
    if c.sets:
        try_syncs(c, False)
        try_syncs(c, True)
    if not c.sets or quick:
        return
    # A folder that cannot be written, a file system that is full, a limit on the size of files.
    day = c.next()
    c.judge(c.name + ", read-only", run(c.typed(day), "write", 1, True, errno=30), (1,), day)
    total = calls(c.typed(c.next()), "room")
    c.went_well()
    for n in spread(0, total, points or 50):
        day = c.next()
        c.judge("%s, full after %d of %d bytes" % (c.name, n, total), run(c.typed(day), "room", n), (1,), day)
    day = c.next()
    r = run(c.typed(day), limit=20)
    if r.returncode == 0:
        tell(c.name + ": done within a limit of 20 bytes a file", r)
    c.judge(c.name + ", file size limit", r, (1,), day)
    c.mend(c.name + ", room")


def try_syncs(c, steps):
    """The names in a folder do not reach the disk: no run says that it is done. Where a file system cannot be asked, all is well."""
    total = calls(c.typed(c.next()), "sync", steps)
    c.went_well()
    if total == 0:
        tell(c.name + " never asks for the names in a folder to be on the disk")
    for n in range(1, total + 1):
        for errno in (reasons.EINVAL, reasons.EIO):
            what = "%s, sync of folder %d of %d%s, %s" % (c.name, n, total, " in steps" if steps else "", os.strerror(errno))
            day = c.next()
            r = run(c.typed(day), "sync", n, errno=errno, steps=steps)
            if (r.returncode == 0) != (errno == reasons.EINVAL):
                tell(what + ": exit", r)
            c.judge(what, r, (1,), day)
    c.mend(c.name + ", syncs")


def kill(c, n, rng):
    changes = calls(c.typed(c.next()), "kill")
    c.went_well()
    begun = time.monotonic()
    c.mend(c.name + ", before the kills")
    took = time.monotonic() - begun
    for i in range(n):
        day = c.next()
        if i % 2 == 0:
            at = rng.randrange(1, changes + 1)
            what = "%s, killed before change %d of %d" % (c.name, at, changes)
            r = run(c.typed(day), "kill", at)
            if r.returncode != -signal.SIGKILL:
                tell(what + ": lived", r)
        else:
            after = rng.random() * took
            what = "%s, killed after %.4f s" % (c.name, after)
            env = dict(os.environ, VH_FAULT="none", LC_ALL="C")
            p = subprocess.Popen([program] + c.typed(day) + ["--params", params], stdin=subprocess.DEVNULL,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=env)
            time.sleep(after)
            p.kill()
            p.wait()
        state = c.state()
        if not c.is_whole(c.of_day[c.now], c.of_day[day], state):
            # a swap in two steps that was cut may show nothing under the name: the next run brings it
            tell(what + ": neither the old nor the new set")
        if state == c.of_day[day] and c.twice:
            c.now = day
        if not c.twice:
            c.restore()
        c.mend(what)


at = ["--today", "{day}", "--members", "1"]
commands = [
    Command("check", ["check"] + at, twice=False),
    Command("explain", ["explain", ".", "slicers", "12"] + at, twice=False),
    Command("forecast", ["forecast"] + at + ["--out", "out"], ["out"]),
    Command("week", ["week"] + at + ["--out", "out"], ["out"]),
    Command("compare", ["compare"] + at + ["--out", "out"], ["out"]),
    Command("learn", ["learn", "--today", "{day}", "--members", "20", "--threads", "1", "--out", "out", "--save", "kept.csv"],
            ["out", "kept.csv"], twice=False, parts=True),
    Command("note", ["note", "slicers", "picked_kg", "3.5", "--date", "2026-05-15", "--today", "{day}"], ["records.csv"],
            twice=False),
    Command("start", ["start", "new", "--latitude", "44.5", "--set-out", "2026-05-05", "--today", "{day}", "--members", "1"],
            ["new"], twice=False),
    Command("houses", ["houses", "list"] + at + ["--threads", "1", "--out", "many"], ["many"], parts=True),
]

if demo:
    put_demo = lambda: shutil.copytree(demo, "demo")
    commands.append(Command("demo", ["forecast", "demo"] + at + ["--out", "out"], ["out"], prepare=put_demo))

os.chdir(work)
rng = random.Random(20261125)
reading = 0
os.makedirs("reading")
os.chdir("reading")
reading = calls(["explain", "no.such.name"], "alloc")
os.chdir("..")
commands = [c for c in commands if not only or c.name in only]
writers = [c for c in commands if c.sets]
for c in commands:
    c.begin()
    try_all(c, reading)
    if c.sets and kills:
        kill(c, (kills + len(writers) - 1) // len(writers), rng)
    os.chdir("..")
print("%d runs, %d wrong" % (ran, wrong))
sys.exit(wrong > 0)
