#!/bin/sh
# Text that a stranger wrote: names that could be markup, a formula or a calendar entry are refused, each with its line;
# a note of the records may hold anything, and reaches no page, table or calendar as it stands.
. "$(dirname -- "$0")/lib.sh"

params="$VINEHAND_SOURCE/params"
hostile='<script>alert(1)</script>'
for line in 2 15; do
    small_scenario | sed "${line}s,= .*,= \"A $hostile\"," >s.toml
    run check s.toml --today 2026-06-02 --params "$params"; exits 2
    complains "s.toml:$line:"
    complains "has a sign that no name may have"
done
for name in '=1+1' '@x'; do
    small_scenario | sed "15s,= .*,= \"$name\"," >s.toml
    run check s.toml --today 2026-06-02 --params "$params"; exits 2
    complains "does not begin with a letter or a digit"
done

small_scenario >s.toml
printf '[records]\nfile = "records.csv"\n' >>s.toml
cat >records.csv <<'EOF'
date,planting,item,value,truss,of,note
2026-05-20,slicers,picked_kg,3.2,,,"=HYPERLINK(""http://x.invalid"") </title><script>wicked()</script> ]]>"
2026-05-21,slicers,picked_kg,900,,,"</svg><img src=x onerror=wicked()> BEGIN:VEVENT"
2026-05-22,slicers,done_lower,0,,,"
END:VCALENDAR"
EOF
run forecast s.toml --today 2026-06-02 --members 1 --params "$params" --out out; exits 0
good "no note stands anywhere as it was written" [ -z "$(grep -rlE 'wicked\(\)<|<script|HYPERLINK\("|onerror' out)" ]
good "the calendar has one end" [ "$(grep -c '^END:VCALENDAR' out/work.ics)" -eq 1 ]
python3 -B "$VINEHAND_SOURCE/tests/cli/read_pages.py" out >said 2>&1
good "the pages are well formed: $(cat said)" [ ! -s said ]
bad "the terminal gets raw control signs" grep -q "$(printf '\033')" "$work/out"
finish
