# measure.awk - one season: lines of what, unit, observed, forecast, between tabs. Reads, each
# announced by reading=WHAT: scenario.toml, the crop's file and its base; harvest.csv and
# crop_work.csv of the measured season; picks.csv and stem.csv of the run (see run.sh). In the
# lines "RMSE, as ..." observed stands for the error of that naive forecast, over the same weeks.

# ---- dates: days since 1970-01-01 of the Gregorian calendar, and back ----
function day_of(iso,    y, m, d) {
    y = substr(iso, 1, 4) + 0; m = substr(iso, 6, 2) + 0; d = substr(iso, 9, 2) + 0
    if (m <= 2) { y--; m += 12 }
    return 365 * y + int(y / 4) - int(y / 100) + int(y / 400) \
        + int((153 * (m - 3) + 2) / 5) + d - 719469
}
function date_of(day,    z, c, y, doy, m) {
    z = day + 719468
    c = int((4 * z + 3) / 146097); z -= int(146097 * c / 4)
    y = int((4 * z + 3) / 1461); doy = z - int(1461 * y / 4)
    m = int((5 * doy + 2) / 153); doy -= int((153 * m + 2) / 5)
    y += 100 * c
    return sprintf("%04d-%02d-%02d", m < 10 ? y : y + 1, m < 10 ? m + 3 : m - 9, doy + 1)
}
function monday_of(day) { return day - (day + 3) % 7 }      # 1970-01-01 was a Thursday

function column(name,    i) {
    for (i = 1; i <= NF; i++) if ($i == name) return i
    printf "measure.awk: %s has no column %s\n", FILENAME, name > "/dev/stderr"
    failed = 1
    exit 1
}

# ---- the scenario: what turns counts of a planting into counts per m2 and per stem ----
reading == "scenario" {
    split($0, part, "=")
    key = part[1]; gsub(/[ \t]/, "", key)
    value = part[2]; sub(/#.*/, "", value); gsub(/[ \t"]/, "", value)
    if ($0 ~ /^\[/) table = $0
    if (table == "[[planting]]" && key ~ /^(plants|plants_per_m2|heads_per_plant)$/)
        planting[key] = value + 0
    if (table == "[planting.top]" && key == "on") topped = day_of(value)
    next
}
reading == "crop" {
    if ($1 == "truss.leaves_per_truss" && !leaves_per_truss) leaves_per_truss = $2 + 0
    next
}

# ---- what was picked ----
reading == "harvest" && FNR == 1 {
    c_date = column("date"); c_kg = column("kg_m2"); c_n = column("fruits_m2")
    next
}
reading == "harvest" {
    d = day_of($c_date)
    obs_kg[d] += $c_kg; obs_total += $c_kg
    if ($c_n != "") { w = monday_of(d); week_obs_kg[w] += $c_kg; week_obs_n[w] += $c_n }
    if ($c_n != "") { counted_kg += $c_kg; counted_n += $c_n }
    if (!obs_first) obs_first = d
    obs_last = d
    next
}
reading == "work" {
    if (topped && day_of($1) > topped + 6) next             # the count in which the stem last grew
    if ($2 == "stem_length_cumulative" || $2 == "leaves_cumulative" ||
        $2 == "trusses_flowering_cumulative" || $2 == "trusses_set_cumulative") {
        item = $2 ~ /^trusses/ ? "trusses" : $2
        if (!(item in from_d)) { from_d[item] = day_of($1); from_v[item] = $3 }
        to_d[item] = day_of($1); to_v[item] = $3
    }
    next
}

# ---- what was forecast ----
reading == "picks" && FNR == 1 {
    p_date = column("date"); p_kg = column("kg"); p_n = column("fruits")
    next
}
reading == "picks" {
    m2 = planting["plants"] / planting["plants_per_m2"]
    stems = planting["plants"] * (planting["heads_per_plant"] ? planting["heads_per_plant"] : 1)
    d = day_of($p_date)
    w = monday_of(d); week_run_kg[w] += $p_kg; week_run_n[w] += $p_n
    run_kg[d] += $p_kg / m2; run_total += $p_kg / m2; run_n += $p_n / m2
    picked += $p_n / stems
    if (!run_first && picked >= 0.1) run_first = d  # a tenth of a fruit a stem, as in the summary
    next
}
reading == "stem" && FNR == 1 {
    s_date = column("date"); s_cm = column("stem_cm"); s_truss = column("flowering_truss")
    next
}
reading == "stem" { d = day_of($s_date); stem_cm[d] = $s_cm; truss[d] = $s_truss; next }

# ---- the numbers ----
function say(what, unit, observed, forecast) {
    printf "%s\t%s\t%s\t%s\n", what, unit, observed, forecast
}
function number(x, digits) { return sprintf("%." digits "f", x) }
# By the straight line between two picks, so that a pick of five days or a week hides no error and
# makes none. The first pick has no line before it, in the run as in the record: a crumb of the run, less
# than a first pick (a tenth of a fruit a stem), would draw one up to a week back that no house has.
function share_day(kg, total, share, first,    d, sum, before) {
    for (d = first_day; d <= last_day; d++) {
        if (!(d in kg) || kg[d] <= 0) continue
        if (sum + kg[d] >= share * total) {
            if (before) d = before + (d - before) * (share * total - sum) / kg[d]
            return date_of(int(d + 0.5))
        }
        sum += kg[d]
        if (d >= first) before = d
    }
    return "-"
}
function gain(what, item, series, scale, unit, digits,    to) {
    to = to_d[item]
    if (item ~ /^leaves/ && topped && to > topped) to = topped     # flowers go on opening, leaves do not
    if (!(item in from_d) || !(from_d[item] in series) || !(to in series)) {
        say(what, unit, "-", "-")
        return
    }
    say(what, unit, number(to_v[item] - from_v[item], digits),
        number((series[to] - series[from_d[item]]) * scale, digits))
}
function rmse(sum, n) { return n ? number(sqrt(sum / n), 3) : "-" }
# Does the size of fruit rise and fall through the season as it was weighed? Pearson's r of the weekly means.
function course(    w, n, x, y, sx, sy, sxx, syy, sxy, below) {
    for (w in week_obs_n) {
        if (!(week_obs_n[w] > 0 && week_run_n[w] > 0)) continue
        x = week_obs_kg[w] / week_obs_n[w]; y = week_run_kg[w] / week_run_n[w]
        n++; sx += x; sy += y; sxx += x * x; syy += y * y; sxy += x * y
    }
    below = n ? (sxx - sx * sx / n) * (syy - sy * sy / n) : 0
    say("course of fruit mass", "r", "-", below > 0 ? number((sxy - sx * sy / n) / sqrt(below), 2) : "-")
}
function weekly(    w, d, i, n, o, f, e, n1, n4, s, s1, m1, s4, m4) {
    for (w = monday_of(obs_first); w <= monday_of(obs_last); w += 7) {
        i = ++n; o[i] = 0; f[i] = 0
        for (d = w; d < w + 7; d++) {
            if (d in obs_kg) o[i] += obs_kg[d]
            if (d in run_kg) f[i] += run_kg[d]
        }
        e = (f[i] - o[i]) ^ 2; s += e
        if (show_weeks) printf "week %s %.3f %.3f\n", date_of(w), o[i], f[i] > "/dev/stderr"
        if (i > 1) { n1++; m1 += e; s1 += (o[i - 1] - o[i]) ^ 2 }
        if (i > 4) { n4++; m4 += e; s4 += (o[i - 4] - o[i]) ^ 2 }
    }
    say("weekly RMSE, all weeks", "kg m-2", "-", rmse(s, n))
    say("RMSE, as last week", "kg m-2", rmse(s1, n1), rmse(m1, n1))
    say("RMSE, as 4 weeks ago", "kg m-2", rmse(s4, n4), rmse(m4, n4))
}
END {
    if (failed) exit 1
    if (!run_total || !obs_total) { print "measure.awk: no picks" > "/dev/stderr"; exit 1 }
    first_day = obs_first - 60; last_day = obs_last + 60
    say("total", "kg m-2", number(obs_total, 2), number(run_total, 2))
    say("fruits", "m-2", number(obs_total / (counted_kg / counted_n), 0), number(run_n, 0))
    say("fruit mass", "g", number(1000 * counted_kg / counted_n, 1),
        number(1000 * run_total / run_n, 1))
    course()
    gain("leaves made", "leaves_cumulative", truss, leaves_per_truss, "a stem", 1)
    gain("trusses opened", "trusses", truss, 1, "a stem", 1)
    gain("stem gain", "stem_length_cumulative", stem_cm, 1, "cm", 0)
    say("first pick", "date", date_of(obs_first), run_first ? date_of(run_first) : "-")
    say("2 % of mass", "date", share_day(obs_kg, obs_total, 0.02, obs_first),
        share_day(run_kg, run_total, 0.02, run_first))
    say("half of mass", "date", share_day(obs_kg, obs_total, 0.5, obs_first),
        share_day(run_kg, run_total, 0.5, run_first))
    weekly()
}
