/* check.h - from a part to a verdict.
 *
 * The one place where loads meet structure: every load case of every element, on its
 * mounts as given and on pinned ones, with each pad of a jack in turn carrying more
 * (contract, rules 5, 7 and 9).  A pl_solve owns all memory and grows only when the part
 * grows: a warm run allocates nothing.  It keeps two result sets, so that
 * the last good one stays when the next run fails.  Knows no JSON, file or screen.
 */
#ifndef PLYLOFT_CHECK_H
#define PLYLOFT_CHECK_H

#include "plyloft/part.h"
#include "plyloft/problems.h"
#include "plyloft/section.h"
#include "plyloft/strength.h"
#include "plyloft/wing_air.h"

enum { PL_VARIANT_NONE = -2, PL_VARIANT_EVEN = -1 };  /* else the number of the pad that carries more */

struct pl_lowest {
    double reserve, y_m;
    enum pl_mode mode;
    const char *item;   /* a lay-up item, "top" or "bottom" for wrinkling, the core's name */
    enum pl_side side;
    double fraction;    /* of the chord; NAN for core shear */
};

/* One set of mounts, in its variant of lowest reserve. */
struct pl_solution {
    int variant;
    struct pl_lowest lowest;
    double total_force_n;
    double tip_m, largest_m, largest_y_m, nose_m, tail_m;
    double at_load_m;   /* NAN when no single point is loaded */
};

struct pl_check_row {
    double y_m, shear_n, moment_nm, torque_nm, deflection_m, twist_rad, reserve, stress_pa;
    enum pl_mode mode;
    size_t item;        /* lay-up item of the ply that governs; PL_NONE for other modes */
    enum pl_side side;  /* of a ply or a wrinkle */
    double fraction;    /* of the chord; NAN for core shear, and where nothing is stressed */
};

/* What the wing puts on a mount, by the right-hand rule about axes x aft, y right, z up through the shear centre there.  The beam
 * carries no force along the span. */
struct pl_reaction {
    size_t mount;                /* of the element */
    double at_x_m, at_z_m;       /* where moments are taken, on the car */
    double x_n, z_n;
    double about_x_nm, about_y_nm, about_z_nm;
};

struct pl_case_result {
    const struct pl_load_case *load_case;
    double total_force_n;
    struct pl_solution given, pinned;
    bool has_pinned;
    struct pl_lowest least;      /* of every solution */
    bool least_pinned;
    int least_variant;
    double tip_most_m;           /* greatest of what a tip limit is compared with, over every solution, by factor */
    bool holds;                  /* reserves and its own tip limit */
    bool air_old;                /* a computed load is still that of an earlier shape or height */
    struct pl_check_row *rows;   /* as given, from left to right */
    size_t n_rows;
    struct pl_reaction *reactions, *pinned_reactions;  /* one a mount, in the part's order, in the variant of lowest reserve; NULL: not
                                                        * solved pinned */
    size_t n_reactions;
};

struct pl_element_result {
    const struct pl_element *element;
    double span_m, area_m2, mass_kg, core_mass_kg;
};

/* All pieces of one cloth, as laid and as weighed (contract, rule 8): both of a mirrored pair, with their resin. */
struct pl_cloth_result {
    double area_m2, mass_kg;
};

struct pl_verdict {
    struct pl_element_result *elements;
    struct pl_case_result *cases;
    struct pl_cloth_result *cloths;  /* one a fabric of the part, in its order */
    size_t n_elements, n_cases, n_cloths;
    double mass_kg;
    bool mass_holds, holds;
    size_t worst_case;           /* of the lowest reserve; PL_NONE without cases */
};

struct pl_solve;

struct pl_solve *pl_solve_new(void);  /* NULL without memory */
void pl_solve_free(struct pl_solve *solve);

/* Takes the flows of `computed` cases from a store that must outlive the solve, instead of from its own (NULL).  What is not
 * there is worked out in the run; but where old_will_do and there is one of an earlier shape, that is used and the case's
 * result marked. */
void pl_solve_use_air(struct pl_solve *solve, struct pl_wing_air *air, bool old_will_do);

/* Solves the whole part, which must be one that pl_part_build took, and swaps the result sets.  What only
 * the shape or the cloth can tell goes into problems (bare wall, pieces past the chord, an end plate that does not
 * reach over the tip).  On failure the newest result stays that of the last good run.  The verdict keeps
 * pointing into part, which must live as long as it is read. */
enum pl_status pl_solve_run(struct pl_solve *solve, const struct pl_part *part, struct pl_problems *problems);

/* The newest verdict; NULL when there is none yet. */
const struct pl_verdict *pl_solve_verdict(const struct pl_solve *solve);

/* The profiles alone: digits that NACA does not define, coordinates that make no section.  pl_solve_run and
 * pl_solve_place begin with it. */
void pl_check_profiles(const struct pl_part *part, struct pl_problems *problems);

/* All that pl_solve_run refuses before it loads anything: profiles, bare wall, plates that miss their tips, what touches the
 * ground. */
enum pl_status pl_check_shape(struct pl_solve *solve, const struct pl_part *part, struct pl_problems *problems);

/* Words for what no figure covers yet; NULL ends the list. */
const char *const *pl_check_not_checked(const struct pl_part *part);

/* ---- single places, for tables and drawings: of any part that pl_part_build took ---- */

struct pl_place_view {
    struct pl_section section;
    struct pl_loft_place place;
    const struct pl_stack_set *stacks;
    double *core_x_m, *core_top_m, *core_bottom_x_m, *core_bottom_m;  /* core outline, chord axes, nose to tail */
    size_t n_core;
};

/* Builds the section at y (a piece covers its own ends) in the solve's own scratch, valid until the next call.  */
enum pl_status pl_solve_place(struct pl_solve *solve, const struct pl_part *part, size_t element, double y_m,
                              struct pl_place_view *out, struct pl_problems *problems);

/* The stack over a chord fraction there, after pl_solve_place; NULL when there is none. */
const struct pl_stack *pl_solve_stack(struct pl_solve *solve, enum pl_side side, double fraction);
/* Its plies, the one on the core first, as at the place's own y (mirrored on the left); arrays of stack->n_plies. */
void pl_solve_plies(struct pl_solve *solve, const struct pl_stack *stack, struct pl_ply *out);

/* Plan of the element of the last pl_solve_place, at any y of its span: plies over a chord fraction of a side, and
 * the chord's two ends. */
size_t pl_solve_plies_over(struct pl_solve *solve, double y_m, enum pl_side side, double fraction);
/* Greatest thickness of a side's wall there. */
double pl_solve_wall_m(struct pl_solve *solve, double y_m, enum pl_side side);
void pl_solve_chord(struct pl_solve *solve, double y_m, double *x_le_m, double *chord_m);
/* Plies of one lay-up item there, and how many it has. */
size_t pl_solve_item_plies(struct pl_solve *solve, double y_m, size_t item);

/* The row of a case nearest to y. */
const struct pl_check_row *pl_case_row_at(const struct pl_case_result *result, double y_m);

#endif
