#include "wing_mesh.h"

#include "plates_mesh.h"

#include <math.h>

/* ---- elements ---- */

static double semispan_m(const struct mesh_element *m, const struct pl_part *part)
{
    return pl_element_semispan_m(&part->elements[m->index]);
}

/* Of a smaller element so many that panels are about as large as the largest one's. */
static size_t share_of(size_t count, double part, size_t least)
{
    size_t n = (size_t)lround((double)count * part);
    return n < least ? least : n > count ? count : n;
}

static double mean_chord_m(const struct pl_element *e)
{
    double area = 0;
    for (size_t i = 1; i < e->n_stations; i++)
        area += 0.5 * (e->stations[i].y_m - e->stations[i - 1].y_m) * (e->stations[i].chord_m + e->stations[i - 1].chord_m);
    return area / pl_element_semispan_m(e);
}

enum { LEAST_CHORDWISE = 6 };

static void set_size(struct wing_mesh *w, struct mesh_size size)
{
    size_t least = size.chordwise < LEAST_CHORDWISE ? size.chordwise : LEAST_CHORDWISE;
    double chord_m = 0;
    for (size_t i = 0; i < w->n_elements; i++)
        chord_m = fmax(chord_m, mean_chord_m(&w->part->elements[i]));
    for (size_t i = 0; i < w->n_elements; i++) {
        w->elements[i].chordwise = share_of(size.chordwise, mean_chord_m(&w->part->elements[i]) / chord_m, least);
        w->elements[i].spanwise = size.spanwise;
    }
}

static bool take_element(struct mesh_element *m, const struct pl_part *part, struct pl_arena *arena)
{
    size_t n = m->spanwise;
    double *y_m = pl_arena_take_raw(arena, 2 * n + 1, sizeof *y_m);
    m->surface = pl_mean_surface_make(part, m->index, arena);
    m->nodes = pl_arena_take_raw(arena, (m->chordwise + 1) * (n + 1), sizeof *m->nodes);
    m->strips = pl_arena_take_raw(arena, n, sizeof *m->strips);
    if (!y_m || !m->surface || !m->nodes || !m->strips)
        return false;
    m->edges_m = y_m;
    m->middles_m = y_m + n + 1;
    for (size_t j = 0; j <= n; j++)
        m->edges_m[j] = j == n ? semispan_m(m, part) : semispan_m(m, part) * sin(M_PI_2 * (double)j / (double)n);
    for (size_t j = 0; j < n; j++)
        m->middles_m[j] = semispan_m(m, part) * sin(M_PI_2 * ((double)j + 0.5) / (double)n);
    return true;
}

/* Fraction of the chord of a row of corners. */
static double row_fraction(const struct mesh_element *m, size_t row)
{
    return row == m->chordwise ? 1 : ((double)row + 0.25) / (double)m->chordwise;
}

static size_t node_of(const struct mesh_element *m, size_t row, size_t edge)
{
    return m->nodes[row * (m->spanwise + 1) + edge];
}

static void lay_nodes(struct mesh_element *m, struct pl_lattice *l)
{
    for (size_t row = 0; row <= m->chordwise; row++)
        for (size_t j = 0; j <= m->spanwise; j++)
            m->nodes[row * (m->spanwise + 1) + j] = pl_lattice_node(l, pl_mean_surface_at(m->surface, m->edges_m[j], row_fraction(m, row)));
    for (size_t j = 0; j < m->spanwise; j++)
        m->strips[j] = pl_lattice_strip(l);
}

/* Along the tip from one row to the next, over what a plate has put in between. */
static void lay_tip(const struct mesh_element *m, struct pl_lattice *l, size_t row)
{
    size_t i = 0;
    while (i < m->n_tip && m->tip[i].node != node_of(m, row, m->spanwise))
        i++;
    if (i == m->n_tip) {
        pl_lattice_line(l, node_of(m, row, m->spanwise), node_of(m, row + 1, m->spanwise));
        return;
    }
    for (; i + 1 < m->n_tip && m->tip[i].node != node_of(m, row + 1, m->spanwise); i++)
        pl_lattice_line(l, m->tip[i].node, m->tip[i + 1].node);
}

static struct pl_vector wake_middle(const struct mesh_element *m, const struct pl_lattice *l, size_t j)
{
    struct pl_vector a = pl_lattice_at(l, node_of(m, m->chordwise, j)), b = pl_lattice_at(l, node_of(m, m->chordwise, j + 1));
    return pl_between(a, b, (m->middles_m[j] - m->edges_m[j]) / (m->edges_m[j + 1] - m->edges_m[j]));
}

static void lay_ring(const struct mesh_element *m, struct pl_lattice *l, size_t row, size_t j)
{
    double fraction = ((double)row + 0.75) / (double)m->chordwise, y_m = m->middles_m[j];
    pl_lattice_ring(l, pl_mean_surface_at(m->surface, y_m, fraction), pl_mean_surface_normal(m->surface, y_m, fraction), m->strips[j]);
    pl_lattice_line(l, node_of(m, row, j), node_of(m, row, j + 1));
    if (j + 1 == m->spanwise)
        lay_tip(m, l, row);
    else
        pl_lattice_line(l, node_of(m, row, j + 1), node_of(m, row + 1, j + 1));
    if (row + 1 < m->chordwise)
        pl_lattice_line(l, node_of(m, row + 1, j + 1), node_of(m, row + 1, j));
    else
        pl_lattice_wake(l, node_of(m, row + 1, j + 1), node_of(m, row + 1, j), wake_middle(m, l, j));
    pl_lattice_line(l, node_of(m, row + 1, j), node_of(m, row, j));
}

/* ---- all of it ---- */

enum pl_status pl_wing_mesh_lay(struct wing_mesh *w, struct pl_lattice *l, const struct pl_part *part, struct mesh_size size, double ground_z,
                                struct pl_arena *arena, struct pl_problems *problems)
{
    struct plates plates;
    *w = (struct wing_mesh){.part = part, .n_elements = part->n_elements};
    w->elements = pl_arena_take(arena, w->n_elements, sizeof *w->elements);
    if (!w->elements)
        return PL_NO_MEMORY;
    for (size_t i = 0; i < w->n_elements; i++)
        w->elements[i].index = i;
    set_size(w, size);
    pl_lattice_clear(l, ground_z);
    for (size_t i = 0; i < w->n_elements; i++) {
        if (!take_element(&w->elements[i], part, arena))
            return PL_NO_MEMORY;
        lay_nodes(&w->elements[i], l);
    }
    enum pl_status status = pl_plates_join(&plates, w, l, arena, problems);
    if (status != PL_OK)
        return status;
    for (size_t i = 0; i < w->n_elements; i++)
        for (size_t row = 0; row < w->elements[i].chordwise; row++)
            for (size_t j = 0; j < w->elements[i].spanwise; j++)
                lay_ring(&w->elements[i], l, row, j);
    pl_plates_lay(&plates, l);
    return PL_OK;
}
