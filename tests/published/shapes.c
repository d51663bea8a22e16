/* Profiles: NACA reports 460 (1933) and 537 (1935), and what thin-aerofoil theory says of their mean lines. */
#include "published.h"

#include "plyloft/profile.h"

#include <math.h>
#include <stdbool.h>

static struct pl_naca naca_of(const char *designation)
{
    struct pl_naca naca;
    const char *why;
    pl_naca_parse(designation, &naca, &why);
    return naca;
}

/* In per cent of the chord, at x, by halving on the mean-line station. */
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
    return 100 * (on_top ? upper.z : lower.z);
}

static double z_0012_at_5(void) { return ordinate("0012", true, 0.05); }
static double z_0012_at_30(void) { return ordinate("0012", true, 0.30); }
static double z_0012_at_70(void) { return ordinate("0012", true, 0.70); }
static double top_4412_at_30(void) { return ordinate("4412", true, 0.30); }
static double bottom_4412_at_10(void) { return ordinate("4412", false, 0.10); }
static double top_23012_at_25(void) { return ordinate("23012", true, 0.25); }
static double bottom_23012_at_30(void) { return ordinate("23012", false, 0.30); }

static double nose_radius_0012(void)
{
    struct pl_naca naca = naca_of("0012");
    double half = pl_naca_half_thickness(&naca, 1e-10);
    return 100 * half * half / 2e-10;
}

static double camber_23012(void)
{
    struct pl_profile profile = {.naca = "23012"};
    return 100 * pl_profile_figures(&profile).camber;
}

static double area_0012(void)
{
    struct pl_profile profile = {.naca = "0012"};
    return pl_profile_figures(&profile).area;
}

static double exact_area_0012(void)
{
    return 10 * 0.12 * (0.2969 * 2 / 3 - 0.1260 / 2 - 0.3516 / 3 + 0.2843 / 4 - 0.1015 / 5);
}

static double area_6412(void)
{
    struct pl_profile profile = {.naca = "6412"};
    return pl_profile_figures(&profile).area;
}

/* pi A1 at the ideal angle, where A0 is 0 (Glauert 1926). */
static double design_lift(const char *designation)
{
    enum { STEPS = 20000 };
    struct pl_naca naca = naca_of(designation);
    double sum = 0, slope;
    for (int i = 0; i < STEPS; i++) {
        double theta = M_PI * (i + 0.5) / STEPS;
        pl_naca_mean(&naca, 0.5 * (1 - cos(theta)), &slope);
        sum += slope * cos(theta);
    }
    return M_PI * 2 * sum / STEPS;
}

static double lift_230(void) { return design_lift("23012"); }
static double lift_240(void) { return design_lift("24012"); }
static double lift_250(void) { return design_lift("25012"); }

static const struct published_row rows[] = {
    PRINTED("NACA report 460", "0012, ordinate at 5 % chord", "% c", 3.555, z_0012_at_5, 3e-4),
    PRINTED("NACA report 460", "0012, ordinate at 30 % chord", "% c", 6.002, z_0012_at_30, 3e-4),
    PRINTED("NACA report 460", "0012, ordinate at 70 % chord", "% c", 3.664, z_0012_at_70, 3e-4),
    COARSE("NACA report 460", "0012, nose radius", "% c", 1.58, nose_radius_0012, 5e-3, "3 digits there"),
    PRINTED("NACA report 460", "4412, upper surface at 30 % chord", "% c", 9.76, top_4412_at_30, 1e-3),
    COARSE("NACA report 460", "4412, lower surface at 10 % chord", "% c", -2.86, bottom_4412_at_10, 3e-3,
           "3 digits there"),
    PRINTED("NACA report 537", "23012, upper surface at 25 % chord", "% c", 7.60, top_23012_at_25, 1e-3),
    COARSE("NACA report 537", "23012, lower surface at 30 % chord", "% c", -4.46, bottom_23012_at_30, 2e-3,
           "3 digits there"),
    COARSE("NACA report 537", "23012, greatest camber", "% c", 1.84, camber_23012, 3e-3, "3 digits there"),
    PRINTED("NACA 537, Glauert 1926", "230 mean line, design lift coefficient", "", 0.30, lift_230, 1e-3),
    PRINTED("NACA 537, Glauert 1926", "240 mean line, design lift coefficient", "", 0.30, lift_240, 1e-3),
    PRINTED("NACA 537, Glauert 1926", "250 mean line, design lift coefficient", "", 0.30, lift_250, 1e-3),
    EXACT("integral of NACA 460", "0012, area, open edge", "c2", exact_area_0012, area_0012, 1e-5),
    PRINTED("handbook F7.4", "6412, area, open edge", "c2", 0.082853, area_6412, 1e-5),
};

const struct published_table published_shapes = {"Shapes", rows, sizeof rows / sizeof *rows};
