/* Beams on mounts: Timoshenko's and Young's closed forms, and loads along the span. */
#include "published.h"

#include "plyloft/beam.h"

#include <math.h>

enum { STEPS = 240, MOST_SUPPORTS = 3 };

/* A uniform beam over up to four places, two cuts at each. */
struct trial {
    struct pl_arena arena;
    struct pl_beam beam;
    struct pl_support supports[MOST_SUPPORTS];
    size_t n_supports;
    struct pl_beam_system *system;
    struct pl_forces forces;
    struct pl_displacements d;
    double x_m[4 * (STEPS + 2)];
};

static void lay_out(struct trial *t, const double *places, size_t n, double ei, double gj, double shear)
{
    double y[4 * (STEPS + 2)];
    size_t count = 0;
    *t = (struct trial){0};
    for (size_t i = 0; i < n; i++) {
        y[count++] = places[i];
        y[count++] = places[i];
        for (size_t k = 1; i + 1 < n && k < STEPS; k++)
            y[count++] = places[i] + (places[i + 1] - places[i]) * (double)k / STEPS;
    }
    pl_beam_alloc(&t->beam, count, &t->arena);
    pl_forces_alloc(&t->forces, count, &t->arena);
    pl_displacements_alloc(&t->d, count, &t->arena);
    for (size_t c = 0; c < count; c++) {
        t->beam.y_m[c] = y[c];
        t->beam.flap_flap[c] = 1 / ei;
        t->beam.lead_lead[c] = 0.1 / ei;
        t->beam.twist_twist[c] = 1 / gj;
        t->beam.shear[c] = 1 / shear;
    }
}

static size_t cut_at(const struct trial *t, double y)
{
    size_t c = 0;
    while (c + 2 < t->beam.count && t->beam.y_m[c] < y - 1e-9)
        c++;
    return c;
}

static void hold(struct trial *t, double y, bool clamped, double spring)
{
    t->supports[t->n_supports++] = (struct pl_support){cut_at(t, y), cut_at(t, y) + 1, clamped, spring};
}

static void push(struct trial *t, double y, double z_n, double x_m)
{
    const struct pl_force force = {.z_n = z_n, .roll_nm = -z_n * x_m};
    pl_load_point(&t->beam, cut_at(t, y), y, &force, &t->forces);
}

static void solve(struct trial *t)
{
    t->system = pl_beam_fix(&t->beam, t->supports, t->n_supports, &t->arena);
    pl_beam_solve(t->system, &t->forces, &t->d);
}

static double finish(struct trial *t, double value)
{
    pl_arena_free(&t->arena);
    return value;
}

static struct trial t;

static double cantilever(void)
{
    lay_out(&t, (double[]){0, 0.43}, 2, 1400, 1000, HUGE_VAL);
    hold(&t, 0, true, (double)NAN);
    push(&t, 0.43, 100, 0);
    solve(&t);
    return finish(&t, 1e3 * t.d.u_m[cut_at(&t, 0.43)]);
}

static double evenly_loaded(void)
{
    lay_out(&t, (double[]){0, 0.47}, 2, 1400, 1000, HUGE_VAL);
    hold(&t, 0, true, (double)NAN);
    pl_load_spread(&t.beam, PL_SPREAD_EVEN, 500 * 0.47, 0, 0.47, t.x_m, &t.forces);
    solve(&t);
    return finish(&t, 1e3 * t.d.u_m[cut_at(&t, 0.47)]);
}

static double with_shear(void)
{
    lay_out(&t, (double[]){0, 0.43}, 2, 1400, 1000, 5e4);
    hold(&t, 0, true, (double)NAN);
    push(&t, 0.43, 100, 0);
    solve(&t);
    return finish(&t, 1e3 * t.d.u_m[cut_at(&t, 0.43)]);
}

static double exact_with_shear(void) { return 1e3 * (100 * pow(0.43, 3) / (3 * 1400) + 100 * 0.43 / 5e4); }

static double middle_reaction(void)
{
    lay_out(&t, (double[]){-0.5, 0, 0.5}, 3, 1400, 1000, HUGE_VAL);
    for (int i = -1; i <= 1; i++)
        hold(&t, 0.5 * i, false, (double)NAN);
    pl_load_spread(&t.beam, PL_SPREAD_EVEN, -100, -0.5, 0.5, t.x_m, &t.forces);
    solve(&t);
    return finish(&t, pl_beam_reaction(t.system, &t.forces, 1).z_n);
}

static double both_ends_clamped(void)
{
    lay_out(&t, (double[]){0, 0.3, 0.6}, 3, 1400, 1000, HUGE_VAL);
    hold(&t, 0, true, (double)NAN);
    hold(&t, 0.6, true, (double)NAN);
    push(&t, 0.3, 100, 0);
    solve(&t);
    return finish(&t, 1e3 * t.d.u_m[cut_at(&t, 0.3)]);
}

static double exact_both_ends_clamped(void) { return 1e3 * 100 * pow(0.6, 3) / (192 * 1400); }

static double prop(void)
{
    lay_out(&t, (double[]){0, 0.3, 0.6}, 3, 1400, 1000, HUGE_VAL);
    hold(&t, 0, true, (double)NAN);
    hold(&t, 0.6, false, (double)NAN);
    push(&t, 0.3, -100, 0);
    solve(&t);
    return finish(&t, pl_beam_reaction(t.system, &t.forces, 1).z_n);
}

/* Equal tip loads outside two mounts: way of a tip, and moment between the mounts over that of clamped ones. */
static double overhang(bool clamped, double spring, double *moment_nm)
{
    lay_out(&t, (double[]){-0.64, -0.17, 0.17, 0.64}, 4, 1400, 1000, HUGE_VAL);
    hold(&t, -0.17, clamped, spring);
    hold(&t, 0.17, clamped, spring);
    push(&t, -0.64, 100, 0);
    push(&t, 0.64, 100, 0);
    solve(&t);
    *moment_nm = t.forces.flap_nm[cut_at(&t, 0.17)];
    return finish(&t, t.d.u_m[cut_at(&t, 0.64)]);
}

static double mount_truth(void)
{
    double moment_nm;
    return overhang(false, (double)NAN, &moment_nm) / overhang(true, (double)NAN, &moment_nm);
}

/* P a over the moment that stays between the mounts, less 1, is K c / EI; printed as the share of F7.2. */
static double sprung_share(void)
{
    double moment_nm;
    overhang(true, 4000, &moment_nm);
    return moment_nm / (100 * 0.47);
}

static double twist(void)
{
    const struct pl_force torque = {.roll_nm = 50};
    lay_out(&t, (double[]){0, 0.47}, 2, 1400, 1000, HUGE_VAL);
    hold(&t, 0, true, (double)NAN);
    pl_load_point(&t.beam, cut_at(&t, 0.47), 0.47, &torque, &t.forces);
    solve(&t);
    return finish(&t, t.d.twist_rad[cut_at(&t, 0.47)] * 180 / M_PI);
}

static double struck_stiffness(void)
{
    lay_out(&t, (double[]){0, 0.47}, 2, 1400, 1000, HUGE_VAL);
    hold(&t, 0, true, (double)NAN);
    push(&t, 0.47, 1, 0.05);
    solve(&t);
    return finish(&t, 1e-3 / pl_beam_rise_m(&t.d, cut_at(&t, 0.47), 0.05));
}

static void spread(enum pl_spread how)
{
    lay_out(&t, (double[]){-0.64, 0, 0.17, 0.64}, 4, 1400, 1000, HUGE_VAL);
    pl_load_spread(&t.beam, how, 797.92, -0.64, 0.64, t.x_m, &t.forces);
}

static double elliptic_shear(double y)
{
    spread(PL_SPREAD_ELLIPTIC);
    return finish(&t, t.forces.shear_z_n[cut_at(&t, y)]);
}

static double elliptic_moment(double y)
{
    spread(PL_SPREAD_ELLIPTIC);
    return finish(&t, t.forces.flap_nm[cut_at(&t, y)]);
}

static double shear_at_middle(void) { return elliptic_shear(0); }
static double shear_at_mount(void) { return elliptic_shear(0.17); }
static double moment_at_middle(void) { return elliptic_moment(0); }
static double moment_at_mount(void) { return elliptic_moment(0.17); }

static double even_moment(void)
{
    spread(PL_SPREAD_EVEN);
    return finish(&t, t.forces.flap_nm[cut_at(&t, 0)]);
}

static const struct published_row rows[] = {
    PRINTED("Young, Budynas 2002, F7.1", "cantilever 0.43 m, 1400 N m2, 100 N at the tip", "mm", 1.893, cantilever,
            3e-4),
    PRINTED("Young, Budynas 2002, F7.1", "cantilever 0.47 m, 1400 N m2, 500 N/m", "mm", 2.178, evenly_loaded, 3e-4),
    EXACT("Timoshenko 1921", "the first with shear of 50 kN", "mm", exact_with_shear, with_shear, 1e-6),
    PRINTED("Timoshenko", "two equal spans, even 100 N: middle mount", "N", 62.5, middle_reaction, 1e-4),
    EXACT("Timoshenko", "both ends clamped, P L^3 / 192 E I", "mm", exact_both_ends_clamped, both_ends_clamped, 1e-6),
    PRINTED("Timoshenko", "clamped and propped, 100 N in the middle: prop", "N", 31.25, prop, 1e-6),
    PRINTED("handbook F7.2", "overhang, pinned over clamped mounts", "", 2.085, mount_truth, 3e-4),
    PRINTED("handbook F7.2", "mounts on springs of 4000 N m/rad, moment", "", 0.673, sprung_share, 1e-3),
    PRINTED("handbook F7.4", "50 N m on 0.47 m of 1000 N m2", "deg", 1.346, twist, 4e-4),
    PRINTED("handbook F4.7", "struck 50 mm behind the shear centre, k", "kN/m", 38.62, struck_stiffness, 2e-4),
    PRINTED("Prandtl 1921, F4.3", "elliptic load, shear at the middle", "N", 398.96, shear_at_middle, 1e-4),
    PRINTED("Prandtl 1921, F4.3", "elliptic load, moment at the middle", "N m", 108.37, moment_at_middle, 1e-4),
    PRINTED("Prandtl 1921, F4.3", "elliptic load, shear at a mount", "N", 265.63, shear_at_mount, 1e-4),
    PRINTED("Prandtl 1921, F4.3", "elliptic load, moment at a mount", "N m", 51.945, moment_at_mount, 1e-4),
    PRINTED("handbook F4.3", "uniform load, F b / 8", "N m", 127.67, even_moment, 1e-4),
};

const struct published_table published_beams = {"Beams and loads along the span", rows, sizeof rows / sizeof *rows};
