/* lattice_solve.c - strengths of the rings of a lattice, forces on its strips, drag far behind. */
#include "lattice_inside.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_permute_vector.h>

#include <math.h>
#include <stdlib.h>

static const double four_pi = 12.566370614359172, own_line = 1e-16;

/* ---- memory ---- */

static bool take_scratch(struct pl_lattice *l)
{
    size_t need = l->n_rings + 4 * l->n_lines + 4 * l->n_nodes;
    if (need > l->most_scratch) {
        double *slab = realloc(l->strength, need * sizeof *slab);
        if (!slab)
            return false;
        l->strength = slab;
        l->most_scratch = need;
    }
    l->line_strength = l->strength + l->n_rings;
    for (size_t i = 0; i < 3; i++)
        l->seen[i] = l->line_strength + (i + 1) * l->n_lines;
    l->away = l->seen[2] + l->n_lines;
    return true;
}

static bool take_system(struct pl_lattice *l)
{
    if (l->system && l->size == l->n_rings)
        return true;
    if (l->system)
        gsl_matrix_free(l->system);
    if (l->right)
        gsl_vector_free(l->right);
    l->size = l->n_rings;
    l->system = gsl_matrix_alloc(l->size, l->size);
    l->right = gsl_vector_alloc(l->size);
    return l->system && l->right;
}

/* ---- velocities ---- */

/* The four halves: the right one, its mirror, and the images of both. */
struct mirror { double y, z; };
static const struct mirror mirrors[4] = {{1, 1}, {-1, 1}, {1, -1}, {-1, -1}};

static size_t count_mirrors(const struct pl_lattice *l)
{
    return isnan(l->ground_z) ? 2 : 4;
}

/* A place sees an image as its own mirror image sees the thing. */
static void look(struct pl_lattice *l, struct pl_vector p, struct mirror m)
{
    double *restrict x = l->away, *restrict y = x + l->n_nodes, *restrict z = y + l->n_nodes, *restrict far = z + l->n_nodes;
    double at_y = m.y * p.y, at_z = m.z < 0 ? 2 * l->ground_z - p.z : p.z;
    for (size_t i = 0; i < l->n_nodes; i++) {
        x[i] = p.x - l->nodes[i].x;
        y[i] = at_y - l->nodes[i].y;
        z[i] = at_z - l->nodes[i].z;
        far[i] = sqrt(x[i] * x[i] + y[i] * y[i] + z[i] * z[i]);
    }
}

/* Velocity that lines of unit strength make, added; none on a line's own line (Katz and Plotkin, eq. 2.72).  No branch, so
 * that several lines are done at a time. */
static void add_run(struct pl_lattice *l, const struct lattice_run *run, struct mirror m)
{
    size_t n = l->n_nodes, from = run->from, to = (size_t)run->to;
    const double *restrict x1 = l->away + from, *restrict y1 = x1 + n, *restrict z1 = y1 + n, *restrict far1 = z1 + n;
    const double *restrict x2 = l->away + to, *restrict y2 = x2 + n, *restrict z2 = y2 + n, *restrict far2 = z2 + n;
    double *restrict vx = l->seen[0] + run->first, *restrict vy = l->seen[1] + run->first, *restrict vz = l->seen[2] + run->first;
    for (size_t i = 0; i < run->count; i++) {
        double cx = y1[i] * z2[i] - z1[i] * y2[i], cy = z1[i] * x2[i] - x1[i] * z2[i], cz = x1[i] * y2[i] - y1[i] * x2[i];
        double n12 = far1[i] * far2[i], base = n12 * (n12 + x1[i] * x2[i] + y1[i] * y2[i] + z1[i] * z2[i]);
        bool off = (cx * cx + cy * cy + cz * cz > own_line * n12 * n12) & (base > 0);
        double k = off ? (far1[i] + far2[i]) / (base * four_pi) : 0;
        vx[i] += k * cx;
        vy[i] += m.y * k * cy;
        vz[i] += m.z * k * cz;
    }
}

/* A wake. */
static void add_wake(struct pl_lattice *l, const struct lattice_run *run, struct mirror m)
{
    const double *at = l->away + run->from;
    size_t n = l->n_nodes;
    double x = at[0], y = at[n], z = at[2 * n], far = at[3 * n], across = y * y + z * z;
    /* far - x, without loss where the place lies nearly behind. */
    double gap = x > 0 ? across / (far + x) : far - x;
    double k = across > own_line * far * far ? 1 / (far * gap * four_pi) : 0;
    l->seen[1][run->first] -= m.y * k * z;
    l->seen[2][run->first] += m.z * k * y;
}

/* What each line of unit strength, with its images, makes at a place. */
static void see(struct pl_lattice *l, struct pl_vector p)
{
    for (size_t s = 0; s < 3 * l->n_lines; s++)
        l->seen[0][s] = 0;
    for (size_t m = 0; m < count_mirrors(l); m++) {
        look(l, p, mirrors[m]);
        for (size_t r = 0; r < l->n_runs; r++)
            if (l->runs[r].to < 0)
                add_wake(l, &l->runs[r], mirrors[m]);
            else
                add_run(l, &l->runs[r], mirrors[m]);
    }
}

static struct pl_vector velocity(struct pl_lattice *l, struct pl_vector p)
{
    struct pl_vector v = {1, 0, 0};
    see(l, p);
    for (size_t s = 0; s < l->n_lines; s++) {
        v.x += l->line_strength[s] * l->seen[0][s];
        v.y += l->line_strength[s] * l->seen[1][s];
        v.z += l->line_strength[s] * l->seen[2][s];
    }
    return v;
}

/* ---- slices ---- */

static void end(struct pl_lattice *l, enum pl_status status)
{
    l->status = status;
    l->phase = LATTICE_DONE;
}

static void next_phase(struct pl_lattice *l, enum lattice_phase phase)
{
    l->phase = phase;
    l->at = 0;
}

void pl_lattice_start(struct pl_lattice *l)
{
    if (l->short_of_memory || !l->n_rings || !pl_lattice_order(l) || !take_scratch(l) || !take_system(l)) {
        end(l, l->n_rings ? PL_NO_MEMORY : PL_NOT_CONVERGED);
        return;
    }
    for (size_t i = 0; i < l->n_strips; i++)
        l->loads[i] = (struct pl_lattice_load){{0, 0, 0}, 0};
    next_phase(l, LATTICE_FILLS);
}

static void fill_row(struct pl_lattice *l, size_t row)
{
    const struct lattice_ring *ring = &l->rings[row];
    double *out = gsl_matrix_ptr(l->system, row, 0);
    see(l, ring->control);
    for (size_t s = 0; s < l->n_lines; s++)
        l->seen[0][s] = l->seen[0][s] * ring->normal.x + l->seen[1][s] * ring->normal.y + l->seen[2][s] * ring->normal.z;
    for (size_t r = 0; r < l->n_rings; r++) {
        const struct lattice_edge *edge = &l->edges[l->rings[r].first];
        double sum = 0;
        for (int32_t i = 0; i < l->rings[r].count; i++)
            sum += edge[i].sign * l->seen[0][edge[i].line];
        out[r] = sum;
    }
    gsl_vector_set(l->right, row, -ring->normal.x);
}

/* A block of columns of the factors, rows exchanged within what is left (Golub and Van Loan, Matrix Computations, 2013,
 * sec. 3.4): many short slices instead of one long one. */
static bool factor_columns(struct pl_lattice *l, size_t from, size_t count)
{
    size_t n = l->size, left = n - from, after = left - count;
    int sign;
    gsl_matrix_view rest = gsl_matrix_submatrix(l->system, from, from, left, count);
    gsl_permutation *order = gsl_permutation_alloc(left);
    if (!order)
        return false;
    gsl_linalg_LU_decomp(&rest.matrix, order, &sign);
    gsl_vector_view right = gsl_vector_subvector(l->right, from, left);
    gsl_permute_vector(order, &right.vector);
    for (size_t c = 0; c < n; c++)
        if (c < from || c >= from + count) {
            gsl_vector_view column = gsl_matrix_subcolumn(l->system, c, from, left);
            gsl_permute_vector(order, &column.vector);
        }
    gsl_permutation_free(order);
    if (!after)
        return true;
    gsl_matrix_view top = gsl_matrix_submatrix(l->system, from, from, count, count);
    gsl_matrix_view beside = gsl_matrix_submatrix(l->system, from, from + count, count, after);
    gsl_matrix_view below = gsl_matrix_submatrix(l->system, from + count, from, after, count);
    gsl_matrix_view corner = gsl_matrix_submatrix(l->system, from + count, from + count, after, after);
    gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasUnit, 1, &top.matrix, &beside.matrix);
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, -1, &below.matrix, &beside.matrix, 1, &corner.matrix);
    return true;
}

static bool solve_factored(struct pl_lattice *l)
{
    bool finite = true;
    gsl_blas_dtrsv(CblasLower, CblasNoTrans, CblasUnit, l->system, l->right);
    gsl_blas_dtrsv(CblasUpper, CblasNoTrans, CblasNonUnit, l->system, l->right);
    for (size_t r = 0; r < l->n_rings; r++) {
        l->strength[r] = gsl_vector_get(l->right, r);
        finite = finite && isfinite(l->strength[r]);
    }
    return finite;
}

/* What the rings leave of each other on the lines they share. */
static void set_lines(struct pl_lattice *l)
{
    for (size_t s = 0; s < l->n_lines; s++)
        l->line_strength[s] = 0;
    for (size_t r = 0; r < l->n_rings; r++)
        for (int32_t i = 0; i < l->rings[r].count; i++) {
            const struct lattice_edge *edge = &l->edges[l->rings[r].first + i];
            l->line_strength[edge->line] += edge->sign * l->strength[r];
        }
}

/* Force on a line, by halves to the two strips beside it, or wholly to the one it bounds.  On one that a strip shares with a
 * plate there is none along the plate, which no air passes. */
static void sum_line(struct pl_lattice *l, size_t s)
{
    const struct lattice_line *line = &l->lines[s];
    if (line->owners[0] < 0 || line->closed || line->to < 0)
        return;
    struct pl_vector a = l->nodes[line->from], b = l->nodes[line->to], at = pl_between(a, b, 0.5);
    struct pl_vector f = pl_cross(velocity(l, at), pl_minus(b, a));
    double share = (line->owners[1] >= 0 ? 0.5 : 1) * l->line_strength[s];
    for (int i = 0; i < 2 && line->owners[i] >= 0; i++) {
        struct pl_lattice_load *load = &l->loads[line->owners[i]];
        load->force.x += share * f.x;
        load->force.y += share * f.y;
        load->force.z += share * f.z;
        load->x_times_z += share * f.z * at.x;
    }
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* So many places looked at as take a few milliseconds. */
static size_t places_a_slice(const struct pl_lattice *l)
{
    return 1 + 300000 / (l->n_lines * count_mirrors(l) + 1);
}

static void slice_of_filling(struct pl_lattice *l)
{
    for (size_t to = least(l->n_rings, l->at + places_a_slice(l)); l->at < to; l->at++)
        fill_row(l, l->at);
    if (l->at == l->n_rings)
        next_phase(l, LATTICE_FACTORS);
}

static void slice_of_factoring(struct pl_lattice *l)
{
    size_t left = l->size - l->at, columns = least(left, 8 + 6000000 / (left * left + 1));
    if (!factor_columns(l, l->at, columns)) {
        end(l, PL_NO_MEMORY);
        return;
    }
    l->at += columns;
    if (l->at < l->size)
        return;
    if (!solve_factored(l)) {
        end(l, PL_NOT_CONVERGED);
        return;
    }
    set_lines(l);
    next_phase(l, LATTICE_SUMS);
}

static void slice_of_summing(struct pl_lattice *l)
{
    for (size_t to = least(l->n_lines, l->at + places_a_slice(l)); l->at < to; l->at++)
        sum_line(l, l->at);
    if (l->at == l->n_lines)
        end(l, PL_OK);
}

bool pl_lattice_step(struct pl_lattice *l)
{
    switch (l->phase) {
    case LATTICE_FILLS: slice_of_filling(l); break;
    case LATTICE_FACTORS: slice_of_factoring(l); break;
    case LATTICE_SUMS: slice_of_summing(l); break;
    default: break;
    }
    return l->phase != LATTICE_DONE;
}

enum pl_status pl_lattice_status(const struct pl_lattice *l)
{
    return l->status;
}

enum pl_status pl_lattice_solve(struct pl_lattice *l)
{
    pl_lattice_start(l);
    while (pl_lattice_step(l))
        ;
    return l->status;
}

struct pl_lattice_load pl_lattice_load(const struct pl_lattice *l, size_t strip)
{
    return l->loads[strip];
}

/* ---- the Trefftz plane ---- */

/* Speed across a line far behind, of a vortex of unit strength aft from a node, with its images.  A line aft turns the air
 * from y to z; each mirror turns it round. */
static double across(const struct pl_lattice *l, struct pl_vector p, struct pl_vector from, double normal_y, double normal_z)
{
    double sum = 0;
    for (size_t m = 0; m < count_mirrors(l); m++) {
        double y = mirrors[m].y * from.y, z = mirrors[m].z < 0 ? 2 * l->ground_z - from.z : from.z;
        double dy = p.y - y, dz = p.z - z, r2 = dy * dy + dz * dz;
        if (r2 > 0)
            sum += mirrors[m].y * mirrors[m].z * (-dz * normal_y + dy * normal_z) / (0.5 * four_pi * r2);
    }
    return sum;
}

double pl_lattice_trefftz_drag(const struct pl_lattice *l)
{
    double sum = 0;
    for (size_t t = 0; t < l->n_trails; t++) {
        const struct lattice_trail *trail = &l->trails[t];
        struct pl_vector out = pl_minus(l->nodes[trail->outer], l->nodes[trail->inner]);
        double wash = 0;
        for (size_t s = 0; s < l->n_lines; s++)
            if (l->lines[s].to < 0)
                wash += l->line_strength[s] * across(l, trail->middle, l->nodes[l->lines[s].from], -out.z, out.y);
        sum += l->strength[trail->ring] * wash;
    }
    return -sum;  /* both halves: twice a half */
}
