# lamps.awk - the lamps' light of each day (crop_work.csv, item lamp_light, mol m-2 d-1) as the log
# their controller would have kept: time,lamps_pct by hour. -v full: mol m-2 d-1 with all lamps on
# for -v hours h from midnight on (the hours of a day were not recorded).
BEGIN { FS = ","; OFS = ","; print "time,lamps_pct" }
$2 == "lamp_light" {
    for (h = 0; h < 24; h++)
        printf "%sT%02d:00,%.1f\n", $1, h, h < hours ? 100 * $3 / full : 0
}
