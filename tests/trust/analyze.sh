#!/bin/sh
# What compilers can tell without running: warnings of gcc and clang, gcc's analyzer, clang-tidy with a short list.
#     sh tests/trust/analyze.sh [warnings] [analyzer] [tidy]     none: all three; a remark is a failure; some minutes
# A remark that is wrong is answered in tests/trust/remarks.txt, with the reason; any other fails.
. "$(dirname -- "$0")/lib.sh"
warnings="-Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wdouble-promotion -Wformat=2 -Wundef -Wstrict-prototypes
-Wmissing-prototypes -Wvla -Wwrite-strings -Wcast-qual -Wswitch-enum -Wno-unknown-pragmas"
# clang alone calls a row with some named fields unfinished; what is not named is 0, as meant.
only_clang=-Wno-missing-field-initializers
checks="-*,clang-analyzer-*,-clang-analyzer-security.insecureAPI.DeprecatedOrUnsafeBufferHandling,bugprone-*,\
-bugprone-easily-swappable-parameters,-bugprone-narrowing-conversions,-bugprone-reserved-identifier,-bugprone-macro-parentheses,\
-bugprone-implicit-widening-of-multiplication-result,cert-err33-c,-cert-err33-c,cert-flp30-c,cert-msc30-c,\
misc-redundant-expression,misc-misplaced-const,readability-misleading-indentation,readability-suspicious-call-argument"
find "$top/model" "$top/cli" -name '*.c' ! -name ranks_mpi.c | sort >"$work/sources"
export CHECKS="$checks" FLAGS="$numbers $includes -I$top/cli/man"
jobs=$(nproc 2>/dev/null || echo 2)
[ $# -gt 0 ] || set -- warnings analyzer tidy
bad=0

over_all() { # over_all COMMAND...   on each source, remarks in $work/remarks
    COMMAND="$* $numbers $includes -I$top/cli/man"
    export COMMAND
    xargs -n 8 -P "$jobs" sh -c 'for s; do $COMMAND "$s"; done' sh <"$work/sources" >"$work/remarks" 2>&1
}

# An answered remark stands in remarks.txt as "FILE [CHECK] why".
judge() { # judge NAME
    grep -E '(warning|error):' "$work/remarks" | sed "s,^$top/,," | sort -u >"$work/found"
    : >"$work/open"
    while read -r line; do
        file=${line%%:*}
        check=${line##*[}
        grep -qF "$file [$check" "$here/remarks.txt" || echo "$line" >>"$work/open"
    done <"$work/found"
    echo "$1: $(wc -l <"$work/found") remarks, $(wc -l <"$work/open") unanswered"
    [ -s "$work/open" ] || return 0
    cat "$work/open"
    bad=1
}

for what; do
    case $what in
    warnings)
        # shellcheck disable=SC2086
        for compiler in gcc clang; do
            command -v $compiler >/dev/null || { echo "$compiler is not installed: passed over"; continue; }
            extra=
            [ $compiler = clang ] && extra=$only_clang
            over_all $compiler $warnings $extra -fsyntax-only
            judge "$compiler warnings"
        done
        ;;
    analyzer)
        over_all gcc -fanalyzer -O1 -c -o /dev/null
        judge "gcc -fanalyzer"
        ;;
    tidy)
        command -v clang-tidy >/dev/null || { echo "clang-tidy is not installed: passed over"; continue; }
        # shellcheck disable=SC2086
        xargs -n 4 -P "$jobs" sh -c 'clang-tidy --quiet "-checks=$CHECKS" "$@" -- $FLAGS' sh <"$work/sources" >"$work/remarks" 2>/dev/null
        judge clang-tidy
        ;;
    *)
        echo "analyze.sh [warnings] [analyzer] [tidy]"
        exit 2
        ;;
    esac
done
exit $bad
