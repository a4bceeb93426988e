#include "vh_hot_day.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { WEEK_D = 7, DAYS_ROOM = 40 };
enum { NAMED_MOST = 3 }; /* days in three letters */

/* The middle of the futures, else the number itself. */
static double likely(const struct vh_table *t, size_t row, const char *middle, const char *number)
{
    const double of_futures = vh_cell_number(t, row, middle);

    return isfinite(of_futures) ? of_futures : vh_cell_number(t, row, number);
}

double vh_hot_day_c(const struct vh_table *climate_days, size_t row)
{
    const double hours = likely(climate_days, row, "hours_above_30_c_p50", "hours_above_30_c");

    return hours > 0.0 ? likely(climate_days, row, "tmax_c_p50", "tmax_c") : (double)NAN;
}

bool vh_hot_days(const struct vh_table *climate_days, int64_t today, enum vh_say_units units,
                 const char *degree, char said[VH_HOT_ROOM])
{
    static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    char text[DAYS_ROOM] = "", degrees[VH_SAY_ROOM], perhaps[VH_SAY_ROOM];
    double hottest = -HUGE_VAL, most = -HUGE_VAL;
    int days = 0, hot[WEEK_D];

    for (size_t i = 0; climate_days && i < vh_table_rows(climate_days); i++) {
        const double day = vh_cell_number(climate_days, i, "date") - (double)today;
        const double c = vh_hot_day_c(climate_days, i);
        if (!(day >= 0.0 && day < WEEK_D) || isnan(c))
            continue;
        hot[days++] = (int)day;
        hottest = fmax(hottest, c);
        most = fmax(most, vh_cell_number(climate_days, i, "tmax_c_p90"));
    }
    for (int i = 0; i < days; i++)
        snprintf(text + strlen(text), sizeof text - strlen(text), "%s%.*s", i > 0 ? " " : "",
                 days > NAMED_MOST ? 2 : 3, weekday[vh_date_weekday(today + hot[i])]);
    vh_say_degrees(hottest, units, degree, degrees);
    vh_say_degrees(most, units, degree, perhaps);
    const bool differ = perhaps[0] && strcmp(degrees, perhaps) != 0;
    snprintf(said, VH_HOT_ROOM, "%s %.*s%s%s: begin at dawn, out by 9, drink, shade",
             days == WEEK_D ? "every day" : text,
             (int)(differ ? strcspn(degrees, " ") : strlen(degrees)), degrees, differ ? " to " : "",
             differ ? perhaps : "");
    return days > 0;
}
