# verdict.awk - first file: id TAB value, as a test found them; second: the table that judges them,
# id,what,unit,published,low,high,ours,hold,miss,source. Without a miss a row must lie from low to
# high, what its source supports. With a known miss it must stay within `hold` (relative) of `ours`,
# so that getting worse shows; from low to high it passes too, and says that the miss may go.
# -v show=1 prints every row.
NR == FNR { split($0, pair, "\t"); found[pair[1]] = pair[2]; next }
FNR == 1 { next }
{
    split_row($0)
    id = cell[1]
    seen[id] = 1
    if (!(id in found)) { tell("has no value"); next }
    v = found[id]
    if (v !~ /^-?[0-9]/) { tell("is \"" v "\", not a number"); next }
    inside = (cell[5] == "" || v >= cell[5] + 0) && (cell[6] == "" || v <= cell[6] + 0)
    away = v - cell[7]; if (away < 0) away = -away
    room = cell[8] * (cell[7] < 0 ? -cell[7] : cell[7])
    if (show)
        printf "%-28s %9.4g  published %-9s in %s...%s  ours %s  %s\n", id, v, cell[4], cell[5],
            cell[6], cell[7], cell[9]
    if (cell[9] == "") {
        if (!inside) tell(sprintf("is %.5g, outside %s...%s", v, cell[5], cell[6]))
    } else if (inside)
        print id ": " sprintf("%.5g", v) " lies where it should; take its miss out of the table"
    else if (away > room)
        tell(sprintf("is %.5g, was %s; %s to %s would be right", v, cell[7], cell[5], cell[6]))
}
END {
    for (id in found) if (!(id in seen)) { cell[2] = "?"; tell("is in no row of the table") }
    exit wrong > 0
}

function tell(text) { print "WRONG " id " (" cell[2] ") " text; wrong++ }

function split_row(line,    n, quoted, i, c) {
    split("", cell)
    n = 1
    for (i = 1; i <= length(line); i++) {
        c = substr(line, i, 1)
        if (c == "\"") quoted = !quoted
        else if (c == "," && !quoted) n++
        else cell[n] = cell[n] c
    }
}
