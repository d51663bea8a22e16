/* tubes.h - sections with closed forms, for tests of the structure room: round and oval tubes, boxes, solid cores. */
#ifndef PLYLOFT_TESTS_TUBES_H
#define PLYLOFT_TESTS_TUBES_H

#include "../part_text.h"
#include "../support.h"

#include <math.h>

/* No core to speak of. */
#define HOLLOW \
    "'kind': 'air', 'density_kgm3': 1e-6, 'e_mpa': 1e-6, 'g_mpa': 1e-6, 'shear_strength_mpa': 500," \
    " 'compressive_strength_mpa': 500"

/* A straight wing of one profile and chord, clamped in the middle. */
static inline struct wing_text straight_text(const char *profile, double chord_mm, double semispan_mm)
{
    return (struct wing_text){
        .profiles = say("{'name': 'section', %s}", profile),
        .stations = say("{'y_mm': 0, 'chord_mm': %g, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0,"
                        " 'profile': 'section'},{'y_mm': %g, 'chord_mm': %g, 'x_le_mm': 0, 'z_le_mm': 0,"
                        " 'twist_deg': 0, 'profile': 'section'}",
                        chord_mm, semispan_mm, chord_mm),
        .mounts = "{'name': 'middle', 'y_mm': 0, 'hold': 'clamped'}",
        .cases = "",
    };
}

/* An oval tube, half_height in chords (0.5 is round), hollow, of the sheet. */
static inline struct wing_text oval_text(double chord_mm, double half_height, double semispan_mm)
{
    struct wing_text text =
        straight_text(say("'points': [%s]", say_outline(180, ellipse_z, half_height)), chord_mm, semispan_mm);
    text.core = HOLLOW;
    text.layup = say_skin("sheet", 0, 1);
    return text;
}

/* A box of height 2 half_height chords; walls upright but for a millionth of the chord. */
static inline const char *box_points(double half_height)
{
    double h = half_height;
    return say("'points': [[1, 0], [0.999999, %.15g], [0.000001, %.15g], [0, 0], [0.000001, %.15g], [0.999999, %.15g],"
               " [1, 0]]",
               h, h, -h, -h);
}

/* Builds the wing, to be given back with wing_free. */
static inline const struct pl_section *section_of(struct wing *w, const struct wing_text *text, double y_m,
                                                  struct pl_place_view *view)
{
    wing_build(w, text);
    return wing_section(w, 0, y_m, view);
}

/* ---- the line at a distance d outside an ellipse of half axes a and b, walked at angle p ---- */

struct oval { double a, b, d; };

static inline void oval_at(const struct oval *o, double p, double *x, double *z, double *ds)
{
    double speed = hypot(o->a * sin(p), o->b * cos(p)), nx = o->b * cos(p) / speed, nz = o->a * sin(p) / speed;
    double curvature = o->a * o->b / (speed * speed * speed);
    *x = o->a * cos(p) + o->d * nx;
    *z = o->b * sin(p) + o->d * nz;
    *ds = speed * (1 + o->d * curvature);
}

enum { OVAL_STEPS = 20000 };

/* Closed integral of z^2 ds and of x^2 ds, girth and area; the sum is exact to rounding for a smooth closed line. */
static inline void oval_sums(const struct oval *o, double *zz, double *xx, double *girth, double *area)
{
    *zz = *xx = *girth = 0;
    for (int i = 0; i < OVAL_STEPS; i++) {
        double x, z, ds;
        oval_at(o, 2 * M_PI * i / OVAL_STEPS, &x, &z, &ds);
        ds *= 2 * M_PI / OVAL_STEPS;
        *zz += z * z * ds;
        *xx += x * x * ds;
        *girth += ds;
    }
    /* Steiner 1840: area inside a parallel line */
    double inner_girth = *girth - 2 * M_PI * o->d;
    *area = M_PI * o->a * o->b + inner_girth * o->d + M_PI * o->d * o->d;
}

#endif
