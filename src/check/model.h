/* model.h - one element made ready to be loaded.  Private to the check room. */
#ifndef PLYLOFT_MODEL_H
#define PLYLOFT_MODEL_H

#include "plyloft/beam.h"
#include "plyloft/check.h"
#include "plyloft/wing_air.h"

/* A place where something stands or jumps, and the sections on either side of it. */
struct grid_station {
    double distance_m;
    bool paired;       /* has a cut for either limit */
    bool steps;        /* a piece ends here: the sections on either side differ */
    int shares;        /* close to a step: takes the section of the station after (1) or before (-1) on its side */
};

struct cut {
    size_t section;   /* of the right half */
    size_t station;
    bool mirrored;    /* on the left half */
    bool beside;      /* shares the section of a step: never the weakest but by a hair */
};

struct model {
    const struct pl_part *part;
    size_t element;
    struct pl_loft loft;
    struct pl_cloth cloth;
    struct pl_stack_set stacks;
    struct pl_section_builder builder;
    struct pl_strength_rules rules;
    struct grid_station *grid;     /* of the right half, from the centreline */
    size_t n_grid;
    struct pl_section *sections;
    size_t n_sections;
    struct cut *cuts;              /* of the full span, from left to right */
    struct pl_beam beam;
    double *station_y_m;           /* of the full span, from left to right */
    size_t *station_cut;           /* first cut of each; n_stations + 1 of them */
    size_t n_stations;
    struct pl_support *given, *pinned;  /* in order of y */
    size_t *mount_order;           /* index in the part of each support */
    bool has_pinned;
    struct pl_beam_system *system_given, *system_pinned;
    struct pl_forces forces;       /* of the solution in hand */
    struct pl_displacements displacements;
    double *load_x_m;              /* where a spread load acts, x or z, one a cut */
    double *load_n_m;              /* and its force a length */
    double mass_kg, core_mass_kg;
};

/* Stations of the right half: tip, kinks, piece ends, mounts (also those on it), pads and load points, and
 * steps of at most 10 mm between (contract, rule 9). */
bool pl_model_grid(struct model *m, struct pl_arena *arena);

/* Everything of an element that does not depend on a load case. */
enum pl_status pl_model_build(struct model *m, const struct pl_part *part, size_t element, struct pl_arena *arena,
                              struct pl_problems *problems);

/* Adds the element's cloth to cloths, one a fabric of the part; false without memory. */
bool pl_model_add_cloth(const struct model *m, struct pl_cloth_result *cloths, struct pl_arena *scratch);

/* Index of the station at y of the full span. */
size_t pl_model_station(const struct model *m, double y_m);

/* The cut on the left side of a place where a station stands. */
static inline size_t pl_model_left_cut(const struct model *m, double y_m)
{
    return m->station_cut[pl_model_station(m, y_m)];
}

static inline const struct pl_section *pl_model_section(const struct model *m, size_t cut)
{
    return &m->sections[m->cuts[cut].section];
}

/* Reactions of one solved case that others may need. */
struct case_state {
    bool done;
    struct pl_force *reactions;   /* on the beam, one a mount of the part's list */
};

/* Flows for `computed` cases, and whether an old one will do. */
struct air_source { struct pl_wing_air *air; bool old_will_do; };

/* A computed load along the span (contract, Flow): force and torque a length of the case's own element from its strips, times
 * its allowance and factor.  air_old: the strips are those of an earlier shape. */
struct computed_load { struct pl_load_place *places; size_t count; double total_n; bool air_old; };
enum pl_status pl_computed_load(const struct model *model, const struct pl_load_case *load_case, struct air_source source,
                                struct computed_load *out, struct pl_arena *scratch, struct pl_problems *problems);

/* Solves a case in all its solutions; models and states of the whole part, since a case may load with others,
 * which must be done. */
enum pl_status pl_case_solve(struct model *models, const struct pl_load_case *load_case, struct case_state *states,
                             struct air_source source, struct pl_case_result *out, struct pl_arena *arena, struct pl_arena *scratch,
                             struct pl_problems *problems);

/* Problems that only the shape or the cloth can tell: the third table of rules. */
enum pl_status pl_check_shape_rules(const struct model *models, const struct pl_part *part, struct pl_arena *arena,
                                    struct pl_problems *problems);

#endif
