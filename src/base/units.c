#include "plyloft/units.h"

#include <math.h>

static const struct {
    const char *name;
    double to_si;
} units[PL_UNITS] = {
    [PL_NO_UNIT] = {"", 1},
    [PL_MM] = {"mm", 1e-3},
    [PL_DEG] = {"deg", M_PI / 180},
    [PL_GSM] = {"g/m2", 1e-3},
    [PL_KG_M3] = {"kg/m3", 1},
    [PL_GPA] = {"GPa", 1e9},
    [PL_MPA] = {"MPa", 1e6},
    [PL_NEWTON] = {"N", 1},
    [PL_NM_PER_RAD] = {"N m/rad", 1},
    [PL_KG] = {"kg", 1},
    [PL_M_S] = {"m/s", 1},
    [PL_KM_H] = {"km/h", 1 / 3.6},
    [PL_MINUTE] = {"min", 60},
    [PL_CELSIUS] = {"C", 1},
};

double pl_unit_to_si(enum pl_unit unit)
{
    return units[unit].to_si;
}

const char *pl_unit_name(enum pl_unit unit)
{
    return units[unit].name;
}
