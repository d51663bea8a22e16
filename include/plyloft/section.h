/* section.h - stiffness and shear flow of one section of the wing.
 *
 * The wall (stacks on the core surface, their middle line half a thickness outside) and
 * the core, by the contract's rules 2, 3 and 6: modulus-weighted constants, torsion by
 * Bredt-Batho (Bredt 1896), shear flow of the closed single cell (Megson, Aircraft
 * Structures, ch. 17), shear centre, shear stiffness from energy.  Chord axes: from the
 * section's leading edge, x along the chord, z normal to it and up, as installed and
 * before incidence and twist turn it.  Always a section of the right half; the left
 * half is its mirror, which the callers take into account by the signs of torque and
 * shear.
 *
 * Shear flow is positive leading edge up: rearward on top, forward below.
 */
#ifndef PLYLOFT_SECTION_H
#define PLYLOFT_SECTION_H

#include "plyloft/arena.h"
#include "plyloft/loft.h"
#include "plyloft/pieces.h"
#include "plyloft/problems.h"
#include "plyloft/stack.h"

/* Upper bounds of a run, or of all runs of a section together. */
struct pl_wall_bounds {
    double x_far_m, z_far_m;        /* greatest distances from the neutral point */
    double flow_torsion;            /* greatest |N12| of a unit torque, 1/m2 */
    double flow_z_far, flow_x_far;  /* of a unit shear, 1/m */
    double wrinkle_strain, wrinkle_flow;  /* of the stacks' own (stack.h); 0 where nothing wrinkles */
    double q_most[6], l_most[3], share_most[3], offset_most_m;  /* likewise; of a section only */
};

/* Neighbouring wall points with one stack. */
struct pl_wall_run {
    size_t stack;             /* in the set */
    size_t first, count;      /* points */
    enum pl_side side;        /* top or bottom */
    double from, to;          /* chord fractions, nose to tail */
    double girth_m;           /* on the core surface */
    double flow_torsion;      /* N12 of a unit torque, 1/m2 */
    struct pl_wall_bounds bounds;
    bool wrinkles;            /* lies at 0.10 chord or aft */
};

/* Wall points, run by run in circuit order: bottom from tail to nose, top from nose to tail. */
struct pl_wall {
    size_t count, n_runs;
    struct pl_wall_run *runs;
    double *x_m, *z_m;             /* from the neutral point */
    double *normal_x, *normal_z;   /* outward */
    double *flow_z, *flow_x;       /* N12 of a unit shear normal to and along the chord, 1/m */
    double *fraction;
};

struct pl_section {
    double y_m, chord_m, x_le_m, z_le_m, nose_up_rad, cos_nose_up, sin_nose_up;
    double ea_n, ei_flap_nm2, ei_lead_nm2, ei_coupling_nm2, gj_nm2, shear_stiffness_n;
    double x_neutral_m, z_neutral_m, x_shear_centre_m, z_shear_centre_m;
    double cell_area_m2, core_area_m2, mass_kg_m, core_mass_kg_m;
    double girth_flexibility_m_n;  /* closed integral of ds / A66* */
    bool couples;                  /* an unbalanced stack: bending and twist act on each other */
    /* Closed integrals of k N12 (1, -(z-zn), -(x-xn)) ds for a unit torque and unit shears. */
    double by_torque[3], by_shear_z[3], by_shear_x[3];
    struct pl_wall wall;
    struct pl_wall_bounds bounds;  /* of the whole wall */
};

/* What a section needs to be built, and scratch that is used again from one to the next. */
struct pl_section_builder {
    const struct pl_part *part;
    const struct pl_loft *loft;
    const struct pl_cloth *cloth;
    struct pl_stack_set *stacks;
    struct pl_arena *arena;    /* the sections' own arrays */
    struct pl_section_scratch *scratch;
    double *loft_scratch;      /* 4 x loft->count, for pl_loft_at */
    struct pl_problems *problems;
    const char *pointer;       /* of the element, for what is wrong */
    bool bare_told;
    const struct pl_section *last;  /* the one built before; used again where chord, outline and plies are the same */
    struct pl_loft_place last_place;
    size_t *last_plies;
};

bool pl_section_builder_start(struct pl_section_builder *b, const struct pl_part *part, const struct pl_loft *loft,
                              const struct pl_cloth *cloth, struct pl_stack_set *stacks, struct pl_arena *arena,
                              struct pl_problems *problems, const char *pointer);

/* The section at a place of the span (its distance from the centreline counts); out must stay where it is while the
 * next is built.  PL_BAD_INPUT when the wall is
 * bare somewhere (told once a builder), PL_NO_MEMORY. */
enum pl_status pl_section_build(struct pl_section_builder *b, double y_m, enum pl_limit limit, struct pl_section *out);

/* Index of the stack that covers a place of the wall, PL_NONE when it is bare (or without memory). */
size_t pl_section_stack_at(struct pl_section_builder *b, double y_m, enum pl_limit limit, enum pl_side side,
                           double fraction);

/* x and z on the car of a point given in chord axes. */
void pl_section_to_car(const struct pl_section *s, double x_m, double z_m, double *x_car_m, double *z_car_m);

/* Strain of the wall's middle line, e = at_neutral - flap z - lead x (from the neutral point), and shear flow
 * N12 = flow_torsion T + flow_z Vz + flow_x Vx. */
struct pl_strain { double at_neutral, flap_1_m, lead_1_m; };

/* Internal forces in chord axes: shear normal to and along the chord, moments, torque about the shear centre. */
struct pl_internal { double shear_z_n, shear_x_n, moment_flap_nm, moment_lead_nm, torque_nm; };

/* Internal forces on the car (vertical and fore-and-aft shear, their moments) into chord axes. */
struct pl_internal pl_section_turn(const struct pl_section *s, const struct pl_internal *on_car);

/* Rule 6: plane strain that balances N = 0 and both moments with the whole shear flow. */
struct pl_strain pl_section_strain(const struct pl_section *s, const struct pl_internal *chordwise);

/* Compliance on the car by rule 4: (flap curvature, lead curvature, twist rate) from (flap moment, lead moment,
 * torque), symmetric: ff, ll, tt, fl, ft, lt. */
void pl_section_compliance(const struct pl_section *s, double out[6]);

#endif
