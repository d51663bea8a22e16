/* section_air.h - lift, drag and pressure of the section at one place of a wing, in free air, worked out row by row.
 *
 * The profile is the loft's there, the right way up; its Reynolds number that of its own chord at the speed and in the air
 * of the element's first downforce case, or at a usual speed without one.  A section alone: what the rest of the wing does
 * to it is the wing flow's.  Done in slices, so that a screen can do it between keys.
 */
#ifndef PLYLOFT_SECTION_AIR_H
#define PLYLOFT_SECTION_AIR_H

#include "plyloft/check.h"
#include "plyloft/polar.h"

enum { PL_AIR_ROWS = 14, PL_AIR_PANELS = 120 };

struct pl_section_air;

struct pl_section_air *pl_section_air_new(void);  /* NULL without memory */
void pl_section_air_free(struct pl_section_air *air);

/* Aims at the section of a place view; begins anew when it is another one, its Reynolds number more than a hundredth
 * another, or its own incidence another.  True while there is work to be done. */
bool pl_section_air_aim(struct pl_section_air *air, const struct pl_part *part, size_t element, const struct pl_place_view *place);

/* One slice; false when all is done, or nothing can be. */
bool pl_section_air_step(struct pl_section_air *air);

/* What is there so far; the figures of an earlier aim never. */
struct pl_section_air_view {
    double reynolds, own_alpha_deg;
    bool usual_speed;                         /* no downforce case says one */
    const struct pl_polar_row *rows;          /* by incidence */
    size_t n_rows;
    const struct pl_polar_row *own;           /* at the section's own incidence; NULL until then */
    const struct pl_polar_pressure *pressures;  /* of that */
    size_t n_pressures;
    const char *failed;                       /* why there is no more; NULL */
};
struct pl_section_air_view pl_section_air_view(const struct pl_section_air *air);

#endif
