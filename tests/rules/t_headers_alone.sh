#!/bin/sh
# Every header compiles alone, the public one also as C++ where a C++ compiler is at hand.
set -u
cd "${VINEHAND_SOURCE:?}" || exit 1
wrong=0
folders="-Imodel -Icli"
for folder in model/* cli/*; do
    [ -d "$folder" ] && folders="$folders -I$folder"
done
for header in $(find model cli -name '*.h' | sort); do
    # shellcheck disable=SC2086  # a list of folders
    ${CC:-cc} -std=c17 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Werror -fsyntax-only -x c $folders - <<EOF || wrong=1
#include "$(basename "$header")"
typedef int vh_not_an_empty_file;
EOF
done
for cxx in g++ clang++; do
    command -v $cxx >/dev/null 2>&1 || continue
    printf '#include "vinehand.h"\nint main() { return 0; }\n' |
        $cxx -Wall -Wextra -Werror -fsyntax-only -x c++ -Imodel - || wrong=1
    break
done
exit $wrong
