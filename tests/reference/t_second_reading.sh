#!/bin/sh
# The plant's day, written a second time in Python from model.md and the headers, held day by day against what the program
# writes: all crops, whole seasons (second_reading.py, second_season.py).
set -u
: "${VINEHAND:?the path of the built program}"
: "${VINEHAND_SOURCE:?the path of the source tree}"
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 77; }
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
python3 -B "$VINEHAND_SOURCE/tests/reference/second_season.py" "$VINEHAND" "$VINEHAND_SOURCE" "$work"
