/* section_flow.h - potential flow round one or several bodies in a plane, in free air or over flat ground.
 *
 * Vorticity of constant strength on straight panels, chosen so that the stream function is one constant along each
 * body's surface: Kennedy and Marsden, A potential flow design method for multicomponent airfoil sections, J. Aircraft
 * 15 (1978).  Inside a body the air is then at rest, so a panel's strength is the speed on it.  Kutta: the speeds on
 * both sides of the trailing edge are equal.  An open edge lets the air out between its corners at that same speed, as a
 * source panel, so that neither corner is turned round: the strengths there stay finite as panels shrink.  Ground by
 * images (Katz and Plotkin, Low-Speed Aerodynamics, 2001, ch. 5).
 *
 * Lengths in chords, speeds by that of the onset flow.  A body is a list of nodes from the trailing edge over the upper
 * surface round the nose and back, one panel between two of them.  Knows no wing, no file and no Reynolds number.
 */
#ifndef PLYLOFT_SECTION_FLOW_H
#define PLYLOFT_SECTION_FLOW_H

#include "plyloft/part.h"
#include "plyloft/problems.h"

struct pl_flow_body { const struct pl_point *nodes; size_t count; };

enum { PL_FLOW_BODIES_MOST = 4, PL_FLOW_PANELS_MOST = 1000 };

/* Panels of all bodies, one after the other. */
struct pl_flow_panels {
    size_t count, n_bodies;
    size_t first[PL_FLOW_BODIES_MOST + 1];   /* of each body; the last is count */
    const double *x, *z, *length, *tangent_x, *tangent_z;  /* middles; tangents in the order of the nodes */
    double gap[PL_FLOW_BODIES_MOST];         /* across each open edge */
};

struct pl_section_flow;

struct pl_section_flow *pl_section_flow_new(void);  /* NULL without memory */
void pl_section_flow_free(struct pl_section_flow *flow);

/* Takes the bodies (copied) and prepares their system.  ground_z: the plane's height, NAN for free air; bodies lie wholly
 * on one side.  sources: also what panels give off when a boundary layer displaces the air.  PL_BAD_INPUT with a problem
 * when a body is none, or touches or crosses the ground; PL_NOT_CONVERGED when the system has no finite answer. */
enum pl_status pl_section_flow_set(struct pl_section_flow *flow, const struct pl_flow_body *bodies, size_t n, double ground_z,
                                   bool sources, struct pl_problems *problems);
const struct pl_flow_panels *pl_section_flow_panels(const struct pl_section_flow *flow);

/* Speeds on all panels, clockwise positive (backwards on an upper surface), for the onset flow at an angle, which is 0 over
 * ground.  source, unless NULL: strength of each panel, out of the body.  False when they are not finite. */
bool pl_section_flow_speeds(struct pl_section_flow *flow, double alpha_rad, const double *source, double *speed);

/* The speeds that sources alone make, without onset flow. */
bool pl_section_flow_of_sources(struct pl_section_flow *flow, const double *source, double *speed);

struct pl_flow_force { double lift, drag, moment; };  /* by dynamic pressure and chord; moment nose up about (x, z) */

/* Pressure summed over a body, its edge included.  Where there is a source, the speed is of both parts. */
struct pl_flow_force pl_section_flow_force(const struct pl_section_flow *flow, size_t body, double alpha_rad, const double *speed,
                                           const double *source, double x, double z);

/* Drag that potential flow should show: what an open edge's outflow carries, 0 for a closed one.  The difference to the drag
 * above measures the error. */
double pl_section_flow_edge_drag(const struct pl_section_flow *flow, size_t body, const double *speed);

/* Velocity anywhere in the air. */
void pl_section_flow_velocity(const struct pl_section_flow *flow, double alpha_rad, const double *speed, double x, double z, double *u,
                              double *w);

/* ---- outlines ---- */

/* A profile as nodes of a body, at x = (1 - cos)/2 of either surface: count of them, odd.  Points are joined by a smooth
 * curve (Akima, J. ACM 17, 1970), since corners are no part of a shape that was measured.  False without memory. */
bool pl_flow_outline(const struct pl_profile *profile, struct pl_point *nodes, size_t count);

#endif
