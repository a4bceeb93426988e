#!/bin/sh
# Stopped by hand (ctrl-C) while it looks back, or goes through many houses: one line, exit 130, earlier results as they were.
. "$(dirname -- "$0")/lib.sh"
PARAMS=$VINEHAND_SOURCE/params
demo=$VINEHAND_SOURCE/scenarios/two-bays

# stopped TEXT ARG...: a run that would take minutes is stopped after two seconds
stopped() {
    text=$1
    shift
    last="$* (stopped)"
    timeout --foreground --preserve-status -s INT 2 "$VINEHAND" "$@" --today 2026-07-14 --params "$PARAMS" --quiet >"$work/out" 2>"$work/err" </dev/null
    rc=$?
    look_for_faults
    exits 130
    quiet_out
    good "one line: $text" [ "$(cat "$work/err")" = "vinehand: $text" ]
}

stopped 'stopped; earlier results stay as they were' learn "$demo" --members 1000 --out out
good "nothing was written" [ "$(ls -A | wc -l)" -eq 0 ]

# while start waits for an answer
sleep 5 | timeout --foreground --preserve-status -s INT 2 "$VINEHAND" start new --params "$PARAMS" >"$work/out" 2>"$work/err"
rc=$?
look_for_faults
exits 130
good "start says that nothing was written" [ "$(cat "$work/err")" = "vinehand: stopped before the last question; nothing was written" ]
good "and so it is" [ "$(ls -A | wc -l)" -eq 0 ]

mkdir houses houses/a houses/b
small_scenario >houses/a/scenario.toml
small_scenario >houses/b/scenario.toml
run houses houses --members 1 --today 2026-07-14 --params "$PARAMS" --out all
exits 0
sums() { (cd all && find a b -type f -exec sha256sum {} + | sort -k 2); }
sums >"$work/before"
stopped 'stopped; what is done stays, and the same command goes on from there' houses houses --members 10000 --out all
sums >"$work/after"
good "each house is as it was" cmp -s "$work/before" "$work/after"
good "no leftovers" [ "$(find . -name '.vh-*' | wc -l)" -eq 0 ]
finish
