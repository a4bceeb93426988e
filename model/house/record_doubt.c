/* Which records cannot be: a value is held against its nearest neighbours of the same kind, two
 * before and two after, and doubted where most of them speak against it. So one slip is found, and
 * the good rows beside it are not. Some are held against the planting itself (record_fits.c). A
 * pick of a planting with some of its own is held nearer: against them and against what is usual. A
 * mass in another unit than all before it is asked about (record_unit.c).
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "record_parts.h"
#include "vh_math.h"
#include "vh_plant.h"
#include "vh_units.h"

#define G_PER_KG 1000.0

enum {
    SIDE = 2,       /* neighbours on either side */
    PICKS_LEAST = 4 /* fewer tell nothing of what is usual */
};

struct doubting {
    struct vh_records *r;
    const struct vh_house *house;
    const struct vh_record_params *p;
    const char *shown;
    struct vh_messages *m;
};

static bool same_kind(const struct vh_record *a, const struct vh_record *b)
{
    return a->item == b->item && a->planting == b->planting &&
           (a->item < VH_RECORD_MINUTES || a->task == b->task) &&
           (!vh_item_kind(a->item)->by_truss || a->truss == b->truss);
}

/* What an entry is held against: others of its kind; a pick of which there are too few, against
 * those that were noted the other way, by number or by weight. */
struct held {
    enum vh_record_item item;
    double times;   /* from the unit of those to that of the entry */
    double fruit_g; /* by which one follows from the other; 0: of its kind */
};

static struct held of_its_kind(const struct vh_record *a)
{
    return (struct held){a->item, 1.0, 0.0};
}

static bool is_held(const struct held *h, const struct vh_record *a, const struct vh_record *b)
{
    return h->item == a->item ? same_kind(a, b) : b->item == h->item && b->planting == a->planting;
}

/* Picks of a planting by weight or by number, beside one of them; PICKS_LEAST at most. */
static int picks_beside(const struct doubting *d, size_t i, enum vh_record_item item)
{
    int n = 0;

    for (size_t k = 0; k < d->r->rows && n < PICKS_LEAST; k++) {
        const struct vh_record *b = &d->r->row[k];
        n += k != i && b->item == item && b->planting == d->r->row[i].planting && b->value > 0.0;
    }
    return n;
}

static struct held held_of(const struct doubting *d, size_t i)
{
    const struct vh_record *a = &d->r->row[i];
    const bool weighed = a->item == VH_RECORD_PICKED_KG;
    const enum vh_record_item other = weighed ? VH_RECORD_PICKED_FRUITS : VH_RECORD_PICKED_KG;

    if (!vh_record_is_pick(a->item) || picks_beside(d, i, a->item) >= PICKS_LEAST ||
        picks_beside(d, i, other) < PICKS_LEAST)
        return of_its_kind(a);
    const double fruit_g =
        vh_record_usual_fruit_g(d->r, a->planting, &d->house->planting[a->planting]);
    if (!(fruit_g > 0.0))
        return of_its_kind(a);
    return (struct held){other, weighed ? fruit_g / G_PER_KG : G_PER_KG / fruit_g, fruit_g};
}

/* Most that an entry which only rises can rise by in a day; flowering trusses by the crop's pace. */
static double most_rise_per_d(const struct doubting *d, const struct vh_record *a)
{
    const struct vh_crop *crop = d->house->planting[a->planting].crop;
    const double most = vh_item_kind(a->item)->most_per_d;

    if (a->item != VH_RECORD_FLOWERING_TRUSS || !crop)
        return most;
    return vh_min(most, vh_plant_most_trusses_per_d(crop));
}

/* Could both be true? */
static bool agree(const struct doubting *d, const struct vh_record *a, const struct vh_record *b)
{
    const struct vh_item_kind *k = vh_item_kind(a->item);
    const bool far_above = b->value > 0.0 && a->value >= d->p->doubt_ratio * b->value;
    const bool far_below = a->value > 0.0 && b->value >= d->p->doubt_ratio * a->value;

    if (k->only_rises && a->day != b->day) {
        const struct vh_record *first = a->day < b->day ? a : b, *last = first == a ? b : a;
        const double rise = last->value - first->value, days = (double)(last->day - first->day);
        const double sd_a = vh_record_sd(d->p, a), sd_b = vh_record_sd(d->p, b);
        const double room =
            3.0 * sqrt(sd_a * sd_a + sd_b * sd_b); /* three in a thousand by chance */
        return rise >= -room && rise <= most_rise_per_d(d, a) * days + room;
    }
    if (k->only_rises)
        return !far_above && !far_below;
    return !far_above && (k->is_sum || !far_below);
}

/* Whom to ask: a slip may be noted twice on one day, and must not speak for itself. */
enum whom { OF_OTHER_DAYS, OF_ANY_DAY };

/* How many of the nearest on one side there are, and how many speak against it: `most` times their
 * value is too much; 0: what can both be true, of any item. */
static void ask_side(const struct doubting *d, size_t i, const struct held *h, int step,
                     enum whom whom, double most, int *asked, int *against)
{
    const struct vh_record *a = &d->r->row[i];
    int found = 0;

    for (size_t k = i; found < SIDE;) {
        if (step < 0 ? k == 0 : k + 1 >= d->r->rows)
            return;
        k = step < 0 ? k - 1 : k + 1;
        const struct vh_record *b = &d->r->row[k];
        if (!is_held(h, a, b) || (vh_item_kind(a->item)->is_sum && b->value <= 0.0))
            continue; /* nothing picked on a day says nothing of another day */
        if (whom == OF_OTHER_DAYS && b->day == a->day && b->item == a->item)
            continue;
        found++;
        *asked += 1;
        *against += most > 0.0 ? a->value > most * h->times * b->value : !agree(d, a, b);
    }
}

/* Do most of its neighbours speak against it? Sums are held against those of other days, where
 * there are such. */
static bool is_against_most(const struct doubting *d, size_t i, const struct held *h, double most)
{
    enum whom whom = vh_item_kind(d->r->row[i].item)->is_sum ? OF_OTHER_DAYS : OF_ANY_DAY;
    int asked = 0, against = 0;

    for (; asked == 0 && whom <= OF_ANY_DAY; whom++) {
        ask_side(d, i, h, -1, whom, most, &asked, &against);
        ask_side(d, i, h, 1, whom, most, &asked, &against);
    }
    return 2 * against > asked;
}

/* What she usually picks of a planting at a time, without the entry it is held against. */
struct usual {
    double low, middle, high; /* quartiles, in the item's unit */
    double gap_d;             /* days between two entries, the median */
};

static const double quarter = 0.25;

/* false: there are too few, or no memory (then nothing is doubted that need not be). */
static bool usual_of(const struct doubting *d, size_t i, const struct held *h, struct usual *out)
{
    const struct vh_record *row = d->r->row;
    double *value = malloc(d->r->rows * sizeof *value), *gap = malloc(d->r->rows * sizeof *gap);
    size_t n = 0, gaps = 0, last = d->r->rows;

    for (size_t k = 0; value && gap && k < d->r->rows; k++) {
        if (!is_held(h, &row[i], &row[k]) || row[k].value <= 0.0)
            continue;
        if (last < k && row[k].day > row[last].day)
            gap[gaps++] = (double)(row[k].day - row[last].day);
        last = k;
        if (k != i)
            value[n++] = h->times * row[k].value;
    }
    const bool known = n >= PICKS_LEAST && gaps > 0;
    if (known) {
        gsl_sort(value, 1, n);
        gsl_sort(gap, 1, gaps);
        *out = (struct usual){gsl_stats_quantile_from_sorted_data(value, 1, n, quarter),
                              gsl_stats_median_from_sorted_data(value, 1, n),
                              gsl_stats_quantile_from_sorted_data(value, 1, n, 1.0 - quarter),
                              gsl_stats_median_from_sorted_data(gap, 1, gaps)};
    }
    free(value);
    free(gap);
    return known;
}

/* Days since the pick before it; the first: none. */
static double waited_d(const struct doubting *d, size_t i, const struct held *h)
{
    const struct vh_record *row = d->r->row;

    for (size_t k = i; k-- > 0;)
        if (is_held(h, &row[i], &row[k]) && row[k].day < row[i].day && row[k].value > 0.0)
            return (double)(row[i].day - row[k].day);
    return 0.0;
}

/* Far more than she usually picks: more than pick_doubt_ratio times the median of her picks and of
 * most of its neighbours. Where she let it hang longer than usual the rest of that time may bring
 * as much as usual on top. The neighbours are asked because a season begins small: its own median
 * then says too little. */
static bool is_unusual_pick(const struct doubting *d, size_t i, const struct held *h,
                            struct usual *usual)
{
    const struct vh_record *a = &d->r->row[i];

    if (!vh_record_is_pick(a->item) ||
        !is_against_most(d, i, h,
                         d->p->pick_doubt_ratio) || /* few are: only these are asked further */
        !usual_of(d, i, h, usual))
        return false;
    const double longer = vh_max(0.0, waited_d(d, i, h) / usual->gap_d - 1.0);
    const double most = d->p->pick_doubt_ratio + longer;
    return a->value > most * usual->middle && is_against_most(d, i, h, most);
}

/* Pounds in a house that is told of in kilograms are seldom a slip: only where the number would do
 * better as kilograms, or nothing tells. Kilograms in a house in pounds are asked about always: a
 * small pick of pounds would be believed at more than twice its weight. */
static bool is_meant_so(const struct doubting *d, size_t i, const struct held *h)
{
    const struct vh_record *a = &d->r->row[i];
    struct usual usual;

    if (d->house->us_units || !vh_record_is_pick(a->item))
        return !d->house->us_units;
    return a->value > 0.0 && usual_of(d, i, h, &usual) &&
           fabs(vh_log(a->value / usual.middle)) <=
               fabs(vh_log(vh_item_wrote(a, a->value) / usual.middle));
}

/* Was the same pick noted the other way too, by number or by weight, and is that one the slip? */
static bool is_beside_slip(const struct doubting *d, size_t i)
{
    const struct vh_record *row = d->r->row, *a = &row[i];
    struct usual usual;
    size_t k = i;

    if (!vh_record_is_pick(a->item))
        return false;
    while (k > 0 && row[k - 1].day == a->day)
        k--;
    for (; k < d->r->rows && row[k].day == a->day; k++) {
        if (!vh_record_is_pick(row[k].item) || row[k].item == a->item || row[k].sure ||
            row[k].planting != a->planting)
            continue;
        const struct held held = held_of(d, k);
        if (is_unusual_pick(d, k, &held, &usual))
            return true;
    }
    return false;
}

/* Trusses that can be in flower on the day of the record, of the fastest plant; infinite where the
 * crop is not known. */
static double trusses_by(const struct doubting *d, const struct vh_record *a)
{
    const struct vh_planting *p = &d->house->planting[a->planting];

    if (!p->crop)
        return HUGE_VAL;
    const double first = vh_max(1.0, p->standing.given ? p->standing.flowering_truss : 1.0);
    const double days = (double)(a->day - p->set_out);
    return floor(first + d->p->trusses_ahead + days * vh_plant_most_trusses_per_d(p->crop));
}

static bool above_all_bounds(const struct doubting *d, const struct vh_record *a, double *most)
{
    const struct vh_item_kind *k = vh_item_kind(a->item);

    *most = k->most * (k->of_planting ? d->house->planting[a->planting].plants : 1.0);
    if (a->item == VH_RECORD_FLOWERING_TRUSS || a->item == VH_RECORD_PICKING_TRUSS)
        *most = vh_min(*most, trusses_by(d, a));
    return *most > 0.0 && a->value > *most;
}

/* A count on a truss that cannot have flowered yet. */
static bool is_too_early(const struct doubting *d, struct vh_record *a)
{
    const double most = a->truss > 0 ? trusses_by(d, a) : HUGE_VAL;
    char item[64], date[11];

    if (a->truss <= most)
        return false;
    a->doubt = true;
    vh_item_say(a, item, sizeof item);
    vh_date_format(a->day, date);
    vh_warn(d->m, (struct vh_place){d->shown, a->line, 0, NULL},
            "%s of %s is of truss %d, but by %s it can have made %.0f at most; write the truss it "
            "was counted on",
            item, d->house->planting[a->planting].name, a->truss, date, most);
    return true;
}

static void doubt(const struct doubting *d, struct vh_record *a, const char *why)
{
    char item[64];

    a->doubt = true;
    vh_item_say(a, item, sizeof item);
    vh_warn(d->m, (struct vh_place){d->shown, a->line, 0, NULL},
            "%s of %s is %.6g, %s; it %s: mend it, or %s", item,
            d->house->planting[a->planting].name, vh_item_wrote(a, a->value), why,
            vh_record_is_pick(a->item) ? "counts for nothing" : "hardly counts",
            vh_record_how_sure(d->r));
}

/* No later entry of its kind, and none that it is held against? */
static bool is_last(const struct doubting *d, size_t i, const struct held *h)
{
    const struct vh_record *a = &d->r->row[i];

    for (size_t k = i + 1; k < d->r->rows; k++)
        if (same_kind(a, &d->r->row[k]) || is_held(h, a, &d->r->row[k]))
            return false;
    return true;
}

/* The planting's last pick, far less than she usually takes: the next promise counts on it. It may
 * well be right, so it is believed. */
static bool is_low_last_pick(const struct doubting *d, size_t i, const struct held *h,
                             struct usual *usual)
{
    const struct vh_record *a = &d->r->row[i];

    return vh_record_is_pick(a->item) && a->value > 0.0 && is_last(d, i, h) &&
           usual_of(d, i, h, usual) && d->p->pick_low_ratio * a->value < usual->low;
}

/* Three digits of the larger number, the same decimals in both; none where both are whole. */
static int even_decimals(double low, double high)
{
    const int decimals = high < 10.0 ? 2 : high < 100.0 ? 1 : 0;
    const double unit = decimals == 2 ? 0.01 : decimals == 1 ? 0.1 : 1.0;

    return fabs(low - round(low)) < unit / 2.0 && fabs(high - round(high)) < unit / 2.0 ? 0
                                                                                        : decimals;
}

static void say_unusual(const struct doubting *d, const struct vh_record *a, const struct held *h,
                        const struct usual *usual, const char *what_then)
{
    const bool counted = a->item == VH_RECORD_PICKED_FRUITS;
    const double low = counted ? floor(usual->low) : vh_item_wrote(a, usual->low),
                 high = counted ? ceil(usual->high) : vh_item_wrote(a, usual->high);
    const int digits = even_decimals(low, high);
    const bool us = d->house->us_units;
    char item[64], by[64] = "", from[32], to[32];

    if (h->fruit_g > 0.0)
        snprintf(by, sizeof by, " (as you %s, at %.3g %s a fruit)", counted ? "weighed" : "counted",
                 us ? h->fruit_g / vh_g_per_oz : h->fruit_g, us ? "oz" : "g");
    snprintf(from, sizeof from, "%.*f", digits, low);
    snprintf(to, sizeof to, "%.*f", digits, high);
    const bool is_one = strcmp(from, to) == 0;
    vh_item_say(a, item, sizeof item);
    vh_warn(d->m, (struct vh_place){d->shown, a->line, 0, NULL},
            "%s of %s is %.6g: you usually pick %s%s%s%s; is %.6g right? %s", item,
            d->house->planting[a->planting].name, vh_item_wrote(a, a->value), from,
            is_one ? "" : " to ", is_one ? "" : to, by, vh_item_wrote(a, a->value), what_then);
}

static void question(const struct doubting *d, struct vh_record *a, const struct held *h,
                     const struct usual *usual)
{
    a->low = true;
    say_unusual(d, a, h, usual, "it is believed, mend it if it is a slip");
}

static void question_thrown(const struct doubting *d, struct vh_record *a, double of_kg)
{
    char item[64];

    a->much = true;
    vh_item_say(a, item, sizeof item);
    vh_warn(d->m, (struct vh_place){d->shown, a->line, 0, NULL},
            "%s of %s is %.6g of the %.10g picked that day; is %.6g right? One such entry moves "
            "little; mend it if it is a slip",
            item, d->house->planting[a->planting].name, vh_item_wrote(a, a->value),
            vh_round_digits(vh_item_wrote(a, of_kg), 3), vh_item_wrote(a, a->value));
}

static void doubt_pick(const struct doubting *d, struct vh_record *a, const struct held *h,
                       const struct usual *usual)
{
    char then[160];

    a->doubt = true;
    snprintf(then, sizeof then, "it counts for nothing: mend it, or %s", vh_record_how_sure(d->r));
    say_unusual(d, a, h, usual, then);
}

const char *vh_record_how_sure(const struct vh_records *r)
{
    return r->has_notes ? "begin its note with `right`"
                        : "write `right` in a column `note`: add it to the header, and a separator"
                          " to every line";
}

void vh_records_doubt(struct vh_records *r, const struct vh_house *house,
                      const struct vh_record_params *p, const char *shown, struct vh_messages *m)
{
    const struct doubting d = {r, house, p, shown, m};

    for (size_t i = 0; i < r->rows; i++) {
        struct vh_record *a = &r->row[i];
        struct usual usual;
        char why[VH_FITS_ROOM];
        double most, of_kg;
        if (a->item == VH_RECORD_DONE || a->sure || is_too_early(&d, a))
            continue;
        const struct held own = of_its_kind(a), held = held_of(&d, i);
        if (above_all_bounds(&d, a, &most)) {
            snprintf(why, sizeof why, "more than the %.6g that can be", vh_item_wrote(a, most));
            doubt(&d, a, why);
            continue;
        }
        if (is_unusual_pick(&d, i, &held, &usual)) {
            doubt_pick(&d, a, &held, &usual);
            continue;
        }
        if (vh_record_is_other_unit(r, i, house, why) && !is_meant_so(&d, i, &held)) {
            doubt(&d, a, why);
            continue;
        }
        if (vh_record_is_odd(r, i, &house->planting[a->planting], p, is_beside_slip(&d, i), why)) {
            doubt(&d, a, why);
            continue;
        }
        if (is_last(&d, i, &own) && vh_record_is_much_thrown(r, i, p, &of_kg)) {
            question_thrown(&d, a, of_kg);
            continue;
        }
        if (is_low_last_pick(&d, i, &held, &usual)) {
            question(&d, a, &held, &usual);
            continue;
        }
        if (!is_against_most(&d, i, &own, 0.0))
            continue;
        if (vh_item_kind(a->item)->only_rises)
            snprintf(why, sizeof why, "which does not fit the entries before and after");
        else
            snprintf(why, sizeof why, "ten times its neighbours or a tenth of them");
        doubt(&d, a, why);
    }
    for (size_t i = 0; i < r->rows; i++) { /* now it is known which picks are believed */
        char why[VH_FITS_ROOM];
        if (!r->row[i].sure && vh_record_is_picked_undone(r, i, why))
            doubt(&d, &r->row[i], why);
    }
}
