/* vh_climate_columns.h - the columns of the climate files that a grower brings. */
#ifndef VH_CLIMATE_COLUMNS_H
#define VH_CLIMATE_COLUMNS_H

#include "vh_brought.h"
#include "vh_climate.h"

/* Each column of logs, outside files and normals. p: what a temperature inside can be. */
enum vh_status vh_climate_columns(const struct vh_house_params *p, vh_brought_take take,
                                  void *context);
/* Those of normals alone. */
enum vh_status vh_normals_columns(vh_brought_take take, void *context);

#endif
