# packages.sh - sourced by first-run.sh and tests/run.sh: the Debian packages a script needs.
#
#     need_packages NAME...    installs those that are missing; returns 1, having said which, if it may not

package_is_there() {
    dpkg-query -W -f='${Status}' "$1" 2>/dev/null | grep -q '^install ok installed$'
}

need_packages() {
    missing=
    if ! command -v dpkg-query >/dev/null 2>&1; then
        echo "This is no Debian system, so nothing is installed. Needed are what Debian calls: $*" >&2
        return 0
    fi
    for package in "$@"; do
        package_is_there "$package" || missing="$missing $package"
    done
    [ -z "$missing" ] && return 0

    echo "Missing packages:$missing" >&2
    if [ "$(id -u)" -eq 0 ]; then
        as_root=
    elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
        as_root="sudo -n"
    elif command -v sudo >/dev/null 2>&1 && [ -t 0 ]; then
        as_root=sudo
    else
        echo "They cannot be installed from here (neither root nor sudo). As root:" >&2
        echo "    apt-get install --no-install-recommends$missing" >&2
        return 1
    fi
    # shellcheck disable=SC2086  # lists of words on purpose
    if $as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q >&2 &&
       $as_root env DEBIAN_FRONTEND=noninteractive \
           apt-get install -q -y --no-install-recommends $missing >&2; then
        return 0
    fi
    echo "The packages could not be installed. As root:" >&2
    echo "    apt-get install --no-install-recommends$missing" >&2
    return 1
}

# build_in FOLDER CMAKE-OPTION...   configures and builds the tree at $root in $root/FOLDER
build_in() {
    build="$root/$1"
    shift
    # A tree that was moved or copied carries a build of its old place.
    if [ -f "$build/CMakeCache.txt" ] &&
       ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$build/CMakeCache.txt"; then
        echo "$build was made for another place; it is made anew." >&2
        rm -rf "$build"
    fi
    set -- -S "$root" -B "$build" "$@"
    if [ ! -f "$build/CMakeCache.txt" ] && command -v ninja >/dev/null 2>&1; then
        set -- -G Ninja "$@"
    fi
    log=$(mktemp) || return 1
    if cmake "$@" >"$log" 2>&1 &&
       cmake --build "$build" -j "$(nproc 2>/dev/null || echo 2)" >>"$log" 2>&1; then
        rm -f "$log"
        return 0
    fi
    cat "$log" >&2
    rm -f "$log"
    return 1
}
