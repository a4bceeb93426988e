# table.awk - the seasons side by side: reads season, what, unit, observed, forecast between tabs.
# With -v markdown=1 the table for README.md. A line "RMSE, as ..." has the error of the naive
# forecast where the others have what was observed.
BEGIN { FS = "\t" }
function left(text, wide) { while (length(text) < wide) text = " " text; return text }
function right(text, wide) { while (length(text) < wide) text = text " "; return text }
function short(text) { return text ~ /^[0-9][0-9][0-9][0-9]-/ ? substr(text, 6) : text }
{
    if (!($1 in seen_s)) { seen_s[$1] = 1; season[++seasons] = $1 }
    if (!($2 in seen_w)) { seen_w[$2] = 1; what[++whats] = $2; unit[$2] = $3 }
    cell[$2, $1] = $4 == "-" ? short($5) : short($4) " > " short($5)
}
END {
    for (s = 1; s <= seasons; s++) {
        name[s] = season[s]
        sub(/tomato/, "", name[s])
        wide[s] = length(name[s])
        for (w = 1; w <= whats; w++)
            if (length(cell[what[w], season[s]]) > wide[s])
                wide[s] = length(cell[what[w], season[s]])
    }
    line = markdown ? "| observed > forecast | unit |" : right("observed > forecast", 29)
    rule = "|---|---|"
    for (s = 1; s <= seasons; s++) {
        line = line (markdown ? " " name[s] " |" : left(name[s], wide[s] + 2))
        rule = rule "---:|"
    }
    print line
    if (markdown) print rule
    for (w = 1; w <= whats; w++) {
        line = markdown ? "| " what[w] " | " unit[what[w]] " |" \
                        : right(what[w], 22) right(unit[what[w]], 7)
        for (s = 1; s <= seasons; s++) {
            text = cell[what[w], season[s]]
            line = line (markdown ? " " text " |" : left(text, wide[s] + 2))
        }
        print line
    }
}
