#include "vh_dull_week.h"

#include <math.h>

bool vh_was_dull(const struct vh_table *climate_days, int64_t today)
{
    const double week_d = 7.0, back_d = 21.0, dull_share = 0.85;
    double last = 0.0, before = 0.0;
    int lasts = 0, befores = 0;

    for (size_t i = 0; climate_days && i < vh_table_rows(climate_days); i++) {
        const double ago = (double)today - vh_cell_number(climate_days, i, "date");
        const double light = vh_cell_number(climate_days, i, "dli_mol_m2_d");
        if (!isfinite(light) || ago <= 0.0 || ago > back_d)
            continue;
        *(ago <= week_d ? &last : &before) += light;
        *(ago <= week_d ? &lasts : &befores) += 1;
    }
    return lasts && befores && last / lasts < dull_share * before / befores;
}
