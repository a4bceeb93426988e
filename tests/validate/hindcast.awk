# hindcast.awk - one season's hindcast.csv to one line of sums over the forecasts made after six
# weeks of picks: season, forecasts, kg observed, CRPS, CRPS of the better naive forecast, error of
# the median, error of the better naive forecast, how many lay in their range, sum of median less
# observed.
BEGIN { FS = "," }
function day_of(y, m, d) {
    if (m <= 2) { y--; m += 12 }
    return 365 * y + int(y / 4) - int(y / 100) + int(y / 400) + int((153 * (m - 3) + 2) / 5) \
        + d - 719469
}
function monday(week,    y, jan4) {                         # 1970-01-01 was a Thursday
    y = substr(week, 1, 4) + 0
    jan4 = day_of(y, 1, 4)
    return jan4 - (jan4 + 3) % 7 + 7 * (substr(week, 7, 2) - 1)
}
function size(x) { return x < 0 ? -x : x }
FNR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
{
    n++
    when[n] = monday($at["week"]); ahead[n] = $at["weeks_ahead"]; o[n] = $at["observed_kg"]
    p10[n] = $at["forecast_kg_p10"]; p50[n] = $at["forecast_kg_p50"]
    p90[n] = $at["forecast_kg_p90"]
    last[n] = $at["naive_last_kg"]; mean3[n] = $at["naive_mean3_kg"]
    crps[n] = $at["crps_kg"]; naive[n] = $at["crps_naive_kg"]
    if (!first || when[n] < first) first = when[n]
}
END {
    for (i = 1; i <= n; i++) {
        if (last[i] == "" || (when[i] - first) / 7 + 1 - ahead[i] < 6) continue
        k++
        kg += o[i]; c += crps[i]; cn += naive[i]
        e += size(p50[i] - o[i]); e1 += size(last[i] - o[i]); e3 += size(mean3[i] - o[i])
        held += o[i] >= p10[i] && o[i] <= p90[i]
        bias += p50[i] - o[i]
    }
    if (!k) { print "hindcast.awk: no forecasts of " season > "/dev/stderr"; exit 1 }
    printf "%s\t%d\t%.6g\t%.6g\t%.6g\t%.6g\t%.6g\t%d\t%.6g\n", season, k, kg, c, cn, e, \
        e1 < e3 ? e1 : e3, held, bias
}
