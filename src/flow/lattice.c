/* lattice.c - laying the rings of a lattice. */
#include "lattice_inside.h"

#include "plyloft/part.h"

#include <math.h>
#include <stdlib.h>

struct pl_lattice *pl_lattice_new(void)
{
    return calloc(1, sizeof(struct pl_lattice));
}

void pl_lattice_free(struct pl_lattice *l)
{
    if (!l)
        return;
    free(l->nodes);
    free(l->first_line);
    free(l->wake);
    free(l->lines);
    free(l->rings);
    free(l->edges);
    free(l->trails);
    free(l->loads);
    free(l->strength);
    free(l->runs);
    if (l->system)
        gsl_matrix_free(l->system);
    if (l->right)
        gsl_vector_free(l->right);
    free(l);
}

void pl_lattice_clear(struct pl_lattice *l, double ground_z)
{
    l->ground_z = ground_z;
    l->short_of_memory = false;
    l->n_nodes = l->n_lines = l->n_rings = l->n_edges = l->n_trails = l->n_strips = 0;
    l->phase = LATTICE_DONE;
    l->status = PL_NOT_CONVERGED;
}

/* Room for one more; list is the address of a pointer. */
static bool grow(struct pl_lattice *l, void *list, size_t count, size_t *most, size_t size)
{
    if (count < *most)
        return true;
    size_t more = *most ? 2 * *most : 256;
    void **at = list, *taken = realloc(*at, more * size);
    l->short_of_memory = l->short_of_memory || !taken;
    if (!taken)
        return false;
    *at = taken;
    *most = more;
    return true;
}

size_t pl_lattice_node(struct pl_lattice *l, struct pl_vector at)
{
    if (!grow(l, &l->nodes, l->n_nodes, &l->most_nodes, sizeof *l->nodes)
        || !grow(l, &l->first_line, l->n_nodes, &l->most_firsts, sizeof *l->first_line)
        || !grow(l, &l->wake, l->n_nodes, &l->most_wakes, sizeof *l->wake))
        return 0;
    l->nodes[l->n_nodes] = at;
    l->first_line[l->n_nodes] = l->wake[l->n_nodes] = LATTICE_NOTHING;
    return l->n_nodes++;
}

struct pl_vector pl_lattice_at(const struct pl_lattice *l, size_t node)
{
    return l->short_of_memory ? (struct pl_vector){0, 0, 0} : l->nodes[node];
}

size_t pl_lattice_strip(struct pl_lattice *l)
{
    return grow(l, &l->loads, l->n_strips, &l->most_loads, sizeof *l->loads) ? l->n_strips++ : PL_NONE;
}

size_t pl_lattice_rings(const struct pl_lattice *l)
{
    return l->n_rings;
}

void pl_lattice_ring(struct pl_lattice *l, struct pl_vector control, struct pl_vector normal, size_t strip)
{
    if (!grow(l, &l->rings, l->n_rings, &l->most_rings, sizeof *l->rings))
        return;
    l->rings[l->n_rings++] = (struct lattice_ring){control, normal, strip == PL_NONE ? LATTICE_NOTHING : (int32_t)strip, (int32_t)l->n_edges, 0};
}

static int32_t new_line(struct pl_lattice *l, int32_t from, int32_t to)
{
    if (!grow(l, &l->lines, l->n_lines, &l->most_lines, sizeof *l->lines))
        return LATTICE_NOTHING;
    l->lines[l->n_lines] = (struct lattice_line){from, to, LATTICE_NOTHING, {LATTICE_NOTHING, LATTICE_NOTHING}, false};
    return (int32_t)l->n_lines++;
}

static void add_edge(struct pl_lattice *l, int32_t line, int32_t sign)
{
    struct lattice_ring *ring = &l->rings[l->n_rings - 1];
    if (line < 0 || !grow(l, &l->edges, l->n_edges, &l->most_edges, sizeof *l->edges))
        return;
    l->edges[l->n_edges++] = (struct lattice_edge){line, sign};
    ring->count++;
    int32_t *owners = l->lines[line].owners;
    if (ring->strip >= 0)
        owners[owners[0] >= 0] = ring->strip;
    else
        l->lines[line].closed = true;
}

/* A line on the plane of symmetry cancels its own mirror image. */
static bool in_the_middle(const struct pl_lattice *l, size_t node)
{
    return fabs(l->nodes[node].y) < 1e-12;
}

void pl_lattice_line(struct pl_lattice *l, size_t from, size_t to)
{
    if (l->short_of_memory || from == to || (in_the_middle(l, from) && in_the_middle(l, to)))
        return;
    int32_t low = (int32_t)(from < to ? from : to), high = (int32_t)(from < to ? to : from), line = l->first_line[low];
    while (line >= 0 && l->lines[line].to != high)
        line = l->lines[line].next;
    if (line < 0) {
        line = new_line(l, low, high);
        if (line < 0)
            return;
        l->lines[line].next = l->first_line[low];
        l->first_line[low] = line;
    }
    add_edge(l, line, from < to ? 1 : -1);
}

static int32_t wake_of(struct pl_lattice *l, size_t node)
{
    if (l->wake[node] < 0 && !in_the_middle(l, node))
        l->wake[node] = new_line(l, (int32_t)node, LATTICE_NOTHING);
    return l->wake[node];
}

void pl_lattice_wake(struct pl_lattice *l, size_t outer, size_t inner, struct pl_vector middle)
{
    if (l->short_of_memory || !grow(l, &l->trails, l->n_trails, &l->most_trails, sizeof *l->trails))
        return;
    add_edge(l, wake_of(l, outer), 1);
    add_edge(l, wake_of(l, inner), -1);
    l->trails[l->n_trails++] = (struct lattice_trail){(int32_t)outer, (int32_t)inner, (int32_t)l->n_rings - 1, middle};
}

/* ---- the order of lines ---- */

/* Lines of one step between their nodes together, by their first node; wakes last. */
static int by_step(const void *a, const void *b)
{
    const struct lattice_line *x = a, *y = b;
    int32_t step_x = x->to < 0 ? INT32_MAX : x->to - x->from, step_y = y->to < 0 ? INT32_MAX : y->to - y->from;
    if (step_x != step_y)
        return step_x < step_y ? -1 : 1;
    return (x->from > y->from) - (x->from < y->from);
}

static bool follows(const struct lattice_line *line, const struct lattice_line *before)
{
    return line->to >= 0 && before->to >= 0 && line->from == before->from + 1 && line->to == before->to + 1;
}

static bool make_runs(struct pl_lattice *l)
{
    l->n_runs = 0;
    for (size_t s = 0; s < l->n_lines; s++) {
        if (s && follows(&l->lines[s], &l->lines[s - 1])) {
            l->runs[l->n_runs - 1].count++;
            continue;
        }
        if (!grow(l, &l->runs, l->n_runs, &l->most_runs, sizeof *l->runs))
            return false;
        l->runs[l->n_runs++] = (struct lattice_run){s, 1, (size_t)l->lines[s].from, l->lines[s].to};
    }
    return true;
}

bool pl_lattice_order(struct pl_lattice *l)
{
    int32_t *number = malloc(l->n_lines * sizeof *number);
    if (!number)
        return false;
    for (size_t s = 0; s < l->n_lines; s++)
        l->lines[s].next = (int32_t)s;  /* nothing is looked up any more: the number before */
    qsort(l->lines, l->n_lines, sizeof *l->lines, by_step);
    for (size_t s = 0; s < l->n_lines; s++)
        number[l->lines[s].next] = (int32_t)s;
    for (size_t e = 0; e < l->n_edges; e++)
        l->edges[e].line = number[l->edges[e].line];
    free(number);
    return make_runs(l);
}
