/* lattice.h - vortex lattice: rings of vortices on thin surfaces, their mirror across y = 0, and flat ground.
 *
 * The caller lays rings on the right half, node by node; lines that rings share are one line, whose strength is what the
 * rings leave of each other.  No air passes a ring's control point (Katz and Plotkin, Low-Speed Aerodynamics, 2001, ch. 12).
 * Mirror and ground by images.  Forces by Kutta and Joukowski with the local velocity at the middle of every line; drag
 * in the Trefftz plane far behind (ibid., ch. 8).  Lengths in metres, velocities by that of the onset flow along +x.  Work
 * is done in slices of a few milliseconds.  Knows no part and no profile.
 */
#ifndef PLYLOFT_LATTICE_H
#define PLYLOFT_LATTICE_H

#include "plyloft/problems.h"
#include "plyloft/vector.h"

#include <stdbool.h>
#include <stddef.h>

struct pl_lattice;

struct pl_lattice *pl_lattice_new(void);  /* NULL without memory */
void pl_lattice_free(struct pl_lattice *lattice);

/* ---- laying ---- */

/* Takes all rings away and keeps the memory.  ground_z NAN: free air. */
void pl_lattice_clear(struct pl_lattice *lattice, double ground_z);

/* A corner; its number.  Corners of neighbours must be the same one.  Without memory the lattice remembers that, and solving
 * it fails. */
size_t pl_lattice_node(struct pl_lattice *lattice, struct pl_vector at);
struct pl_vector pl_lattice_at(const struct pl_lattice *lattice, size_t node);

/* A strip of rings whose force is summed; its number. */
size_t pl_lattice_strip(struct pl_lattice *lattice);

/* Begins a ring; strip PL_NONE: its force is not asked for, nor that of lines it shares.  Its lines follow, all in one sense: across the front outward,
 * aft along the outer side, back, and forward along the inner side. */
void pl_lattice_ring(struct pl_lattice *lattice, struct pl_vector control, struct pl_vector normal, size_t strip);
void pl_lattice_line(struct pl_lattice *lattice, size_t from, size_t to);
/* Instead of a rear line: wakes straight aft from both ends, and the place between them in the Trefftz plane. */
void pl_lattice_wake(struct pl_lattice *lattice, size_t outer, size_t inner, struct pl_vector middle);

size_t pl_lattice_rings(const struct pl_lattice *lattice);

/* ---- solving ---- */

/* Begins; then one slice each: true while there is more.  The end's status is PL_OK, PL_NO_MEMORY, or PL_NOT_CONVERGED where
 * the rings have no finite answer.  pl_lattice_solve does it all. */
void pl_lattice_start(struct pl_lattice *lattice);
bool pl_lattice_step(struct pl_lattice *lattice);
enum pl_status pl_lattice_status(const struct pl_lattice *lattice);
enum pl_status pl_lattice_solve(struct pl_lattice *lattice);

/* ---- what came out ---- */

/* On a strip of the right half, by rho V^2, m2: the force; and sum of force z times x, m3. */
struct pl_lattice_load { struct pl_vector force; double x_times_z; };
struct pl_lattice_load pl_lattice_load(const struct pl_lattice *lattice, size_t strip);

/* Drag of both halves in the Trefftz plane, plates and all, the same unit. */
double pl_lattice_trefftz_drag(const struct pl_lattice *lattice);

#endif
