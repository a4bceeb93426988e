#!/bin/sh
# The demo with four futures under valgrind: no read of what was never written, no byte lost.
#     VINEHAND=build/vinehand sh tests/trust/valgrind.sh [COMMAND...]     default: forecast
# One thread: OpenMP's own pool keeps memory until the process ends, which is no loss of ours.
. "$(dirname -- "$0")/lib.sh"
must_have valgrind valgrind
: "${VINEHAND:?the path of the built program}"
bad=0
[ $# -gt 0 ] || set -- forecast
for task; do
    valgrind --quiet --error-exitcode=99 --leak-check=full --show-leak-kinds=definite,indirect,possible \
        "$VINEHAND" "$task" "$top/scenarios/two-bays" --today 2026-07-14 --members 4 --threads 1 --out "$work/out" >"$work/printed" 2>"$work/said"
    rc=$?
    echo "$task: exit $rc, $(grep -c '^==' "$work/said") lines of valgrind"
    [ $rc -eq 0 ] || { grep '^==' "$work/said" | head -40; bad=1; }
done
exit $bad
