#!/bin/sh
# Benchmarks, one command: sh tests/bench/run.sh [BUILD_FOLDER] [--json FILE] [--only WORD]. How to read them: README.md.
# Exit 1: a row takes more instructions than it did in the last release (release.json).
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$top/build
case ${1:-} in "" | --*) ;; *) build=$1 && shift ;; esac
log=$(mktemp)
trap 'rm -f "$log"' EXIT

cmake --build "$build" --target vinehand_cli bench_season bench_bare >"$log" 2>&1 || { cat "$log"; exit 1; }
tools=$(dirname "$(find "$build" -name bench_season -type f | head -n 1)")
python3 "$top/tests/bench/bench.py" "$build/vinehand" "$tools" "$top" "$@"
