/* The beam on its mounts against closed forms (Timoshenko; Young and Budynas; Megson) and the laws of statics. */
#include "../part_text.h"
#include "../support.h"

#include "plyloft/beam.h"

#include <math.h>
#include <stdlib.h>

enum { MOST_CUTS = 1700, MOST_SUPPORTS = 4, MOST_PLACES = 12 };

/* A beam of cuts every so often, two at each place where something stands. */
struct frame {
    struct pl_arena arena;
    struct pl_beam beam;
    struct pl_support supports[MOST_SUPPORTS];
    size_t n_supports;
    struct pl_beam_system *system;
    struct pl_forces forces;
    struct pl_displacements d;
    double x_m[MOST_CUTS];
};

struct property { double ei, ei_lead, gj, shear; };

static const struct property usual = {1400, 24000, 1000, 8e4};
static const struct property stiff_in_shear = {1400, 24000, 1000, HUGE_VAL};

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* places: ends included, in any order; steps between neighbours. */
static void frame_make(struct frame *f, const double *places, size_t n, size_t steps, const struct property *p)
{
    double sorted[MOST_PLACES], y[MOST_CUTS];
    size_t count = 0;
    *f = (struct frame){0};
    for (size_t i = 0; i < n; i++)
        sorted[i] = places[i];
    qsort(sorted, n, sizeof *sorted, by_value);
    for (size_t i = 0; i < n; i++) {
        y[count++] = sorted[i];
        y[count++] = sorted[i];
        for (size_t k = 1; i + 1 < n && k < steps; k++)
            y[count++] = sorted[i] + (sorted[i + 1] - sorted[i]) * (double)k / (double)steps;
    }
    assert_in_range(count, 2, MOST_CUTS);
    assert_true(pl_beam_alloc(&f->beam, count, &f->arena) && pl_forces_alloc(&f->forces, count, &f->arena)
                && pl_displacements_alloc(&f->d, count, &f->arena));
    for (size_t c = 0; c < count; c++) {
        f->beam.y_m[c] = y[c];
        f->beam.flap_flap[c] = 1 / p->ei;
        f->beam.lead_lead[c] = 1 / p->ei_lead;
        f->beam.twist_twist[c] = 1 / p->gj;
        f->beam.shear[c] = 1 / p->shear;
    }
}

/* The left of the cuts at a place; right is the other one. */
static size_t cut_at(const struct frame *f, double y)
{
    size_t c = 0;
    while (c + 1 < f->beam.count && f->beam.y_m[c] < y - 1e-9)
        c++;
    return c;
}

static size_t right_cut_at(const struct frame *f, double y)
{
    size_t c = cut_at(f, y);
    assert_true(f->beam.y_m[c + 1] < y + 1e-9);
    return c + 1;
}

static void hold(struct frame *f, double y, bool clamped, double spring)
{
    f->supports[f->n_supports++] = (struct pl_support){cut_at(f, y), right_cut_at(f, y), clamped, spring};
}

static void clamp(struct frame *f, double y) { hold(f, y, true, (double)NAN); }
static void pin(struct frame *f, double y) { hold(f, y, false, (double)NAN); }

static void push(struct frame *f, double y, double z_n, double x_m)
{
    struct pl_force force = {.z_n = z_n, .roll_nm = -z_n * x_m};
    pl_load_point(&f->beam, cut_at(f, y), y, &force, &f->forces);
}

static void solve(struct frame *f)
{
    f->system = f->system ? f->system : pl_beam_fix(&f->beam, f->supports, f->n_supports, &f->arena);
    assert_non_null(f->system);
    assert_int_equal(pl_beam_solve(f->system, &f->forces, &f->d), PL_OK);
}

static double rise(const struct frame *f, double y) { return f->d.u_m[cut_at(f, y)]; }

static struct pl_force reaction(const struct frame *f, size_t i)
{
    return pl_beam_reaction(f->system, &f->forces, i);
}

/* ---- closed forms ---- */

static void a_cantilever_bends_as_the_handbook_says(void **state)
{
    (void)state;
    struct frame f;
    frame_make(&f, (double[]){0, 0.43}, 2, 50, &stiff_in_shear);
    clamp(&f, 0);
    push(&f, 0.43, 100, 0);
    solve(&f);
    assert_close(rise(&f, 0.43), 1.893e-3, 3e-4);  /* F7.1: P L3 / 3 EI */
    assert_close(rise(&f, 0.43), 100 * pow(0.43, 3) / (3 * 1400), 1e-9);
    assert_close(f.d.slope_rad[f.beam.count - 1], 100 * 0.43 * 0.43 / (2 * 1400), 1e-9);
    pl_arena_free(&f.arena);
    frame_make(&f, (double[]){0, 0.47}, 2, 200, &stiff_in_shear);
    clamp(&f, 0);
    pl_load_spread(&f.beam, PL_SPREAD_EVEN, 500 * 0.47, 0, 0.47, f.x_m, &f.forces);
    solve(&f);
    assert_close(rise(&f, 0.47), 2.178e-3, 3e-4);  /* w L4 / 8 EI */
    assert_close(rise(&f, 0.47), 500 * pow(0.47, 4) / (8 * 1400), 2e-5);
    assert_close(f.forces.flap_nm[1], 500 * 0.47 * 0.47 / 2, 1e-12);
    pl_arena_free(&f.arena);
}

static void shear_adds_its_own_deflection(void **state)
{
    (void)state;
    struct frame f;
    frame_make(&f, (double[]){0, 0.4}, 2, 20, &usual);
    clamp(&f, 0);
    push(&f, 0.4, 100, 0);
    solve(&f);
    /* Timoshenko 1921: P L3 / 3 EI + P L / S; the slope is that of bending alone */
    assert_close(rise(&f, 0.4), 100 * 0.064 / 4200 + 100 * 0.4 / 8e4, 1e-9);
    assert_close(f.d.slope_rad[f.beam.count - 1], 100 * 0.16 / 2800, 1e-9);
    pl_arena_free(&f.arena);
}

/* F7.2: equal tip loads P, overhang a = 0.47 outside mounts at -+0.17. */
static double overhang_tip(bool clamped, double spring)
{
    const double c = 0.17, a = 0.47;
    struct frame f;
    frame_make(&f, (double[]){-c - a, -c, c, c + a}, 4, 60, &stiff_in_shear);
    hold(&f, -c, clamped, spring);
    hold(&f, c, clamped, spring);
    push(&f, -c - a, 100, 0);
    push(&f, c + a, 100, 0);
    solve(&f);
    double tip = rise(&f, c + a), middle = f.forces.flap_nm[right_cut_at(&f, -c)];
    assert_close(rise(&f, -c - a), tip, 1e-9);
    assert_true(fabs(f.forces.flap_nm[cut_at(&f, c)] - middle) < 1e-9);
    if (clamped && !isnan(spring))
        /* moment between the mounts P a / (1 + K c / EI) */
        assert_close(middle, 100 * a / (1 + spring * c / 1400), 1e-9);
    pl_arena_free(&f.arena);
    return tip;
}

static void mounts_tell_the_truth_of_the_handbook(void **state)
{
    (void)state;
    double a = 0.47, c = 0.17, clamped = overhang_tip(true, (double)NAN), pinned = overhang_tip(false, (double)NAN),
           sprung = overhang_tip(true, 4000);
    assert_close(clamped, 100 * pow(a, 3) / (3 * 1400), 1e-9);
    assert_close(pinned, 100 * a * a * (c + a / 3) / 1400, 1e-9);
    assert_close(pinned / clamped, 2.085, 3e-4);
    assert_close(overhang_tip(true, 1e9) / clamped, 1, 1e-4);
    assert_close(overhang_tip(true, 1e-3) / pinned, 1, 1e-4);
    /* between them the moment is P a x .673 where K is 4000 */
    assert_close(1 / (1 + 4000 * c / 1400), 0.673, 1e-3);
    assert_true(clamped < sprung && sprung < pinned);
    /* sprung: tip = clamped + a x slope at the mount, slope = moment between x c / EI */
    assert_close(sprung, clamped + a * 100 * a / (1 + 4000 * c / 1400) * c / 1400, 1e-9);
}

static void beams_on_more_mounts_have_the_reactions_of_the_textbook(void **state)
{
    (void)state;
    struct frame f;
    /* two equal spans under an even load: 3/8, 10/8, 3/8 w L, -w L2/8 over the middle (Timoshenko) */
    frame_make(&f, (double[]){-0.5, 0, 0.5}, 3, 200, &stiff_in_shear);
    pin(&f, -0.5);
    pin(&f, 0);
    pin(&f, 0.5);
    pl_load_spread(&f.beam, PL_SPREAD_EVEN, -100, -0.5, 0.5, f.x_m, &f.forces);
    solve(&f);
    assert_close(reaction(&f, 1).z_n, 62.5, 5e-5);
    assert_close(f.forces.flap_nm[cut_at(&f, 0)], -(100 * 0.25 / 8), 2e-4);
    pl_arena_free(&f.arena);
    /* both ends clamped, load in the middle: P L3 / 192 EI, P L / 8 at the ends */
    frame_make(&f, (double[]){0, 0.3, 0.6}, 3, 50, &stiff_in_shear);
    clamp(&f, 0);
    clamp(&f, 0.6);
    push(&f, 0.3, -100, 0);
    solve(&f);
    assert_close(rise(&f, 0.3), -100 * pow(0.6, 3) / (192 * 1400), 1e-9);
    assert_close(f.forces.flap_nm[1], -100 * 0.6 / 8, 1e-9);
    pl_arena_free(&f.arena);
    /* propped cantilever under an end prop, load in the middle: prop 5/16 P */
    frame_make(&f, (double[]){0, 0.3, 0.6}, 3, 50, &stiff_in_shear);
    clamp(&f, 0);
    pin(&f, 0.6);
    push(&f, 0.3, -100, 0);
    solve(&f);
    assert_close(reaction(&f, 1).z_n, 100 * 5.0 / 16, 1e-9);
    assert_close(reaction(&f, 0).flap_nm, 100 * 0.6 * 3.0 / 16, 1e-9);
    pl_arena_free(&f.arena);
}

static void a_push_behind_the_shear_centre_twists_and_gives_more(void **state)
{
    (void)state;
    struct frame f;
    /* F4.7: EI 1400, L 0.47, 0.05 behind, GJ 1000: 1/k = L3/3EI + e2 L/GJ, k 38.62 kN/m; 6 kg at 1.1 m/s: 529.5 N */
    frame_make(&f, (double[]){0, 0.47}, 2, 50, &stiff_in_shear);
    clamp(&f, 0);
    push(&f, 0.47, 1, 0.05);
    solve(&f);
    double give = pl_beam_rise_m(&f.d, f.beam.count - 1, 0.05);
    assert_close(1 / give, 38.62e3, 1e-4);
    assert_close(1.1 * sqrt(6 / give), 529.5, 2e-4);
    /* up behind the centre turns the nose down */
    assert_close(f.d.twist_rad[f.beam.count - 1], -0.05 * 0.47 / 1000, 1e-9);
    pl_arena_free(&f.arena);
    frame_make(&f, (double[]){0, 0.47}, 2, 50, &usual);
    clamp(&f, 0);
    struct pl_force torque = {.roll_nm = 50};
    pl_load_point(&f.beam, f.beam.count - 1, 0.47, &torque, &f.forces);
    solve(&f);
    assert_close(f.d.twist_rad[f.beam.count - 1] * 180 / M_PI, 1.346, 4e-4);  /* F7.4 */
    pl_arena_free(&f.arena);
}

static void sweep_of_the_shear_centre_turns_shear_into_torque(void **state)
{
    (void)state;
    struct frame f;
    double tan_sweep = 0.3, l = 0.5;
    frame_make(&f, (double[]){0, 0.5}, 2, 400, &stiff_in_shear);
    for (size_t c = 0; c < f.beam.count; c++)
        f.beam.x_centre_m[c] = tan_sweep * f.beam.y_m[c];
    clamp(&f, 0);
    push(&f, l, 100, tan_sweep * l);
    solve(&f);
    /* torque P (x(y) - x(L)): twist -P tan L2 / 2 GJ; the tip's own point rises by P L3/3 (1/EI + tan2/GJ) */
    assert_close(f.d.twist_rad[f.beam.count - 1], -100 * tan_sweep * l * l / (2 * 1000), 1e-6);
    assert_close(pl_beam_rise_m(&f.d, f.beam.count - 1, tan_sweep * l),
                 100 * pow(l, 3) / 3 * (1.0 / 1400 + tan_sweep * tan_sweep / 1000), 1e-5);
    pl_arena_free(&f.arena);
}

static void coupled_compliance_bends_both_ways_and_twists(void **state)
{
    (void)state;
    struct frame f;
    frame_make(&f, (double[]){0, 0.4}, 2, 50, &stiff_in_shear);
    for (size_t c = 0; c < f.beam.count; c++) {
        f.beam.flap_lead[c] = 1e-5;
        f.beam.flap_twist[c] = 2e-4;
    }
    clamp(&f, 0);
    push(&f, 0.4, 100, 0);
    solve(&f);
    size_t tip = f.beam.count - 1;
    assert_close(f.d.w_m[tip], 1e-5 * 100 * 0.064 / 3, 1e-9);
    assert_close(f.d.twist_rad[tip], 2e-4 * 100 * 0.16 / 2, 1e-9);
    pl_forces_zero(&f.forces, f.beam.count);
    struct pl_force torque = {.roll_nm = 10};
    pl_load_point(&f.beam, tip, 0.4, &torque, &f.forces);
    solve(&f);
    assert_close(f.d.u_m[tip], 2e-4 * 10 * 0.16 / 2, 1e-9);
    pl_arena_free(&f.arena);
}

static void an_elliptic_load_has_the_shear_and_moment_of_the_handbook(void **state)
{
    (void)state;
    struct frame f;
    frame_make(&f, (double[]){-0.64, 0, 0.17, 0.64}, 4, 100, &usual);
    for (size_t c = 0; c < f.beam.count; c++)
        f.x_m[c] = 0.1 + 0.2 * fabs(f.beam.y_m[c]);
    pl_load_spread(&f.beam, PL_SPREAD_ELLIPTIC, 797.92, -0.64, 0.64, f.x_m, &f.forces);
    /* F4.3, unfactored: 398.96 N and 108.37 N m at the middle, 265.63 N and 51.945 N m at 0.17 */
    assert_close(f.forces.shear_z_n[cut_at(&f, 0)], 398.96, 5e-5);
    assert_close(f.forces.flap_nm[cut_at(&f, 0)], 108.37, 5e-5);
    assert_close(f.forces.shear_z_n[cut_at(&f, 0.17)], 265.63, 1e-4);
    assert_close(f.forces.flap_nm[cut_at(&f, 0.17)], 51.945, 1e-4);
    assert_close(f.forces.shear_z_n[0], 797.92, 1e-12);
    assert_close(f.forces.flap_nm[0], 797.92 * 0.64, 1e-12);
    assert_true(fabs(f.forces.shear_z_n[f.beam.count - 1]) < 1e-9);
    /* roll -integral of w x: w0 (0.1 pi s/2 + 0.2 x 2 s2/3), w0 = 4 F / (pi b) */
    double w0 = 4 * 797.92 / (M_PI * 1.28);
    assert_close(f.forces.roll_nm[0], -w0 * (0.1 * M_PI * 0.64 / 2 + 0.2 * 2 * 0.64 * 0.64 / 3), 1e-9);
    pl_forces_zero(&f.forces, f.beam.count);
    pl_load_spread(&f.beam, PL_SPREAD_EVEN, 797.92, -0.64, 0.64, f.x_m, &f.forces);
    assert_close(f.forces.flap_nm[cut_at(&f, 0)], 127.67, 1e-4);  /* F b / 8 */
    assert_close(f.forces.roll_nm[cut_at(&f, 0)], -797.92 / 2 * (0.1 + 0.2 * 0.32), 1e-9);
    pl_arena_free(&f.arena);
}

static void a_load_by_places_is_linear_in_between_and_level_beyond(void **state)
{
    (void)state;
    struct frame f;
    frame_make(&f, (double[]){-1, -0.5, 0, 0.25, 1}, 5, 100, &usual);
    static const struct pl_load_place places[] = {{-0.8, 1, 0.1}, {-0.3, 2, 0.1}, {0.3, 2, 0.4}, {0.8, 1, 0.4}};
    /* Force 2 (0.2 x 1 + 0.5 x 1.5) + 0.6 x 2 = 3.1, symmetric; torque 0.7 x 0.1 + 0.6 x 0.25 + 0.7 x 0.4 = 0.5. */
    pl_load_places(&f.beam, places, 4, &f.forces);
    assert_close(pl_load_places_total_n(places, 4, -1, 1), 3.1, 1e-12);
    assert_close(f.forces.shear_z_n[0], 3.1, 1e-12);
    assert_close(f.forces.flap_nm[0], 3.1, 1e-12);
    assert_close(f.forces.roll_nm[0], 0.5, 1e-12);
    /* Beyond 0.25: 0.05 x 2 + 0.5 x 1.5 + 0.2 = 1.05; moment 0.1 x 0.025 + 0.25 x (2 + 2 x 1) / 6 + 0.75 x 0.05 + 0.2 x 0.65. */
    assert_close(f.forces.shear_z_n[cut_at(&f, 0.25)], 1.05, 1e-12);
    assert_close(f.forces.flap_nm[cut_at(&f, 0.25)], 0.0025 + 0.25 * 4 / 6 + 0.0375 + 0.13, 1e-12);
    assert_true(fabs(f.forces.shear_z_n[f.beam.count - 1]) < 1e-12);
    pl_arena_free(&f.arena);
}

/* ---- laws ---- */

static void make_odd(struct frame *f, uint64_t *seed, bool clamped)
{
    frame_make(f, (double[]){-0.6, -0.2, 0.05, 0.25, 0.33, 0.6}, 6, 40, &usual);
    for (size_t c = 0; c < f->beam.count; c++) {
        double y = f->beam.y_m[c];
        f->beam.flap_flap[c] *= 1 + y * y;
        f->beam.flap_lead[c] = 1e-5 * (1 - y);
        f->beam.flap_twist[c] = 1.5e-4 * (1 + y);
        f->beam.lead_twist[c] = -2e-5;
        f->beam.x_centre_m[c] = 0.08 + 0.1 * fabs(y);
        f->beam.z_centre_m[c] = 0.02 - 0.03 * y;
    }
    hold(f, -0.2, clamped, chance(seed) < 0.5 ? 3000 : (double)NAN);
    hold(f, 0.25, clamped, (double)NAN);
    if (chance(seed) < 0.5)
        pin(f, 0.6);
}

static struct pl_force random_force(uint64_t *seed)
{
    return (struct pl_force){chance_between(seed, -100, 100), chance_between(seed, -50, 50),
                             chance_between(seed, -20, 20), chance_between(seed, -20, 20),
                             chance_between(seed, -30, 30)};
}

static double work(const struct pl_force *p, const struct frame *f, size_t cut)
{
    return p->z_n * f->d.u_m[cut] + p->x_n * f->d.w_m[cut] + p->flap_nm * f->d.slope_rad[cut]
           + p->lead_nm * f->d.lead_slope_rad[cut] + p->roll_nm * f->d.twist_rad[cut];
}

/* Maxwell 1864, Betti 1872: the work of one load on the way of another is that of the other on the way of the one. */
static void loads_work_on_each_others_way_alike(void **state)
{
    (void)state;
    uint64_t seed = 29;
    static const double places[] = {-0.6, 0.05, 0.33, 0.6};
    for (int i = 0; i < 60; i++) {
        struct frame f;
        make_odd(&f, &seed, i % 2);
        double at[2] = {places[(size_t)(4 * chance(&seed))], places[(size_t)(4 * chance(&seed))]}, done[2], own[2];
        struct pl_force load[2] = {random_force(&seed), random_force(&seed)};
        for (int k = 0; k < 2; k++) {
            pl_forces_zero(&f.forces, f.beam.count);
            pl_load_point(&f.beam, cut_at(&f, at[k]), at[k], &load[k], &f.forces);
            solve(&f);
            own[k] = work(&load[k], &f, cut_at(&f, at[k]));
            done[k] = work(&load[!k], &f, cut_at(&f, at[!k]));
            assert_true(own[k] > 0);
        }
        /* strains are linear from cut to cut, which spoils either way by the square of the step */
        assert_true(fabs(done[0] - done[1]) < 1e-4 * sqrt(own[0] * own[1]));
        pl_arena_free(&f.arena);
    }
}

static void reactions_balance_what_is_applied(void **state)
{
    (void)state;
    uint64_t seed = 31;
    for (int i = 0; i < 40; i++) {
        struct frame f;
        make_odd(&f, &seed, i % 2);
        double z = 0, x = 0, flap = 0, lead = 0, roll = 0;
        static const double places[] = {-0.6, -0.2, 0.05, 0.33};  /* the second is a mount */
        for (int k = 0; k < 4; k++) {
            struct pl_force p = random_force(&seed);
            pl_load_point(&f.beam, cut_at(&f, places[k]), places[k], &p, &f.forces);
            z += p.z_n, x += p.x_n, flap += p.flap_nm + p.z_n * places[k], lead += p.lead_nm + p.x_n * places[k],
                roll += p.roll_nm;
        }
        solve(&f);
        for (size_t s = 0; s < f.n_supports; s++) {
            struct pl_force r = reaction(&f, s);
            double y = f.beam.y_m[f.supports[s].left];
            z += r.z_n, x += r.x_n, flap += r.flap_nm + r.z_n * y, lead += r.lead_nm + r.x_n * y, roll += r.roll_nm;
        }
        assert_true(fabs(z) < 1e-7 && fabs(x) < 1e-7 && fabs(flap) < 1e-7 && fabs(lead) < 1e-7 && fabs(roll) < 1e-7);
        pl_arena_free(&f.arena);
    }
}

static void mounts_hold_what_they_should(void **state)
{
    (void)state;
    uint64_t seed = 37;
    for (int i = 0; i < 20; i++) {
        struct frame f;
        make_odd(&f, &seed, i % 2);
        struct pl_force p = random_force(&seed);
        pl_load_point(&f.beam, cut_at(&f, 0.05), 0.05, &p, &f.forces);
        solve(&f);
        for (size_t s = 0; s < f.n_supports; s++) {
            const struct pl_support *m = &f.supports[s];
            struct pl_force r = reaction(&f, s);
            size_t c = m->left;
            assert_true(fabs(f.d.u_m[c]) < 1e-11 && fabs(f.d.w_m[c]) < 1e-11 && fabs(f.d.twist_rad[c]) < 1e-11);
            if (m->clamped)
                assert_true(fabs(f.d.lead_slope_rad[c]) < 1e-11);
            if (pl_support_sprung(m))
                assert_close(r.flap_nm, -m->stiffness_nm_per_rad * f.d.slope_rad[c], 1e-6);
            else if (m->clamped)
                assert_true(fabs(f.d.slope_rad[c]) < 1e-11);
            else
                assert_true(fabs(r.flap_nm) < 1e-7 && fabs(r.lead_nm) < 1e-7);
        }
        pl_arena_free(&f.arena);
    }
}

static void finer_cuts_change_little(void **state)
{
    (void)state;
    double tip[3];
    static const size_t steps[] = {20, 40, 320};
    for (int i = 0; i < 3; i++) {
        struct frame f;
        frame_make(&f, (double[]){-0.64, -0.17, 0.17, 0.64}, 4, steps[i], &usual);
        clamp(&f, -0.17);
        clamp(&f, 0.17);
        pl_load_spread(&f.beam, PL_SPREAD_ELLIPTIC, -800, -0.64, 0.64, f.x_m, &f.forces);
        solve(&f);
        tip[i] = rise(&f, 0.64);
        pl_arena_free(&f.arena);
    }
    assert_close(tip[1], tip[2], 5e-4);
    /* second order: half the step, a quarter of what is missing */
    assert_close((tip[0] - tip[2]) / (tip[1] - tip[2]), 4, 0.05);
}

static void a_beam_that_gives_without_end_has_no_answer(void **state)
{
    (void)state;
    struct frame f;
    frame_make(&f, (double[]){0, 0.5}, 2, 10, &usual);
    f.beam.flap_flap[4] = HUGE_VAL;
    clamp(&f, 0);
    push(&f, 0.5, 1, 0);
    f.system = pl_beam_fix(&f.beam, f.supports, 1, &f.arena);
    assert_non_null(f.system);
    assert_int_equal(pl_beam_solve(f.system, &f.forces, &f.d), PL_NOT_CONVERGED);
    pl_arena_free(&f.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cantilever_bends_as_the_handbook_says),
        cmocka_unit_test(shear_adds_its_own_deflection),
        cmocka_unit_test(mounts_tell_the_truth_of_the_handbook),
        cmocka_unit_test(beams_on_more_mounts_have_the_reactions_of_the_textbook),
        cmocka_unit_test(a_push_behind_the_shear_centre_twists_and_gives_more),
        cmocka_unit_test(sweep_of_the_shear_centre_turns_shear_into_torque),
        cmocka_unit_test(coupled_compliance_bends_both_ways_and_twists),
        cmocka_unit_test(an_elliptic_load_has_the_shear_and_moment_of_the_handbook),
        cmocka_unit_test(a_load_by_places_is_linear_in_between_and_level_beyond),
        cmocka_unit_test(loads_work_on_each_others_way_alike),
        cmocka_unit_test(reactions_balance_what_is_applied),
        cmocka_unit_test(mounts_hold_what_they_should),
        cmocka_unit_test(finer_cuts_change_little),
        cmocka_unit_test(a_beam_that_gives_without_end_has_no_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
