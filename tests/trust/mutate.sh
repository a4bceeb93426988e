#!/bin/sh
# How much do the tests notice? One token of model/ is changed at a time: kept bytes and complaints are asked first, then the tests
# that run its line, then kept bytes, complaints and where memory runs out in a build with sanitizers, as CI has one.
#     sh tests/trust/mutate.sh SEEN [COUNT [SEED [FIRST]]]     SEEN: the folder that coverage.sh left, of this same tree; -: all tests
#                                                              are asked, the shortest first
# COUNT 100, SEED 1; FIRST: go on with this one. MUTATE_QUICK=1: without sanitizers. By hand, an hour on one core; the last result stands
# in tests/trust/README.md. The tree is copied, the copy built; nothing of it is changed.
. "$(dirname -- "$0")/lib.sh"
must_have python3 python3
must_have ninja ninja-build
seen=${1:?the folder that coverage.sh left, or -}
[ "$seen" = - ] || seen=$(CDPATH='' cd -- "$seen" && pwd -P) || exit 1
mkdir "$work/tree"
(cd "$top" && tar cf - --exclude=./build* --exclude=./.git .) | (cd "$work/tree" && tar xf -)
# A shared library, so that a change is one file compiled and one link.
# shellcheck disable=SC2016
sed -i 's/add_library(vinehand STATIC/add_library(vinehand ${VH_KIND}/; /INTERPROCEDURAL/d' "$work/tree/CMakeLists.txt"
configure() { # configure FOLDER FLAGS OPTION...
    folder=$1
    flags=$2
    shift 2
    cmake -S "$work/tree" -B "$work/$folder" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS_DEBUG="$flags" "$@" >"$work/log" 2>&1 ||
        { tail "$work/log"; exit 1; }
}
configure quick -O1 -DVH_KIND=SHARED
cmake --build "$work/quick" -j "$(nproc)" >"$work/log" 2>&1 || { tail "$work/log"; exit 1; }
sanitized=-
if [ -z "${MUTATE_QUICK:-}" ]; then
    sanitized=$work/sanitized # of it mutate.py builds what it asks
    configure sanitized "-O1 -g1" -DVH_KIND=STATIC -DVINEHAND_SANITIZE=ON
fi
python3 -B "$here/mutate.py" "$work/tree" "$work/quick" "$sanitized" "$seen" "${2:-100}" "${3:-1}" "${4:-1}"
