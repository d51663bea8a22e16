/* What stands right on a mount, and what is handed down from there.
 *
 * Two ways to say the same thing are compared throughout: a load, a moment or an upper bracket exactly at a mount, and
 * the same a thousandth of a millimetre beside it, where no rule for loads on mounts comes in.
 */
#include "storeys.h"

#include <math.h>
#include <string.h>

#define HAIR_MM 0.001

static const char *strike(const char *element, double y_mm, double force_n)
{
    return say("{'name': 'hit', 'kind': 'tip-strike', 'element': '%s', 'factor': 1.25, 'y_mm': %.15g, 'acts_at': 0.2,"
               " 'direction': 'down', 'force_n': %.15g}",
               element, y_mm, force_n);
}

/* ---- figures compared ---- */

static double shear_at(const struct pl_case_result *c, double y_m)
{
    return wing_row(c, y_m)->shear_n;
}

/* Two figures that tell the same: at most one part in ten thousand of the size given apart. */
static void assert_same(double a, double b, double size, const char *what)
{
    if (!(fabs(a - b) <= 1e-4 * fabs(size) + 1e-12))
        fail_msg("%s: %.9g right on the mount, %.9g beside it", what, a, b);
}

static void assert_same_movement(const struct pl_solution *a, const struct pl_solution *b)
{
    assert_same(a->tip_m, b->tip_m, b->largest_m, "tip deflection");
    assert_same(a->nose_m, b->nose_m, b->largest_m, "tip nose");
    assert_same(a->tail_m, b->tail_m, b->largest_m, "tip tail");
    assert_same(a->largest_m, b->largest_m, b->largest_m, "largest deflection");
    assert_same(a->total_force_n, b->total_force_n, b->total_force_n, "total force");
}

static const double bays_m[] = {-0.62, -0.55, -0.4, -0.25, -0.05, 0.05, 0.25, 0.4, 0.55, 0.62};
enum { BAYS = sizeof bays_m / sizeof *bays_m };

static double largest_shear(const struct pl_case_result *c)
{
    double size = 0;
    for (size_t i = 0; i < c->n_rows; i++)
        size = fmax(size, fabs(c->rows[i].shear_n));
    assert_true(size > 1);
    return size;
}

/* Deflections, and in the middle of every bay forces, and so their jumps from bay to bay, and reserves. */
static void assert_same_but_at_the_mount(const struct pl_case_result *a, const struct pl_case_result *b)
{
    double shear_n = largest_shear(b);
    assert_same_movement(&a->given, &b->given);
    assert_int_equal(a->has_pinned, b->has_pinned);
    if (a->has_pinned)
        assert_same_movement(&a->pinned, &b->pinned);
    for (size_t i = 0; i < BAYS; i++) {
        const struct pl_check_row *p = wing_row(a, bays_m[i]), *q = wing_row(b, bays_m[i]);
        assert_same(p->shear_n, q->shear_n, shear_n, "shear");
        assert_true(fabs(p->y_m - q->y_m) < 2e-3 * HAIR_MM);
        assert_same(p->moment_nm, q->moment_nm, 0.64 * shear_n, "moment");
        assert_same(p->torque_nm, q->torque_nm, 0.3 * shear_n, "torque");
        assert_same(p->deflection_m, q->deflection_m, b->given.largest_m, "deflection");
        assert_same(p->reserve, q->reserve, q->reserve, "reserve there");
    }
}

static void assert_same_case(const struct wing *on, const struct wing *beside, const char *name)
{
    const struct pl_case_result *a = wing_case(on, name), *b = wing_case(beside, name);
    assert_true(b->least.reserve < PL_MOST_RESERVE && fabs(b->given.largest_m) > 1e-5);
    assert_same(a->least.reserve, b->least.reserve, b->least.reserve, "least reserve");
    assert_same(a->given.lowest.reserve, b->given.lowest.reserve, b->given.lowest.reserve, "reserve");
    assert_same_but_at_the_mount(a, b);
}

/* A wing judged with something right on a mount and a hair beside it. */
struct pair {
    struct wing on, beside;
};

static void pair_make(struct pair *p, const struct wing_text *on, const struct wing_text *beside)
{
    wing_make(&p->on, on);
    wing_make(&p->beside, beside);
}

static void pair_free(struct pair *p)
{
    wing_free(&p->on);
    wing_free(&p->beside);
}

/* ---- loads right over a bracket go into it ---- */

static struct wing_text loaded_flap(const char *flap, const char *load, const char *name)
{
    return (struct wing_text){.more_elements = flap,
                              .cases = say("%s, %s", load, push("below", "main", 250, 40, 2, say("'%s'", name)))};
}

static void a_push_right_over_a_bracket_is_handed_down(void **state)
{
    (void)state;
    static const double places_mm[] = {-500, 500};
    static const char *const holds[] = {PINNED, CLAMPED, SPRUNG};
    for (size_t k = 0; k < 6; k++) {
        const char *flap =
            upper("flap", say("%s, %s", mount("l", -500, holds[k / 2], "main"), mount("r", 500, holds[k / 2], "main")));
        struct wing_text on = loaded_flap(flap, push("load", "flap", places_mm[k % 2], 60, 1.5, ""), "load");
        struct wing_text beside =
            loaded_flap(flap, push("load", "flap", places_mm[k % 2] + HAIR_MM, 60, 1.5, ""), "load");
        struct pair p;
        pair_make(&p, &on, &beside);
        assert_same_case(&p.on, &p.beside, "below");
        assert_close(wing_case(&p.on, "below")->total_force_n, 2 * 40 + 1.5 * 60, 1e-9);
        pair_free(&p);
    }
}

static void a_strike_by_force_right_over_a_bracket_is_handed_down(void **state)
{
    (void)state;
    const char *flap = on_pins("flap", 640, "main");
    struct wing_text on = loaded_flap(flap, strike("flap", 640, 80), "hit");
    struct wing_text beside = loaded_flap(flap, strike("flap", 640 - HAIR_MM, 80), "hit");
    struct pair p;
    pair_make(&p, &on, &beside);
    assert_same_case(&p.on, &p.beside, "below");
    assert_close(wing_case(&p.on, "below")->total_force_n, 2 * 40 - 1.25 * 80, 1e-9);
    assert_close(shear_at(wing_case(&p.on, "below"), 0.62), -1.25 * 80, 1e-9);
    pair_free(&p);
}

/* ---- elements on elements ---- */

/* Top on flap on main: the top on pins at top_mm of the flap, the flap on pins at the main element's tips. */
static struct wing_text three_storeys(double top_mm, const char *top_hold)
{
    const char *top =
        upper("top", say("%s, %s", mount("l", -top_mm, top_hold, "flap"), mount("r", top_mm, top_hold, "flap")));
    return (struct wing_text){
        .more_elements = say("%s, %s", on_pins("flap", 640, "main"), top),
        .cases = say("%s, %s, %s", push("below", "main", 250, 40, 2, "'middle'"),
                     push("middle", "flap", 320, 30, 1.25, "'high'"), push("high", "top", -128, 50, 1.5, "")),
    };
}

static void three_elements_at_the_tips_hand_down_as_if_stacked_a_hair_apart(void **state)
{
    (void)state;
    static const char *const holds[] = {PINNED, CLAMPED};
    for (size_t k = 0; k < 2; k++) {
        struct wing_text on = three_storeys(640, holds[k]), beside = three_storeys(640 - HAIR_MM, holds[k]);
        struct pair p;
        pair_make(&p, &on, &beside);
        assert_same_case(&p.on, &p.beside, "below");
        assert_same_case(&p.on, &p.beside, "middle");
        pair_free(&p);
    }
}

static void three_elements_at_the_tips_share_by_the_lever(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = three_storeys(640, PINNED);
    wing_make(&w, &text);
    const struct pl_case_result *middle = wing_case(&w, "middle"), *below = wing_case(&w, "below");
    /* Of 37.5 N at y = 0.32 of +-0.64 the right tip takes 3/4, of 75 N at -0.128 it takes 2/5. */
    double right = 37.5 * 0.75 + 75 * 0.4, left = 37.5 * 0.25 + 75 * 0.6;
    assert_close(middle->total_force_n, 37.5 + 75, 1e-9);
    assert_close(below->total_force_n, 2 * 40 + 37.5 + 75, 1e-9);
    assert_close(shear_at(below, 0.55), right, 1e-9);
    assert_close(-shear_at(below, -0.55), left, 1e-9);
    assert_close(shear_at(below, 0.2) - shear_at(below, 0.3), 2 * 40, 1e-9);
    wing_free(&w);
}

/* ---- balance ---- */

static const struct pl_check_row *row_at(const struct pl_case_result *c, double y_m)
{
    const struct pl_check_row *row = wing_row(c, y_m);
    assert_true(fabs(row->y_m - y_m) < 1e-9);
    return row;
}

/* Shear just beside a mount under an even load, along which it is linear. */
static double shear_beside(const struct pl_case_result *c, double y_m, int side)
{
    const struct pl_check_row *mounted = row_at(c, y_m), *near = mounted + side, *far = near + side;
    return near->shear_n + (near->shear_n - far->shear_n) * (y_m - near->y_m) / (near->y_m - far->y_m);
}

static void the_mounts_bear_the_total_force_what_is_carried_included(void **state)
{
    (void)state;
    struct wing w;
    const char *air = "{'name': 'below', 'kind': 'downforce', 'element': 'main', 'factor': 1.5, 'speed_kmh': 180,"
                      " 'air_density_kgm3': 1.2, 'distribution': 'uniform', 'coefficient': 1, 'acts_at': 0.4,"
                      " 'with': ['hit', 'load']}";
    struct wing_text text = {
        .more_elements = on_pins("flap", 500, "main"),
        .cases = say("%s, %s, %s", air, strike("flap", 500, 80), push("load", "flap", 10, 60, 1.5, ""))};
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "below");
    double total = -1.5 * 0.5 * 1.2 * 2500 * 1.28 * 0.3 - 1.25 * 80 + 1.5 * 60, borne = 0;
    assert_close(c->total_force_n, total, 1e-9);
    assert_close(c->given.total_force_n, total, 1e-9);
    assert_close(c->pinned.total_force_n, total, 1e-9);
    for (int m = -1; m <= 1; m += 2)
        borne += shear_beside(c, 0.17 * m, -1) - shear_beside(c, 0.17 * m, 1);
    assert_close(-borne, total, 1e-7);
    wing_free(&w);
}

static void only_mounts_that_stand_here_hand_down_here(void **state)
{
    (void)state;
    struct wing w;
    const char *flap = upper("flap", say("%s, %s, %s", mount("l", -500, PINNED, "main"), mount("m", 100, PINNED, NULL),
                                         mount("r", 500, CLAMPED, "main")));
    struct wing_text text = loaded_flap(flap, push("load", "flap", -300, 60, 1.5, ""), "load");
    wing_make(&w, &text);
    const struct pl_case_result *load = wing_case(&w, "load"), *below = wing_case(&w, "below");
    /* What the flap's own shear jumps by at a mount is what that mount puts on it. */
    double left = shear_at(load, -0.55) - shear_at(load, -0.45), car = shear_at(load, 0.05) - shear_at(load, 0.15);
    double right = shear_at(load, 0.45) - shear_at(load, 0.55);
    assert_close(left + car + right, -90, 1e-9);
    assert_true(fabs(car) > 1 && fabs(left) > 1 && fabs(right) > 1);
    assert_close(below->total_force_n, 2 * 40 - left - right, 1e-9);
    assert_close(shear_at(below, 0.45) - shear_at(below, 0.55), -right, 1e-9);
    assert_close(shear_at(below, -0.55) - shear_at(below, -0.45), -left, 1e-9);
    assert_true(fabs(shear_at(below, 0.05) - shear_at(below, 0.15)) < 1e-9);
    wing_free(&w);
}

static void what_stands_on_two_elements_loads_each_with_its_own_mounts(void **state)
{
    (void)state;
    struct wing w;
    const char *post = upper("post", mount("foot", 0, CLAMPED, NULL));
    const char *flap = upper("flap", say("%s, %s", mount("l", -500, PINNED, "main"), mount("r", 500, PINNED, "post")));
    struct wing_text text = {.more_elements = say("%s, %s", post, flap),
                             .cases = say("%s, %s, %s", push("load", "flap", 500, 60, 1.5, ""),
                                          push("below", "main", 250, 40, 2, "'load'"),
                                          push("at post", "post", 0, 1e-9, 1, "'load'"))};
    wing_make(&w, &text);
    assert_close(wing_case(&w, "at post")->total_force_n, 90, 1e-9);
    assert_close(wing_case(&w, "below")->total_force_n, 80, 1e-9);
    assert_close(shear_at(wing_case(&w, "at post"), 0.25), 90, 1e-9);
    wing_free(&w);
}

/* ---- moments right on a mount ---- */

/* A fin clamped upon the wing, pushed 470 mm to the right of its foot. */
static struct wing_text finned(const char *mounts, double foot_mm)
{
    return (struct wing_text){
        .mounts = mounts,
        .more_elements = upper("fin", mount("foot", foot_mm, CLAMPED, "main")),
        .cases = say("%s, %s", push("load", "fin", 300, 60, 1, ""), push("below", "main", 600, 1e-9, 1, "'load'")),
    };
}

/* Within the hair itself the wing bears the mount's whole answer, so reserves are compared elsewhere. */
static void a_moment_right_on_a_mount_is_not_swallowed(void **state)
{
    (void)state;
    static const char *const holds[] = {PINNED, SPRUNG, CLAMPED};
    for (int k = 0; k < 18; k++) {
        const char *left = holds[k / 2 % 3], *right = holds[k / 6];
        const char *mounts = say("%s, %s", mount("l", -170, left, NULL), mount("r", 170, right, NULL));
        double at_mm = k % 2 ? 170 : -170;
        struct wing_text on = finned(mounts, at_mm), beside = finned(mounts, at_mm + HAIR_MM);
        struct pair p;
        pair_make(&p, &on, &beside);
        const struct pl_case_result *a = wing_case(&p.on, "below"), *b = wing_case(&p.beside, "below");
        bool rigid = (k % 2 ? right : left) == holds[2]; /* it takes all: nothing moves, but on pins */
        assert_true(rigid ? b->has_pinned : fabs(b->given.largest_m) > 1e-4);
        if (b->has_pinned) {
            assert_true(fabs(b->pinned.largest_m) > 1e-4);
            assert_same_movement(&a->pinned, &b->pinned);
        }
        if (!rigid)
            assert_same_but_at_the_mount(a, b);
        pair_free(&p);
    }
}

static void a_moment_on_the_left_pin_falls_linearly_to_the_right_one(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = finned(say("%s, %s", mount("r", 170, PINNED, NULL), mount("l", -170, PINNED, NULL)), -170);
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "below");
    /* M = 60 N x 0.47 m about the left pin; the right one, 0.34 m away, answers with -M/0.34 */
    double moment = 60 * 0.47;
    assert_close(wing_row(c, 0)->moment_nm, -moment / 2, 1e-6);
    assert_close(row_at(c, -0.17)->moment_nm, -moment, 1e-6);
    assert_close(shear_at(c, 0.05), -moment / 0.34, 1e-6);
    assert_true(fabs(wing_row(c, -0.4)->moment_nm) < 1e-6 && fabs(wing_row(c, 0.4)->moment_nm) < 1e-6);
    wing_free(&w);
}

static void a_moment_on_the_only_spring_turns_the_wing_by_its_stiffness(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = finned(mount("only", 0, SPRUNG, NULL), 0);
    wing_make(&w, &text);
    /* 60 N x 0.3 m on 1500 N m a radian, at the tip 0.64 m away */
    double turn = 60 * 0.3 / 1500;
    assert_close(wing_case(&w, "below")->given.tip_m, turn * 0.64, 1e-6);
    assert_close(wing_row(wing_case(&w, "below"), -0.4)->deflection_m, -turn * 0.4, 1e-6);
    wing_free(&w);
}

/* ---- strikes by energy right on a mount ---- */

static const char *strike_by_energy(double y_mm)
{
    return say(
        "%s, {'name': 'kerb', 'kind': 'tip-strike', 'element': 'main', 'factor': 1, 'y_mm': %.15g, 'acts_at': 0.2,"
        " 'direction': 'up', 'moving_mass_kg': 20, 'closing_speed_ms': 0.5}",
        push("first", "main", 300, 10, 1, ""), y_mm);
}

static void a_strike_by_energy_right_on_a_mount_is_refused_with_its_case(void **state)
{
    (void)state;
    static const char *const holds[] = {PINNED, SPRUNG, CLAMPED};
    static const double places_mm[] = {170, 640};
    for (int k = 0; k < 12; k++) {
        double at_mm = places_mm[k / 6], hit_mm = k % 2 ? at_mm : -at_mm;
        struct wing w;
        struct wing_text text = {.mounts = say("%s, %s", mount("l", -at_mm, holds[k / 2 % 3], NULL),
                                               mount("r", at_mm, holds[k / 2 % 3], NULL)),
                                 .cases = strike_by_energy(hit_mm)};
        wing_build(&w, &text);
        assert_int_equal(pl_solve_run(w.solve, &w.part, &w.problems), PL_BAD_INPUT);
        assert_null(pl_solve_verdict(w.solve));
        assert_int_equal(w.problems.errors, 1);
        assert_string_equal(pl_problems_first_error(&w.problems)->place, "/load_cases/1");
        assert_non_null(strstr(pl_problems_first_error(&w.problems)->rule, "does not give"));
        wing_free(&w);
    }
}

static void a_strike_by_energy_between_mounts_is_taken(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = {.cases = strike_by_energy(150)};
    wing_make(&w, &text);
    assert_true(wing_case(&w, "kerb")->total_force_n > 10);
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_push_right_over_a_bracket_is_handed_down),
        cmocka_unit_test(a_strike_by_force_right_over_a_bracket_is_handed_down),
        cmocka_unit_test(three_elements_at_the_tips_hand_down_as_if_stacked_a_hair_apart),
        cmocka_unit_test(three_elements_at_the_tips_share_by_the_lever),
        cmocka_unit_test(the_mounts_bear_the_total_force_what_is_carried_included),
        cmocka_unit_test(only_mounts_that_stand_here_hand_down_here),
        cmocka_unit_test(what_stands_on_two_elements_loads_each_with_its_own_mounts),
        cmocka_unit_test(a_moment_right_on_a_mount_is_not_swallowed),
        cmocka_unit_test(a_moment_on_the_left_pin_falls_linearly_to_the_right_one),
        cmocka_unit_test(a_moment_on_the_only_spring_turns_the_wing_by_its_stiffness),
        cmocka_unit_test(a_strike_by_energy_right_on_a_mount_is_refused_with_its_case),
        cmocka_unit_test(a_strike_by_energy_between_mounts_is_taken),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
