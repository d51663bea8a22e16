#include "part_text.h"

#include "support.h"

#include "plyloft/document.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SAYINGS = 60, SAYING_SIZE = 32 * 1024 };

static const char *const default_fabrics =
    "{'name': 'plain', 'fibre': 'glass', 'areal_weight_gsm': 163, 'fibre_density_kgm3': 2560,"
    " 'fibre_volume_fraction': 0.38, 'e1_gpa': 17, 'e2_gpa': 17, 'g12_gpa': 3.2, 'nu12': 0.13, 'xt_mpa': 240,"
    " 'xc_mpa': 190, 'yt_mpa': 240, 'yc_mpa': 190, 's_mpa': 45, 'roll_width_mm': 1270}, {'name': 'uni',"
    " 'fibre': 'glass', 'areal_weight_gsm': 310, 'fibre_density_kgm3': 2560, 'fibre_volume_fraction': 0.42,"
    " 'e1_gpa': 31, 'e2_gpa': 8, 'g12_gpa': 3, 'nu12': 0.28, 'xt_mpa': 620, 'xc_mpa': 420, 'yt_mpa': 32,"
    " 'yc_mpa': 105, 's_mpa': 45, 'roll_width_mm': 500},"
    /* G = E / 2(1 + nu) = 70 / 2.6; ply = 500 g/m2 / (2000 kg/m3 x 0.5) = 0.5 mm */
    "{'name': 'sheet', 'areal_weight_gsm': 500, 'fibre_density_kgm3': 2000, 'fibre_volume_fraction': 0.5,"
    " 'e1_gpa': 70, 'e2_gpa': 70, 'g12_gpa': 26.923076923076923, 'nu12': 0.3,"
    " 'xt_mpa': 20000, 'xc_mpa': 20000, 'yt_mpa': 20000, 'yc_mpa': 20000, 's_mpa': 20000, 'roll_width_mm': 1000},"
    "{'name': 'film', 'areal_weight_gsm': 10, 'fibre_density_kgm3': 2000, 'fibre_volume_fraction': 0.5,"
    " 'e1_gpa': 0.001, 'e2_gpa': 0.001, 'g12_gpa': 0.0004, 'nu12': 0.25,"
    " 'xt_mpa': 20000, 'xc_mpa': 20000, 'yt_mpa': 20000, 'yc_mpa': 20000, 's_mpa': 20000, 'roll_width_mm': 1000}";

static const struct wing_text plain_wing = {
    .profiles = "{'name': 'section', 'naca': '0012'}",
    .resin = "'kind': 'epoxy', 'density_kgm3': 1150, 'mix_ratio_by_weight': [100, 30], 'pot_life_min': 40,"
             " 'pot_life_at_c': 25",
    .core = "'kind': 'polystyrene', 'density_kgm3': 33, 'e_mpa': 14, 'g_mpa': 5, 'shear_strength_mpa': 0.21,"
            " 'compressive_strength_mpa': 0.28",
    .element = "'incidence_deg': 0",
    .stations = "{'y_mm': 0, 'chord_mm': 300, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'},"
                "{'y_mm': 640, 'chord_mm': 300, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'}",
    .layup = "{'name': 'skin', 'fabric': 'plain', 'angle_deg': 45, 'plies': 3, 'side': 'both', 'chord_from': 0,"
             " 'chord_to': 1}",
    .mounts = "{'name': 'left', 'y_mm': -170, 'hold': 'clamped'}, {'name': 'right', 'y_mm': 170, 'hold': 'clamped'}",
    .cases = "{'name': 'push', 'kind': 'point', 'element': 'main', 'factor': 1, 'y_mm': 640, 'acts_at': 0.25,"
             " 'direction': 'up', 'force_n': 100}",
    .allowables = "'knockdown': 1, 'core_knockdown': 1, 'criterion': 'tsai-wu'",
};

#define FRONT_SKIN(name, plies, more) \
    "{'name': '" name "', 'fabric': 'plain', 'angle_deg': 45, 'plies': " plies ", 'side': 'both', 'chord_to': 1," \
    " " more "}"
#define FRONT_CAP(name, plies, side, drop) \
    "{'name': '" name "', 'fabric': 'uni', 'angle_deg': 0, 'plies': " plies ", 'side': '" side "', 'centre_at': 0.30," \
    " 'width_mm': 72, 'drop_mm': " drop "}"

const struct wing_text front_wing = {
    .profiles = "{'name': 'section', 'naca': '6412'}",
    .resin = "'kind': 'epoxy', 'density_kgm3': 1150, 'mix_ratio_by_weight': [100, 30], 'pot_life_min': 40,"
             " 'pot_life_at_c': 25, 'tg_dry_c': 75, 'tg_wet_c': 65",
    .core = "'kind': 'polystyrene', 'density_kgm3': 33, 'e_mpa': 14, 'g_mpa': 5, 'shear_strength_mpa': 0.21,"
            " 'compressive_strength_mpa': 0.28, 'max_c': 70",
    .element = "'inverted': true, 'incidence_deg': 2",
    .stations = "{'y_mm': 0, 'chord_mm': 275, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'},"
                "{'y_mm': 170, 'chord_mm': 275, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'},"
                "{'y_mm': 640, 'chord_mm': 230, 'x_le_mm': 12, 'z_le_mm': 6, 'twist_deg': -1, 'profile': 'section'}",
    .layup = FRONT_SKIN("first skin", "2", "'chord_from': 0") ", "
             FRONT_SKIN("bracket wrap", "2",
                        "'chord_from': 0.05, 'half_length_mm': 240, 'drop_mm': 15, 'from_mm': 100") ", "
             FRONT_CAP("top cap", "6", "top", "70") ", " FRONT_CAP("bottom cap", "5", "bottom", "85") ", "
             FRONT_SKIN("outer skin", "1", "'chord_from': 0"),
    .cases = "{'name': 'top speed', 'kind': 'downforce', 'element': 'main', 'factor': 2, 'speed_kmh': 205,"
             " 'air_density_kgm3': 1.19, 'distribution': 'elliptic', 'coefficient': 1.25, 'acts_at': 0.42},"
             "{'name': 'pit jack', 'kind': 'jacking', 'element': 'main', 'factor': 1.5, 'supported_mass_kg': 185,"
             " 'dynamic_factor': 1.3, 'uneven': 0.2, 'pads': [{'y_mm': -230, 'acts_at': 0.35, 'length_mm': 100,"
             " 'width_mm': 140}, {'y_mm': 230, 'acts_at': 0.35, 'length_mm': 100, 'width_mm': 140}]},"
             "{'name': 'kerb on tip', 'kind': 'tip-strike', 'element': 'main', 'factor': 1.25, 'acts_at': 0.2,"
             " 'direction': 'up', 'moving_mass_kg': 60, 'closing_speed_ms': 0.8, 'travel_mm': 10},"
             "{'name': 'scrutineer', 'kind': 'point', 'element': 'main', 'factor': 1.5, 'y_mm': -600, 'acts_at': 0.35,"
             " 'direction': 'down', 'force_n': 200}",
    .allowables = "'knockdown': 0.75, 'core_knockdown': 0.75, 'service_c': 35, 'criterion': 'tsai-wu'",
    .limits = "'tip_deflection_mm': {'scrutineer': 10}, 'mass_kg': 1.3",
};

static char *next_saying(void)
{
    static char memory[SAYINGS][SAYING_SIZE];
    static int next;
    next = (next + 1) % SAYINGS;
    return memory[next];
}

const char *say(const char *format, ...)
{
    char *text = next_saying();
    va_list args;
    va_start(args, format);
    int length = vsnprintf(text, SAYING_SIZE, format, args);
    va_end(args);
    assert_in_range(length, 0, SAYING_SIZE - 1);
    return text;
}

const char *say_skin(const char *fabric, double angle_deg, int plies)
{
    return say("{'name': 'skin', 'fabric': '%s', 'angle_deg': %g, 'plies': %d, 'side': 'both', 'chord_from': 0,"
               " 'chord_to': 1}",
               fabric, angle_deg, plies);
}

static const char *say_cap(const char *side, int plies)
{
    return say("{'name': '%s cap', 'fabric': 'uni', 'angle_deg': 0, 'plies': %d, 'side': '%s', 'centre_at': 0.3,"
               " 'width_mm': 72}",
               side, plies, side);
}

const char *say_caps(int top_plies, int bottom_plies)
{
    return say("%s, %s, %s", say_skin("plain", 45, 3), say_cap("top", top_plies), say_cap("bottom", bottom_plies));
}

const char *say_point(const char *name, double y_mm, double acts_at, const char *direction, double force_n,
                      double factor)
{
    return say("{'name': '%s', 'kind': 'point', 'element': 'main', 'factor': %.15g, 'y_mm': %.15g, 'acts_at': %.15g,"
               " 'direction': '%s', 'force_n': %.15g}", name, factor, y_mm, acts_at, direction, force_n);
}

double ellipse_z(double angle, double half_height)
{
    return half_height * sin(angle);
}

const char *say_outline(int half, double (*z_of)(double angle, double size), double size)
{
    char *text = next_saying();
    int at = 0;
    for (int i = 0; i <= 2 * half; i++) {
        double angle = M_PI * i / half;
        at += snprintf(text + at, (size_t)(SAYING_SIZE - at), "%s[%.15g, %.15g]", i ? ", " : "", 0.5 * (1 + cos(angle)),
                       z_of(angle, size));
        assert_in_range(at, 0, SAYING_SIZE - 1);
    }
    return text;
}

static const char *either(const char *given, const char *otherwise)
{
    return given ? given : otherwise;
}

static char *compose(const struct wing_text *t)
{
    const struct wing_text *d = &plain_wing;
    char *text = NULL;
    int length = asprintf(
        &text,
        "{'format': 'plyloft-part', 'version': 1, 'name': 'trial', 'profiles': [%s], 'fabrics': [%s],"
        " 'resins': [{'name': 'resin', %s}], 'cores': [{'name': 'foam', %s}], 'elements': [{'name': 'main', %s,"
        " 'stations': [%s], 'core': 'foam', 'resin': 'resin', 'layup': [%s], 'mounts': [%s]}%s%s], 'load_cases': [%s],"
        " 'allowables': {%s}, 'limits': {%s}}",
        either(t->profiles, d->profiles), either(t->fabrics, default_fabrics), either(t->resin, d->resin),
        either(t->core, d->core), either(t->element, d->element), either(t->stations, d->stations),
        either(t->layup, d->layup), either(t->mounts, d->mounts), t->more_elements ? ", " : "",
        either(t->more_elements, ""), either(t->cases, d->cases), either(t->allowables, d->allowables),
        either(t->limits, ""));
    assert_true(length > 0);
    for (char *c = text; *c; c++)
        if (*c == '\'')
            *c = '"';
    return text;
}

static void fail_with(const struct wing *w)
{
    const struct pl_problem *p = pl_problems_first_error(&w->problems);
    fail_msg("%s: %s (found %s)", p ? p->place : "", p ? p->rule : "no reason given", p ? p->found : "");
}

enum pl_status wing_try_build(struct wing *w, const struct wing_text *text)
{
    *w = (struct wing){.solve = pl_solve_new()};
    assert_non_null(w->solve);
    char *bytes = compose(text);
    struct pl_document *doc;
    if (pl_document_read(&doc, bytes, strlen(bytes), &w->problems) != PL_OK)
        fail_with(w);
    enum pl_status status = pl_part_build(&w->part, doc, &w->problems);
    pl_document_free(doc);
    free(bytes);
    return status;
}

void wing_build(struct wing *w, const struct wing_text *text)
{
    if (wing_try_build(w, text) != PL_OK)
        fail_with(w);
}

void wing_solve(struct wing *w)
{
    if (pl_solve_run(w->solve, &w->part, &w->problems) != PL_OK)
        fail_with(w);
    w->verdict = pl_solve_verdict(w->solve);
    assert_non_null(w->verdict);
}

void wing_make(struct wing *w, const struct wing_text *text)
{
    wing_build(w, text);
    wing_solve(w);
}

void wing_free(struct wing *w)
{
    pl_solve_free(w->solve);
    pl_part_free(&w->part);
    pl_problems_free(&w->problems);
}

const struct pl_section *wing_section(struct wing *w, size_t element, double y_m, struct pl_place_view *view)
{
    if (pl_solve_place(w->solve, &w->part, element, y_m, view, &w->problems) != PL_OK)
        fail_with(w);
    return &view->section;
}

const struct pl_case_result *wing_case(const struct wing *w, const char *name)
{
    for (size_t i = 0; i < w->verdict->n_cases; i++)
        if (!strcmp(w->verdict->cases[i].load_case->name, name))
            return &w->verdict->cases[i];
    fail_msg("there is no case %s", name);
    return NULL;
}

const struct pl_check_row *wing_row(const struct pl_case_result *c, double y_m)
{
    size_t nearest = 0;
    for (size_t i = 1; i < c->n_rows; i++)
        if (fabs(c->rows[i].y_m - y_m) < fabs(c->rows[nearest].y_m - y_m))
            nearest = i;
    return &c->rows[nearest];
}

double chance(uint64_t *state)
{
    /* Marsaglia 2003, Xorshift RNGs: shifts 13, 7, 17. */
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return (double)(*state >> 11) / 9007199254740992.0;
}

double chance_between(uint64_t *state, double from, double to)
{
    return from + (to - from) * chance(state);
}
