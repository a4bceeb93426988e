#!/bin/sh
# A house twice as large, with twice the orders and wishes, is two houses: it picks, sells and promises twice as much in every
# future, and each plant is what it was. In money of a third the worth every price is threefold, and nothing else. What a count
# on stems tells does not hang on their number. (Laws; no source.)
. "$VINEHAND_SOURCE/tests/cli/lib.sh"
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 77; }
demo=$VINEHAND_SOURCE/scenarios/two-bays
is_scaled() { python3 -B "$VINEHAND_SOURCE/tests/laws/scaled.py" "$@" >"$work/told"; }
scaled() { is_scaled "$@" || { cat "$work/told"; false; }; }
go() { # FOLDER: what is forecast and compared of it
    run forecast "$1" --no-records --today 2026-07-14 --members 6 --quiet --out "out-$1"; exits 0
    run compare "$1" --no-records --today 2026-07-14 --members 3 --quiet --out "compared-$1"; exits 0
}
# multiply FOLDER FACTOR KEYS: the demo with the numbers of these keys (a pattern of table.key) so many times as large
multiply() {
    cp -r "$demo" "$1"
    awk -v factor="$2" -v keys="^($3)$" '/^\[/ { table = $0; gsub(/[][]| *#.*/, "", table) }
        (table "." $1) ~ keys { at = index($0, "="); head = substr($0, 1, at); rest = substr($0, at + 1); sub(/ *#.*/, "", rest)
            while (match(rest, /[0-9.]+/)) { head = head substr(rest, 1, RSTART - 1) factor * substr(rest, RSTART, RLENGTH); rest = substr(rest, RSTART + RLENGTH) }
            $0 = head rest; n++ }
        { print } END { if (n < 9) exit 1 }' "$demo/scenario.toml" >"$1/scenario.toml" || tell "few keys of the demo are: $3"
}
cp -r "$demo" plain
go plain

multiply twice 2 'planting.plants|market.price.(sells|wants)_(lb|fruits)|market.order.(lb|fruits)|house.(row_length_m|floor_area_m2|heat_loss_w_k)'
go twice
amounts='(climate_days|gaps|market_days|picks|said|said_fruits|weeks)[.](heating_kwh|short_kg|short_fruits|plants|kg|fruits|promise_kg|promise_fruits|orders_kg|orders_fruits|beyond_sales_kg|lost_in_store_kg|income|unmarketable_kg|market_kg|cumulative_kg)'
good "twice the plants, twice the fruit" scaled out-plain out-twice 2 "$amounts"
good "and in every choice" scaled compared-plain compared-twice 2 "$amounts|choices[.](market_kg|income)" \
    'choices[.](hours|supplies_cost|margin|better_chance|flips_if)' # a path is walked once, be it long or short; clips are whole
bad "one in ten thousand more is seen" is_scaled out-plain out-twice 2.0002 "$amounts"

multiply thrice 3 'market.price.per_(lb|fruit)|labour.per_h|stock.cost.[a-z_]+'
go thrice
good "threefold prices, threefold takings" scaled out-plain out-thrice 3 'market_days[.]income'
good "and margins" scaled compared-plain compared-thrice 3 'market_days[.]income|choices[.](income|margin|supplies_cost)' 'choices.flips_if'

# Counts on a stem tell the same of a single plant as of a row: what is learned, what is expected and how much a count is worth.
for s in many few; do
    cp -r "$demo" $s
    grep -E '^date|flowering_truss|stem_cm' "$demo/records.csv" | cut -d, -f1-5 | sed '1s/$/,of/; 1!s/$/,1/' >$s/records.csv
    [ $s = many ] || sed -i -E 's/^plants = (48|40|24)/plants = 1/' $s/scenario.toml
    run learn $s --today 2026-07-14 --members 30 --quiet --out "learned-$s"; exits 0
    cut -d, -f1-5,11 "learned-$s/to_measure.csv" | grep -v unmarketable_kg >"worth-$s" # kilograms are of the whole planting
done
good "factors are learned" [ "$(wc -l <learned-many/learned.csv)" -gt 4 ]
good "and as much is worth a count" [ "$(wc -l <worth-many)" -gt 6 ]
good "the same is learned" cmp -s learned-many/learned.csv learned-few/learned.csv
good "the same is worth a count" cmp -s worth-many worth-few
finish
