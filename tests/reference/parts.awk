# parts.awk - the parts of one planting's season, a line each: ID/part TAB value. See t_parts.sh.
# Means are of the full crop: from `warm_up` days after set-out to 30 days before the end. Set with
# -v: id, planting, factor (light at the crop over that recorded), extinction, floor (light it sends back), area (full leaf, m2),
# seedling (m2 g-1), per_truss (leaves), heads, added (1: heads change), warm_up.
BEGIN { edge = 30 }
/^reading=/ { next }
FNR == 1 { split("", at); for (i = 1; i <= NF; i++) at[$i] = i; next }
reading == "climate" { mol[$1] = $at["dli_mol_m2_d"]; ppm[$1] = $at["co2_ppm"]; next }
$at["planting"] != planting { next }
reading == "weeks" && $at["kg_per_plant"] > 0 { stems = heads * $at["kg_m2"] / $at["kg_per_plant"] }
reading == "stem" {
    n++
    date[n] = $1
    day_of[$1] = n
    lai[n] = $at["lai_m2_m2"]; leaves[n] = $at["leaves"]; stem[n] = $at["stem_cm"]
    flowering[n] = $at["flowering_truss"]
}
reading == "plant" {
    d = day_of[$1]
    fruit[d] = $at["fruit_dm_g_m2"]; leaf[d] = $at["leaf_dm_g_m2"]; other[d] = $at["stem_dm_g_m2"]
}
reading == "trusses" && $at["first_flower"] != "" && $at["kept"] > 0 {
    from = day_of[$at["first_flower"]]
    until = $at["first_ripe"] == "" ? n + 1 : day_of[$at["first_ripe"]]
    for (d = from; d < until; d++) { hanging[d] += $at["kept"] - $at["aborted"]; loaded[d]++ }
}
END {
    a = warm_up + 1; b = n - edge
    weeks = (b - a) / 7
    for (d = a; d <= b; d++) {
        area_sum += lai[d]; fruits += hanging[d]; trusses += loaded[d]
        leaf_grown += leaf[d]
    }
    for (d = 1; d <= n; d++) {
        fruit_dm += fruit[d]; all_dm += fruit[d] + leaf[d] + other[d]
        passed = exp(-extinction * lai[d])
        taken += mol[date[d]] * factor * (1 - passed) * (1 + floor * passed) / 4.57
        ppm_sum += ppm[date[d]]
    }
    say("leaf-area", area_sum / (b - a + 1))
    say("leaf-thinness-young", young())
    if (!added) {
        made = (flowering[b] - flowering[a]) * per_truss * area * stems
        say("leaf-thinness", made / leaf_grown)
    }
    say("fruit-share", fruit_dm / all_dm)
    say(ppm_sum / n > 700 ? "growth-per-light-rich" : "growth-per-light", all_dm / taken)
    say("fruits-on-stem", fruits / (b - a + 1))
    say("trusses-on-stem", trusses / (b - a + 1))
    say("days-per-truss", (b - a) / (flowering[b] - flowering[a]))
    if (!added) say("stem-per-week", (stem[b] - stem[a]) / weeks)
}

function say(part, value) { printf "%s/%s\t%.6g\n", id, part, value }

# Leaf area over leaf dry matter just before the first leaf comes off: exact. Mass on the first day
# is area over the thinness of a seedling's leaf.
function young(    d, dm) {
    dm = lai[1] / seedling
    for (d = 2; d <= n && leaves[d] >= leaves[d - 1]; d++) dm += leaf[d]
    return lai[d - 1] / dm
}
