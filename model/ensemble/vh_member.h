/* vh_member.h - one future of a house: factors on the mechanisms of its plants, a weather of its
 * own, visits that come late.
 *
 * Members are numbered from 0. Whatever is drawn for a member depends only on (draw, member, day,
 * purpose, planting): the same for any number of threads, any order and any number of members.
 */
#ifndef VH_MEMBER_H
#define VH_MEMBER_H

#include "vh_plant.h"
#include "vh_scenario.h"

/* What a member multiplies in one planting; all 1 in the mean run. */
struct vh_member {
    struct vh_factors plant;
    double marketable; /* share of the picked mass that can be sold */
    double overlooked; /* share of suckers missed at a visit */
    double stray;      /* log of what is picked over what the model has, today (vh_stray.h) */
    double unsteady;   /* how far picks stray, against the usual house */
};

/* All 1. */
struct vh_member vh_member_mean(void);
double vh_member_factor(const struct vh_member *m, enum vh_kept_kind kind);
void vh_member_set_factor(struct vh_member *m, enum vh_kept_kind kind, double factor);

/* What is known of a factor before the records are looked at: by another season, else by the book
 * (mean 1 and the CV of params/futures.csv). sd: of its logarithm; mean and sd of log_offset_c in
 * K. */
struct vh_prior {
    double mean, sd;
};
struct vh_prior vh_member_prior(const struct vh_scenario *s, enum vh_kept_kind kind,
                                size_t planting);
/* The means of the priors: all 1 where no other season taught anything. */
struct vh_member vh_member_expected(const struct vh_scenario *s, size_t planting);
/* The prior: log-normal. Light is one for the house,
 * the rest one for each planting. */
struct vh_member vh_member_draw(const struct vh_scenario *s, uint64_t draw, size_t member,
                                size_t planting);
/* The prior of what a log's thermometer is off by, normal about 0; 0 where there is no log. */
double vh_member_log_offset_c(const struct vh_scenario *s, uint64_t draw, size_t member);
/* exp(sigma z - sigma^2 / 2), sigma^2 = log(1 + cv^2): mean 1, coefficient of variation cv. */
double vh_lognormal(double cv, double z);

#endif
