# short_season.sh - sourced: short_season NAME prints a scenario of a month, one planting, for tests that run it often.
short_season() {
    cat <<EOF
[house]
name = "$1"
latitude_deg = 44.5
utc_offset_h = -5
cover = "film-double"
[climate]
heat_c = 17.0
[climate.roughly]
warmest_high_c = 28
warmest_low_c = 16
coldest_high_c = -2
coldest_low_c = -12
sky = "mixed"
[[planting]]
name = "slicers"
crop = "tomato-large"
plants = 48
plants_per_m2 = 2.5
pull_out = 2026-06-03
[planting.standing]
on = 2026-05-05
flowering_truss = 9
picking_truss = 2
stem_cm = 210
leaves = 18
fruits_on_trusses = [1, 3, 4, 4, 3, 3, 3]
[market]
days = ["sat"]
EOF
}
