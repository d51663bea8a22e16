/* wing_sections.h - the sections of a wing on the lattice's strips: drag, and lift with thickness and stall.
 *
 * Drag of a strip: its section's in free air at its own Reynolds number, at the incidence where cl_potential is the strip's;
 * between stations the two profiles mixed linearly.  Plates: skin friction on both sides, 0.455 / (log10 Re)^2.58 (Prandtl and
 * Schlichting).  That is the contract's drag.  Beside it stand limited figures: at places along each element the strip's lift
 * becomes what the real section has where its mean line carries the lattice's (strip_air.h), thickness, ground and boundary
 * layers counted in; linear in between.  Induced drag then goes with the square of the lift.  An upright element over ground
 * has its sections in free air.
 */
#ifndef PLYLOFT_WING_SECTIONS_H
#define PLYLOFT_WING_SECTIONS_H

#include "plyloft/wing_air.h"

#include <stdbool.h>

struct pl_wing_section {
    double cd;             /* of the contract */
    bool separated;        /* ahead of 0.95 chord, or with more lift than the section has: cd is only a floor */
    double cl_limited, cd_limited;
};

enum { PL_WING_DOUBTS = 6 };

struct pl_wing_totals {
    double force_n, induced_drag_n, profile_drag_n, plate_drag_n, drag_n;   /* the contract's; before the factor */
    double profile_drag, plate_friction;                                    /* the same by q S */
    double lift_limited, force_limited_n, drag_limited_n, centre_limited_m; /* centre NAN without downforce */
    double allowance;      /* of the case's own element: limited force by the lattice's; NAN without downforce */
    size_t separated;      /* strips of the right half whose section is */
    const char *doubts[PL_WING_DOUBTS];  /* sentences */
    size_t n_doubts;
};

struct pl_wing_sections;

struct pl_wing_sections *pl_wing_sections_new(void);  /* NULL without memory */
void pl_wing_sections_free(struct pl_wing_sections *sections);

/* Begins with the strips of a flow, copied.  part and load_case must live until it is done.  Slices of a few milliseconds: true
 * while there is more. */
enum pl_status pl_wing_sections_aim(struct pl_wing_sections *sections, const struct pl_part *part, const struct pl_load_case *load_case,
                                    const struct pl_wing_air_view *air);
bool pl_wing_sections_step(struct pl_wing_sections *sections, struct pl_problems *problems);
/* PL_OK when all is done; a problem says why not. */
enum pl_status pl_wing_sections_status(const struct pl_wing_sections *sections);

const struct pl_wing_strip *pl_wing_sections_strips(const struct pl_wing_sections *sections, size_t *count);
const struct pl_wing_section *pl_wing_sections_rows(const struct pl_wing_sections *sections);  /* one a strip */
struct pl_wing_figures pl_wing_sections_figures(const struct pl_wing_sections *sections);
struct pl_wing_totals pl_wing_sections_totals(const struct pl_wing_sections *sections);

/* Flow and sections in one go. */
enum pl_status pl_wing_sections_all(struct pl_wing_sections *sections, struct pl_wing_air *air, const struct pl_part *part,
                                    const struct pl_load_case *load_case, struct pl_problems *problems);

#endif
