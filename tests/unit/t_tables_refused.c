/* Tables of kept factors and of ripening off the vine: each wrong row is told by its line. Truth:
 * the headers' lists of what is refused. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_house.h"
#include "vh_kept.h"
#include "vh_math.h"
#include "vh_ripen.h"

static struct vh_messages *messages;
static struct vh_house house;

static void begin(void)
{
    messages = vh_messages_create();
    house = (struct vh_house){.plantings = 2};
    house.planting = calloc(2, sizeof *house.planting);
    house.planting[0].name = strdup("slicers");
    house.planting[0].crop_name = strdup("tomato-large");
    house.planting[1].name = strdup("cherries");
    house.planting[1].crop_name = strdup("tomato-cherry");
}

static void end(void)
{
    vh_house_clear(&house);
    vh_messages_free(messages);
}

TestSuite(tables_refused, .init = begin, .fini = end);

/* Just one message, on this line and with this part. */
static void said(const char *text, int64_t line, const char *part)
{
    cr_expect(eq(sz, vh_messages_count(messages), 1), "%s", text);
    if (vh_messages_count(messages) > 0) {
        const struct vh_message *one = vh_messages_at(messages, 0);
        cr_expect(eq(i64, one->line, line), "%s: %s", text, one->text);
        cr_expect(strstr(one->text, part) != NULL, "%s: %s", text, one->text);
    }
    vh_messages_free(messages);
    messages = vh_messages_create();
}

#define KEPT "crop_or_planting,name,factor,low,high\n"

static enum vh_status read_kept(const char *rows)
{
    char text[600];

    snprintf(text, sizeof text, KEPT "%s", rows);
    return vh_kept_read_memory(&house, text, strlen(text), "kept.csv", messages);
}

static void kept_refused(const char *rows, int64_t line, const char *part)
{
    cr_expect(eq(int, read_kept(rows), VH_BAD_INPUT), "%s", rows);
    said(rows, line, part);
}

Test(tables_refused, kept_factors)
{
    kept_refused("slicers,,1,0.9,1.1\n", 2, "nothing called `` is learnt");
    kept_refused("slicers,set,,0.9,1.1\n", 2, "factor `` is no number from 0.05 to 20");
    kept_refused("slicers,set,x,0.9,1.1\n", 2, "factor `x` is no number");
    kept_refused("slicers,set,0.01,0.9,1.1\n", 2, "factor `0.01` is no number");
    kept_refused("slicers,set,1,0.9,21\n", 2, "high `21` is no number");
    kept_refused("slicers,set,0.8,0.9,1.1\n", 2, "factor 0.8 does not lie between");
    kept_refused("slicers,set,1.2,0.9,1.1\n", 2, "factor 1.2 does not lie between");
    kept_refused("slicers,set,1,1,1\n", 2, "factor 1 does not lie between");
    kept_refused("slicers,set,1,0.9,1.1\nslicers,set,1,0.9,1.1\n", 3,
                 "set of slicers stands twice; keep one");
    kept_refused("house,light,1,0.9,1.1\nhouse,light,1,0.9,1.1\n", 3,
                 "light of house stands twice; keep one");
    kept_refused("house,set,1,0.9,1.1\n", 2, "set belongs to a crop or a planting");
    kept_refused("slicers,light,1,0.9,1.1\n", 2, "light is of the house");
    kept_refused("house,log_offset_c,11,-1,1\n", 2, "factor `11` is no number from -10 to 10");
}

/* The ends themselves are taken; 80 % of a normal error are 2.5631 standard deviations wide. */
Test(tables_refused, kept_factors_at_their_ends_are_taken)
{
    static const struct {
        double factor, low, high;
    } fit[] = {{0.9, 0.9, 1.1}, {1.1, 0.9, 1.1}, {0.05, 0.05, 0.06}, {20.0, 19.0, 20.0}};
    const double wide = 2.0 * 1.2815515655446004;

    for (size_t i = 0; i < sizeof fit / sizeof fit[0]; i++) {
        char row[80];
        snprintf(row, sizeof row, "slicers,set,%g,%g,%g\n", fit[i].factor, fit[i].low, fit[i].high);
        cr_expect(eq(int, read_kept(row), VH_OK), "%s", row);
        const struct vh_kept *k = &house.planting[0].kept[VH_KEPT_SET];
        cr_expect(k->given && k->mean == fit[i].factor, "%s", row);
        cr_expect(epsilon_eq(dbl, k->sd, vh_log(fit[i].high / fit[i].low) / wide, 1e-12), "%s",
                  row);
    }
    cr_expect(eq(int, read_kept("house,log_offset_c,-10,-10,10\n"), VH_OK));
    cr_expect(epsilon_eq(dbl, house.kept[VH_KEPT_LOG_OFFSET].sd, 20.0 / wide, 1e-12));
}

Test(tables_refused, a_plantings_own_factor_stays_before_and_behind_that_of_its_crop)
{
    for (int own_first = 0; own_first < 2; own_first++) {
        const char *own = "slicers,set,1.2,1.1,1.3\n", *crop = "tomato-large,set,0.8,0.7,0.9\n";
        char rows[100];
        snprintf(rows, sizeof rows, "%s%s", own_first ? own : crop, own_first ? crop : own);
        cr_expect(eq(int, read_kept(rows), VH_OK));
        cr_expect(eq(dbl, house.planting[0].kept[VH_KEPT_SET].mean, 1.2), "%s", rows);
    }
    cr_expect(eq(int, read_kept("tomato-large,set,0.8,0.7,0.9\n"), VH_OK));
    cr_expect(eq(dbl, house.planting[0].kept[VH_KEPT_SET].mean, 0.8));
    cr_expect(eq(int, read_kept("peppers,set,1,0.9,1.1\n"), VH_OK));
    said("peppers", 2, "no planting or crop here is called peppers");
}

/* ---- ripening off the vine ---- */

#define RIPEN "stage,temp_c,days\n"
#define GREEN "mature-green,12,20\nmature-green,20,10\n"
#define BREAKER "breaker,12,15\nbreaker,20,7\n"
#define TURNING "turning,12,10\nturning,20,5\n"
#define PINK "pink,12,6\npink,20,3\n"

static void ripen_refused(const char *text, int64_t line, const char *part)
{
    struct vh_ripen_table t;

    cr_expect(
        eq(int, vh_ripen_read_memory(text, strlen(text), "off.csv", &t, messages), VH_BAD_INPUT),
        "%s", text);
    said(text, line, part);
}

Test(tables_refused, ripening_off_the_vine)
{
    struct vh_ripen_table t;
    const char good[] = RIPEN GREEN BREAKER TURNING PINK;

    cr_expect(eq(int, vh_ripen_read_memory(good, strlen(good), "off.csv", &t, messages), VH_OK));
    cr_expect(eq(dbl, t.days[VH_RIPEN_LIGHT_RED][1], 1.5));
    ripen_refused("stage,temp_c\nx,1\n", 1, "the columns of ripening off the vine are");
    ripen_refused("stage,days,temp_c\nx,1,2\n", 1, "the columns of ripening off the vine are");
    ripen_refused("stage,,days\nx,1,2\n", 1, "the columns of ripening off the vine are");
    ripen_refused("stage,temp_c,days,basis,source,place,remark\nx,1,2,,,,\n", 1,
                  "the columns of ripening off the vine are");
    ripen_refused(RIPEN "red,12,1\n", 2, "stage `red`");
    ripen_refused(RIPEN ",12,1\n", 2, "stage ``");
    ripen_refused(RIPEN GREEN "turning,12,1\n", 4, "stage `turning`");
    ripen_refused(RIPEN GREEN BREAKER TURNING PINK "pink,25,1\n", 10, "stage `pink`");
    ripen_refused(RIPEN "mature-green,x,20\n", 2, "temp_c or days is no number");
    ripen_refused(RIPEN "mature-green,12,x\n", 2, "temp_c or days is no number");
    ripen_refused(RIPEN "mature-green,12,0\n", 2, "temp_c or days is no number");
    ripen_refused(RIPEN "mature-green,12,20\nmature-green,12,20\n", 3, "12 degC after 12");
    ripen_refused(RIPEN GREEN "breaker,13,15\n", 4, "breaker at 13 degC; 12 would be next");
    ripen_refused(RIPEN GREEN "breaker,12,20\n", 4,
                  "breaker takes 20 days, mature-green no longer");
    ripen_refused(RIPEN GREEN, 0, "rows are missing");
    ripen_refused(RIPEN "mature-green,12,20\nbreaker,12,15\nturning,12,10\npink,12,6\n", 0,
                  "rows are missing");
}
