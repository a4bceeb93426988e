#!/bin/sh
# The same bytes from every compiler and level of optimisation: every file that a run writes and every line that it prints.
#     sh tests/trust/compilers.sh            the program under test (gcc, -O3 across files) against clang -O1
#     sh tests/trust/compilers.sh all        gcc and clang, each at -O0, -O2 and -O3; some minutes
# clang's builds here are without OpenMP, so they also show that threads change nothing; and with unsigned char.
. "$(dirname -- "$0")/lib.sh"
must_have clang clang
demo=$top/scenarios/two-bays

run_all() { # run_all PROGRAM FOLDER
    mkdir "$2"
    for task in "forecast --members 4" "week --members 12" "compare --members 2" "learn --members 20"; do
        # shellcheck disable=SC2086
        "$1" $task "$demo" --today 2026-07-14 --threads 2 --out "$2/out-${task%% *}" --params "$top/params" \
            >"$2/${task%% *}.txt" 2>&1 || { echo "WRONG: $1 $task: exit $?"; tail -3 "$2/${task%% *}.txt"; exit 1; }
        sed -i "s,$2,HERE,g" "$2/${task%% *}.txt"
    done
}

wrong=0
compare() { # compare NAME
    if diff -r "$work/first" "$work/$1" >"$work/differs"; then
        echo "$1: the same bytes ($(find "$work/first" -type f | wc -l) files)"
    else
        echo "WRONG: $1 writes other bytes:"
        head -6 "$work/differs" | cut -c1-200
        wrong=1
    fi
}

# All features, by their kept bytes.
ln -s "$top/params" "$work/params"
kept() { # kept NAME PROGRAM
    if VINEHAND=$2 VINEHAND_SOURCE=$top sh "$top/tests/frozen/t_frozen.sh" >"$work/moved"; then
        echo "$1: the kept bytes of tests/frozen"
    else
        echo "WRONG: $1: other bytes than tests/frozen keeps:"
        head -12 "$work/moved" | cut -c1-200
        wrong=1
    fi
}

if [ "${1:-}" = all ]; then
    kinds="gcc-O0 gcc-O2 gcc-O3 clang-O0 clang-O2 clang-O3"
else
    kinds=clang-O1
    [ -n "${VINEHAND:-}" ] || { echo "skipped: VINEHAND names no built program"; exit 77; }
fi
if [ -n "${VINEHAND:-}" ]; then run_all "$VINEHAND" "$work/first"; fi
for kind in $kinds; do
    other_char=
    [ "${kind%%-*}" = gcc ] || other_char=-funsigned-char # the signedness of char is the compiler's own choice
    # shellcheck disable=SC2086
    build_program "$work/vinehand-$kind" "${kind%%-*}" "-${kind#*-}" $other_char -DNDEBUG -w || exit 1
    if [ ! -d "$work/first" ]; then
        run_all "$work/vinehand-$kind" "$work/first"
        echo "$kind: first"
    else
        run_all "$work/vinehand-$kind" "$work/$kind"
        compare "$kind"
    fi
    kept "$kind" "$work/vinehand-$kind"
    rm -rf "$work/vinehand-$kind.objects"
done

# What the comparison is for, seen once: a product and a sum fused into one rounding.
if [ "${1:-}" = all ] && grep -qw fma /proc/cpuinfo; then
    numbers=$(echo "$numbers" | sed 's/-ffp-contract=off/-ffp-contract=fast -mfma/')
    build_program "$work/fused" gcc -O2 -DNDEBUG -w || exit 1
    run_all "$work/fused" "$work/fused-bytes"
    if diff -rq "$work/first" "$work/fused-bytes" >/dev/null; then
        echo "WRONG: fused arithmetic was not noticed"
        wrong=1
    else
        echo "gcc with fused arithmetic: other bytes, as it must be"
    fi
fi
exit $wrong
