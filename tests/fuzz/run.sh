#!/bin/sh
# Fuzzes every reader for FUZZ_SECONDS (default 10) each, from the kept seeds: sh tests/fuzz/run.sh [TARGET...]
# found.tar.gz holds what long runs found beyond the seeds, reduced to inputs that each reach another branch (-merge=1 -use_counters=0).
# Needs clang with its fuzzer runtime. A finding stops the run, prints the input and exits 1.
set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P)
top=$(CDPATH='' cd -- "$here/../.." && pwd -P)
seconds=${FUZZ_SECONDS:-10}
command -v clang >/dev/null || { echo "skipped: clang is not installed"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cat >"$work/probe.c" <<'C'
#include <stddef.h>
#include <stdint.h>
int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t n);
int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t n) { return n > 1 && bytes[0] == bytes[1] ? 0 : 0; }
C
clang -fsanitize=fuzzer "$work/probe.c" -o "$work/probe" 2>/dev/null ||
    { echo "skipped: clang has no fuzzer runtime (libclang-rt-14-dev)"; exit 77; }

flags="-std=c17 -D_POSIX_C_SOURCE=200809L -DVINEHAND_VERSION=\"fuzz\" -DVINEHAND_PARAMS=\"$top/params\" -g -O1 \
-ffp-contract=off -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all -I$top/model"
for step in base climate plant work market house ensemble learn choose; do flags="$flags -I$top/model/$step"; done

# Library objects once, with the same flags, so that the fuzzer sees its branches.
mkdir "$work/objects"
find "$top/model" -name '*.c' | sort >"$work/sources"
compile='for source; do clang $FLAGS -c "$source" -o "$OBJECTS/$(basename "$source" .c).o" || exit 255; done'
FLAGS=$flags OBJECTS=$work/objects xargs -n 8 -P 2 sh -c "$compile" sh <"$work/sources" || exit 1

bad=0
# The same objects tell whether clang's numbers are gcc's: every table of a run of the demo, to the last bit, from clang -O1
# with sanitizers and from the library that was built (in Release gcc -O3). tests/trust/compilers.sh does more, by hand.
archive=${VINEHAND_BUILD:-/nowhere}/libvinehand.a
if [ $# -eq 0 ] && [ -f "$archive" ] && command -v gcc >/dev/null; then
    demo=$top/scenarios/two-bays/scenario.toml
    libraries="-lcsv $(pkg-config --libs gsl) -lm"
    # shellcheck disable=SC2086
    gcc -std=c17 -I"$top/model" "$top/tests/trust/same_bits.c" "$archive" $libraries -fopenmp -fno-lto -o "$work/bits_gcc" &&
        clang -std=c17 -I"$top/model" -fsanitize=address,undefined "$top/tests/trust/same_bits.c" "$work"/objects/*.o \
            $libraries -o "$work/bits_clang" &&
        "$work/bits_gcc" "$top/params" "$demo" >"$work/gcc.bits" && "$work/bits_clang" "$top/params" "$demo" >"$work/clang.bits" &&
        [ "$(wc -l <"$work/gcc.bits")" -gt 1000 ] && diff "$work/gcc.bits" "$work/clang.bits" >"$work/bits.diff" &&
        echo "bits: $(wc -l <"$work/gcc.bits") rows, the same from gcc and clang" ||
        { echo "FAIL bits: gcc and clang differ"; head -4 "$work/bits.diff"; bad=1; }
fi

[ $# -gt 0 ] || set -- "$here"/fuzz_*.c
mkdir "$work/found"
tar -xzf "$here/found.tar.gz" -C "$work/found" || exit 1
for target; do
    name=$(basename "$target" .c)
    name=${name#fuzz_}
    # shellcheck disable=SC2086
    clang $flags -fsanitize=fuzzer "$here/fuzz_$name.c" "$work"/objects/*.o -lcsv $(pkg-config --libs gsl) -lm \
        -o "$work/fuzz_$name" || exit 1
    mkdir -p "$work/corpus_$name"
    seeds=
    [ -d "$here/seeds/$name" ] && seeds=$here/seeds/$name
    [ -d "$work/found/$name" ] && seeds="$seeds $work/found/$name"
    # shellcheck disable=SC2086
    if (cd "$work" && "./fuzz_$name" -max_total_time="$seconds" -max_len=4096 -timeout=5 -rss_limit_mb=2048 \
        -close_fd_mask=3 -print_final_stats=1 "corpus_$name" $seeds) >"$work/$name.log" 2>&1; then
        echo "$name: $(sed -n 's/^stat::number_of_executed_units: *//p' "$work/$name.log") inputs, no finding"
    else
        bad=1
        echo "FAIL $name"
        tail -40 "$work/$name.log"
        for found in "$work"/crash-* "$work"/leak-* "$work"/timeout-* "$work"/oom-*; do
            [ -f "$found" ] && { echo "input:"; od -c "$found" | head -40; }
        done
    fi
done
exit $bad
