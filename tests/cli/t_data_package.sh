#!/bin/sh
# The CSV files are what datapackage.json and run.json say they are.
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
if ! command -v python3 >/dev/null 2>&1; then
    echo "python3 is missing: skipped"
    exit 77
fi
. "$here/lib.sh"
small_scenario >s.toml
run forecast s.toml --members 12 --today 2026-05-14 --out out; exits 0
python3 -B "$here/data_package.py" out "$here/data-package.schema.json" || tell "see above"
# The check sees what it is for.
for spoil in 's/"unit"/"units"/' 's/sha256:./sha256:g/' 's/"date"/"datum"/'; do
    rm -rf spoiled && cp -r out spoiled && sed -i "$spoil" spoiled/datapackage.json
    bad "a spoiled package passes ($spoil)" sh -c "python3 -B '$here/data_package.py' spoiled '$here/data-package.schema.json' >/dev/null"
done
rm -rf spoiled && cp -r out spoiled && sed -i '2s/^/x/' spoiled/picks.csv
bad "a spoiled CSV passes" sh -c "python3 -B '$here/data_package.py' spoiled '$here/data-package.schema.json' >/dev/null"
finish
