#!/bin/sh
# learn looks back: what it would have said is made of what was known then. Log, outside weather and
# records after a day are made others, and no forecast from before that day moves by a bit.
. "$(dirname "$0")/lib.sh"

house=$work/house
mkdir "$house"
cat >"$house/scenario.toml" <<TOML
[house]
name = "Look back"
latitude_deg = 45
utc_offset_h = 0
[climate]
log = "log.csv"
outside = "outside.csv"
$(roughly 28 16 4 -4)
$(planting long cucumber-long 50 1.6 2026-05-01 2026-07-20)
[planting.pick]
every_d = 3
[records]
file = "records.csv"
TOML
# changed: from this day of the year on everything is another
make() {
    awk -v changed="$1" -v folder="$house" 'BEGIN {
        print "time,t_air_c,par_umol_m2_s" > (folder "/log.csv")
        print "date,tmin_c,tmax_c,radiation_mj_m2_d" > (folder "/outside.csv")
        print "date,planting,item,value,truss,of" > (folder "/records.csv")
        split("31 28 31 30 31 30 31", len, " ")
        for (m = 5; m <= 7; m++) for (d = 1; d <= len[m] && (m < 7 || d <= 12); d++) {
            date = sprintf("2026-%02d-%02d", m, d)
            off = date > changed
            for (h = 0; h < 24; h++)
                printf "%sT%02d:00,%.1f,%d\n", date, h, 19 + 6 * (h > 7 && h < 19) + d % 3 + 4 * off,
                    (h > 5 && h < 20) * (500 + 40 * (d % 4) - 200 * off) > (folder "/log.csv")
            printf "%s,%d,%d,%.1f\n", date, 10 + d % 4 + 5 * off, 21 + d % 5 + 5 * off,
                17 + d % 3 - 9 * off > (folder "/outside.csv")
            if (m > 5 && d % 3 == 0)
                printf "%s,long,picked_kg,%.1f,,\n", date, (30 + d % 5) * (off ? 3 : 1) \
                    > (folder "/records.csv")
            if (d % 7 == 0)
                printf "%s,long,leaves_made,%.1f,,5\n", date, (m - 5) * 29 + d + 8 + 3 * off \
                    > (folder "/records.csv")
        }
    }'
}
# forecasts that were made by Sunday 21 June: of weeks up to 25 + weeks ahead
before() {
    awk -F, -v OFS=, 'NR > 1 && substr($1, 7) - $2 <= 25 { print $1, $2, $3, $5, $6, $7, $8, $9, $10 }' "$1"
}
run_learn() {
    run learn "$house" --today 2026-07-12 --params "$VINEHAND_SOURCE/params" --members 20 \
        --threads 2 --out "$1"
    exits 0
}
cd "$work/in" || exit 1

make 2026-12-31
run_learn "$work/as-it-was"
says "HOW FAR OFF"
bad "all is weighed" grep -q "Left out" "$work/out" "$work/as-it-was/report.html"
says "two weeks ahead you may expect to be off by"
says "would be off by"
make 2026-06-21
run_learn "$work/another"
before "$work/as-it-was/hindcast.csv" >"$work/a"
before "$work/another/hindcast.csv" >"$work/b"
good "there are such forecasts" [ "$(wc -l <"$work/a")" -ge 6 ]
good "what came later does not tell" cmp -s "$work/a" "$work/b"
bad "later forecasts are others" cmp -s "$work/as-it-was/hindcast.csv" "$work/another/hindcast.csv"
good "the columns are those of the interface" [ "$(head -n 1 "$work/another/hindcast.csv")" = \
    week,weeks_ahead,planting,observed_kg,forecast_kg,forecast_kg_p10,forecast_kg_p50,forecast_kg_p90,naive_last_kg,naive_mean3_kg,crps_kg,crps_naive_kg ]

finish
