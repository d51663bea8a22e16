/* Strips of a wing as sections: drag against the contract's wing and the polar's rows, lift against mean line and panels. */
#include "flows.h"

#include "plyloft/profile.h"
#include "plyloft/strip_air.h"
#include "plyloft/thin_section.h"

enum { CHORDWISE = 12 };

static const double free_air = (double)NAN;

static struct pl_profile naca(const char *designation)
{
    return (struct pl_profile){.name = "section", .naca = designation};
}

static struct pl_strip_air *air_of(const char *designation)
{
    struct pl_profile profile = naca(designation);
    struct pl_problems problems = {0};
    struct pl_strip_air *air;
    if (pl_strip_air_start(&air, &profile, PL_POLAR_PANELS, CHORDWISE, &problems) != PL_OK)
        fail_msg("%s: %s", designation, problems.list[0].rule);
    pl_problems_free(&problems);
    return air;
}

static struct pl_strip_drag drag_of(struct pl_strip_air *air, double cl, double reynolds)
{
    struct pl_problems problems = {0};
    struct pl_strip_drag d;
    if (pl_strip_air_drag(air, cl, reynolds, &d, &problems) != PL_OK)
        fail_msg("cl %g: %s", cl, problems.list[0].rule);
    pl_problems_free(&problems);
    return d;
}

static struct pl_strip_lift lift_of(struct pl_strip_air *air, double cl_lattice, double reynolds, double height)
{
    struct pl_problems problems = {0};
    struct pl_strip_lift l;
    if (pl_strip_air_lift(air, cl_lattice, reynolds, height, &l, &problems) != PL_OK)
        fail_msg("cl %g at %g: %s", cl_lattice, height, problems.list[0].rule);
    pl_problems_free(&problems);
    return l;
}

static struct pl_polar_row row_of(const char *designation, double reynolds, double height, double alpha_deg)
{
    struct pl_profile profile = naca(designation);
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    struct pl_polar_row row;
    assert_int_equal(pl_polar_start(&polar, &profile, reynolds, height, PL_POLAR_PANELS, &problems), PL_OK);
    assert_int_equal(pl_polar_row(polar, alpha_deg, &row, &problems), PL_OK);
    pl_polar_free(polar);
    pl_problems_free(&problems);
    return row;
}

/* ---- drag ---- */

static void the_front_wing_has_the_contract_s_profile_drag(void **state)
{
    (void)state;
    /* front-wing.flow-expect.json beside the contract, flow --case "top speed": cl of the strips from the centreline outward,
     * and the integral of cd c dy over the plan area, 0.0091910403, by another method.  6412; 205 km/h in air of 1.19 kg/m3 and
     * 1.81e-5 Pa s; chord 275 mm to y = 170, then to 230 at 640.  Strips at the sines of equal angles.  0.5 % below it here. */
    static const double cl[] = {
        1.075684, 1.072871, 1.0672285, 1.0587176, 1.0472448, 1.0326932, 1.0222257, 1.0082504, 0.99147308, 0.97207215, 0.9501978,
        0.92598465, 0.89955563, 0.87102484, 0.84050025, 0.80808555, 0.77387908, 0.73797306, 0.70045097, 0.66138463, 0.62083291,
        0.57884339, 0.53546021, 0.49074336, 0.44480096, 0.39784877, 0.35032349, 0.30312984, 0.25824149, 0.22043625, 0.20425249,
        0.28151204};
    enum { STRIPS = sizeof cl / sizeof *cl };
    struct pl_strip_air *air = air_of("6412");
    double sum_m2 = 0, area_m2 = 0.170 * 0.275 + 0.470 * 0.5 * (0.275 + 0.230);
    for (int i = 0; i < STRIPS; i++) {
        double turn = M_PI_2 / STRIPS, width_m = 0.640 * (sin(turn * (i + 1)) - sin(turn * i)), y_m = 0.640 * sin(turn * (i + 0.5));
        double chord_m = y_m < 0.170 ? 0.275 : 0.275 - 0.045 * (y_m - 0.170) / 0.470;
        struct pl_strip_drag d = drag_of(air, cl[i], 1.19 * (205 / 3.6) * chord_m / 1.81e-5);
        assert_false(d.separated || d.beyond);
        sum_m2 += d.cd * chord_m * width_m;
    }
    assert_close(sum_m2 / area_m2, 0.0091910403, 0.02);
    pl_strip_air_free(air);
}

static void drag_is_that_of_the_polar_where_it_has_the_lift(void **state)
{
    (void)state;
    static const char *const names[] = {"0012", "6412", "23012", "4406"};
    for (int i = 0; i < 4; i++) {
        struct pl_strip_air *air = air_of(names[i]);
        for (double cl = -0.5; cl < 1.7; cl += 0.3) {
            double reynolds = 5e5 * (1 + fabs(cl));
            struct pl_strip_drag d = drag_of(air, cl, reynolds);
            struct pl_polar_row row = row_of(names[i], reynolds, free_air, d.alpha_deg);
            assert_false(d.beyond);
            assert_near(d.cl, cl, 1e-9);
            assert_near(row.cl_potential, cl, 1e-9);
            assert_near(d.cd, row.cd, 1e-12);
            assert_near(d.turbulent_from_upper, row.turbulent_from_upper, 1e-9);
            assert_near(d.turbulent_from_lower, row.turbulent_from_lower, 1e-9);
            assert_int_equal(d.separated, row.separated);
        }
        pl_strip_air_free(air);
    }
}

static void upside_down_a_symmetric_section_has_the_same_drag(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("0015");
    for (double cl = 0; cl < 1.3; cl += 0.4) {
        struct pl_strip_drag up = drag_of(air, cl, 8e5), down = drag_of(air, -cl, 8e5);
        assert_near(up.alpha_deg, -down.alpha_deg, 1e-7);
        assert_close(down.cd, up.cd, 1e-6);
        assert_near(down.turbulent_from_upper, up.turbulent_from_lower, 1e-6);
    }
    pl_strip_air_free(air);
}

static void a_lift_that_no_incidence_has_gets_the_nearer_end(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("0012");
    struct pl_strip_drag high = drag_of(air, 4, 1e6), higher = drag_of(air, 1e12, 1e6), low = drag_of(air, -4, 1e6);
    assert_true(high.beyond && higher.beyond && low.beyond);
    assert_near(high.alpha_deg, 30, 1e-9);
    assert_near(low.alpha_deg, -30, 1e-9);
    assert_true(high.cl < 4 && higher.cl == high.cl && higher.cd == high.cd && high.separated);
    assert_close(high.cl, row_of("0012", 1e6, free_air, 30).cl_potential, 1e-12);
    /* What that end itself carries is not beyond. */
    assert_false(drag_of(air, 0.9999 * high.cl, 1e6).beyond);
    pl_strip_air_free(air);
}

static void drag_is_finite_at_any_reynolds_number(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("6412");
    for (double reynolds = 1; reynolds < 1e10; reynolds *= 30)
        for (double cl = -3; cl <= 5; cl += 1) {
            struct pl_strip_drag d = drag_of(air, cl, reynolds);
            assert_true(isfinite(d.cd) && d.cd > 0 && isfinite(d.alpha_deg) && isfinite(d.cl));
            assert_between(d.turbulent_from_upper, 0, 1);
            assert_between(d.turbulent_from_lower, 0, 1);
        }
    pl_strip_air_free(air);
}

/* ---- lift ---- */

/* Of a mean line at an incidence, as a lattice would say it. */
static double thin_lift(const char *designation, double alpha_deg, double height)
{
    struct pl_profile profile = naca(designation);
    struct pl_thin_section *s = pl_thin_section_new(&profile, CHORDWISE);
    assert_non_null(s);
    double lift = pl_thin_section_lift(s, alpha_deg * degree, height);
    pl_thin_section_free(s);
    return lift;
}

static void thickness_adds_a_twentieth_in_free_air_and_a_fifth_near_the_ground(void **state)
{
    (void)state;
    /* 4406 against 4401, which have one mean line, at 3 degrees: +5 % in free air, +22 % with the edge at 0.3.  Against the mean
     * line itself, which 4401 exceeds by 1 and 3.5 %: +6 and +26 %. */
    static const struct { double height, over_thin_one, over_line; } rows[] = {{(double)NAN, 1.05, 1.06}, {0.3, 1.22, 1.26}};
    struct pl_strip_air *six = air_of("4406"), *one = air_of("4401");
    for (int i = 0; i < 2; i++) {
        double cl = thin_lift("4406", 3, rows[i].height);
        struct pl_strip_lift thick = lift_of(six, cl, 6e5, rows[i].height), thin = lift_of(one, cl, 6e5, rows[i].height);
        assert_near(thick.alpha_deg, 3, 1e-6);
        assert_near(thin.alpha_deg, 3, 1e-6);
        assert_near(thick.cl_thick / thin.cl_thick, rows[i].over_thin_one, 0.005);
        assert_near(thick.cl_thick / thick.cl_lattice, rows[i].over_line, 0.005);
    }
    pl_strip_air_free(six);
    pl_strip_air_free(one);
}

static void lift_is_the_polar_s_row_where_the_mean_line_carries_the_strip_s(void **state)
{
    (void)state;
    static const double heights[] = {(double)NAN, 0.8, 0.4};
    struct pl_strip_air *air = air_of("6412");
    for (int i = 0; i < 3; i++)
        for (double alpha = -4; alpha <= 6; alpha += 5) {
            struct pl_strip_lift l = lift_of(air, thin_lift("6412", alpha, heights[i]), 7e5, heights[i]);
            struct pl_polar_row row = row_of("6412", 7e5, heights[i], l.alpha_deg);
            assert_near(l.alpha_deg, alpha, 1e-6);
            assert_near(l.cl_thick, row.cl_potential, 1e-9);
            assert_near(l.cl_limited, row.cl, 1e-9);
            assert_near(l.cd, row.cd, 1e-12);
            assert_int_equal(l.separated, row.separated);
            assert_int_equal(l.settled, row.settled);
            if (fabs(l.cl_lattice) >= PL_STRIP_LEAST_CL)
                assert_near(l.scale, row.cl / l.cl_lattice, 1e-9);
        }
    pl_strip_air_free(air);
}

static void an_answer_does_not_depend_on_those_before(void **state)
{
    (void)state;
    static const double cl[] = {1.6, -0.4, 0.8}, heights[] = {0.5, (double)NAN, 0.35}, reynolds[] = {4e5, 9e5, 6e5};
    struct pl_strip_air *used = air_of("4412");
    for (int i = 0; i < 9; i++) {
        int k = i % 3, m = i / 3;
        struct pl_strip_air *fresh = air_of("4412");
        struct pl_strip_lift a = lift_of(used, cl[k], reynolds[m], heights[m]), b = lift_of(fresh, cl[k], reynolds[m], heights[m]);
        struct pl_strip_drag c = drag_of(used, cl[k], reynolds[m]), d = drag_of(fresh, cl[k], reynolds[m]);
        assert_true(a.cl_limited == b.cl_limited && a.cl_thick == b.cl_thick && a.alpha_deg == b.alpha_deg && a.cd == b.cd);
        assert_true(c.cd == d.cd && c.alpha_deg == d.alpha_deg);
        pl_strip_air_free(fresh);
    }
    pl_strip_air_free(used);
}

static void a_strip_asked_for_too_much_is_limited(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("2412");
    struct pl_strip_lift easy = lift_of(air, 0.4, 6e6, free_air), hard = lift_of(air, 2.2, 6e6, free_air);
    /* 2412 at 6e6 has a greatest lift of about 1.6 (NACA report 824); the lattice would let it carry 2.2. */
    assert_between(easy.scale, 0.93, 1.06);
    assert_false(easy.limited || easy.separated || easy.beyond || easy.touches);
    assert_int_equal(easy.n_doubts, 0);
    assert_between(hard.cl_limited, 1, 1.75);
    assert_between(hard.scale, 0.45, 0.8);
    assert_true(hard.limited && hard.separated);
    assert_true(hard.cl_thick > 2.2);
    assert_int_equal(hard.doubts[0].mark, 's');
    pl_strip_air_free(air);
}

static void a_strip_with_hardly_any_lift_keeps_it(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("6412");
    for (double cl = -0.0999; cl < PL_STRIP_LEAST_CL; cl += 0.03) {
        struct pl_strip_lift l = lift_of(air, cl, 6e5, 0.7);
        assert_true(l.scale == 1);
        /* The section's own is there all the same: a few hundredths beside. */
        assert_near(l.cl_limited, cl, 0.15);
    }
    assert_true(lift_of(air, 0.11, 6e5, 0.7).scale != 1);
    pl_strip_air_free(air);
}

static void lift_beyond_any_incidence_gets_the_end(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("0012");
    struct pl_strip_lift l = lift_of(air, 5, 1e6, free_air);
    assert_true(l.beyond && l.limited && !l.touches);
    assert_near(l.alpha_deg, PL_THIN_MOST_DEG, 1e-9);
    assert_close(l.scale, l.cl_limited / 5, 1e-12);
    assert_true(lift_of(air, -5, 1e6, 0.5).beyond);
    pl_strip_air_free(air);
}

/* Nothing but the refusal: no figure, and a scale that changes nothing. */
static void assert_no_figures(const struct pl_strip_lift *l)
{
    assert_true(isnan(l->alpha_deg) && isnan(l->cl_thick) && isnan(l->cl_limited) && isnan(l->cd));
    assert_true(l->scale == 1 && l->n_doubts == 0);
}

static void a_section_in_the_ground_has_no_figures(void **state)
{
    (void)state;
    /* The mean line itself in it; or only the thickness, which puts the lower surface of 0018 in line 0.09 below the edge, and
     * 0.026 more at the incidence of 2.1 degrees that this takes, while the mean line stands 0.037 below it at most. */
    static const struct { const char *name; double cl, height; } cases[] = {
        {"6412", 1e6, 0.3}, {"6412", 0.5, 0.02}, {"6412", 0.5, -1}, {"0018", 0.9, 0.1}};
    for (int i = 0; i < 4; i++) {
        struct pl_strip_air *air = air_of(cases[i].name);
        struct pl_problems problems = {0};
        struct pl_strip_lift l;
        assert_int_equal(pl_strip_air_lift(air, cases[i].cl, 6e5, cases[i].height, &l, &problems), PL_BAD_INPUT);
        assert_true(l.touches);
        assert_false(l.beyond);
        assert_int_equal(problems.count, 1);
        assert_non_null(strstr(problems.list[0].rule, "ground"));
        assert_no_figures(&l);
        assert_true(lift_of(air, 0.3, 6e5, 0.5).cl_limited > 0);  /* and goes on working */
        pl_problems_free(&problems);
        pl_strip_air_free(air);
    }
}

static void doubts_are_the_polar_s(void **state)
{
    (void)state;
    struct pl_strip_air *air = air_of("0012");
    struct pl_strip_lift slow = lift_of(air, 0.3, 1e5, free_air), near = lift_of(air, 0.3, 1e6, 0.15);
    assert_int_equal(slow.n_doubts, 1);
    assert_int_equal(slow.doubts[0].mark, 'r');
    bool near_ground = false;
    for (size_t i = 0; i < near.n_doubts; i++)
        near_ground = near_ground || near.doubts[i].mark == 'g';
    assert_true(near_ground);
    pl_strip_air_free(air);
}

/* ---- whatever comes ---- */

static void what_is_no_number_is_refused(void **state)
{
    (void)state;
    static const struct { double cl, reynolds, height; } rows[] = {
        {(double)NAN, 1e6, 1}, {HUGE_VAL, 1e6, 1}, {0.5, 0, 1}, {0.5, -1, 1}, {0.5, (double)NAN, 1}, {0.5, HUGE_VAL, 1}, {0.5, 1e6, HUGE_VAL}};
    struct pl_strip_air *air = air_of("0012");
    for (int i = 0; i < 7; i++) {
        struct pl_problems problems = {0};
        struct pl_strip_drag d;
        struct pl_strip_lift l;
        if (i < 6) {
            assert_int_equal(pl_strip_air_drag(air, rows[i].cl, rows[i].reynolds, &d, &problems), PL_BAD_INPUT);
            assert_true(isnan(d.cd) && isnan(d.alpha_deg));
        }
        pl_problems_clear(&problems);
        assert_int_equal(pl_strip_air_lift(air, rows[i].cl, rows[i].reynolds, rows[i].height, &l, &problems), PL_BAD_INPUT);
        assert_int_equal(problems.count, 1);
        assert_false(l.touches);
        assert_no_figures(&l);
        pl_problems_free(&problems);
    }
    pl_strip_air_free(air);
}

/* Figures that are finite, or one sentence. */
static void ask_all(struct pl_strip_air *air)
{
    static const double heights[] = {(double)NAN, 0.4};
    struct pl_problems problems = {0};
    for (int h = 0; h < 2; h++)
        for (double cl = -2; cl <= 4; cl += 1.5) {
            struct pl_strip_drag d;
            struct pl_strip_lift l;
            pl_problems_clear(&problems);
            if (pl_strip_air_drag(air, cl, 5e5, &d, &problems) == PL_OK)
                assert_true(isfinite(d.alpha_deg) && isfinite(d.cl) && isfinite(d.cd) && d.cd > 0);
            else
                assert_int_equal(problems.count, 1);
            pl_problems_clear(&problems);
            if (pl_strip_air_lift(air, cl, 5e5, heights[h], &l, &problems) == PL_OK)
                assert_true(isfinite(l.alpha_deg) && isfinite(l.cl_thick) && isfinite(l.cl_limited) && isfinite(l.cd) && isfinite(l.scale));
            else
                assert_int_equal(problems.count, 1);
        }
    pl_problems_free(&problems);
}

static void odd_sections_give_figures_or_a_refusal(void **state)
{
    (void)state;
    static const char *const names[] = {"0001", "0006", "0040", "1101", "9912", "9101", "9940", "23112", "25109", "4660"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct pl_naca shape;
        const char *why;
        if (!pl_naca_parse(names[i], &shape, &why))
            continue;
        struct pl_strip_air *air = air_of(names[i]);
        ask_all(air);
        pl_strip_air_free(air);
    }
}

static void lists_of_points_give_figures_unless_they_are_next_to_nothing_thick(void **state)
{
    (void)state;
    /* A parabola of 2.5 % with a lens of a thickness on it. */
    static const double thickness[] = {0, 1e-9, 1e-4, 4e-3, 6e-3, 0.05, 0.12};
    for (int i = 0; i < 7; i++) {
        struct pl_point points[61];
        struct pl_problems problems = {0};
        struct pl_strip_air *air;
        for (int k = 0; k <= 60; k++) {
            double x = 0.5 * (1 + cos(M_PI * k / 30)), z = (0.1 + 2 * thickness[i] * (k < 30 ? 1 : -1)) * x * (1 - x);
            points[k] = (struct pl_point){x, z};
        }
        struct pl_profile profile = {.name = "list", .points = points, .n_points = 61};
        enum pl_status status = pl_strip_air_start(&air, &profile, PL_POLAR_PANELS, CHORDWISE, &problems);
        assert_int_equal(status, thickness[i] < PL_STRIP_THINNEST ? PL_BAD_INPUT : PL_OK);
        assert_int_equal(problems.count, status == PL_OK ? 0 : 1);
        assert_int_equal(air != NULL, status == PL_OK);
        if (air)
            ask_all(air);
        pl_strip_air_free(air);
        pl_problems_free(&problems);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_front_wing_has_the_contract_s_profile_drag),
        cmocka_unit_test(drag_is_that_of_the_polar_where_it_has_the_lift),
        cmocka_unit_test(upside_down_a_symmetric_section_has_the_same_drag),
        cmocka_unit_test(a_lift_that_no_incidence_has_gets_the_nearer_end),
        cmocka_unit_test(drag_is_finite_at_any_reynolds_number),
        cmocka_unit_test(thickness_adds_a_twentieth_in_free_air_and_a_fifth_near_the_ground),
        cmocka_unit_test(lift_is_the_polar_s_row_where_the_mean_line_carries_the_strip_s),
        cmocka_unit_test(an_answer_does_not_depend_on_those_before),
        cmocka_unit_test(a_strip_asked_for_too_much_is_limited),
        cmocka_unit_test(a_strip_with_hardly_any_lift_keeps_it),
        cmocka_unit_test(lift_beyond_any_incidence_gets_the_end),
        cmocka_unit_test(a_section_in_the_ground_has_no_figures),
        cmocka_unit_test(doubts_are_the_polar_s),
        cmocka_unit_test(what_is_no_number_is_refused),
        cmocka_unit_test(odd_sections_give_figures_or_a_refusal),
        cmocka_unit_test(lists_of_points_give_figures_unless_they_are_next_to_nothing_thick),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
