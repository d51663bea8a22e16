#include "plyloft/quantity.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* Walks along a text in which every sign has its plain form (see plain_forms). */
struct reader {
    const char *at;
    int depth; /* parentheses open */
    char *why;
    size_t size;
};

static void skip_blanks(struct reader *r)
{
    while (*r->at == ' ')
        r->at++;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool fail(struct reader *r, const char *why)
{
    snprintf(r->why, r->size, "%s", why);
    return false;
}

/* The same with what stands at `at` shown between two halves of the sentence. */
static bool fail_at(struct reader *r, const char *before, const char *at, const char *behind)
{
    char shown[40];
    pl_text_safe(shown, sizeof shown, at);
    snprintf(r->why, r->size, "%s%s%s", before, shown, behind);
    return false;
}

static bool fail_missing(struct reader *r)
{
    return *r->at ? fail_at(r, "a number is missing before \"", r->at, "\"")
                  : fail(r, "a number is missing at the end");
}

/* ---- numbers ---- */

static size_t count_digits(const char *at)
{
    size_t n = 0;
    while (is_digit(at[n]))
        n++;
    return n;
}

/* Length of a number with its decimal sign and exponent, 0 when there is none. */
static size_t number_length(const char *at)
{
    size_t n = count_digits(at), digits = n;
    if (at[n] == '.') {
        size_t behind = count_digits(at + n + 1);
        digits += behind;
        n += digits ? behind + 1 : 0;
    }
    if (digits && (at[n] == 'e' || at[n] == 'E')) {
        size_t sign = at[n + 1] == '+' || at[n + 1] == '-', exponent = count_digits(at + n + 1 + sign);
        n += exponent ? 1 + sign + exponent : 0;
    }
    return n;
}

static bool in_bounds(struct reader *r, double value)
{
    return isfinite(value) || fail(r, "it is too large");
}

static bool read_plain(struct reader *r, double *value)
{
    const char *end;
    size_t n = number_length(r->at);
    if (!n)
        return fail_missing(r);
    *value = pl_number_read(r->at, &end);
    r->at += n;
    if (*r->at == '.')
        return fail(r, "a number has one decimal sign, and thousands are not set apart");
    return in_bounds(r, *value);
}

/* The "1/2" of "10 1/2": blanks, then a fraction below 1 of whole numbers.  "12 000/2" is none. */
static bool read_fraction(struct reader *r, double *value)
{
    const char *top = r->at + strspn(r->at, " "), *end;
    size_t n_top = count_digits(top);
    if (top == r->at || !n_top || top[n_top] != '/')
        return false;
    const char *bottom = top + n_top + 1;
    size_t n_bottom = count_digits(bottom);
    if (!n_bottom || bottom[n_bottom] == '.')
        return false;
    double above = pl_number_read(top, &end), below = pl_number_read(bottom, &end);
    if (above < 1 || above >= below)
        return false;
    *value = above / below;
    r->at = bottom + n_bottom;
    return true;
}

static bool read_number(struct reader *r, double *value)
{
    double fraction;
    bool whole = is_digit(*r->at) && number_length(r->at) == count_digits(r->at);
    if (!read_plain(r, value))
        return false;
    if (whole && read_fraction(r, &fraction))
        *value += fraction;
    return true;
}

/* ---- arithmetic ---- */

static bool read_sum(struct reader *r, double *value);

static bool read_parentheses(struct reader *r, double *value)
{
    if (++r->depth > PL_QUANTITY_DEEPEST)
        return fail(r, "parentheses stand too deep in each other");
    r->at++;
    if (!read_sum(r, value))
        return false;
    if (*r->at != ')')
        return *r->at ? fail_at(r, "\"", r->at, "\" cannot stand inside parentheses")
                      : fail(r, "a parenthesis is not closed");
    r->at++;
    r->depth--;
    return true;
}

static bool read_factor(struct reader *r, double *value)
{
    skip_blanks(r);
    double sign = *r->at == '-' ? -1 : 1;
    if (*r->at == '-' || *r->at == '+')
        r->at++;
    skip_blanks(r);
    if (!(*r->at == '(' ? read_parentheses(r, value) : read_number(r, value)))
        return false;
    *value *= sign;
    skip_blanks(r);
    return true;
}

static bool read_product(struct reader *r, double *value)
{
    if (!read_factor(r, value))
        return false;
    while (*r->at == '*' || *r->at == '/') {
        double by;
        bool divides = *r->at++ == '/';
        if (!read_factor(r, &by))
            return false;
        if (divides && by == 0)
            return fail(r, "it divides by zero");
        *value = divides ? *value / by : *value * by;
        if (!in_bounds(r, *value))
            return false;
    }
    return true;
}

/* What is left of a difference far below its terms is what they were rounded by: 0.1+0.2-0.3 is 0. */
static double sum_of(double a, double b)
{
    double sum = a + b;
    return fabs(sum) < 1e-14 * (fabs(a) + fabs(b)) ? 0 : sum;
}

static bool read_sum(struct reader *r, double *value)
{
    if (!read_product(r, value))
        return false;
    while (*r->at == '+' || *r->at == '-') {
        double more;
        double sign = *r->at++ == '-' ? -1 : 1;
        if (!read_product(r, &more))
            return false;
        *value = sum_of(*value, sign * more);
        if (!in_bounds(r, *value))
            return false;
    }
    return true;
}

/* ---- units ---- */

static bool fail_measure(struct reader *r, const char *before, const char *behind, enum pl_unit wanted)
{
    const char *name = pl_unit_name(wanted);
    char shown[40];
    pl_text_safe(shown, sizeof shown, before);
    snprintf(r->why, r->size, "%s%s; this field is %s%s%s", shown, behind, pl_measure_words(pl_unit_measure(wanted)),
             *name ? " in " : "", name);
    return false;
}

/* Blanks and dots go, powers become plain digits: "N m/rad" is Nm/rad, "g/m^2" is g/m2. */
static void plain_spelling(const char *text, size_t length, char *out)
{
    for (size_t i = 0; i < length; i++) {
        if (!strncmp(text + i, "\u00b2", 2) || !strncmp(text + i, "\u00b3", 2))
            *out++ = text[++i] == '\xb2' ? '2' : '3';
        else if (!strchr(" *^", text[i]))
            *out++ = text[i];
    }
    *out = '\0';
}

static const struct pl_typed_unit *find_unit(const char *text, size_t length, enum pl_unit wanted)
{
    char spelling[PL_QUANTITY_LONGEST + 1];
    plain_spelling(text, length, spelling);
    return pl_typed_unit_find(spelling, pl_unit_measure(wanted));
}

static bool fits(const struct pl_typed_unit *unit, enum pl_unit wanted)
{
    enum pl_measure measure = pl_unit_measure(wanted);
    return unit->measure == measure || (unit->measure == PL_SHARE && measure == PL_PLAIN_NUMBER);
}

/* Something stands behind a unit that is known: the inches of "5 ft 3 in", or what must not. */
static bool read_smaller(struct reader *r, const struct pl_typed_unit *unit, enum pl_unit wanted, double *value)
{
    double more;
    const struct pl_typed_unit *smaller = unit->then ? pl_typed_unit_find(unit->then, unit->measure) : NULL;
    skip_blanks(r);
    if (!smaller || !is_digit(*r->at))
        return fail_at(r, "nothing can stand behind the unit, but \"", r->at, "\" does");
    if (!read_product(r, &more))
        return false;
    const struct pl_typed_unit *last = find_unit(r->at, strlen(r->at), wanted);
    if (!last || last->measure != smaller->measure || last->to_si != smaller->to_si)
        return fail_at(r, "behind it can follow a number with the unit ", smaller->spelling, ", nothing else");
    *value += (signbit(*value) ? -more : more) * (last->to_si / unit->to_si);
    return true;
}

/* The rest of the text as a unit, with which *value becomes SI. */
static bool read_unit(struct reader *r, enum pl_unit wanted, double *value)
{
    size_t length = strlen(r->at), first = strcspn(r->at, " 0123456789+-*(");
    const struct pl_typed_unit *unit = find_unit(r->at, length, wanted);
    bool more = !unit && first && first < length;
    if (more)
        unit = find_unit(r->at, first, wanted);
    if (!unit)
        return fail_measure(r, r->at, " is no unit known here", wanted);
    if (!fits(unit, wanted)) {
        char behind[48];
        snprintf(behind, sizeof behind, " is %s", pl_measure_words(unit->measure));
        return fail_measure(r, unit->spelling, behind, wanted);
    }
    r->at += more ? first : length;
    if (more && !read_smaller(r, unit, wanted, value))
        return false;
    *value = (*value + unit->zero) * unit->to_si;
    return true;
}

static bool read_rest(struct reader *r, enum pl_unit wanted, double *value)
{
    if (!*r->at)
        return true;
    if (*r->at == ')')
        return fail(r, "a parenthesis is closed that was not opened");
    if (*r->at == '(')
        return fail(r, "a sign such as * is missing before (");
    if (is_digit(*r->at) || *r->at == '.')
        return fail(r, "two numbers stand side by side, and thousands are not set apart");
    if (!read_unit(r, wanted, value))
        return false;
    *value /= pl_unit_to_si(wanted);
    return in_bounds(r, *value);
}

/* ---- the text as typed ---- */

/* Signs that keyboards and phones put in place of the plain ones, none shorter than its plain form. */
static const struct {
    const char *from, *to;
} plain_forms[] = {
    {",", "."},       {"\t", " "},      {"\u00a0", " "}, {"\u2009", " "}, {"\u202f", " "}, {"\u2212", "-"},
    {"\u2013", "-"},  {"\u00d7", "*"},  {"\u00b7", "*"}, {"\u22c5", "*"}, {"\u00f7", "/"}, {"\u2033", "\""},
    {"\u201d", "\""}, {"\u201c", "\""}, {"\u2032", "'"}, {"\u2019", "'"}, {"\u2018", "'"}, {"\u00ba", "\u00b0"},
};

static void to_plain_forms(const char *typed, char *out)
{
    while (*typed) {
        size_t i = 0, count = sizeof plain_forms / sizeof *plain_forms;
        while (i < count && strncmp(typed, plain_forms[i].from, strlen(plain_forms[i].from)))
            i++;
        if (i < count) {
            typed += strlen(plain_forms[i].from);
            out += strlen(strcpy(out, plain_forms[i].to));
        } else {
            *out++ = *typed++;
        }
    }
    *out = '\0';
}

static double rounded(double value)
{
    char digits[40];
    const char *end;
    pl_number_digits(digits, sizeof digits, value, 10);
    return pl_number_read(digits, &end);
}

enum pl_status pl_quantity_read(const char *typed, enum pl_unit unit, double *file_value, char *why, size_t size)
{
    char text[PL_QUANTITY_LONGEST + 1];
    struct reader r = {.at = text, .why = why, .size = size};
    double value;
    if (strnlen(typed, sizeof text) == sizeof text) {
        fail(&r, "it is too long to be a number");
        return PL_BAD_INPUT;
    }
    to_plain_forms(typed, text);
    skip_blanks(&r);
    if (!*r.at) {
        fail(&r, "nothing was typed");
        return PL_BAD_INPUT;
    }
    if (!read_sum(&r, &value) || !read_rest(&r, unit, &value))
        return PL_BAD_INPUT;
    value = rounded(value);
    if (!in_bounds(&r, value))
        return PL_BAD_INPUT;
    *file_value = value;
    return PL_OK;
}

/* ---- pairs ---- */

/* The two halves of a pair, without the brackets of a list; false when there are not just two. */
static bool split(const char *typed, char halves[2][PL_QUANTITY_LONGEST + 1])
{
    static const char *const between[] = {":", ";", " to ", ", ", " "};
    char text[PL_QUANTITY_LONGEST + 1];
    typed += strspn(typed, " [");
    size_t length = strlen(typed);
    while (length && strchr(" ]", typed[length - 1]))
        length--;
    if (length >= sizeof text)
        return false;
    snprintf(text, sizeof text, "%.*s", (int)length, typed);
    for (size_t i = 0; i < sizeof between / sizeof *between; i++) {
        const char *at = strstr(text, between[i]), *second = at ? at + strlen(between[i]) : "";
        if (!at)
            continue;
        second += strspn(second, " ");
        snprintf(halves[0], sizeof halves[0], "%.*s", (int)(at - text), text);
        snprintf(halves[1], sizeof halves[1], "%s", second);
        return !strstr(second, between[i]);
    }
    return false;
}

enum pl_status pl_quantity_read_pair(const char *typed, enum pl_unit unit, double file_values[2], char *why,
                                     size_t size)
{
    char halves[2][PL_QUANTITY_LONGEST + 1];
    double values[2];
    if (!split(typed, halves)) {
        snprintf(why, size, "two numbers are needed, such as 100:30");
        return PL_BAD_INPUT;
    }
    for (size_t i = 0; i < 2; i++)
        if (pl_quantity_read(halves[i], unit, &values[i], why, size) != PL_OK)
            return PL_BAD_INPUT;
    memcpy(file_values, values, sizeof values);
    return PL_OK;
}
