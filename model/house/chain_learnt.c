/* What was learnt of the plants that a chain works through, in one line. */
#include "chain_parts.h"

#include <stdio.h>
#include <string.h>

#include "vh_kept.h"
#include "vh_math.h"

static double factor_of(const struct vh_chain_run *run, size_t planting, enum vh_kept_kind kind)
{
    const struct vh_factors *f = &run->run->season[planting].factors;

    switch (kind) {
    case VH_KEPT_LIGHT:
        return f->light;
    case VH_KEPT_TRUSS_PACE:
        return f->truss_pace;
    case VH_KEPT_FRUIT_PACE:
        return f->fruit_pace;
    case VH_KEPT_FRUIT_MASS:
        return f->fruit_mass;
    case VH_KEPT_SET:
        return f->set;
    case VH_KEPT_STEM_PACE:
        return f->stem_pace;
    case VH_KEPT_SUCKER_PACE:
        return f->sucker_pace;
    case VH_KEPT_MARKETABLE:
        return run->run->marketable[planting];
    case VH_KEPT_LOG_OFFSET:
        return run->log_offset_c;
    case VH_KEPT_KINDS:
        break;
    }
    return VH_UNKNOWN;
}

/* "light 0.9230, truss pace 0.9985, air of the log -0.313 K" */
static void say_factors(const struct vh_chain_run *run, size_t planting, char said[VH_CHAIN_TEXT])
{
    said[0] = '\0';
    for (int k = 0; k < VH_KEPT_KINDS; k++) {
        const enum vh_kept_kind kind = (enum vh_kept_kind)k;
        const double f = factor_of(run, planting, kind);
        const bool is_offset = kind == VH_KEPT_LOG_OFFSET;
        const size_t n = strlen(said);
        const char *comma = n > 0 ? ", " : "";
        if (f == (is_offset ? 0.0 : 1.0) || isnan(f))
            continue;
        if (is_offset)
            snprintf(said + n, VH_CHAIN_TEXT - n, "%sair against the log %+.3f K", comma, f);
        else
            snprintf(said + n, VH_CHAIN_TEXT - n, "%s%s %.4f", comma, vh_kept_name(kind), f);
    }
}

void vh_chain_add_learnt(struct vh_chain *c, const struct vh_chain_run *run, size_t planting,
                         const char *part)
{
    char said[VH_CHAIN_TEXT], of_all[VH_CHAIN_TEXT];
    const char *from = run->entries ? of_all
                       : run->kept  ? "moved by another season (kept file), each 1 in the book"
                                    : "plants of the book: every factor 1";

    snprintf(of_all, sizeof of_all,
             "what they moved, each 1 in the book; see learned.csv; of %zu in all: work and"
             " sales tell nothing of the plants, and picks of a few days count as one",
             run->run->house->records.rows);
    say_factors(run, planting, said);
    vh_chain_add(c, &(struct vh_step){part, "learnt from", (double)run->entries, VH_UNKNOWN,
                                      run->entries == 1 ? "entry of your records"
                                                        : "entries of your records",
                                      from, said, ""});
}
