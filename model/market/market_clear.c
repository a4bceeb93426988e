#include "vh_market.h"

#include <stdlib.h>

void vh_market_clear(struct vh_market *m)
{
    for (size_t i = 0; i < m->goods; i++) {
        free(m->good[i].name);
        free(m->good[i].per_kg);
        free(m->good[i].per_fruit);
    }
    for (size_t i = 0; i < m->orders; i++)
        free(m->order[i].who);
    for (size_t i = 0; i < m->tables; i++)
        vh_grades_clear(&m->table[i]);
    free(m->open.date);
    free(m->day);
    free(m->good);
    free(m->good_of);
    free(m->by_good);
    free(m->order);
    free(m->table);
    *m = (struct vh_market){0};
}
