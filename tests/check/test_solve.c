/* The solver as a machine: memory, failures, and figures of extreme but legal parts. */
#include "../short_memory.h"
#include "../structure/tubes.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct wing_text *full_text(void)
{
    static struct wing_text text;
    text = front_wing;
    text.more_elements =
        "{'name': 'flap', 'incidence_deg': 5, 'stations': [{'y_mm': 0, 'chord_mm': 100, 'x_le_mm': 250, 'z_le_mm': 30,"
        " 'twist_deg': 0, 'profile': 'section'}, {'y_mm': 640, 'chord_mm': 100, 'x_le_mm': 250, 'z_le_mm': 30,"
        " 'twist_deg': 0, 'profile': 'section'}], 'core': 'foam', 'resin': 'resin', 'layup': [{'name': 'skin',"
        " 'fabric': 'uni', 'angle_deg': 20, 'plies': 3, 'side': 'both', 'chord_from': 0, 'chord_to': 1}],"
        " 'mounts': [{'name': 'l', 'y_mm': -600, 'hold': 'pinned', 'on': 'main', 'at': 0.9}, {'name': 'r',"
        " 'y_mm': 600, 'hold': 'pinned', 'on': 'main', 'at': 0.9}]}";
    text.cases = say("%s, {'name': 'flap air', 'kind': 'downforce', 'element': 'flap', 'factor': 1.5,"
                     " 'speed_kmh': 180, 'air_density_kgm3': 1.2, 'distribution': 'uniform', 'coefficient': 1,"
                     " 'acts_at': 0.5}, {'name': 'all', 'kind': 'point', 'element': 'main', 'factor': 1, 'y_mm': 0,"
                     " 'acts_at': 0.5, 'direction': 'up', 'force_n': 10, 'with': ['flap air']}", front_wing.cases);
    return &text;
}

/* Twice into either result set: the first time memory grows, the second it is joined into one block. */
static void warm_up(struct wing *w)
{
    wing_make(w, full_text());
    for (int i = 0; i < 3; i++)
        wing_solve(w);
}

static void a_warm_solve_allocates_nothing(void **state)
{
    (void)state;
    if (!counts())
        skip();
    struct wing w;
    warm_up(&w);
    size_t before = allocations;
    for (int i = 0; i < 6; i++)
        wing_solve(&w);
    assert_int_equal(allocations - before, 0);
    wing_free(&w);
}

static void a_smaller_part_allocates_nothing_either(void **state)
{
    (void)state;
    if (!counts())
        skip();
    struct wing w;
    warm_up(&w);
    w.part.elements[0].layup[2].plies = 3;
    w.part.n_load_cases = 2;
    size_t before = allocations;
    wing_solve(&w);
    wing_solve(&w);
    assert_int_equal(allocations - before, 0);
    wing_free(&w);
}

static void a_warm_look_at_a_place_allocates_nothing(void **state)
{
    (void)state;
    if (!counts())
        skip();
    struct wing w;
    struct pl_place_view view;
    wing_build(&w, &front_wing);
    for (int i = 0; i < 3; i++)
        wing_section(&w, 0, 0.17, &view);
    size_t before = allocations;
    for (double y = -0.64; y < 0.64; y += 0.01)
        wing_section(&w, 0, y, &view);
    assert_int_equal(allocations - before, 0);
    wing_free(&w);
}

static void when_memory_runs_out_the_last_result_stays(void **state)
{
    (void)state;
    if (!counts() || !can_fail())
        skip();
    struct wing w;
    wing_make(&w, full_text());
    double reserve = w.verdict->cases[0].least.reserve;
    for (int plies = 2, refusals = 0; ; plies++) {
        /* an ever larger part needs more memory than it has */
        w.part.elements[0].layup[2].plies = plies;
        w.part.elements[0].layup[2].drop_m = 0.3 / plies;
        int tries = 0;
        enum pl_status status;
        do {
            fail_in = tries++;
            status = pl_solve_run(w.solve, &w.part, &w.problems);
            fail_in = -1;
            assert_non_null(pl_solve_verdict(w.solve));
            if (status != PL_OK) {
                assert_int_equal(status, PL_NO_MEMORY);
                assert_close(pl_solve_verdict(w.solve)->cases[0].least.reserve, reserve, 0);
                refusals++;
            }
        } while (status != PL_OK);
        reserve = pl_solve_verdict(w.solve)->cases[0].least.reserve;
        if (plies == 40) {
            assert_true(refusals >= 10);
            break;
        }
    }
    wing_free(&w);
}

/* ---- results ---- */

static void the_result_before_stands_beside_the_newest(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    const struct pl_verdict *before = w.verdict;
    double mass = before->mass_kg, reserve = before->cases[0].least.reserve;
    w.part.elements[0].layup[2].plies = 5;
    wing_solve(&w);
    assert_true(w.verdict != before && w.verdict->mass_kg < mass);
    assert_close(before->mass_kg, mass, 0);
    assert_close(before->cases[0].least.reserve, reserve, 0);
    w.part.elements[0].layup[2].plies = 6;
    wing_solve(&w);
    assert_close(w.verdict->mass_kg, mass, 0);
    assert_close(w.verdict->cases[0].least.reserve, reserve, 0);
    wing_free(&w);
}

static void a_part_that_cannot_be_solved_leaves_the_last_result(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    const struct pl_verdict *before = w.verdict;
    double mass = before->mass_kg;
    w.part.elements[0].layup[0].chord_to = 0.5;
    w.part.elements[0].layup[4].chord_to = 0.5;
    assert_int_equal(pl_solve_run(w.solve, &w.part, &w.problems), PL_BAD_INPUT);
    assert_true(pl_solve_verdict(w.solve) == before);
    assert_close(before->mass_kg, mass, 0);
    wing_free(&w);
    struct pl_solve *fresh = pl_solve_new();
    assert_null(pl_solve_verdict(fresh));
    pl_solve_free(fresh);
    pl_solve_free(NULL);
}

static void a_strike_on_a_mount_has_no_energy_answer(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = {.mounts = "{'name': 'l', 'y_mm': -640, 'hold': 'clamped'}, {'name': 'r', 'y_mm': 640,"
                                       " 'hold': 'clamped'}",
                             .cases = "{'name': 'strike', 'kind': 'tip-strike', 'element': 'main', 'factor': 1,"
                                      " 'acts_at': 0.2, 'direction': 'up', 'moving_mass_kg': 6,"
                                      " 'closing_speed_ms': 1}"};
    wing_build(&w, &text);
    assert_int_equal(pl_solve_run(w.solve, &w.part, &w.problems), PL_BAD_INPUT);
    const struct pl_problem *p = pl_problems_first_error(&w.problems);
    assert_string_equal(p->place, "/load_cases/0");
    assert_non_null(strstr(p->rule, "a mount stands there"));
    wing_free(&w);
}

static void pieces_are_seen_from_the_side_they_lie_on(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct pl_ply plies[32];
    wing_build(&w, &front_wing);
    wing_section(&w, 0, -0.17, &view);
    const struct pl_stack *stack = pl_solve_stack(w.solve, PL_TOP, 0.3);
    assert_non_null(stack);
    assert_int_equal(stack->n_plies, 11);
    pl_solve_plies(w.solve, stack, plies);
    assert_close(plies[0].angle_rad, -M_PI / 4, 1e-12);  /* mirrored on the left */
    assert_int_equal(pl_solve_stack(w.solve, PL_BOTTOM, 0.3)->n_plies, 10);
    assert_int_equal(pl_solve_stack(w.solve, PL_BOTTOM, 0.8)->n_plies, 5);
    assert_int_equal(pl_solve_stack(w.solve, PL_TOP, 0.02)->n_plies, 3);
    /* a piece covers its own edges: wrap from 0.05, cap to 0.30 + 36/275 */
    assert_int_equal(pl_solve_stack(w.solve, PL_TOP, 0.05)->n_plies, 5);
    assert_int_equal(pl_solve_stack(w.solve, PL_TOP, 0.30 + 36.0 / 275)->n_plies, 11);
    assert_int_equal(pl_solve_stack(w.solve, PL_TOP, 0.30 + 36.0 / 275 + 1e-6)->n_plies, 5);
    wing_section(&w, 0, 0.17, &view);
    pl_solve_plies(w.solve, pl_solve_stack(w.solve, PL_TOP, 0.3), plies);
    assert_close(plies[0].angle_rad, M_PI / 4, 1e-12);
    wing_free(&w);
}

/* ---- extreme parts ---- */

static double log_between(uint64_t *seed, double from, double to)
{
    return exp(chance_between(seed, log(from), log(to)));
}

static const char *pick(uint64_t *seed, const char *const *from, size_t n)
{
    return from[(size_t)(chance(seed) * (double)n)];
}

#define PICK(seed, ...) \
    pick(seed, (const char *const[]){__VA_ARGS__}, sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

static const char *wild_fabric(uint64_t *s, const char *name)
{
    double e1 = log_between(s, 1e-3, 1000), e2 = log_between(s, fmax(1e-3, e1 / 100), fmin(1000, e1 * 100));
    return say("{'name': '%s', 'areal_weight_gsm': %.12g, 'fibre_density_kgm3': %.12g, 'fibre_volume_fraction': %.12g,"
               " 'e1_gpa': %.12g, 'e2_gpa': %.12g, 'g12_gpa': %.12g, 'nu12': %.12g, 'xt_mpa': %.12g, 'xc_mpa': %.12g,"
               " 'yt_mpa': %.12g, 'yc_mpa': %.12g, 's_mpa': %.12g, 'roll_width_mm': 1000}",
               name, log_between(s, 1, 5000), chance_between(s, 200, 10000), chance_between(s, 0.05, 0.9), e1, e2,
               log_between(s, 1e-3, 200), chance_between(s, 0, fmin(0.95, 0.99 * sqrt(e1 / e2))),
               log_between(s, 1e-3, 20000), log_between(s, 1e-3, 20000), log_between(s, 1e-3, 20000),
               log_between(s, 1e-3, 20000), log_between(s, 1e-3, 20000));
}

static const char *wild_station(uint64_t *s, double y_mm)
{
    return say("{'y_mm': %.12g, 'chord_mm': %.12g, 'x_le_mm': %.12g, 'z_le_mm': %.12g, 'twist_deg': %.12g,"
               " 'profile': '%s'}",
               y_mm, log_between(s, 5, 5000), chance_between(s, -500, 500), chance_between(s, -500, 500),
               chance_between(s, -90, 90), PICK(s, "section", "tip"));
}

static const char *wild_cases(uint64_t *s, double half_mm)
{
    return say("{'name': 'a', 'kind': 'point', 'element': 'main', 'factor': %.12g, 'y_mm': %.12g, 'acts_at': %.12g,"
               " 'direction': '%s', 'force_n': %.12g}, {'name': 'b', 'kind': 'downforce', 'element': 'main',"
               " 'factor': 2, 'speed_kmh': %.12g, 'air_density_kgm3': 1.2, 'distribution': '%s', 'coefficient': %.12g,"
               " 'acts_at': 0.4}, {'name': 'c', 'kind': 'jacking', 'element': 'main', 'factor': 1.5,"
               " 'supported_mass_kg': %.12g, 'dynamic_factor': 1.3, 'pads': [{'y_mm': %.12g, 'acts_at': %.12g,"
               " 'length_mm': %.12g, 'width_mm': 100}, {'y_mm': 0, 'acts_at': 1, 'length_mm': 1, 'width_mm': 1}]},"
               " {'name': 'd', 'kind': 'tip-strike', 'element': 'main', 'factor': 1, 'acts_at': 0.2,"
               " 'direction': 'up', 'moving_mass_kg': %.12g, 'closing_speed_ms': 1}",
               log_between(s, 1e-3, 100), chance_between(s, -half_mm, half_mm), chance(s), PICK(s, "up", "down"),
               log_between(s, 1e-3, 1e6), log_between(s, 1, 1000), PICK(s, "uniform", "elliptic"),
               chance_between(s, -10, 10), log_between(s, 1, 20000), chance_between(s, -half_mm / 2, half_mm / 2),
               chance(s), log_between(s, half_mm / 100, half_mm / 2), log_between(s, 0.1, 1e4));
}

static struct wing_text wild_text(uint64_t *s)
{
    double half = log_between(s, 20, 1500), mount = chance_between(s, 0.01, 0.99) * half;
    struct wing_text t = {
        .profiles = say("{'name': 'section', 'naca': '%s'}, {'name': 'tip', %s}",
                        PICK(s, "6412", "0001", "9640", "25140", "22101"),
                        PICK(s, "'naca': '0040'", "'naca': '0002'",
                             "'points': [[1, 0], [0.5, 0.3], [0, 0], [0.5, -0.001], [1, 0]]",
                             "'points': [[1, 0.1], [1, 0.2], [0, 0.2], [0, -0.2], [1, -0.2], [1, -0.1]]")),
        .fabrics = say("%s, %s", wild_fabric(s, "one"), wild_fabric(s, "two")),
        .core = say("'kind': 'foam', 'density_kgm3': %.12g, 'e_mpa': %.12g, 'g_mpa': %.12g,"
                    " 'shear_strength_mpa': %.12g, 'compressive_strength_mpa': %.12g",
                    log_between(s, 1, 2000), log_between(s, 1e-3, 20000), log_between(s, 1e-3, 5000),
                    log_between(s, 1e-3, 500), log_between(s, 1e-3, 500)),
        .element = say("'inverted': %s, 'incidence_deg': %.12g", PICK(s, "true", "false"), chance_between(s, -90, 90)),
        .stations = say("%s, %s, %s", wild_station(s, 0), wild_station(s, chance_between(s, 0.1, 0.9) * half),
                        wild_station(s, half)),
        .layup = say("{'name': 'a', 'fabric': 'one', 'angle_deg': %.12g, 'plies': %d, 'side': 'both', 'chord_from': 0,"
                     " 'chord_to': 1},{'name': 'b', 'fabric': 'two', 'angle_deg': %.12g, 'plies': %d, 'side': '%s',"
                     " 'centre_at': %.12g, 'width_mm': %.12g, 'half_length_mm': %.12g, 'from_mm': %s}",
                     chance_between(s, -90, 90), (int)log_between(s, 1, 60), chance_between(s, -90, 90),
                     (int)log_between(s, 1, 60), PICK(s, "top", "bottom", "both"), chance(s), log_between(s, 0.5, 5000),
                     chance_between(s, 0.2, 1) * half, PICK(s, "0", "1")),
        .allowables = say("'knockdown': %.12g, 'core_knockdown': %.12g, 'criterion': '%s'", log_between(s, 1e-3, 1),
                          log_between(s, 1e-3, 1), PICK(s, "tsai-wu", "max-stress")),
        .mounts = say(PICK(s, "{'name': 'l', 'y_mm': 0, 'hold': 'clamped'}",
                           "{'name': 'l', 'y_mm': 0, 'hold': 'clamped', 'stiffness_nm_per_rad': 0.01}",
                           "{'name': 'l', 'y_mm': 0, 'hold': 'pinned'}, {'name': 'r', 'y_mm': %.12g, 'hold': 'pinned'}",
                           "{'name': 'l', 'y_mm': 0, 'hold': 'clamped'}, {'name': 'r', 'y_mm': %.12g,"
                           " 'hold': 'clamped'}"),
                      mount),
    };
    t.cases = wild_cases(s, half);
    return t;
}

static bool solution_finite(const struct pl_solution *s, bool at_load)
{
    return isfinite(s->lowest.reserve) && s->lowest.reserve >= 0 && isfinite(s->lowest.y_m)
           && isfinite(s->total_force_n) && isfinite(s->tip_m) && isfinite(s->largest_m) && isfinite(s->nose_m)
           && isfinite(s->tail_m) && isfinite(s->at_load_m) == at_load && s->lowest.item;
}

static void assert_finite(const struct pl_verdict *v)
{
    assert_true(isfinite(v->mass_kg) && v->mass_kg > 0);
    for (size_t i = 0; i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        bool at_load = c->load_case->kind == PL_POINT_LOAD || c->load_case->kind == PL_TIP_STRIKE;
        assert_true(solution_finite(&c->given, at_load));
        assert_true(!c->has_pinned || solution_finite(&c->pinned, at_load));
        for (size_t k = 0; k < c->n_rows; k++) {
            const struct pl_check_row *r = &c->rows[k];
            assert_true(isfinite(r->shear_n) && isfinite(r->moment_nm) && isfinite(r->torque_nm)
                        && isfinite(r->deflection_m) && isfinite(r->twist_rad) && isfinite(r->reserve)
                        && r->reserve >= 0 && isfinite(r->stress_pa));
        }
    }
}

static void extreme_parts_give_figures_or_a_reason(void **state)
{
    (void)state;
    int parts = getenv("PL_SLOW") ? 6000 : 60, solved = 0;
    for (int i = 0; i < parts; i++) {
        uint64_t seed = 0x9e3779b97f4a7c15u * (uint64_t)(i + 1);
        struct wing w;
        struct wing_text text = wild_text(&seed);
        if (wing_try_build(&w, &text) != PL_OK)
            fail_msg("part %d: %s %s", i, pl_problems_first_error(&w.problems)->place,
                     pl_problems_first_error(&w.problems)->rule);
        enum pl_status status = pl_solve_run(w.solve, &w.part, &w.problems);
        if (status == PL_OK) {
            assert_finite(pl_solve_verdict(w.solve));
            solved++;
        } else {
            assert_true(status == PL_BAD_INPUT || status == PL_NOT_CONVERGED);
            assert_non_null(pl_problems_first_error(&w.problems));
            assert_null(pl_solve_verdict(w.solve));
        }
        wing_free(&w);
    }
    assert_true(solved > parts / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_warm_solve_allocates_nothing),
        cmocka_unit_test(a_smaller_part_allocates_nothing_either),
        cmocka_unit_test(a_warm_look_at_a_place_allocates_nothing),
        cmocka_unit_test(when_memory_runs_out_the_last_result_stays),
        cmocka_unit_test(the_result_before_stands_beside_the_newest),
        cmocka_unit_test(a_part_that_cannot_be_solved_leaves_the_last_result),
        cmocka_unit_test(a_strike_on_a_mount_has_no_energy_answer),
        cmocka_unit_test(pieces_are_seen_from_the_side_they_lie_on),
        cmocka_unit_test(extreme_parts_give_figures_or_a_reason),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
