/* States of a part, kept side by side. */
#include "../short_memory.h"
#include "../structure/tubes.h"
#include "../check/storeys.h"

#include "plyloft/compare.h"

#include <string.h>

static const char some_bytes[] = "{\"name\": \"bytes of a file\"}\n";

static void take(struct pl_state *state, const struct wing *w)
{
    assert_int_equal(pl_state_take(state, "A", some_bytes, strlen(some_bytes), &w->part, w->verdict), PL_OK);
}

/* The sample's wing with a flap, which has a load case of its own. */
static void make_two_elements(struct wing *w)
{
    struct wing_text text = two_resins();
    text.cases = say("%s, %s", front_wing.cases, push("flap push", "flap", 0, 10, 1, ""));
    wing_make(w, &text);
}

/* Copied, so the very same; a limit that is not given is NAN. */
static void assert_same(double got, double want)
{
    assert_true(got == want || (isnan(got) && isnan(want)));
}

static void assert_lowest(const struct pl_lowest *got, const struct pl_lowest *want)
{
    assert_same(got->reserve, want->reserve);
    assert_same(got->y_m, want->y_m);
    assert_int_equal(got->mode, want->mode);
    assert_int_equal(got->side, want->side);
    assert_string_equal(got->item, want->item);
    assert_ptr_not_equal(got->item, want->item);
}

static void the_figures_of_a_state_are_those_of_the_verdict(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    make_two_elements(&w);
    take(&s, &w);
    const struct pl_verdict *v = w.verdict;
    assert_true(s.judged);
    assert_true(s.mass_kg == v->mass_kg);
    assert_int_equal(s.holds, v->holds);
    assert_int_equal(s.mass_holds, v->mass_holds);
    assert_int_equal(s.n_cases, v->n_cases);
    for (size_t i = 0; i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        assert_string_equal(s.cases[i].name, c->load_case->name);
        assert_string_equal(s.cases[i].element, i == 4 ? "flap" : "main");
        assert_lowest(&s.cases[i].least, &c->least);
        assert_same(s.cases[i].tip_most_m, c->tip_most_m);
        assert_same(s.cases[i].tip_limit_m, i == 3 ? 0.010 : (double)NAN);
        assert_int_equal(s.cases[i].holds, c->holds);
    }
    assert_int_equal(s.lowest_case, v->worst_case);
    assert_ptr_equal(pl_state_lowest(&s), &s.cases[v->worst_case].least);
    pl_state_free(&s);
    wing_free(&w);
}

static void what_falls_short_is_kept_as_falling_short(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    struct wing_text text = front_wing;
    text.limits = "'tip_deflection_mm': {'scrutineer': 0.01}, 'mass_kg': 0.1";
    wing_make(&w, &text);
    take(&s, &w);
    assert_false(s.holds || s.mass_holds || s.cases[3].holds);
    assert_true(s.cases[0].holds);
    pl_state_free(&s);
    wing_free(&w);
}

static void the_cloths_of_a_state_are_those_in_use_in_the_order_of_the_part(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    make_two_elements(&w);
    take(&s, &w);
    assert_int_equal(w.part.n_fabrics, 4);
    assert_int_equal(s.n_cloths, 2);
    assert_string_equal(s.cloths[0].name, "plain");
    assert_int_equal(s.cloths[0].plies, 2 + 2 + 1 + 2); /* first skin, bracket wrap, outer skin; the flap's skin */
    assert_string_equal(s.cloths[1].name, "uni");
    assert_int_equal(s.cloths[1].plies, 6 + 5); /* top cap, bottom cap */
    pl_state_free(&s);
    wing_free(&w);
}

static void an_unused_cloth_ahead_of_the_used_ones_is_passed_over(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    struct wing_text text = {.layup = say_skin("uni", 45, 3)};
    wing_make(&w, &text);
    take(&s, &w);
    assert_int_equal(s.n_cloths, 1);
    assert_string_equal(s.cloths[0].name, "uni");
    assert_true(s.cloths[0].area_m2 == w.verdict->cloths[1].area_m2 && s.cloths[0].area_m2 > 0);
    pl_state_free(&s);
    wing_free(&w);
}

static void cloths_and_cores_of_a_state_are_its_mass(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    make_two_elements(&w);
    take(&s, &w);
    double mass_kg = w.verdict->elements[0].core_mass_kg + w.verdict->elements[1].core_mass_kg;
    for (size_t i = 0; i < s.n_cloths; i++)
        mass_kg += s.cloths[i].mass_kg;
    assert_close(mass_kg, s.mass_kg, 1e-12);
    pl_state_free(&s);
    wing_free(&w);
}

static void one_ply_round_a_slab_is_girth_times_span(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    struct wing_text text = straight_text(
        "'points': [[1, 0.1], [0.5, 0.1], [0.02, 0.1], [0, 0], [0.02, -0.1], [0.5, -0.1], [1, -0.1]]", 100, 500);
    text.layup = say_skin("sheet", 0, 1);
    wing_make(&w, &text);
    take(&s, &w);
    /* Two flats of 98 mm and a nose of two sides, sqrt(2^2 + 10^2) mm each; the open tail is not covered. */
    assert_close(s.cloths[0].area_m2, 2e-3 * (98 + sqrt(104)) * 1.0, 1e-12);
    pl_state_free(&s);
    wing_free(&w);
}

static void a_state_outlives_the_next_runs_the_part_and_the_solve(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    char *bytes = strdup(some_bytes);
    assert_non_null(bytes);
    make_two_elements(&w);
    assert_int_equal(pl_state_take(&s, "A", bytes, strlen(bytes), &w.part, w.verdict), PL_OK);
    double mass_kg = w.verdict->mass_kg, reserve = w.verdict->cases[1].least.reserve;
    double area_m2 = w.verdict->cloths[0].area_m2;
    w.part.elements[0].layup[0].plies = 4;
    for (int i = 0; i < 3; i++)
        wing_solve(&w);
    assert_true(w.verdict->mass_kg > mass_kg && w.verdict->cloths[0].area_m2 > area_m2);
    memset(bytes, 'x', strlen(bytes));
    free(bytes);
    wing_free(&w);
    assert_true(s.mass_kg == mass_kg && s.cases[1].least.reserve == reserve && s.cloths[0].area_m2 == area_m2);
    assert_string_equal(s.name, "A");
    assert_string_equal(s.bytes, some_bytes);
    assert_string_equal(s.cases[1].name, "pit jack");
    assert_string_equal(s.cases[4].element, "flap");
    assert_string_equal(s.cloths[1].name, "uni");
    assert_true(strlen(s.cases[1].least.item) > 0);
    pl_state_free(&s);
}

static void taking_a_state_leaves_the_verdict_as_it_was(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    make_two_elements(&w);
    struct pl_verdict before = *w.verdict;
    double reserve = before.cases[2].least.reserve, area_m2 = before.cloths[0].area_m2;
    take(&s, &w);
    const struct pl_verdict *after = pl_solve_verdict(w.solve);
    assert_ptr_equal(after, w.verdict);
    assert_ptr_equal(after->cases, before.cases);
    assert_true(after->mass_kg == before.mass_kg && after->worst_case == before.worst_case);
    assert_true(after->cases[2].least.reserve == reserve && after->cloths[0].area_m2 == area_m2);
    pl_state_free(&s);
    wing_free(&w);
}

static void a_part_that_cannot_be_judged_is_kept_without_figures(void **state)
{
    (void)state;
    struct pl_state s;
    assert_int_equal(pl_state_take(&s, "B", some_bytes, strlen(some_bytes), NULL, NULL), PL_OK);
    assert_false(s.judged);
    assert_string_equal(s.bytes, some_bytes);
    assert_int_equal(s.length, strlen(some_bytes));
    assert_int_equal(s.n_cases + s.n_cloths, 0);
    assert_null(pl_state_lowest(&s));
    pl_state_free(&s);
}

static void a_part_without_load_cases_has_no_lowest_reserve(void **state)
{
    (void)state;
    struct wing w;
    struct pl_state s;
    struct wing_text text = {.cases = ""};
    wing_make(&w, &text);
    take(&s, &w);
    assert_true(s.judged && s.holds && s.mass_kg > 0);
    assert_int_equal(s.n_cases, 0);
    assert_null(pl_state_lowest(&s));
    pl_state_free(&s);
    wing_free(&w);
}

static void a_state_brings_its_document_back_byte_for_byte(void **state)
{
    (void)state;
    size_t length;
    char *file = read_whole_file("samples/front-wing.json", &length);
    struct pl_state s;
    struct pl_document *doc;
    struct pl_problems problems = {0};
    assert_int_equal(pl_state_take(&s, "C", file, length, NULL, NULL), PL_OK);
    assert_int_equal(pl_document_read(&doc, s.bytes, s.length, &problems), PL_OK);
    assert_int_equal(s.length, length);
    assert_memory_equal(pl_document_bytes(doc, NULL), file, length);
    pl_document_free(doc);
    pl_state_free(&s);
    free(file);
}

static void the_name_of_a_state_is_made_safe(void **state)
{
    (void)state;
    struct pl_state s;
    assert_int_equal(pl_state_take(&s, "\x1b\x1b\xff", "{}", 2, NULL, NULL), PL_OK);
    assert_string_equal(s.name, "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd");
    pl_state_free(&s);
}

/* A document larger than one block of an arena, so that memory can run out in several places. */
static void without_memory_a_state_stays_empty(void **state)
{
    (void)state;
    if (!counts() || !can_fail())
        skip();
    static char bytes[200000];
    struct wing w;
    make_two_elements(&w);
    memset(bytes, ' ', sizeof bytes);
    long tries = 0;
    for (enum pl_status status = PL_NO_MEMORY; status != PL_OK; tries++) {
        struct pl_state s;
        fail_in = tries;
        status = pl_state_take(&s, "A", bytes, sizeof bytes, &w.part, w.verdict);
        fail_in = -1;
        if (status != PL_OK) {
            assert_int_equal(status, PL_NO_MEMORY);
            assert_null(s.name);
            assert_null(s.bytes);
            assert_int_equal(s.n_cases + s.n_cloths + s.length, 0);
            assert_null(s.arena.blocks);
        }
        pl_state_free(&s);
    }
    assert_int_equal(tries, 4); /* blocks for the name, the bytes and the figures; then it is taken */
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_figures_of_a_state_are_those_of_the_verdict),
        cmocka_unit_test(what_falls_short_is_kept_as_falling_short),
        cmocka_unit_test(the_cloths_of_a_state_are_those_in_use_in_the_order_of_the_part),
        cmocka_unit_test(an_unused_cloth_ahead_of_the_used_ones_is_passed_over),
        cmocka_unit_test(cloths_and_cores_of_a_state_are_its_mass),
        cmocka_unit_test(one_ply_round_a_slab_is_girth_times_span),
        cmocka_unit_test(a_state_outlives_the_next_runs_the_part_and_the_solve),
        cmocka_unit_test(taking_a_state_leaves_the_verdict_as_it_was),
        cmocka_unit_test(a_part_that_cannot_be_judged_is_kept_without_figures),
        cmocka_unit_test(a_part_without_load_cases_has_no_lowest_reserve),
        cmocka_unit_test(a_state_brings_its_document_back_byte_for_byte),
        cmocka_unit_test(the_name_of_a_state_is_made_safe),
        cmocka_unit_test(without_memory_a_state_stays_empty),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
