# records.awk - a measured season as a grower's records file (interface: date,planting,item,value,
# truss,of). Reads, each announced by reading=WHAT: scenario.toml, harvest.csv, crop_work.csv. Picks
# are of the whole planting, all else is the mean of the stems looked at. `only=picks` leaves the
# picked kilograms alone. No number of stems is given where the season does not state it.
BEGIN { FS = ","; OFS = "," }
function column(name,    i) {
    for (i = 1; i <= NF; i++) if ($i == name) return i
    print "records.awk: no column " name > "/dev/stderr"
    failed = 1
    exit 1
}
function row(date, item, value) { print date, planting, item, value, "", "" }

reading == "scenario" {
    split($0, part, "=")
    key = part[1]; gsub(/[ \t]/, "", key)
    value = part[2]; sub(/#.*/, "", value); gsub(/[ \t"]/, "", value)
    if ($0 ~ /^\[/) table = $0
    if (table == "[[planting]]" && key == "name") planting = value
    if (table == "[[planting]]" && key == "plants") plants = value
    if (table == "[[planting]]" && key == "plants_per_m2") per_m2 = value
    next
}
FNR == 1 && reading == "harvest" {
    print "date,planting,item,value,truss,of"
    c_date = column("date"); c_kg = column("kg_m2"); c_n = column("fruits_m2")
    next
}
FNR == 1 { next }
reading == "harvest" {
    row($c_date, "picked_kg", sprintf("%.2f", $c_kg * plants / per_m2))
    if (only != "picks" && $c_n != "")
        row($c_date, "picked_fruits", sprintf("%.0f", $c_n * plants / per_m2))
    next
}
only == "picks" { next }
$2 == "trusses_flowering_cumulative" { row($1, "flowering_truss", $3) }
$2 == "leaves_cumulative" { row($1, "leaves_made", $3) }
$2 == "fruit_growth_period" { row($1, "flower_to_pick_d", $3) }
$2 == "stem_length_cumulative" {
    # the first count is a length of unknown beginning; once topped nothing is measured
    if (length_before != "" && $3 > length_before)
        row($1, "stem_growth_cm", sprintf("%.1f", $3 - length_before))
    length_before = $3
}
END { if (failed) exit 1 }
