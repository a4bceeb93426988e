#!/bin/sh
# Draws the weeks of a forecast as one small SVG: sh scenarios/picture.sh RESULT_FOLDER TODAY >picture.svg
# One panel a planting; before today open bars, from today on filled ones; cucumbers count in pieces.
set -eu
awk -F, -v today="$2" '
function top_of(v,   p) {       # the first of 1, 2, 5 times a power of ten above v
    for (p = 1; ; p *= 10) {
        if (p > v) return p
        if (2 * p > v) return 2 * p
        if (5 * p > v) return 5 * p
    }
}
function text(x, y, size, anchor, weight, words) {
    printf "<text x=\"%.1f\" y=\"%.1f\" font-size=\"%d\" text-anchor=\"%s\" font-weight=\"%d\" fill=\"#1b1c1e\">%s</text>\n", \
        x, y, size, anchor, weight, words
}
FNR == 1 { for (i = 1; i <= NF; i++) col[$i] = i; next }
{
    p = $(col["planting"])
    if (!(p in seen)) { seen[p] = ++panels; name[panels] = p }
    k = seen[p]; n[k]++
    monday[k, n[k]] = $(col["monday"])
    kg[k, n[k]] = $(col["kg"]); fruits[k, n[k]] = $(col["fruits"])
    mass[k] += $(col["kg"]); number[k] += $(col["fruits"])
    if (first == "" || $(col["monday"]) < first) first = $(col["monday"])
    if (!($(col["monday"]) in at)) at[$(col["monday"])] = ++weeks
}
function place(m,   i) { return at[m] }
END {
    w = 336; h = 150; gap = 24; left = 34; bottom = 26; head = 34; month = "JanFebMarAprMayJunJulAugSepOctNovDec"
    split("#d55e00 #0072b2 #009e73 #cc79a7", colour, " ")
    # weeks in date order: rows of weeks.csv are sorted by Monday
    wide = panels * (w + gap) - gap
    printf "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" width=\"%d\" height=\"%d\" role=\"img\" font-family=\"system-ui, DejaVu Sans, sans-serif\">\n", wide, h, wide, h
    print "<title>Weekly picks by planting</title><desc>Bars by week; open before today, filled from today on.</desc>"
    printf "<rect width=\"%d\" height=\"%d\" fill=\"#ffffff\"/>\n", wide, h
    for (k = 1; k <= panels; k++) {
        x0 = (k - 1) * (w + gap); pieces = number[k] > 0 && mass[k] / number[k] > 0.3
        most = 0
        for (i = 1; i <= n[k]; i++) { v[k, i] = pieces ? fruits[k, i] : kg[k, i]; if (v[k, i] > most) most = v[k, i] }
        top = top_of(most); high = h - head - bottom; step = (w - left) / weeks
        text(x0, 13, 13, "start", 600, name[k]); text(x0, 28, 11, "start", 400, pieces ? "fruits a week" : "kg a week")
        for (t = 0; t <= 2; t++) {
            y = h - bottom - high * t / 2
            if (t) printf "<path d=\"M%.1f %.1fH%.1f\" stroke=\"#c8ccd1\" stroke-width=\"0.75\"/>\n", x0 + left, y, x0 + w
            text(x0 + left - 5, y + 4, 11, "end", 400, top * t / 2)
        }
        for (i = 1; i <= n[k]; i++) {
            m = monday[k, i]; x = x0 + left + (place(m) - 1) * step; y = high * v[k, i] / top
            if (substr(m, 9, 2) + 0 <= 7 && x < x0 + w - 18 && (substr(m, 6, 2) + 0) % 2 == 0)
                text(x, h - bottom + 15, 11, "start", 400, substr(month, (substr(m, 6, 2) - 1) * 3 + 1, 3))
            if (y < 0.5) continue
            open = m < today
            printf "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"%s\" stroke=\"%s\"/>\n", \
                x + 0.8, h - bottom - y, step - 2.1, y, open ? "none" : colour[(k - 1) % 4 + 1], open ? "#7b8087" : colour[(k - 1) % 4 + 1]
        }
        printf "<path d=\"M%.1f %.1fH%.1f\" stroke=\"#7b8087\"/>\n", x0 + left, h - bottom, x0 + w
        for (i = 1; i <= n[k]; i++) if (monday[k, i] <= today && monday[k, i + 1] > today) {
            x = x0 + left + (place(monday[k, i + 1]) - 1) * step - 0.2
            printf "<path d=\"M%.1f %.1fV%.1f\" stroke=\"#1b1c1e\"/>\n", x, head - 4, h - bottom
            text(x - 3, head + 4, 11, "end", 400, "today")
        }
    }
    print "</svg>"
}' "$1/weeks.csv"
