/* Joints: every worked number of the handbook's section 6, and the limits that the equations must keep. */
#include "../support.h"

#include "plyloft/joints.h"

#include <math.h>

/* Half of a 2 mm tang (69 MN/m) bonded to 1 mm of skin of 12 GPa. */
static const struct pl_lap tang = {0.030, 0.050, 69e6, 12e6, 1e9, 0.2e-3};

static void a_lap_peaks_as_volkersen_says(void **state)
{
    (void)state;
    struct pl_lap lap = tang;
    struct pl_lap_stress s = pl_lap_stress(&lap, 1000);
    assert_close(2 * s.x / lap.length_m, 699.4, 1e-3);
    assert_close(s.average_pa, 0.667e6, 1e-3);
    assert_close(s.peak_pa, 11.92e6, 1e-3);
    lap.length_m = 0.060;
    s = pl_lap_stress(&lap, 1000);
    assert_close(s.average_pa, 0.333e6, 1.1e-3);
    assert_close(s.peak_pa, 11.92e6, 1e-3);
}

/* Volkersen's equation itself: shear from end to end by differences, balance of the lap. */
static void the_peak_is_that_of_the_equation_solved_by_steps(void **state)
{
    (void)state;
    for (int trial = 0; trial < 4; trial++) {
        struct pl_lap lap = tang;
        lap.length_m = 0.004 + 0.012 * trial;
        lap.stiffness_b_n_m = 12e6 + 20e6 * trial;
        double x = pl_lap_stress(&lap, 1000).x, c = 1000 / lap.width_m, most = 0;
        /* tau(s) = A cosh(2 X s / L) + B sinh: its ends' slopes are G/t times the strains of the loaded adherends. */
        double slope_a = lap.glue_g_pa / lap.glue_m * c / lap.stiffness_a_n_m, slope_b = -lap.glue_g_pa / lap.glue_m * c / lap.stiffness_b_n_m;
        double lambda = 2 * x / lap.length_m;
        double a = (slope_a - slope_b) / (2 * lambda * sinh(x)), b = (slope_a + slope_b) / (2 * lambda * cosh(x)), sum = 0;
        enum { STEPS = 20000 };
        for (int i = 0; i <= STEPS; i++) {
            double s = lap.length_m * ((double)i / STEPS - 0.5), tau = a * cosh(lambda * s) + b * sinh(lambda * s);
            most = fmax(most, fabs(tau));
            sum += tau * lap.length_m / STEPS * (i == 0 || i == STEPS ? 0.5 : 1);
        }
        assert_close(sum * lap.width_m, 1000, 1e-5);
        assert_close(pl_lap_stress(&lap, 1000).peak_pa, most, 1e-6);
    }
}

static void a_short_lap_is_loaded_evenly(void **state)
{
    (void)state;
    struct pl_lap lap = tang;
    lap.length_m = 1e-7;
    struct pl_lap_stress s = pl_lap_stress(&lap, -10);
    assert_close(s.peak_pa, s.average_pa, 1e-6);
    lap.length_m = 1;  /* long: the peak does not grow */
    double peak = pl_lap_stress(&lap, 1000).peak_pa;
    lap.length_m = 100;
    assert_close(pl_lap_stress(&lap, 1000).peak_pa, peak, 1e-9);
}

static void peel_is_hart_smith_s(void **state)
{
    (void)state;
    double factor = pl_lap_peel_pa(1, 3e9, 0.3, 1e-3, 12e9, 0.2e-3);
    assert_close(factor, 1.359, 1e-3);
    assert_close(factor * 11.92e6, 16.2e6, 2e-3);
}

static void plates_and_bolts_are_the_handbook_s(void **state)
{
    (void)state;
    assert_close(pl_plate_bending_pa(100 * 0.080, 0.060, 0.003), 88.9e6, 1e-3);
    assert_close(125e6 / pl_plate_bending_pa(-8, 0.060, 0.003), 1.41, 3e-3);
    assert_close(20.1e-6 * 0.6 * 800e6, 9648, 1e-9);
    assert_close(pl_bearing_pa(2000, 0.006, 0.002), 166.7e6, 1e-3);
    assert_close(pl_tear_out_pa(2000, 0.006, 0.002, 0.018), 33.3e6, 2e-3);
    assert_close(pl_net_section_pa(2000, 0.006, 0.002, 0.036), 33.3e6, 2e-3);
    assert_true(isinf(pl_tear_out_pa(1, 0.006, 0.002, 0.003)) && isinf(pl_net_section_pa(1, 0.006, 0.002, 0.006)));
    assert_close(pl_bolt_clamping_n(4, 0.006), 3333, 1e-3);
    assert_close(3333 / (M_PI / 4 * (0.018 * 0.018 - 0.0064 * 0.0064)), 15.0e6, 1e-2);
}

static void a_group_of_bolts_shares_force_and_moment(void **state)
{
    (void)state;
    const struct pl_bolt_place two[] = {{0, 0}, {0.060, 0}}, four[] = {{0, 0}, {0.04, 0}, {0.04, 0.04}, {0, 0.04}};
    /* 400 N along the line between them: the moment's share stands at right angles. */
    assert_close(pl_bolt_group_n(two, 2, 400, 0, 30), 538.5, 1e-3);
    assert_close(pl_bolt_group_n(two, 2, 0, 400, 30), 700, 1e-12);
    assert_close(pl_bolt_group_n(four, 4, 400, 300, 0), 125, 1e-12);
    assert_close(pl_bolt_group_n(four, 4, 0, 0, 10), 10 / (4 * hypot(0.02, 0.02)), 1e-12);
    assert_true(isinf(pl_bolt_group_n(two, 1, 10, 0, 5)));
    assert_close(pl_bolt_group_n(two, 1, 3, 4, 0), 5, 1e-12);
}

static void threads_inserts_and_screws_pull_out(void **state)
{
    (void)state;
    assert_close(pl_thread_pull_out_n(0.00535, 0.006, 0.6 * 260e6), 7866, 1e-3);
    assert_close(pl_insert_pull_out_n(0.025, 0.010, 0.8e6), 628, 1e-3);
    assert_close(pl_plate_screw_n(100, 0.110, 0.015), 733, 1e-3);
    assert_close(pl_screw_pull_out_n(0.004, 0.015, 5e6), 942, 1e-3);
}

static void a_skin_spreads_and_a_panel_bends(void **state)
{
    (void)state;
    assert_close(pl_skin_spread_m(17e9, 0, 0.002, 14e6, 0.030), 17.7e-3, 1e-2);
    struct pl_panel p = {0.0005, 0.006, 0.200, 17e9, 20e6};
    struct pl_panel_stress s = pl_panel_stress(&p, 100, 0.110);
    assert_close(s.facing_pa, 16.9e6, 2e-3);
    assert_close(s.core_pa, 0.0769e6, 1e-3);
    assert_close(s.stiffness_nm, 179.6, 1e-3);
    assert_close(s.bending_m, 1.235e-3, 1e-3);
    assert_close(s.shear_m, 0.391e-3, 2e-3);
}

static void a_bend_s_flat_is_as_long_as_its_neutral_line(void **state)
{
    (void)state;
    assert_close(pl_bend_allowance_m(M_PI_2, 0.006, 0.003), 11.40e-3, 1e-3);
    assert_close(pl_bend_flat_m(0.040, 0.060, M_PI_2, 0.006, 0.003), 93.40e-3, 1e-4);
    assert_close(pl_bend_flat_m(0.040, 0.060, 0, 0.006, 0.003), 0.100, 1e-12);  /* not bent */
    assert_close(pl_bend_allowance_m(1, 0.002, 0.003), 0.002 + 0.33 * 0.003, 1e-12);
    assert_close(pl_bend_allowance_m(1, 0.010, 0.003), 0.010 + 0.5 * 0.003, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_lap_peaks_as_volkersen_says),          cmocka_unit_test(the_peak_is_that_of_the_equation_solved_by_steps),
        cmocka_unit_test(a_short_lap_is_loaded_evenly),           cmocka_unit_test(peel_is_hart_smith_s),
        cmocka_unit_test(plates_and_bolts_are_the_handbook_s),    cmocka_unit_test(a_group_of_bolts_shares_force_and_moment),
        cmocka_unit_test(threads_inserts_and_screws_pull_out),    cmocka_unit_test(a_skin_spreads_and_a_panel_bends),
        cmocka_unit_test(a_bend_s_flat_is_as_long_as_its_neutral_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
