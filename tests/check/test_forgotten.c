/* What one forgotten ply does is what the part does from which somebody took that ply away. */
#include "../part/parts.h"

#include "plyloft/forgotten.h"

#include <math.h>

static struct trial t;
static struct pl_forgotten *f;

static int fresh(void **state)
{
    (void)state;
    trial_open(&t, SAMPLE_PART);
    trial_build(&t);
    f = pl_forgotten_new();
    return !f;
}

static int fresh_whole(void **state)
{
    (void)state;
    trial_open(&t, WHOLE_PART);
    trial_build(&t);
    f = pl_forgotten_new();
    return !f;
}

static int release(void **state)
{
    (void)state;
    pl_forgotten_free(f);
    trial_close(&t);
    return 0;
}

/* Works out all groups; their number. */
static size_t step_to_the_end(void)
{
    size_t n = 0;
    while (pl_forgotten_step(f))
        n++;
    return n;
}

static const struct pl_forgotten_ply *worked_out(size_t element, size_t item)
{
    const struct pl_forgotten_ply *p = pl_forgotten_of(f, element, item);
    assert_non_null(p);
    assert_true(p->done);
    return p;
}

/* ---- by hand ---- */

static void put_number(const char *row, const char *key, double value)
{
    char pointer[96], json[40];
    snprintf(pointer, sizeof pointer, "%s/%s", row, key);
    snprintf(json, sizeof json, "%.15g", value);
    put(&t, pointer, json);
}

/* Takes the longest ply of a group out of the document: the next one is a drop shorter at either end. */
static void take_the_longest_away(size_t element, size_t item)
{
    const struct pl_layup_item *it = &t.part.elements[element].layup[item];
    char row[64];
    snprintf(row, sizeof row, "/elements/%zu/layup/%zu", element, item);
    if (it->plies == 1) {
        put(&t, row, NULL);
        return;
    }
    double half_m = pl_given(it->half_length_m) ? it->half_length_m : pl_element_semispan_m(&t.part.elements[element]);
    put_number(row, "plies", it->plies - 1);
    put_number(row, "half_length_mm", 1e3 * (half_m - it->drop_m));
    if (it->from_m > 0)
        put_number(row, "from_mm", 1e3 * (it->from_m + it->drop_m));
}

/* Lowest reserve of the part as its document stands, and the case it is in. */
static double lowest_reserve(size_t *load_case)
{
    struct pl_part part = {0};
    struct pl_problems problems = {0};
    struct pl_solve *solve = pl_solve_new();
    assert_non_null(solve);
    assert_int_equal(pl_part_build(&part, t.doc, &problems), PL_OK);
    assert_int_equal(pl_solve_run(solve, &part, &problems), PL_OK);
    const struct pl_verdict *v = pl_solve_verdict(solve);
    double reserve = v->cases[v->worst_case].least.reserve;
    *load_case = v->worst_case;
    pl_solve_free(solve);
    pl_part_free(&part);
    pl_problems_free(&problems);
    return reserve;
}

/* Every group of an element: the figure is that of the part with the ply taken away by hand.  The lowest of them, as a
 * part of the reserve of the whole. */
static double assert_as_by_hand(size_t element)
{
    size_t whole_case, load_case;
    double whole = lowest_reserve(&whole_case), lowest = whole;
    for (size_t i = 0; i < t.part.elements[element].n_layup; i++) {
        const struct pl_forgotten_ply *p = worked_out(element, i);
        size_t steps = pl_document_steps_done(t.doc);
        take_the_longest_away(element, i);
        double by_hand = lowest_reserve(&load_case);
        while (pl_document_steps_done(t.doc) > steps)
            assert_true(pl_document_undo(t.doc));
        assert_false(p->bare);
        assert_close(p->reserve, by_hand, 1e-9);
        assert_int_equal(p->load_case, load_case);
        lowest = fmin(lowest, by_hand);
    }
    assert_close(lowest_reserve(&load_case), whole, 0); /* all was put back */
    return lowest / whole;
}

static void a_forgotten_ply_weakens_as_when_it_is_taken_away_by_hand(void **state)
{
    (void)state;
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 5);
    assert_true(assert_as_by_hand(0) < 0.95);
}

/* Two pairs of pieces of which only the longer reaches over the mount at 170 mm, or leaves more beyond it. */
static void assert_wrap_is_missed(const char *from_mm, const char *half_length_mm, const char *drop_mm)
{
    size_t load_case;
    put(&t, "/elements/0/layup/1/from_mm", from_mm);
    put(&t, "/elements/0/layup/1/half_length_mm", half_length_mm);
    put(&t, "/elements/0/layup/1/drop_mm", drop_mm);
    trial_build(&t);
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 5);
    assert_as_by_hand(0);
    assert_true(worked_out(0, 1)->reserve < 0.95 * lowest_reserve(&load_case));
}

static void of_pairs_of_pieces_the_longest_is_taken_away_at_both_ends(void **state)
{
    (void)state;
    assert_wrap_is_missed("160", "240", "15");
    assert_wrap_is_missed("20", "190", "25");
}

static void groups_of_every_element_are_worked_out(void **state)
{
    (void)state;
    size_t load_case;
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 4);
    assert_as_by_hand(0);
    assert_true(assert_as_by_hand(1) < 0.95); /* the flap's only group, of two plies */
    lowest_reserve(&load_case);
    assert_int_equal(worked_out(1, 0)->load_case, load_case);
}

static void the_part_itself_stays_as_it_was(void **state)
{
    (void)state;
    struct pl_layup_item before[5];
    memcpy(before, t.part.elements[0].layup, sizeof before);
    pl_forgotten_start(f, &t.part);
    step_to_the_end();
    assert_int_equal(t.part.elements[0].n_layup, 5);
    assert_memory_equal(before, t.part.elements[0].layup, sizeof before);
}

/* ---- bare wall ---- */

/* Another group of one ply under the skins, which then are all that covers the sides. */
static void leave_one_skin(void)
{
    put(&t, "/elements/0/layup/0/plies", "1");
    put(&t, "/elements/0/layup/4", NULL);
    trial_build(&t);
}

static void a_single_ply_whose_absence_bares_the_wall_is_told_as_bare(void **state)
{
    (void)state;
    leave_one_skin();
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 4);
    assert_true(worked_out(0, 0)->bare);
    assert_false(pl_given(worked_out(0, 0)->reserve));
    assert_int_equal(worked_out(0, 0)->load_case, PL_NONE);
    for (size_t i = 1; i < 4; i++)
        assert_false(worked_out(0, i)->bare);
}

static void the_only_ply_of_a_wing_is_bare_without_it(void **state)
{
    (void)state;
    leave_one_skin();
    for (int i = 3; i > 0; i--) {
        char row[40];
        snprintf(row, sizeof row, "/elements/0/layup/%d", i);
        put(&t, row, NULL);
    }
    trial_build(&t);
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 1);
    assert_true(worked_out(0, 0)->bare);
    size_t element = 7, item = 7;
    assert_null(pl_forgotten_worst(f, &element, &item));
    assert_int_equal(element, 7);
}

static void one_ply_of_two_bares_nothing(void **state)
{
    (void)state;
    leave_one_skin();
    put(&t, "/elements/0/layup/0/plies", "2");
    trial_build(&t);
    pl_forgotten_start(f, &t.part);
    step_to_the_end();
    assert_false(worked_out(0, 0)->bare);
}

/* ---- the worst, and starting over ---- */

static void assert_worst_is_the_lowest(void)
{
    size_t element, item;
    const struct pl_forgotten_ply *worst = pl_forgotten_worst(f, &element, &item);
    assert_non_null(worst);
    assert_ptr_equal(worst, pl_forgotten_of(f, element, item));
    for (size_t e = 0; e < t.part.n_elements; e++)
        for (size_t i = 0; i < t.part.elements[e].n_layup; i++) {
            const struct pl_forgotten_ply *p = pl_forgotten_of(f, e, i);
            assert_true(!p || p->bare || p->reserve >= worst->reserve);
        }
}

static void the_worst_is_the_lowest_of_those_that_leave_a_wall(void **state)
{
    (void)state;
    leave_one_skin();
    pl_forgotten_start(f, &t.part);
    size_t element, item, last = PL_NONE;
    bool moved = false;
    assert_null(pl_forgotten_worst(f, &element, &item));
    while (pl_forgotten_step(f))
        if (pl_forgotten_worst(f, &element, &item)) {
            assert_worst_is_the_lowest();
            moved = moved || (last != PL_NONE && item != last);
            last = item;
        }
    assert_true(moved); /* the first is not the lowest, so that picking it would be seen */
    assert_int_not_equal(item, 0);
}

static void before_it_is_worked_out_nothing_is_told(void **state)
{
    (void)state;
    assert_false(pl_forgotten_step(f));
    assert_null(pl_forgotten_of(f, 0, 0));
    pl_forgotten_start(f, &t.part);
    assert_null(pl_forgotten_of(f, 0, 0));
    assert_true(pl_forgotten_step(f));
    worked_out(0, 0);
    assert_null(pl_forgotten_of(f, 0, 1));
    assert_null(pl_forgotten_of(f, 0, 99));
    assert_null(pl_forgotten_of(f, 99, 0));
}

static void starting_over_forgets_the_part_before(void **state)
{
    (void)state;
    pl_forgotten_start(f, &t.part);
    assert_true(pl_forgotten_step(f) && pl_forgotten_step(f));
    double before = worked_out(0, 0)->reserve;
    pl_forgotten_start(f, &t.part);
    assert_null(pl_forgotten_of(f, 0, 0));
    assert_int_equal(step_to_the_end(), 5);
    assert_close(worked_out(0, 0)->reserve, before, 0);
    assert_false(pl_forgotten_step(f));

    put(&t, "/elements/0/layup/3", NULL); /* another part: a group less, and figures of its own */
    trial_build(&t);
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 4);
    assert_null(pl_forgotten_of(f, 0, 4));
    assert_as_by_hand(0);
    assert_worst_is_the_lowest();
}

/* A part that cannot be judged does not keep the next one from it. */
static void a_part_after_one_left_bare_is_worked_out(void **state)
{
    (void)state;
    leave_one_skin();
    pl_forgotten_start(f, &t.part);
    assert_true(pl_forgotten_step(f));
    assert_true(worked_out(0, 0)->bare);
    put(&t, "/elements/0/layup/0/plies", "3");
    trial_build(&t);
    pl_forgotten_start(f, &t.part);
    assert_int_equal(step_to_the_end(), 4);
    assert_as_by_hand(0);
}

static void without_a_start_there_is_nothing_to_give_back(void **state)
{
    (void)state;
    size_t element, item;
    pl_forgotten_free(NULL);
    struct pl_forgotten *unused = pl_forgotten_new();
    assert_non_null(unused);
    assert_null(pl_forgotten_worst(unused, &element, &item));
    pl_forgotten_free(unused);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(a_forgotten_ply_weakens_as_when_it_is_taken_away_by_hand),
        TRIAL(of_pairs_of_pieces_the_longest_is_taken_away_at_both_ends),
        WHOLE(groups_of_every_element_are_worked_out),
        TRIAL(the_part_itself_stays_as_it_was),
        TRIAL(a_single_ply_whose_absence_bares_the_wall_is_told_as_bare),
        TRIAL(the_only_ply_of_a_wing_is_bare_without_it),
        TRIAL(one_ply_of_two_bares_nothing),
        TRIAL(the_worst_is_the_lowest_of_those_that_leave_a_wall),
        TRIAL(before_it_is_worked_out_nothing_is_told),
        TRIAL(starting_over_forgets_the_part_before),
        TRIAL(a_part_after_one_left_bare_is_worked_out),
        cmocka_unit_test(without_a_start_there_is_nothing_to_give_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
