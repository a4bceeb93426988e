#!/bin/sh
# Results appear whole or not at all; what is not ours stays.
. "$(dirname -- "$0")/lib.sh"

small_scenario >s.toml
forecast() { run forecast s.toml --members 1 --today 2026-07-14 "$@"; }
names() { ls -A "$1" | tr '\n' ' '; }
sums() { (cd "$1" && sha256sum -- * 2>/dev/null | sort); }
no_leftovers() { good "no leftovers" [ "$(find . -maxdepth 1 -name '.vh-*' | wc -l)" -eq 0 ]; }

# refused TEXT OUT: exit 2 before anything is computed, nothing touched
refused() {
    before=$(find . | sort)
    forecast --out "$2"
    exits 2
    complains "$1"
    quiet_out
    good "nothing touched by --out $2" [ "$before" = "$(find . | sort)" ]
}

# The scenario that is not there is the first thing said, not the folder beside it.
run forecast nowhere.toml --members 1 --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out nowhere/out; exits 2
complains "nowhere.toml: there is no such file"

# A new folder, and the same again.
forecast --out out; exits 0; no_leftovers
for file in picks.csv weeks.csv trusses.csv stem.csv climate_days.csv plant_days.csv lowering.csv \
    tasks.csv hours.csv supplies.csv warnings.csv datapackage.json run.json; do
    good "$file is there" [ -s "out/$file" ]
done
good "folder can be entered as the umask says" [ "$(stat -c %a out)" = "$(umask 022; mkdir m; stat -c %a m; rmdir m)" ]
first=$(sums out)
forecast --out out/; exits 0; no_leftovers
good "two equal runs write the same bytes" [ "$first" = "$(sums out)" ]
forecast --out two; exits 0
good "another folder gets the same bytes" [ "$first" = "$(sums two)" ]

# What is said of the files is true.
good "sizes and digests in run.json hold" sh -c '
    cd out && grep -c "\"path\"" run.json | grep -qv "^0$" &&
    tr -d "\n" <run.json | sed "s/{ *\"path\"/\n&/g" |
    sed -n "s/.*\"path\": \"\([^\"]*\)\", *\"bytes\": \([0-9]*\), *\"sha256\": \"\([0-9a-f]*\)\".*/\3 \2 \1/p" |
    while read -r sum bytes name; do
        [ "$(wc -c <"$name")" -eq "$bytes" ] || exit 1
        echo "$sum  $name" | sha256sum -c --quiet - || exit 1
    done'
bad "CR in a CSV" grep -q "$(printf '\r')" out/picks.csv
bad "NaN or inf in a cell" grep -qiE '(^|,)-?(nan|inf)' out/*.csv

# Files of the grower, also in folders and with odd names, are carried over; our old ones are not.
mkdir out/photos && echo mine >out/photos/one && echo mine >out/own.csv && echo x >"out/- note.txt"
ln -s nowhere out/link
touch -d 2020-01-02 out/own.csv
forecast --out out; exits 0; no_leftovers
good "own.csv stays" [ "$(cat out/own.csv)" = mine ]
good "its time stays" [ "$(stat -c %Y out/own.csv)" -eq "$(date -d 2020-01-02 +%s)" ]
good "a folder stays" [ "$(cat out/photos/one)" = mine ]
good "a dashed name stays" [ "$(cat "out/- note.txt")" = x ]
good "a link stays" [ "$(readlink out/link)" = nowhere ]
chmod 700 out; forecast --out out; exits 0
good "the folder's mode stays" [ "$(stat -c %a out)" = 700 ]

# A file that no run wrote is never overwritten.
mkdir clash && cp out/run.json clash/ && sed -i '/picks.csv/d' clash/run.json && echo mine >clash/picks.csv
forecast --out clash; exits 1; complains "clash/picks.csv"
good "it is as it was" [ "$(cat clash/picks.csv)" = mine ]; no_leftovers

# Nor is a folder called like one of our files taken for it: what lies in it stays.
cp -r two room && rm room/weeks.csv && mkdir room/weeks.csv && echo mine >room/weeks.csv/own
refused "room/weeks.csv is a folder, and a result file is called so; move it away, or name another folder for --out" room
good "it is as it was" [ "$(cat room/weeks.csv/own)" = mine ]
rm -r room

# What --out must not be.
echo text >file; mkdir theirs && echo x >theirs/x; mkdir alien && echo '{}' >alien/run.json
ln -s nowhere dangling; mkfifo pipe
refused "not a folder" file
refused "a file, not a folder" file/sub
refused "not empty" theirs
refused "not empty" alien
refused "link to nothing" dangling
refused "not a folder" pipe
refused "not a folder" /dev/null
refused "not a folder" /dev/full
refused "there is no folder" none/deep
if [ -d /proc/self ]; then # a folder in which none can be made, whoever asks
    forecast --out /proc/x; exits 1; quiet_out; complains "cannot write into /proc/x: "
    good "one line" [ "$(wc -l <"$work/err")" -eq 1 ]
    run houses . --members 1 --today 2026-07-14 --out /proc/x; exits 1; quiet_out; complains "cannot write into /proc/x: "
    good "one line" [ "$(wc -l <"$work/err")" -eq 1 ]
    run start /proc/x; exits 1; quiet_out; complains "cannot write into /proc/x: "
fi
refused "kept for unfinished runs" .vh-mine
refused "you stand in" .
refused "you stand in" ..
refused "cannot hold results" /
mkdir empty; forecast --out empty; exits 0
good "an empty folder is taken" [ -f empty/run.json ]
mkdir real; ln -s real linked; forecast --out linked; exits 0
good "a link to a folder is followed" [ -f real/run.json ]; good "and stays a link" [ -L linked ]

# Bad input writes nothing, not even a folder.
printf '[house]\nname = \n' >broken.toml
before=$(find . | sort)
run forecast broken.toml --members 1 --today 2026-07-14 --out fresh; exits 2; quiet_out; complains "broken.toml:2"
good "nothing written" [ "$before" = "$(find . | sort)" ]

# A full standard output is a failure, and said; the files stand.
"$VINEHAND" forecast s.toml --members 1 --today 2026-07-14 --out out >/dev/full 2>"$work/err"; rc=$?
: >"$work/out"; last="... >/dev/full"; exits 1; complains "standard output cannot be written"
"$VINEHAND" forecast s.toml --members 1 --today 2026-07-14 --out out >&- 2>"$work/err"; rc=$?
last="... >&-"; exits 1; complains "standard output cannot be written"
good "files stand" [ -s out/run.json ]
# Who reads no further ends it quietly, as a signal would.
for command in "check s.toml" --help; do
    { sleep 0.2; "$VINEHAND" $command --today 2026-07-14 2>"$work/err"; echo $? >"$work/rc"; } | :
    last="$command | :"; rc=$(cat "$work/rc"); exits 141; quiet_err
done
"$VINEHAND" --help >/dev/full 2>"$work/err"; rc=$?; last="--help >/dev/full"; exits 1

# A limit on file sizes: an error, the old set, no leftovers.
first=$(sums two)
( ulimit -f 4; exec "$VINEHAND" forecast s.toml --members 1 --today 2026-07-15 --out two >"$work/out" 2>"$work/err" ); rc=$?
last="... under ulimit -f 4"; exits 1; complains "File too large"
good "the old set stays" [ "$first" = "$(sums two)" ]; no_leftovers

# A folder without the right to write (root has every right).
if [ "$(id -u)" -ne 0 ]; then
    mkdir closed; chmod 500 closed
    forecast --out closed/out; exits 1; complains "Permission denied"
    chmod 700 closed
fi

# Ctrl-C while it waits for its input: exit 130, the old set.
mkfifo slow; (exec 3>slow; sleep 3) & holder=$!
timeout --foreground -s INT 1 "$VINEHAND" forecast - --members 1 --today 2026-07-14 --out two <slow >"$work/out" 2>"$work/err"; rc=$?
# timeout says 124 when it had to send its signal; --preserve-status gives the program's own
kill $holder 2>/dev/null; wait $holder 2>/dev/null
last="forecast - (timeout)"; exits 124
(exec 3>slow; sleep 3) & holder=$!
timeout --foreground --preserve-status -s INT 1 "$VINEHAND" forecast - --members 1 --today 2026-07-14 --out two <slow >"$work/out" 2>"$work/err"; rc=$?
kill $holder 2>/dev/null; wait $holder 2>/dev/null
last="forecast - (Ctrl-C)"; look_for_faults; exits 130; quiet_out
good "the old set stays" [ "$first" = "$(sums two)" ]; no_leftovers

# Killed at any moment: one whole set, old or new, and the next run tidies up.
for delay in 0.001 0.003 0.005 0.008 0.01 0.012 0.015 0.02 0.03 0.05; do
    day=$((10 + $(echo $delay | tr -dc 1-9) % 18))
    "$VINEHAND" forecast s.toml --members 1 --today 2026-07-$day --out two >/dev/null 2>&1 & victim=$!
    sleep $delay; kill -KILL $victim 2>/dev/null; wait $victim 2>/dev/null # timeout kills itself as well and does not wait
    last="killed after $delay s"
    good "names are those of a set" [ "$(names two)" = "$(names empty)" ]
    good "the set is whole" sh -c 'cd two && tr -d "\n" <run.json | grep -q "\]}$"'
done
forecast --out two; exits 0; no_leftovers

# What a killed swap in two steps leaves is finished: the journal says whose set it was.
mv two .vh-old-ABCDEF; cp -r out .vh-ABCDEF; printf three >.vh-swap-ABCDEF
forecast --out four; exits 0; no_leftovers
good "the new set got its name" [ -f three/run.json ]
mv three .vh-old-ABCDEF; printf three >.vh-swap-ABCDEF
forecast --out four; exits 0; no_leftovers
good "or the old one came back" [ -f three/run.json ]
# `note` writes beside it and cleans too: an unfinished swap is no leftover, it is all there is of a set.
mv three .vh-old-ABCDEF; printf three >.vh-swap-ABCDEF; cp "$VINEHAND_SOURCE/scenarios/no-thermometer/scenario.toml" .
printf '\n[records]\nfile = "records.csv"\n' >>scenario.toml
run note . tomatoes picked_kg 2 --date 2026-07-20; exits 0
good "note leaves the only whole set" [ -f .vh-old-ABCDEF/run.json ]
rm -f scenario.toml records.csv
forecast --out four; exits 0; no_leftovers
good "and the next run brings it back" [ -f three/run.json ]
mkdir .vh-notours; echo x >.vh-notours/x; echo x >.vh-ABCDEF
forecast --out four; exits 0
good "names that are not ours stay" [ -f .vh-notours/x ]; good "files of such a name stay" [ -f .vh-ABCDEF ]

finish
