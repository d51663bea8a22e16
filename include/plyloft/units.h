/* units.h - shop units and their factors to SI.
 *
 * A part file and every output use shop units, and a key ends in its unit; inside the
 * program all is SI.  Temperatures stay in degrees Celsius (only differences are used).
 */
#ifndef PLYLOFT_UNITS_H
#define PLYLOFT_UNITS_H

enum pl_unit {
    PL_NO_UNIT, PL_MM, PL_DEG, PL_GSM, PL_KG_M3, PL_GPA, PL_MPA, PL_NEWTON, PL_NM_PER_RAD, PL_KG, PL_M_S, PL_KM_H,
    PL_MINUTE, PL_CELSIUS, PL_UNITS
};

/* Value in SI = value in the file x factor. */
double pl_unit_to_si(enum pl_unit unit);

/* "mm", "g/m2", "" for none. */
const char *pl_unit_name(enum pl_unit unit);

#endif
