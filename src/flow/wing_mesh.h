/* wing_mesh.h - the elements of a wing and their end plates laid as a lattice.  Private to the flow room.
 *
 * An element: equal panels along the chord, bound lines at their quarters, control points at three quarters; edges of strips
 * at the sines of equal angles, control points at their middles in angle (Lan, J. Aircraft 11, 1974, for both); sides on the
 * surface to the trailing edge.  A plate: every bound line of a tip goes on over it, upright; it is split along the tip's
 * mean line, which runs on level ahead and behind, so that the corners of wing and plate are the same ones.
 */
#ifndef PLYLOFT_WING_MESH_H
#define PLYLOFT_WING_MESH_H

#include "plyloft/arena.h"
#include "plyloft/lattice.h"
#include "plyloft/mean_surface.h"

/* A corner of the tip's mean line, or one put in where a plate's line meets it. */
struct mesh_knot { double x, z; size_t node; };

struct mesh_element {
    size_t index;                     /* in the part */
    struct pl_mean_surface *surface;
    size_t chordwise, spanwise;
    double *edges_m, *middles_m;      /* of its strips */
    size_t *nodes;                    /* (chordwise + 1) rows of spanwise + 1; the last row is the trailing edge */
    size_t *strips;                   /* their numbers in the lattice */
    struct mesh_knot *tip;            /* from the leading edge on, in order of x */
    size_t n_tip, most_tip;
};

struct wing_mesh {
    const struct pl_part *part;
    struct mesh_element *elements;
    size_t n_elements;
};

struct mesh_size { size_t chordwise, spanwise; };  /* of the largest element's right half */

/* Lays all elements and plates of a part that pl_part_build took.  PL_NOT_CONVERGED with a problem where a plate cannot be
 * joined to what stands on it. */
enum pl_status pl_wing_mesh_lay(struct wing_mesh *mesh, struct pl_lattice *lattice, const struct pl_part *part, struct mesh_size size,
                                double ground_z, struct pl_arena *arena, struct pl_problems *problems);

#endif
