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

# What may not be read. The system's administrator may read all, so another user is asked.
small_scenario >closed.toml
chmod 000 closed.toml
if [ "$(id -u)" -ne 0 ]; then
    check 'closed.toml: may not be read; give yourself the right to read it' closed.toml
else
    chmod 755 "$work" "$work/in"
    as_nobody() { setpriv --reuid 65534 --regid 65534 --clear-groups "$@"; }
    if as_nobody test -x "$VINEHAND" -a -r "$PARAMS/defaults.csv" 2>"$work/none"; then
        last="check closed.toml, as nobody"
        as_nobody "$VINEHAND" check closed.toml --today 2026-07-14 --params "$PARAMS" >"$work/out" 2>"$work/err"
        rc=$?
        exits 2; quiet_out
        good "told so" [ "$(cat "$work/err")" = 'closed.toml: may not be read; give yourself the right to read it' ]
    fi
fi
rm -f closed.toml round.toml back.toml socket.toml plain

# ---- parameters ----

small_scenario >s.toml
params() { refused "$1" check s.toml --today 2026-07-14 --params p; }

params 'p/sources.csv: there is no such file; mend the name or put the file there'
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

# ---- folders for results ----

small_scenario >s.toml
out() { refused "vinehand: $1" forecast s.toml --members 1 --today 2026-07-14 --params "$PARAMS" --out "$2"; }

mkdir mixed many
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
