/* Lamination theory and ply criteria against textbook numbers, closed forms and laws. */
#include "../part_text.h"
#include "../support.h"

#include "plyloft/laminate.h"

#include <math.h>

#define DEGREES(d) ((d) * M_PI / 180)

static const struct pl_fabric plain = {.e1_pa = 17e9, .e2_pa = 17e9, .g12_pa = 3.2e9, .nu12 = 0.13,
                                       .areal_weight_kg_m2 = 0.163, .fibre_density_kg_m3 = 2560,
                                       .fibre_fraction = 0.38};
static const struct pl_fabric uni = {.e1_pa = 31e9, .e2_pa = 8e9, .g12_pa = 3e9, .nu12 = 0.28,
                                     .areal_weight_kg_m2 = 0.310, .fibre_density_kg_m3 = 2560, .fibre_fraction = 0.42,
                                     .xt_pa = 620e6, .xc_pa = 420e6, .yt_pa = 32e6, .yc_pa = 105e6, .s_pa = 45e6};
/* graphite-epoxy of Tsai and Hahn 1980, and of Kaw, Mechanics of Composite Materials, 2006 */
static const struct pl_fabric graphite = {.e1_pa = 181e9, .e2_pa = 10.3e9, .g12_pa = 7.17e9, .nu12 = 0.28,
                                          .xt_pa = 1500e6, .xc_pa = 1500e6, .yt_pa = 40e6, .yc_pa = 246e6,
                                          .s_pa = 68e6};

static struct pl_ply ply(const struct pl_fabric *fabric, double angle_deg, double thickness_m)
{
    return (struct pl_ply){.fabric = fabric, .angle_rad = DEGREES(angle_deg), .thickness_m = thickness_m};
}

static struct pl_abd stack_of(const struct pl_fabric *fabric, const double *angles_deg, size_t n, double ply_m)
{
    struct pl_ply plies[16];
    struct pl_abd abd;
    for (size_t i = 0; i < n; i++)
        plies[i] = ply(fabric, angles_deg[i], ply_m);
    pl_laminate_abd(plies, n, &abd);
    return abd;
}

static void cured_ply_thickness_is_fibre_over_fibre_share(void **state)
{
    (void)state;
    assert_close(pl_fabric_ply_m(&plain), 0.16756e-3, 2e-5);  /* F5.1 */
    assert_close(pl_fabric_ply_m(&uni), 0.28832e-3, 2e-5);
}

/* ---- one ply ---- */

static void a_turned_ply_has_the_moduli_of_the_handbook(void **state)
{
    (void)state;
    struct pl_moduli m;
    struct pl_abd abd = stack_of(&plain, (double[]){45}, 1, 1e-3);
    m = pl_laminate_moduli(&abd);
    assert_close(m.ex_pa, 9.642e9, 1e-4);  /* F5.6 */
    assert_close(m.ey_pa, 9.642e9, 1e-4);
    assert_close(m.gxy_pa, 7.522e9, 1e-4);
    assert_close(m.nuxy, 0.5066, 1e-4);
    abd = stack_of(&uni, (double[]){5}, 1, 1e-3);
    assert_close(pl_laminate_moduli(&abd).ex_pa, 29.28e9, 2e-4);
    abd = stack_of(&uni, (double[]){10}, 1, 1e-3);
    assert_close(pl_laminate_moduli(&abd).ex_pa, 25.20e9, 2e-4);
}

static void a_turned_ply_has_the_stiffness_of_the_textbook(void **state)
{
    (void)state;
    double q[3][3];
    /* Tsai and Hahn 1980, table 3.3 */
    pl_ply_stiffness(&graphite, q);
    assert_close(q[0][0], 181.8e9, 3e-4);
    assert_close(q[1][1], 10.34e9, 1e-3);
    assert_close(q[0][1], 2.897e9, 3e-4);
    assert_true(q[0][2] == 0 && q[1][2] == 0);
    /* Kaw 2006, example 2.6: 60 degrees */
    pl_ply_turned(&graphite, DEGREES(60), q);
    assert_close(q[0][0], 23.65e9, 3e-4);
    assert_close(q[0][1], 32.46e9, 3e-4);
    assert_close(q[1][1], 109.4e9, 5e-4);
    assert_close(q[0][2], 20.05e9, 3e-4);
    assert_close(q[1][2], 54.19e9, 3e-4);
    assert_close(q[2][2], 36.74e9, 3e-4);
}

static void invariants_do_not_change_when_a_ply_turns(void **state)
{
    (void)state;
    double q[3][3], turned[3][3];
    pl_ply_stiffness(&graphite, q);
    for (double angle = -90; angle <= 90; angle += 7.3) {
        pl_ply_turned(&graphite, DEGREES(angle), turned);
        /* Tsai and Pagano 1968: Q11 + Q22 + 2 Q12 and Q66 - Q12 */
        assert_close(turned[0][0] + turned[1][1] + 2 * turned[0][1], q[0][0] + q[1][1] + 2 * q[0][1], 1e-12);
        assert_close(turned[2][2] - turned[0][1], q[2][2] - q[0][1], 1e-12);
    }
}

static void stress_of_a_ply_is_its_turned_stiffness_turned_back(void **state)
{
    (void)state;
    uint64_t seed = 11;
    for (int i = 0; i < 200; i++) {
        struct pl_ply p = ply(&graphite, chance_between(&seed, -90, 90), 1e-3);
        double e[3], own[3], q[3][3], wall[3];
        for (int j = 0; j < 3; j++)
            e[j] = chance_between(&seed, -1e-3, 1e-3);
        pl_ply_stress(&p, e, own);
        pl_ply_turned(&graphite, p.angle_rad, q);
        double c = cos(p.angle_rad), s = sin(p.angle_rad);
        for (int j = 0; j < 3; j++)
            wall[j] = q[j][0] * e[0] + q[j][1] * e[1] + q[j][2] * e[2];
        assert_true(fabs(own[0] - (c * c * wall[0] + s * s * wall[1] + 2 * c * s * wall[2])) < 1);
        assert_true(fabs(own[1] - (s * s * wall[0] + c * c * wall[1] - 2 * c * s * wall[2])) < 1);
        assert_true(fabs(own[2] - (c * s * (wall[1] - wall[0]) + (c * c - s * s) * wall[2])) < 1);
    }
}

/* ---- stacks ---- */

static void the_front_wing_stack_has_the_stiffness_of_the_handbook(void **state)
{
    (void)state;
    double thin = pl_fabric_ply_m(&plain), thick = pl_fabric_ply_m(&uni);
    struct pl_ply plies[8];
    for (int i = 0; i < 8; i++)
        plies[i] = i < 2 || i == 7 ? ply(&plain, 45, thin) : ply(&uni, 0, thick);
    struct pl_abd abd;
    pl_laminate_abd(plies, 8, &abd);
    assert_close(abd.thickness_m, 1.9443e-3, 3e-5);  /* F5.1 */
    const double want[12] = {52.132e6, 6.598e6, 18.291e6, 8.106e6, 2.2549e3, -0.5174e3, -0.5803e3, -0.5462e3,
                             12.794, 2.911, 6.696, 3.432};  /* F5.7 */
    const double got[12] = {abd.a[0][0], abd.a[0][1], abd.a[1][1], abd.a[2][2], abd.b[0][0], abd.b[0][1], abd.b[1][1],
                            abd.b[2][2], abd.d[0][0], abd.d[0][1], abd.d[1][1], abd.d[2][2]};
    for (int i = 0; i < 12; i++)
        assert_close(got[i], want[i], 2e-4);
    double along = abd.a[0][0] - abd.a[0][1] * abd.a[0][1] / abd.a[1][1];
    assert_close(along, 49.751e6, 2e-5);
    assert_close(pl_laminate_moduli(&abd).ex_pa, 25.59e9, 2e-4);
}

static void an_unsymmetric_stack_has_the_stiffness_of_the_textbook(void **state)
{
    (void)state;
    /* Kaw 2006, example 4.2: graphite-epoxy [0/30/-45], 5 mm plies */
    struct pl_abd abd = stack_of(&graphite, (double[]){0, 30, -45}, 3, 5e-3);
    static const double a[3][3] = {
        {1.739e9, 3.884e8, 5.663e7}, {3.884e8, 4.533e8, -1.141e8}, {5.663e7, -1.141e8, 4.525e8}};
    static const double b[3][3] = {
        {-3.129e6, 9.855e5, -1.072e6}, {9.855e5, 1.158e6, -1.072e6}, {-1.072e6, -1.072e6, 9.855e5}};
    static const double d[3][3] = {
        {3.343e4, 6.461e3, -5.240e3}, {6.461e3, 9.320e3, -5.596e3}, {-5.240e3, -5.596e3, 7.663e3}};
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++) {
            assert_close(abd.a[i][j], a[i][j], 5e-4);
            assert_close(abd.b[i][j], b[i][j], 5e-4);
            assert_close(abd.d[i][j], d[i][j], 5e-4);
        }
}

static void a_quasi_isotropic_stack_is_isotropic_in_its_plane(void **state)
{
    (void)state;
    static const double three[] = {0, 60, -60}, four[] = {0, 45, 90, -45};
    const struct { const double *angles; size_t n; } stacks[] = {{three, 3}, {four, 4}};
    for (size_t i = 0; i < 2; i++) {
        struct pl_abd abd = stack_of(&graphite, stacks[i].angles, stacks[i].n, 1e-3);
        assert_close(abd.a[0][0], abd.a[1][1], 1e-12);
        assert_close(abd.a[2][2], 0.5 * (abd.a[0][0] - abd.a[0][1]), 1e-12);
        assert_true(fabs(abd.a[0][2]) < 1e-9 * abd.a[0][0] && fabs(abd.a[1][2]) < 1e-9 * abd.a[0][0]);
        struct pl_moduli m = pl_laminate_moduli(&abd);
        /* Tsai and Hahn 1980 for this material: E 69.68, G 26.88 GPa, Poisson's ratio 0.296 */
        assert_close(m.ex_pa, 69.68e9, 3e-4);
        assert_close(m.gxy_pa, 26.88e9, 3e-4);
        assert_close(m.nuxy, 0.296, 3e-3);
        assert_close(m.gxy_pa, m.ex_pa / (2 * (1 + m.nuxy)), 1e-12);
    }
}

static void a_symmetric_stack_does_not_bend_when_pulled(void **state)
{
    (void)state;
    struct pl_abd abd = stack_of(&graphite, (double[]){0, 30, -45, -45, 30, 0}, 6, 1e-3);
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            assert_true(fabs(abd.b[i][j]) < 1e-9 * abd.a[0][0] * abd.thickness_m);
}

static void plies_that_balance_do_not_shear_when_pulled(void **state)
{
    (void)state;
    struct pl_abd abd = stack_of(&graphite, (double[]){25, -25, 0, -50, 50}, 5, 1e-3);
    assert_true(fabs(abd.a[0][2]) < 1e-9 * abd.a[0][0] && fabs(abd.a[1][2]) < 1e-9 * abd.a[0][0]);
    abd = stack_of(&graphite, (double[]){25, -25, 0, 50}, 4, 1e-3);
    assert_true(abd.a[0][2] > 1e-3 * abd.a[0][0]);
}

static void a_stack_of_like_plies_is_a_plate(void **state)
{
    (void)state;
    /* D = A h2 / 12 whatever the number of plies it is cut into */
    struct pl_abd abd = stack_of(&uni, (double[]){20, 20, 20, 20, 20}, 5, 0.3e-3);
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            assert_close(abd.d[i][j], abd.a[i][j] * 1.5e-3 * 1.5e-3 / 12, 1e-12);
}

static void an_inverse_undoes_its_matrix(void **state)
{
    (void)state;
    struct pl_abd abd = stack_of(&graphite, (double[]){0, 30, -45}, 3, 5e-3);
    double inverse[3][3];
    pl_invert3(abd.a, inverse);
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++) {
            double one = 0;
            for (int k = 0; k < 3; k++)
                one += abd.a[i][k] * inverse[k][j];
            assert_true(fabs(one - (i == j)) < 1e-14);
        }
}

/* ---- strength ---- */

static struct pl_ply_strength full(const struct pl_fabric *fabric)
{
    return pl_ply_strength(fabric, 1, 1);
}

static void both_criteria_give_the_strengths_in_pure_stress(void **state)
{
    (void)state;
    struct pl_ply_strength s = full(&uni);
    const struct { double stress[3], strength; } pure[] = {
        {{1e6, 0, 0}, 620e6}, {{-1e6, 0, 0}, 420e6}, {{0, 1e6, 0}, 32e6},
        {{0, -1e6, 0}, 105e6}, {{0, 0, 1e6}, 45e6}, {{0, 0, -1e6}, 45e6}};
    for (size_t i = 0; i < sizeof pure / sizeof *pure; i++) {
        assert_close(pl_reserve_tsai_wu(&s, pure[i].stress) * 1e6, pure[i].strength, 1e-12);
        assert_close(pl_reserve_max_stress(&s, pure[i].stress) * 1e6, pure[i].strength, 1e-12);
    }
}

static void mixed_stress_has_the_reserves_of_the_handbook(void **state)
{
    (void)state;
    struct pl_ply_strength s = pl_ply_strength(&uni, 0.6, 1);
    const double stress[3] = {-120e6, 6e6, 12e6};
    assert_close(pl_reserve_tsai_wu(&s, stress), 1.1359, 5e-5);  /* F5.8 */
    assert_close(pl_reserve_max_stress(&s, (const double[]){-120e6, 0, 0}), 2.10, 1e-12);
    assert_close(pl_reserve_max_stress(&s, (const double[]){0, 6e6, 0}), 3.20, 1e-12);
    assert_close(pl_reserve_max_stress(&s, (const double[]){0, 0, 12e6}), 2.25, 1e-12);
    assert_close(pl_reserve_max_stress(&s, stress), 2.10, 1e-12);
}

static void an_off_axis_ply_fails_where_the_textbook_says(void **state)
{
    (void)state;
    /* Kaw 2006, examples 2.17 and 2.19: 2S, -3S, 4S on a 60 degree graphite ply; S 16.33 MPa by greatest stress,
     * 22.39 MPa by Tsai-Wu with the interaction of -0.5 */
    struct pl_ply_strength s = full(&graphite);
    double c = cos(DEGREES(60)), n = sin(DEGREES(60)), x = 2e6, y = -3e6, xy = 4e6;
    const double own[3] = {c * c * x + n * n * y + 2 * c * n * xy, n * n * x + c * c * y - 2 * c * n * xy,
                           c * n * (y - x) + (c * c - n * n) * xy};
    assert_close(pl_reserve_max_stress(&s, own), 16.33, 3e-4);
    assert_close(pl_reserve_tsai_wu(&s, own), 22.39, 3e-4);
}

static void a_reserve_brings_the_criterion_to_one(void **state)
{
    (void)state;
    struct pl_ply_strength s = full(&uni);
    uint64_t seed = 3;
    double f11 = 1 / (s.xt_pa * s.xc_pa), f22 = 1 / (s.yt_pa * s.yc_pa), f12 = -0.5 * sqrt(f11 * f22);
    for (int i = 0; i < 1000; i++) {
        double t[3];
        for (int j = 0; j < 3; j++)
            t[j] = pow(10, chance_between(&seed, 0, 9)) * (chance(&seed) < 0.5 ? -1 : 1);
        double r = pl_reserve_tsai_wu(&s, t);
        double x = r * t[0], y = r * t[1], xy = r * t[2];
        double one = x * (1 / s.xt_pa - 1 / s.xc_pa) + y * (1 / s.yt_pa - 1 / s.yc_pa) + f11 * x * x + f22 * y * y
                     + xy * xy / (s.s_pa * s.s_pa) + 2 * f12 * x * y;
        assert_true(r > 0);
        assert_close(one, 1, 1e-10);
        /* half the stress, twice the reserve */
        assert_close(pl_reserve_tsai_wu(&s, (const double[]){t[0] / 2, t[1] / 2, t[2] / 2}), 2 * r, 1e-12);
        assert_close(pl_reserve_max_stress(&s, (const double[]){t[0] / 2, t[1] / 2, t[2] / 2}),
                     2 * pl_reserve_max_stress(&s, t), 1e-12);
    }
}

static void no_stress_never_fails(void **state)
{
    (void)state;
    struct pl_ply_strength s = full(&uni);
    assert_true(pl_reserve_tsai_wu(&s, (const double[]){0, 0, 0}) == HUGE_VAL);
    assert_true(pl_reserve_max_stress(&s, (const double[]){0, 0, 0}) == HUGE_VAL);
    assert_true(pl_reserve_max_stress(&s, (const double[]){0, 0, -0.0}) == HUGE_VAL);
}

static void heat_takes_what_chamis_says(void **state)
{
    (void)state;
    assert_close(pl_heat_factor(68, 58, 45), 0.537, 1e-3);  /* F5.10 */
    assert_close(pl_heat_factor(75, 65, 35), 0.760, 1e-3);
    assert_true(pl_heat_factor(75, 74, 10) == 1);   /* colder than the test was: no more than 1 */
    assert_true(pl_heat_factor((double)NAN, 65, 35) == 1 && pl_heat_factor(75, (double)NAN, 35) == 1
                && pl_heat_factor(75, 65, (double)NAN) == 1);
}

static void heat_weakens_what_the_resin_carries(void **state)
{
    (void)state;
    struct pl_fabric woven = uni;
    woven.e2_pa = woven.e1_pa;
    struct pl_ply_strength one_way = pl_ply_strength(&uni, 0.5, 0.8), two_way = pl_ply_strength(&woven, 0.5, 0.8);
    assert_close(one_way.xt_pa, 310e6, 1e-12);
    assert_close(one_way.xc_pa, 168e6, 1e-12);
    assert_close(one_way.yt_pa, 12.8e6, 1e-12);
    assert_close(one_way.yc_pa, 42e6, 1e-12);
    assert_close(one_way.s_pa, 18e6, 1e-12);
    assert_close(two_way.yt_pa, 16e6, 1e-12);  /* threads pull */
    assert_close(two_way.yc_pa, 42e6, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cured_ply_thickness_is_fibre_over_fibre_share),
        cmocka_unit_test(a_turned_ply_has_the_moduli_of_the_handbook),
        cmocka_unit_test(a_turned_ply_has_the_stiffness_of_the_textbook),
        cmocka_unit_test(invariants_do_not_change_when_a_ply_turns),
        cmocka_unit_test(stress_of_a_ply_is_its_turned_stiffness_turned_back),
        cmocka_unit_test(the_front_wing_stack_has_the_stiffness_of_the_handbook),
        cmocka_unit_test(an_unsymmetric_stack_has_the_stiffness_of_the_textbook),
        cmocka_unit_test(a_quasi_isotropic_stack_is_isotropic_in_its_plane),
        cmocka_unit_test(a_symmetric_stack_does_not_bend_when_pulled),
        cmocka_unit_test(plies_that_balance_do_not_shear_when_pulled),
        cmocka_unit_test(a_stack_of_like_plies_is_a_plate),
        cmocka_unit_test(an_inverse_undoes_its_matrix),
        cmocka_unit_test(both_criteria_give_the_strengths_in_pure_stress),
        cmocka_unit_test(mixed_stress_has_the_reserves_of_the_handbook),
        cmocka_unit_test(an_off_axis_ply_fails_where_the_textbook_says),
        cmocka_unit_test(a_reserve_brings_the_criterion_to_one),
        cmocka_unit_test(no_stress_never_fails),
        cmocka_unit_test(heat_takes_what_chamis_says),
        cmocka_unit_test(heat_weakens_what_the_resin_carries),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
