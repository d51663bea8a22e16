/* boundary_layer.h - boundary layer along one side of a section, by integral methods, for a given speed along it.
 *
 * Laminar: Thwaites 1949, theta^2 = 0.45 nu u^-6 integral u^5 ds, exact for a speed linear between points; shape from the
 * fits of Cebeci and Bradshaw 1977.  It turns turbulent where Michel's curve is crossed, Re_theta = 1.174 (1 + 22400 / Re_x)
 * Re_x^0.46 (Michel 1951, in the form of Cebeci and Smith 1974), not below Re_x = 1e5, or where the laminar layer separates
 * (lambda < -0.09).  Turbulent: Head's entrainment (ARC R&M 3152, 1958) with the skin friction of Ludwieg and Tillmann 1949,
 * from the same theta and H = 1.4.  Handbook of the flow: contract, `cd`.
 *
 * Lengths in chords, speeds by that of the onset flow, so that nu = 1 / Reynolds number.  Knows no section.
 */
#ifndef PLYLOFT_BOUNDARY_LAYER_H
#define PLYLOFT_BOUNDARY_LAYER_H

#include <stdbool.h>
#include <stddef.h>

/* A turbulent layer this thick for its momentum leaves the surface: where drag stops to be summed (contract). */
#define PL_SHAPE_SEPARATES 2.4

/* Arrays of count, the caller's. */
struct pl_boundary_layer {
    size_t count;
    const double *way, *speed;   /* from the stagnation point on, where both are 0; way rises */
    double *theta, *shape;       /* momentum thickness, H */
    double turbulent_way;        /* where it turns turbulent; the whole way when it does not */
    size_t turbulent_from;       /* first turbulent point; count when there is none */
    size_t separates_at;         /* first point at which H reached the limit; count when none did */
    double separates_way;        /* where, between that point and the one before; the whole way when it does not */
};

/* Marches along; stops at separation, behind which theta and shape are not set.  steps: of Runge and Kutta between two
 * points.  False when the speeds cannot be marched on (fewer than 3 points, or none above 0). */
bool pl_boundary_layer_march(struct pl_boundary_layer *layer, double reynolds, double shape_separates, int steps);

/* Drag that the layer leaves in the wake, by Squire and Young 1938, 2 theta u^((H + 5) / 2), at the last point before it
 * separates. */
double pl_boundary_layer_drag(const struct pl_boundary_layer *layer);

/* Shape of a laminar layer by Thwaites' parameter, and Head's relation between H and H1, both ways. */
double pl_laminar_shape(double lambda);
double pl_head_h1(double shape);
double pl_head_shape(double h1);

#endif
