/* part_text.h - wings in a few words, for tests of the engine.
 *
 * A part is put together from fragments of its file, in which ' stands for ".  What a test leaves NULL is that of a
 * plain wing: a 0012 of 300 mm chord and 1280 mm span, three glass cloths at 45 degrees all round on foam, two
 * clamped brackets 170 mm from the centreline, nothing knocked down, a push of 100 N up on the right tip.
 *
 * Cloths to hand: `plain` and `uni` (the glass cloths of the sample part), `sheet` (isotropic, 70 GPa, Poisson's
 * ratio 0.3, 0.5 mm a ply, too strong to fail) and `film` (0.01 mm of next to nothing, to cover what must not be
 * bare).  What cannot be read, built or solved here fails the test.
 */
#ifndef PLYLOFT_TESTS_PART_TEXT_H
#define PLYLOFT_TESTS_PART_TEXT_H

#include "plyloft/check.h"

/* Lists come without their brackets, objects without their braces. */
struct wing_text {
    const char *profiles, *fabrics;            /* profiles: of which the first is named 'section' */
    const char *resin, *core;                  /* keys behind the name */
    const char *element;                       /* keys ahead of the stations, such as 'inverted': true */
    const char *stations, *layup, *mounts;
    const char *more_elements;
    const char *cases, *allowables, *limits;
};

struct wing {
    struct pl_part part;
    struct pl_problems problems;               /* of reading and of solving */
    struct pl_solve *solve;
    const struct pl_verdict *verdict;          /* after wing_solve */
};

/* Reads and builds; wing must be given back with wing_free. */
void wing_build(struct wing *w, const struct wing_text *text);
/* The same with no failure when the part is refused. */
enum pl_status wing_try_build(struct wing *w, const struct wing_text *text);
void wing_solve(struct wing *w);               /* solves what was built */
void wing_make(struct wing *w, const struct wing_text *text);  /* builds and solves */
void wing_free(struct wing *w);

/* The section of an element at y in metres, valid until the next call. */
const struct pl_section *wing_section(struct wing *w, size_t element, double y_m, struct pl_place_view *view);

const struct pl_case_result *wing_case(const struct wing *w, const char *name);

/* The row of a case nearest to y. */
const struct pl_check_row *wing_row(const struct pl_case_result *c, double y_m);

/* printf into memory of the helper's own, good for the next 60 calls. */
const char *say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* One item all round; three plain skins with caps of uni, 72 mm wide; a push, in the file's units. */
const char *say_skin(const char *fabric, double angle_deg, int plies);
const char *say_caps(int top_plies, int bottom_plies);
const char *say_point(const char *name, double y_mm, double acts_at, const char *direction, double force_n,
                      double factor);

/* A list of points for an outline given by angle: x = (1 + cos a)/2, z = half_height(a) from 0 (the tail) over the top
 * to pi (the nose) and back to 2 pi; half steps a side.  Good for the next 60 calls of say. */
const char *say_outline(int half, double (*z_of)(double angle, double size), double size);
double ellipse_z(double angle, double half_height);

/* The sample's wing: cloth, shape, mounts and cases of the hill-climb front wing. */
extern const struct wing_text front_wing;

/* The same sequence of numbers from 0 to 1 in every run. */
double chance(uint64_t *state);
double chance_between(uint64_t *state, double from, double to);

#endif
