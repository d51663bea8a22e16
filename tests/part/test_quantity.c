/* Numbers as people type them: every unit, arithmetic against an evaluator of the test's own, and each refusal. */
#include "parts.h"

#include "part_text.h"

#include "plyloft/buffer.h"
#include "plyloft/part_edit.h"
#include "plyloft/quantity.h"
#include "plyloft/text.h"

#include <locale.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static double read_as(enum pl_unit unit, const char *typed)
{
    char why[PL_QUANTITY_WHY] = "";
    double value = -12345;
    if (pl_quantity_read(typed, unit, &value, why, sizeof why) != PL_OK)
        fail_msg("\"%s\" was not taken: %s", typed, why);
    return value;
}

/* Refused for that reason, and the value is as before. */
static void refused(enum pl_unit unit, const char *typed, const char *reason)
{
    char why[PL_QUANTITY_WHY] = "";
    double value = -12345;
    if (pl_quantity_read(typed, unit, &value, why, sizeof why) != PL_BAD_INPUT)
        fail_msg("\"%s\" was taken as %g", typed, value);
    assert_string_equal(why, reason);
    assert_close(value, -12345, 0);
}

/* ---- units ---- */

/* Each with a number worked out by hand; inch 25.4 mm, pound 0.45359237 kg, pound-force 4.4482216152605 N. */
static const struct {
    enum pl_unit unit;
    const char *spelling, *typed;
    double value;
} worked[] = {
    {PL_NO_UNIT, "%", "38 %", 0.38},
    {PL_MM, "mm", "12.5 mm", 12.5},
    {PL_MM, "cm", "12.5 cm", 125},
    {PL_MM, "m", "0,64 m", 640},
    {PL_MM, "in", "0.5 in", 12.7},
    {PL_MM, "inch", "1/8 inch", 3.175},
    {PL_MM, "inches", "10 inches", 254},
    {PL_MM, "\"", "1 1/2\"", 38.1},
    {PL_MM, "''", "2''", 50.8},
    {PL_MM, "ft", "2 ft", 609.6},
    {PL_MM, "foot", "1 foot", 304.8},
    {PL_MM, "feet", "4 feet", 1219.2},
    {PL_MM, "'", "2' 3\"", 685.8}, /* 27 inches */
    {PL_DEG, "deg", "45 deg", 45},
    {PL_DEG, "\u00b0", "-1.5\u00b0", -1.5},
    {PL_DEG, "rad", "0.1 rad", 5.729577951}, /* 18/pi */
    {PL_GSM, "g/m2", "163 g/m2", 163},
    {PL_GSM, "gsm", "163gsm", 163},
    {PL_GSM, "kg/m2", "0.3 kg/m2", 300},
    {PL_GSM, "oz/yd2", "4 oz/yd2", 135.6229899}, /* 4 x 28.349523125 g over 0.83612736 m2 */
    {PL_KG_M3, "kg/m3", "33 kg/m3", 33},
    {PL_KG_M3, "g/cm3", "2.56 g/cm3", 2560},
    {PL_KG_M3, "lb/ft3", "2 lb/ft3", 32.03692675}, /* 2 x 0.45359237 / 0.028316846592 */
    {PL_KG_M3, "pcf", "2 pcf", 32.03692675},
    {PL_MPA, "Pa", "210000 Pa", 0.21},
    {PL_MPA, "kPa", "280 kPa", 0.28},
    {PL_GPA, "MPa", "17000 MPa", 17},
    {PL_MPA, "N/mm2", "240 N/mm2", 240},
    {PL_MPA, "GPa", "0.24 GPa", 240},
    {PL_MPA, "bar", "2,1 bar", 0.21},
    {PL_MPA, "psi", "30 psi", 0.2068427188}, /* 30 x 4.4482216152605 N / 0.00064516 m2 */
    {PL_MPA, "ksi", "35 ksi", 241.3165053},
    {PL_GPA, "Msi", "2.5 Msi", 17.23689323},
    {PL_NEWTON, "N", "200 N", 200},
    {PL_NEWTON, "kN", "0.7 kN", 700},
    {PL_NEWTON, "kgf", "20 kgf", 196.133},
    {PL_NEWTON, "lbf", "45 lbf", 200.1699727},
    {PL_NEWTON, "lb", "45 lb", 200.1699727},
    {PL_NM_PER_RAD, "Nm/rad", "4000 N m/rad", 4000},
    {PL_NM_PER_RAD, "Nm/deg", "70 Nm/deg", 4010.704566}, /* 70 x 180/pi */
    {PL_KG, "kg", "185 kg", 185},
    {PL_KG, "g", "1300 g", 1.3},
    {PL_KG, "lb", "400 lb", 181.436948},
    {PL_KG, "oz", "8 oz", 0.226796185},
    {PL_KM_H, "km/h", "205 km/h", 205},
    {PL_KM_H, "kmh", "205 kmh", 205},
    {PL_KM_H, "m/s", "50 m/s", 180},
    {PL_KM_H, "mph", "100 mph", 160.9344},
    {PL_M_S, "mph", "10 mph", 4.4704},
    {PL_MINUTE, "s", "90 s", 1.5},
    {PL_MINUTE, "min", "40 min", 40},
    {PL_MINUTE, "h", "1 h 30 min", 90},
    {PL_CELSIUS, "C", "75 C", 75},
    {PL_CELSIUS, "\u00b0C", "75 \u00b0C", 75},
    {PL_CELSIUS, "degC", "75 deg C", 75},
    {PL_CELSIUS, "F", "77 F", 25},
    {PL_CELSIUS, "\u00b0F", "-40\u00b0F", -40},
    {PL_CELSIUS, "degF", "212 degF", 100},
    {PL_M2_MIN, "m2/min", "0.08 m2/min", 0.08},
    {PL_M2_MIN, "m2/h", "6 m2/h", 0.1},
    {PL_M2_MIN, "ft2/min", "1 ft2/min", 0.09290304},
    {PL_CELSIUS, "K", "300 K", 26.85},
};

static void every_unit_is_turned_into_that_of_the_file(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof *worked; i++)
        assert_close(read_as(worked[i].unit, worked[i].typed), worked[i].value, 1e-15);
}

static void no_unit_is_left_without_a_worked_number(void **state)
{
    (void)state;
    for (size_t i = 0; i < pl_n_typed_units; i++) {
        size_t k = 0, n = sizeof worked / sizeof *worked;
        while (k < n && (strcmp(worked[k].spelling, pl_typed_units[i].spelling) ||
                         pl_typed_unit_find(worked[k].spelling, pl_unit_measure(worked[k].unit)) != &pl_typed_units[i]))
            k++;
        if (k == n)
            fail_msg("%s has none", pl_typed_units[i].spelling);
    }
}

static void a_unit_of_the_file_is_understood_as_it_is_named(void **state)
{
    (void)state;
    for (int u = 0; u < PL_UNITS; u++)
        assert_close(read_as((enum pl_unit)u, say("7.25 %s", pl_unit_name((enum pl_unit)u))), 7.25, 0);
}

static void a_number_without_a_unit_is_in_that_of_the_file(void **state)
{
    (void)state;
    for (int u = 0; u < PL_UNITS; u++)
        assert_close(read_as((enum pl_unit)u, "-31,5"), -31.5, 0);
}

static void a_unit_is_known_in_every_way_it_is_written(void **state)
{
    (void)state;
    static const struct {
        enum pl_unit unit;
        const char *typed;
        double value;
    } ways[] = {
        {PL_GSM, "4 oz/yd\u00b2", 135.6229899},
        {PL_GSM, "163 g/m\u00b2", 163},
        {PL_GSM, "163 g / m^2", 163},
        {PL_KG_M3, "33 kg/m\u00b3", 33},
        {PL_KG_M3, "33kg/m^3", 33},
        {PL_NM_PER_RAD, "5 N\u00b7m/rad", 5},
        {PL_NM_PER_RAD, "5 N*m/rad", 5},
        {PL_NM_PER_RAD, "5Nm/rad", 5},
        {PL_MM, "1 1/2\u2033", 38.1},
        {PL_MM, "2\u2019 3\u201d", 685.8},
        {PL_MM, "2\u2032", 609.6},
        {PL_MM, "2 ft 3 in", 685.8},
        {PL_MM, "2ft3in", 685.8},
        {PL_MM, "2' 3 1/2''", 698.5},
        {PL_MM, "-2' 3\"", -685.8},
        {PL_MPA, "35 KSI", 241.3165053},
        {PL_MPA, "5 mpa", 5},
        {PL_KG, "5 Kg", 5},
        {PL_MINUTE, "1h30min", 90},
        {PL_MM, "5\u00a0mm", 5},
        {PL_DEG, "5\u00ba", 5},
        {PL_CELSIUS, "\u221240 \u00b0F", -40},
        {PL_MM, "(1+1/2) in", 38.1},
        {PL_MM, "1+1/2 in", 38.1},
        {PL_NO_UNIT, "3.8*10%", 0.38},
        {PL_MM, "\t 5\tmm ", 5},
    };
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++)
        assert_close(read_as(ways[i].unit, ways[i].typed), ways[i].value, 1e-15);
}

static void pounds_are_a_mass_or_a_force_as_the_field_is(void **state)
{
    (void)state;
    assert_close(read_as(PL_KG, "1 lb"), 0.45359237, 0);
    assert_close(read_as(PL_NEWTON, "1 lb"), 4.448221615, 0);
    refused(PL_MM, "1 lb", "lb is a mass; this field is a length in mm");
    refused(PL_KG, "1 lbf", "lbf is a force; this field is a mass in kg");
}

/* Turned there and back a number is the same to the last of ten digits. */
static void there_and_back_through_any_unit_is_where_it_began(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int round_trip = 0; round_trip < 2000; round_trip++) {
        const struct pl_typed_unit *u = &pl_typed_units[(size_t)(chance(&seed) * (double)pl_n_typed_units)];
        enum pl_unit unit = PL_NO_UNIT;
        for (int k = 0; k < PL_UNITS; k++)
            if (pl_unit_measure((enum pl_unit)k) == u->measure)
                unit = (enum pl_unit)k;
        double want = chance_between(&seed, 0.01, 2000), in_unit = want * pl_unit_to_si(unit) / u->to_si - u->zero;
        char digits[40];
        pl_number_digits(digits, sizeof digits, in_unit, 15);
        assert_close(read_as(unit, say("%s %s", digits, u->spelling)), want, 1e-9);
    }
}

/* ---- numbers and arithmetic ---- */

static void numbers_have_a_point_or_a_comma(void **state)
{
    (void)state;
    static const struct {
        const char *typed;
        double value;
    } good[] = {
        {"280", 280},
        {"272.5", 272.5},
        {"272,25", 272.25},
        {"1e2", 100},
        {"1,5E-2", 0.015},
        {"+90", 90},
        {"  81 ", 81},
        {".5", 0.5},
        {",5", 0.5},
        {"7.", 7},
        {"-7", -7},
        {"- 7", -7},
        {"0", 0},
        {"-0", 0},
        {"1,234", 1.234},
        {"007", 7},
        {"1e-400", 0},
        {"1 1/2", 1.5},
        {"10 3/8", 10.375},
        {"3/8", 0.375},
        {"-1 1/2", -1.5},
        {"2*1 1/2", 3},
        {"12345678901", 12345678900},
        {"0.12345678904", 0.1234567890},
        {"1e300*1e8", 1e308},
    };
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        assert_close(read_as(PL_MM, good[i].typed), good[i].value, 1e-15);
}

static void arithmetic_has_the_usual_precedence(void **state)
{
    (void)state;
    static const struct {
        const char *typed;
        double value;
    } good[] = {
        {"3*85", 255},
        {"640-20", 620},
        {"2*(100+5)", 210},
        {"2+3*4", 14},
        {"(2+3)*4", 20},
        {"20-5-3", 12},
        {"20/5/2", 2},
        {"2*-3", -6},
        {"-3*-2", 6},
        {"5--2", 7},
        {"-(2+3)", -5},
        {"((((4))))", 4},
        {"1/3", 0.3333333333},
        {"2 \u00d7 3 \u00f7 4", 1.5},
        {"640 \u2212 20", 620},
        {"640\u201320", 620},
        {"3\u00b785", 255},
        {"0.1+0.2-0.3", 0},
        {"640.1-640", 0.1},
        {"1e17+1-1e17", 0},
        {"2 * ( 100 + 5 ) ", 210},
        {"1,5*2,5", 3.75},
    };
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        assert_close(read_as(PL_MM, good[i].typed), good[i].value, 1e-15);
}

static void values_are_rounded_to_ten_digits(void **state)
{
    (void)state;
    uint64_t seed = 77;
    for (int i = 0; i < 3000; i++) {
        char digits[40];
        double value =
            read_as(PL_MM, say("%d/%d in", (int)(chance(&seed) * 5000) - 2500, 1 + (int)(chance(&seed) * 64)));
        const char *end;
        pl_number_digits(digits, sizeof digits, value, 10);
        assert_close(value, pl_number_read(digits, &end), 0);
    }
}

/* ---- random expressions ---- */

struct maker {
    uint64_t seed;
    char text[PL_QUANTITY_LONGEST * 4];
    size_t length;
    bool cancelled; /* somewhere a sum is far below its terms, and so has few digits left */
};

static void write_out(struct maker *m, const char *text)
{
    m->length += (size_t)snprintf(m->text + m->length, sizeof m->text - m->length, "%s%s", text,
                                  chance(&m->seed) < 0.2 ? " " : "");
    if (m->length >= sizeof m->text)
        m->length = sizeof m->text - 1;
}

static double make_number(struct maker *m)
{
    int whole = (int)(chance(&m->seed) * 200), part = (int)(chance(&m->seed) * 100);
    if (chance(&m->seed) < 0.5) {
        write_out(m, say("%d", whole + 1));
        return whole + 1;
    }
    write_out(m, say("%d%c%02d", whole, chance(&m->seed) < 0.5 ? '.' : ',', part));
    return whole + part / 100.0;
}

/* The sum or product of some things, the value worked out from left to right as it is written. */
static double make_sum(struct maker *m, int depth);

static double make_factor(struct maker *m, int depth)
{
    double sign = chance(&m->seed) < 0.1 ? -1 : 1;
    if (sign < 0)
        write_out(m, "-");
    if (!depth || chance(&m->seed) < 0.7)
        return sign * make_number(m);
    write_out(m, "(");
    double value = make_sum(m, depth - 1);
    write_out(m, ")");
    return sign * value;
}

static double make_product(struct maker *m, int depth)
{
    double value = make_factor(m, depth);
    for (int n = (int)(chance(&m->seed) * 3); n; n--) {
        bool divides = chance(&m->seed) < 0.4;
        write_out(m, divides ? "/" : "*");
        double by = make_factor(m, depth);
        value = divides ? value / by : value * by;
    }
    return value;
}

static double make_sum(struct maker *m, int depth)
{
    double value = make_product(m, depth);
    for (int n = (int)(chance(&m->seed) * 3); n; n--) {
        bool less = chance(&m->seed) < 0.5;
        write_out(m, less ? "-" : "+");
        double other = make_product(m, depth);
        double sum = less ? value - other : value + other;
        m->cancelled |= fabs(sum) < 0.01 * fabs(other);
        value = sum;
    }
    return value;
}

static void random_expressions_give_what_they_say(void **state)
{
    (void)state;
    struct maker m = {.seed = 20260101};
    int taken = 0;
    for (int i = 0; i < 60000; i++) {
        char why[PL_QUANTITY_WHY];
        double value;
        m.length = 0;
        m.cancelled = false;
        double want = make_sum(&m, 3);
        bool fits = m.length <= PL_QUANTITY_LONGEST;
        enum pl_status status = pl_quantity_read(m.text, PL_MM, &value, why, sizeof why);
        if (!fits || (!isfinite(want) && !m.cancelled))
            assert_int_equal(status, PL_BAD_INPUT);
        if (!fits || !isfinite(want) || m.cancelled)
            continue;
        if (status != PL_OK)
            fail_msg("%s was not taken: %s", m.text, why);
        assert_close(value, want, 1e-9);
        taken++;
    }
    assert_true(taken > 30000);
}

/* ---- refusals ---- */

static void each_refusal_says_why(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *why;
    } bad[] = {
        {"", "nothing was typed"},
        {"  ", "nothing was typed"},
        {"\u00a0", "nothing was typed"},
        {"1.234,5", "a number has one decimal sign, and thousands are not set apart"},
        {"1,234,567", "a number has one decimal sign, and thousands are not set apart"},
        {"1.2.3", "a number has one decimal sign, and thousands are not set apart"},
        {"1e2.5", "a number has one decimal sign, and thousands are not set apart"},
        {"1 234", "two numbers stand side by side, and thousands are not set apart"},
        {"12 000/2", "two numbers stand side by side, and thousands are not set apart"},
        {"1 3/2", "two numbers stand side by side, and thousands are not set apart"},
        {"1.5 1/2", "two numbers stand side by side, and thousands are not set apart"},
        {"1/0", "it divides by zero"},
        {"5/(3-3)", "it divides by zero"},
        {"1e400", "it is too large"},
        {"1e300*1e300", "it is too large"},
        {"1e308+1e308", "it is too large"},
        {"1e308 m", "it is too large"},
        {"1.7976931348623157e308", "it is too large"}, /* rounded up to ten digits */
        {"abc", "a number is missing before \"abc\""},
        {"mm", "a number is missing before \"mm\""},
        {".", "a number is missing before \".\""},
        {"--1", "a number is missing before \"-1\""},
        {"3**4", "a number is missing before \"*4\""},
        {"nan", "a number is missing before \"nan\""},
        {"inf", "a number is missing before \"inf\""},
        {"()", "a number is missing before \")\""},
        {"-", "a number is missing at the end"},
        {"3*", "a number is missing at the end"},
        {"3+ ", "a number is missing at the end"},
        {"((3)", "a parenthesis is not closed"},
        {"(", "a number is missing at the end"},
        {"3)", "a parenthesis is closed that was not opened"},
        {"(3 mm)", "\"mm)\" cannot stand inside parentheses"},
        {"2(3)", "a sign such as * is missing before ("},
        {"12 furlong", "furlong is no unit known here; this field is a length in mm"},
        {"28O", "O is no unit known here; this field is a length in mm"},
        {"1e", "e is no unit known here; this field is a length in mm"},
        {"0x1F", "x1F is no unit known here; this field is a length in mm"},
        {"3^2", "^2 is no unit known here; this field is a length in mm"},
        {"3\u00b2", "\u00b2 is no unit known here; this field is a length in mm"},
        {"12 kg", "kg is a mass; this field is a length in mm"},
        {"5\u00b0", "\u00b0 is an angle; this field is a length in mm"},
        {"38 %", "% is a share of the whole; this field is a length in mm"},
        {"5 gsm", "gsm is an areal weight; this field is a length in mm"},
        {"3 mm + 2 mm", "nothing can stand behind the unit, but \"+ 2 mm\" does"},
        {"3 mm 2", "nothing can stand behind the unit, but \"2\" does"},
        {"5' -3\"", "nothing can stand behind the unit, but \"-3\"\" does"},
        {"5' 3", "behind it can follow a number with the unit in, nothing else"},
        {"5 ft 3 mm", "behind it can follow a number with the unit in, nothing else"},
        {"1'234", "behind it can follow a number with the unit in, nothing else"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        refused(PL_MM, bad[i].typed, bad[i].why);
}

static void a_unit_of_another_kind_is_refused_by_every_field(void **state)
{
    (void)state;
    refused(PL_GPA, "5 N", "N is a force; this field is a stress in GPa");
    refused(PL_MPA, "5 mPa", "mPa is no unit known here; this field is a stress in MPa");
    refused(PL_NEWTON, "20 kg", "kg is a mass; this field is a force in N");
    refused(PL_CELSIUS, "65\u00b0", "\u00b0 is an angle; this field is a temperature in C");
    refused(PL_MINUTE, "5 m", "m is a length; this field is a time in min");
    refused(PL_NO_UNIT, "5 mm", "mm is a length; this field is a plain number");
    for (int u = 0; u < PL_UNITS; u++)
        for (size_t i = 0; i < pl_n_typed_units; i++) {
            char why[PL_QUANTITY_WHY];
            double value = 0;
            enum pl_measure m = pl_unit_measure((enum pl_unit)u), typed = pl_typed_units[i].measure;
            const struct pl_typed_unit *meant = pl_typed_unit_find(pl_typed_units[i].spelling, m);
            bool fits = meant->measure == m || (typed == PL_SHARE && m == PL_PLAIN_NUMBER);
            enum pl_status status =
                pl_quantity_read(say("5 %s", pl_typed_units[i].spelling), (enum pl_unit)u, &value, why, sizeof why);
            assert_int_equal(status, fits ? PL_OK : PL_BAD_INPUT);
            if (!fits)
                assert_non_null(
                    strstr(why, say("is %s; this field is %s", pl_measure_words(meant->measure), pl_measure_words(m))));
        }
}

static void what_is_too_long_or_too_deep_is_refused(void **state)
{
    (void)state;
    char text[4000];
    memset(text, '1', sizeof text);
    text[PL_QUANTITY_LONGEST] = '\0';
    assert_true(read_as(PL_MM, text) > 1e79);
    text[PL_QUANTITY_LONGEST] = '1';
    text[PL_QUANTITY_LONGEST + 1] = '\0';
    refused(PL_MM, text, "it is too long to be a number");
    memset(text, '(', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    refused(PL_MM, text, "it is too long to be a number");
    for (int deep = 1; deep <= 30; deep++) {
        snprintf(text, sizeof text, "%.*s7%.*s", deep, "((((((((((((((((((((((((((((((", deep,
                 "))))))))))))))))))))))))))))))");
        if (deep <= PL_QUANTITY_DEEPEST)
            assert_close(read_as(PL_MM, text), 7, 0);
        else
            refused(PL_MM, text, "parentheses stand too deep in each other");
    }
}

static bool is_safe(const char *text)
{
    char safe[3 * PL_QUANTITY_WHY];
    pl_text_safe(safe, sizeof safe, text);
    return !strcmp(safe, text);
}

/* Whatever is typed is either a number of ten digits or refused with a reason that can be printed. */
static void random_texts_are_a_number_or_a_reason(void **state)
{
    (void)state;
    static const char *const bits[] = {
        "1",      "0",    "25",   ".",      ",",  "e",  "E9", " ",      "(",      ")", "+",   "-",    "*", "/",
        "mm",     "in",   "ft",   "'",      "\"", "%",  "kg", "\u00b0", "\u00b2", "m", "1/2", "g/m2", "h", "min",
        "\u00d7", "\xff", "\x01", "\u200e", "x",  "\t", "C",  "F",      "lb",     ":", "[",   "\xc2",
    };
    uint64_t seed = 99;
    int numbers = 0;
    for (int i = 0; i < 200000; i++) {
        char text[200] = "", why[PL_QUANTITY_WHY] = "";
        double value = -12345, pair[2];
        for (int n = (int)(chance(&seed) * (i % 2 ? 12 : 4)); n >= 0; n--)
            strcat(text, bits[(size_t)(chance(&seed) * (double)(sizeof bits / sizeof *bits))]);
        enum pl_unit unit = (enum pl_unit)(chance(&seed) * PL_UNITS);
        if (pl_quantity_read(text, unit, &value, why, sizeof why) == PL_OK) {
            assert_true(isfinite(value));
            numbers++;
        } else {
            assert_true(*why && is_safe(why));
            assert_close(value, -12345, 0);
        }
        *why = '\0';
        assert_true(pl_quantity_read_pair(text, unit, pair, why, sizeof why) == PL_OK || (*why && is_safe(why)));
        assert_true(pl_quantity_read(text, unit, &value, why, 4) == PL_OK || strlen(why) < 4);
    }
    assert_true(numbers > 5000);
}

/* ---- pairs ---- */

static void a_pair_is_typed_in_several_ways(void **state)
{
    (void)state;
    static const struct {
        const char *typed;
        double first, second;
    } good[] = {
        {"100:30", 100, 30},       {"100 : 30", 100, 30}, {"100 30", 100, 30},    {"100   30 ", 100, 30},
        {"100 to 30", 100, 30},    {"100; 30", 100, 30},  {"[100, 30]", 100, 30}, {"100, 30", 100, 30},
        {"10,5:3,25", 10.5, 3.25}, {"2*50:30", 100, 30},  {"1 1/2:1", 1.5, 1},    {"10,5 3", 10.5, 3},
        {"5:-1", 5, -1},
    };
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        char why[PL_QUANTITY_WHY] = "";
        double pair[2] = {0, 0};
        if (pl_quantity_read_pair(good[i].typed, PL_NO_UNIT, pair, why, sizeof why) != PL_OK)
            fail_msg("%s was not taken: %s", good[i].typed, why);
        assert_close(pair[0], good[i].first, 1e-15);
        assert_close(pair[1], good[i].second, 1e-15);
    }
}

static void what_is_no_pair_is_refused(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *why;
    } bad[] = {
        {"", "two numbers are needed, such as 100:30"},
        {"100", "two numbers are needed, such as 100:30"},
        {"100:30:5", "two numbers are needed, such as 100:30"},
        {"100 30 5", "two numbers are needed, such as 100:30"},
        {"[1, 2, 3]", "two numbers are needed, such as 100:30"},
        {"100:", "nothing was typed"},
        {":30", "nothing was typed"},
        {"100:x", "a number is missing before \"x\""},
        {"100:1/0", "it divides by zero"},
        {"100 kg:30", "kg is a mass; this field is a plain number"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        char why[PL_QUANTITY_WHY] = "";
        double pair[2] = {1, 2};
        assert_int_equal(pl_quantity_read_pair(bad[i].typed, PL_NO_UNIT, pair, why, sizeof why), PL_BAD_INPUT);
        assert_string_equal(why, bad[i].why);
        assert_true(pair[0] == 1 && pair[1] == 2);
    }
}

/* ---- the table of units ---- */

static void no_two_units_of_one_measure_are_spelled_alike(void **state)
{
    (void)state;
    for (size_t i = 0; i < pl_n_typed_units; i++) {
        const struct pl_typed_unit *u = &pl_typed_units[i];
        assert_ptr_equal(pl_typed_unit_find(u->spelling, u->measure), u);
        assert_true(u->to_si > 0);
        if (u->then)
            assert_int_equal(pl_typed_unit_find(u->then, u->measure)->measure, u->measure);
    }
}

static void the_locale_makes_no_difference(void **state)
{
    (void)state;
    static const char *const places[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "tr_TR.UTF-8", "de_DE", "fr_FR"};
    size_t i = 0;
    while (i < sizeof places / sizeof *places && !setlocale(LC_ALL, places[i]))
        i++;
    double value = read_as(PL_MM, "2.5 IN"), other = read_as(PL_MM, "2,5 in");
    setlocale(LC_ALL, "C");
    assert_close(value, 63.5, 1e-15);
    assert_close(other, 63.5, 1e-15);
}

/* ---- typed into a part ---- */

static struct trial t;

static void type(const char *pointer, const char *typed, const char *spelled)
{
    char words[80];
    pl_problems_clear(&t.problems);
    if (pl_part_type(t.doc, pointer, typed, &t.problems) != PL_OK)
        fail_msg("\"%s\" was not taken: %s", typed, t.problems.count ? t.problems.list[0].rule : "");
    pl_part_value_words(t.doc, pointer, words, sizeof words);
    assert_string_equal(words, spelled);
}

static void not_typed(const char *pointer, const char *typed, const char *rule)
{
    unsigned long revision = pl_document_revision(t.doc);
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_part_type(t.doc, pointer, typed, &t.problems), PL_BAD_INPUT);
    assert_error(&t, pointer, rule, typed);
    assert_int_equal(t.problems.count, 1);
    assert_int_equal(pl_document_revision(t.doc), revision);
}

static void a_field_takes_units_and_writes_its_own_without_noise(void **state)
{
    (void)state;
    trial_open(&t, SAMPLE_PART);
    type("/elements/0/stations/0/chord_mm", "11 in", "279.4");
    type("/elements/0/stations/0/chord_mm", "3*90+5", "275");
    type("/elements/0/layup/2/width_mm", "2 7/8\"", "73.025");
    type("/elements/0/layup/2/plies", "2*3", "6");
    type("/elements/0/layup/2/centre_at", "31 %", "0.31");
    type("/fabrics/0/areal_weight_gsm", "4.8 oz/yd\u00b2", "162.7475879");
    type("/allowables/service_c", "95 F", "35");
    type("/elements/0/stations/2/y_mm", "2' 1 1/4\"", "641.35"); /* with what ends at the tip */
    type("/resins/0/mix_ratio_by_weight", "100:27,5", "100 : 27.5");
    type("/resins/0/mix_ratio_by_weight", "[100, 30]", "100 : 30");
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_close(pl_element_semispan_m(&t.part.elements[0]), 0.64135, 1e-12);
    trial_close(&t);
}

static void a_field_refuses_what_is_no_number_of_its_kind(void **state)
{
    (void)state;
    trial_open(&t, SAMPLE_PART);
    not_typed("/elements/0/stations/0/chord_mm", "11 kg",
              "must be a number: kg is a mass; this field is a length in mm");
    not_typed("/elements/0/stations/0/chord_mm", "1.234,5", "must be a number: a number has one decimal sign");
    not_typed("/elements/0/layup/2/plies", "2.5", "must be a whole number");
    not_typed("/elements/0/layup/2/plies", "7/2", "must be a whole number");
    not_typed("/resins/0/mix_ratio_by_weight", "30", "must be a number: two numbers are needed");
    trial_close(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_unit_is_turned_into_that_of_the_file),
        cmocka_unit_test(no_unit_is_left_without_a_worked_number),
        cmocka_unit_test(a_unit_of_the_file_is_understood_as_it_is_named),
        cmocka_unit_test(a_number_without_a_unit_is_in_that_of_the_file),
        cmocka_unit_test(a_unit_is_known_in_every_way_it_is_written),
        cmocka_unit_test(pounds_are_a_mass_or_a_force_as_the_field_is),
        cmocka_unit_test(there_and_back_through_any_unit_is_where_it_began),
        cmocka_unit_test(numbers_have_a_point_or_a_comma),
        cmocka_unit_test(arithmetic_has_the_usual_precedence),
        cmocka_unit_test(values_are_rounded_to_ten_digits),
        cmocka_unit_test(random_expressions_give_what_they_say),
        cmocka_unit_test(each_refusal_says_why),
        cmocka_unit_test(a_unit_of_another_kind_is_refused_by_every_field),
        cmocka_unit_test(what_is_too_long_or_too_deep_is_refused),
        cmocka_unit_test(random_texts_are_a_number_or_a_reason),
        cmocka_unit_test(a_pair_is_typed_in_several_ways),
        cmocka_unit_test(what_is_no_pair_is_refused),
        cmocka_unit_test(no_two_units_of_one_measure_are_spelled_alike),
        cmocka_unit_test(the_locale_makes_no_difference),
        cmocka_unit_test(a_field_takes_units_and_writes_its_own_without_noise),
        cmocka_unit_test(a_field_refuses_what_is_no_number_of_its_kind),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
