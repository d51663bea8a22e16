#include "plyloft/beam.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

enum { PARTS = 5 };  /* of a force, of a displacement */

static bool take_arrays(double **arrays[], size_t n, size_t count, struct pl_arena *arena)
{
    double *slab = pl_arena_take(arena, n * count, sizeof *slab);
    for (size_t i = 0; slab && i < n; i++)
        *arrays[i] = slab + i * count;
    return slab;
}

bool pl_beam_alloc(struct pl_beam *b, size_t count, struct pl_arena *arena)
{
    double **arrays[] = {&b->y_m, &b->flap_flap, &b->lead_lead, &b->twist_twist, &b->flap_lead,
                         &b->flap_twist, &b->lead_twist, &b->shear, &b->x_centre_m, &b->z_centre_m};
    b->count = count;
    return take_arrays(arrays, sizeof arrays / sizeof *arrays, count, arena);
}

bool pl_forces_alloc(struct pl_forces *f, size_t count, struct pl_arena *arena)
{
    double **arrays[PARTS] = {&f->shear_z_n, &f->shear_x_n, &f->flap_nm, &f->lead_nm, &f->roll_nm};
    return take_arrays(arrays, PARTS, count, arena);
}

bool pl_displacements_alloc(struct pl_displacements *d, size_t count, struct pl_arena *arena)
{
    double **arrays[PARTS] = {&d->u_m, &d->slope_rad, &d->w_m, &d->lead_slope_rad, &d->twist_rad};
    return take_arrays(arrays, PARTS, count, arena);
}

void pl_forces_zero(struct pl_forces *f, size_t count)
{
    double *arrays[PARTS] = {f->shear_z_n, f->shear_x_n, f->flap_nm, f->lead_nm, f->roll_nm};
    for (int i = 0; i < PARTS; i++)
        memset(arrays[i], 0, count * sizeof(double));
}

struct pl_beam_system {
    const struct pl_beam *beam;
    const struct pl_support *supports;
    size_t n, unknowns;
    gsl_matrix_view matrix;      /* factored: Q and R */
    gsl_vector_view tau, right;
    double *scale;               /* of each unknown */
    struct pl_force *applied;    /* in the solution in hand, right at each support */
    struct pl_forces unit;       /* of one reaction, while fixing */
    struct pl_displacements displacements;
};

/* Curvatures and rates at a cut under the forces there. */
struct rates { double flap, lead, twist, rise, drift; };

static inline struct rates rates_at(const struct pl_beam *b, const struct pl_forces *f, size_t c)
{
    double torque = f->roll_nm[c] + b->x_centre_m[c] * f->shear_z_n[c] - b->z_centre_m[c] * f->shear_x_n[c];
    double flap = f->flap_nm[c], lead = f->lead_nm[c];
    struct rates r = {
        .flap = b->flap_flap[c] * flap + b->flap_lead[c] * lead + b->flap_twist[c] * torque,
        .lead = b->flap_lead[c] * flap + b->lead_lead[c] * lead + b->lead_twist[c] * torque,
        .twist = b->flap_twist[c] * flap + b->lead_twist[c] * lead + b->twist_twist[c] * torque,
    };
    /* By virtual work: a shear at the fixed line twists the section about its shear centre. */
    r.rise = b->shear[c] * f->shear_z_n[c] + r.twist * b->x_centre_m[c];
    r.drift = -r.twist * b->z_centre_m[c];
    return r;
}

/* Integrates displacements from cut `from`, whose values are set, to `to`, either way. */
static void integrate(const struct pl_beam *b, const struct pl_forces *f, struct pl_displacements *d, size_t from, size_t to)
{
    int way = to > from ? 1 : -1;
    struct rates r1 = rates_at(b, f, from);
    for (size_t c = from; c != to;) {
        size_t next = way > 0 ? c + 1 : c - 1;
        struct rates r2 = rates_at(b, f, next);
        double h = b->y_m[next] - b->y_m[c];
        /* Curvature linear from cut to cut, so slope and deflection follow exactly. */
        d->slope_rad[next] = d->slope_rad[c] + h * (r1.flap + r2.flap) / 2;
        d->lead_slope_rad[next] = d->lead_slope_rad[c] + h * (r1.lead + r2.lead) / 2;
        d->twist_rad[next] = d->twist_rad[c] + h * (r1.twist + r2.twist) / 2;
        d->u_m[next] = d->u_m[c] + h * d->slope_rad[c] + h * h * (2 * r1.flap + r2.flap) / 6 + h * (r1.rise + r2.rise) / 2;
        d->w_m[next] = d->w_m[c] + h * d->lead_slope_rad[c] + h * h * (2 * r1.lead + r2.lead) / 6
                       + h * (r1.drift + r2.drift) / 2;
        r1 = r2;
        c = next;
    }
}

static void start_at(struct pl_displacements *d, size_t cut, double slope_rad, double lead_slope_rad)
{
    d->u_m[cut] = d->w_m[cut] = d->twist_rad[cut] = 0;
    d->slope_rad[cut] = slope_rad;
    d->lead_slope_rad[cut] = lead_slope_rad;
}

static bool slope_free(const struct pl_support *s)
{
    return !s->clamped || pl_support_sprung(s);
}

/* Unknowns: the two slopes at the first support, then five reaction parts at each of the others. */
static size_t reaction_at(size_t support, int part)
{
    return 2 + PARTS * (support - 1) + (size_t)part;
}

static double force_part(const struct pl_force *f, int part)
{
    const double parts[PARTS] = {f->z_n, f->x_n, f->flap_nm, f->lead_nm, f->roll_nm};
    return parts[part];
}

void pl_load_point(const struct pl_beam *beam, size_t left, double y_m, const struct pl_force *force, struct pl_forces *f)
{
    for (size_t c = 0; c <= left; c++) {
        double arm = y_m - beam->y_m[c];
        f->shear_z_n[c] += force->z_n;
        f->shear_x_n[c] += force->x_n;
        f->flap_nm[c] += force->flap_nm + force->z_n * arm;
        f->lead_nm[c] += force->lead_nm + force->x_n * arm;
        f->roll_nm[c] += force->roll_nm;
    }
}

static struct pl_force unit_force(int part)
{
    return (struct pl_force){part == 0, part == 1, part == 2, part == 3, part == 4};
}

/* The equations of one support but the first: no deflection either way, no twist, and slopes held, sprung or
 * free.  Row order is that of the reaction parts.  value: displacements (or the applied load's) there; own:
 * reaction parts there, of the same unknown. */
static void support_rows(const struct pl_support *s, const struct pl_displacements *d, const struct pl_force *own,
                         double rows[PARTS])
{
    size_t c = s->left;
    double spring = pl_support_sprung(s) ? 1 / s->stiffness_nm_per_rad : 0;
    rows[0] = d->u_m[c];
    rows[1] = d->w_m[c];
    rows[4] = d->twist_rad[c];
    rows[2] = s->clamped ? d->slope_rad[c] + spring * force_part(own, 2) : force_part(own, 2);
    rows[3] = s->clamped ? d->lead_slope_rad[c] : force_part(own, 3);
}

/* The two equations of the first support: its slopes are zero, or its moments balance. known: moments just left
 * minus just right of it. */
static void first_rows(const struct pl_support *s, double slope, double lead_slope, double flap_jump, double lead_jump,
                       double rows[2])
{
    rows[0] = !slope_free(s) ? slope : flap_jump + (s->clamped ? s->stiffness_nm_per_rad * slope : 0);
    rows[1] = s->clamped ? lead_slope : lead_jump;
}

static void put_column(struct pl_beam_system *s, size_t column, const struct pl_displacements *d, size_t at, int part)
{
    const struct pl_support *first = &s->supports[0];
    double rows[PARTS], slope = column == 0, lead_slope = column == 1;
    struct pl_force unit = unit_force(part), none = {0};
    double flap_jump = 0, lead_jump = 0;
    if (column >= 2) {  /* the reaction's moment arrives just right of the first support */
        double arm = s->beam->y_m[s->supports[at].left] - s->beam->y_m[first->right];
        flap_jump = -(unit.flap_nm + unit.z_n * arm);
        lead_jump = -(unit.lead_nm + unit.x_n * arm);
    }
    first_rows(first, slope, lead_slope, flap_jump, lead_jump, rows);
    gsl_matrix_set(&s->matrix.matrix, 0, column, rows[0]);
    gsl_matrix_set(&s->matrix.matrix, 1, column, rows[1]);
    for (size_t i = 1; i < s->n; i++) {
        support_rows(&s->supports[i], d, i == at && column >= 2 ? &unit : &none, rows);
        for (int p = 0; p < PARTS; p++)
            gsl_matrix_set(&s->matrix.matrix, reaction_at(i, p), column, rows[p]);
    }
}

static void fill_matrix(struct pl_beam_system *s)
{
    const struct pl_beam *b = s->beam;
    size_t first = s->supports[0].right, last = s->supports[s->n - 1].left;
    for (size_t column = 0; column < s->unknowns; column++) {
        size_t at = column < 2 ? 0 : 1 + (column - 2) / PARTS;
        int part = column < 2 ? 0 : (int)((column - 2) % PARTS);
        pl_forces_zero(&s->unit, b->count);
        if (column >= 2) {
            struct pl_force unit = unit_force(part);
            pl_load_point(b, s->supports[at].left, b->y_m[s->supports[at].left], &unit, &s->unit);
        }
        start_at(&s->displacements, first, column == 0, column == 1);
        integrate(b, &s->unit, &s->displacements, first, last);
        put_column(s, column, &s->displacements, at, part);
    }
}

/* Newtons and newton metres, metres and radians meet in one matrix: scale every unknown to a like size. */
static void scale_columns(struct pl_beam_system *s)
{
    gsl_matrix *m = &s->matrix.matrix;
    for (size_t j = 0; j < s->unknowns; j++) {
        double most = 0;
        for (size_t i = 0; i < s->unknowns; i++)
            most = fmax(most, fabs(gsl_matrix_get(m, i, j)));
        s->scale[j] = most > 0 ? 1 / most : 1;
        for (size_t i = 0; i < s->unknowns; i++)
            gsl_matrix_set(m, i, j, gsl_matrix_get(m, i, j) * s->scale[j]);
    }
}

struct pl_beam_system *pl_beam_fix(const struct pl_beam *beam, const struct pl_support *supports, size_t n,
                                   struct pl_arena *arena)
{
    size_t unknowns = 2 + PARTS * (n - 1);
    struct pl_beam_system *s = pl_arena_take(arena, 1, sizeof *s);
    double *slab = pl_arena_take(arena, unknowns * (unknowns + 3), sizeof *slab);
    struct pl_force *applied = pl_arena_take(arena, n, sizeof *applied);
    if (!s || !slab || !applied || !pl_forces_alloc(&s->unit, beam->count, arena)
        || !pl_displacements_alloc(&s->displacements, beam->count, arena))
        return NULL;
    s->beam = beam;
    s->supports = supports;
    s->n = n;
    s->unknowns = unknowns;
    s->matrix = gsl_matrix_view_array(slab, unknowns, unknowns);
    s->tau = gsl_vector_view_array(slab + unknowns * unknowns, unknowns);
    s->right = gsl_vector_view_array(slab + unknowns * (unknowns + 1), unknowns);
    s->scale = slab + unknowns * (unknowns + 2);
    s->applied = applied;
    fill_matrix(s);
    scale_columns(s);
    gsl_linalg_QR_decomp(&s->matrix.matrix, &s->tau.vector);
    return s;
}

/* Applied loads are known to the right of each cut; left of the first support the true forces are minus those on
 * the left, which is the same less all that is applied. */
static void free_left_end(const struct pl_beam *b, struct pl_forces *f, size_t last_left)
{
    struct pl_force all = {f->shear_z_n[0], f->shear_x_n[0], f->flap_nm[0], f->lead_nm[0], f->roll_nm[0]};
    for (size_t c = 0; c <= last_left; c++) {
        double arm = b->y_m[0] - b->y_m[c];
        f->shear_z_n[c] -= all.z_n;
        f->shear_x_n[c] -= all.x_n;
        f->flap_nm[c] -= all.flap_nm + all.z_n * arm;
        f->lead_nm[c] -= all.lead_nm + all.x_n * arm;
        f->roll_nm[c] -= all.roll_nm;
    }
}

static struct pl_force step_at(const struct pl_forces *f, const struct pl_support *s)
{
    size_t l = s->left, r = s->right;
    return (struct pl_force){f->shear_z_n[l] - f->shear_z_n[r], f->shear_x_n[l] - f->shear_x_n[r],
                             f->flap_nm[l] - f->flap_nm[r], f->lead_nm[l] - f->lead_nm[r], f->roll_nm[l] - f->roll_nm[r]};
}

static void fill_right_side(struct pl_beam_system *s, const struct pl_forces *f, struct pl_displacements *d)
{
    const struct pl_support *first = &s->supports[0];
    double rows[PARTS];
    struct pl_force none = {0};
    /* The mount's own share of the step there: a moment applied at that very place is not its reaction. */
    struct pl_force step = step_at(f, first), applied = s->applied[0];
    first_rows(first, 0, 0, step.flap_nm - applied.flap_nm, step.lead_nm - applied.lead_nm, rows);
    gsl_vector_set(&s->right.vector, 0, -rows[0]);
    gsl_vector_set(&s->right.vector, 1, -rows[1]);
    for (size_t i = 1; i < s->n; i++) {
        support_rows(&s->supports[i], d, &none, rows);
        for (int p = 0; p < PARTS; p++)
            gsl_vector_set(&s->right.vector, reaction_at(i, p), -rows[p]);
    }
}

static void add_reactions(struct pl_beam_system *s, struct pl_forces *f)
{
    for (size_t i = 1; i < s->n; i++) {
        double part[PARTS];
        for (int p = 0; p < PARTS; p++)
            part[p] = gsl_vector_get(&s->right.vector, reaction_at(i, p)) * s->scale[reaction_at(i, p)];
        double y = s->beam->y_m[s->supports[i].left];
        for (size_t c = s->supports[0].right; c <= s->supports[i].left; c++) {
            double arm = y - s->beam->y_m[c];
            f->shear_z_n[c] += part[0];
            f->shear_x_n[c] += part[1];
            f->flap_nm[c] += part[2] + part[0] * arm;
            f->lead_nm[c] += part[3] + part[1] * arm;
            f->roll_nm[c] += part[4];
        }
    }
}

struct pl_force pl_beam_reaction(const struct pl_beam_system *s, const struct pl_forces *solved, size_t i)
{
    struct pl_force step = step_at(solved, &s->supports[i]), applied = s->applied[i];
    return (struct pl_force){step.z_n - applied.z_n, step.x_n - applied.x_n, step.flap_nm - applied.flap_nm,
                             step.lead_nm - applied.lead_nm, step.roll_nm - applied.roll_nm};
}

enum pl_status pl_beam_solve(struct pl_beam_system *s, struct pl_forces *f, struct pl_displacements *d)
{
    const struct pl_beam *b = s->beam;
    const struct pl_support *first = &s->supports[0];
    for (size_t i = 0; i < s->n; i++)
        s->applied[i] = step_at(f, &s->supports[i]);
    free_left_end(b, f, first->left);
    start_at(d, first->right, 0, 0);
    integrate(b, f, d, first->right, s->supports[s->n - 1].left);
    fill_right_side(s, f, d);
    gsl_linalg_QR_svx(&s->matrix.matrix, &s->tau.vector, &s->right.vector);
    for (size_t i = 0; i < s->unknowns; i++)
        if (!isfinite(gsl_vector_get(&s->right.vector, i)))
            return PL_NOT_CONVERGED;
    add_reactions(s, f);
    double slope = gsl_vector_get(&s->right.vector, 0) * s->scale[0];
    double lead_slope = gsl_vector_get(&s->right.vector, 1) * s->scale[1];
    start_at(d, first->right, slope, lead_slope);
    start_at(d, first->left, slope, lead_slope);
    integrate(b, f, d, first->right, b->count - 1);
    integrate(b, f, d, first->left, 0);
    bool finite = isfinite(d->u_m[0]) && isfinite(d->u_m[b->count - 1]);
    return finite ? PL_OK : PL_NOT_CONVERGED;
}
