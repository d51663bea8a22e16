/* Plies and stacks: worked examples of textbooks, and the handbook's own after Jones. */
#include "published.h"

#include "plyloft/laminate.h"

#include <math.h>

#define DEGREES(d) ((d) * M_PI / 180)

/* Graphite-epoxy of Tsai and Hahn 1980, also of Kaw 2006, table 2.1. */
static const struct pl_fabric graphite = {.e1_pa = 181e9, .e2_pa = 10.3e9, .g12_pa = 7.17e9, .nu12 = 0.28,
                                          .xt_pa = 1500e6, .xc_pa = 1500e6, .yt_pa = 40e6, .yc_pa = 246e6,
                                          .s_pa = 68e6};
static const struct pl_fabric plain = {.e1_pa = 17e9, .e2_pa = 17e9, .g12_pa = 3.2e9, .nu12 = 0.13,
                                       .areal_weight_kg_m2 = 0.163, .fibre_density_kg_m3 = 2560,
                                       .fibre_fraction = 0.38};
static const struct pl_fabric uni = {.e1_pa = 31e9, .e2_pa = 8e9, .g12_pa = 3e9, .nu12 = 0.28,
                                     .areal_weight_kg_m2 = 0.310, .fibre_density_kg_m3 = 2560, .fibre_fraction = 0.42,
                                     .xt_pa = 620e6, .xc_pa = 420e6, .yt_pa = 32e6, .yc_pa = 105e6, .s_pa = 45e6};

static double turned(int i, int j)
{
    double q[3][3];
    pl_ply_turned(&graphite, DEGREES(60), q);
    return q[i][j] / 1e9;
}

static double turned_11(void) { return turned(0, 0); }
static double turned_22(void) { return turned(1, 1); }
static double turned_16(void) { return turned(0, 2); }
static double turned_26(void) { return turned(1, 2); }
static double turned_66(void) { return turned(2, 2); }

static struct pl_abd kaw(void)
{
    const struct pl_ply plies[] = {
        {&graphite, 0, 5e-3, 0}, {&graphite, DEGREES(30), 5e-3, 0}, {&graphite, DEGREES(-45), 5e-3, 0}};
    struct pl_abd abd;
    pl_laminate_abd(plies, 3, &abd);
    return abd;
}

static double kaw_a11(void) { return kaw().a[0][0] / 1e9; }
static double kaw_a26(void) { return kaw().a[1][2] / 1e8; }
static double kaw_b11(void) { return kaw().b[0][0] / 1e6; }
static double kaw_b16(void) { return kaw().b[0][2] / 1e6; }
static double kaw_d11(void) { return kaw().d[0][0] / 1e4; }
static double kaw_d66(void) { return kaw().d[2][2] / 1e3; }

static struct pl_moduli quasi_isotropic(void)
{
    struct pl_ply plies[4];
    struct pl_abd abd;
    for (int i = 0; i < 4; i++)
        plies[i] = (struct pl_ply){&graphite, DEGREES(45 * i), 1e-3, 0};
    pl_laminate_abd(plies, 4, &abd);
    return pl_laminate_moduli(&abd);
}

static double quasi_e(void) { return quasi_isotropic().ex_pa / 1e9; }
static double quasi_g(void) { return quasi_isotropic().gxy_pa / 1e9; }

/* 45/45/0 x 5/45, the stack of F5.7. */
static struct pl_abd front_stack(void)
{
    struct pl_ply plies[8];
    struct pl_abd abd;
    for (int i = 0; i < 8; i++) {
        const struct pl_fabric *f = i < 2 || i == 7 ? &plain : &uni;
        plies[i] = (struct pl_ply){f, f == &plain ? DEGREES(45) : 0, pl_fabric_ply_m(f), 0};
    }
    pl_laminate_abd(plies, 8, &abd);
    return abd;
}

static double front_a11(void) { return front_stack().a[0][0] / 1e6; }
static double front_b11(void) { return front_stack().b[0][0] / 1e3; }
static double front_d11(void) { return front_stack().d[0][0]; }

static double front_along(void)
{
    struct pl_abd s = front_stack();
    return (s.a[0][0] - s.a[0][1] * s.a[0][1] / s.a[1][1]) / 1e6;
}

static struct pl_moduli bias(void)
{
    const struct pl_ply ply = {&plain, DEGREES(45), 1e-3, 0};
    struct pl_abd abd;
    pl_laminate_abd(&ply, 1, &abd);
    return pl_laminate_moduli(&abd);
}

static double bias_e(void) { return bias().ex_pa / 1e9; }
static double bias_g(void) { return bias().gxy_pa / 1e9; }

static double ply_plain(void) { return 1e3 * pl_fabric_ply_m(&plain); }
static double ply_uni(void) { return 1e3 * pl_fabric_ply_m(&uni); }

/* Kaw 2006, examples 2.17 and 2.19: 2S, -3S and 4S on a 60 degree ply. */
static void off_axis(double own_pa[3])
{
    double c = cos(DEGREES(60)), s = sin(DEGREES(60)), x = 2e6, y = -3e6, xy = 4e6;
    own_pa[0] = c * c * x + s * s * y + 2 * c * s * xy;
    own_pa[1] = s * s * x + c * c * y - 2 * c * s * xy;
    own_pa[2] = c * s * (y - x) + (c * c - s * s) * xy;
}

static double off_axis_max_stress(void)
{
    struct pl_ply_strength s = pl_ply_strength(&graphite, 1, 1);
    double own_pa[3];
    off_axis(own_pa);
    return pl_reserve_max_stress(&s, own_pa);
}

static double off_axis_tsai_wu(void)
{
    struct pl_ply_strength s = pl_ply_strength(&graphite, 1, 1);
    double own_pa[3];
    off_axis(own_pa);
    return pl_reserve_tsai_wu(&s, own_pa);
}

static double glass_tsai_wu(void)
{
    struct pl_ply_strength s = pl_ply_strength(&uni, 0.6, 1);
    return pl_reserve_tsai_wu(&s, (const double[]){-120e6, 6e6, 12e6});
}

static double heat_cold_cured(void) { return pl_heat_factor(68, 58, 45); }
static double heat_post_cured(void) { return pl_heat_factor(75, 65, 35); }

static const struct published_row rows[] = {
    PRINTED("Kaw 2006, example 2.6", "graphite ply at 60 deg, Q11", "GPa", 23.65, turned_11, 5e-4),
    PRINTED("Kaw 2006, example 2.6", "graphite ply at 60 deg, Q22", "GPa", 109.4, turned_22, 5e-4),
    PRINTED("Kaw 2006, example 2.6", "graphite ply at 60 deg, Q16", "GPa", 20.05, turned_16, 5e-4),
    PRINTED("Kaw 2006, example 2.6", "graphite ply at 60 deg, Q26", "GPa", 54.19, turned_26, 5e-4),
    PRINTED("Kaw 2006, example 2.6", "graphite ply at 60 deg, Q66", "GPa", 36.74, turned_66, 5e-4),
    PRINTED("Kaw 2006, example 4.2", "[0/30/-45] of 5 mm plies, A11", "GN/m", 1.739, kaw_a11, 5e-4),
    PRINTED("Kaw 2006, example 4.2", "[0/30/-45] of 5 mm plies, A26", "1e8N/m", -1.141, kaw_a26, 5e-4),
    PRINTED("Kaw 2006, example 4.2", "[0/30/-45] of 5 mm plies, B11", "MN", -3.129, kaw_b11, 5e-4),
    PRINTED("Kaw 2006, example 4.2", "[0/30/-45] of 5 mm plies, B16", "MN", -1.072, kaw_b16, 5e-4),
    PRINTED("Kaw 2006, example 4.2", "[0/30/-45] of 5 mm plies, D11", "1e4 Nm", 3.343, kaw_d11, 5e-4),
    PRINTED("Kaw 2006, example 4.2", "[0/30/-45] of 5 mm plies, D66", "kNm", 7.663, kaw_d66, 5e-4),
    PRINTED("Tsai and Hahn 1980", "quasi-isotropic graphite, E", "GPa", 69.68, quasi_e, 3e-4),
    PRINTED("Tsai and Hahn 1980", "quasi-isotropic graphite, G", "GPa", 26.88, quasi_g, 3e-4),
    PRINTED("Jones 1999, handbook F5.6", "plain glass at 45 deg, E", "GPa", 9.642, bias_e, 1e-4),
    PRINTED("Jones 1999, handbook F5.6", "plain glass at 45 deg, G", "GPa", 7.522, bias_g, 1e-4),
    PRINTED("Jones 1999, handbook F5.7", "[45/45/0x5/45] glass, A11", "MN/m", 52.132, front_a11, 1e-4),
    PRINTED("Jones 1999, handbook F5.7", "[45/45/0x5/45] glass, A11 - A12^2/A22", "MN/m", 49.751, front_along, 1e-4),
    PRINTED("Jones 1999, handbook F5.7", "[45/45/0x5/45] glass, B11", "kN", 2.2549, front_b11, 1e-4),
    PRINTED("Jones 1999, handbook F5.7", "[45/45/0x5/45] glass, D11", "Nm", 12.794, front_d11, 1e-4),
    PRINTED("handbook F5.1", "cured ply, plain glass 163 g/m2", "mm", 0.16756, ply_plain, 1e-4),
    PRINTED("handbook F5.1", "cured ply, glass uni 310 g/m2", "mm", 0.28832, ply_uni, 1e-4),
    PRINTED("Kaw 2006, example 2.17", "off-axis graphite, greatest stress", "MPa", 16.33, off_axis_max_stress, 5e-4),
    PRINTED("Tsai-Wu: Kaw 2006, ex. 2.19", "off-axis graphite, F12* = -0.5", "MPa", 22.39, off_axis_tsai_wu, 5e-4),
    PRINTED("Tsai, Wu 1971, handb. F5.8", "glass uni x 0.6, -120/6/12 MPa, reserve", "", 1.1359, glass_tsai_wu, 1e-4),
    PRINTED("Chamis 1983, handbook F5.10", "58 C wet, 68 C dry, at 45 C", "", 0.537, heat_cold_cured, 1e-3),
    PRINTED("Chamis 1983, handbook F5.10", "65 C wet, 75 C dry, at 35 C", "", 0.760, heat_post_cured, 1e-3),
};

const struct published_table published_laminates = {"Laminates", rows, sizeof rows / sizeof *rows};
