/* flow_inside.h - what one straight panel does.  Private to the flow room. */
#ifndef PLYLOFT_FLOW_INSIDE_H
#define PLYLOFT_FLOW_INSIDE_H

/* From (x, z) along the tangent; out of the body is to its right. */
struct pl_panel { double x, z, length, tangent_x, tangent_z; };

/* Stream function at a place of a panel of unit vortex strength, clockwise: the integral of ln r / 2 pi. */
double pl_panel_vortex(const struct pl_panel *panel, double x, double z);

/* The same of unit source strength: the integral of the angle / 2 pi, counted from a direction (ref_x, ref_z); it jumps
 * across the opposite one.  On the panel itself the side to the left is meant. */
double pl_panel_source(const struct pl_panel *panel, double x, double z, double ref_x, double ref_z);

/* How a place sees a node: ln r and the angle of the way to the place, from +x. */
struct pl_sight { double dx, dz, log_r, angle; };
struct pl_sight pl_sight_of(double from_x, double from_z, double x, double z);

/* Both of the above from the sights of a panel's ends; ref_angle: of the reference direction.  source may be NULL. */
void pl_panel_influence(const struct pl_panel *panel, const struct pl_sight *start, const struct pl_sight *end, double ref_angle,
                        double *vortex, double *source);

/* Velocity of both at a place, its vertical part times sign (an image is seen in the mirror). */
void pl_panel_add_velocity(const struct pl_panel *panel, double vortex, double source, double x, double z, double sign, double *u, double *w);

#endif
