#!/bin/sh
# Names that lead to no plain file, folders that cannot take results, parameters that are no parameters: each is told
# with the name it has, exit 2, and nothing is written.
. "$(dirname -- "$0")/lib.sh"
PARAMS=$VINEHAND_SOURCE/params

# refused LINE ARG...: exit 2, just this line on standard error
refused() {
    line=$1
    shift
    run "$@"
    exits 2
    quiet_out
    good "just this line: $line" [ "$(cat "$work/err")" = "$line" ]
}
check() { refused "$1" check "$2" --today 2026-07-14 --params "$PARAMS"; }

# ---- files ----

ln -s round.toml back.toml
ln -s back.toml round.toml
check 'round.toml: links that lead round in a circle; name the file itself' round.toml
long=$(printf '%0300d' 0)
check "$long.toml: the name is too long for this system; give a shorter one" "$long.toml"
python3 -c 'import socket; socket.socket(socket.AF_UNIX).bind("socket.toml")'
check 'socket.toml: is no plain file; name a file' socket.toml
: >plain
check 'plain/scenario.toml: part of this name is a file, not a folder; mend the name' plain/scenario.toml

# What may not be read or written. The system's administrator may do all, so another user is asked.
as=
[ "$(id -u)" -ne 0 ] || as="setpriv --reuid 65534 --regid 65534 --clear-groups"
chmod 755 "$work" "$work/in"
params=$PARAMS
may_not() { # may_not EXIT LINE ARG...
    code=$1 line=$2
    shift 2
    last="$* (as nobody)"
    $as "$VINEHAND" "$@" --today 2026-07-14 --params "$params" >"$work/out" 2>"$work/err" </dev/null
    rc=$?
    exits "$code"
    quiet_out
    good "just this line: $line" [ "$(cat "$work/err")" = "$line" ]
}
small_scenario >closed.toml
small_scenario >open.toml
mkdir -m 555 shut
mkdir -m 000 dark
mkdir -m 311 blind
mkdir -m 777 wide
mkdir -m 000 wide/dark
cp -r "$PARAMS" p
chmod -R a+rX p
chmod 000 p/crops
chmod 000 closed.toml
if $as test -x "$VINEHAND" -a -r "$PARAMS/defaults.csv" 2>"$work/none"; then
    may_not 2 'closed.toml: may not be read; give yourself the right to read it' check closed.toml
    may_not 1 'vinehand: cannot write into shut/out: Permission denied; name another folder, or give yourself the right to write there' forecast open.toml --members 1 --out shut/out
    may_not 1 'vinehand: cannot write into dark/out: Permission denied; name another folder, or give yourself the right to write there' forecast open.toml --members 1 --out dark/out
    may_not 1 'vinehand: cannot write into blind/out: Permission denied; name another folder, or give yourself the right to write there' forecast open.toml --members 1 --out blind/out
    may_not 1 'vinehand: cannot write into wide/dark: Permission denied; name another folder, or give yourself the right to write there' forecast open.toml --members 1 --out wide/dark
    may_not 1 'vinehand: cannot write into shut/my-house: Permission denied; name another folder, or give yourself the right to write there' start shut/my-house
    may_not 1 'vinehand: cannot write into dark/my-house: Permission denied; name another folder, or give yourself the right to write there' start dark/my-house
    echo open.toml >list
    may_not 1 'vinehand: cannot write into shut: Permission denied; name another folder, or give yourself the right to write there' houses list --members 1 --out shut
    may_not 1 'vinehand: cannot write into shut/all: Permission denied; name another folder, or give yourself the right to write there' houses list --members 1 --out shut/all
    may_not 1 'vinehand: cannot write into dark/all: Permission denied; name another folder, or give yourself the right to write there' houses list --members 1 --out dark/all
    params=p
    may_not 2 'p/crops: may not be read; give yourself the right to read it' check open.toml
else
    echo "Another user may not come to the program or its parameters: not asked what may not be read."
fi
rm -rf shut dark blind wide open.toml list p
rm -f closed.toml round.toml back.toml socket.toml plain

# 140 F are the 60 C that a logger in the house may show; the limit is said as her column has it.
{ echo time,t_air_f; printf '2026-03-0%s,%s\n' 1T00:00 140 1T01:00 140.2 1T02:00 70; } >warm.csv
small_scenario | sed 's/^\[climate\]/&\nlog = "warm.csv"/' >warm.toml
run check warm.toml --today 2026-03-02; exits 0
complains "warm.csv:3: warning: temperatures that cannot be: 1 (last at line 3); below -4 or above 140, not used"
# plants a square foot in metric, as people read them
sed -i 's/^plants_per_m2 = .*/plants_per_ft2 = 0.22/' warm.toml
run check warm.toml --today 2026-03-02; exits 0; says "m2 2.368;"

# ---- parameters ----

small_scenario >s.toml
# A program without parameters of its own takes none that happen to lie in the current folder.
mkdir alone && cp "$VINEHAND" alone/vinehand && cp -r "$PARAMS" params
alone/vinehand check s.toml --today 2026-07-14 >"$work/out" 2>"$work/err"; rc=$?
exits 2; complains "holds no parameters (sources.csv is not there); name their folder, as in --params params"
rm -r alone params
params() { refused "$1" check s.toml --today 2026-07-14 --params p; }

params 'vinehand: p holds no parameters (sources.csv is not there); name their folder, as in --params params'
cp -r "$PARAMS" p && chmod -R u+w p
mv p/crops p/elsewhere
params 'p/crops: there is no such folder; mend the name'
mkdir p/crops
params 'p/crops: holds no crop; put files such as tomato-large.csv there'
rmdir p/crops && mv p/elsewhere p/crops

# 21 temperatures of ripening off the vine, the last on line 22: 20 are the most.
{ head -1 "$PARAMS/off-vine.csv"; for i in $(seq 21); do echo "mature-green,$i,$((30 - i)),from memory,,,"; done; } >p/off-vine.csv
params 'p/off-vine.csv:22: more than 20 temperatures; take some out'

# 51 grades, the last on line 52: 50 are the most.
{
    small_scenario
    printf '[market]\ndays = ["sat"]\n[[market.price]]\nplanting = "slicers"\ngrades = "sizes.csv"\nper_kg = 6\n'
} >s.toml
{ echo grade,measure,from,to; for i in $(seq 0 49); do echo "g$i,mass_g,$((10 * i)),$((10 * i + 10))"; done; echo last,mass_g,500,; } >sizes.csv
check 'sizes.csv:52: more than 50 grades; take some together' s.toml
sed -i '2d; s/^g1,mass_g,10,/g1,mass_g,0,/' sizes.csv
run check s.toml --today 2026-07-14 --params "$PARAMS"
exits 0

# A look back further than the days that a plant keeps; a crop may not be able to come to it by a scenario's row either.
rm -rf p && cp -r "$PARAMS" p && chmod -R u+w p
small_scenario >s.toml
for name in flower.window_d flower.abort_window_d upkeep.rgr_window_d; do
    sed -i "s/^\($name,[^,]*,d,[^,]*\),[^,]*/\1,40/" p/crops/tomato-cluster.csv
    params "p/crops/tomato-cluster.csv:$(grep -n "^$name," p/crops/tomato-cluster.csv | cut -d: -f1): $name may be at most 31, for so many \
days are kept; give it a high of 31 or less"
    cp "$PARAMS/crops/tomato-cluster.csv" p/crops
done
rm -rf p

# ---- folders for results ----

small_scenario >s.toml
out() { refused "vinehand: $1" forecast s.toml --members 1 --today 2026-07-14 --params "$PARAMS" --out "$2"; }

for n in 300 5000; do
    long=$(printf "%0${n}d" 0)
    run forecast s.toml --members 1 --today 2026-07-14 --params "$PARAMS" --out "$long"
    exits 1; quiet_out
    good "too long" [ "$(cat "$work/err")" = "vinehand: cannot write into $(printf '%.400s' "$long"): File name too long; give a shorter one" ]
    run start "$long"
    exits 1; quiet_out
    good "too long" [ "$(cat "$work/err")" = "vinehand: cannot write into $(printf '%.900s' "$long"): File name too long; give a shorter one" ]
done
run forecast s.toml --members 1 --today 2026-07-14 --params "$PARAMS" --out ours
exits 0
python3 -c 'import socket; socket.socket(socket.AF_UNIX).bind("ours/socket")'
out 'ours/socket is neither a file nor a folder; move it away, or name another folder for --out' ours
rm ours/socket
mkdir houses houses/a && cp s.toml houses/a/scenario.toml
run houses houses --members 1 --today 2026-07-14 --params "$PARAMS" --out all
exits 0
out 'all holds the results of many houses; name another folder for --out' all
refused 'vinehand: ours holds the results of one house; name another folder for --out' \
    houses houses --members 1 --today 2026-07-14 --params "$PARAMS" --out ours
: >file
refused 'vinehand: file is not a folder; name a folder for --out' houses houses --members 1 --today 2026-07-14 --params "$PARAMS" --out file
finish
