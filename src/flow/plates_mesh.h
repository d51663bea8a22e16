/* plates_mesh.h - end plates laid as a lattice, joined to the tips that stand on them.  Private to the flow room.
 *
 * A plate is flat and upright at a tip.  Its bound lines are those of the tips, and more ahead, behind and where tips leave
 * a gap.  Each tip's mean line, level ahead of the nose and behind the edge, splits it into parts; parts are divided at
 * cosines of equal angles from line to line.  Where plates of one plane overlap they are laid as one. */
#ifndef PLYLOFT_PLATES_MESH_H
#define PLYLOFT_PLATES_MESH_H

#include "wing_mesh.h"

enum { TIPS_MOST = 8 };

/* A tip's mean line across a plate, or the plate's own edge. */
struct plate_line {
    struct mesh_element *tip;   /* NULL: an edge */
    struct mesh_knot *knots;    /* in order of x */
    size_t n_knots;
    double nose_x, nose_z, tail_x, tail_z;  /* of the mean line */
    size_t *at;                 /* index of the knot at each bound line, and behind them that at the plate's end */
};

struct plate {
    double y_m, x_from_m, x_to_m, z_from_m, z_to_m;
    struct plate_line lines[TIPS_MOST + 2];  /* from the lower edge to the upper one */
    size_t n_lines;
    double *x_m;                /* bound lines, and behind them the plate's end */
    size_t n_bound;
    size_t *rows[TIPS_MOST + 1];    /* nodes inside each part: (divisions - 1) rows of n_bound + 1 */
    size_t divisions[TIPS_MOST + 1];
};

struct plates { struct plate *list; size_t count; };

/* Makes the corners, and puts those on the tips' mean lines into the elements' tips. */
enum pl_status pl_plates_join(struct plates *plates, struct wing_mesh *mesh, struct pl_lattice *lattice, struct pl_arena *arena,
                              struct pl_problems *problems);
/* Lays the rings, when those of the elements are laid. */
void pl_plates_lay(const struct plates *plates, struct pl_lattice *lattice);

#endif
