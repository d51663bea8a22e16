/* The sections of a wing: totals are those of the strips, limits limit, and what is in doubt is told. */
#include "support.h"

#include "part/trial.h"

#include "plyloft/wing_sections.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DOWNFORCE "/load_cases/0"

struct solved {
    struct pl_wing_air *air;
    struct pl_wing_sections *sections;
    const struct pl_wing_strip *strips;
    const struct pl_wing_section *rows;
    size_t n;
    struct pl_wing_totals t;
    enum pl_status status;
};

static struct solved solve(void)
{
    struct solved s = {.air = pl_wing_air_new(), .sections = pl_wing_sections_new()};
    assert_true(s.air && s.sections);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    s.status = pl_wing_sections_all(s.sections, s.air, &t.part, &t.part.load_cases[0], &t.problems);
    s.strips = pl_wing_sections_strips(s.sections, &s.n);
    s.rows = pl_wing_sections_rows(s.sections);
    s.t = pl_wing_sections_totals(s.sections);
    return s;
}

static void done(struct solved *s)
{
    pl_wing_air_free(s->air);
    pl_wing_sections_free(s->sections);
}

static bool doubts(const struct solved *s, const char *words)
{
    for (size_t i = 0; i < s->t.n_doubts; i++)
        if (strstr(s->t.doubts[i], words))
            return true;
    return false;
}

static void totals_are_sums_of_the_strips(void **state)
{
    (void)state;
    struct solved s = solve();
    double q = pl_load_case_pressure_pa(&t.part.load_cases[0]), profile = 0, limited = 0;
    for (size_t i = 0; i < s.n; i++) {
        double area = 2 * s.strips[i].width_m * s.strips[i].chord_m;
        assert_true(s.rows[i].cd > 0);
        profile += q * area * s.rows[i].cd;
        limited += q * area * s.rows[i].cl_limited;
    }
    assert_close(s.t.profile_drag_n, profile, 1e-9);
    assert_close(s.t.force_limited_n, limited, 1e-9);
    assert_close(s.t.drag_n, s.t.induced_drag_n + s.t.profile_drag_n + s.t.plate_drag_n, 1e-12);
    assert_close(s.t.allowance, s.t.force_limited_n / s.t.force_n, 1e-9);  /* one element */
    done(&s);
}

static void plates_rub_on_both_sides(void **state)
{
    (void)state;
    put(&t, "/elements/0/end_plates", "{\"height_mm\": 240, \"length_mm\": 320, \"below_mm\": 50, \"x_le_mm\": -20}");
    struct solved s = solve();
    /* Four faces at Prandtl and Schlichting's friction; air of the sample at 1.81e-5 Pa s. */
    const struct pl_load_case *c = &t.part.load_cases[0];
    double reynolds = c->air_density_kg_m3 * c->speed_m_s * 0.320 / 1.81e-5, friction = 0.455 / pow(log10(reynolds), 2.58);
    assert_close(s.t.plate_drag_n, pl_load_case_pressure_pa(c) * 4 * 0.240 * 0.320 * friction, 5e-3);
    done(&s);
}

static void at_great_incidence_it_stalls_and_says_so(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/ride_height_mm", NULL);
    struct solved small = solve();
    put(&t, "/elements/0/incidence_deg", "24");
    struct solved great = solve();
    assert_true(great.t.force_limited_n < 0.8 * great.t.force_n);
    assert_true(great.t.separated > great.n / 2);
    assert_true(doubts(&great, "layer leaves"));
    assert_false(doubts(&small, "layer leaves"));
    assert_true(great.t.drag_limited_n > small.t.drag_limited_n);
    done(&small);
    done(&great);
}

static void figures_near_no_ground_are_those_of_free_air(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/ride_height_mm", NULL);
    struct solved free_air = solve();
    put(&t, DOWNFORCE "/ride_height_mm", "20000");
    struct solved high = solve();
    assert_close(high.t.force_n, free_air.t.force_n, 1e-4);
    assert_close(high.t.force_limited_n, free_air.t.force_limited_n, 5e-3);
    assert_close(high.t.profile_drag_n, free_air.t.profile_drag_n, 1e-3);
    done(&free_air);
    done(&high);
}

static void low_and_slow_wings_are_in_doubt(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/ride_height_mm", "12");
    put(&t, DOWNFORCE "/speed_kmh", "40");
    struct solved s = solve();
    assert_true(doubts(&s, "below 0.2 chord"));
    assert_true(doubts(&s, "Reynolds number below"));
    done(&s);
}

static void without_incidence_or_camber_nothing_pushes(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/ride_height_mm", NULL);
    put(&t, "/profiles/0/naca", "\"0012\"");
    put(&t, "/elements/0/incidence_deg", "0");
    put(&t, "/elements/0/stations/2/twist_deg", "0");
    struct solved s = solve();
    assert_int_equal(s.status, PL_OK);
    assert_true(fabs(s.t.force_n) < 1e-6 && fabs(s.t.force_limited_n) < 0.05);
    assert_true(isnan(s.t.allowance));
    assert_true(s.t.drag_limited_n > 0);
    done(&s);
}

/* Whatever the part, figures are finite, or there is a sentence. */
static void odd_wings_have_finite_figures(void **state)
{
    (void)state;
    static const struct { const char *pointer, *json; } odd[] = {
        {"/elements/0/incidence_deg", "75"}, {"/elements/0/incidence_deg", "-40"}, {"/elements/0/inverted", "false"}, {DOWNFORCE "/speed_kmh", "1"},
        {DOWNFORCE "/air_density_kgm3", "0.01"}, {"/elements/0/stations/2/chord_mm", "1"}, {"/profiles/0/naca", "\"0001\""}, {"/profiles/0/naca", "\"9440\""},
    };
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        put(&t, odd[i].pointer, odd[i].json);
        trial_build(&t);
        if (t.status != PL_OK)
            continue;
        struct solved s = solve();
        if (s.status == PL_OK)
            assert_true(isfinite(s.t.force_n) && isfinite(s.t.drag_n) && isfinite(s.t.force_limited_n) && isfinite(s.t.drag_limited_n) && s.t.drag_n >= 0);
        else
            assert_non_null(pl_problems_first_error(&t.problems));
        done(&s);
    }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(totals_are_sums_of_the_strips),
        TRIAL(plates_rub_on_both_sides),
        TRIAL(at_great_incidence_it_stalls_and_says_so),
        TRIAL(figures_near_no_ground_are_those_of_free_air),
        TRIAL(low_and_slow_wings_are_in_doubt),
        TRIAL(without_incidence_or_camber_nothing_pushes),
        TRIAL(odd_wings_have_finite_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
