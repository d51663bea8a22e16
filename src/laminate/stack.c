#include "plyloft/stack.h"

#include <math.h>
#include <string.h>

bool pl_stack_set_start(struct pl_stack_set *set, const struct pl_part *part, const struct pl_element *element,
                        struct pl_arena *arena)
{
    const struct pl_resin *resin = &part->resins[element->resin];
    *set = (struct pl_stack_set){
        .part = part,
        .element = element,
        .arena = arena,
        .capacity = 64,
        .table_size = 256,
        .knockdown = part->allowables.knockdown,
        .heat = pl_heat_factor(resin->tg_dry_c, resin->tg_wet_c, part->allowables.service_c),
    };
    set->stacks = pl_arena_take_raw(arena, set->capacity, sizeof *set->stacks);
    set->table = pl_arena_take(arena, set->table_size, sizeof *set->table);
    return set->stacks && set->table;
}

void pl_stack_plies(const struct pl_stack_set *set, const struct pl_stack *stack, bool mirrored, struct pl_ply *out)
{
    for (size_t p = 0; p < stack->n_parts; p++) {
        const struct pl_layup_item *item = &set->element->layup[stack->parts[p].item];
        const struct pl_fabric *fabric = &set->part->fabrics[item->fabric];
        for (size_t k = 0; k < stack->parts[p].plies; k++)
            *out++ = (struct pl_ply){fabric, mirrored ? -item->angle_rad : item->angle_rad, pl_fabric_ply_m(fabric),
                                     stack->parts[p].item};
    }
}

static void pack(const double m[3][3], double scale, double out[6])
{
    out[0] = scale * m[0][0];
    out[1] = scale * m[1][1];
    out[2] = scale * m[2][2];
    out[3] = scale * m[0][1];
    out[4] = scale * m[0][2];
    out[5] = scale * m[1][2];
}

/* D* = D - B A^-1 B, the bending stiffness of a wall free to shift in its plane. */
static void free_bending(const struct pl_abd *abd, const double a_inverse[3][3], double out[3][3])
{
    double ab[3][3];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            ab[i][j] = a_inverse[i][0] * abd->b[0][j] + a_inverse[i][1] * abd->b[1][j] + a_inverse[i][2] * abd->b[2][j];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            out[i][j] = abd->d[i][j] - abd->b[i][0] * ab[0][j] - abd->b[i][1] * ab[1][j] - abd->b[i][2] * ab[2][j];
}

static double along(const double m[6], double c, double s)
{
    double p = 1 + c, n = 1 - c;
    return 0.25 * (m[0] * p * p + m[1] * n * n + m[2] * s * s + 2 * (m[3] * p * n + m[4] * p * s + m[5] * n * s));
}

double pl_stack_face_modulus(const struct pl_stack *stack, double cos2, double sin2)
{
    return 1 / fmax(along(stack->a_inverse, cos2, sin2), along(stack->d_inverse, cos2, sin2));
}

/* The compliance is a trigonometric polynomial of second degree in 2 phi: between 16 samples of a turn it rises
 * by at most (pi/16)^2 x 4/2 = 7.7 % of its greatest, 8.4 % of what the samples show. */
static double softest_direction(const struct pl_stack *stack)
{
    double most = 0;
    for (int i = 0; i < 16; i++)
        most = fmax(most, 1 / pl_stack_face_modulus(stack, cos(M_PI * i / 8), sin(M_PI * i / 8)));
    return 1.09 * most;
}

/* The wall law of the contract's rule 3, with N2 = 0: span strain and shear flow in, the other two
 * strains out. */
static void set_wall_law(struct pl_stack *stack, const struct pl_abd *abd)
{
    double inverse[3][3], bending[3][3], bending_inverse[3][3], h = abd->thickness_m;
    pl_invert3(abd->a, inverse);
    free_bending(abd, inverse, bending);
    pl_invert3(bending, bending_inverse);
    double a22 = abd->a[1][1], a26 = abd->a[1][2], a12 = abd->a[0][1], a16 = abd->a[0][2];
    double a66 = abd->a[2][2] - a26 * a26 / a22, coupling = a16 - a12 * a26 / a22;
    stack->e1_n_m = 1 / inverse[0][0];
    stack->a66_n_m = a66;
    stack->k = coupling / a66;
    stack->shear[0] = -stack->k;
    stack->shear[1] = 1 / a66;
    stack->girth[0] = (-a12 - a26 * stack->shear[0]) / a22;
    stack->girth[1] = -a26 * stack->shear[1] / a22;
    pack(inverse, h, stack->a_inverse);
    pack(bending_inverse, h * h * h / 12, stack->d_inverse);
    stack->softest = softest_direction(stack);
    stack->wrinkle_strain = cbrt(stack->softest) * stack->e1_n_m / h;
    stack->wrinkle_flow = cbrt(stack->softest) * (fabs(stack->k) + 1) / h;
}

/* Stress of a ply in its own axes as a linear map of u: column by column, the strains of the wall that
 * a unit of each brings, through lamination theory. */
static void set_stress_map(struct pl_ply_test *test, const struct pl_stack *stack, const struct pl_ply *ply)
{
    const double strains[3][3] = {{1, 0, 0}, {0, stack->girth[0], stack->shear[0]}, {0, stack->girth[1], stack->shear[1]}};
    for (int u = 0; u < 3; u++) {
        double stress[3];
        pl_ply_stress(ply, strains[u], stress);
        for (int i = 0; i < 3; i++)
            test->c[i][u] = stress[i];
    }
}

/* a = s'Fs, b = f.s with s = c u (Tsai and Wu 1971, F12* = -0.5). */
static void set_quadratic(struct pl_ply_test *test)
{
    const struct pl_ply_strength *s = &test->strength;
    double f11 = 1 / (s->xt_pa * s->xc_pa), f22 = 1 / (s->yt_pa * s->yc_pa), f66 = 1 / (s->s_pa * s->s_pa);
    double f12 = -0.5 * sqrt(f11 * f22), f1 = 1 / s->xt_pa - 1 / s->xc_pa, f2 = 1 / s->yt_pa - 1 / s->yc_pa;
    double m[3][3];
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++)
            m[i][j] = f11 * test->c[0][i] * test->c[0][j] + f22 * test->c[1][i] * test->c[1][j]
                      + f66 * test->c[2][i] * test->c[2][j]
                      + f12 * (test->c[0][i] * test->c[1][j] + test->c[1][i] * test->c[0][j]);
        test->l[i] = f1 * test->c[0][i] + f2 * test->c[1][i];
    }
    pack(m, 1, test->q);
    for (int i = 3; i < 6; i++)
        test->q[i] *= 2;
}

static bool alike(const struct pl_stack_set *set, size_t a, size_t b)
{
    const struct pl_layup_item *x = &set->element->layup[a], *y = &set->element->layup[b];
    return x->fabric == y->fabric && x->angle_rad == y->angle_rad;
}

/* Failure is convex in strain, and plies of one cloth and angle differ in their span strain alone, linearly
 * with their offset: only the innermost and the outermost of them can govern. */
static void can_govern(const struct pl_stack_set *set, const struct pl_stack *stack, size_t part, bool *first, bool *last)
{
    *first = *last = true;
    for (size_t p = 0; p < part; p++)
        *first = *first && !alike(set, stack->parts[p].item, stack->parts[part].item);
    for (size_t p = part + 1; p < stack->n_parts; p++)
        *last = *last && !alike(set, stack->parts[p].item, stack->parts[part].item);
}

static double larger_of(double a, double b)
{
    return a > b ? a : b;
}

static void widen_bounds(struct pl_stack *stack, const struct pl_ply_test *t)
{
    const struct pl_ply_strength *s = &t->strength;
    const double least_pa[3] = {fmin(s->xt_pa, s->xc_pa), fmin(s->yt_pa, s->yc_pa), s->s_pa};
    for (int i = 0; i < 6; i++)
        stack->q_most[i] = larger_of(stack->q_most[i], fabs(t->q[i]));
    for (int j = 0; j < 3; j++) {
        stack->l_most[j] = larger_of(stack->l_most[j], fabs(t->l[j]));
        for (int i = 0; i < 3; i++)
            stack->share_most[j] = larger_of(stack->share_most[j], fabs(t->c[i][j]) / least_pa[i]);
    }
    stack->offset_most_m = larger_of(stack->offset_most_m, fabs(t->offset_m));
}

static void add_test(const struct pl_stack_set *set, struct pl_stack *stack, const struct pl_ply *ply, double offset_m)
{
    struct pl_ply_test *test = &stack->tests[stack->n_tests++];
    test->offset_m = offset_m;
    test->item = ply->item;
    test->strength = pl_ply_strength(ply->fabric, set->knockdown, set->heat);
    set_stress_map(test, stack, ply);
    set_quadratic(test);
    widen_bounds(stack, test);
}

static bool set_tests(struct pl_stack_set *set, struct pl_stack *stack, const struct pl_ply *plies)
{
    stack->tests = pl_arena_take_raw(set->arena, 2 * stack->n_parts, sizeof *stack->tests);
    if (!stack->tests)
        return false;
    double z = -0.5 * stack->thickness_m;
    for (size_t part = 0; part < stack->n_parts; part++) {
        size_t n = stack->parts[part].plies;
        double t = plies->thickness_m;
        bool first, last;
        can_govern(set, stack, part, &first, &last);
        if (first)
            add_test(set, stack, plies, z + 0.5 * t);
        if (last && (n > 1 || !first))
            add_test(set, stack, plies, z + ((double)n - 0.5) * t);
        z += (double)n * t;
        plies += n;
    }
    return true;
}

static double mass_of(const struct pl_stack_set *set, const struct pl_ply *plies, size_t n)
{
    const struct pl_resin *resin = &set->part->resins[set->element->resin];
    double mass = 0;
    for (size_t k = 0; k < n; k++)
        mass += pl_fabric_ply_kg_m2(plies[k].fabric, resin);
    return mass;
}

static bool work_out(struct pl_stack_set *set, struct pl_stack *stack, const struct pl_stack_part *parts, size_t n_parts)
{
    *stack = (struct pl_stack){.n_parts = n_parts};
    stack->parts = pl_arena_take_raw(set->arena, n_parts, sizeof *parts);
    if (!stack->parts)
        return false;
    memcpy(stack->parts, parts, n_parts * sizeof *parts);
    for (size_t p = 0; p < n_parts; p++)
        stack->n_plies += parts[p].plies;
    struct pl_ply *plies = pl_arena_take_raw(set->arena, stack->n_plies, sizeof *plies);
    if (!plies)
        return false;
    pl_stack_plies(set, stack, false, plies);
    struct pl_abd abd;
    pl_laminate_abd(plies, stack->n_plies, &abd);
    stack->thickness_m = abd.thickness_m;
    stack->mass_kg_m2 = mass_of(set, plies, stack->n_plies);
    set_wall_law(stack, &abd);
    return set_tests(set, stack, plies);
}

static size_t hash_parts(const struct pl_stack_part *parts, size_t n_parts)
{
    uint64_t h = 14695981039346656037u;  /* Fowler-Noll-Vo */
    for (size_t i = 0; i < n_parts; i++) {
        h = (h ^ parts[i].item) * 1099511628211u;
        h = (h ^ parts[i].plies) * 1099511628211u;
    }
    return (size_t)(h ^ h >> 32);
}

static bool same_parts(const struct pl_stack *stack, const struct pl_stack_part *parts, size_t n_parts)
{
    if (stack->n_parts != n_parts)
        return false;
    for (size_t i = 0; i < n_parts; i++)
        if (stack->parts[i].item != parts[i].item || stack->parts[i].plies != parts[i].plies)
            return false;
    return true;
}

static size_t *slot_of(const struct pl_stack_set *set, const struct pl_stack_part *parts, size_t n_parts)
{
    size_t at = hash_parts(parts, n_parts) & (set->table_size - 1);
    while (set->table[at] && !same_parts(&set->stacks[set->table[at] - 1], parts, n_parts))
        at = (at + 1) & (set->table_size - 1);
    return &set->table[at];
}

static bool grow(struct pl_stack_set *set)
{
    struct pl_stack *stacks = pl_arena_take_raw(set->arena, 2 * set->capacity, sizeof *stacks);
    size_t *table = pl_arena_take(set->arena, 2 * set->table_size, sizeof *table);
    if (!stacks || !table)
        return false;
    memcpy(stacks, set->stacks, set->count * sizeof *stacks);
    set->stacks = stacks;
    set->capacity *= 2;
    set->table = table;
    set->table_size *= 2;
    for (size_t i = 0; i < set->count; i++)
        *slot_of(set, stacks[i].parts, stacks[i].n_parts) = i + 1;
    return true;
}

size_t pl_stack_find(struct pl_stack_set *set, const struct pl_stack_part *parts, size_t n_parts)
{
    size_t *slot = slot_of(set, parts, n_parts);
    if (*slot)
        return *slot - 1;
    if (set->count == set->capacity) {
        if (!grow(set))
            return PL_NONE;
        slot = slot_of(set, parts, n_parts);
    }
    if (!work_out(set, &set->stacks[set->count], parts, n_parts))
        return PL_NONE;
    *slot = ++set->count;
    return set->count - 1;
}
