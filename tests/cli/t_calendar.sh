#!/bin/sh
# work.ics: an independent parser takes it, it obeys what that parser passes over, and it is tasks.csv line by line.
. "$(dirname -- "$0")/lib.sh"
python=python3
$python -c 'import icalendar' 2>/dev/null || python=/usr/bin/python3 # Debian's, where another comes first
$python -c 'import icalendar' 2>/dev/null || { echo "python3-icalendar is not there"; exit 77; }

two="$VINEHAND_SOURCE/scenarios/two-bays"
calendar() { $python "$VINEHAND_SOURCE/tests/cli/read_calendar.py" "$@" >"$work/out" 2>"$work/err"; }
run forecast "$two" --members 1 --today 2026-07-14 --out one; exits 0
good "run.json lists it" grep -q '"work.ics"' one/run.json
bad "the data package lists it" grep -q 'work.ics' one/datapackage.json
good "the calendar holds" calendar one 2026-07-14
[ "$wrong" -eq 0 ] || cat "$work/out"
# A run of another day keeps the UIDs of the days both have, so that a new import replaces.
run forecast "$two" --members 1 --today 2026-07-16 --out two; exits 0
good "the calendar of a later day holds" calendar two 2026-07-16
for folder in one two; do grep '^UID:2026080' $folder/work.ics >$folder.uids; done
# The checks can fail: a line end, a line too long, a task that is not in the table.
sed 's/\r$//' one/work.ics >two/work.ics; bad "lone line ends pass" calendar two 2026-07-14
sed 's/^VERSION:2.0\r$/VERSION:2.0\r\nX-LONG:'"$(printf '%080d' 1)"'\r/' one/work.ics >two/work.ics
bad "a long line passes" calendar two 2026-07-16
if [ "$(wc -l <one/tasks.csv)" -gt 1 ]; then
    cp one/work.ics one/tasks.csv two/ && sed -i '$s/^[^,]*,[^,]*,[a-z_]*,/&1/' two/tasks.csv
    bad "another number passes" calendar two 2026-07-14
    good "there are UIDs to compare" [ -s one.uids ]
    last="UIDs of two runs"; good "days keep their UIDs" cmp -s one.uids two.uids
fi
finish
