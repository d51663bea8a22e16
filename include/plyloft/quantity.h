/* quantity.h - numbers as people type them, with units and a little arithmetic.
 *
 * "272,5", "10 3/4 in", "2*(100+5)", "5' 3\"", "38 %": a decimal point or comma, + - * / and parentheses over
 * plain numbers, mixed fractions, and one unit behind the whole, turned into the unit of the file.  What cannot be
 * understood is refused with one sentence; thousands set apart are, since "1.234" might mean either.  Knows neither
 * fields nor files; the units are those of units.h.  Free of the locale.
 */
#ifndef PLYLOFT_QUANTITY_H
#define PLYLOFT_QUANTITY_H

#include "plyloft/problems.h"
#include "plyloft/units.h"

enum { PL_QUANTITY_LONGEST = 80, PL_QUANTITY_DEEPEST = 16, PL_QUANTITY_WHY = 160 };

/* Reads what was typed for a field of that unit; *file_value is in the unit of the file, rounded to ten significant
 * digits so that 0.5 in is 12.7.  PL_BAD_INPUT otherwise: *file_value is as before, and why (of size bytes, safe to
 * print) is one clause without a full stop, such as "kg is a mass; this field is a length in mm". */
enum pl_status pl_quantity_read(const char *typed, enum pl_unit unit, double *file_value, char *why, size_t size);

/* The same for two numbers: "100:30", "100 30", "100 to 30", "[100, 30]". */
enum pl_status pl_quantity_read_pair(const char *typed, enum pl_unit unit, double file_values[2], char *why,
                                     size_t size);

#endif
