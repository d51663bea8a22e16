/* wing_air.h - flows over the whole wing, worked out once for each shape and height and kept for the next solves.
 *
 * What a flow says of the strips does not change with speed, air, loads or cloth, so most edits find it here.  A store may
 * serve several solves of one thread.  Keeps the last ones used; knows no screen.
 */
#ifndef PLYLOFT_WING_AIR_H
#define PLYLOFT_WING_AIR_H

#include "plyloft/wing_flow.h"

struct pl_wing_air;

struct pl_wing_air *pl_wing_air_new(void);  /* NULL without memory */
void pl_wing_air_free(struct pl_wing_air *air);

/* One flow; its arrays live until the store works out another one. */
struct pl_wing_air_view {
    const struct pl_wing_strip *strips;
    size_t n_strips;
    struct pl_wing_figures figures;
    double semispan_m;         /* of the case's element when it was worked out */
    bool old;                  /* of an earlier shape or height */
};

/* The flow of a downforce case, or else (old) the newest one in which its element had a part.  PL_NOT_CONVERGED with a problem
 * where this one has no answer; PL_BAD_INPUT, without a problem, where there is none yet. */
enum pl_status pl_wing_air_find(struct pl_wing_air *air, const struct pl_part *part, const struct pl_load_case *load_case,
                                struct pl_wing_air_view *out, struct pl_problems *problems);

/* One slice of working it out: true while there is more.  What it comes to, an answer or none, is then found. */
bool pl_wing_air_step(struct pl_wing_air *air, const struct pl_part *part, const struct pl_load_case *load_case);

#endif
