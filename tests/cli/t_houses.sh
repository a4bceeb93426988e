#!/bin/sh
# houses: many scenarios, one result folder each; a broken one fails alone; what is there from the same inputs is left
# alone; the same bytes for any number of threads. (Over ranks: t_heavy_ranks.sh. Killed, out of memory: tests/faults.)
. "$(dirname -- "$0")/lib.sh"

at="--today 2026-05-20 --members 1 --params $VINEHAND_SOURCE/params"
of() { stat -c %i "out/$1"; }
rows() { awk -F, -v name="$1" '$1 == name' out/houses.csv; }

for i in 1 2 3; do
    mkdir -p "list/h$i"
    short_season "Bay $i" >"list/h$i/scenario.toml"
done
short_season "A file" >list/single.toml
sed -i 's/plants = 48/plants = many/' list/h2/scenario.toml
mkdir list/empty
echo "not a house" >list/notes.txt

# shellcheck disable=SC2086  # $at is a list of words
{
run houses list $at --out out; exits 2
complains "list/h2/scenario.toml:17:10: "
says "4 houses"; says "3 computed, 1 wrong"
good "one line is complained of" [ "$(wc -l <"$work/err")" -eq 1 ]
good "the wrong one has no folder" [ ! -e out/h2 ]
good "houses.csv has a row for each planting" [ "$(rows h1 | wc -l)" -eq 1 ]
good "and one for what failed, with its line" [ -n "$(rows h2 | grep 'wrong: list/h2/scenario.toml:17:10')" ]
good "a file is a house by its name" [ -d out/single ]
good "nothing hidden is left" [ -z "$(find . -name '.vh-*')" ]

# The same season as by forecast: everything but what names the run.
run forecast list/h1 $at --out alone --quiet; exits 0
for f in alone/*; do
    case $f in */run.json | */datapackage.json) continue ;; esac
    good "$f as by forecast" cmp -s "$f" "out/h1/${f#alone/}"
done
season=$(awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "kg_m2") k = i; next } { sum += $k } END { printf "%.4g", sum }' \
    alone/weeks.csv)
good "its mass is that of the weeks, $season" [ "$(rows h1 | cut -d, -f3 | awk '{ printf "%.4g", $1 }')" = "$season" ]

# Again: nothing is done twice, and nothing changes.
h1=$(of h1) h3=$(of h3) csv=$(of houses.csv)
run houses list $at --out out; exits 2; says "3 there already"
good "what is there is left alone" [ "$h1$h3$csv" = "$(of h1)$(of h3)$(of houses.csv)" ]

# Mended: only that one is computed.
short_season "Bay 2" >list/h2/scenario.toml
run houses list $at --out out; exits 0; quiet_err; says "1 computed, 3 there already"
good "the others are left alone" [ "$h1$h3" = "$(of h1)$(of h3)" ]
good "the mended one stands in houses.csv" [ -n "$(rows h2 | grep ',done$')" ]

# A set with a file missing, another scenario, another day: computed anew.
rm out/h1/weeks.csv
sed -i 's/plants = 48/plants = 49/' list/h3/scenario.toml
run houses list $at --out out; exits 0; says "2 computed, 2 there already"
good "the file is back" [ -s out/h1/weeks.csv ]
}
# shellcheck disable=SC2086
{
run houses list --today 2026-05-21 --members 1 --params "$VINEHAND_SOURCE/params" --out out; exits 0; says "4 computed"
run houses list $at --out out --quiet; exits 0; quiet_out
echo mine >out/h1/mine.txt
cp -r out before
sed -i 's/plants = 48/plants = 50/' list/h1/scenario.toml
run houses list $at --out out; exits 0
good "a file of hers stays" [ "$(cat out/h1/mine.txt)" = mine ]

# Any number of threads: the same bytes.
for threads in 1 5; do
    run houses list $at --out "t$threads" --threads $threads --quiet; exits 0
done
good "5 threads as 1" diff -r t1 t5
}
# shellcheck disable=SC2086
{
# A list file: names start where it lies; notes, blank lines, CRLF and a byte order mark are no trouble.
mkdir -p far
printf '\357\273\277# my houses\r\n\r\n  ../list/h1\r\n../list/single.toml\r\n../list/h3/scenario.toml\r\n../list/gone\r\n' >far/all.txt
run houses far/all.txt $at; exits 2; complains "far/all.txt:6: there is no far/../list/gone; "
good "results lie beside the list" [ -d far/out/h1 ]
good "as from the folder" cmp -s far/out/h1/picks.csv t1/h1/picks.csv
# the results of a house need a name of their own: each of ours is refused, and what only begins or ends like it is not
for name in . .. houses.csv run.json datapackage.json .vh-mine; do
    mkdir -p "far/names/$name" && cp list/h1/scenario.toml "far/names/$name/" && echo "names/$name" >far/names.txt
    run houses far/names.txt $at --out names; exits 2; complains "far/names.txt:1: far/names/$name gives its results no name; "
done
long=$(printf '%0255d' 0)
echo "names/$long" >far/names.txt; run houses far/names.txt $at --out names; exits 2; complains "there is no far/names/0000"
echo "names/${long}0" >far/names.txt; run houses far/names.txt $at --out names; exits 2; complains "gives its results no name; "
for name in houses.csv2 my-run.json .vhs; do cp -r list/h1 "far/names/$name"; done
printf 'names/%s\n' houses.csv2 my-run.json .vhs >far/names.txt
run houses far/names.txt $at --out names; exits 0; says "3 computed"
cp -r list/h1 far/h1; printf '../list/h1\nh1\n' >far/twice.txt
printf '../list/h1\n../list/h1/scenario.toml\n' >far/same.txt
run houses far/same.txt $at --out o; exits 2; complains "far/same.txt:2: "; complains "stands twice; take one away"
mkdir kept && cp -r t1/. kept && rm kept/houses.csv && mkdir kept/houses.csv
run houses list $at --out kept; exits 2; complains "kept/houses.csv is a folder, and a result file is called so; move it away"
mkdir -p slips/s1
{ cat list/h1/scenario.toml; printf '\n[records]\nfile = "book.csv"\n'; } >slips/s1/scenario.toml
printf 'date,planting,item,value\n2026-05-20,nobody,picked_kg,2\n' >slips/s1/book.csv
run houses slips $at --out o; exits 2; complains "slips/s1/book.csv:2: no planting is called"
rm -rf o
run houses far/twice.txt $at --out o; exits 2; complains "far/twice.txt:2: the results of"; complains "both be called h1"
printf '\n# none\n' >far/none.txt
run houses far/none.txt $at --out o; exits 2; complains "far/none.txt: there is no house in it"
printf 'h1\n\001\n' >far/odd.txt
run houses far/odd.txt $at --out o; exits 2; complains "far/odd.txt:2: "
printf '..\n' >far/up.txt
run houses far/up.txt $at --out o; exits 2; complains "far/up.txt:1: "; complains "gives its results no name"
run houses list/h1 $at --out o; exits 2; complains "list/h1: this is the folder of one house"
run houses nowhere $at --out o; exits 2; complains "nowhere: there is no such file"
run houses; exits 2; complains "houses wants a list"
run houses - $at; exits 2; complains "houses wants one folder"
run houses list list $at; exits 2; complains "one too many"
good "a refused list makes no folder" [ ! -e o ]

# Where results may not go.
mkdir hers && echo mine >hers/notes.txt
run houses list $at --out hers; exits 2; complains "hers is not empty and holds no results of vinehand houses"
run houses list $at --out alone; exits 2; complains "alone holds the results of one house"
run houses list $at --out list/notes.txt; exits 2; complains "list/notes.txt is not a folder"
run houses list $at --out no/where; exits 2; complains "there is no folder to put no/where into"
run forecast list/h1 $at --out t1; exits 2; complains "t1 holds the results of many houses"
}
# A house whose folder is somebody's fails alone.
rm -rf t5/h1 && mkdir t5/h1 && echo mine >t5/h1/notes.txt
# shellcheck disable=SC2086
run houses list $at --out t5; exits 2; complains "h1: t5/h1 is not empty"; says "3 there already"
good "nothing of it was touched" [ "$(cat t5/h1/notes.txt)" = mine ]
finish
