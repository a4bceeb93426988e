#!/bin/sh
# The library never ends the process, prints, reads the environment or hangs on the locale or the calendar of the
# C library, and keeps no state of its own. Seen in what it calls, not in how the text looks.
set -u
library="${VINEHAND_BUILD:?}/libvinehand.a"
[ -f "$library" ] || { echo "there is no $library"; exit 1; }
wrong=0

# ends, prints, environment, locale numbers, calendar, banned for other reasons
banned='exit _exit _Exit quick_exit atexit system fork raise signal sigaction
printf vprintf puts putchar perror stdout stderr fputs fwrite fprintf vfprintf __printf_chk __fprintf_chk __vfprintf_chk
getenv secure_getenv setenv setlocale newlocale uselocale localeconv
strtod strtof strtold strtol strtoul strtoll strtoull atoi atol atof sscanf fscanf scanf __isoc99_sscanf __isoc99_fscanf
time gettimeofday gmtime gmtime_r localtime localtime_r mktime strftime strptime tzset
sprintf vsprintf __sprintf_chk strtok strtok_r strcat gets rand srand random drand48'
called=$(nm --undefined-only "$library" 2>/dev/null | awk 'NF == 2 && $1 == "U" { print $2 }' | sort -u)
[ -n "$called" ] || { echo "WRONG: nm shows no calls in $library"; exit 1; }
for name in $banned; do
    if echo "$called" | grep -qx "$name"; then
        echo "WRONG: the library calls $name:"
        nm -A --undefined-only "$library" 2>/dev/null | awk -v name="$name" '$NF == name { print "  " $1 }' | head -3
        wrong=1
    fi
done

# Only base opens files.
for member in $(nm -A --undefined-only "$library" 2>/dev/null | awk '$NF ~ /^(open|fopen|fopen64|open64|opendir)$/ { print $1 }' |
    sed 's/.*a:\([^:]*\):.*/\1/' | sort -u); do
    source=${member%.o}
    [ -f "${VINEHAND_SOURCE:?}/model/base/$source" ] || { echo "WRONG: $source opens files; that is for base"; wrong=1; }
done

# No data that changes: .data and .bss hold nothing (sanitizers put their own there).
if ! echo "$called" | grep -q -e '^__asan' -e '^__ubsan'; then
    state=$(nm -A -f sysv "$library" 2>/dev/null | awk -F'|' '$NF ~ /^ *\.(data|bss|tdata|tbss)(\.[^r]|$)/ && $4 ~ /OBJECT/ { print $1 }')
    [ -z "$state" ] || { echo "WRONG: state outside of functions: $state"; wrong=1; }
fi

# The program may print and read the environment, but the locale and these stay out of it too.
if grep -nE '\b(setlocale|newlocale|strto[dfl]|strto(l|ul|ll|ull|ld)|ato[ifl]|[fs]?scanf|sprintf|vsprintf|strtok|strftime|mktime|gmtime|localtime) *\(' \
    "$VINEHAND_SOURCE"/cli/*.c "$VINEHAND_SOURCE"/cli/*/*.c; then
    echo "WRONG: calls that the program must not make"
    wrong=1
fi
exit $wrong
