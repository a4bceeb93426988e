/* vh_day.h - one day of climate as one crop feels it: what does not depend on the plant, worked out
 * once. */
#ifndef VH_DAY_H
#define VH_DAY_H

#include "vh_crop.h"

#define VH_DAY_HOURS VH_LIGHT_HOURS

struct vh_day {
    double mean_c;            /* 24-h mean of air */
    double dli_mol_m2_d;      /* inside, lamps included, before light_factor */
    double dif_k;             /* mean of light hours minus mean of dark hours */
    double clock_share;       /* clocks run at this share: heat */
    double red_share;         /* reddening runs at this share: heat */
    double upkeep_warmth;     /* mean over hours of q10^((T - ref)/10) */
    double sink_share;        /* every sink asks this share: cold */
    double growth_cd;         /* degree-days of size-picked fruit */
    double growth_decay;      /* vh_fruit_logistic_decay of those that the cold lets count */
    double young_cd;          /* degree-days of young fruit that can be dropped */
    double sucker_cd;         /* degree-days of suckers */
    double bees_share;        /* of the light hours in which bees fly */
    double fgp_share;         /* FGP(T)/FGP(ref) */
    double std_rate_per_d;    /* ripening rate at stage 1, standard light and truss */
    struct vh_clock_day pace; /* of fruit */
    struct vh_leaf_hours leaf;
};

/* Growing period by temperature, tabulated once per crop. */
#define VH_FGP_STEPS 40
struct vh_fgp {
    double low_c, step_c, share[VH_FGP_STEPS + 1];
    double log_std_rad, upkeep_per_k; /* logarithms that every day asks for */
};
/* VH_NO_NUMBER where the quadrature fails (a clock that never ripens). */
enum vh_status vh_fgp_init(const struct vh_crop *crop, struct vh_fgp *fgp);
double vh_fgp_share(const struct vh_fgp *fgp, double temp_c);

/* Hourly arrays of 24: air degC, PAR umol m-2 s-1 above the crop, CO2 ppm. */
struct vh_day_hours {
    const double *t_c, *par_umol_m2_s, *co2_ppm;
};
/* Days of members side by side: [lanes], 1 or VH_LANES of them; by any registers that the machine
 * has, the same bits. */
void vh_days_init(struct vh_day *day, const struct vh_crop *crop, const struct vh_fgp *fgp,
                  const struct vh_day_hours *hours, size_t lanes, enum vh_registers registers);
void vh_day_init(struct vh_day *day, const struct vh_crop *crop, const struct vh_fgp *fgp,
                 const double *t_c, const double *par_umol_m2_s, const double *co2_ppm);

#endif
