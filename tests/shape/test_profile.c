/* NACA shapes against their reports and thin-aerofoil theory; coordinate lists against figures worked out by hand. */
#include "../support.h"

#include "plyloft/profile.h"

#include <math.h>
#include <string.h>

static struct pl_naca naca_of(const char *designation)
{
    struct pl_naca naca;
    const char *why;
    if (!pl_naca_parse(designation, &naca, &why))
        fail_msg("%s %s", designation, why);
    return naca;
}

static struct pl_profile_figures figures_of(const char *designation)
{
    struct pl_profile profile = {.name = "section", .naca = designation};
    return pl_profile_figures(&profile);
}

/* Ordinate of a surface at a chord fraction, by halving on the mean-line station. */
static double ordinate(const char *designation, bool on_top, double x)
{
    struct pl_naca naca = naca_of(designation);
    struct pl_point upper, lower;
    double low = 0, high = 1;
    for (int i = 0; i < 60; i++) {
        double s = 0.5 * (low + high);
        pl_naca_point(&naca, s, &upper, &lower);
        *((on_top ? upper.x : lower.x) < x ? &low : &high) = s;
    }
    return on_top ? upper.z : lower.z;
}

/* ---- four digits: NACA report 460 ---- */

static void ordinates_of_0012_are_those_of_the_report(void **state)
{
    (void)state;
    /* NACA report 460, table of the 0012 basic form, in per cent of the chord, three decimals */
    static const double at[] = {1.25, 2.5, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 95, 100};
    static const double z[] = {1.894, 2.615, 3.555, 4.200, 4.683, 5.345, 5.737, 5.941, 6.002,
                               5.803, 5.294, 4.563, 3.664, 2.623, 1.448, 0.807, 0.126};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
        assert_true(fabs(100 * ordinate("0012", true, at[i] / 100) - z[i]) < 0.0006);
        assert_true(fabs(100 * ordinate("0012", false, at[i] / 100) + z[i]) < 0.0006);
    }
}

static void thickness_is_greatest_at_three_tenths_of_the_chord(void **state)
{
    (void)state;
    struct pl_naca naca = naca_of("0012");
    double best = 0, at = 0;
    for (int i = 0; i <= 10000; i++)
        if (pl_naca_half_thickness(&naca, i / 10000.0) > best) {
            best = pl_naca_half_thickness(&naca, i / 10000.0);
            at = i / 10000.0;
        }
    assert_close(at, 0.30, 0.005);
    /* 5 t (0.2969 sqrt 0.3 - 0.1260 0.3 - 0.3516 0.09 + 0.2843 0.027 - 0.1015 0.0081) = 0.500149 t */
    assert_close(2 * best, 0.12, 5e-4);
    assert_close(figures_of("0012").thickness, 2 * best, 1e-6);
}

static void the_nose_radius_is_1_1019_times_thickness_squared(void **state)
{
    (void)state;
    static const char *const shapes[] = {"0006", "0012", "0024"};
    for (size_t i = 0; i < 3; i++) {
        struct pl_naca naca = naca_of(shapes[i]);
        double s = 1e-10, half = pl_naca_half_thickness(&naca, s);
        /* A parabola z = sqrt(2 r x) at the nose: r = z2 / 2x = (5 x 0.2969 t)2 / 2 = 1.1019 t2 */
        assert_close(half * half / (2 * s), 1.1019 * naca.thickness * naca.thickness, 5e-5);
    }
}

static void the_trailing_edge_is_open(void **state)
{
    (void)state;
    struct pl_naca naca = naca_of("0012");
    /* 5 t (0.2969 - 0.1260 - 0.3516 + 0.2843 - 0.1015) = 0.0105 t */
    assert_close(pl_naca_half_thickness(&naca, 1), 0.0105 * 0.12, 1e-9);
}

static void area_of_a_symmetric_shape_is_0_685_thickness(void **state)
{
    (void)state;
    /* 10 t (0.2969 2/3 - 0.1260/2 - 0.3516/3 + 0.2843/4 - 0.1015/5) */
    double per_thickness = 10 * (0.2969 * 2 / 3 - 0.1260 / 2 - 0.3516 / 3 + 0.2843 / 4 - 0.1015 / 5);
    assert_close(figures_of("0012").area, 0.12 * per_thickness, 2e-6);
    assert_close(figures_of("0018").area, 0.18 * per_thickness, 2e-6);
}

static void ordinates_of_4412_are_those_of_the_report(void **state)
{
    (void)state;
    /* NACA report 460, 4412, in per cent of the chord; worked by hand there to about one in the second decimal */
    static const double at[] = {1.25, 2.5, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90};
    static const double top[] = {2.44, 3.39, 4.73, 6.59, 8.80, 9.76, 9.80, 9.19, 8.14, 6.69, 4.89, 2.71};
    static const double bottom[] = {-1.43, -1.95, -2.49, -2.86, -2.74, -2.26, -1.80, -1.40, -1.00, -0.65, -0.39, -0.22};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
        assert_true(fabs(100 * ordinate("4412", true, at[i] / 100) - top[i]) < 0.0125);
        assert_true(fabs(100 * ordinate("4412", false, at[i] / 100) - bottom[i]) < 0.0125);
    }
}

static void camber_of_four_digits_is_greatest_where_the_second_says(void **state)
{
    (void)state;
    struct pl_naca naca = naca_of("6412");
    double slope;
    assert_close(pl_naca_mean(&naca, 0.4, &slope), 0.06, 1e-12);
    assert_true(fabs(slope) < 1e-12);
    assert_true(fabs(pl_naca_mean(&naca, 0, &slope)) < 1e-12 && fabs(pl_naca_mean(&naca, 1, &slope)) < 1e-12);
    assert_close(figures_of("6412").camber, 0.06, 1e-6);
}

static void figures_of_6412_are_those_of_the_handbook(void **state)
{
    (void)state;
    enum { COUNT = 2001 };
    struct pl_profile profile = {.name = "section", .naca = "6412"};
    static struct pl_point p[COUNT];
    pl_profile_list(&profile, COUNT, p);
    double top = 0, bottom = 0;
    for (int i = 0; i + 1 < COUNT; i++)
        *(i < COUNT / 2 ? &top : &bottom) += hypot(p[i + 1].x - p[i].x, p[i + 1].z - p[i].z);
    /* F7.4: area 0.082853, upper arc 1.05080, lower 1.00749 */
    assert_close(pl_profile_figures(&profile).area, 0.082853, 1e-5);
    assert_close(top, 1.05080, 1e-5);
    assert_close(bottom, 1.00749, 1e-5);
    /* GJ = 4 A2 G t / girth on the core outline, chord 275 mm, three 45 degree plies of 7.522 GPa (F5.6) */
    double area = pl_profile_figures(&profile).area * 0.275 * 0.275, girth = (top + bottom) * 0.275;
    assert_close(4 * area * area * 7.522e9 * 0.503e-3 / girth, 1049.7, 1e-4);
}

/* ---- five digits: NACA report 537 ---- */

static void camber_of_23012_is_1_84_per_cent_at_0_15(void **state)
{
    (void)state;
    struct pl_naca naca = naca_of("23012");
    double slope, mean = pl_naca_mean(&naca, 0.15, &slope);
    assert_close(mean, 0.0184, 2e-3);
    assert_true(fabs(slope) < 1e-3);
    assert_close(figures_of("23012").camber, mean, 1e-5);
}

static void ordinates_of_23012_are_those_of_the_report(void **state)
{
    (void)state;
    /* NACA report 537, table of the 23012, in per cent of the chord; faired there by hand, to two or three in the
     * second decimal, most just behind the nose */
    static const double at[] = {1.25, 2.5, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90};
    static const double top[] = {2.67, 3.61, 4.91, 5.80, 6.43, 7.19, 7.50, 7.60,
                                 7.55, 7.14, 6.41, 5.47, 4.36, 3.08, 1.68};
    static const double bottom[] = {-1.23, -1.71, -2.26, -2.61, -2.92, -3.50, -3.97, -4.28, -4.46, -4.48, -4.17, -3.67,
                                    -3.00, -2.16, -1.23};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
        assert_true(fabs(100 * ordinate("23012", true, at[i] / 100) - top[i]) < 0.031);
        assert_true(fabs(100 * ordinate("23012", false, at[i] / 100) - bottom[i]) < 0.031);
    }
}

static double fourier(const struct pl_naca *naca, int n)
{
    /* Glauert 1926: A_n = (2 / pi) integral of dz/dx cos n theta d theta, x = (1 - cos theta) / 2 */
    enum { STEPS = 200000 };
    double sum = 0, slope;
    for (int i = 0; i < STEPS; i++) {
        double theta = M_PI * (i + 0.5) / STEPS;
        pl_naca_mean(naca, 0.5 * (1 - cos(theta)), &slope);
        sum += slope * cos(n * theta);
    }
    return 2 * sum / STEPS;
}

static void simple_mean_lines_have_the_design_lift_they_were_made_for(void **state)
{
    (void)state;
    /* At the ideal angle A0 = 0, so cl = pi A1, and report 537 gives 0.15 x first digit.  Its m has three or four
     * digits, and k1 goes with 1/m3: the farther ahead the greatest camber, the coarser. */
    static const struct { const char *line; double band; } lines[] = {
        {"21012", 0.03}, {"22012", 0.01}, {"23012", 1e-3}, {"24012", 1e-3}, {"25012", 1e-3}, {"43012", 1e-3}};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct pl_naca naca = naca_of(lines[i].line);
        assert_close(M_PI * fourier(&naca, 1), 0.15 * (lines[i].line[0] - '0'), lines[i].band);
    }
}

static void reflexed_mean_lines_have_no_moment_about_the_quarter_chord(void **state)
{
    (void)state;
    static const char *const lines[] = {"22112", "23112", "24112", "25112"};
    for (size_t i = 0; i < 4; i++) {
        struct pl_naca naca = naca_of(lines[i]);
        double a1 = fourier(&naca, 1), a2 = fourier(&naca, 2);
        /* cm = pi/4 (A2 - A1); a simple line has -0.008 to -0.024, and these constants have three digits */
        assert_true(fabs(M_PI / 4 * (a2 - a1)) < 1.5e-3);
        assert_close(M_PI * a1, 0.30, 0.02);
    }
}

static void a_mean_line_is_smooth_where_its_two_parts_meet(void **state)
{
    (void)state;
    static const char *const shapes[] = {"2412", "6412", "21012", "25012", "22112", "25112"};
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        struct pl_naca naca = naca_of(shapes[i]);
        double join = naca.k1 > 0 ? naca.m : naca.camber_at, before, after;
        double z = pl_naca_mean(&naca, join - 1e-9, &before) - pl_naca_mean(&naca, join + 1e-9, &after);
        assert_true(fabs(z) < 1e-9 && fabs(before - after) < 1e-7);
        assert_true(fabs(pl_naca_mean(&naca, 0, &before)) < 1e-12 && fabs(pl_naca_mean(&naca, 1, &after)) < 2e-5);
    }
}

static void a_slope_is_that_of_its_mean_line(void **state)
{
    (void)state;
    static const char *const shapes[] = {"4415", "23012", "24112"};
    for (size_t i = 0; i < 3; i++) {
        struct pl_naca naca = naca_of(shapes[i]);
        for (double s = 0.03; s < 1; s += 0.0931) {
            double slope, other, h = 1e-6;
            pl_naca_mean(&naca, s, &slope);
            double rise = pl_naca_mean(&naca, s + h, &other) - pl_naca_mean(&naca, s - h, &other);
            assert_true(fabs(rise / (2 * h) - slope) < 1e-8);
        }
    }
}

/* ---- both ---- */

static void thickness_stands_normal_to_the_mean_line(void **state)
{
    (void)state;
    struct pl_naca naca = naca_of("6412");
    for (double s = 0; s <= 1; s += 0.05) {
        struct pl_point upper, lower;
        double slope, mean = pl_naca_mean(&naca, s, &slope);
        pl_naca_point(&naca, s, &upper, &lower);
        double dx = upper.x - lower.x, dz = upper.z - lower.z;
        assert_close(1 + hypot(dx, dz), 1 + 2 * pl_naca_half_thickness(&naca, s), 1e-14);
        assert_true(fabs(dx + slope * dz) < 1e-15);
        assert_true(fabs(upper.z + lower.z - 2 * mean) < 1e-15 && fabs(upper.x + lower.x - 2 * s) < 1e-15);
    }
}

static void designations_that_no_report_defines_are_refused(void **state)
{
    (void)state;
    static const char *const bad[] = {"",     "12",    "123456", "64-2",  "6412 ", " 6412", "6A12",  "2012", "0000",
                                      "03012", "20012", "26012", "21112", "23212", "23000"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct pl_naca naca;
        const char *why = NULL;
        if (pl_naca_parse(bad[i], &naca, &why))
            fail_msg("%s was taken", bad[i]);
        assert_true(why && *why);
    }
    static const char *const good[] = {"0001", "0012", "0240", "9915", "21001", "25140", "93012"};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        naca_of(good[i]);
}

static void a_list_runs_from_the_tail_over_the_top_round_the_nose(void **state)
{
    (void)state;
    struct pl_profile profile = {.name = "section", .naca = "4412"};
    struct pl_point p[60], upper, lower;
    struct pl_naca naca = naca_of("4412");
    for (size_t count = 5; count <= 60; count++) {
        size_t above = count / 2;
        pl_profile_list(&profile, count, p);
        pl_naca_point(&naca, 1, &upper, &lower);
        assert_true(p[0].x == upper.x && p[0].z == upper.z);
        assert_true(p[count - 1].x == lower.x && p[count - 1].z == lower.z);
        assert_true(p[above].x == 0 && p[above].z == 0);
        pl_naca_point(&naca, 0.5 * (1 - cos(M_PI / (double)above)), &upper, &lower);
        assert_close(p[above - 1].z, upper.z, 1e-12);
        size_t at;
        assert_null(pl_points_fault(p, count, &at));
    }
}

/* ---- points ---- */

static const struct pl_point kite[] = {{1, 0}, {0.25, 0.1}, {0, 0}, {0.5, -0.06}, {1, 0}};

static void figures_of_a_kite_are_those_of_its_triangles(void **state)
{
    (void)state;
    struct pl_profile profile = {.name = "kite", .points = (struct pl_point *)kite, .n_points = 5};
    struct pl_profile_figures f = pl_profile_figures(&profile);
    /* two triangles on the chord: (0.1 + 0.06)/2 */
    assert_close(f.area, 0.08, 1e-12);
    /* at 0.25 the lower surface stands at -0.03, at 0.5 the upper at 0.1 x 2/3 */
    assert_close(f.thickness, 0.13, 1e-12);
    assert_close(f.camber, 0.5 * (0.1 - 0.03), 1e-12);
}

static void points_are_joined_by_straight_lines(void **state)
{
    (void)state;
    struct pl_profile profile = {.name = "kite", .points = (struct pl_point *)kite, .n_points = 5};
    const double s[] = {0, 0.125, 0.25, 0.5, 0.625, 1};
    const double top[] = {0, 0.05, 0.1, 0.2 / 3, 0.05, 0}, bottom[] = {0, -0.015, -0.03, -0.06, -0.045, 0};
    struct pl_point upper[6], lower[6];
    pl_profile_surfaces(&profile, s, 6, upper, lower);
    for (int i = 0; i < 6; i++) {
        assert_close(upper[i].x, s[i], 1e-15);
        assert_close(lower[i].x, s[i], 1e-15);
        assert_true(fabs(upper[i].z - top[i]) < 1e-15 && fabs(lower[i].z - bottom[i]) < 1e-15);
    }
}

static void an_open_edge_is_closed_by_a_straight_line(void **state)
{
    (void)state;
    /* a wedge, 0.1 high at the tail: area 0.05 */
    static struct pl_point wedge[] = {{1, 0.05}, {0.5, 0.025}, {0, 0}, {0.5, -0.025}, {1, -0.05}};
    struct pl_profile profile = {.name = "wedge", .points = wedge, .n_points = 5};
    assert_close(pl_profile_figures(&profile).area, 0.05, 1e-12);
    assert_close(pl_profile_figures(&profile).thickness, 0.1, 1e-12);
}

static void lists_that_make_no_section_are_told_apart(void **state)
{
    (void)state;
    static const struct {
        struct pl_point p[6];
        size_t count, at;
        const char *word;
    } faults[] = {
        {{{1, 0}, {0.5, 0.1}, {0, 0}, {1, 0}}, 4, 0, "at least 5"},
        {{{100, 0}, {50, 10}, {0, 0}, {50, -10}, {100, 0}}, 5, 0, "chords"},
        {{{1, 0}, {0.5, 0.1}, {0.5, 0.1}, {0, 0}, {0.5, -0.1}, {1, 0}}, 6, 2, "repeats"},
        {{{1, 0}, {0.5, 0.1}, {0.6, 0.08}, {0, 0}, {0.5, -0.1}, {1, 0}}, 6, 2, "over the upper"},
        {{{1, 0}, {0.5, 0.1}, {0, 0}, {0.6, -0.1}, {0.5, -0.08}, {1, 0}}, 6, 4, "under the lower"},
        {{{0, 0}, {0.2, 0.1}, {0.5, 0.1}, {0.8, 0}, {1, 0}}, 5, 0, "trailing edge, with the nose between"},
        {{{1, 0}, {0.5, 0.1}, {0.3, 0}, {0.5, -0.1}, {1, 0}}, 5, 2, "x = 0"},
        {{{0.8, 0}, {0.5, 0.1}, {0, 0}, {0.5, -0.1}, {1, 0}}, 5, 2, "x = 1"},
        {{{1, 0}, {0.5, -0.1}, {0, 0}, {0.5, 0.1}, {1, 0}}, 5, 1, "crossing"},
    };
    for (size_t i = 0; i < sizeof faults / sizeof *faults; i++) {
        size_t at;
        const char *fault = pl_points_fault(faults[i].p, faults[i].count, &at);
        assert_non_null(fault);
        if (!strstr(fault, faults[i].word))
            fail_msg("\"%s\" does not say \"%s\"", fault, faults[i].word);
        assert_int_equal(at, faults[i].at);
    }
    size_t at;
    assert_null(pl_points_fault(kite, 5, &at));
}

static void points_of_a_naca_shape_have_its_figures(void **state)
{
    (void)state;
    enum { COUNT = 401 };
    static struct pl_point p[COUNT];
    struct pl_profile shape = {.name = "shape", .naca = "23015"},
                      list = {.name = "list", .points = p, .n_points = COUNT};
    pl_profile_list(&shape, COUNT, p);
    assert_close(pl_profile_figures(&list).area, pl_profile_figures(&shape).area, 1e-4);
    /* midway along z and thickness along z differ from those about the mean line by its slope squared */
    assert_close(pl_profile_figures(&list).thickness, pl_profile_figures(&shape).thickness, 5e-3);
    assert_close(pl_profile_figures(&list).camber, pl_profile_figures(&shape).camber, 2e-2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ordinates_of_0012_are_those_of_the_report),
        cmocka_unit_test(thickness_is_greatest_at_three_tenths_of_the_chord),
        cmocka_unit_test(the_nose_radius_is_1_1019_times_thickness_squared),
        cmocka_unit_test(the_trailing_edge_is_open),
        cmocka_unit_test(area_of_a_symmetric_shape_is_0_685_thickness),
        cmocka_unit_test(ordinates_of_4412_are_those_of_the_report),
        cmocka_unit_test(camber_of_four_digits_is_greatest_where_the_second_says),
        cmocka_unit_test(figures_of_6412_are_those_of_the_handbook),
        cmocka_unit_test(camber_of_23012_is_1_84_per_cent_at_0_15),
        cmocka_unit_test(ordinates_of_23012_are_those_of_the_report),
        cmocka_unit_test(simple_mean_lines_have_the_design_lift_they_were_made_for),
        cmocka_unit_test(reflexed_mean_lines_have_no_moment_about_the_quarter_chord),
        cmocka_unit_test(a_mean_line_is_smooth_where_its_two_parts_meet),
        cmocka_unit_test(a_slope_is_that_of_its_mean_line),
        cmocka_unit_test(thickness_stands_normal_to_the_mean_line),
        cmocka_unit_test(designations_that_no_report_defines_are_refused),
        cmocka_unit_test(a_list_runs_from_the_tail_over_the_top_round_the_nose),
        cmocka_unit_test(figures_of_a_kite_are_those_of_its_triangles),
        cmocka_unit_test(points_are_joined_by_straight_lines),
        cmocka_unit_test(an_open_edge_is_closed_by_a_straight_line),
        cmocka_unit_test(lists_that_make_no_section_are_told_apart),
        cmocka_unit_test(points_of_a_naca_shape_have_its_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
