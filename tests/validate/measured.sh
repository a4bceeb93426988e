# measured.sh - sourced by the scripts here that run measured seasons, with $here their folder: leaves $root, $program, $data (the seasons)
# and $work, an own empty folder. Ends with 77 where there are no seasons.
LC_ALL=C
export LC_ALL
root=$(CDPATH='' cd -- "$here/../.." && pwd -P) || exit 1
program=${VINEHAND:-$root/build/vinehand}

[ -n "${VINEHAND_DATA:-}" ] && [ -d "$VINEHAND_DATA" ] ||
    { echo "skipped: VINEHAND_DATA names no folder of measured seasons"; exit 77; }
data=$(CDPATH='' cd -- "$VINEHAND_DATA" && pwd -P) || exit 1
[ -x "$program" ] ||
    { echo "measured seasons: no program at $program; build it or set VINEHAND" >&2; exit 1; }

work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 129' HUP
trap 'exit 130' INT
trap 'exit 143' TERM
