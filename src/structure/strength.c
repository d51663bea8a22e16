#include "plyloft/strength.h"

#include <math.h>

const char *pl_mode_name(enum pl_mode mode)
{
    static const char *const names[PL_MODES] = {"ply", "wrinkling", "core-shear", "core-crush", "pad-shear", "nose-crush"};
    return names[mode];
}

struct pl_strength_rules pl_strength_rules(const struct pl_part *part, const struct pl_element *element)
{
    const struct pl_core *core = &part->cores[element->core];
    double knockdown = part->allowables.core_knockdown;
    return (struct pl_strength_rules){
        .criterion = part->allowables.criterion,
        .wrinkling_pa2 = 0.125 * core->e_pa * core->g_pa * knockdown,
        .wrinkling_root = cbrt(0.125 * core->e_pa * core->g_pa * knockdown),
        .core_g_pa = core->g_pa,
        .core_shear_pa = core->shear_strength_pa * knockdown,
        .core_crush_pa = core->compressive_strength_pa * knockdown,
        .keeps_least = 1,
    };
}

/* Section forces turned into what every wall point needs. */
struct loading {
    struct pl_strain strain;
    double torque_nm, shear_z_n, shear_x_n;
};

/* Span strain on the middle line, its slope along the outward normal, and shear flow. */
struct point { double strain, slope_1_m, flow_n_m; };

static inline struct point at_point(const struct pl_wall *w, size_t i, const struct loading *load, double flow_torsion)
{
    return (struct point){
        .strain = load->strain.at_neutral - load->strain.flap_1_m * w->z_m[i] - load->strain.lead_1_m * w->x_m[i],
        .slope_1_m = -load->strain.flap_1_m * w->normal_z[i] - load->strain.lead_1_m * w->normal_x[i],
        .flow_n_m = flow_torsion + load->shear_z_n * w->flow_z[i] + load->shear_x_n * w->flow_x[i],
    };
}

/* No point within the bounds strains or shears more than this. */
static inline struct point most_of(const struct pl_wall_bounds *b, const struct loading *load)
{
    const struct pl_strain *e = &load->strain;
    return (struct point){
        .strain = fabs(e->at_neutral) + fabs(e->flap_1_m) * b->z_far_m + fabs(e->lead_1_m) * b->x_far_m,
        .slope_1_m = fabs(e->flap_1_m) + fabs(e->lead_1_m),
        .flow_n_m = b->flow_torsion * fabs(load->torque_nm) + fabs(load->shear_z_n) * b->flow_z_far
                    + fabs(load->shear_x_n) * b->flow_x_far,
    };
}

static inline void u_of(const struct pl_ply_test *t, const struct point *p, double u[3])
{
    u[0] = p->strain + t->offset_m * p->slope_1_m;
    u[1] = p->strain;
    u[2] = p->flow_n_m;
}

/* ---- ply ---- */

static inline double tsai_wu_use(const struct pl_ply_test *t, const double u[3], double reserve)
{
    const double *q = t->q;
    double a = u[0] * (q[0] * u[0] + q[3] * u[1] + q[4] * u[2]) + u[1] * (q[1] * u[1] + q[5] * u[2]) + q[2] * u[2] * u[2];
    return (a * reserve + t->l[0] * u[0] + t->l[1] * u[1] + t->l[2] * u[2]) * reserve;
}

static void stress_of(const struct pl_ply_test *t, const double u[3], double stress_pa[3])
{
    for (int i = 0; i < 3; i++)
        stress_pa[i] = t->c[i][0] * u[0] + t->c[i][1] * u[1] + t->c[i][2] * u[2];
}

/* Share of the criterion used when the load is multiplied by reserve: above 1 the ply has failed by then. */
static inline double ply_use(const struct pl_ply_test *t, int criterion, const double u[3], double reserve)
{
    if (criterion == PL_TSAI_WU)
        return tsai_wu_use(t, u, reserve);
    double stress_pa[3];
    stress_of(t, u, stress_pa);
    return reserve / pl_reserve_max_stress(&t->strength, stress_pa);
}

/* No ply within the bounds reaches this share of its criterion. */
static double ply_use_most(const double q[6], const double l[3], const double share[3], double offset_m, int criterion,
                           const struct point *most, double reserve)
{
    double u0 = most->strain + offset_m * most->slope_1_m, u1 = most->strain, u2 = most->flow_n_m;
    if (criterion == PL_MAX_STRESS)
        return (share[0] * u0 + share[1] * u1 + share[2] * u2) * reserve;
    double a = u0 * (q[0] * u0 + q[3] * u1 + q[4] * u2) + u1 * (q[1] * u1 + q[5] * u2) + q[2] * u2 * u2;
    return (a * reserve + l[0] * u0 + l[1] * u1 + l[2] * u2) * reserve;
}

static double most_used_stress(const struct pl_ply_strength *s, const double stress_pa[3])
{
    double used[3] = {fabs(stress_pa[0]) / (stress_pa[0] > 0 ? s->xt_pa : s->xc_pa),
                      fabs(stress_pa[1]) / (stress_pa[1] > 0 ? s->yt_pa : s->yc_pa), fabs(stress_pa[2]) / s->s_pa};
    int most = used[1] > used[0] ? 1 : 0;
    return stress_pa[used[2] > used[most] ? 2 : most];
}

double pl_fatigue_keeps(int fibre, double cycles)
{
    return 1 - (fibre == PL_CARBON ? 0.05 : 0.10) * log10(cycles);
}

/* What a ply keeps scales all its strengths alike, and so its reserve. */
static inline double kept_by(const struct pl_strength_rules *rules, size_t item)
{
    return rules->keeps ? rules->keeps[item] : 1;
}

static void take_ply(const struct pl_ply_test *t, int criterion, double kept, const double u[3], const struct pl_wall_run *run,
                     double fraction, struct pl_weakest *weakest)
{
    double stress_pa[3];
    stress_of(t, u, stress_pa);
    double reserve = criterion == PL_TSAI_WU ? pl_reserve_tsai_wu(&t->strength, stress_pa)
                                             : pl_reserve_max_stress(&t->strength, stress_pa);
    reserve *= kept;
    if (reserve < weakest->reserve)
        *weakest = (struct pl_weakest){reserve, PL_MODE_PLY, t->item, run->side, fraction,
                                       most_used_stress(&t->strength, stress_pa)};
}

static void weakest_ply(const struct pl_wall *w, const struct pl_wall_run *run, const struct pl_stack *stack,
                        const struct loading *load, const struct pl_strength_rules *rules, struct pl_weakest *weakest)
{
    double torsion = run->flow_torsion * load->torque_nm, u[3];
    int criterion = rules->criterion;
    for (size_t k = 0; k < stack->n_tests; k++) {
        const struct pl_ply_test *t = &stack->tests[k];
        double kept = kept_by(rules, t->item);
        for (size_t i = run->first; i < run->first + run->count; i++) {
            struct point p = at_point(w, i, load, torsion);
            u_of(t, &p, u);
            if (ply_use(t, criterion, u, weakest->reserve / kept) > 1)
                take_ply(t, criterion, kept, u, run, w->fraction[i], weakest);
        }
    }
}

/* ---- wrinkling ---- */

static void take_wrinkle(const struct pl_stack *stack, double compression_n_m, double modulus_pa,
                         const struct pl_strength_rules *rules, const struct pl_wall_run *run, double fraction,
                         struct pl_weakest *weakest)
{
    double stress_pa = compression_n_m / stack->thickness_m, reserve = cbrt(rules->wrinkling_pa2 * modulus_pa) / stress_pa;
    if (reserve < weakest->reserve)
        *weakest = (struct pl_weakest){reserve, PL_MODE_WRINKLING, PL_NONE, run->side, fraction, -stress_pa};
}

/* Bound of a wrinkle's stress times the cube root of its compliance: compared with wrinkling_root. */
static inline double wrinkle_most(const struct pl_wall_bounds *b, const struct point *most)
{
    return b->wrinkle_strain * most->strain + b->wrinkle_flow * most->flow_n_m;
}

static void weakest_wrinkle(const struct pl_wall *w, const struct pl_wall_run *run, const struct pl_stack *stack,
                            const struct loading *load, const struct pl_strength_rules *rules, struct pl_weakest *weakest)
{
    double per_h = 1 / stack->thickness_m, torsion = run->flow_torsion * load->torque_nm;
    for (size_t i = run->first; i < run->first + run->count; i++) {
        struct point p = at_point(w, i, load, torsion);
        double half = 0.5 * (stack->e1_n_m * p.strain + stack->k * p.flow_n_m);
        double radius = sqrt(half * half + p.flow_n_m * p.flow_n_m), compression = radius - half;
        double stress = compression * per_h * weakest->reserve, cube = stress * stress * stress;
        if (cube * stack->softest <= rules->wrinkling_pa2)
            continue;
        /* Principal compression stands across the principal tension of Mohr's circle. */
        double modulus_pa = pl_stack_face_modulus(stack, -half / radius, -p.flow_n_m / radius);
        if (cube > rules->wrinkling_pa2 * modulus_pa)
            take_wrinkle(stack, compression, modulus_pa, rules, run, w->fraction[i], weakest);
    }
}

/* The run most likely to wrinkle first: its reserve, once known, clears most others by their bounds alone. */
static size_t likeliest_run(const struct pl_section *s, const struct loading *load)
{
    size_t likeliest = 0;
    double most = -1;
    for (size_t r = 0; r < s->wall.n_runs; r++) {
        struct point bound = most_of(&s->wall.runs[r].bounds, load);
        double use = wrinkle_most(&s->wall.runs[r].bounds, &bound);
        if (use > most) {
            most = use;
            likeliest = r;
        }
    }
    return likeliest;
}

static void weakest_in_run(const struct pl_section *s, size_t r, const struct pl_stack_set *stacks,
                           const struct pl_strength_rules *rules, const struct loading *load, struct pl_weakest *weakest)
{
    const struct pl_wall_run *run = &s->wall.runs[r];
    const struct pl_stack *k = &stacks->stacks[run->stack];
    struct point most = most_of(&run->bounds, load);
    if (wrinkle_most(&run->bounds, &most) * weakest->reserve > rules->wrinkling_root)
        weakest_wrinkle(&s->wall, run, k, load, rules, weakest);
    if (ply_use_most(k->q_most, k->l_most, k->share_most, k->offset_most_m, rules->criterion, &most, weakest->reserve / rules->keeps_least) > 1)
        weakest_ply(&s->wall, run, k, load, rules, weakest);
}

/* True when the bounds of the whole wall show that nothing in it is weaker. */
static bool cleared(const struct pl_section *s, const struct pl_strength_rules *rules, const struct loading *load,
                    double reserve)
{
    const struct pl_wall_bounds *b = &s->bounds;
    struct point most = most_of(b, load);
    return wrinkle_most(b, &most) * reserve <= rules->wrinkling_root
           && ply_use_most(b->q_most, b->l_most, b->share_most, b->offset_most_m, rules->criterion, &most, reserve / rules->keeps_least) <= 1;
}

void pl_section_weakest(const struct pl_section *s, const struct pl_stack_set *stacks, const struct pl_strength_rules *rules,
                        const struct pl_internal *on_car, struct pl_weakest *weakest)
{
    struct pl_internal f = pl_section_turn(s, on_car);
    struct loading load = {pl_section_strain(s, &f), f.torque_nm, f.shear_z_n, f.shear_x_n};
    double core_pa = fabs(rules->core_g_pa * on_car->shear_z_n / s->shear_stiffness_n);
    if (core_pa * weakest->reserve > rules->core_shear_pa)
        *weakest = (struct pl_weakest){rules->core_shear_pa / core_pa, PL_MODE_CORE_SHEAR, PL_NONE, PL_BOTH, PL_NOT_GIVEN, core_pa};
    if (cleared(s, rules, &load, weakest->reserve))
        return;
    size_t first = likeliest_run(s, &load);
    weakest_in_run(s, first, stacks, rules, &load, weakest);
    for (size_t r = 0; r < s->wall.n_runs; r++)
        if (r != first)
            weakest_in_run(s, r, stacks, rules, &load, weakest);
}

void pl_pad_weakest(const struct pl_strength_rules *rules, const struct pl_pad *pad, double force_n, double core_depth_m,
                    struct pl_weakest *weakest)
{
    double crush_pa = force_n / (pad->length_m * pad->width_m);
    /* At a sharp tail there is no depth at all: a stress beyond any strength, not an endless one. */
    double rim_pa = force_n / (2 * (pad->length_m + pad->width_m) * fmax(core_depth_m, 1e-9));
    if (crush_pa * weakest->reserve > rules->core_crush_pa)
        *weakest = (struct pl_weakest){rules->core_crush_pa / crush_pa, PL_MODE_CORE_CRUSH, PL_NONE, PL_BOTH, pad->acts_at,
                                       crush_pa};
    if (rim_pa * weakest->reserve > rules->core_shear_pa)
        *weakest = (struct pl_weakest){rules->core_shear_pa / rim_pa, PL_MODE_PAD_SHEAR, PL_NONE, PL_BOTH, pad->acts_at,
                                       rim_pa};
}

void pl_strike_weakest(const struct pl_strength_rules *rules, double force_n, double area_m2, double fraction, struct pl_weakest *weakest)
{
    double crush_pa = fabs(force_n) / area_m2;
    if (crush_pa * weakest->reserve > rules->core_crush_pa)
        *weakest = (struct pl_weakest){rules->core_crush_pa / crush_pa, PL_MODE_NOSE_CRUSH, PL_NONE, PL_BOTH, fraction, crush_pa};
}
