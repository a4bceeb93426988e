#!/bin/sh
# The same bytes whatever the machine's language, its time zone, the path, a link in it; and for many plantings.
. "$(dirname -- "$0")/lib.sh"

at="--today 2026-05-20 --members 3 --threads 1 --params $VINEHAND_SOURCE/params"
short_season "One bay" >scenario.toml
# shellcheck disable=SC2086  # $at is a list of words
{
run forecast $at --out plain; exits 0

# A language with decimal commas: made here where the system has none.
if command -v localedef >/dev/null && localedef -i de_DE -f UTF-8 "$work/de_DE.UTF-8" 2>/dev/null; then
    LOCPATH=$work
    export LOCPATH
fi
for zone in Asia/Kathmandu America/St_Johns 'XXX25' ''; do
    LC_ALL=de_DE.UTF-8 TZ=$zone
    export LC_ALL TZ
    run forecast $at --out other; exits 0
    good "zone '$zone' changes nothing" diff -r plain other
done
unset TZ LOCPATH
LC_ALL=C

# A path with blanks and letters beyond ASCII, for the scenario and for its results; a folder behind a link.
dir="Gew$(printf '\303\244')chs haus $(printf '\346\270\251\345\256\244')"
mkdir -p "$dir/in it" real
cp scenario.toml "$dir/in it/"
run forecast "$dir/in it" $at --out "$dir/r e s"; exits 0
good "a path with blanks and letters beyond ASCII" diff -r plain "$dir/r e s"
run houses "$dir" $at --out "$dir/many h"; exits 0
good "the same house among many" cmp plain/picks.csv "$dir/many h/in it/picks.csv"
ln -s real linked
run forecast $at --out linked; exits 0
run forecast $at --out linked/; exits 0
good "into a folder behind a link" diff -r plain real
good "the link stays a link" [ -h linked ]
ln -s "$dir" way
run forecast "way/in it" $at --out way/again; exits 0
good "through a link" diff -r plain "$dir/again"
ln -s real house_link
rm -rf real && mkdir real
run houses "$dir" $at --out house_link; exits 0
good "houses behind a link" cmp plain/picks.csv "real/in it/picks.csv"
good "nothing hidden is left" [ -z "$(find . -name '.vh-*')" ]
}
finish
