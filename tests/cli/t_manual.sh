#!/bin/sh
# The manual pages and the completions: made while building from what the program itself reads by. They are well formed,
# and every option, command and key stands in them.
. "$(dirname -- "$0")/lib.sh"
pages=${VINEHAND_BUILD:?}/pages
[ -f "$pages/vinehand.1" ] || { echo "skipped: the pages are not built (target vinehand_made_pages)"; exit 77; }

run --help
cp "$work/out" help
options=$(grep -oE '^  --[a-z-]+' help | tr -d ' ')
commands=$(grep -oE '^  vinehand [a-z]+' help | awk '{ print $2 }' | sort -u)
good "options in the help" [ "$(echo "$options" | wc -l)" -ge 23 ]
good "commands in the help" [ "$(echo "$commands" | wc -l)" -ge 8 ]
for option in $options; do
    good "$option in vinehand(1)" grep -qE "^\.It Fl Fl ${option#--}( |$)" "$pages/vinehand.1"
    good "$option in bash" grep -qE -e "$option[ ')]" "$pages/vinehand"
    good "$option in zsh" grep -qF -e "'$option[" "$pages/_vinehand"
    good "$option in fish" grep -qE -e " -l ${option#--} " "$pages/vinehand.fish"
done
for word in $commands; do
    good "$word in vinehand(1)" grep -qE "^\.It Ic $word " "$pages/vinehand.1"
    good "$word in bash" grep -qE "$word( \||\))" "$pages/vinehand"
    good "$word in zsh" grep -qE "[ (]$word\\\\:" "$pages/_vinehand"
    good "$word in fish" grep -qF -e "-a $word " "$pages/vinehand.fish"
done
# Keys: as a file that uses every one of them has them.
grep -oE '^[a-z_0-9]+ *=' "$VINEHAND_SOURCE/tests/unit/every-key.toml" | tr -d '= ' | sort -u >keys
good "keys to look for" [ "$(wc -l <keys)" -ge 100 ]
missing=$(while read -r key; do
    grep -qE "^\.It Ic $key\$|or $key\b|, $key\b" "$pages/vinehand-scenario.5" || echo "$key"
done <keys)
# In tables whose names are the grower's own (columns, grades, tasks) any key may stand.
missing=$(echo "$missing" | while read -r key; do
    [ -z "$key" ] || "$VINEHAND" explain "$key" 2>/dev/null | grep -q '· key in' && echo "$key"
done)
good "in vinehand-scenario(5): $missing" [ -z "$missing" ]

# bash itself: what it offers.
if command -v bash >/dev/null; then
    cat >ask.bash <<EOF2
. "$pages/vinehand"
COMP_WORDS=("\$@"); COMP_CWORD=\$((\$# - 1))
_vinehand
echo "\${COMPREPLY[*]}"
EOF2
    offers() { # offers "WORDS" WORD...  what stands behind them
        want=$1
        shift
        got=$(bash ask.bash vinehand "$@")
        good "bash offers '$want' behind '$*', not '$got'" [ "$got" = "$want" ]
    }
    offers "forecast" fo
    offers "--save" learn --s
    offers "" forecast --sa
    offers "metric us" week --units ""
    offers "--date" note --da
    offers "glass" start --cover g
    offers "" forecast --members ""
    mkdir hut && touch kept.csv kit.csv
    offers "hut" --out h
    offers "hut" forecast hu
    offers "kept.csv" learn --save kep
else
    echo "bash is not installed: not tried"
fi
if command -v zsh >/dev/null; then good "zsh reads it" zsh -n "$pages/_vinehand"; fi
if command -v fish >/dev/null; then good "fish reads it" fish -n "$pages/vinehand.fish"; fi

if command -v mandoc >/dev/null; then
    mandoc -T lint -W warning "$pages/vinehand.1" "$pages/vinehand-scenario.5" >lint || tell "mandoc: $(head -5 lint)"
    printf '.Dd x\n.Dt X 1\n.Os\n.Sh NAME\n.Xq\n' >spoiled.1
    bad "mandoc finds nothing in a spoiled page" mandoc -T lint -W warning spoiled.1 >/dev/null
else
    echo "mandoc is not installed: the pages were not checked by it"
fi
finish
