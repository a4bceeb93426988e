#!/bin/sh
# try.sh POINTS KILLS - runs faults.py in a folder of its own, in memory where there is such a place: it syncs a lot.
[ -d /dev/shm ] && [ -w /dev/shm ] && TMPDIR=/dev/shm && export TMPDIR
. "$(dirname -- "$0")/../cli/lib.sh"
faulty="$VINEHAND_BUILD/tests/vinehand_faults"
[ -x "$faulty" ] || { echo "there is no $faulty"; exit 1; }
demo=
[ "$1" -gt 0 ] && [ "$1" -lt 100 ] || demo="$VINEHAND_SOURCE/scenarios/two-bays"
python3 -B "$VINEHAND_SOURCE/tests/faults/faults.py" "$faulty" "$VINEHAND_SOURCE/params" "$work/in" "$1" "$2" ${demo:+"$demo"}
exit $?
