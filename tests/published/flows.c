/* Flow round sections: mapped circles, thin-aerofoil theory, and the measurements of NACA report 824 (1945). */
#include "published.h"

#include "plyloft/boundary_layer.h"
#include "plyloft/polar.h"
#include "plyloft/section_flow.h"

#include <complex.h>
#include <math.h>

enum { PANELS = 200, PLATE = 2001 };

static const double degree = M_PI / 180;

/* ---- potential flow ---- */

static double lift_round(const struct pl_point *nodes, double alpha_rad)
{
    double speed[PANELS], lift = (double)NAN;
    struct pl_problems problems = {0};
    struct pl_flow_body body = {nodes, PANELS + 1};
    struct pl_section_flow *flow = pl_section_flow_new();
    if (flow && pl_section_flow_set(flow, &body, 1, (double)NAN, false, &problems) == PL_OK
        && pl_section_flow_speeds(flow, alpha_rad, NULL, speed))
        lift = pl_section_flow_force(flow, 0, alpha_rad, speed, NULL, 0.25, 0).lift;
    pl_section_flow_free(flow);
    pl_problems_free(&problems);
    return lift;
}

/* z / k = ((1 + 1/zeta)^k + (1 - 1/zeta)^k) / ((1 + 1/zeta)^k - (1 - 1/zeta)^k) of a circle through zeta = 1 with its centre at
 * -0.08 + 0.06 i: k = 2 is Joukowski's, with a cusp. */
static double complex mapped(double k, double angle)
{
    double complex centre = -0.08 + 0.06 * (double complex)I;
    double complex zeta = centre + cabs(1 - centre) * cexp((double complex)I * angle);
    double complex a = cpow(1 + 1 / zeta, k), b = cpow(1 - 1 / zeta, k);
    return k * (a + b) / (a - b);
}

static double tail_angle(void) { return asin(0.06 / hypot(1.08, 0.06)); }

static double mapped_chord(double k)
{
    double least = 0;
    for (int i = 0; i < 100000; i++)
        least = fmin(least, creal(mapped(k, 0.5 * M_PI + M_PI * i / 100000)));
    return k - least;
}

static double mapped_here(double k)
{
    struct pl_point nodes[PANELS + 1];
    double chord = mapped_chord(k);
    for (int i = 0; i <= PANELS; i++) {
        double complex z = i == 0 || i == PANELS ? k : mapped(k, -tail_angle() + 2 * M_PI * i / PANELS);
        nodes[i] = (struct pl_point){1 - (k - creal(z)) / chord, cimag(z) / chord};
    }
    return lift_round(nodes, 5 * degree);
}

static double mapped_exact(double k)
{
    return 8 * M_PI * hypot(1.08, 0.06) / mapped_chord(k) * sin(5 * degree + tail_angle());
}

static double joukowski(void) { return mapped_here(2); }
static double joukowski_exact(void) { return mapped_exact(2); }
static double karman_trefftz(void) { return mapped_here(1.9); }
static double karman_trefftz_exact(void) { return mapped_exact(1.9); }

/* ---- polars ---- */

static struct pl_polar_row row(const char *designation, double reynolds, double height, double alpha_deg)
{
    struct pl_profile profile = {.name = "section", .naca = designation};
    struct pl_polar_row r = {.cl = (double)NAN, .cm = (double)NAN, .cd = (double)NAN, .cl_potential = (double)NAN, .cm_potential = (double)NAN};
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    if (pl_polar_start(&polar, &profile, reynolds, height, PANELS, &problems) == PL_OK
        && pl_polar_row(polar, alpha_deg, &r, &problems) != PL_OK)
        r.cl = r.cm = r.cd = r.cl_potential = r.cm_potential = (double)NAN;
    pl_polar_free(polar);
    pl_problems_free(&problems);
    return r;
}

/* Where lift, potential or as layers leave it, is zero. */
static struct pl_polar_row zero_lift(const char *designation, bool potential)
{
    double low = -8, high = 2;
    struct pl_polar_row r = {0};
    for (int i = 0; i < 14; i++) {
        double middle = 0.5 * (low + high);
        r = row(designation, 6e6, (double)NAN, middle);
        *((potential ? r.cl_potential : r.cl) < 0 ? &low : &high) = middle;
    }
    return r;
}

static double angle_2412(void) { return zero_lift("2412", true).alpha_deg; }
static double angle_4412(void) { return zero_lift("4412", true).alpha_deg; }
static double angle_23012(void) { return zero_lift("23012", true).alpha_deg; }
static double moment_2412(void) { return zero_lift("2412", true).cm_potential; }
static double moment_4412(void) { return zero_lift("4412", true).cm_potential; }
static double moment_23012(void) { return zero_lift("23012", true).cm_potential; }
static double real_angle_2412(void) { return zero_lift("2412", false).alpha_deg; }
static double real_angle_4412(void) { return zero_lift("4412", false).alpha_deg; }
static double real_angle_23012(void) { return zero_lift("23012", false).alpha_deg; }
static double real_moment_2412(void) { return zero_lift("2412", false).cm; }
static double real_moment_4412(void) { return zero_lift("4412", false).cm; }

/* Of the straight line nearest to -4, -3 ... 6 degrees. */
static double slope(const char *designation)
{
    double up = 0;
    for (int i = -5; i <= 5; i++)
        up += i * row(designation, 6e6, (double)NAN, 1 + i).cl;
    return up / 110;
}

static double slope_0012(void) { return slope("0012"); }
static double slope_2412(void) { return slope("2412"); }
static double slope_4412(void) { return slope("4412"); }
static double slope_23012(void) { return slope("23012"); }

static double greatest(const char *designation, double reynolds)
{
    struct pl_profile profile = {.name = "section", .naca = designation};
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    double best = (double)NAN;
    if (pl_polar_start(&polar, &profile, reynolds, (double)NAN, PANELS, &problems) == PL_OK)
        for (int alpha = 0; alpha <= 24; alpha++) {
            struct pl_polar_row r;
            if (pl_polar_row(polar, alpha, &r, &problems) == PL_OK)
                best = fmax(best, r.cl);
        }
    pl_polar_free(polar);
    pl_problems_free(&problems);
    return best;
}

static double greatest_0012_3(void) { return greatest("0012", 3e6); }
static double greatest_0012_6(void) { return greatest("0012", 6e6); }
static double greatest_2412_3(void) { return greatest("2412", 3e6); }
static double greatest_2412_6(void) { return greatest("2412", 6e6); }
static double greatest_4412_3(void) { return greatest("4412", 3e6); }
static double greatest_4412_6(void) { return greatest("4412", 6e6); }
static double greatest_23012_3(void) { return greatest("23012", 3e6); }
static double greatest_23012_6(void) { return greatest("23012", 6e6); }

static double drag_0012(void) { return row("0012", 6e6, (double)NAN, 0).cd; }
static double drag_2412(void) { return row("2412", 6e6, (double)NAN, 0).cd; }
static double drag_4412(void) { return row("4412", 6e6, (double)NAN, 0).cd; }
static double drag_23012(void) { return row("23012", 6e6, (double)NAN, 0).cd; }

/* ---- plates ---- */

/* Drag of one side. */
static double plate(double reynolds, double *turbulent_way)
{
    static double way[PLATE], speed[PLATE], theta[PLATE], shape[PLATE];
    struct pl_boundary_layer l = {.count = PLATE, .way = way, .speed = speed, .theta = theta, .shape = shape};
    for (int i = 1; i < PLATE; i++) {
        double share = (double)i / (PLATE - 1);
        way[i] = share * share * share;
        speed[i] = 1;
    }
    if (!pl_boundary_layer_march(&l, reynolds, PL_SHAPE_SEPARATES, 4))
        return (double)NAN;
    *turbulent_way = l.turbulent_way;
    return pl_boundary_layer_drag(&l);
}

static double laminar_plate(void)
{
    double way;
    return 1e3 * plate(1e5, &way);
}

static double blasius(void) { return 1e3 * 2 * 0.66412 / sqrt(1e5); }

/* Behind the same transition: the drag of its front is turbulent there and laminar here. */
static double turbulent_plate(double reynolds)
{
    double way, drag = plate(reynolds, &way), at = way * reynolds;
    return 1e3 * (drag + way * (0.455 / pow(log10(at), 2.58) - 2 * sqrt(0.45 / at)));
}

static double plate_1e7(void) { return turbulent_plate(1e7); }
static double plate_4e7(void) { return turbulent_plate(4e7); }
static double schlichting_1e7(void) { return 1e3 * 0.455 / pow(7, 2.58); }
static double schlichting_4e7(void) { return 1e3 * 0.455 / pow(log10(4e7), 2.58); }

/* ---- ground ---- */

static struct pl_point turned[PANELS + 1];
static double ground_speed[PANELS], ground_z;

/* 6412 at 2 degrees, its trailing edge half a chord from the ground. */
static struct pl_section_flow *over_ground(void)
{
    struct pl_profile profile = {.name = "section", .naca = "6412"};
    struct pl_problems problems = {0};
    struct pl_section_flow *flow = pl_section_flow_new();
    struct pl_flow_body body = {turned, PANELS + 1};
    double c = cos(2 * degree), s = sin(2 * degree);
    pl_flow_outline(&profile, turned, PANELS + 1);
    for (int i = 0; i <= PANELS; i++)
        turned[i] = (struct pl_point){turned[i].x * c + turned[i].z * s, turned[i].z * c - turned[i].x * s};
    ground_z = 0.5 * (turned[0].z + turned[PANELS].z) + 0.5;
    if (flow && (pl_section_flow_set(flow, &body, 1, ground_z, false, &problems) != PL_OK
                 || !pl_section_flow_speeds(flow, 0, NULL, ground_speed))) {
        pl_section_flow_free(flow);
        flow = NULL;
    }
    pl_problems_free(&problems);
    return flow;
}

static double suction(const struct pl_section_flow *flow, double x)
{
    double u, w;
    pl_section_flow_velocity(flow, 0, ground_speed, x, ground_z, &u, &w);
    return u * u - 1;
}

/* Over 300 chords to either side, and what falls with x^-2 behind. */
static double on_the_ground(void)
{
    enum { STEPS = 3000 };
    struct pl_section_flow *flow = over_ground();
    double end = asinh(300), h = 2 * end / STEPS, sum = 0;
    if (!flow)
        return (double)NAN;
    for (int i = 0; i < STEPS; i++) {
        double s = -end + ((double)i + 0.5) * h;
        sum += h * cosh(s) * suction(flow, 0.5 + sinh(s));
    }
    sum += 300 * (suction(flow, 300.5) + suction(flow, -299.5));
    pl_section_flow_free(flow);
    return sum;
}

/* And on what leaves its open edge, 2 g u^2 square to it. */
static double on_the_section(void)
{
    struct pl_section_flow *flow = over_ground();
    double lift = flow ? pl_section_flow_force(flow, 0, 0, ground_speed, NULL, 0.25, 0).lift : (double)NAN;
    pl_section_flow_free(flow);
    return lift + 2 * ground_speed[0] * ground_speed[0] * (turned[0].x - turned[PANELS].x);
}

#define THEORY "thickness adds to thin theory"
#define READ "as usually quoted, to 0.05; stall by the turbulent layer alone"
#define LAYERS "layers leave more camber than was measured"

static const struct published_row rows[] = {
    EXACT("Joukowski", "section with a cusp, lift at 5 degrees", "", joukowski_exact, joukowski, 1e-3),
    EXACT("Karman, Trefftz 1918", "section with a tail of 18 degrees, lift at 5", "", karman_trefftz_exact, karman_trefftz, 1e-3),
    COARSE("Glauert; Abbott", "2412, zero lift, potential flow", "deg", -2.08, angle_2412, 0.045, THEORY),
    COARSE("Glauert; Abbott", "4412, zero lift, potential flow", "deg", -4.15, angle_4412, 0.045, THEORY),
    COARSE("Glauert; Abbott", "23012, zero lift, potential flow", "deg", -1.09, angle_23012, 0.085, THEORY),
    COARSE("Glauert; Abbott", "2412, moment there", "", -0.053, moment_2412, 0.02, THEORY),
    COARSE("Glauert; Abbott", "4412, moment there", "", -0.106, moment_4412, 0.02, THEORY),
    COARSE("Glauert; Abbott", "23012, moment there", "", -0.0128, moment_23012, 0.35, "of 0.004: " THEORY),
    COARSE("NACA report 824", "2412, zero lift with layers, Re 6e6", "deg", -2.1, real_angle_2412, 0.05, "2 digits there"),
    COARSE("NACA report 824", "4412, zero lift with layers, Re 6e6", "deg", -4.0, real_angle_4412, 0.09, LAYERS),
    COARSE("NACA report 824", "23012, zero lift with layers, Re 6e6", "deg", -1.2, real_angle_23012, 0.06, "2 digits there"),
    COARSE("NACA report 824", "2412, moment there", "", -0.05, real_moment_2412, 0.08, "1 digit there"),
    COARSE("NACA report 824", "4412, moment there", "", -0.09, real_moment_4412, 0.16, LAYERS),
    COARSE("NACA report 824", "0012, lift slope, Re 6e6", "/deg", 0.107, slope_0012, 0.05, "as usually quoted, to 0.002"),
    COARSE("NACA report 824", "2412, lift slope, Re 6e6", "/deg", 0.105, slope_2412, 0.05, "as usually quoted, to 0.002"),
    COARSE("NACA report 824", "4412, lift slope, Re 6e6", "/deg", 0.106, slope_4412, 0.05, "as usually quoted, to 0.002"),
    COARSE("NACA report 824", "23012, lift slope, Re 6e6", "/deg", 0.107, slope_23012, 0.05, "as usually quoted, to 0.002"),
    COARSE("NACA report 824", "0012, greatest lift, Re 3e6", "", 1.50, greatest_0012_3, 0.15, READ),
    COARSE("NACA report 824", "0012, greatest lift, Re 6e6", "", 1.58, greatest_0012_6, 0.15, READ),
    COARSE("NACA report 824", "2412, greatest lift, Re 3e6", "", 1.56, greatest_2412_3, 0.15, READ),
    COARSE("NACA report 824", "2412, greatest lift, Re 6e6", "", 1.64, greatest_2412_6, 0.15, READ),
    COARSE("NACA report 824", "4412, greatest lift, Re 3e6", "", 1.55, greatest_4412_3, 0.15, READ),
    COARSE("NACA report 824", "4412, greatest lift, Re 6e6", "", 1.64, greatest_4412_6, 0.15, READ),
    COARSE("NACA report 824", "23012, greatest lift, Re 3e6", "", 1.62, greatest_23012_3, 0.17, READ),
    COARSE("NACA report 824", "23012, greatest lift, Re 6e6", "", 1.73, greatest_23012_6, 0.15, READ),
    COARSE("NACA report 824", "0012, drag at 0 degrees, Re 6e6", "", 0.0060, drag_0012, 0.09, "0.0055 to 0.0065 there"),
    COARSE("NACA report 824", "2412, drag at 0 degrees, Re 6e6", "", 0.0060, drag_2412, 0.09, "0.0055 to 0.0065 there"),
    COARSE("NACA report 824", "4412, drag at 0 degrees, Re 6e6", "", 0.0060, drag_4412, 0.09, "0.0055 to 0.0065 there"),
    COARSE("NACA report 824", "23012, drag at 0 degrees, Re 6e6", "", 0.0060, drag_23012, 0.09, "0.0055 to 0.0065 there"),
    {"Blasius", "laminar plate, Re 1e5, 1000 C_F", "", 0, blasius, laminar_plate, 0.011, "Thwaites is 1 % thick on a plate"},
    {"Prandtl, Schlichting", "turbulent plate, Re 1e7, 1000 C_F", "", 0, schlichting_1e7, plate_1e7, 0.01, "a power law of friction"},
    {"Prandtl, Schlichting", "turbulent plate, Re 4e7, 1000 C_F", "", 0, schlichting_4e7, plate_4e7, 0.07, "a power law of friction"},
    EXACT("balance of forces", "6412 at 2, half a chord up: lift on the ground", "", on_the_section, on_the_ground, 5e-4),
};

const struct published_table published_flows = {"Flow round sections", rows, sizeof rows / sizeof *rows};
