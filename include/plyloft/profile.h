/* profile.h - wing sections: NACA shapes and coordinate lists.
 *
 * Gives the core's surface in chords, the right way up (positive camber lifts up).
 * Four- and five-digit shapes follow their published equations with the open trailing
 * edge, camber laid off normal to the mean line: NACA reports 460 (four digits) and
 * 537 (five digits), thickness of report 460 with last coefficient -0.1015.  Knows
 * nothing of wings, cloth or files.
 */
#ifndef PLYLOFT_PROFILE_H
#define PLYLOFT_PROFILE_H

#include "plyloft/part.h"

#include <stdbool.h>
#include <stddef.h>

/* Equations of one NACA designation, worked out once. */
struct pl_naca {
    double thickness;           /* chords */
    double camber, camber_at;   /* four digits; camber 0 without */
    double m, k1, k2_over_k1;   /* five digits; k1 0 for four */
};

/* False when the text is not a four- or five-digit designation that the reports define;
 * *why then says what is wrong with it (a static sentence). */
bool pl_naca_parse(const char *designation, struct pl_naca *naca, const char **why);

/* Both surfaces at mean-line station s (0 nose, 1 tail). */
void pl_naca_point(const struct pl_naca *naca, double s, struct pl_point *upper, struct pl_point *lower);

/* Mean-line ordinate and half thickness at s. */
double pl_naca_mean(const struct pl_naca *naca, double s, double *slope);
double pl_naca_half_thickness(const struct pl_naca *naca, double s);

/* What is wrong with a coordinate list (trailing edge, upper surface, nose, lower surface, trailing
 * edge), as a static sentence with the index of the point; NULL when it is a profile. */
const char *pl_points_fault(const struct pl_point *points, size_t count, size_t *at);

/* Index of the least x, where a coordinate list is split into upper and lower. */
size_t pl_points_nose(const struct pl_point *points, size_t count);

/* One profile at chord fractions s (rising from 0 to 1, count of them): upper and lower surface.
 * For a NACA shape s is the mean-line station, for points it is x; points are joined by straight
 * lines, and a fraction ahead of the nose or behind the edge gives the nose or the edge. */
void pl_profile_surfaces(const struct pl_profile *profile, const double *s, size_t count, struct pl_point *upper,
                         struct pl_point *lower);

/* Area inside the outline closed by a straight line across the edge, greatest thickness (normal to the
 * mean line for a NACA shape, along z for points), mean line's ordinate of greatest size; in chords. */
struct pl_profile_figures { double area, thickness, camber; };
struct pl_profile_figures pl_profile_figures(const struct pl_profile *profile);

/* Outline as a list from the trailing edge over the upper surface round the nose: count points (at least 5) at
 * x = (1 - cos)/2 of each surface; of an even count the upper one has the point more. */
void pl_profile_list(const struct pl_profile *profile, size_t count, struct pl_point *out);

#endif
