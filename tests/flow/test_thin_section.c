/* Mean lines in a plane flow against thin-aerofoil theory, expansions for far ground, and panels round sections whose
 * thickness goes to nothing. */
#include "flows.h"

#include "plyloft/polar.h"
#include "plyloft/thin_section.h"

static const double free_air = (double)NAN;

static struct pl_thin_section *section_of(const char *designation, size_t panels)
{
    struct pl_profile profile = {.name = "section", .naca = designation};
    struct pl_thin_section *s = pl_thin_section_new(&profile, panels);
    assert_non_null(s);
    return s;
}

static double lift_of(const char *designation, size_t panels, double alpha_rad, double height)
{
    struct pl_thin_section *s = section_of(designation, panels);
    double lift = pl_thin_section_lift(s, alpha_rad, height);
    pl_thin_section_free(s);
    return lift;
}

/* ---- free air ---- */

static void a_flat_plate_has_two_pi_sine_whatever_the_panels(void **state)
{
    (void)state;
    /* Exact with a vortex at a quarter and control at three quarters of equal panels (Pistolesi 1937 of one, James 1972 of any
     * number), turned however far. */
    static const size_t panels[] = {1, 2, 7, 12, 40};
    for (size_t i = 0; i < 5; i++)
        for (int alpha = -25; alpha <= 25; alpha += 5)
            assert_near(lift_of("0012", panels[i], alpha * degree, free_air), 2 * M_PI * sin(alpha * degree), 1e-13 * (double)panels[i]);
}

static void a_parabola_differs_from_a_circle_s_arc_by_its_camber_squared(void **state)
{
    (void)state;
    /* The four-digit line with its camber f at half the chord is the parabola z = 4 f x (1 - x): 2 pi (a + 2 f) in thin
     * theory (Glauert).  An arc of a circle of the same camber has exactly 2 pi sin(a + b) / cos b, tan b = 2 f (Joukowski);
     * the two lines part by f^2 of their height. */
    static const struct { const char *name; double camber; } lines[] = {{"1512", 0.01}, {"2512", 0.02}, {"4512", 0.04}, {"6512", 0.06}};
    for (int i = 0; i < 4; i++)
        for (int alpha = 0; alpha <= 8; alpha += 4) {
            double f = lines[i].camber, b = atan(2 * f), a = alpha * degree, lift = lift_of(lines[i].name, 12, a, free_air);
            assert_close(lift, 2 * M_PI * sin(a + b) / cos(b), 2.1 * f * f);
            assert_close(lift, 2 * M_PI * (a + 2 * f), 2.1 * f * f + 0.25 * a * a);
        }
}

static void zero_lift_of_mean_lines_is_thin_theory_s(void **state)
{
    (void)state;
    /* Glauert; Abbott and von Doenhoff: -2.08, -4.15, -1.09 degrees.  Twelve panels have them within 0.05, more nearer by. */
    static const struct { const char *name; double alpha_deg; } lines[] = {{"2412", -2.08}, {"4412", -4.15}, {"23012", -1.09}};
    for (int i = 0; i < 3; i++)
        for (size_t panels = 12; panels <= 96; panels *= 8) {
            struct pl_thin_section *s = section_of(lines[i].name, panels);
            double alpha_rad;
            assert_int_equal(pl_thin_section_incidence(s, 0, free_air, &alpha_rad), PL_THIN_FOUND);
            assert_near(alpha_rad / degree, lines[i].alpha_deg, panels == 12 ? 0.05 : 0.02);
            pl_thin_section_free(s);
        }
}

/* ---- over ground ---- */

/* Parts of a plate's lift that change sign with its incidence, and that do not, by 2 pi sin a. */
static double odd_part(double alpha_rad, double height)
{
    return 0.5 * (lift_of("0012", 48, alpha_rad, height) - lift_of("0012", 48, -alpha_rad, height)) / (2 * M_PI * sin(alpha_rad));
}

static double even_part(double alpha_rad, double height)
{
    return 0.5 * (lift_of("0012", 48, alpha_rad, height) + lift_of("0012", 48, -alpha_rad, height)) / (2 * M_PI * sin(alpha_rad));
}

static void a_plate_over_far_ground_gains_by_the_chord_over_four_heights_squared(void **state)
{
    (void)state;
    /* A plate of chord 1 and small incidence a at height h; X from its middle, e = 1 / 4h^2.  The image, at 2h and of the other
     * turn, makes the upwash
     *
     *     w(X) = 1/2pi [e (X M0 - M1) - e^2 (X^3 M0 - 3 X^2 M1 + 3 X M2 - M3) + ...],   M_k = integral of gamma X^k.
     *
     * Thin theory: an upwash counts as the incidence <w>, its mean over theta with 1 - cos theta, X = -1/2 cos theta, where
     * <X> = 1/4, <X^2> = 1/8, <X^3> = 3/64; the plate's own M0 = pi a, M1 = -M0/4, M2 = M0/8, M3 = -3 M0/64.
     * Of order e: (1/2pi) M0 (1/4 + 1/4) = a/4.  Of order e^2: -(1/2pi) M0 (3/64 + 3/32 + 3/32 + 3/64) = -9a/64 and, the vorticity
     * itself being changed by the first order - M0 by e/4, M1 by e/8 of itself - (1/2pi) pi a (1/16 + 1/32) = 3a/64.  So
     *
     *     cl / 2 pi a = 1 + e/4 - 3 e^2/32 = 1 + d^2 - 3/2 d^4 + O(d^6),   d = 1 / 4h. */
    for (double height = 1; height < 5; height *= 1.25) {
        double d2 = 1 / (16 * height * height);
        assert_near(odd_part(1e-4, height), 1 + d2 - 1.5 * d2 * d2, 5 * d2 * d2 * d2);
    }
}

static void a_lift_towards_the_ground_gains_by_the_speed_of_its_image(void **state)
{
    (void)state;
    /* The image of a circulation pi sin a adds sin a / 4h to the stream when the lift presses down and takes it away when it
     * bears up.  That counts twice, in what the plate turns and in the force on it: cl / 2 pi sin a has the part sin a / 2h,
     * whatever its sign. */
    for (double height = 10; height < 100; height *= 2)
        assert_close(even_part(0.05, height), sin(0.05) / (2 * height), 0.2 / (height * height));
}

/* Of the potential flow round a section with thickness. */
static double thick_lift(const char *designation, double alpha_deg, double height)
{
    struct pl_profile profile = {.name = "section", .naca = designation};
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    struct pl_polar_row row;
    assert_int_equal(pl_polar_start(&polar, &profile, 1e6, height, 400, &problems), PL_OK);
    assert_int_equal(pl_polar_row(polar, alpha_deg, &row, &problems), PL_OK);
    pl_polar_free(polar);
    pl_problems_free(&problems);
    return row.cl_potential;
}

static void panels_round_sections_come_to_the_mean_line_as_thickness_goes(void **state)
{
    (void)state;
    /* Sections of 1, 2 and 3 % and the parabola through them: what is left at 0 % is another method's answer for the mean line,
     * within 0.04 %, free or near the ground.  The section of 1 % itself is 1 % above it in free air and 4 % at 0.3. */
    static const char *const names[][3] = {{"2401", "2402", "2403"}, {"4401", "4402", "4403"}, {"6401", "6402", "6403"}};
    static const double heights[] = {(double)NAN, 2, 1, 0.5, 0.3};
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 5; k++) {
            double alpha_deg = i == 1 ? 3 : 6 - 3 * (k % 2), thin = lift_of(names[i][0], 40, alpha_deg * degree, heights[k]), thick[3];
            for (int j = 0; j < 3; j++)
                thick[j] = thick_lift(names[i][j], alpha_deg, heights[k]);
            assert_close(3 * thick[0] - 3 * thick[1] + thick[2], thin, 6e-4);
            assert_between(thick[0] / thin, 1.005, 1.05);
        }
}

static void twelve_panels_have_what_many_have(void **state)
{
    (void)state;
    /* 0.1 % apart in free air, and the more the nearer the ground is to a panel's length, 0.6 % at 0.2 */
    static const double heights[] = {(double)NAN, 1, 0.4, 0.2};
    for (int i = 0; i < 4; i++)
        assert_close(lift_of("6412", 12, 3 * degree, heights[i]), lift_of("6412", 120, 3 * degree, heights[i]), 1.5e-3 / fmin(1, heights[i]));
}

static void far_ground_is_free_air(void **state)
{
    (void)state;
    assert_close(lift_of("6412", 12, 4 * degree, 1e6), lift_of("6412", 12, 4 * degree, free_air), 1e-6);
}

static void lift_rises_with_incidence_up_to_the_ground(void **state)
{
    (void)state;
    static const char *const names[] = {"0012", "6412", "23012", "9301"};
    static const double heights[] = {(double)NAN, 1, 0.3, 0.15, 0.06};
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < 5; k++) {
            struct pl_thin_section *s = section_of(names[i], 12);
            double touches = pl_thin_section_touches_rad(s, heights[k]), before = -HUGE_VAL;
            for (double a = -25 * degree; a <= fmin(25 * degree, touches); a += 0.5 * degree) {
                double lift = pl_thin_section_lift(s, a, heights[k]);
                assert_true(lift > before);
                before = lift;
            }
            pl_thin_section_free(s);
        }
}

static void a_plate_touches_where_its_nose_does(void **state)
{
    (void)state;
    struct pl_thin_section *s = section_of("0012", 12);
    /* The nose stands sin a nearer to the ground than the edge. */
    assert_close(pl_thin_section_touches_rad(s, 0.3), asin(0.3 - PL_THIN_CLEARS), 1e-12);
    assert_true(pl_thin_section_touches_rad(s, 1.2) == HUGE_VAL);
    assert_true(pl_thin_section_touches_rad(s, free_air) == HUGE_VAL);
    assert_true(pl_thin_section_touches_rad(s, 0.5 * PL_THIN_CLEARS) == -HUGE_VAL);
    assert_true(pl_thin_section_touches_rad(s, -1) == -HUGE_VAL);
    pl_thin_section_free(s);
}

/* ---- the incidence of a lift ---- */

static void the_incidence_found_has_the_lift_asked_for(void **state)
{
    (void)state;
    static const char *const names[] = {"0012", "6412", "23012"};
    static const double heights[] = {(double)NAN, 2, 0.5, 0.2, 0.08};
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 5; k++) {
            struct pl_thin_section *s = section_of(names[i], 12);
            for (double cl = -1.5; cl <= 2.01; cl += 0.25) {
                double alpha_rad;
                assert_int_equal(pl_thin_section_incidence(s, cl, heights[k], &alpha_rad), PL_THIN_FOUND);
                assert_near(pl_thin_section_lift(s, alpha_rad, heights[k]), cl, 1e-6);
            }
            pl_thin_section_free(s);
        }
}

static void what_no_incidence_carries_is_said(void **state)
{
    (void)state;
    struct pl_thin_section *s = section_of("0012", 12);
    double alpha_rad;
    /* 2 pi sin 25 = 2.655 */
    assert_int_equal(pl_thin_section_incidence(s, 2.66, free_air, &alpha_rad), PL_THIN_BEYOND);
    assert_close(alpha_rad, 25 * degree, 1e-12);
    assert_int_equal(pl_thin_section_incidence(s, -2.66, free_air, &alpha_rad), PL_THIN_BEYOND);
    assert_close(alpha_rad, -25 * degree, 1e-12);
    assert_int_equal(pl_thin_section_incidence(s, 2.65, free_air, &alpha_rad), PL_THIN_FOUND);
    assert_int_equal(pl_thin_section_incidence(s, -9, 0.2, &alpha_rad), PL_THIN_BEYOND);
    assert_int_equal(pl_thin_section_incidence(s, 1e9, 0.2, &alpha_rad), PL_THIN_TOUCHES);
    assert_close(alpha_rad, pl_thin_section_touches_rad(s, 0.2), 1e-12);
    assert_int_equal(pl_thin_section_incidence(s, 0.2, 0.005, &alpha_rad), PL_THIN_TOUCHES);
    assert_int_equal(pl_thin_section_incidence(s, 0.2, -1, &alpha_rad), PL_THIN_TOUCHES);
    assert_int_equal(pl_thin_section_incidence(s, (double)NAN, 1, &alpha_rad), PL_THIN_FAILS);
    assert_int_equal(pl_thin_section_incidence(s, HUGE_VAL, 1, &alpha_rad), PL_THIN_FAILS);
    assert_int_equal(pl_thin_section_incidence(s, 1, HUGE_VAL, &alpha_rad), PL_THIN_FAILS);
    pl_thin_section_free(s);
}

/* ---- lists of points ---- */

static void the_mean_line_of_points_is_midway_between_the_surfaces(void **state)
{
    (void)state;
    /* 0.1 x (1 - x), with surfaces 0.05 above and 0.05 below it but for the ends. */
    struct pl_point points[41];
    for (int i = 0; i <= 40; i++) {
        double x = fabs(i / 20.0 - 1), half = i == 0 || i == 20 || i == 40 ? 0 : 0.05;
        points[i] = (struct pl_point){x, 0.1 * x * (1 - x) + (i < 20 ? half : -half)};
    }
    struct pl_profile profile = {.name = "list", .points = points, .n_points = 41};
    for (int i = 1; i < 20; i++)
        assert_near(pl_thin_section_mean(&profile, i / 20.0), 0.1 * (i / 20.0) * (1 - i / 20.0), 1e-12);
}

static void a_list_of_points_has_nearly_its_section_s_lift(void **state)
{
    (void)state;
    /* Midway along z is not the line that camber was laid off from: 0.01 in lift of 6412, as on the wing's mean surface. */
    static struct pl_point points[161];
    struct pl_profile section = {.name = "section", .naca = "6412"}, list = {.name = "list", .points = points, .n_points = 161};
    assert_true(pl_flow_outline(&section, points, 161));
    struct pl_thin_section *there = section_of("6412", 12), *here = pl_thin_section_new(&list, 12);
    assert_non_null(here);
    for (int alpha = -4; alpha <= 8; alpha += 4)
        assert_near(pl_thin_section_lift(here, alpha * degree, 1), pl_thin_section_lift(there, alpha * degree, 1), 0.013);
    pl_thin_section_free(there);
    pl_thin_section_free(here);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_flat_plate_has_two_pi_sine_whatever_the_panels),
        cmocka_unit_test(a_parabola_differs_from_a_circle_s_arc_by_its_camber_squared),
        cmocka_unit_test(zero_lift_of_mean_lines_is_thin_theory_s),
        cmocka_unit_test(a_plate_over_far_ground_gains_by_the_chord_over_four_heights_squared),
        cmocka_unit_test(a_lift_towards_the_ground_gains_by_the_speed_of_its_image),
        cmocka_unit_test(panels_round_sections_come_to_the_mean_line_as_thickness_goes),
        cmocka_unit_test(twelve_panels_have_what_many_have),
        cmocka_unit_test(far_ground_is_free_air),
        cmocka_unit_test(lift_rises_with_incidence_up_to_the_ground),
        cmocka_unit_test(a_plate_touches_where_its_nose_does),
        cmocka_unit_test(the_incidence_found_has_the_lift_asked_for),
        cmocka_unit_test(what_no_incidence_carries_is_said),
        cmocka_unit_test(the_mean_line_of_points_is_midway_between_the_surfaces),
        cmocka_unit_test(a_list_of_points_has_nearly_its_section_s_lift),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
