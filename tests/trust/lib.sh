# lib.sh - sourced by the scripts here: the tree compiled without CMake, with any compiler and flags.
#
#     build_program PROGRAM COMPILER FLAG...   the command-line program, from every source
#     build_library FOLDER COMPILER FLAG...    its object files, the library's and the program's but for main.c
#     $top, $work                              the tree; an own folder that goes at the end

set -u
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd -P)
top=$(CDPATH='' cd -- "$here/../.." && pwd -P)
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 1' INT TERM

must_have() { # must_have COMMAND PACKAGE
    command -v "$1" >/dev/null || { echo "skipped: $1 is not installed ($2)"; exit 77; }
}

includes="-I$top/model -I$top/cli/commands -I$top/cli/text -I$top/cli/write -I$top/cli/ranks"
for step in base climate plant work market house ensemble learn choose; do includes="$includes -I$top/model/$step"; done
# As CMakeLists.txt has them: what numbers depend on.
numbers="-std=c17 -D_POSIX_C_SOURCE=200809L -DVINEHAND_VERSION=\"0.1.0\" -ffp-contract=off -fno-fast-math -fno-trapping-math"
libraries="-lcsv $(pkg-config --libs gsl) -lm"

build_library() {
    folder=$1
    compiler=$2
    shift 2
    mkdir -p "$folder" || return 1
    find "$top/model" "$top/cli/commands" "$top/cli/text" "$top/cli/write" -name '*.c' | sort >"$folder/sources"
    echo "$top/cli/ranks/ranks_alone.c" >>"$folder/sources"
    compile='for source; do $COMPILE -c "$source" -o "$OBJECTS/$(basename "$source" .c).o" || exit 255; done'
    COMPILE="$compiler $numbers $includes $*" OBJECTS=$folder \
        xargs -n 12 -P "$(nproc 2>/dev/null || echo 2)" sh -c "$compile" sh <"$folder/sources"
}

build_program() {
    program=$1
    objects=$1.objects
    compiler=$2
    shift 2
    build_library "$objects" "$compiler" "$@" || return 1
    # shellcheck disable=SC2086
    $compiler $numbers $includes "$@" "$top/cli/main.c" "$objects"/*.o $libraries -o "$program"
    [ -e "$work/params" ] || ln -s "$top/params" "$work/params" # where a program in $work looks
}
