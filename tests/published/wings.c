/* Wings on the lattice: exact solutions of thin surfaces, the lifting line, ground and end plates. */
#include "published.h"

#include "plyloft/wing_flow.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { STATIONS = 201 };

/* A flat plate at a small incidence that presses down, its outline given by stations. */
struct plate {
    struct pl_part part;
    struct pl_profile profile;
    struct pl_element element;
    struct pl_station stations[STATIONS];
    struct pl_load_case load_case;
};

static const double alpha_rad = 0.01;

static void start(struct plate *p, size_t stations)
{
    *p = (struct plate){.profile = {.name = "flat", .naca = "0008"}};
    p->element = (struct pl_element){.name = "plate", .inverted = true, .incidence_rad = alpha_rad, .stations = p->stations, .n_stations = stations};
    p->load_case = (struct pl_load_case){.kind = PL_DOWNFORCE, .speed_m_s = 30, .air_density_kg_m3 = 1.2, .ride_height_m = (double)NAN, .factor = 1};
    p->part = (struct pl_part){.profiles = &p->profile, .n_profiles = 1, .elements = &p->element, .n_elements = 1, .load_cases = &p->load_case, .n_load_cases = 1};
}

/* Of unit mean chord. */
static void tapered(struct plate *p, double aspect, double taper, double sweep_rad)
{
    double root_m = 2 / (1 + taper);
    start(p, 2);
    p->stations[0] = (struct pl_station){.chord_m = root_m};
    p->stations[1] = (struct pl_station){.y_m = 0.5 * aspect, .chord_m = taper * root_m, .x_le_m = 0.5 * aspect * tan(sweep_rad)};
}

/* Chords of an ellipse; `straight` is the chord fraction that lies on a straight line across. */
static void elliptic(struct plate *p, double aspect, double straight)
{
    double semispan_m = 0.5 * aspect, root_m = 4 / M_PI;
    start(p, STATIONS);
    for (size_t i = 0; i < STATIONS; i++) {
        double angle = M_PI_2 * (double)i / (STATIONS - 1), chord_m = fmax(1e-3, root_m * cos(angle));
        p->stations[i] = (struct pl_station){.y_m = semispan_m * sin(angle), .chord_m = chord_m, .x_le_m = straight * (root_m - chord_m)};
    }
}

static struct pl_wing_figures solve(struct plate *p)
{
    struct pl_wing_flow *flow = pl_wing_flow_new();
    struct pl_problems problems = {0};
    if (!flow || pl_wing_flow_aim(flow, &p->part, &p->load_case, &problems) != PL_OK)
        exit(1);
    while (pl_wing_flow_step(flow))
        ;
    if (pl_wing_flow_status(flow) != PL_OK)
        exit(1);
    struct pl_wing_figures f = pl_wing_flow_figures(flow);
    pl_wing_flow_free(flow);
    pl_problems_free(&problems);
    return f;
}

static double slope(struct plate *p) { return solve(p).lift / alpha_rad; }

/* Drag by that of an elliptic load of the same span and lift. */
static double drag_ratio(struct plate *p, double aspect)
{
    struct pl_wing_figures f = solve(p);
    return f.induced_drag * M_PI * aspect / (f.lift * f.lift);
}

/* ---- exact thin surfaces ---- */

static double circle(void)
{
    struct plate p;
    elliptic(&p, 4 / M_PI, 0.5);
    return slope(&p);
}

static double square(void)
{
    struct plate p;
    tapered(&p, 1, 1, 0);
    return slope(&p);
}

static double swept_slope(void)
{
    struct plate p;
    tapered(&p, 2 * M_SQRT2, 1.0 / 3, 53.54 * M_PI / 180);
    return slope(&p);
}

static double swept_centre(void)
{
    struct plate p;
    tapered(&p, 2 * M_SQRT2, 1.0 / 3, 53.54 * M_PI / 180);
    return solve(&p).centre_m;
}

static const double slender_aspect = 0.05, long_aspect = 400;

static double slender_here(void)
{
    struct plate p;
    tapered(&p, slender_aspect, 1, 0);
    return slope(&p);
}

static double slender_exact(void) { return M_PI_2 * slender_aspect; }

static double long_here(void)
{
    struct plate p;
    elliptic(&p, long_aspect, 0.25);
    return slope(&p);
}

static double long_exact(void) { return 2 * M_PI / (1 + 2 / long_aspect); }

/* ---- lifting line ---- */

static double elliptic_drag(void)
{
    struct plate p;
    elliptic(&p, 8, 0.25);
    return drag_ratio(&p, 8);
}

enum { TERMS = 40 };

/* Glauert's series: sum of A_n sin(n t) (sin t + n m) = m a sin t, m = pi c / (4 semispan); its 1 + sum n (A_n / A_1)^2. */
static double glauert_drag(double aspect, double taper)
{
    gsl_matrix *a = gsl_matrix_alloc(TERMS, TERMS);
    gsl_vector *b = gsl_vector_alloc(TERMS), *x = gsl_vector_alloc(TERMS);
    gsl_permutation *order = gsl_permutation_alloc(TERMS);
    double sum = 0;
    int sign;
    for (size_t i = 0; i < TERMS; i++) {
        double t = M_PI_2 * ((double)i + 1) / TERMS, chord_m = 2 / (1 + taper) * (1 - (1 - taper) * fabs(cos(t))), m = M_PI * chord_m / (2 * aspect);
        for (size_t k = 0; k < TERMS; k++) {
            double n = 2 * (double)k + 1;
            gsl_matrix_set(a, i, k, sin(n * t) * (sin(t) + n * m));
        }
        gsl_vector_set(b, i, m * sin(t));
    }
    gsl_linalg_LU_decomp(a, order, &sign);
    gsl_linalg_LU_solve(a, order, b, x);
    for (size_t k = 0; k < TERMS; k++)
        sum += (2 * (double)k + 1) * pow(gsl_vector_get(x, k) / gsl_vector_get(x, 0), 2);
    gsl_matrix_free(a);
    gsl_vector_free(b);
    gsl_vector_free(x);
    gsl_permutation_free(order);
    return sum;
}

static double straight_drag(double aspect, double taper)
{
    struct plate p;
    tapered(&p, aspect, taper, 0);
    return drag_ratio(&p, aspect);
}

static double oblong_line(void) { return glauert_drag(10, 1); }
static double oblong_here(void) { return straight_drag(10, 1); }
static double tapered_line(void) { return glauert_drag(10, 0.4); }
static double tapered_here(void) { return straight_drag(10, 0.4); }

/* ---- ground ---- */

/* Induced drag near the ground by that of free air, at equal lift; height over span. */
static double ground_here(double height)
{
    struct plate p;
    double aspect = 12;
    elliptic(&p, aspect, 0.25);
    double free_air = drag_ratio(&p, aspect);
    p.load_case.ride_height_m = height * aspect;
    return drag_ratio(&p, aspect) / free_air;
}

static double ground_there(double height) { return 1 - (1 - 1.32 * height) / (1.05 + 7.4 * height); }

static double ground_there_10(void) { return ground_there(0.1); }
static double ground_here_10(void) { return ground_here(0.1); }
static double ground_there_20(void) { return ground_there(0.2); }
static double ground_here_20(void) { return ground_here(0.2); }
static double ground_there_40(void) { return ground_there(0.4); }
static double ground_here_40(void) { return ground_here(0.4); }

static double far_from_ground(void) { return ground_here(500); }
static double one(void) { return 1; }

/* ---- end plates ---- */

static double plates_here(double height)
{
    struct plate p;
    double aspect = 4, span = aspect;
    tapered(&p, aspect, 1, 0);
    double bare = drag_ratio(&p, aspect);
    p.element.end_plates = (struct pl_end_plates){.given = true, .height_m = height * span, .length_m = 1.1, .below_m = 0.5 * height * span, .x_le_m = -0.05};
    return drag_ratio(&p, aspect) / bare;
}

static double plates_there_10(void) { return 1 / (1 + 1.9 * 0.1); }
static double plates_here_10(void) { return plates_here(0.1); }
static double plates_there_20(void) { return 1 / (1 + 1.9 * 0.2); }
static double plates_here_20(void) { return plates_here(0.2); }

#define RULE(source, what, there, here, band, because) {source, what, "", 0, there, here, band, because}

static const struct published_row rows[] = {
    COARSE("Krienes 1940; Jordan 1971", "circular plate, lift slope", "/rad", 1.790, circle, 0.006, "32 strips on a round tip"),
    COARSE("Tuck 1993", "square plate, lift slope", "/rad", 1.4602, square, 0.006, "32 strips"),
    COARSE("as usually quoted", "aspect 2.83, taper 1/3, swept 53.54: lift slope", "/rad", 2.743, swept_slope, 0.01, "2.73 to 2.75 there"),
    COARSE("as usually quoted", "the same, place of the lift, mean chords", "", 1.130, swept_centre, 0.01, "3.10 / 2.743 there"),
    RULE("Jones 1946", "slender oblong, aspect 0.05, lift slope", slender_exact, slender_here, 0.01, "a limit"),
    RULE("Prandtl 1918", "ellipse of aspect 400, lift slope", long_exact, long_here, 0.004, "a limit"),
    RULE("Munk 1921", "ellipse of aspect 8, drag by an elliptic load's", one, elliptic_drag, 0.005, "round tips are not quite elliptic"),
    RULE("Glauert 1926", "oblong of aspect 10, drag by an elliptic load's", oblong_line, oblong_here, 0.05, "a line loads square tips more than a surface"),
    RULE("Glauert 1926", "aspect 10, taper 0.4, the same", tapered_line, tapered_here, 0.01, "a line for a surface"),
    RULE("Wieselsberger 1922", "induced drag at 0.1 span over the ground by free air's", ground_there_10, ground_here_10, 0.05, "an empirical fit"),
    RULE("Wieselsberger 1922", "the same at 0.2 span", ground_there_20, ground_here_20, 0.05, "an empirical fit"),
    RULE("Wieselsberger 1922", "the same at 0.4 span", ground_there_40, ground_here_40, 0.05, "an empirical fit"),
    RULE("images", "the same at 500 spans", one, far_from_ground, 1e-5, "a limit"),
    RULE("Hoerner 1951", "plates 0.1 span high, induced drag by bare tips'", plates_there_10, plates_here_10, 0.05, "a rule of thumb"),
    RULE("Hoerner 1951", "plates 0.2 span high, the same", plates_there_20, plates_here_20, 0.05, "a rule of thumb"),
};

const struct published_table published_wings = {"Wings in the flow", rows, sizeof rows / sizeof *rows};
