/* units.h - shop units, their factors to SI, and the units people type.
 *
 * A part file and every output use shop units, and a key ends in its unit; inside the
 * program all is SI.  Temperatures stay in degrees Celsius (only differences are used).
 * What is typed may come in any unit listed in units.c; quantity.h reads it.
 */
#ifndef PLYLOFT_UNITS_H
#define PLYLOFT_UNITS_H

#include <stddef.h>

enum pl_unit {
    PL_NO_UNIT, PL_MM, PL_DEG, PL_GSM, PL_KG_M3, PL_GPA, PL_MPA, PL_NEWTON, PL_NM_PER_RAD, PL_KG, PL_M_S, PL_KM_H,
    PL_MINUTE, PL_CELSIUS, PL_M2_MIN, PL_UNITS
};

/* Value in SI = value in the file x factor. */
double pl_unit_to_si(enum pl_unit unit);

/* "mm", "g/m2", "" for none. */
const char *pl_unit_name(enum pl_unit unit);

/* What a number measures.  Moduli are stresses too. */
enum pl_measure {
    PL_PLAIN_NUMBER, PL_SHARE, PL_LENGTH, PL_ANGLE, PL_AREAL_WEIGHT, PL_DENSITY, PL_STRESS, PL_FORCE, PL_SPRING,
    PL_MASS, PL_SPEED, PL_TIME, PL_TEMPERATURE, PL_WORKING_RATE, PL_MEASURES
};

enum pl_measure pl_unit_measure(enum pl_unit unit);

/* "a length", "an angle", "a plain number". */
const char *pl_measure_words(enum pl_measure measure);

/* A unit as people type it.  Value in SI = (value typed + zero) x to_si. */
struct pl_typed_unit {
    const char *spelling;
    enum pl_measure measure;
    double to_si, zero;
    const char *then;  /* the smaller unit that may follow with a number of its own, as inches follow feet; or NULL */
};

extern const struct pl_typed_unit pl_typed_units[];
extern const size_t pl_n_typed_units;

/* The unit of that spelling, blanks taken out and powers written plainly ("g/m2"); that of the measure wanted when
 * several are spelled alike (lb).  Capitals do not matter, but for mPa, which nobody here means.  NULL: unknown. */
const struct pl_typed_unit *pl_typed_unit_find(const char *spelling, enum pl_measure wanted);

#endif
