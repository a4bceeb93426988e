#!/bin/sh
# On a terminal a complaint shows the text and a caret under the place: also behind letters of two bytes, tabs, and far to
# the right, where only the part round the place is shown.
. "$(dirname -- "$0")/lib.sh"
cat >look.py <<'PY'
import os, pty, subprocess, sys

def told(line):
    with open("s.toml", "w", encoding="utf-8") as f:
        f.write("[house]\n" + line + "\n")
    ours, theirs = pty.openpty()
    done = subprocess.run([os.environ["VINEHAND"], "check", "s.toml", "--today", "2026-07-14"], stdin=subprocess.DEVNULL,
                          stdout=subprocess.DEVNULL, stderr=theirs, env=dict(os.environ, LC_ALL="C.UTF-8", TERM="xterm"))
    os.close(theirs)
    text = b""
    try:
        while part := os.read(ours, 65536):
            text += part
    except OSError:
        pass
    lines = text.decode("utf-8").replace("\r\n", "\n").split("\n")
    at = next(i for i, row in enumerate(lines) if row.startswith("s.toml:2:"))
    return done.returncode, lines[at], lines[at + 1], lines[at + 2]

wrong = 0
for line, place in (("latitude_deg = north", "north"), ('name = "B\u00e4ys \u00fcber" x', "x"), ("latitude_deg\t=\tnorth", "north"),
                    ('name = "' + 90 * "a" + '" x', "x"), ('name = "' + 60 * "\u00e4" + '" x', "x"),
                    ("x = 5 " + 120 * "b", "b")):
    code, said, shown, caret = told(line)
    column = len(line[:line.rindex(place) if place == "x" else line.index(place)].encode()) + 1
    under = caret.index("^")
    good = (code == 2 and said.startswith(f"s.toml:2:{column}: ") and shown.startswith("    ") and len(shown) <= 4 + 76
            and shown[4:] in line.replace("\t", " ") and shown[under:].startswith(place) and caret.strip() == "^")
    if not good:
        wrong = 1
        print(line, code, said, shown, caret, sep="\n")
sys.exit(wrong)
PY
python3 look.py >"$work/out" 2>&1 || tell "the caret: $(cat "$work/out")"
finish
