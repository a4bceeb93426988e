#!/bin/sh
# Our own whole outputs: a change must be looked at and given a reason in REASONS.md beside this file. Two scenarios are kept number
# by number; over all features (runs.txt) a digest a file is kept: it names the file that moved, in the smallest digit.
# To renew all: sh tests/frozen/t_frozen.sh --renew (VINEHAND and VINEHAND_SOURCE as in the tests), then write why.
set -u
: "${VINEHAND:?the path of the built program}" "${VINEHAND_SOURCE:?the path of the source tree}"
export LC_ALL=C # which language she has moves some signs that are printed
here=$(cd "$(dirname "$0")" && pwd)
[ -d /dev/shm ] && [ -w /dev/shm ] && TMPDIR=/dev/shm && export TMPDIR # it syncs a lot
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
renew=${1:-}
bad=0
limit=${VH_FIRST:+timeout -s KILL 60} # VH_FIRST: ends at the first run that moves or hangs, for tests/trust/mutate.sh

for name in two-bays no-thermometer; do
    $limit "$VINEHAND" forecast "$VINEHAND_SOURCE/scenarios/$name" --members 1 --today 2026-07-14 --out "$work/$name" >/dev/null 2>"$work/err" ||
        { cat "$work/err"; exit 1; }
    for table in weeks trusses; do
        kept=$here/$name-$table.csv
        cmp -s "$kept" "$work/$name/$table.csv" && continue
        if [ "$renew" = --renew ]; then cp "$work/$name/$table.csv" "$kept"; echo "renewed: $name-$table.csv"; continue; fi
        bad=1
        echo "FAIL $name/$table.csv moved; the first rows that differ (frozen <, now >):"
        diff "$kept" "$work/$name/$table.csv" | head -6
    done
    rm -r "${work:?}/$name"
done

# run.json and datapackage.json hold digests and words alone: they would move with every comment in params/.
ln -s "$VINEHAND_SOURCE/tests" "$VINEHAND_SOURCE/scenarios" "$work" && mkdir "$work/out" && cd "$work" || exit 1
while read -r name command; do
    wanted=0 # a run that is to be refused has its exit behind its name: no-day=2
    case $name in '' | '#'*) continue ;; *=*) wanted=${name#*=} name=${name%=*} ;; esac
    # shellcheck disable=SC2086  # words of a command line
    $limit "$VINEHAND" $command --threads 1 --out "out/$name" >printed 2>&1 </dev/null
    rc=$?
    [ $rc -eq "$wanted" ] || { echo "FAIL vinehand $command: exit $rc, not $wanted: $(tail -3 printed)"; bad=1; }
    echo "exit $rc" >>printed
    mkdir -p "out/$name" && mv printed "out/$name/printed"
    if [ -n "$limit" ]; then
        (cd out && find "$name" -type f ! -name run.json ! -name datapackage.json | sort | xargs sha256sum) >now
        grep "  $name/" "$here/digests.txt" | cmp -s - now && [ $bad -eq 0 ] || { echo "FAIL $name moved"; exit 1; }
    fi
done <"$here/runs.txt"
(cd out && find . -type f ! -name run.json ! -name datapackage.json | sed 's,^\./,,' | sort | xargs sha256sum) >now
moved() { diff "$here/digests.txt" now | sed -n 's/^[<>] [0-9a-f]*  //p' | sort -u; }
if [ "$renew" = --renew ]; then
    moved | sed 's/^/renewed: /'
    [ $bad -eq 0 ] && cp now "$here/digests.txt"
    for kind in complaints complaints_keys complaints_rows complaints_notes complaints_short drawn; do # of t_*.c: build them first
        VH_RENEW=1 "${VINEHAND_BUILD:-$(dirname "$VINEHAND")}/tests/frozen_t_$kind" >complaints 2>&1 &&
            echo "renewed: $kind" || { cat complaints; bad=1; }
    done
elif ! cmp -s "$here/digests.txt" now; then
    bad=1
    echo "FAIL moved (the run, then its files):"
    moved | awk -F/ '{ files = substr($0, length($1) + 2); all[$1] = all[$1] " " files } END { for (run in all) print "  " run ":" all[run] }' | sort
    echo "To see the digits: ask this program and an older one what runs.txt asks, and compare the two folders."
fi
exit $bad
