#!/bin/sh
# The command line: what is taken, what is refused, with which words and which exit.
. "$(dirname -- "$0")/lib.sh"

# refused TEXT ARG...: exit 2, TEXT on standard error in one line, nothing else anywhere
refused() {
    text=$1
    shift
    run "$@"
    exits 2
    quiet_out
    complains "$text"
    good "one line of complaint" [ "$(wc -l <"$work/err")" -eq 1 ]
    good "nothing was written" [ "$(ls -A | grep -cv '^kept$')" -eq 0 ]
}

run --version; exits 0; quiet_err
good "first line is name and version" [ "$(head -1 "$work/out" | grep -cE '^vinehand [0-9]+\.[0-9]+\.[0-9]+$')" -eq 1 ]
run --help; exits 0; quiet_err; says "forecast [SCENARIO]"; says "houses   LIST"
good "help stays within 80 columns" [ "$(awk 'length > 80' "$work/out" | wc -l)" -eq 0 ]
for option in --out --today --members --draw --threads --units --params --save --no-records --quiet --help --version \
    --latitude --heat --cover --wire-height --crop --plants --set-out --market-day; do
    says "$option"
done
run forecast --nonsense --help; exits 0; says "Options"
run note slicers --help; exits 0; tr -s "\n " "  " <"$work/out" >"$work/line"
good "note says where its items are listed" grep -q "vinehand explain items lists what may stand for ITEM" "$work/line"
run --version --nonsense; exits 0
run forecast -- --help; exits 2

refused "houses wants a list" houses
refused "did you mean forecast?" forcast
refused "did you mean check?" chekc
refused "there is no command xylophone" xylophone
refused "there is no command" ""
refused "did you mean --out?" forecast --otu x
refused "did you mean --today?" check --tody 2026-07-14
refused "there is no option --frobnicate" check --frobnicate
refused "there is no option -q" check -q
refused "--out wants a value" forecast --out
refused "--out wants a value" forecast --out --quiet
refused "--out wants a value" forecast --out=
refused "--quiet takes no value" forecast --quiet=yes
refused "--draw is given twice" forecast --draw 1 --draw=2
refused "--quiet is given twice" forecast --quiet --quiet
refused "no date" forecast --today 14.7.2026
refused "no date" forecast --today 2026-02-30
refused "no date" forecast "--today=2026-07-14 "
refused "--members 0 is no whole number" forecast --members 0
refused "--members 1e3" forecast --members 1e3
refused "--members 99999999999999999999" forecast --members 99999999999999999999
refused "--draw -1" forecast --draw -1
refused "--threads 0x2" forecast --threads 0x2
refused "metric or us" forecast --units imperial
refused "one name too many" forecast a.toml b.toml
refused "name of the scenario is empty" forecast ""
refused "the name of the folder is empty; as in vinehand start my-house" start ""
refused "note writes beside a scenario that lies on the disk; name its file or folder" note - slicers picked_kg 3
refused "the planting, the item or the value is empty; write all three, as in vinehand note slicers picked_kg 14.2" note slicers "" 3
refused "--truss belongs to note, as in vinehand note slicers picked_kg 14.2" forecast --truss 3
refused "no scenario.toml in this folder; name the folder of yours, as in vinehand week my-house, or begin one" forecast
refused "no scenario.toml in this folder"

# Standard input that cannot be read.
last="check - (a folder)"
"$VINEHAND" check - </ >"$work/out" 2>"$work/err"
rc=$?
exits 2; quiet_out; complains "vinehand: standard input cannot be read: Is a directory"

# A file or folder in the command's place is told from a slip.
mkdir kept
refused "did you mean vinehand week kept?" kept
# Names that begin with a dash go behind --; controls in them cannot reach the terminal.
run check -- --none.toml; exits 2; complains "--none.toml"
run check "$(printf 'a\033[31mb.toml')"; exits 2
bad "an escape reaches the terminal" grep -q "$(printf '\033')" "$work/err"
run check missing.toml; exits 2; quiet_out; complains "missing.toml"
run check kept; exits 2; complains "kept/scenario.toml"
run forecast kept --params none --members 1 --today 2026-07-14; exits 2
rmdir kept

# Every place of an option, both forms, and a good run.
mkdir house && small_scenario >house/scenario.toml
run check --today=2026-07-14 house --members 1 --threads 1; exits 0; says "One bay"
run --today 2026-07-14 check house; exits 0
good "check writes nothing" [ "$(ls -A house)" = scenario.toml ]
run check --quiet --today 2026-07-14 house; exits 0; quiet_out; quiet_err
"$VINEHAND" check - --today 2026-07-14 <house/scenario.toml >"$work/out" 2>"$work/err"; rc=$?
last="check -"; look_for_faults; exits 0; says "One bay"
( cd house && "$VINEHAND" --today 2026-07-14 >"$work/out" 2>"$work/err" ); rc=$?
last="(bare)"; look_for_faults; exits 0; says "DO FIRST"
good "bare writes out/ beside the scenario" [ -f house/out/run.json ]
run forecast house --members 1 --today 2026-07-14 --units us --out us; exits 0; says " lb"; bad "kg in US units" grep -q ' kg' "$work/out"
bad "lines beyond 80 columns" grep -qE '^.{81}' "$work/out"
good "files stay metric" grep -q ',kg' us/picks.csv

finish
