#include "plyloft/units.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

static const struct {
    const char *name;
    double to_si;
    enum pl_measure measure;
} units[PL_UNITS] = {
    [PL_NO_UNIT] = {"", 1, PL_PLAIN_NUMBER},
    [PL_MM] = {"mm", 1e-3, PL_LENGTH},
    [PL_DEG] = {"deg", M_PI / 180, PL_ANGLE},
    [PL_GSM] = {"g/m2", 1e-3, PL_AREAL_WEIGHT},
    [PL_KG_M3] = {"kg/m3", 1, PL_DENSITY},
    [PL_GPA] = {"GPa", 1e9, PL_STRESS},
    [PL_MPA] = {"MPa", 1e6, PL_STRESS},
    [PL_NEWTON] = {"N", 1, PL_FORCE},
    [PL_NM_PER_RAD] = {"N m/rad", 1, PL_SPRING},
    [PL_KG] = {"kg", 1, PL_MASS},
    [PL_M_S] = {"m/s", 1, PL_SPEED},
    [PL_KM_H] = {"km/h", 1 / 3.6, PL_SPEED},
    [PL_MINUTE] = {"min", 60, PL_TIME},
    [PL_CELSIUS] = {"C", 1, PL_TEMPERATURE},
    [PL_M2_MIN] = {"m2/min", 1.0 / 60, PL_WORKING_RATE},
};

double pl_unit_to_si(enum pl_unit unit)
{
    return units[unit].to_si;
}

const char *pl_unit_name(enum pl_unit unit)
{
    return units[unit].name;
}

enum pl_measure pl_unit_measure(enum pl_unit unit)
{
    return units[unit].measure;
}

const char *pl_measure_words(enum pl_measure measure)
{
    static const char *const words[PL_MEASURES] = {
        [PL_PLAIN_NUMBER] = "a plain number", [PL_SHARE] = "a share of the whole", [PL_LENGTH] = "a length",
        [PL_ANGLE] = "an angle", [PL_AREAL_WEIGHT] = "an areal weight", [PL_DENSITY] = "a density",
        [PL_STRESS] = "a stress", [PL_FORCE] = "a force", [PL_SPRING] = "a rotation spring", [PL_MASS] = "a mass",
        [PL_SPEED] = "a speed", [PL_TIME] = "a time", [PL_TEMPERATURE] = "a temperature",
        [PL_WORKING_RATE] = "a working rate",
    };
    return words[measure];
}

/* ---- typed units ---- */

/* Exact by definition: the inch of 25.4 mm and the pound of 0.45359237 kg (1959 yard and pound agreement), standard
 * gravity 9.80665 m/s2 (CGPM 1901). */
#define INCH_M 0.0254
#define FOOT_M (12 * INCH_M)
#define YARD_M (36 * INCH_M)
#define POUND_KG 0.45359237
#define GRAVITY_M_S2 9.80665
#define PSI_PA (POUND_KG * GRAVITY_M_S2 / (INCH_M * INCH_M))

const struct pl_typed_unit pl_typed_units[] = {
    {"%", PL_SHARE, 0.01, 0, NULL},
    {"mm", PL_LENGTH, 1e-3, 0, NULL},
    {"cm", PL_LENGTH, 1e-2, 0, NULL},
    {"m", PL_LENGTH, 1, 0, NULL},
    {"in", PL_LENGTH, INCH_M, 0, NULL},
    {"inch", PL_LENGTH, INCH_M, 0, NULL},
    {"inches", PL_LENGTH, INCH_M, 0, NULL},
    {"\"", PL_LENGTH, INCH_M, 0, NULL},
    {"''", PL_LENGTH, INCH_M, 0, NULL},
    {"ft", PL_LENGTH, FOOT_M, 0, "in"},
    {"foot", PL_LENGTH, FOOT_M, 0, "in"},
    {"feet", PL_LENGTH, FOOT_M, 0, "in"},
    {"'", PL_LENGTH, FOOT_M, 0, "in"},
    {"deg", PL_ANGLE, M_PI / 180, 0, NULL},
    {"\u00b0", PL_ANGLE, M_PI / 180, 0, NULL},
    {"rad", PL_ANGLE, 1, 0, NULL},
    {"g/m2", PL_AREAL_WEIGHT, 1e-3, 0, NULL},
    {"gsm", PL_AREAL_WEIGHT, 1e-3, 0, NULL},
    {"kg/m2", PL_AREAL_WEIGHT, 1, 0, NULL},
    {"oz/yd2", PL_AREAL_WEIGHT, POUND_KG / 16 / (YARD_M * YARD_M), 0, NULL},
    {"kg/m3", PL_DENSITY, 1, 0, NULL},
    {"g/cm3", PL_DENSITY, 1000, 0, NULL},
    {"lb/ft3", PL_DENSITY, POUND_KG / (FOOT_M * FOOT_M * FOOT_M), 0, NULL},
    {"pcf", PL_DENSITY, POUND_KG / (FOOT_M * FOOT_M * FOOT_M), 0, NULL},
    {"Pa", PL_STRESS, 1, 0, NULL},
    {"kPa", PL_STRESS, 1e3, 0, NULL},
    {"MPa", PL_STRESS, 1e6, 0, NULL},
    {"N/mm2", PL_STRESS, 1e6, 0, NULL},
    {"GPa", PL_STRESS, 1e9, 0, NULL},
    {"bar", PL_STRESS, 1e5, 0, NULL},
    {"psi", PL_STRESS, PSI_PA, 0, NULL},
    {"ksi", PL_STRESS, 1e3 * PSI_PA, 0, NULL},
    {"Msi", PL_STRESS, 1e6 * PSI_PA, 0, NULL},
    {"N", PL_FORCE, 1, 0, NULL},
    {"kN", PL_FORCE, 1e3, 0, NULL},
    {"kgf", PL_FORCE, GRAVITY_M_S2, 0, NULL},
    {"lbf", PL_FORCE, POUND_KG * GRAVITY_M_S2, 0, NULL},
    {"Nm/rad", PL_SPRING, 1, 0, NULL},
    {"Nm/deg", PL_SPRING, 180 / M_PI, 0, NULL},
    {"kg", PL_MASS, 1, 0, NULL},
    {"g", PL_MASS, 1e-3, 0, NULL},
    {"lb", PL_MASS, POUND_KG, 0, NULL},
    {"lb", PL_FORCE, POUND_KG * GRAVITY_M_S2, 0, NULL},
    {"oz", PL_MASS, POUND_KG / 16, 0, NULL},
    {"km/h", PL_SPEED, 1 / 3.6, 0, NULL},
    {"kmh", PL_SPEED, 1 / 3.6, 0, NULL},
    {"m/s", PL_SPEED, 1, 0, NULL},
    {"mph", PL_SPEED, 5280 * FOOT_M / 3600, 0, NULL},
    {"s", PL_TIME, 1, 0, NULL},
    {"min", PL_TIME, 60, 0, NULL},
    {"h", PL_TIME, 3600, 0, "min"},
    {"C", PL_TEMPERATURE, 1, 0, NULL},
    {"\u00b0C", PL_TEMPERATURE, 1, 0, NULL},
    {"degC", PL_TEMPERATURE, 1, 0, NULL},
    {"F", PL_TEMPERATURE, 5.0 / 9, -32, NULL},
    {"\u00b0F", PL_TEMPERATURE, 5.0 / 9, -32, NULL},
    {"degF", PL_TEMPERATURE, 5.0 / 9, -32, NULL},
    {"K", PL_TEMPERATURE, 1, -273.15, NULL},
    {"m2/min", PL_WORKING_RATE, 1.0 / 60, 0, NULL},
    {"m2/h", PL_WORKING_RATE, 1.0 / 3600, 0, NULL},
    {"ft2/min", PL_WORKING_RATE, FOOT_M * FOOT_M / 60, 0, NULL},
};
const size_t pl_n_typed_units = sizeof pl_typed_units / sizeof *pl_typed_units;

/* strcasecmp would ask the locale, in some of which I and i are two letters. */
static bool same_letters(const char *a, const char *b)
{
    for (; *a && *b; a++, b++) {
        int x = *a >= 'A' && *a <= 'Z' ? *a + 32 : *a, y = *b >= 'A' && *b <= 'Z' ? *b + 32 : *b;
        if (x != y)
            return false;
    }
    return *a == *b;
}

const struct pl_typed_unit *pl_typed_unit_find(const char *spelling, enum pl_measure wanted)
{
    const struct pl_typed_unit *found = NULL;
    if (!strcmp(spelling, "mPa"))
        return NULL;
    for (size_t i = 0; i < pl_n_typed_units; i++) {
        const struct pl_typed_unit *unit = &pl_typed_units[i];
        if (same_letters(unit->spelling, spelling) && (!found || unit->measure == wanted))
            found = unit;
    }
    return found;
}
