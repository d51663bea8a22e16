#include "plyloft/lattice.h"

#include <gsl/gsl_linalg.h>

#include <math.h>
#include <stdlib.h>

struct pl_lattice {
    size_t chordwise, spanwise, count;   /* count of rings */
    double ground_z;
    struct pl_vector *bound, *tail;      /* corners: rows of spanwise + 1 */
    struct pl_vector *control, *normal;
    double *ring;                        /* strengths */
    struct pl_lattice_strip *strips;
    double drag;                         /* on the surface, both halves */
    gsl_matrix *system;
    gsl_vector *right, *answer;
    gsl_permutation *order;
};

/* ---- memory ---- */

struct pl_lattice *pl_lattice_new(void)
{
    return calloc(1, sizeof(struct pl_lattice));
}

static void drop(struct pl_lattice *l)
{
    free(l->bound);
    free(l->control);
    free(l->ring);
    free(l->strips);
    if (l->system)
        gsl_matrix_free(l->system);
    if (l->right)
        gsl_vector_free(l->right);
    if (l->answer)
        gsl_vector_free(l->answer);
    if (l->order)
        gsl_permutation_free(l->order);
    *l = (struct pl_lattice){.ground_z = (double)NAN};
}

void pl_lattice_free(struct pl_lattice *l)
{
    if (!l)
        return;
    drop(l);
    free(l);
}

static bool take_memory(struct pl_lattice *l, size_t chordwise, size_t spanwise)
{
    size_t n = chordwise * spanwise, corners = (chordwise + 1) * (spanwise + 1);
    if (l->chordwise == chordwise && l->spanwise == spanwise)
        return true;
    drop(l);
    l->bound = malloc(corners * sizeof *l->bound);
    l->control = malloc(2 * n * sizeof *l->control);
    l->ring = malloc(n * sizeof *l->ring);
    l->strips = malloc(spanwise * sizeof *l->strips);
    l->system = gsl_matrix_alloc(n, n);
    l->right = gsl_vector_alloc(n);
    l->answer = gsl_vector_alloc(n);
    l->order = gsl_permutation_alloc(n);
    if (!l->bound || !l->control || !l->ring || !l->strips || !l->system || !l->right || !l->answer || !l->order) {
        drop(l);
        return false;
    }
    l->tail = l->bound + chordwise * (spanwise + 1);
    l->normal = l->control + n;
    l->chordwise = chordwise;
    l->spanwise = spanwise;
    l->count = n;
    return true;
}

static void place(struct pl_lattice *l, const struct pl_lattice_surface *s)
{
    size_t across = l->spanwise + 1;
    for (size_t i = 0; i < l->chordwise; i++) {
        double quarter = ((double)i + 0.25) / (double)l->chordwise, three = ((double)i + 0.75) / (double)l->chordwise;
        for (size_t j = 0; j < across; j++)
            l->bound[i * across + j] = s->point(s->shape, s->edges_m[j], quarter);
        for (size_t j = 0; j < l->spanwise; j++) {
            l->control[i * l->spanwise + j] = s->point(s->shape, s->middles_m[j], three);
            l->normal[i * l->spanwise + j] = s->normal(s->shape, s->middles_m[j], three);
        }
    }
    for (size_t j = 0; j < across; j++)
        l->tail[j] = s->point(s->shape, s->edges_m[j], 1);
}

/* ---- velocities ---- */

static struct pl_vector minus(struct pl_vector a, struct pl_vector b)
{
    return (struct pl_vector){a.x - b.x, a.y - b.y, a.z - b.z};
}

static struct pl_vector cross(struct pl_vector a, struct pl_vector b)
{
    return (struct pl_vector){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static double dot(struct pl_vector a, struct pl_vector b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static void add(struct pl_vector *sum, struct pl_vector a, double times)
{
    sum->x += times * a.x;
    sum->y += times * a.y;
    sum->z += times * a.z;
}

static const double four_pi = 12.566370614359172, own_line = 1e-16;

/* Of a straight vortex from a to b; none on its own line. */
static struct pl_vector of_segment(struct pl_vector p, struct pl_vector a, struct pl_vector b)
{
    struct pl_vector r1 = minus(p, a), r2 = minus(p, b), c = cross(r1, r2);
    double n1 = sqrt(dot(r1, r1)), n2 = sqrt(dot(r2, r2)), n12 = n1 * n2, base = n12 * (n12 + dot(r1, r2));
    double k = dot(c, c) > own_line * n12 * n12 && base > 0 ? (n1 + n2) / (base * four_pi) : 0;
    return (struct pl_vector){k * c.x, k * c.y, k * c.z};
}

/* Of one from a straight aft without end. */
static struct pl_vector of_wake(struct pl_vector p, struct pl_vector a)
{
    struct pl_vector r = minus(p, a);
    double n = sqrt(dot(r, r)), across = r.y * r.y + r.z * r.z;
    /* n - x, without loss where the point lies nearly behind. */
    double gap = r.x > 0 ? across / (n + r.x) : n - r.x, k = across > own_line * n * n ? 1 / (n * gap * four_pi) : 0;
    return (struct pl_vector){0, -k * r.z, k * r.y};
}

/* Corner row i of strip edge j; row chordwise is the trailing edge. */
static struct pl_vector corner(const struct pl_lattice *l, size_t i, size_t j)
{
    return l->bound[i * (l->spanwise + 1) + j];
}

/* What each segment of the right half makes at a place: bound ones, legs to the next row, wakes. */
struct segments { struct pl_vector *bound, *leg, *wake; };

static void see(const struct pl_lattice *l, struct pl_vector p, double mirror_y, double mirror_z, struct segments *out)
{
    size_t across = l->spanwise + 1, n = 0;
    struct pl_vector at = {p.x, mirror_y * p.y, mirror_z < 0 ? 2 * l->ground_z - p.z : p.z};
    struct pl_vector sign = {1, mirror_y, mirror_z};
    for (size_t i = 0; i < l->chordwise; i++)
        for (size_t j = 0; j < across; j++, n++) {
            struct pl_vector leg = of_segment(at, corner(l, i, j), corner(l, i + 1, j)), bound = {0, 0, 0};
            if (j < l->spanwise)
                bound = of_segment(at, corner(l, i, j), corner(l, i, j + 1));
            out->leg[n].x += leg.x * sign.x;
            out->leg[n].y += leg.y * sign.y;
            out->leg[n].z += leg.z * sign.z;
            out->bound[n].x += bound.x * sign.x;
            out->bound[n].y += bound.y * sign.y;
            out->bound[n].z += bound.z * sign.z;
        }
    for (size_t j = 0; j < across; j++) {
        struct pl_vector wake = of_wake(at, l->tail[j]);
        out->wake[j].y += wake.y * sign.y;
        out->wake[j].z += wake.z * sign.z;
    }
}

/* The right half, its mirror, and the images of both: a place sees an image as its own mirror image sees the thing. */
static void see_all(const struct pl_lattice *l, struct pl_vector p, struct segments *out)
{
    size_t across = l->spanwise + 1;
    for (size_t n = 0; n < l->chordwise * across; n++)
        out->bound[n] = out->leg[n] = (struct pl_vector){0, 0, 0};
    for (size_t j = 0; j < across; j++)
        out->wake[j] = (struct pl_vector){0, 0, 0};
    see(l, p, 1, 1, out);
    see(l, p, -1, 1, out);
    if (isnan(l->ground_z))
        return;
    see(l, p, 1, -1, out);
    see(l, p, -1, -1, out);
}

/* Of a ring of unit strength: its bound line outward, back along the next one. */
static struct pl_vector of_ring(const struct pl_lattice *l, const struct segments *s, size_t i, size_t j)
{
    size_t across = l->spanwise + 1, at = i * across + j;
    struct pl_vector v = s->bound[at];
    add(&v, s->leg[at + 1], 1);
    add(&v, s->leg[at], -1);
    if (i + 1 < l->chordwise) {
        add(&v, s->bound[at + across], -1);
    } else {
        add(&v, s->wake[j + 1], 1);
        add(&v, s->wake[j], -1);
    }
    return v;
}

static struct pl_vector velocity(const struct pl_lattice *l, struct segments *s, struct pl_vector p)
{
    struct pl_vector v = {1, 0, 0};
    see_all(l, p, s);
    for (size_t i = 0; i < l->chordwise; i++)
        for (size_t j = 0; j < l->spanwise; j++)
            add(&v, of_ring(l, s, i, j), l->ring[i * l->spanwise + j]);
    return v;
}

/* ---- solving ---- */

static enum pl_status fill(struct pl_lattice *l, struct segments *s, struct pl_problems *problems)
{
    for (size_t k = 0; k < l->count; k++) {
        if (!isnan(l->ground_z) && !(l->control[k].z > l->ground_z)) {
            pl_problem_add(problems, PL_ERROR, "", "touches or crosses the ground", NULL);
            return PL_BAD_INPUT;
        }
        see_all(l, l->control[k], s);
        for (size_t i = 0; i < l->chordwise; i++)
            for (size_t j = 0; j < l->spanwise; j++)
                gsl_matrix_set(l->system, k, i * l->spanwise + j, dot(of_ring(l, s, i, j), l->normal[k]));
        gsl_vector_set(l->right, k, -l->normal[k].x);
    }
    return PL_OK;
}

static bool solve(struct pl_lattice *l)
{
    int sign;
    if (gsl_linalg_LU_decomp(l->system, l->order, &sign) || gsl_linalg_LU_solve(l->system, l->order, l->right, l->answer))
        return false;
    bool finite = true;
    for (size_t k = 0; k < l->count; k++) {
        l->ring[k] = gsl_vector_get(l->answer, k);
        finite = finite && isfinite(l->ring[k]);
    }
    return finite;
}

/* ---- forces ---- */

static double ring_at(const struct pl_lattice *l, size_t i, size_t j)
{
    return j < l->spanwise ? l->ring[i * l->spanwise + j] : 0;
}

/* Strength along a leg: what the strip inboard of it leaves over the one outboard; on the centreline the halves cancel. */
static double leg_strength(const struct pl_lattice *l, size_t i, size_t j)
{
    return j ? ring_at(l, i, j - 1) - ring_at(l, i, j) : 0;
}

static void add_force(struct pl_lattice *l, size_t strip, struct pl_vector at, struct pl_vector force, double part)
{
    struct pl_lattice_strip *s = &l->strips[strip];
    s->lift += part * force.z;
    s->moment += part * (at.z * force.x - at.x * force.z);
    l->drag += 2 * part * force.x;
}

static struct pl_vector middle(struct pl_vector a, struct pl_vector b)
{
    return (struct pl_vector){0.5 * (a.x + b.x), 0.5 * (a.y + b.y), 0.5 * (a.z + b.z)};
}

static struct pl_vector force_on(const struct pl_lattice *l, struct segments *s, struct pl_vector a, struct pl_vector b, double strength)
{
    struct pl_vector f = cross(velocity(l, s, middle(a, b)), minus(b, a));
    return (struct pl_vector){strength * f.x, strength * f.y, strength * f.z};
}

/* A bound line belongs to its strip, a leg half to either one beside it, the tip's to the last. */
static void sum_forces(struct pl_lattice *l, struct segments *s)
{
    size_t across = l->spanwise + 1;
    l->drag = 0;
    for (size_t i = 0; i < l->chordwise; i++)
        for (size_t j = 0; j < across; j++) {
            struct pl_vector a = corner(l, i, j), aft = corner(l, i + 1, j);
            if (j < l->spanwise) {
                struct pl_vector b = corner(l, i, j + 1);
                double strength = ring_at(l, i, j) - (i ? ring_at(l, i - 1, j) : 0);
                add_force(l, j, middle(a, b), force_on(l, s, a, b, strength), 1);
            }
            if (!j)
                continue;
            struct pl_vector force = force_on(l, s, a, aft, leg_strength(l, i, j));
            add_force(l, j - 1, middle(a, aft), force, j < l->spanwise ? 0.5 : 1);
            if (j < l->spanwise)
                add_force(l, j, middle(a, aft), force, 0.5);
        }
}

enum pl_status pl_lattice_solve(struct pl_lattice *l, const struct pl_lattice_surface *surface, double ground_z, struct pl_problems *problems)
{
    size_t corners = surface->chordwise * (surface->spanwise + 1);
    if (!take_memory(l, surface->chordwise, surface->spanwise))
        return PL_NO_MEMORY;
    struct pl_vector *slab = malloc((2 * corners + surface->spanwise + 1) * sizeof *slab);
    if (!slab)
        return PL_NO_MEMORY;
    struct segments s = {slab, slab + corners, slab + 2 * corners};
    l->ground_z = ground_z;
    place(l, surface);
    enum pl_status status = fill(l, &s, problems);
    if (status == PL_OK && !solve(l)) {
        pl_problem_add(problems, PL_ERROR, "", "the flow over this wing did not converge", NULL);
        status = PL_NOT_CONVERGED;
    }
    for (size_t j = 0; j < l->spanwise; j++)
        l->strips[j] = (struct pl_lattice_strip){surface->middles_m[j], surface->edges_m[j + 1] - surface->edges_m[j], 0, 0};
    if (status == PL_OK)
        sum_forces(l, &s);
    free(slab);
    return status;
}

const struct pl_lattice_strip *pl_lattice_strips(const struct pl_lattice *l, size_t *count)
{
    *count = l->spanwise;
    return l->strips;
}

double pl_lattice_near_drag(const struct pl_lattice *l)
{
    return l->drag;
}

/* ---- the Trefftz plane ---- */

/* Speed across a line far behind, of a vortex of unit strength through (y, z). */
static double across_line(const struct pl_lattice *l, struct pl_vector p, struct pl_vector from, double normal_y, double normal_z)
{
    double sum = 0;
    for (int mirror = 0; mirror < 4; mirror++) {
        double side = mirror & 1 ? -1 : 1, up = mirror & 2 ? -1 : 1;
        if (up < 0 && isnan(l->ground_z))
            continue;
        double y = side * from.y, z = up < 0 ? 2 * l->ground_z - from.z : from.z, dy = p.y - y, dz = p.z - z, r2 = dy * dy + dz * dz;
        /* A line aft turns the air from y to z; each mirror turns it round. */
        sum += side * up * (-dz * normal_y + dy * normal_z) / (0.5 * four_pi * r2);
    }
    return sum;
}

double pl_lattice_trefftz_drag(const struct pl_lattice *l)
{
    double sum = 0;
    size_t last = l->chordwise - 1;
    for (size_t j = 0; j < l->spanwise; j++) {
        struct pl_vector a = l->tail[j], b = l->tail[j + 1], at = middle(a, b);
        at.y = l->control[last * l->spanwise + j].y;  /* the strip's middle in angle */
        double share = (at.y - a.y) / (b.y - a.y), dy = b.y - a.y, dz = b.z - a.z, wash = 0;
        at.z = a.z + share * dz;
        for (size_t k = 1; k <= l->spanwise; k++)
            wash += leg_strength(l, last, k) * across_line(l, at, l->tail[k], -dz, dy);
        sum += ring_at(l, last, j) * wash;
    }
    return -sum;  /* both halves: twice a half */
}
