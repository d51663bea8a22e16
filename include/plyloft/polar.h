/* polar.h - lift, moment and drag of a profile over its incidence, in free air and near the ground.
 *
 * `cl_potential`, `cm_potential` are of the potential flow (section_flow.h), `cd` of boundary layers marched on it as the
 * contract says.  `cl`, `cm` are what the boundary layers leave of that: they displace the air, as sources on the panels
 * that grow with u delta* (Lighthill 1958), and where the turbulent layer leaves the surface the air behind is at rest at
 * one pressure - that of the place where it left and of both sides of the edge - which an even outflow from the separated
 * part makes so (after Jacob, Z. Flugwiss. 17, 1969).  Layers and flow are iterated until they agree.
 *
 * Near the ground the section is inverted and H is the height of the middle of the trailing edge, turned; a positive lift
 * presses down, and upper stays upper of the upright profile.  Lengths in chords, cm about the quarter chord, nose up.
 */
#ifndef PLYLOFT_POLAR_H
#define PLYLOFT_POLAR_H

#include "plyloft/part.h"
#include "plyloft/problems.h"

#include <stdbool.h>

struct pl_polar_row {
    double alpha_deg, cl, cm, cd, cl_potential, cm_potential;
    double turbulent_from_upper, turbulent_from_lower;   /* chord fractions; 1: nowhere */
    double separates_upper, separates_lower;             /* the same, of the layers that cd is made of */
    double attached_upper, attached_lower;               /* where the flow of cl leaves the surface; 1: nowhere */
    double clearance;     /* of the lowest node over the ground; NAN in free air */
    bool separated;       /* ahead of 0.95 chord: cd is only a floor */
    bool settled;         /* flow and layers agree; false: cl and cm are the mean of the last rounds */
};

struct pl_polar;

/* Prepares a profile, the right way up; height NAN: free air.  panels, even, of the whole outline. */
enum pl_status pl_polar_start(struct pl_polar **polar, const struct pl_profile *profile, double reynolds, double height, size_t panels,
                              struct pl_problems *problems);
void pl_polar_free(struct pl_polar *polar);

/* One incidence.  Where several flows agree with their layers, that nearest to attached flow is meant; a row farther from
 * zero lift than the one before begins with what that came to, so rows in order settle fastest.  PL_BAD_INPUT: the section
 * turned so touches the ground. */
enum pl_status pl_polar_row(struct pl_polar *polar, double alpha_deg, struct pl_polar_row *row, struct pl_problems *problems);

/* Pressure along the outline of the last row, as the potential flow has it and as the separated one: panels of them, from the
 * trailing edge over the upper surface round. */
struct pl_polar_pressure { double x, z, potential, limited; };
size_t pl_polar_pressures(const struct pl_polar *polar, struct pl_polar_pressure *out, size_t most);

enum { PL_POLAR_PANELS = 200 };

/* What the figures of a row are worth: sentences, NULL behind the last of at most PL_POLAR_DOUBTS; their letters mark a row
 * of a table. */
enum { PL_POLAR_DOUBTS = 5 };
struct pl_polar_doubt { char mark; const char *sentence; };
size_t pl_polar_doubts(const struct pl_polar_row *row, double reynolds, double height, struct pl_polar_doubt out[PL_POLAR_DOUBTS]);

/* Index of the row of greatest lift, when lift falls behind it or stands; PL_NONE when it still rises at the end. */
size_t pl_polar_greatest(const struct pl_polar_row *rows, size_t count);

#endif
