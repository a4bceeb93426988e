#include "vinehand.h"

#include <math.h>

double vh_round_on(double *rest, double amount, double step)
{
    const double owed = *rest + amount;
    const double given = floor(owed / step + 0.5) * step;

    *rest = owed - given;
    return given;
}
