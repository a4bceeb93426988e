#!/bin/sh
# What compilers can tell without running: warnings of gcc and clang, gcc's analyzer, clang-tidy with a short list.
#     sh tests/trust/analyze.sh [warnings] [analyzer] [tidy]     none: all three; a remark is a failure; some minutes
# A remark that is wrong is answered in tests/trust/remarks.txt, with the code of its line and the reason; any other fails.
# What clang-tidy is asked stands in .clang-tidy.
. "$(dirname -- "$0")/lib.sh"
warnings="-Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wdouble-promotion -Wformat=2 -Wundef -Wstrict-prototypes
-Wmissing-prototypes -Wvla -Wwrite-strings -Wcast-qual -Wswitch-enum -Wno-unknown-pragmas"
# clang alone calls a row with some named fields unfinished; what is not named is 0, as meant.
only_clang=-Wno-missing-field-initializers
# A planted fault goes with the sources and must be found each time.
cat >"$work/planted.c" <<'C'
#include <stdlib.h>
int planted(char *p, int n);
int planted(char *p, int n)
{
    const unsigned u = n;
    free(p);
    free(p);
    return (int)u;
}
C
find "$top/model" "$top/cli" "$work" -name '*.c' ! -name ranks_mpi.c | sort >"$work/sources"
export TIDY="$top/.clang-tidy" FLAGS="$numbers $includes -I$top/cli/man"
jobs=$(nproc 2>/dev/null || echo 2)
[ $# -gt 0 ] || set -- warnings analyzer tidy
bad=0

over_all() { # over_all COMMAND...   on each source, remarks in $work/remarks; one without a line is of line 0
    COMMAND="$* $FLAGS"
    export COMMAND
    # shellcheck disable=SC2016
    xargs -n 8 -P "$jobs" sh -c 'for s; do $COMMAND "$s" 2>&1 | sed "s,^cc1:,$s:0:,"; done' sh <"$work/sources" >"$work/remarks"
}

# An answered remark stands in remarks.txt as "FILE [CHECK] `code of the line` why", so it answers no other line.
judge() { # judge NAME
    grep -q "^$work/planted.c:.*warning:" "$work/remarks" || { echo "WRONG: $1 does not find a planted fault"; bad=1; }
    grep -E '(warning|error):' "$work/remarks" | grep -v "^$work/planted.c:" | sed "s,^$top/,," | sort -u >"$work/found"
    : >"$work/open"
    while read -r line; do
        file=${line%%:*}
        at=${line#*:}
        code=$(awk -v at="${at%%:*}" 'NR == at { sub(/^ +/, ""); print }' "$top/$file" 2>/dev/null)
        grep -qF "$file [${line##*[} \`$code\`" "$here/remarks.txt" || printf '%s\n    %s\n' "$line" "$code" >>"$work/open"
    done <"$work/found"
    echo "$1: $(wc -l <"$work/found") remarks, $(grep -c '^[^ ]' "$work/open") unanswered"
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
        # One source a call: after the first, version 14 takes every va_list for one that was never started.
        # shellcheck disable=SC2016
        xargs -n 1 -P "$jobs" sh -c 'clang-tidy --quiet --config-file="$TIDY" "$1" -- $FLAGS' sh <"$work/sources" >"$work/remarks" 2>/dev/null
        judge clang-tidy
        ;;
    *)
        echo "analyze.sh [warnings] [analyzer] [tidy]"
        exit 2
        ;;
    esac
done
exit $bad
