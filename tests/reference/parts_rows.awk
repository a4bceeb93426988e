# parts_rows.awk - the rows of parts.csv that fit a planting, as verdict.awk reads them. First file:
# the values found (ID/part TAB value), second: parts-missed.csv (id,ours,hold,miss). -v id, kind
# (tomato), type (tomato-large): a row of the type is taken before one of the kind.
FNR == 1 { file++ }
file == 1 { sub(/\t.*/, ""); found[$0] = 1; next }
FNR == 1 { next }
file == 2 { split($0, m, ","); known[m[1]] = m[2] "," m[3] "," m[4]; next }
{
    split($0, c, ",")
    if (c[1] != kind && c[1] != type) next
    if (c[1] == kind && (c[2] in by_type)) next
    if (c[1] == type) by_type[c[2]] = 1
    rest = $0
    for (i = 1; i <= 6; i++) sub(/^[^,]*,/, "", rest)
    key = id "/" c[2]
    if (!(key in found)) next
    row[c[2]] = sprintf("%s,%s,%s,%s to %s,%s,%s,%s,%s", key, c[3], c[4], c[5], c[6], c[5], c[6],
        (key in known) ? known[key] : ",,", rest)
}
END { for (part in row) print row[part] }
