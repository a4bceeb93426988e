# hindcast-table.awk - lines of hindcast.awk to a table, then lines for bands.awk, each behind "band".
# Over all seasons every season counts alike: its errors over its own picks.
BEGIN { FS = "\t" }
function line(name, n, crps, mae, held, off, naive, bias) {
    printf markdown ? "| %s | %s | %.2f | %.2f | %.0f %% | %.0f %% | %.0f %% | %+.0f %% |\n" \
                    : "%-32s %4s  %6.2f  %6.2f  %4.0f %%  %4.0f %%  %4.0f %%  %+4.0f %%\n", \
        name, n, crps, mae, 100 * held, 100 * off, 100 * naive, 100 * bias
}
BEGIN {
    if (markdown) {
        print "| season | forecasts | CRPS over naive | error over naive | held | off | naive off | bias |"
        print "|---|---:|---:|---:|---:|---:|---:|---:|"
    } else
        printf "%-32s %4s  %6s  %6s  %6s  %6s  %6s  %6s\n", "season", "n", "CRPS", "error", "held",
            "off", "naive", "bias"
}
{
    line($1, $2, $4 / $5, $6 / $7, $8 / $2, $6 / $3, $7 / $3, $9 / $3)
    n += $2; crps += $4 / $3; crps_naive += $5 / $3; off += $6 / $3; naive += $7 / $3
    held += $8 / $2; bias += $9 / $3
    mean_ratio += $4 / $5; mean_error += $6 / $7
}
END {
    line("all", n, crps / crps_naive, off / naive, held / NR, off / NR, naive / NR, bias / NR)
    printf "%smean of the seasons' ratios: CRPS %.3f, error %.3f\n", markdown ? "\n" : "", \
        mean_ratio / NR, mean_error / NR
    printf "band\tall\tCRPS over naive\t1\t-\t%.4f\n", crps / crps_naive
    printf "band\tall\terror over naive\t1\t-\t%.4f\n", off / naive
    printf "band\tall\theld\t1\t-\t%.4f\n", held / NR
}
