#include "vinehand.h"

#include <math.h>
#include <stdio.h>

#include "vh_number.h"

double vh_round_on(double *rest, double amount, double step)
{
    const double owed = *rest + amount;
    const double given = floor(owed / step + 0.5) * step;

    *rest = owed - given;
    return given;
}

double vh_round_digits(double value, int digits)
{
    enum { ROOM = 40 }; /* sign, 17 digits, exponent */
    char text[ROOM];
    const int n = snprintf(text, sizeof text, "%.*e", digits - 1, value);

    if (n > 0 && n < ROOM)
        vh_number_parse(text, (size_t)n, '.', &value); /* of nan and inf nothing is changed */
    return value;
}
