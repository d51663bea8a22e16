/* Actions found by name, edits gone back to by name, a ply group's end moved along the span, and the weakest place. */
#include "pages.h"

#include <math.h>

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

/* ---- the search ---- */

static void every_action_is_found_by_its_words_and_done(void **state)
{
    (void)state;
    for (size_t i = 0; i < pl_n_doings; i++) {
        struct pl_question q = {.kind = PL_FIND_ACTION};
        pl_line_start(&q.line, pl_doings[i].words);
        size_t n = pl_find_count(&q), item = 0;
        while (item < n && pl_find_doing(&q, item) != i)
            item++;
        if (pl_doings[i].action != PL_DO_FIND && item == n)
            fail_msg("\"%s\" is not found", pl_doings[i].words);
    }
    press(&d, "f text:page text:strength Enter");  /* the letters without a blank between find nothing */
    assert_int_equal(d.s->page, PL_PAGE_CLOTH);
    press(&d, "Escape f text:stren Enter");
    assert_int_equal(d.s->page, PL_PAGE_STRENGTH);
    assert_int_equal(d.s->n_questions, 0);
}

static void several_words_narrow_the_search_in_any_order(void **state)
{
    (void)state;
    press(&d, "2 f text:row Space text:add");
    draw_usual(&d);
    assert_shown(&d, "add a row");
    assert_not_shown(&d, "copy the row");
    press(&d, "Enter");
    assert_int_equal(pl_document_steps(d.s->document), 1);
    press(&d, "f text:nothingofthekind");
    draw_usual(&d);
    assert_shown(&d, "no action is called so");
    press(&d, "Enter Escape");
    assert_int_equal(d.s->n_questions, 0);
}

/* ---- edits ---- */

static void the_list_of_edits_goes_back_and_forth_by_name(void **state)
{
    (void)state;
    press(&d, "2 Down Down - Tab Tab Tab Tab BackTab BackTab BackTab BackTab Down - j");
    draw_usual(&d);
    assert_shown(&d, "as it was opened");
    assert_shown(&d, "top cap: Plies 6");
    assert_shown(&d, "bottom cap: Plies 5");
    press(&d, "Home Enter");
    assert_document(&d, d.bytes);
    press(&d, "j");
    draw_usual(&d);
    assert_shown(&d, "(undone)");
    press(&d, "End Enter");
    assert_true(value_at(&d, "/elements/0/layup/2/plies") == 5);
    assert_true(value_at(&d, "/elements/0/layup/3/plies") == 4);
    press(&d, "j Up Enter");
    assert_true(value_at(&d, "/elements/0/layup/2/plies") == 5);
    assert_true(value_at(&d, "/elements/0/layup/3/plies") == 5);
    press(&d, "j Escape");
    assert_int_equal(pl_document_steps_done(d.s->document), 1);
}

/* ---- an end in hand ---- */

static void an_end_is_moved_in_steps_solved_at_once_and_is_one_step_of_undo(void **state)
{
    (void)state;
    press(&d, "2 Down Down");
    double reserve = pl_session_verdict(d.s)->cases[1].least.reserve, mass_kg = pl_session_verdict(d.s)->mass_kg;
    press(&d, "d PageUp PageUp PageUp");
    assert_true(value_at(&d, "/elements/0/layup/2/half_length_mm") == 500);  /* from the tip, 640: 600, 550, 500 */
    assert_true(pl_session_verdict(d.s)->mass_kg < mass_kg);
    press(&d, "Left -");
    assert_true(value_at(&d, "/elements/0/layup/2/half_length_mm") == 489);
    draw_usual(&d);
    assert_shown(&d, "top cap, outer end: 489 mm");
    press(&d, "Enter");
    assert_int_equal(pl_document_steps_done(d.s->document), 1);
    press(&d, "u");
    assert_document(&d, d.bytes);
    assert_true(pl_session_verdict(d.s)->cases[1].least.reserve == reserve);
}

static void escape_puts_an_end_back_and_leaves_edits_before_it(void **state)
{
    (void)state;
    press(&d, "2 Down Down Right Right text:x");  /* on the ends; x switches to edges and is taken back */
    while (pl_document_undo(d.s->document))
        continue;
    pl_session_judge(d.s);
    press(&d, "d Left Left Enter d Left Left Tab Right Escape");
    assert_false(d.s->held.on);
    assert_true(value_at(&d, "/elements/0/layup/2/half_length_mm") == 620);
    assert_true(pl_document_find(d.s->document, "/elements/0/layup/2/from_mm") == PL_NO_NODE);
    assert_int_equal(pl_document_steps_done(d.s->document), 1);
}

static void an_end_goes_to_the_marker_to_the_tip_and_under_a_click(void **state)
{
    (void)state;
    press(&d, "2 Down Down ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] ] d Home");
    assert_true(value_at(&d, "/elements/0/layup/2/half_length_mm") == 300);
    press(&d, "End");
    assert_true(pl_document_find(d.s->document, "/elements/0/layup/2/half_length_mm") == PL_NO_NODE);
    draw_usual(&d);
    const struct pl_hit *hit = NULL;
    for (size_t i = 0; i < d.f.n_hits; i++)
        if (d.f.hits[i].action == PL_DO_MARKER_AT && d.f.hits[i].argument >= 4000)
            hit = !hit || d.f.hits[i].argument < hit->argument ? &d.f.hits[i] : hit;
    assert_non_null(hit);
    double y_mm = round(hit->argument / 10.0);
    pl_session_click(d.s, hit->action, hit->argument);
    assert_true(value_at(&d, "/elements/0/layup/2/half_length_mm") == y_mm);
    press(&d, "Enter");
}

static void ends_stay_inside_the_wing_and_apart(void **state)
{
    (void)state;
    press(&d, "2 Down d Tab PageDown PageDown PageDown PageDown PageDown PageDown PageDown PageDown");
    assert_true(value_at(&d, "/elements/0/layup/1/from_mm") == 239);  /* a millimetre short of the outer end, 240 */
    press(&d, "BackTab PageDown PageDown PageDown PageDown PageDown PageDown PageDown PageDown PageDown PageDown");
    assert_true(pl_document_find(d.s->document, "/elements/0/layup/1/half_length_mm") == PL_NO_NODE);
    press(&d, "Escape");
    assert_document(&d, d.bytes);
    press(&d, "1 d");
    draw_usual(&d);
    assert_shown(&d, "go to a ply group");
    assert_false(d.s->held.on);
}

/* ---- the marker ---- */

static void g_goes_to_the_weakest_place_of_all_cases_or_of_the_one_shown(void **state)
{
    (void)state;
    const struct pl_verdict *v = pl_session_verdict(d.s);
    press(&d, "2 g");
    assert_true(d.s->marker_m == v->cases[v->worst_case].least.y_m);
    for (size_t i = 0; i < v->n_cases; i++) {
        press(&d, "n g");
        assert_int_equal(d.s->load_case, i);
        assert_true(d.s->marker_m == v->cases[i].least.y_m);
    }
    press(&d, "n");
    assert_int_equal(d.s->load_case, PL_NONE);
}

static void a_click_on_a_drawing_puts_the_marker_there(void **state)
{
    (void)state;
    for (int page = PL_PAGE_SHAPE; page <= PL_PAGE_STRENGTH; page++) {
        d.s->page = (enum pl_page)page;
        draw(&d, 132, 43, false);
        int first = 0, last = 0;
        size_t n = 0;
        for (size_t i = 0; i < d.f.n_hits; i++)
            if (d.f.hits[i].action == PL_DO_MARKER_AT) {
                first = n && first < d.f.hits[i].argument ? first : d.f.hits[i].argument;
                last = n && last > d.f.hits[i].argument ? last : d.f.hits[i].argument;
                n++;
            }
        if (n < 20 || last < 6000)
            fail_msg("%s has %zu places for the marker, the farthest at %d", pl_page_names[page], n, last);
        pl_session_click(d.s, PL_DO_MARKER_AT, first);
        assert_true(fabs(d.s->marker_m - first / 10000.0) < 1e-9);
    }
}

static void what_the_foot_names_can_be_clicked(void **state)
{
    (void)state;
    int row = 0, column = 0;
    press(&d, "2");
    draw(&d, 132, 43, false);
    assert_true(find(&d, "? help", &row, &column));
    const struct pl_hit *hit = pl_frame_hit_at(&d.f, row, column + 3);
    assert_non_null(hit);
    pl_session_click(d.s, hit->action, hit->argument);
    assert_int_equal(pl_question_of(d.s)->kind, PL_SHOW_HELP);
    draw(&d, 132, 43, false);
    assert_true(find(&d, "Escape back", &row, &column));
    hit = pl_frame_hit_at(&d.f, row, column);
    pl_session_click(d.s, hit->action, hit->argument);
    assert_int_equal(d.s->n_questions, 0);
    press(&d, "Enter");
    draw(&d, 132, 43, false);
    pl_session_click(d.s, PL_DO_PAGE, PL_PAGE_LOADS);  /* a value being typed is not left by a click beside it */
    assert_int_equal(d.s->page, PL_PAGE_CLOTH);
    assert_true(d.s->typing);
}

static void an_item_of_a_list_is_taken_by_a_click(void **state)
{
    (void)state;
    int row = 0, column = 0;
    press(&d, "2 f text:redo");
    draw_usual(&d);
    press(&d, "Escape 2 Down Down + j");
    draw_usual(&d);
    assert_true(find(&d, "as it was opened", &row, &column));
    const struct pl_hit *hit = pl_frame_hit_at(&d.f, row, column);
    assert_non_null(hit);
    pl_session_click(d.s, hit->action, hit->argument);
    assert_document(&d, d.bytes);
    assert_int_equal(d.s->n_questions, 0);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(every_action_is_found_by_its_words_and_done),
        TRIAL(several_words_narrow_the_search_in_any_order),
        TRIAL(the_list_of_edits_goes_back_and_forth_by_name),
        TRIAL(an_end_is_moved_in_steps_solved_at_once_and_is_one_step_of_undo),
        TRIAL(escape_puts_an_end_back_and_leaves_edits_before_it),
        TRIAL(an_end_goes_to_the_marker_to_the_tip_and_under_a_click),
        TRIAL(ends_stay_inside_the_wing_and_apart),
        TRIAL(g_goes_to_the_weakest_place_of_all_cases_or_of_the_one_shown),
        TRIAL(a_click_on_a_drawing_puts_the_marker_there),
        TRIAL(what_the_foot_names_can_be_clicked),
        TRIAL(an_item_of_a_list_is_taken_by_a_click),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
