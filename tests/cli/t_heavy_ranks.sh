#!/bin/sh
# houses over 1, 2 and 4 ranks: the same bytes as on one machine, the same exit, resumed by any number of ranks.
. "$(dirname -- "$0")/lib.sh"

ranked="$VINEHAND_BUILD/tests/vinehand_ranks"
if ! command -v mpirun >/dev/null || [ ! -x "$ranked" ]; then
    echo "skipped: built without MPI (libopenmpi-dev, openmpi-bin), so nothing is run over ranks"
    exit 77
fi
# LeakSanitizer finds what the MPI library keeps to its end.
export ASAN_OPTIONS="abort_on_error=1:detect_leaks=0" OMPI_MCA_btl_base_warn_component_unused=0
at="--today 2026-05-20 --members 3 --params $VINEHAND_SOURCE/params"
for i in 1 2 3 4 5; do
    mkdir -p "list/h$i"
    short_season "Bay $i" >"list/h$i/scenario.toml"
done
sed -i 's/plants = 48/plants = many/' list/h2/scenario.toml

# over N ARG...: the program over N ranks
over() {
    n=$1
    shift
    last="over $n ranks: $*"
    mpirun --allow-run-as-root --oversubscribe --bind-to none -np "$n" "$ranked" "$@" >"$work/out" 2>"$work/err" </dev/null
    rc=$?
    look_for_faults
}

# shellcheck disable=SC2086
{
run houses list $at --out one --threads 1; exits 2
for n in 1 2 4; do
    over $n houses list $at --out "r$n" --threads 1; exits 2
    good "$n ranks as one machine" diff -r one "r$n"
    says "4 computed, 1 wrong"; complains "list/h2/scenario.toml:17:10: "
    good "said once" [ "$(grep -c 'scenario.toml:17:10' "$work/err")" -eq 1 ]
done
# Half of it is there, then more ranks than houses take it up.
rm -rf r2/h4 r2/h5 r2/houses.csv
over 7 houses list $at --out r2 --threads 1; exits 2; says "2 computed, 2 there already"
good "resumed: the same bytes" diff -r one r2
over 2 houses nowhere $at --out o; exits 2; complains "nowhere: there is no such file"
good "said by one rank" [ "$(grep -c 'nowhere: there is' "$work/err")" -eq 1 ]
over 2 houses list $at --out list/h1/scenario.toml; exits 2; complains "is not a folder"
over 3 check list/h1 $at; exits 0
}
finish
