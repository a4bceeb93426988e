#!/bin/sh
# Broken input: each file bad/NAME.toml, or folder bad/NAME, must be refused by `check` and by
# `forecast` with exactly the lines of bad/NAME.expected on standard error, exit 2, nothing written.
# What no repository can hold (NUL bytes, a line of 50 MB, a folder for a file) is made here.
. "$(dirname "$0")/lib.sh"

bad=$VINEHAND_SOURCE/tests/cli/bad
LC_ALL=C
export LC_ALL
count=0

# Both read by the same reader: under sanitizers, where each run takes long, every 16th input is
# given to `forecast` as well; in Release all of them.
every=1
if grep -q 'VINEHAND_SANITIZE:BOOL=ON' "$VINEHAND_BUILD/CMakeCache.txt" 2>"$work/none"; then every=16; fi

# refused INPUT EXPECTED: both commands, seen from the present folder
refused() {
    count=$((count + 1))
    commands="check forecast"
    [ $((count % every)) -eq 0 ] || commands=check
    for command in $commands; do
        run "$command" "$1" --today 2026-07-14 --params "$VINEHAND_SOURCE/params" --out "$work/never"
        exits 2
        quiet_out
        if ! cmp -s "$2" "$work/err"; then
            tell "standard error is not as expected (-expected +came):"
            diff -u "$2" "$work/err" | sed 1,2d
        fi
        if [ -e "$work/never" ]; then
            tell "something was written"
            rm -rf "$work/never"
        fi
    done
}

ls -R "$bad" >"$work/before"
cd "$bad/.." || exit 1
for expected in bad/*.expected; do
    name=${expected%.expected}
    if [ -d "$name" ]; then refused "$name" "$expected"; else refused "$name.toml" "$expected"; fi
done
for input in bad/*; do
    case $input in
    *.expected) ;;
    *) [ -e "${input%.toml}.expected" ] || tell "$input has no .expected" ;;
    esac
done

# ---- made here ----

cd "$work/in" || exit 1
expect() { printf '%s\n' "$@" >"$work/expected"; }
log_scenario() {
    small_scenario | sed 's/^heat_c = 17.0/log = "inside.csv"/'
}

expect 'nowhere.toml: there is no such file; mend the name or put the file there'
refused nowhere.toml "$work/expected"

mkdir no-file
expect 'no-file/scenario.toml: there is no such file; mend the name or put the file there'
refused no-file "$work/expected"

mkdir -p folder.toml/scenario.toml
expect 'folder.toml/scenario.toml: is a folder; name a file'
refused folder.toml "$work/expected"

mkfifo pipe.toml
expect 'pipe.toml: is a pipe or a device; name a plain file'
refused pipe.toml "$work/expected"

printf '[house]\nname = "Ba\000ys"\n' >nul.toml
expect 'nul.toml:2:11: a zero byte; this is no text file, or it is damaged: save it again as text (UTF-8)'
refused nul.toml "$work/expected"

printf '[house]\nname = "B\344ys"\n' >latin.toml
expect 'latin.toml:2:10: a byte that is not UTF-8; save the file as UTF-8'
refused latin.toml "$work/expected"

printf '\377\376[\000h\000' >utf16.toml
expect 'utf16.toml: the file is written in UTF-16; save it as UTF-8'
refused utf16.toml "$work/expected"

{ printf '# '; head -c 52428800 /dev/zero | tr '\0' 'x'; printf '\n'; small_scenario; } >long.toml
expect 'long.toml: is larger than 1048576 bytes; is this the right file?'
refused long.toml "$work/expected"
rm long.toml

mkdir log && cd log || exit 1
log_scenario >scenario.toml

{ printf 'time,t_air_c\n2026-03-01T00:00,18\n'; head -c 52428800 /dev/zero | tr '\0' '9'; } >inside.csv
expect 'inside.csv:3: this line is longer than 64 KiB; is it a CSV file with one row a line?'
refused scenario.toml "$work/expected"

printf 'time,t_air_c\n2026-03-01T00:00,1\0008\n' >inside.csv
expect 'inside.csv:2:19: a zero byte; this is no text file, or it is damaged: save it again as text (UTF-8)'
refused scenario.toml "$work/expected"

rm inside.csv && mkdir inside.csv
expect 'scenario.toml:7:7: "inside.csv": is a folder; name a file'
refused scenario.toml "$work/expected"

ls -R "$bad" >"$work/after"
cmp -s "$work/before" "$work/after" || tell "a run left something in $bad"
[ "$count" -ge 60 ] || tell "only $count broken inputs"
echo "$count broken inputs"
finish
