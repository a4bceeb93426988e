# lib.sh - sourced by the shell tests: run the program, look at what came, count what is wrong.
#
#     run ARG...              the program with these arguments; leaves $rc, $work/out, $work/err
#     exits N                 it ended with N
#     says TEXT, complains TEXT      TEXT stands in standard output, in standard error
#     quiet_out, quiet_err    nothing stands there
#     good "WHAT" COMMAND...  the command succeeds;  bad "WHAT" COMMAND...  it does not
#     planting, roughly       parts of a scenario; small_scenario, short_season: whole ones
#     finish                  ends the test with its verdict
# Paths are relative to $work, an own empty folder in which the test starts.

set -u
: "${VINEHAND:?the path of the built program}"
: "${VINEHAND_SOURCE:?the path of the source tree}"
work=$(mktemp -d) || exit 1
trap 'chmod -R u+w "$work" 2>/dev/null; rm -rf "$work"' EXIT
mkdir "$work/in" && cd "$work/in" || exit 1
wrong=0
last=

tell() {
    wrong=$((wrong + 1))
    echo "WRONG after: vinehand $last"
    echo "  $1"
    sed 's/^/  out| /' "$work/out" | head -8
    sed 's/^/  err| /' "$work/err" | head -8
}

run() {
    last=$*
    "$VINEHAND" "$@" >"$work/out" 2>"$work/err" </dev/null
    rc=$?
    look_for_faults
}

# Faults that a sanitizer saw are wrong whatever the exit was.
look_for_faults() {
    if grep -q -e 'Sanitizer' -e 'runtime error:' "$work/err"; then
        tell "a sanitizer found a fault"
        cat "$work/err"
    fi
}

exits() { [ "$rc" -eq "$1" ] || tell "exit $rc, not $1"; }
says() { grep -qF -e "$1" "$work/out" || tell "standard output lacks: $1"; }
complains() { grep -qF -e "$1" "$work/err" || tell "standard error lacks: $1"; }
quiet_out() { [ ! -s "$work/out" ] || tell "standard output is not empty"; }
quiet_err() { [ ! -s "$work/err" ] || tell "standard error is not empty"; }
good() {
    what=$1
    shift
    "$@" || tell "not so: $what"
}
bad() {
    what=$1
    shift
    if "$@"; then tell "not so: $what"; fi
}

# The smallest scenario that runs: four temperatures, a sky word, one planting (one-bay.toml), here of a whole season.
small_scenario() {
    cat "$VINEHAND_SOURCE/tests/cli/one-bay.toml"
    printf 'set_out = 2026-02-20\npull_out = 2026-08-10\n'
}

# short_season NAME: the same of a month, from a crop that stands, with a market day; for tests that run it often.
short_season() {
    sed "s/^name = \"One bay\"/name = \"$1\"/" "$VINEHAND_SOURCE/tests/cli/one-bay.toml"
    cat "$VINEHAND_SOURCE/tests/cli/one-month.toml"
}

# Parts of a scenario. planting NAME CROP PLANTS PLANTS_PER_M2 SET_OUT PULL_OUT
planting() {
    printf '[[planting]]\nname = "%s"\ncrop = "%s"\nplants = %s\nplants_per_m2 = %s\nset_out = %s\npull_out = %s\n' "$@"
}

# roughly WARMEST_HIGH WARMEST_LOW COLDEST_HIGH COLDEST_LOW: degC, under a mixed sky
roughly() {
    printf '[climate.roughly]\nwarmest_high_c = %s\nwarmest_low_c = %s\ncoldest_high_c = %s\ncoldest_low_c = %s\nsky = "mixed"\n' "$@"
}

finish() {
    if [ "$wrong" -gt 0 ]; then
        echo "$wrong wrong"
        exit 1
    fi
    exit 0
}
