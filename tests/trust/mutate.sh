#!/bin/sh
# How much do the tests notice? One token of model/ is changed at a time, in a build with sanitizers, as CI has one: kept bytes and
# complaints are asked first, then the tests that run its line.
#     sh tests/trust/mutate.sh SEEN [COUNT [SEED [FIRST]]]     SEEN: the folder that coverage.sh left, of this same tree; -: kept bytes
#                                                              and complaints alone are asked
# COUNT 100, SEED 1; FIRST: go on with this one. By hand, hours on one core; the last result stands in tests/trust/README.md.
# The tree is copied, the copy built; nothing of it is changed.
. "$(dirname -- "$0")/lib.sh"
must_have python3 python3
must_have ninja ninja-build
seen=${1:?the folder that coverage.sh left, or -}
[ "$seen" = - ] || seen=$(CDPATH='' cd -- "$seen" && pwd -P) || exit 1
mkdir "$work/tree"
(cd "$top" && tar cf - --exclude=./build* --exclude=./.git .) | (cd "$work/tree" && tar xf -)
cmake -S "$work/tree" -B "$work/build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS_DEBUG="-O1 -g1" -DVINEHAND_SANITIZE=ON >/dev/null &&
    cmake --build "$work/build" -j "$(nproc)" >"$work/log" 2>&1 || { tail "$work/log"; exit 1; }
python3 -B "$here/mutate.py" "$work/tree" "$work/build" "$seen" "${2:-100}" "${3:-1}" "${4:-1}"
