/* Flow over whole wings: lifting lines and surfaces, wings of little aspect, ground, two elements, end plates.
 *
 * Wings are flat where nothing else is said, and stand at so small an incidence that lift goes with it.  The lattice is that of
 * every wing of one element, 12 panels by 32 strips of the half span. */
#include "published.h"

#include "plyloft/wing_flow.h"

#include <gsl/gsl_linalg.h>
#include <complex.h>
#include <math.h>
#include <string.h>

enum { STATIONS = 2 * PL_WING_SPANWISE + 1 };

static const double small_rad = 1e-3;

static struct {
    struct pl_part part;
    struct pl_profile profile;
    struct pl_element elements[2];
    struct pl_station stations[STATIONS];
    struct pl_load_case load_case;
} w;

/* ---- plans: chord 1 at the root, aspect by span and area ---- */

/* How the chord falls off at n, the half span being 1, and which fraction of it lies on a straight line across the span. */
struct plan { double (*chord)(double n, double taper); double taper, straight; };

static double straight_sided(double n, double taper) { return 1 - n * (1 - taper); }
/* Not quite to a point, at which rings would have no area. */
static double rounded(double n, double taper) { (void)taper; return sqrt(fmax(1e-4, 1 - n * n)); }

static const struct plan rectangle = {straight_sided, 1, 0}, tapered = {straight_sided, 0.4, 0.25}, ellipse = {rounded, 0, 0.25},
                         disc = {rounded, 0, 0.5};

/* Stations where the lattice has edges and middles of strips, so that it sees the plan itself. */
static double station_n(size_t i) { return i == STATIONS - 1 ? 1 : sin(M_PI_2 * (double)i / (STATIONS - 1)); }

static double mean_chord(const struct plan *p)
{
    double sum = 0;
    for (size_t i = 1; i < STATIONS; i++)
        sum += 0.5 * (station_n(i) - station_n(i - 1)) * (p->chord(station_n(i), p->taper) + p->chord(station_n(i - 1), p->taper));
    return sum;
}

static void lay_out(const struct plan *p, double aspect, const char *naca)
{
    double semispan_m = 0.5 * aspect * mean_chord(p);
    memset(&w, 0, sizeof w);
    w.profile = (struct pl_profile){.name = "section", .naca = naca};
    for (size_t i = 0; i < STATIONS; i++) {
        double n = station_n(i), chord_m = p->chord(n, p->taper);
        w.stations[i] = (struct pl_station){.y_m = n * semispan_m, .chord_m = chord_m,
                                            .x_le_m = p->straight * (1 - chord_m)};
    }
    w.elements[0] = (struct pl_element){.name = "wing", .inverted = true, .stations = w.stations, .n_stations = STATIONS};
    w.load_case = (struct pl_load_case){.name = "air", .kind = PL_DOWNFORCE, .factor = 1, .ride_height_m = (double)NAN};
    w.part = (struct pl_part){.profiles = &w.profile, .n_profiles = 1, .elements = w.elements, .n_elements = 1,
                              .load_cases = &w.load_case, .n_load_cases = 1};
}

/* ---- figures ---- */

struct figures { double lift, drag, centre_m, height_m; };  /* downforce; height of the root's trailing edge */

static struct figures solve(double incidence_rad)
{
    struct figures f = {(double)NAN, (double)NAN, (double)NAN, (double)NAN};
    struct pl_problems problems = {0};
    struct pl_wing_flow *flow = pl_wing_flow_new();
    w.elements[0].incidence_rad = w.elements[1].incidence_rad = incidence_rad;
    if (flow && pl_wing_flow_aim(flow, &w.part, &w.load_case, &problems) == PL_OK) {
        while (pl_wing_flow_step(flow))
            ;
        if (pl_wing_flow_status(flow) == PL_OK) {
            size_t n;
            struct pl_wing_figures all = pl_wing_flow_figures(flow);
            f = (struct figures){all.lift, all.induced_drag, all.centre_m, pl_wing_flow_strips(flow, &n)[0].height_m};
        }
    }
    pl_wing_flow_free(flow);
    pl_problems_free(&problems);
    return f;
}

/* By the radian. */
static double slope_of(const struct plan *p, double aspect)
{
    lay_out(p, aspect, "0001");
    return solve(small_rad).lift / small_rad;
}

/* Drag by that of an ellipse with the same lift in free air, CL^2 / (pi A). */
static double drag_by_least(struct figures f, double aspect)
{
    return f.drag * M_PI * aspect / (f.lift * f.lift);
}

static double drag_of(const struct plan *p, double aspect)
{
    lay_out(p, aspect, "0001");
    return drag_by_least(solve(small_rad), aspect);
}

/* ---- the lifting line (Prandtl 1918; Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. 11) ---- */

/* With y = s cos t, mu = 2 pi c / (8 s) and sum(A_n sin nt) the circulation by 4 s V, n odd,
 *
 *     sum(A_n sin nt (n mu + sin t)) = mu a sin t,   CL = pi A A_1,   CDi = (1 + delta) CL^2 / (pi A),
 *
 * delta = sum(n (A_n / A_1)^2) over n from 3 on. */
enum { TERMS = 40 };

struct line { double slope, one_delta; };

static struct line line_of(const struct plan *p, double aspect)
{
    double semispan = 0.5 * aspect * mean_chord(p), matrix[TERMS * TERMS], right[TERMS], a[TERMS];
    int sign;
    size_t order[TERMS];
    for (size_t i = 0; i < TERMS; i++) {
        double t = M_PI_2 * ((double)i + 1) / TERMS, mu = 2 * M_PI * p->chord(cos(t), p->taper) / (8 * semispan);
        for (size_t k = 0; k < TERMS; k++) {
            double n = 2 * (double)k + 1;
            matrix[TERMS * i + k] = sin(n * t) * (n * mu + sin(t));
        }
        right[i] = mu * sin(t);
    }
    gsl_matrix_view m = gsl_matrix_view_array(matrix, TERMS, TERMS);
    gsl_vector_view b = gsl_vector_view_array(right, TERMS), x = gsl_vector_view_array(a, TERMS);
    gsl_permutation turns = {TERMS, order};
    gsl_linalg_LU_decomp(&m.matrix, &turns, &sign);
    gsl_linalg_LU_solve(&m.matrix, &turns, &b.vector, &x.vector);
    double sum = 0;
    for (size_t k = 0; k < TERMS; k++)
        sum += (2 * (double)k + 1) * (a[k] / a[0]) * (a[k] / a[0]);
    return (struct line){M_PI * aspect * a[0], sum};
}

static double ellipse_100_line(void) { return 2 * M_PI / (1 + 2.0 / 100); }
static double ellipse_20_line(void) { return 2 * M_PI / (1 + 2.0 / 20); }
static double ellipse_100(void) { return slope_of(&ellipse, 100); }
static double ellipse_20(void) { return slope_of(&ellipse, 20); }
static double ellipse_drag(void) { return drag_of(&ellipse, 20); }
static double rectangle_20_line(void) { return line_of(&rectangle, 20).slope; }
static double rectangle_20(void) { return slope_of(&rectangle, 20); }
static double rectangle_20_drag_line(void) { return line_of(&rectangle, 20).one_delta; }
static double rectangle_20_drag(void) { return drag_of(&rectangle, 20); }
static double rectangle_6(void) { return slope_of(&rectangle, 6); }
static double rectangle_6_drag(void) { return drag_of(&rectangle, 6); }
static double tapered_20_line(void) { return line_of(&tapered, 20).slope; }
static double tapered_20(void) { return slope_of(&tapered, 20); }
static double tapered_20_drag_line(void) { return line_of(&tapered, 20).one_delta; }
static double tapered_20_drag(void) { return drag_of(&tapered, 20); }

/* ---- surfaces ---- */

enum { LONG = 20000 };  /* so long that it is a section */

static double long_plate_exact(void) { return 2 * M_PI; }
static double long_plate(void) { return slope_of(&rectangle, LONG); }

static double zero_lift_deg(const char *naca)
{
    lay_out(&rectangle, LONG, naca);
    double low = solve(-small_rad).lift, high = solve(small_rad).lift;
    return -small_rad * (high + low) / (high - low) * 180 / M_PI;
}

static double angle_2412(void) { return zero_lift_deg("2412"); }
static double angle_4412(void) { return zero_lift_deg("4412"); }
static double angle_23012(void) { return zero_lift_deg("23012"); }

static double round_plate(void) { return slope_of(&disc, 4 / M_PI); }
static double square_two(void) { return slope_of(&rectangle, 2); }

/* Warren's plan 12: aspect 2 sqrt 2, taper 1/3, nose swept 53.54 degrees; lengths by the mean chord, here 2/3. */
static struct figures warren(void)
{
    static const struct plan plan = {straight_sided, 1.0 / 3, 0};
    lay_out(&plan, 2 * M_SQRT2, "0001");
    for (size_t i = 0; i < STATIONS; i++)
        w.stations[i].x_le_m = w.stations[i].y_m * tan(53.54 * M_PI / 180);
    return solve(small_rad);
}

static double warren_lift(void) { return warren().lift / small_rad; }

static double warren_moment(void)
{
    struct figures f = warren();
    return -f.lift / small_rad * f.centre_m / (2.0 / 3);
}

/* CL = pi / 2 A alpha (R. T. Jones, NACA report 835, 1946), where the aspect is next to none. */
static double slender_exact(void) { return M_PI_2 * 0.1; }
static double slender(void) { return slope_of(&rectangle, 0.1); }

/* One with a straight edge, pointed but for a hundredth: lift ahead of a place goes with the width there squared, so that its
 * centre lies two thirds of the way to where the width ends. */
static const struct plan pointed = {straight_sided, 0.01, 1};
static double pointed_exact(void) { return M_PI_2 * 0.05; }
static double pointed_centre_exact(void) { return 2.0 / 3 * 0.99; }
static double pointed_slope(void) { return slope_of(&pointed, 0.05); }

static double pointed_centre(void)
{
    lay_out(&pointed, 0.05, "0001");
    return solve(small_rad).centre_m;
}

/* ---- ground, and two elements ---- */

/* Prandtl's mutual drag of two elliptic loads one above the other, by the drag of each (NACA report 116, 1921), gap by the
 * half span: with z = y + i gap the air behind one has Re(1 - z / sqrt(z^2 - 1)) of its downwash. */
static double mutual(double gap)
{
    enum { STEPS = 2000 };
    double sum = 0;
    for (int i = 0; i < STEPS; i++) {
        double t = M_PI * (i + 0.5) / STEPS;
        double complex z = cos(t) + gap * (double complex)I, root = csqrt(z * z - 1);
        root = cimag(root) < 0 ? -root : root;
        sum += sin(t) * sin(t) / STEPS * creal(1 - z / root);
    }
    return 2 * sum;
}

enum { ASPECT = 8 };

static double span_m(void) { return 2 * w.stations[STATIONS - 1].y_m; }

static struct figures over_ground(double height_by_span)
{
    lay_out(&ellipse, ASPECT, "0001");
    w.load_case.ride_height_m = height_by_span * span_m();
    return solve(small_rad);
}

/* 1 - sigma, drag of a lift by that of the same lift in free air: of two elliptic loads, of Wieselsberger's fit to that (NACA
 * TM 77, 1922; from h/b = 1/30 to 1/4 within 1 % of it), and here.  The height is that of the wake. */
static double elliptic_at(double height_by_span)
{
    return 1 - mutual(4 * over_ground(height_by_span).height_m / span_m());
}

static double wieselsberger_at(double height_by_span)
{
    double h = over_ground(height_by_span).height_m / span_m();
    return 1 - (1 - 1.32 * h) / (1.05 + 7.4 * h);
}

static double drag_at(double height_by_span)
{
    return drag_by_least(over_ground(height_by_span), ASPECT) / drag_of(&ellipse, ASPECT);
}

#define AT_HEIGHT(name, height) \
    static double elliptic_##name(void) { return elliptic_at(height); } \
    static double wieselsberger_##name(void) { return wieselsberger_at(height); } \
    static double drag_##name(void) { return drag_at(height); }
AT_HEIGHT(fifteenth, 1.0 / 15)
AT_HEIGHT(tenth, 0.1)
AT_HEIGHT(quarter, 0.25)
static double elliptic_half(void) { return elliptic_at(0.5); }
static double drag_half(void) { return drag_at(0.5); }

static double lift_free(void) { return slope_of(&rectangle, 6); }

static double lift_far(void)
{
    lay_out(&rectangle, 6, "0001");
    w.load_case.ride_height_m = 100 * span_m();
    return solve(small_rad).lift / small_rad;
}

/* Two wings over each other, a fifth of the span between: all drag by that of one with all the lift, (1 + sigma) / 2. */
static double two_exact(void) { return 0.5 * (1 + mutual(0.4)); }

static double two(void)
{
    static struct pl_station upper[STATIONS];
    lay_out(&ellipse, ASPECT, "0001");
    for (size_t i = 0; i < STATIONS; i++) {
        upper[i] = w.stations[i];
        upper[i].z_le_m = 0.2 * span_m();
    }
    w.elements[1] = w.elements[0];
    w.elements[1].stations = upper;
    w.part.n_elements = 2;
    return drag_by_least(solve(small_rad), 0.5 * ASPECT);
}

/* ---- end plates ---- */

/* Aspect that a rectangle of aspect 6 seems to have by its drag, against that without plates; they are as long as the chord. */
static double seeming_aspect(double height_by_span)
{
    double without = drag_of(&rectangle, 6), height_m = height_by_span * span_m();
    w.elements[0].end_plates = (struct pl_end_plates){.given = true, .height_m = height_m, .length_m = 1, .below_m = 0.5 * height_m,
                                                      .x_le_m = (double)NAN, .thickness_m = 0.002};
    return without / drag_by_least(solve(small_rad), 6);
}

static double plates_1(void) { return seeming_aspect(0.1); }
static double plates_2(void) { return seeming_aspect(0.2); }
static double plates_4(void) { return seeming_aspect(0.4); }

#define CHORDLESS "a line sees no chord"
#define SQUARE CHORDLESS ", least at a square tip"
#define NOSE "12 panels miss the bend near the nose"
#define BETWEEN "there another load has less drag than an ellipse"
#define SLENDER "a limit, linear in aspect"
#define STRIPS "32 strips: 0.3 % less with 128"
#define QUOTED "as usually quoted"
#define LEAST "near ground another load has less drag than an ellipse"
#define RULE "a rule as usually quoted; no account of the plan"

static const struct published_row rows[] = {
    {"Prandtl 1918", "ellipse, aspect 100, lift slope", "/rad", 0, ellipse_100_line, ellipse_100, 4e-3, STRIPS},
    {"Prandtl 1918", "ellipse, aspect 20, lift slope", "/rad", 0, ellipse_20_line, ellipse_20, 0.015, CHORDLESS},
    PRINTED("Prandtl 1918", "ellipse, induced drag by CL2/(pi A)", "", 1, ellipse_drag, 1e-3),
    {"Glauert 1926", "rectangle, aspect 20, lift slope", "/rad", 0, rectangle_20_line, rectangle_20, 0.025, CHORDLESS},
    {"Glauert 1926", "rectangle, aspect 20, 1 + delta", "", 0, rectangle_20_drag_line, rectangle_20_drag, 0.06, SQUARE},
    {"Glauert 1926", "taper 0.4, aspect 20, lift slope", "/rad", 0, tapered_20_line, tapered_20, 0.02, CHORDLESS},
    {"Glauert 1926", "taper 0.4, aspect 20, 1 + delta", "", 0, tapered_20_drag_line, tapered_20_drag, 0.02, CHORDLESS},
    COARSE("Glauert 1926", "rectangle, aspect 6, lift slope", "/rad", 4.53, rectangle_6, 0.08, CHORDLESS),
    COARSE("Glauert 1926", "rectangle, aspect 6, 1 + delta", "", 1.048, rectangle_6_drag, 0.04, CHORDLESS),
    EXACT("thin-aerofoil theory", "plate, aspect 20000, lift slope", "/rad", long_plate_exact, long_plate, 1e-3),
    COARSE("Glauert; Abbott", "2412 mean line, aspect 20000, zero lift", "deg", -2.08, angle_2412, 3e-3, "3 digits there"),
    COARSE("Glauert; Abbott", "4412 mean line, aspect 20000, zero lift", "deg", -4.15, angle_4412, 2e-3, "3 digits there"),
    COARSE("Glauert; Abbott", "23012 mean line, aspect 20000, zero lift", "deg", -1.09, angle_23012, 0.02, NOSE),
    PRINTED("Jordan 1973", "disc, lift slope", "/rad", 1.790, round_plate, 1e-3),
    PRINTED("Lan 1974", "rectangle, aspect 2, lift slope", "/rad", 2.474, square_two, 1e-3),
    COARSE("Warren's plan 12", "swept and tapered, lift slope", "/rad", 2.743, warren_lift, 4e-3, QUOTED),
    COARSE("Warren's plan 12", "the same, moment about the nose", "/rad", -3.10, warren_moment, 4e-3, QUOTED),
    EXACT("Jones, NACA report 835", "rectangle, aspect 0.1, lift slope", "/rad", slender_exact, slender, 1e-3),
    {"Jones, NACA report 835", "triangle, aspect 0.05, lift slope", "/rad", 0, pointed_exact, pointed_slope, 0.01, SLENDER},
    {"Jones, NACA report 835", "the same, centre of lift", "chord", 0, pointed_centre_exact, pointed_centre, 0.01, SLENDER},
    {"Prandtl, NACA report 116", "ground at b/15, drag of a lift by free air's", "", 0, elliptic_fifteenth, drag_fifteenth, 0.05, LEAST},
    {"Prandtl, NACA report 116", "ground at b/10, the same", "", 0, elliptic_tenth, drag_tenth, 0.03, LEAST},
    {"Prandtl, NACA report 116", "ground at b/4, the same", "", 0, elliptic_quarter, drag_quarter, 0.004, LEAST},
    EXACT("Prandtl, NACA report 116", "ground at b/2, the same", "", elliptic_half, drag_half, 1e-3),
    {"Wieselsberger, NACA TM 77", "ground at b/15, the same", "", 0, wieselsberger_fifteenth, drag_fifteenth, 0.05, LEAST},
    {"Wieselsberger, NACA TM 77", "ground at b/10, the same", "", 0, wieselsberger_tenth, drag_tenth, 0.03, LEAST},
    {"Wieselsberger, NACA TM 77", "ground at b/4, the same", "", 0, wieselsberger_quarter, drag_quarter, 0.005, LEAST},
    EXACT("free air", "ground at 100 spans, lift slope", "/rad", lift_free, lift_far, 1e-5),
    {"Prandtl, NACA report 116", "two ellipses b/5 apart, drag by one's", "", 0, two_exact, two, 5e-3, BETWEEN},
    COARSE("Hemke, NACA report 267", "plates h/b 0.1, aspect 6: seeming aspect by it", "", 1.19, plates_1, 0.02, RULE),
    COARSE("Hemke, NACA report 267", "plates h/b 0.2", "", 1.38, plates_2, 0.02, RULE),
    COARSE("Hemke, NACA report 267", "plates h/b 0.4", "", 1.76, plates_4, 0.03, RULE),
};

const struct published_table published_wings = {"Flow over wings", rows, sizeof rows / sizeof *rows};
