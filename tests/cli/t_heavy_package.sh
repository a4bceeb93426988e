#!/bin/sh
# What is installed works alone: the Debian package, unpacked elsewhere, runs the demo with its own parameters; packed twice
# it is the same bytes; a program of somebody else's builds by pkg-config alone against the installed library.
# VINEHAND_LONG=1: also two builds of the tree in two places give the same package (minutes), and lintian's remarks are those
# that DEVELOPERS.md states.
. "$(dirname -- "$0")/lib.sh"
: >"$work/out" >"$work/err"
build=${VINEHAND_BUILD:?}
for tool in cpack dpkg-deb dpkg-shlibdeps gzip; do
    command -v $tool >/dev/null || { echo "skipped: $tool is not installed (cmake, dpkg-dev)"; exit 77; }
done
[ -f "$build/pages/vinehand.1.gz" ] || { echo "skipped: not all is built (target vinehand_compressed)"; exit 77; }
demo=$VINEHAND_SOURCE/scenarios/two-bays

# pack BUILD FOLDER   the package of a finished build (as of Ninja, which builds nothing anew here)
pack() {
    cpack --config "$1/CPackConfig.cmake" -B "$2" -D CPACK_CMAKE_GENERATOR=Ninja >pack.log 2>&1 || tell "cpack: $(tail -5 pack.log)"
}

pack "$build" first
pack "$build" second
deb=$(ls first/*.deb)
good "one package" [ "$(ls first/*.deb | wc -l)" -eq 1 ]
good "packed twice: the same bytes" cmp "$deb" "second/$(basename "$deb")"
dpkg-deb -x "$deb" root
bad "the package knows where it was built" grep -rqaF -e "$VINEHAND_SOURCE" -e "$build" root
for file in bin/vinehand include/vinehand.h share/vinehand/params/sources.csv share/man/man1/vinehand.1.gz \
    share/man/man5/vinehand-scenario.5.gz share/doc/vinehand/copyright share/bash-completion/completions/vinehand; do
    good "$file is packed" [ -f "root/usr/$file" ]
done

# The installed program, moved to another place, run from a third: the same files as the built one writes.
mkdir elsewhere
(cd elsewhere && ../root/usr/bin/vinehand forecast "$demo" --today 2026-07-14 --members 1 --out ../installed >../out 2>../err)
good "the installed program forecasts: $(cat err)" [ -f installed/run.json ]
run forecast "$demo" --today 2026-07-14 --members 1 --out built
exits 0
good "as the built one does" diff -r installed built
(cd elsewhere && ../root/usr/bin/vinehand explain leaf.potential_area_m2 >../out 2>../err) || tell "explain: $(cat err)"
mv root/usr/share/vinehand/params root/usr/share/vinehand/gone
(cd elsewhere && ../root/usr/bin/vinehand check "$demo" --today 2026-07-14 >../out 2>../err)
good "without its parameters it says so" [ $? -ne 0 ]

# The library: what cmake --install puts into a folder is enough.
if command -v pkg-config >/dev/null && command -v "${CC:-gcc}" >/dev/null; then
    cmake --install "$build" --prefix "$work/prefix" >install.log 2>&1 || tell "cmake --install: $(tail -3 install.log)"
    PKG_CONFIG_PATH=$(dirname "$(find "$work/prefix" -name vinehand.pc)")
    export PKG_CONFIG_PATH
    # shellcheck disable=SC2046
    "${CC:-gcc}" -std=c17 -Wall -Wextra -Wpedantic -Werror "$VINEHAND_SOURCE/tests/cli/consumer.c" \
        $(pkg-config --cflags --libs vinehand) -o consumer 2>cc.err || tell "it does not build: $(head -5 cc.err)"
    ./consumer "$work/prefix/share/vinehand/params" "$demo/scenario.toml" >weeks 2>err || tell "it does not run: $(cat err)"
    sed 1d built/weeks.csv | awk -F, -v OFS=, '{ print $3, $5 }' >expected
    good "weeks that it found" [ "$(wc -l <weeks)" -ge 40 ]
    good "the same weeks as the program's" diff expected weeks
else
    echo "no pkg-config or compiler: the library was not tried"
fi

if [ -n "${VINEHAND_LONG:-}" ]; then
    for place in one another/place; do
        mkdir -p "$place" && (cd "$VINEHAND_SOURCE" && git ls-files -co --exclude-standard | tar cf - -T -) | tar xf - -C "$place"
        cmake -S "$place" -B "$place/made" -DCMAKE_INSTALL_PREFIX=/usr -DVINEHAND_TESTS=OFF >log 2>&1 &&
            cmake --build "$place/made" -j 2 >log 2>&1 || tell "$place: $(tail -5 log)"
        pack "$place/made" "$place/packed"
    done
    good "built in two places: the same package" cmp one/packed/*.deb another/place/packed/*.deb
    if command -v lintian >/dev/null; then
        lintian one/packed/*.deb 2>/dev/null | sed 's/^\(.: vinehand: [a-z-]*\).*/\1/' | sort -u >remarks
        good "lintian says what DEVELOPERS.md says: $(cat remarks)" [ -z "$(
            while read -r remark; do grep -qF "${remark##* }" "$VINEHAND_SOURCE/DEVELOPERS.md" || echo "$remark"; done <remarks)" ]
    fi
fi
finish
