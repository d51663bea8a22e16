/* lattice_inside.h - the rings of a lattice and their lines.  Private to the flow room. */
#ifndef PLYLOFT_LATTICE_INSIDE_H
#define PLYLOFT_LATTICE_INSIDE_H

#include "plyloft/lattice.h"

#include <gsl/gsl_linalg.h>

#include <stdint.h>

enum { LATTICE_NOTHING = -1 };

/* From one node to another, or straight aft without end. */
struct lattice_line {
    int32_t from, to;   /* to LATTICE_NOTHING: a wake */
    int32_t next;       /* line of the same lower node, for finding it */
    int32_t owners[2];  /* strips of the rings it bounds; LATTICE_NOTHING */
    bool closed;        /* bounds a ring without a strip, too */
};

struct lattice_ring {
    struct pl_vector control, normal;
    int32_t strip, first, count;  /* of the edges */
};

struct lattice_edge { int32_t line, sign; };

/* Between two wakes, far behind. */
struct lattice_trail { int32_t outer, inner, ring; struct pl_vector middle; };

/* Lines that follow each other, from nodes that do and to nodes that do; to LATTICE_NOTHING: one wake. */
struct lattice_run { size_t first, count, from; ptrdiff_t to; };

enum lattice_phase { LATTICE_FILLS, LATTICE_FACTORS, LATTICE_SUMS, LATTICE_DONE };

struct pl_lattice {
    double ground_z;
    bool short_of_memory;
    struct pl_vector *nodes;
    int32_t *first_line;   /* of each node */
    int32_t *wake;         /* line of each node's wake */
    struct lattice_line *lines;
    struct lattice_ring *rings;
    struct lattice_edge *edges;
    struct lattice_trail *trails;
    size_t n_nodes, n_lines, n_rings, n_edges, n_trails, n_strips;
    size_t most_nodes, most_firsts, most_wakes, most_lines, most_rings, most_edges, most_trails, most_loads;

    enum lattice_phase phase;
    enum pl_status status;
    size_t at;               /* next ring, column or line of the phase */
    size_t size;             /* of the system */
    gsl_matrix *system;
    gsl_vector *right;
    double *strength;        /* of rings */
    double *line_strength;
    struct lattice_run *runs;
    size_t n_runs, most_runs;
    double *seen[3];         /* of each line at one place */
    double *away;            /* nodes as seen from there: x, y, z, distance */
    size_t most_scratch;
    struct pl_lattice_load *loads;
};

/* Numbers lines so that many make long runs.  False without memory. */
bool pl_lattice_order(struct pl_lattice *lattice);

#endif
