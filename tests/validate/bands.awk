# bands.awk - reads bands.csv, then lines of season, what, unit, observed, forecast between tabs; exit
# status 1 with a line for each number outside its band. how: value (the forecast itself), ratio
# (forecast over observed), days (forecast minus observed).
function day_of(iso,    y, m) {
    y = substr(iso, 1, 4) + 0; m = substr(iso, 6, 2) + 0
    if (m <= 2) { y--; m += 12 }
    return 365 * y + int(y / 4) - int(y / 100) + int(y / 400) + int((153 * (m - 3) + 2) / 5) \
        + substr(iso, 9, 2)
}
BEGIN { FS = "," }
FNR == 1 { file++ }
FNR == 1 && file == 1 { next }
file == 1 {
    key = $1 "\t" $2
    how[key] = $3; low[key] = $4; high[key] = $5; why[key] = $6
    if (low[key] + 0 > high[key] + 0 || NF != 6) {
        print "bands.csv:" FNR ": wants season,what,how,low,high,reason with low below high"
        failed = 1
    }
    next
}
{
    split($0, part, "\t")
    key = part[1] "\t" part[2]
    if (!(key in how)) next
    seen[key] = 1
    number = how[key] == "ratio" ? part[5] / part[4] \
           : how[key] == "days" ? day_of(part[5]) - day_of(part[4]) : part[5]
    if (number < low[key] + 0 || number > high[key] + 0) {
        printf "%s: %s, %s %.3f, is outside %s to %s; %s\n", part[1], part[2], how[key], number,
            low[key], high[key], why[key]
        failed = 1
    }
}
END {
    for (key in how)
        if (!(key in seen)) { print "bands.csv: no such season and number: " key; failed = 1 }
    exit failed
}
