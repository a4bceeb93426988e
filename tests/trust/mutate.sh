#!/bin/sh
# How much do the tests notice? One token of model/ is changed at a time: sh tests/trust/mutate.sh [COUNT [SEED [BUILD]]]
# COUNT 100, SEED 1; BUILD: a finished build with its tests, made here where none is named. By hand, an hour or so; the last
# result stands in tests/trust/README.md.
. "$(dirname -- "$0")/lib.sh"
must_have python3 python3
build=${3:-$work/build}
if [ ! -f "$build/libvinehand.a" ]; then
    cmake -S "$top" -B "$build" -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS=-O1 >/dev/null &&
        cmake --build "$build" -j "$(nproc)" >"$work/log" 2>&1 || { tail "$work/log"; exit 1; }
fi
exec python3 -B "$here/mutate.py" "$top" "$build" "${1:-100}" "${2:-1}"
