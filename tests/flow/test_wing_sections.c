/* Sections on the strips of a wing: sums, limits of thickness, ground and Reynolds number, mirrors, scales, and what is said. */
#include "support.h"

#include "part/parts.h"

#include "plyloft/strip_air.h"
#include "plyloft/wing_sections.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Parts are built from a file and then changed as structs: what the flow reads, and nothing else. */
struct wing {
    struct trial t;
    struct pl_wing_air *air;
    struct pl_wing_sections *sections;
    struct pl_problems problems;
};

static void open_part(struct wing *w, const char *path)
{
    trial_close(&w->t);
    trial_open(&w->t, path);
    trial_build(&w->t);
    assert_int_equal(w->t.status, PL_OK);
}

static int set_up(void **state)
{
    struct wing *w = calloc(1, sizeof *w);
    assert_non_null(w);
    w->air = pl_wing_air_new();
    w->sections = pl_wing_sections_new();
    assert_non_null(w->air);
    assert_non_null(w->sections);
    open_part(w, SAMPLE_PART);
    *state = w;
    return 0;
}

static int take_down(void **state)
{
    struct wing *w = *state;
    pl_problems_free(&w->problems);
    pl_wing_sections_free(w->sections);
    pl_wing_air_free(w->air);
    trial_close(&w->t);
    free(w);
    return 0;
}

static struct pl_element *element(struct wing *w) { return &w->t.part.elements[0]; }
static struct pl_load_case *load_case(struct wing *w) { return &w->t.part.load_cases[0]; }
static void rename_profile(struct wing *w, const char *naca) { w->t.part.profiles[0].naca = naca; }

static enum pl_status try_to_solve(struct wing *w)
{
    pl_problems_clear(&w->problems);
    return pl_wing_sections_all(w->sections, w->air, &w->t.part, load_case(w), &w->problems);
}

static struct pl_wing_totals solve(struct wing *w)
{
    assert_int_equal(try_to_solve(w), PL_OK);
    return pl_wing_sections_totals(w->sections);
}

static bool is_said(const struct pl_wing_totals *t, const char *words)
{
    for (size_t i = 0; i < t->n_doubts; i++)
        if (strstr(t->doubts[i], words))
            return true;
    return false;
}

/* ---- sums ---- */

static void totals_are_the_sums_of_the_strips(void **state)
{
    struct wing *w = *state;
    struct pl_wing_totals t = solve(w);
    struct pl_wing_figures f = pl_wing_sections_figures(w->sections);
    const struct pl_wing_section *rows = pl_wing_sections_rows(w->sections);
    double q = 0.5 * load_case(w)->air_density_kg_m3 * pow(load_case(w)->speed_m_s, 2), lift = 0, drag = 0, limited = 0;
    size_t n;
    const struct pl_wing_strip *s = pl_wing_sections_strips(w->sections, &n);
    for (size_t i = 0; i < n; i++) {
        double both_m2 = 2 * s[i].width_m * s[i].chord_m;
        assert_true(rows[i].cd > 0.004 && rows[i].cd < 0.02);
        lift += both_m2 * s[i].cl;
        drag += both_m2 * rows[i].cd;
        limited += both_m2 * rows[i].cl_limited;
    }
    assert_close(t.force_n, q * lift, 1e-12);
    assert_close(t.force_n, q * f.area_m2 * f.lift, 1e-12);
    assert_close(t.profile_drag_n, q * drag, 1e-12);
    assert_close(t.profile_drag, drag / f.area_m2, 1e-12);
    assert_close(t.induced_drag_n, q * f.area_m2 * f.induced_drag, 1e-12);
    assert_close(t.drag_n, t.induced_drag_n + t.profile_drag_n, 1e-12);  /* it has no plates */
    assert_close(t.force_limited_n, q * limited, 1e-12);
    assert_close(t.allowance, limited / lift, 1e-12);
    assert_int_equal(t.n_doubts, 0);
}

static void plates_rub_on_both_sides(void **state)
{
    struct wing *w = *state;
    open_part(w, "samples/rear-wing.json");
    /* 220 x 330 mm at 50 m/s in 1.27 kg/m3: Re = 1.27 x 50 x 0.33 / 1.81e-5 = 1157735, its logarithm 6.06361, to the power 2.58
     * 104.634; 0.455 / 104.634 = 0.0043485, by 4 x 0.22 x 0.33 m2 and 1587.5 Pa. */
    assert_close(solve(w).plate_drag_n, 2.0047, 1e-3);
}

static void the_factor_of_the_case_is_left_out(void **state)
{
    struct wing *w = *state;
    struct pl_wing_totals once = solve(w);
    load_case(w)->factor *= 3;
    struct pl_wing_totals again = solve(w);
    assert_close(again.force_n, once.force_n, 1e-12);
    assert_close(again.drag_limited_n, once.drag_limited_n, 1e-12);
}

/* ---- the section of a strip ---- */

static double drag_of(struct wing *w, size_t profile, const struct pl_wing_strip *s)
{
    struct pl_strip_air *air;
    struct pl_strip_drag drag;
    double reynolds = load_case(w)->air_density_kg_m3 * load_case(w)->speed_m_s * s->chord_m / 1.81e-5;
    assert_int_equal(pl_strip_air_start(&air, &w->t.part.profiles[profile], 200, PL_WING_CHORDWISE, &w->problems), PL_OK);
    assert_int_equal(pl_strip_air_drag(air, s->cl, reynolds, &drag, &w->problems), PL_OK);
    pl_strip_air_free(air);
    return drag.cd;
}

static void between_two_profiles_their_drags_are_mixed(void **state)
{
    struct wing *w = *state;
    struct pl_profile both[2] = {w->t.part.profiles[0], {.name = "tip", .naca = "2418"}}, *own = w->t.part.profiles;
    w->t.part.profiles = both;
    w->t.part.n_profiles = 2;
    element(w)->stations[2].profile = 1;
    solve(w);
    size_t n;
    const struct pl_wing_strip *s = pl_wing_sections_strips(w->sections, &n);
    for (size_t i = 2; i < n; i += 12) {
        double share = fmax(0, (s[i].y_m - 0.170) / 0.470), want = (1 - share) * drag_of(w, 0, &s[i]) + share * drag_of(w, 1, &s[i]);
        assert_close(pl_wing_sections_rows(w->sections)[i].cd, want, 1e-9);
    }
    w->t.part.profiles = own;
    w->t.part.n_profiles = 1;
}

static void faster_air_has_the_lift_squared_and_less_friction(void **state)
{
    struct wing *w = *state;
    struct pl_wing_totals slow = solve(w);
    load_case(w)->speed_m_s *= 2;
    struct pl_wing_totals fast = solve(w);
    assert_close(fast.force_n, 4 * slow.force_n, 1e-12);
    assert_close(fast.induced_drag_n, 4 * slow.induced_drag_n, 1e-12);
    /* Turbulent friction goes with the Reynolds number to about -1/6, laminar with -1/2: twice of it from 0.89 to 0.71. */
    assert_true(fast.profile_drag > 0.7 * slow.profile_drag && fast.profile_drag < 0.95 * slow.profile_drag);
    assert_true(fast.allowance > slow.allowance);  /* thinner layers leave more */
}

/* ---- limits ---- */

static void a_section_of_next_to_no_thickness_has_the_lift_of_the_lattice(void **state)
{
    struct wing *w = *state;
    load_case(w)->ride_height_m = (double)NAN;
    load_case(w)->speed_m_s = 277;
    load_case(w)->air_density_kg_m3 = 10;  /* Re = 4e7: little is left of the layers */
    rename_profile(w, "0001");
    assert_close(solve(w).allowance, 1, 5e-3);
    /* Thickness t adds about 0.77 t (Abbott and von Doenhoff): 0.062 from 4 to 12 %, of which layers take a part. */
    element(w)->incidence_rad = 0.5 * M_PI / 180;
    rename_profile(w, "2404");
    double thin = solve(w).allowance;
    rename_profile(w, "2412");
    double thick = solve(w).allowance;
    assert_true(thick - thin > 0.04 && thick - thin < 0.062);
}

static void ground_far_below_is_free_air(void **state)
{
    struct wing *w = *state;
    load_case(w)->ride_height_m = (double)NAN;
    struct pl_wing_totals in_free_air = solve(w);
    load_case(w)->ride_height_m = 1000;
    struct pl_wing_totals far = solve(w);
    assert_close(far.force_n, in_free_air.force_n, 1e-5);
    assert_close(far.drag_n, in_free_air.drag_n, 1e-4);
    assert_close(far.allowance, in_free_air.allowance, 1e-4);
    load_case(w)->ride_height_m = 0.1;
    assert_true(solve(w).force_n > 1.05 * far.force_n);
}

static void a_wing_in_stall_has_less_than_the_lattice_says(void **state)
{
    struct wing *w = *state;
    load_case(w)->ride_height_m = (double)NAN;
    element(w)->incidence_rad = 16 * M_PI / 180;
    struct pl_wing_totals t = solve(w);
    assert_true(t.allowance < 0.9 && t.allowance > 0.5);
    assert_true(t.separated > 0);
    assert_true(is_said(&t, "the layer leaves some sections"));
    size_t n;
    const struct pl_wing_strip *s = pl_wing_sections_strips(w->sections, &n);
    double sections_m2 = 0;
    for (size_t i = 0; i < n; i++) {
        const struct pl_wing_section *row = &pl_wing_sections_rows(w->sections)[i];
        assert_true(row->cl_limited <= s[i].cl);
        assert_true(row->cd_limited >= row->cd);
        sections_m2 += 2 * s[i].width_m * s[i].chord_m * row->cd_limited;
    }
    /* The same wing with less lift has less induced drag by the square of it. */
    double induced_n = t.induced_drag_n * t.allowance * t.allowance;
    assert_close(t.drag_limited_n, induced_n + pl_load_case_pressure_pa(load_case(w)) * sections_m2, 1e-9);
    element(w)->incidence_rad = 8 * M_PI / 180;
    assert_true(solve(w).allowance > t.allowance);
}

/* ---- mirrors and scales ---- */

static void an_upright_wing_is_the_inverted_one_seen_in_a_mirror(void **state)
{
    struct wing *w = *state;
    load_case(w)->ride_height_m = (double)NAN;
    struct pl_wing_totals down = solve(w);
    element(w)->inverted = false;
    for (size_t i = 0; i < element(w)->n_stations; i++)
        element(w)->stations[i].z_le_m *= -1;
    struct pl_wing_totals up = solve(w);
    assert_close(up.force_n, -down.force_n, 1e-9);
    assert_close(up.drag_n, down.drag_n, 1e-9);
    assert_close(up.force_limited_n, -down.force_limited_n, 1e-9);
    assert_close(up.drag_limited_n, down.drag_limited_n, 1e-9);
    assert_close(up.centre_limited_m, down.centre_limited_m, 1e-9);
}

static void twice_the_size_at_half_the_speed_has_the_same_forces(void **state)
{
    struct wing *w = *state;
    struct pl_wing_totals small = solve(w);
    for (size_t i = 0; i < element(w)->n_stations; i++) {
        struct pl_station *s = &element(w)->stations[i];
        *s = (struct pl_station){2 * s->y_m, 2 * s->chord_m, 2 * s->x_le_m, 2 * s->z_le_m, s->twist_rad, s->profile};
    }
    load_case(w)->ride_height_m *= 2;
    load_case(w)->speed_m_s /= 2;  /* the same Reynolds number; four times the area at a quarter of the pressure */
    struct pl_wing_totals large = solve(w);
    assert_close(large.force_n, small.force_n, 1e-8);
    assert_close(large.drag_n, small.drag_n, 1e-8);
    assert_close(large.allowance, small.allowance, 1e-8);
    assert_close(large.centre_limited_m, 2 * small.centre_limited_m, 1e-8);
}

/* A second one 100 m above, in stall. */
static void the_allowance_is_that_of_the_case_s_own_element(void **state)
{
    struct wing *w = *state;
    struct pl_element both[2] = {*element(w), *element(w)}, *own = w->t.part.elements;
    struct pl_station far[3];
    memcpy(far, both[0].stations, sizeof far);
    for (size_t i = 0; i < 3; i++)
        far[i].z_le_m += 100;
    both[1].stations = far;
    both[1].incidence_rad = 18 * M_PI / 180;
    struct pl_wing_totals alone = solve(w);
    w->t.part.elements = both;
    w->t.part.n_elements = 2;
    struct pl_wing_totals together = solve(w);
    assert_close(together.allowance, alone.allowance, 5e-3);  /* another number of panels */
    assert_true(together.force_limited_n / together.force_n < 0.95 * alone.allowance);
    w->t.part.elements = own;
    w->t.part.n_elements = 1;
}

/* ---- what is said, and what is refused ---- */

static void doubts_are_told_where_they_hold(void **state)
{
    struct wing *w = *state;
    load_case(w)->ride_height_m = 0.015;  /* of the lowest point; the trailing edge, which is meant, is 0.141 chord higher */
    struct pl_wing_totals t = solve(w);
    assert_true(is_said(&t, "below 0.2 chord"));
    load_case(w)->ride_height_m = 0.070;
    load_case(w)->speed_m_s = 15;  /* Re = 1.19 x 15 x 0.275 / 1.81e-5 = 271,000 at the root */
    t = solve(w);
    assert_true(is_said(&t, "Reynolds number below 300,000"));
    assert_false(is_said(&t, "below 0.2 chord"));
    element(w)->inverted = false;
    load_case(w)->ride_height_m = 0.2;
    t = solve(w);
    assert_true(is_said(&t, "not inverted"));
}

static void check_finite(struct wing *w)
{
    struct pl_wing_totals t = solve(w);
    assert_true(isfinite(t.force_n) && isfinite(t.force_limited_n) && isfinite(t.allowance));
    assert_true(isfinite(t.drag_n) && t.drag_n > 0 && isfinite(t.drag_limited_n) && t.drag_limited_n > 0);
    size_t n;
    pl_wing_sections_strips(w->sections, &n);
    for (size_t i = 0; i < n; i++) {
        const struct pl_wing_section *row = &pl_wing_sections_rows(w->sections)[i];
        assert_true(isfinite(row->cl_limited) && row->cd > 0 && isfinite(row->cd) && row->cd_limited >= row->cd);
    }
}

static void extremes_have_figures(void **state)
{
    /* Height 0: free air. */
    static const struct { double incidence_deg, speed_m_s, height_m; const char *naca; } trials[] = {
        {30, 57, 0.07, "6412"}, {-30, 57, 0, "6412"}, {89, 57, 0, "6412"}, {2, 0.01, 0.07, "6412"}, {2, 277, 0.005, "6412"},
        {2, 57, 0.07, "0001"}, {20, 57, 0, "2401"}, {2, 57, 0.07, "9440"}, {10, 57, 0.1, "25021"},
    };
    struct wing *w = *state;
    for (size_t i = 0; i < sizeof trials / sizeof *trials; i++) {
        element(w)->incidence_rad = trials[i].incidence_deg * M_PI / 180;
        load_case(w)->speed_m_s = trials[i].speed_m_s;
        load_case(w)->ride_height_m = trials[i].height_m > 0 ? trials[i].height_m : (double)NAN;
        rename_profile(w, trials[i].naca);
        check_finite(w);
    }
}

static void an_outline_too_thin_is_refused_and_the_next_wing_is_not(void **state)
{
    static struct pl_point leaf[] = {{1, 0}, {0.5, 0.001}, {0, 0}, {0.5, -0.001}, {1, 0}};
    struct wing *w = *state;
    struct pl_profile *p = &w->t.part.profiles[0], own = *p;
    struct pl_wing_totals before = solve(w);
    *p = (struct pl_profile){.name = "leaf", .points = leaf, .n_points = 5};
    assert_int_equal(try_to_solve(w), PL_BAD_INPUT);
    assert_int_equal(w->problems.errors, 1);
    assert_non_null(strstr(w->problems.list[0].rule, "too thin"));
    *p = own;
    assert_close(solve(w).force_limited_n, before.force_limited_n, 1e-12);
}

static void slices_are_many_and_come_to_the_same(void **state)
{
    struct wing *w = *state;
    double whole = solve(w).drag_limited_n;
    struct pl_wing_air_view view;
    size_t slices = 0;
    assert_int_equal(pl_wing_air_find(w->air, &w->t.part, load_case(w), &view, &w->problems), PL_OK);
    assert_int_equal(pl_wing_sections_aim(w->sections, &w->t.part, load_case(w), &view), PL_OK);
    while (pl_wing_sections_step(w->sections, &w->problems))
        slices++;
    assert_int_equal(pl_wing_sections_status(w->sections), PL_OK);
    assert_true(slices > 10);
    assert_close(pl_wing_sections_totals(w->sections).drag_limited_n, whole, 1e-12);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(totals_are_the_sums_of_the_strips),
        TRIAL(plates_rub_on_both_sides),
        TRIAL(the_factor_of_the_case_is_left_out),
        TRIAL(between_two_profiles_their_drags_are_mixed),
        TRIAL(faster_air_has_the_lift_squared_and_less_friction),
        TRIAL(a_section_of_next_to_no_thickness_has_the_lift_of_the_lattice),
        TRIAL(ground_far_below_is_free_air),
        TRIAL(a_wing_in_stall_has_less_than_the_lattice_says),
        TRIAL(an_upright_wing_is_the_inverted_one_seen_in_a_mirror),
        TRIAL(twice_the_size_at_half_the_speed_has_the_same_forces),
        TRIAL(the_allowance_is_that_of_the_case_s_own_element),
        TRIAL(doubts_are_told_where_they_hold),
        TRIAL(extremes_have_figures),
        TRIAL(an_outline_too_thin_is_refused_and_the_next_wing_is_not),
        TRIAL(slices_are_many_and_come_to_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
