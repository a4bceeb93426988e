#!/bin/sh
# Races between threads: the program under clang's thread sanitizer, on the demo with four threads; a planted race is found.
#     sh tests/trust/threads.sh          some minutes; needs clang, libclang-rt-14-dev and libomp-14-dev
# libomp's own tool, archer, tells the sanitizer where OpenMP waits; without it correct code is called wrong.
. "$(dirname -- "$0")/lib.sh"
must_have clang clang
omp="-fopenmp -fsanitize=thread -g1 -O1 -DNDEBUG -w"
archer=$(find /usr/lib/llvm-* -name 'libarcher.so' 2>/dev/null | head -1)
[ -n "$archer" ] || { echo "skipped: libarcher.so is not installed (libomp-14-dev)"; exit 77; }
export OMP_TOOL_LIBRARIES="$archer" OMP_NUM_THREADS=4 OMP_DYNAMIC=false
export TSAN_OPTIONS="ignore_noninstrumented_modules=1 exitcode=66 halt_on_error=0"

cat >"$work/race.c" <<'C'
#include <stdio.h>
int main(void)
{
    double sum = 0.0, slot[64];
#pragma omp parallel for
    for (int i = 0; i < 64; i++) {
        slot[i] = i;
#ifdef RACE
        sum += slot[i];
#endif
    }
    for (int i = 0; i < 64; i++)
        sum += slot[i];
    printf("%g\n", sum);
    return 0;
}
C
# shellcheck disable=SC2086
clang $omp "$work/race.c" -o "$work/good" && clang $omp -DRACE "$work/race.c" -o "$work/race" ||
    { echo "skipped: clang cannot build for its thread sanitizer (libclang-rt-14-dev, libomp-14-dev)"; exit 77; }
"$work/good" >/dev/null 2>&1 || { echo "WRONG: correct code is called a race"; exit 1; }
if "$work/race" >/dev/null 2>&1; then echo "WRONG: a planted race is not found"; exit 1; fi

# shellcheck disable=SC2086
build_program "$work/vinehand" clang $omp || exit 1
demo=$top/scenarios/two-bays
bad=0
for task in "forecast --members 24" "week --members 24" "learn --members 40" "compare --members 16"; do
    # shellcheck disable=SC2086
    "$work/vinehand" $task "$demo" --today 2026-07-14 --threads 4 --out "$work/out" >"$work/printed" 2>"$work/said"
    rc=$?
    races=$(grep -c 'WARNING: ThreadSanitizer' "$work/said")
    echo "$task: exit $rc, $races warnings"
    if [ $rc -ne 0 ] || [ "$races" -gt 0 ]; then
        grep -A25 'WARNING: ThreadSanitizer' "$work/said" | head -60
        tail -2 "$work/said"
        bad=1
    fi
done
exit $bad
