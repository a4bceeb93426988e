#include "vh_csv.h"

#include "vh_number.h"

bool vh_csv_number(struct vh_csv_cell cell, char decimal, double *value)
{
    if (cell.text == NULL)
        return false;
    return vh_number_parse(cell.text, cell.length, decimal == 0 ? '.' : decimal, value);
}
