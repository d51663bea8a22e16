/* Polars against reference figures of the contract, measurements of NACA report 824, and laws of their own. */
#include "flows.h"

#include "plyloft/polar.h"
#include "plyloft/profile.h"

static struct pl_profile naca(const char *designation)
{
    return (struct pl_profile){.name = "section", .naca = designation};
}

/* Rows of a sweep in order. */
static void sweep_of(const struct pl_profile *profile, double reynolds, double height, double from, double step, size_t count,
                     struct pl_polar_row *rows)
{
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    assert_int_equal(pl_polar_start(&polar, profile, reynolds, height, PL_POLAR_PANELS, &problems), PL_OK);
    for (size_t i = 0; i < count; i++)
        if (pl_polar_row(polar, from + (double)i * step, &rows[i], &problems) != PL_OK)
            fail_msg("at %g degrees: %s", from + (double)i * step, problems.list[0].rule);
    pl_polar_free(polar);
    pl_problems_free(&problems);
}

static void sweep(const char *designation, double reynolds, double from, double step, size_t count, struct pl_polar_row *rows)
{
    struct pl_profile profile = naca(designation);
    sweep_of(&profile, reynolds, (double)NAN, from, step, count, rows);
}

static struct pl_polar_row row_of(const char *designation, double reynolds, double height, double alpha_deg)
{
    struct pl_profile profile = naca(designation);
    struct pl_polar_row row;
    sweep_of(&profile, reynolds, height, alpha_deg, 1, 1, &row);
    return row;
}

/* ---- reference figures ---- */

static void rows_of_the_contract_are_met(void **state)
{
    (void)state;
    /* front-wing.flow-expect.json beside the contract, `polar --profile main`: 6412 at Re = 6e5, by another method.  On the upper
     * side at 0 degrees Michel's curve is met at a small angle, so that transition may move by a tenth of the chord for a few
     * thousandths in speed; it stays within 0.03 all the same. */
    static const struct { double height, alpha_deg, cl, cm, cd, upper, lower; } rows[] = {
        {(double)NAN, 0, 0.77889757, -0.16649186, 0.01106867, 0.39587156, 0.20427318},
        {(double)NAN, 4, 1.2605145, -0.17401459, 0.011186716, 0.36928967, 0.96074716},
        {0.5, 2, 1.5963236, -0.26380781, 0.01662473, 0.39587156, 0.96074716},
    };
    for (size_t i = 0; i < 3; i++) {
        struct pl_polar_row r = row_of("6412", 6e5, rows[i].height, rows[i].alpha_deg);
        assert_close(r.cl_potential, rows[i].cl, 5e-3);
        assert_close(r.cm_potential, rows[i].cm, 5e-3);
        assert_close(r.cd, rows[i].cd, 0.03);
        assert_near(r.turbulent_from_upper, rows[i].upper, 0.03);
        assert_near(r.turbulent_from_lower, rows[i].lower, 0.03);
        assert_false(r.separated);
    }
}

/* ---- zero lift ---- */

/* By halving between two angles: of the potential flow, or of what layers leave. */
static struct pl_polar_row at_zero_lift(const char *designation, bool potential)
{
    double low = -8, high = 2;
    struct pl_polar_row r = {0};
    for (int i = 0; i < 12; i++) {
        double middle = 0.5 * (low + high);
        r = row_of(designation, 6e6, (double)NAN, middle);
        *((potential ? r.cl_potential : r.cl) < 0 ? &low : &high) = middle;
    }
    return r;
}

static void zero_lift_and_its_moment_are_near_thin_theory_and_nearer_to_measurement(void **state)
{
    (void)state;
    /* Thin theory (Glauert; Abbott and von Doenhoff): 2412 -2.08, -0.053; 4412 -4.15, -0.106; 23012 -1.09, -0.0128.  Measured
     * (NACA report 824): -2.1, -0.05; -4, -0.09; -1.2, -0.01.  A thick section in potential flow turns the air a few per cent
     * more, its moment a few per cent less; layers take 4412 a part of the way to what was measured. */
    static const struct { const char *name; double thin, thin_cm, measured, measured_cm; } sections[] = {
        {"2412", -2.08, -0.053, -2.1, -0.05}, {"4412", -4.15, -0.106, -4.0, -0.09}, {"23012", -1.09, -0.0128, -1.2, -0.01},
    };
    for (int i = 0; i < 3; i++) {
        struct pl_polar_row potential = at_zero_lift(sections[i].name, true), real = at_zero_lift(sections[i].name, false);
        assert_near(potential.alpha_deg, sections[i].thin, 0.16);
        assert_near(potential.cm_potential, sections[i].thin_cm, 0.0045);
        assert_near(real.alpha_deg, sections[i].measured, 0.35);
        assert_near(real.cm, sections[i].measured_cm, 0.015);
    }
}

/* ---- lift ---- */

/* Lift slopes a degree and greatest lifts of smooth sections as they are usually quoted of NACA report 824, good to about
 * 0.002 and 0.05; they were not read anew from its curves. */
static const struct { const char *name; double reynolds, slope, greatest; } measured[] = {
    {"0012", 3e6, 0.107, 1.50}, {"0012", 6e6, 0.107, 1.58}, {"2412", 3e6, 0.105, 1.56}, {"2412", 6e6, 0.105, 1.64},
    {"4412", 3e6, 0.106, 1.55}, {"4412", 6e6, 0.106, 1.64}, {"23012", 3e6, 0.107, 1.62}, {"23012", 6e6, 0.107, 1.73},
};

enum { MEASURED = sizeof measured / sizeof *measured, SWEPT = 29 };

/* Their polars from -4 to 24 degrees, made once. */
static struct pl_polar_row swept[MEASURED][SWEPT];

static int sweep_all(void **state)
{
    (void)state;
    for (int i = 0; i < MEASURED; i++)
        sweep(measured[i].name, measured[i].reynolds, -4, 1, SWEPT, swept[i]);
    return 0;
}

/* Of the straight line nearest to the first rows, a degree apart. */
static double fitted_slope(const struct pl_polar_row *rows, int count)
{
    double up = 0, across = 0, middle = 0.5 * (count - 1);
    for (int i = 0; i < count; i++) {
        up += (i - middle) * rows[i].cl;
        across += (i - middle) * (i - middle);
    }
    return up / across;
}

static void lift_slope_is_within_five_per_cent_of_measurement(void **state)
{
    (void)state;
    for (int i = 0; i < MEASURED; i++)
        assert_close(fitted_slope(swept[i], 11), measured[i].slope, 0.05);
}

static void greatest_lift_is_within_some_per_cent_of_measurement(void **state)
{
    (void)state;
    /* 12 % sections stall from the tail here, with the turbulent layer; those with a round nose of small camber stall from the
     * nose in the tunnel, later and all at once, so 0012 and 23012 come out 9 to 15 % low, 4412 12 to 14 % high.  Where rounds
     * come to rest moves these by 1 %: 15 %, and 17 % of 23012 at 3e6, which is 14.6 % off. */
    for (int i = 0; i < MEASURED; i++) {
        const struct pl_polar_row *rows = swept[i];
        size_t best = pl_polar_greatest(rows, SWEPT);
        assert_true(best != PL_NONE);
        assert_close(rows[best].cl, measured[i].greatest, i == MEASURED - 2 ? 0.17 : 0.15);
        assert_between(rows[best].alpha_deg, 13, 23);
    }
}

static void lift_falls_or_stands_behind_the_greatest(void **state)
{
    (void)state;
    for (int i = 0; i < MEASURED; i++) {
        const struct pl_polar_row *rows = swept[i];
        size_t best = pl_polar_greatest(rows, SWEPT);
        for (size_t k = best + 1; k < SWEPT; k++)
            assert_between(rows[k].cl, 0.8 * rows[best].cl, rows[best].cl);
        assert_true(rows[best].cl < 0.85 * rows[best].cl_potential);
        assert_true(rows[SWEPT - 1].attached_upper < 0.7);
    }
}

static void lift_rises_evenly_while_the_flow_is_attached(void **state)
{
    (void)state;
    /* Steps of half a degree, 0.0545 on average at 0.109 a degree.  Where a layer comes to leave the very edge the model
     * has two answers 2 to 4 % apart, so that one step may be short or long by 0.03. */
    static const char *const names[] = {"0012", "2412", "4412", "23012"};
    for (int i = 0; i < 4; i++) {
        struct pl_polar_row rows[13];
        sweep(names[i], 6e6, 0, 0.5, 13, rows);
        for (int k = 1; k < 13; k++)
            assert_between(rows[k].cl - rows[k - 1].cl, 0.025, 0.085);
    }
}

static void more_reynolds_number_is_more_greatest_lift_and_less_drag(void **state)
{
    (void)state;
    static const char *const names[] = {"0012", "2412", "4412", "23012"};
    for (int i = 0; i < 4; i++) {
        double lift = 0, drag = HUGE_VAL;
        for (double reynolds = 7.5e5; reynolds < 1e7; reynolds *= 4) {
            struct pl_polar_row rows[13];
            sweep(names[i], reynolds, 0, 2, 13, rows);
            double best = 0;
            for (int k = 0; k < 13; k++)
                best = fmax(best, rows[k].cl);
            assert_true(best > lift && rows[0].cd < drag);
            lift = best;
            drag = rows[0].cd;
        }
    }
}

static void drag_of_smooth_sections_is_that_of_the_report(void **state)
{
    (void)state;
    /* 12 % sections at Re = 6e6 near design lift, NACA report 824: 0.0055 to 0.0065 */
    static const char *const names[] = {"0012", "2412", "4412", "23012"};
    for (int i = 0; i < 4; i++)
        assert_between(row_of(names[i], 6e6, (double)NAN, 0).cd, 0.0055, 0.0065);
}

/* ---- laws ---- */

static void symmetric_sections_have_symmetric_polars(void **state)
{
    (void)state;
    for (int alpha = 0; alpha <= 16; alpha += 4) {
        struct pl_polar_row up = row_of("0015", 1e6, (double)NAN, alpha), down = row_of("0015", 1e6, (double)NAN, -alpha);
        assert_near(down.cl_potential, -up.cl_potential, 1e-8);
        assert_near(down.cl, -up.cl, 0.05 * fmax(0.5, up.cl));  /* rounding may lead to another rest */
        assert_near(down.cm, -up.cm, 0.02);
        assert_close(down.cd, up.cd, 1e-6);
        assert_near(down.turbulent_from_upper, up.turbulent_from_lower, 1e-6);
        assert_near(down.turbulent_from_lower, up.turbulent_from_upper, 1e-6);
        assert_near(down.attached_lower, up.attached_upper, 0.1);
    }
}

static void a_row_alone_is_that_of_a_sweep(void **state)
{
    (void)state;
    /* What does not depend on rounds is the same to the last figure.  Lift is where the rounds came to rest: within 5 %, and
     * deep in the stall, where flow and layers agree in more than one way, within 10 %. */
    struct pl_polar_row rows[21];
    static const char *const names[] = {"0012", "4412", "6412"};
    for (int i = 0; i < 3; i++) {
        sweep(names[i], 1e6, 0, 1, 21, rows);
        for (int alpha = 0; alpha <= 20; alpha += 4) {
            struct pl_polar_row alone = row_of(names[i], 1e6, (double)NAN, alpha);
            assert_near(alone.cl_potential, rows[alpha].cl_potential, 1e-12);
            assert_near(alone.cm_potential, rows[alpha].cm_potential, 1e-12);
            assert_near(alone.cd, rows[alpha].cd, 1e-12);
            assert_near(alone.cl, rows[alpha].cl, (alpha <= 12 ? 0.05 : 0.1) * fmax(0.5, fabs(rows[alpha].cl)));
        }
    }
}

static void a_sweep_done_twice_gives_the_same_figures(void **state)
{
    (void)state;
    struct pl_polar_row first[10], again[10];
    sweep("2412", 1e6, 0, 2, 10, first);
    sweep("2412", 1e6, 0, 2, 10, again);
    for (int i = 0; i < 10; i++)
        assert_true(first[i].cl == again[i].cl && first[i].cm == again[i].cm && first[i].cd == again[i].cd);
}

static void lift_with_layers_stays_below_that_without(void **state)
{
    (void)state;
    for (int i = 0; i < 4; i++) {
        struct pl_polar_row rows[11];
        sweep(measured[2 * i].name, 1e6, 2, 2, 11, rows);
        for (int k = 0; k < 11; k++)
            assert_between(rows[k].cl, 0, rows[k].cl_potential);
    }
}

static void a_list_of_points_gives_the_figures_of_its_section(void **state)
{
    (void)state;
    /* 161 points taken off the section: potential flow within 0.1 %, drag within 1.5 % (transition wanders a little); lift with separation within 5 %,
     * since whether a layer leaves at the very edge answers to the least of shapes. */
    static struct pl_point points[161];
    static const char *const names[] = {"0012", "4412", "23012"};
    for (int i = 0; i < 3; i++) {
        struct pl_profile section = naca(names[i]), list = {.name = "list", .points = points, .n_points = 161};
        assert_true(pl_flow_outline(&section, points, 161));
        struct pl_polar_row there[4], here[4];
        sweep_of(&section, 1e6, (double)NAN, 2, 2, 4, there);
        sweep_of(&list, 1e6, (double)NAN, 2, 2, 4, here);
        for (int k = 0; k < 4; k++) {
            assert_close(here[k].cl_potential, there[k].cl_potential, 1e-3);
            assert_near(here[k].cm_potential, there[k].cm_potential, 3e-4);
            assert_close(here[k].cd, there[k].cd, 0.015);
            assert_near(here[k].cl, there[k].cl, 0.05 * fmax(0.5, there[k].cl));
        }
    }
}

/* ---- over ground ---- */

static void far_ground_is_free_air(void **state)
{
    (void)state;
    struct pl_polar_row far = row_of("6412", 6e5, 1e5, 3), free_air = row_of("6412", 6e5, (double)NAN, 3);
    assert_close(far.cl_potential, free_air.cl_potential, 1e-5);
    assert_near(far.cm_potential, free_air.cm_potential, 1e-5);
    assert_close(far.cd, free_air.cd, 1e-3);
    assert_close(far.cl, free_air.cl, 0.05);
    assert_true(isnan(free_air.clearance) && far.clearance > 9e4);
}

static void clearance_is_that_of_the_lowest_place(void **state)
{
    (void)state;
    /* 0012 in line: its edge stands at the height, its greatest half thickness, 0.06, below it by as much */
    assert_near(row_of("0012", 6e5, 0.3, 0).clearance, 0.24, 5e-4);
}

static void touching_the_ground_is_bad_input(void **state)
{
    (void)state;
    struct pl_profile profile = naca("6412");
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    struct pl_polar_row row;
    assert_int_equal(pl_polar_start(&polar, &profile, 6e5, 0.05, PL_POLAR_PANELS, &problems), PL_OK);
    assert_int_equal(pl_polar_row(polar, 0, &row, &problems), PL_BAD_INPUT);
    assert_int_equal(problems.count, 1);
    assert_string_equal(problems.list[0].rule, "the section touches or crosses the ground");
    pl_problems_clear(&problems);
    assert_int_equal(pl_polar_row(polar, 12, &row, &problems), PL_BAD_INPUT);
    pl_polar_free(polar);
    pl_problems_free(&problems);
}

static void pressures_are_those_of_the_last_row(void **state)
{
    (void)state;
    struct pl_polar_pressure cp[PL_POLAR_PANELS + 10];
    struct pl_profile profile = naca("2412");
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    struct pl_polar_row row;
    assert_int_equal(pl_polar_start(&polar, &profile, 1e6, (double)NAN, PL_POLAR_PANELS, &problems), PL_OK);
    assert_int_equal(pl_polar_row(polar, 4, &row, &problems), PL_OK);
    assert_int_equal(pl_polar_pressures(polar, cp, PL_POLAR_PANELS + 10), PL_POLAR_PANELS);
    assert_int_equal(pl_polar_pressures(polar, cp, 7), 7);
    pl_polar_pressures(polar, cp, PL_POLAR_PANELS);
    double highest = -HUGE_VAL, lift = 0, limited = 0;
    for (int i = 0; i < PL_POLAR_PANELS; i++) {
        double next_x = i + 1 < PL_POLAR_PANELS ? cp[i + 1].x : cp[0].x;
        highest = fmax(highest, cp[i].potential);
        lift += 0.5 * (cp[i].potential + cp[(i + 1) % PL_POLAR_PANELS].potential) * (next_x - cp[i].x);
        limited += 0.5 * (cp[i].limited + cp[(i + 1) % PL_POLAR_PANELS].limited) * (next_x - cp[i].x);
    }
    assert_between(highest, 0.98, 1.0000001);  /* stagnation */
    /* Normal force; lift is cos 4 of it and a little more of suction at the nose. */
    assert_close(lift, row.cl_potential, 0.01);
    assert_close(limited, row.cl, 0.02);
    pl_polar_free(polar);
    pl_problems_free(&problems);
}

/* ---- doubts ---- */

/* The marks of a row, in a word. */
static void marks_of(const struct pl_polar_row *row, double reynolds, double height, char word[PL_POLAR_DOUBTS + 1])
{
    struct pl_polar_doubt doubts[PL_POLAR_DOUBTS];
    size_t n = pl_polar_doubts(row, reynolds, height, doubts);
    assert_in_range(n, 0, PL_POLAR_DOUBTS);
    for (size_t i = 0; i < n; i++) {
        word[i] = doubts[i].mark;
        assert_true(strlen(doubts[i].sentence) > 20);
    }
    word[n] = '\0';
}

static const struct pl_polar_row sound = {.clearance = (double)NAN, .attached_upper = 1, .attached_lower = 1, .settled = true};

#define assert_marks(row, reynolds, height, want) \
    do { \
        char word[PL_POLAR_DOUBTS + 1]; \
        marks_of(&(row), (reynolds), (height), word); \
        assert_string_equal(word, (want)); \
    } while (0)

static void each_doubt_is_raised_by_its_own_cause_alone(void **state)
{
    (void)state;
    struct pl_polar_row row = sound;
    assert_marks(row, 1e6, (double)NAN, "");
    assert_marks(row, 3e5, (double)NAN, "");
    assert_marks(row, 2.99e5, (double)NAN, "r");
    row.separated = true;
    assert_marks(row, 1e6, (double)NAN, "s");
    row = sound;
    row.attached_upper = 0.49;
    assert_marks(row, 1e6, (double)NAN, "d");
    row = sound;
    row.attached_lower = 0.49;
    assert_marks(row, 1e6, (double)NAN, "d");
    row.attached_lower = 0.51;
    assert_marks(row, 1e6, (double)NAN, "");
    row = sound;
    row.settled = false;
    assert_marks(row, 1e6, (double)NAN, "u");
    row = sound;
    row.clearance = 0.06;
    assert_marks(row, 1e6, 0.21, "");
    assert_marks(row, 1e6, 0.19, "g");
    row.clearance = 0.04;
    assert_marks(row, 1e6, 0.3, "g");
}

static void all_doubts_find_room_at_once(void **state)
{
    (void)state;
    struct pl_polar_row row = {.separated = true, .attached_upper = 0.2, .attached_lower = 1, .clearance = 0.01};
    assert_marks(row, 1e5, 0.1, "sdugr");
}

static void rows_raise_the_doubts_they_deserve(void **state)
{
    (void)state;
    assert_marks(((struct pl_polar_row[]){row_of("0012", 6e6, (double)NAN, 2)})[0], 6e6, (double)NAN, "");
    struct pl_polar_row stalled = row_of("0012", 1e6, (double)NAN, 22), near = row_of("6412", 6e5, 0.15, -2);
    assert_true(stalled.separated && stalled.attached_upper < 0.5);
    char word[PL_POLAR_DOUBTS + 1];
    marks_of(&stalled, 1e6, (double)NAN, word);
    assert_non_null(strchr(word, 's'));
    assert_non_null(strchr(word, 'd'));
    marks_of(&near, 6e5, 0.15, word);
    assert_non_null(strchr(word, 'g'));
}

static void greatest_lift_is_said_only_when_it_was_passed(void **state)
{
    (void)state;
    const struct pl_polar_row rows[] = {{.cl = 0.5}, {.cl = 1.2}, {.cl = 1.1}};
    assert_int_equal(pl_polar_greatest(rows, 3), 1);
    assert_true(pl_polar_greatest(rows, 2) == PL_NONE);
    assert_true(pl_polar_greatest(rows, 1) == PL_NONE);
    assert_true(pl_polar_greatest(rows, 0) == PL_NONE);
    assert_int_equal(pl_polar_greatest(rows + 1, 2), 0);
    assert_int_equal(pl_polar_greatest((const struct pl_polar_row[]){{.cl = 1}, {.cl = 1}}, 2), 0);
}

/* ---- whatever comes ---- */

static void assert_finite_row(const struct pl_polar_row *r)
{
    const double values[] = {r->cl, r->cm, r->cd, r->cl_potential, r->cm_potential, r->turbulent_from_upper, r->turbulent_from_lower,
                             r->separates_upper, r->separates_lower, r->attached_upper, r->attached_lower};
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        assert_true(isfinite(values[i]));
    assert_true(r->cd > 0);
    for (size_t i = 5; i < sizeof values / sizeof *values; i++)
        assert_between(values[i], 0, 1);
}

/* Figures, or a refusal with one sentence. */
static void try_rows(const struct pl_profile *profile, double reynolds, double height)
{
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    enum pl_status status = pl_polar_start(&polar, profile, reynolds, height, PL_POLAR_PANELS, &problems);
    assert_true(status == PL_OK ? polar != NULL : problems.count == 1 && !polar);
    for (double alpha = -30; alpha <= 30 && polar; alpha += 12) {
        struct pl_polar_row row;
        pl_problems_clear(&problems);
        status = pl_polar_row(polar, alpha, &row, &problems);
        if (status == PL_OK)
            assert_finite_row(&row);
        else
            assert_int_equal(problems.count, 1);
    }
    pl_polar_free(polar);
    pl_problems_free(&problems);
}

static void odd_designations_give_figures_or_a_refusal(void **state)
{
    (void)state;
    static const char *const names[] = {"0001", "0002", "0006", "0018", "0030", "0040", "1101", "1940", "2301", "4408", "6530", "9912",
                                        "9101", "9940", "9201", "6099", "0099", "21012", "22012", "25030", "23112", "25109", "24101", "23040", "22101", "6412", "1240", "2540",
                                        "4660", "0160"};
    static const double reynolds[] = {1e4, 3e5, 1e9}, heights[] = {(double)NAN, 0.3, 2};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct pl_profile profile = naca(names[i]);
        struct pl_naca shape;
        const char *why;
        if (pl_naca_parse(names[i], &shape, &why))
            try_rows(&profile, reynolds[i % 3], heights[i / 3 % 3]);
    }
}

static void odd_lists_of_points_give_figures_or_a_refusal(void **state)
{
    (void)state;
    /* A wedge, a rectangle, a circle, a sharp plate of no thickness to speak of, a step, a blunt tail, hardly any points, a hook,
     * a cut-off one and one with a nose like a hatchet. */
    static struct pl_point lists[][9] = {
        {{1, 0.1}, {0.5, 0.05}, {0, 0}, {0.5, -0.05}, {1, -0.1}},
        {{1, 0.05}, {0.5, 0.05}, {0, 0.05}, {0, -0.05}, {1, -0.05}},
        {{1, 0}, {0.85, 0.35}, {0.5, 0.5}, {0.15, 0.35}, {0, 0}, {0.15, -0.35}, {0.5, -0.5}, {0.85, -0.35}, {1, 0}},
        {{1, 0}, {0.5, 0.001}, {0, 0}, {0.5, -0.001}, {1, 0}},
        {{1, 0.01}, {0.5, 0.01}, {0.49, 0.1}, {0, 0}, {0.5, -0.05}, {1, 0}},
        {{1, 0.2}, {0.3, 0.2}, {0, 0}, {0.3, -0.2}, {1, -0.2}},
        {{1, 0}, {0.3, 0.06}, {0, 0}, {0.3, -0.06}, {1, 0}},
        {{1, 0.3}, {0.6, 0.05}, {0.2, 0.1}, {0, 0}, {0.2, -0.05}, {0.6, 0}, {1, 0.28}},
        {{0.7, 0.04}, {0.3, 0.06}, {0, 0}, {0.3, -0.06}, {1, 0}},
        {{1, 0}, {0.1, 0.2}, {0, 0.2}, {0, -0.2}, {0.1, -0.2}, {1, -0.01}},
    };
    static const size_t counts[] = {5, 5, 9, 5, 6, 5, 5, 7, 5, 6};
    static const double heights[] = {(double)NAN, 0.8};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
        for (int h = 0; h < 2; h++) {
            struct pl_profile profile = {.name = "odd", .points = lists[i], .n_points = counts[i]};
            try_rows(&profile, 5e5, heights[h]);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_of_the_contract_are_met),
        cmocka_unit_test(zero_lift_and_its_moment_are_near_thin_theory_and_nearer_to_measurement),
        cmocka_unit_test(lift_slope_is_within_five_per_cent_of_measurement),
        cmocka_unit_test(greatest_lift_is_within_some_per_cent_of_measurement),
        cmocka_unit_test(lift_falls_or_stands_behind_the_greatest),
        cmocka_unit_test(lift_rises_evenly_while_the_flow_is_attached),
        cmocka_unit_test(more_reynolds_number_is_more_greatest_lift_and_less_drag),
        cmocka_unit_test(drag_of_smooth_sections_is_that_of_the_report),
        cmocka_unit_test(symmetric_sections_have_symmetric_polars),
        cmocka_unit_test(a_row_alone_is_that_of_a_sweep),
        cmocka_unit_test(a_sweep_done_twice_gives_the_same_figures),
        cmocka_unit_test(lift_with_layers_stays_below_that_without),
        cmocka_unit_test(a_list_of_points_gives_the_figures_of_its_section),
        cmocka_unit_test(far_ground_is_free_air),
        cmocka_unit_test(clearance_is_that_of_the_lowest_place),
        cmocka_unit_test(touching_the_ground_is_bad_input),
        cmocka_unit_test(pressures_are_those_of_the_last_row),
        cmocka_unit_test(each_doubt_is_raised_by_its_own_cause_alone),
        cmocka_unit_test(all_doubts_find_room_at_once),
        cmocka_unit_test(rows_raise_the_doubts_they_deserve),
        cmocka_unit_test(greatest_lift_is_said_only_when_it_was_passed),
        cmocka_unit_test(odd_designations_give_figures_or_a_refusal),
        cmocka_unit_test(odd_lists_of_points_give_figures_or_a_refusal),
    };
    return cmocka_run_group_tests(tests, sweep_all, NULL);
}
