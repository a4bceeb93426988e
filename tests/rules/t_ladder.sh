#!/bin/sh
# Every #include points down the ladder (or stays on its step):
#     base < climate < plant < work < market < house < ensemble < {learn, choose} < cli
# cli knows vinehand.h alone; learn and choose do not know each other; cli/write knows neither main nor text;
# GSL stays out of cli, libcsv in base, MPI in cli/ranks.
set -u
cd "${VINEHAND_SOURCE:?}" || exit 1

check() {
    # shellcheck disable=SC2046  # names without blanks, by our own rule
    (cd "$1" && awk -v headers="$(find model cli -name '*.h' | tr '\n' ' ')" '
    function step(path, p) {
        split(path, p, "/")
        if (path == "model/vinehand.h") return "public"
        return p[1] == "cli" ? "cli" : p[2]
    }
    BEGIN {
        n = split("public base climate plant work market house ensemble learn choose cli", name, " ")
        for (i = 1; i <= n; i++) rank[name[i]] = i
        n = split(headers, all, " ")
        for (i = 1; i <= n; i++) { base = all[i]; sub(/.*\//, "", base); where[base] = all[i] }
    }
    function wrong(why) { print "WRONG: " FILENAME " includes " head ": " why; bad = 1 }
    /^[ \t]*#[ \t]*include[ \t]*[<"]/ {
        head = $0; sub(/^[^<"]*/, "", head); sub(/[>"][^>"]*$/, "", head)
        system_header = substr(head, 1, 1) == "<"
        head = substr(head, 2); base = head; sub(/.*\//, "", base); from = step(FILENAME)
        if (system_header) {
            if (head ~ /^gsl\// && from == "cli") wrong("GSL is for the model")
            if (head == "mpi.h" && FILENAME !~ /^cli\/ranks\//) wrong("MPI is for cli/ranks")
            if (head == "csv.h" && from != "base") wrong("libcsv is for base")
            next
        }
        if (!(base in where)) { wrong("no such header in the tree"); next }
        to = step(where[base])
        if (from == "cli") {
            if (to != "public" && to != "cli") wrong("cli knows vinehand.h alone")
            if (FILENAME ~ /^cli\/write\// && where[base] ~ /^cli\/(text|commands)\//)
                wrong("cli/write knows neither text nor commands")
            if (FILENAME ~ /^cli\/text\// && where[base] ~ /^cli\/commands\//) wrong("text knows no commands")
        } else if (to == "cli") wrong("the library knows no cli")
        else if (from == "choose" && to == "learn") wrong("learn and choose do not know each other")
        else if (from != "public" && rank[to] > rank[from]) wrong(to " stands above " from)
        if (!(from in rank)) wrong("its folder is no step of the ladder")
    }
    END { exit bad }' $(find model cli -name '*.[ch]' | sort))
}

check . || exit 1

# The check itself must see what it is for.
trial=$(mktemp -d)
trap 'rm -rf "$trial"' EXIT
mkdir -p "$trial/model/base" "$trial/model/plant" "$trial/cli/write" "$trial/cli/text"
: >"$trial/model/vinehand.h"; : >"$trial/model/plant/vh_x.h"; : >"$trial/cli/text/vh_t.h"
for planted in 'model/base/a.c #include "vh_x.h"' 'cli/a.c #include "vh_x.h"' 'cli/a.c #include <gsl/gsl_math.h>' \
    'model/plant/a.c #include <csv.h>' 'cli/write/a.c #include "vh_t.h"' 'model/plant/a.c #include "vh_t.h"' 'cli/a.c #include <mpi.h>'; do
    file=${planted%% *}
    echo "${planted#* }" >"$trial/$file"
    if check "$trial" >/dev/null; then echo "WRONG: not seen: $planted"; exit 1; fi
    rm "$trial/$file"
done
echo '#include "vh_x.h"' >"$trial/model/plant/a.c"
check "$trial"
