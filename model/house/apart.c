#include "vh_apart.h"

#include <stdio.h>
#include <stdlib.h>

#include "vh_math.h"

/* Names that were asked for: they hang on how the fruit is kept and on what its crop gives off and
 * bears, not on the planting. */
struct said {
    bool gives, is_hurt;
    size_t but; /* the planting itself, where its own crop would hurt it */
    int64_t day;
    double low_c, high_c;
    char names[VH_APART_NAMES];
};

struct vh_apart {
    const struct vh_run *run;
    struct vh_waits *kept; /* [planting] */
    bool *feeds;           /* [planting][market day] */
    struct said *said;
    size_t saids, room;
};

static bool is_picked(const struct vh_season *s, size_t d)
{
    return s->day[d].pick_day && s->day[d].picked.fresh_g > 0.0;
}

int64_t vh_market_day_before(const struct vh_market *m, int64_t day)
{
    int64_t before = INT64_MIN;

    for (size_t i = 0; i < m->days && m->day[i] < day; i++)
        before = m->day[i];
    return before;
}

/* Which market days a season's picks are for: both lists rise. */
static void find_fed(const struct vh_market *m, const struct vh_season *s, bool *feeds)
{
    size_t i = 0;

    for (size_t d = 0; d < s->days; d++) {
        while (i < m->days && m->day[i] < s->first_day + (int64_t)d)
            i++;
        if (i < m->days && is_picked(s, d))
            feeds[i] = true;
    }
}

struct vh_apart *vh_apart_new(const struct vh_run *run)
{
    const size_t n = run->house->plantings;
    const struct vh_market *m = &run->house->market;
    struct vh_apart *a = calloc(1, sizeof *a);

    if (!a)
        return NULL;
    a->run = run;
    a->kept = calloc(n + 1, sizeof *a->kept);
    a->feeds = calloc(n * m->days + 1, sizeof *a->feeds);
    if (!a->kept || !a->feeds) {
        vh_apart_free(a);
        return NULL;
    }
    for (size_t k = 0; k < n; k++)
        find_fed(m, &run->season[k], &a->feeds[k * m->days]);
    return a;
}

void vh_apart_free(struct vh_apart *a)
{
    if (!a)
        return;
    free(a->kept);
    free(a->feeds);
    free(a->said);
    free(a);
}

static bool kept_for(struct vh_apart *a, size_t planting, int64_t pick, struct vh_keep *k)
{
    return vh_storeroom_keep_known(a->run->house, a->run->season[planting].planting, pick,
                                   &a->kept[planting], k);
}

bool vh_apart_kept(struct vh_apart *a, size_t planting, int64_t pick, struct vh_keep *k,
                   int64_t *day)
{
    return vh_market_day_for(&a->run->house->market, pick, day) && kept_for(a, planting, pick, k);
}

bool vh_apart_feeds(const struct vh_apart *a, size_t planting, size_t day)
{
    return a->feeds[planting * a->run->house->market.days + day];
}

bool vh_apart_must(const struct vh_apart *a, size_t one, size_t other)
{
    return one != other && vh_keep_apart(&a->run->season[one].planting->crop->store,
                                         &a->run->season[other].planting->crop->store);
}

/* Is some of a planting's fruit kept at a temperature of `like` until that day, the first after
 * `after`? */
static bool lies_beside(struct vh_apart *a, size_t planting, int64_t after, int64_t day,
                        const struct said *like)
{
    const struct vh_season *s = &a->run->season[planting];
    const int64_t first = after < s->first_day ? s->first_day : after + 1;

    for (int64_t date = first; date <= day && date < s->first_day + (int64_t)s->days; date++) {
        struct vh_keep k;
        if (is_picked(s, (size_t)(date - s->first_day)) && kept_for(a, planting, date, &k) &&
            k.low_c <= like->high_c && like->low_c <= k.high_c)
            return true;
    }
    return false;
}

static void find_names(struct vh_apart *a, size_t planting, struct said *said)
{
    const int64_t after = vh_market_day_before(&a->run->house->market, said->day);
    size_t n = 0;

    said->names[0] = '\0';
    for (size_t other = 0; other < a->run->house->plantings && n < VH_APART_NAMES; other++)
        if (vh_apart_must(a, planting, other) && lies_beside(a, other, after, said->day, said))
            n += (size_t)snprintf(said->names + n, VH_APART_NAMES - n, "%s%s", n ? ", " : "",
                                  a->run->season[other].planting->name);
}

static bool is_same(const struct said *a, const struct said *b)
{
    return a->day == b->day && a->low_c == b->low_c && a->high_c == b->high_c && a->but == b->but &&
           a->gives == b->gives && a->is_hurt == b->is_hurt;
}

const char *vh_apart_names(struct vh_apart *a, size_t planting, int64_t day,
                           const struct vh_keep *k)
{
    const struct vh_store_params *p = &a->run->season[planting].planting->crop->store;
    struct said asked = {.gives = p->gives_ethylene != 0,
                         .is_hurt = p->hurt_by_ethylene != 0,
                         .but = SIZE_MAX,
                         .day = day,
                         .low_c = k->low_c,
                         .high_c = k->high_c};

    if (vh_keep_apart(p, p))
        asked.but = planting;
    for (size_t i = a->saids; i-- > 0;)
        if (is_same(&a->said[i], &asked))
            return a->said[i].names;
    if (a->saids == a->room) {
        const size_t first = 32, room = a->room ? 2 * a->room : first;
        struct said *more = realloc(a->said, room * sizeof *more);
        if (!more)
            return NULL;
        a->said = more;
        a->room = room;
    }
    struct said *said = &a->said[a->saids++];
    *said = asked;
    find_names(a, planting, said);
    return said->names;
}
