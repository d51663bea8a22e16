/* What keys and clicks do at the bench: pages, blocks, typed values, saving and leaving. */
#include "pages.h"

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    press(&d, "2");
    return 0;
}

static int fresh_whole(void **state)
{
    (void)state;
    desk_open(&d, WHOLE_PART);
    press(&d, "2");
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

static const char *const first_plies = "/elements/0/layup/0/plies";

/* The first cell of a row of the page drawn last that is drawn as chosen, -1 without one; behind the first line. */
static int chosen_row(int *column)
{
    for (int row = 1; row < d.f.rows; row++)
        for (*column = 0; *column < d.f.columns; (*column)++)
            if (d.f.cells[row * d.f.columns + *column].role == PL_ROLE_CHOSEN)
                return row;
    return -1;
}

/* ---- pages and blocks ---- */

static void figures_1_to_8_are_the_pages(void **state)
{
    (void)state;
    for (int p = 0; p < PL_PAGES; p++) {
        char key[2] = {(char)('1' + p), '\0'};
        press(&d, key);
        assert_int_equal(d.s->page, p);
        for (int i = 0; i < SIZES; i++) {
            draw(&d, sizes[i].columns, sizes[i].rows, i == 0);
            assert_role(&d, pl_page_names[p], PL_ROLE_CHOSEN);
        }
    }
}

static void tab_goes_through_the_parts_of_a_page_and_back_to_the_first(void **state)
{
    (void)state;
    static const char *const keys[] = {"Tab", "BackTab"};
    for (int way = 0; way < 2; way++) {
        char *first = strdup(draw_usual(&d)), *second;
        press(&d, keys[way]);
        second = strdup(draw_usual(&d));
        assert_string_not_equal(first, second);
        int round = 1;
        for (; round < 20 && strcmp(draw_usual(&d), first) != 0; round++)
            press(&d, keys[way]);
        assert_in_range(round, 2, 19);
        free(first);
        free(second);
    }
}

static void backtab_takes_tab_back(void **state)
{
    (void)state;
    char *first = strdup(draw_usual(&d));
    press(&d, "Tab Tab BackTab BackTab");
    assert_string_equal(draw_usual(&d), first);
    free(first);
}

static void up_and_down_go_through_the_rows_and_stop_at_the_ends(void **state)
{
    (void)state;
    int column, row, first;
    draw_usual(&d);
    first = chosen_row(&column);
    press(&d, "Up");
    draw_usual(&d);
    assert_int_equal(chosen_row(&column), first);
    for (int i = 1; i <= 4; i++) {
        press(&d, "Down");
        draw_usual(&d);
        assert_int_equal(chosen_row(&column), first + i);
    }
    press(&d, "Down Down PageDown End");
    draw_usual(&d);
    row = chosen_row(&column);
    assert_int_equal(row, first + 4);
    press(&d, "Home");
    draw_usual(&d);
    assert_int_equal(chosen_row(&column), first);
}

static void left_and_right_go_through_the_fields_of_a_row(void **state)
{
    (void)state;
    int before, column;
    draw_usual(&d);
    chosen_row(&before);
    press(&d, "Right");
    draw_usual(&d);
    chosen_row(&column);
    assert_true(column > before);
    press(&d, "Left Left Left");
    draw_usual(&d);
    chosen_row(&column);
    assert_int_equal(column, before);
    /* Every field comes into sight on the smallest screen. */
    press(&d, "Right Right Right Right Right Right Right Right Right Right");
    draw(&d, 40, 20, true);
    assert_int_not_equal(chosen_row(&column), -1);
    assert_shown(&d, "cloth");
}

static void every_field_says_what_it_is_for(void **state)
{
    (void)state;
    draw(&d, 200, 60, false);
    assert_shown(&d, "Layers of this group");
    press(&d, "Right");
    draw(&d, 200, 60, false);
    assert_shown(&d, "Of the threads from the span");
}

static void a_case_chosen_on_the_strength_page_is_the_one_shown(void **state)
{
    (void)state;
    press(&d, "4");
    draw(&d, 80, 24, false);
    assert_shown(&d, "reserve  a b");
    press(&d, "Down Down Down");
    draw(&d, 80, 24, false);
    assert_shown(&d, "reserve: kerb on tip");
    press(&d, "Home");
    draw(&d, 80, 24, false);
    assert_shown(&d, "reserve  a b");
}

static void curves_are_chosen_with_left_and_right(void **state)
{
    (void)state;
    static const char *const titles[] = {"reserve", "moment", "deflected shape", "stress"};
    press(&d, "4");
    for (int i = 0; i < 4; i++) {
        draw(&d, 40, 20, true);
        assert_shown(&d, titles[i]);
        press(&d, "Right");
    }
}

static void the_other_element_is_one_key_away(void **state)
{
    (void)state;
    draw_usual(&d);
    assert_shown(&d, "top cap");
    press(&d, "e");
    draw_usual(&d);
    assert_shown(&d, "flap skin");
    assert_not_shown(&d, "top cap");
    press(&d, "+");
    assert_close(value_at(&d, "/elements/1/layup/0/plies"), 3, 0);
    press(&d, "e");
    draw_usual(&d);
    assert_shown(&d, "top cap");
}

/* ---- typed values ---- */

static void typing_replaces_the_selected_value(void **state)
{
    (void)state;
    press(&d, "Enter");
    draw_usual(&d);
    assert_true(d.f.cursor_row > 0 && d.f.cursor_column > 0);
    int column;
    assert_int_equal(chosen_row(&column), d.f.cursor_row);
    press(&d, "4");
    draw_usual(&d);
    const struct pl_cell *before = &d.f.cells[d.f.cursor_row * d.f.columns + d.f.cursor_column - 1];
    assert_int_equal(before->code, '4');
    assert_int_equal(before->role, PL_ROLE_EDIT);
    assert_int_equal(d.s->page, PL_PAGE_CLOTH);  /* not a page's key while a value is typed */
    press(&d, "Enter");
    assert_close(value_at(&d, first_plies), 4, 0);
    draw_usual(&d);
    assert_int_equal(d.f.cursor_row, -1);
}

static void moving_in_the_value_keeps_it(void **state)
{
    (void)state;
    press(&d, "Tab Right Enter End 5 Enter");
    assert_close(value_at(&d, "/elements/0/stations/0/chord_mm"), 2755, 0);
    press(&d, "Enter Left Backspace Enter");
    assert_close(value_at(&d, "/elements/0/stations/0/chord_mm"), 275, 0);
    press(&d, "Enter Home Delete Right 0 Enter");
    assert_close(value_at(&d, "/elements/0/stations/0/chord_mm"), 705, 0);
}

static void backspace_and_delete_take_a_selected_value_away(void **state)
{
    (void)state;
    press(&d, "Right Enter Backspace 3 0 Enter");
    assert_close(value_at(&d, "/elements/0/layup/0/angle_deg"), 30, 0);
    press(&d, "Enter Delete 6 0 Enter");
    assert_close(value_at(&d, "/elements/0/layup/0/angle_deg"), 60, 0);
    press(&d, "Enter Backspace Backspace Delete 1 5 Backspace Enter");
    assert_close(value_at(&d, "/elements/0/layup/0/angle_deg"), 1, 0);
}

static void escape_leaves_the_value_as_it_was(void **state)
{
    (void)state;
    press(&d, "Enter 9 9 Escape");
    assert_document(&d, d.bytes);
    assert_false(d.s->typing);
    draw_usual(&d);
    assert_shown(&d, "HOLDS");
    press(&d, "Enter Backspace Escape Enter Escape");
    assert_document(&d, d.bytes);
}

static void a_comma_is_a_point(void **state)
{
    (void)state;
    press(&d, "Tab Right Enter 272,5 Enter");
    assert_close(value_at(&d, "/elements/0/stations/0/chord_mm"), 272.5, 0);
    assert_true(d.s->valid);
}

static void what_is_no_value_stays_to_be_mended_with_the_reason(void **state)
{
    (void)state;
    press(&d, "Enter text:two Enter");
    draw_usual(&d);
    assert_shown(&d, "must be a number");
    assert_shown(&d, "two");
    assert_true(d.s->typing);
    assert_document(&d, d.bytes);
    press(&d, "Backspace Backspace Backspace 2 Enter");
    assert_false(d.s->typing);
    assert_close(value_at(&d, first_plies), 2, 0);
}

static void a_value_taken_over_as_it_stands_changes_nothing(void **state)
{
    (void)state;
    /* Every cell of every part of the page, among them -1.0 and 0.30, and values that are left out. */
    for (int block = 0; block < 3; block++) {
        for (int row = 0; row < 7; row++) {
            for (int column = 0; column < 10; column++)
                press(&d, "Enter Enter Right");
            press(&d, "Left Left Left Left Left Left Left Left Left Left Down");
        }
        press(&d, "Home Tab");
    }
    assert_document(&d, d.bytes);
    assert_int_equal(pl_document_steps(d.s->document), 0);
}

static void a_choice_can_be_typed_by_its_start_and_stepped(void **state)
{
    (void)state;
    press(&d, "Right Right Right Right Right Right Right Enter t Enter");
    draw_usual(&d);
    pl_node side = pl_document_find(d.s->document, "/elements/0/layup/0/side");
    assert_string_equal(pl_node_text(d.s->document, side), "top");
    press(&d, "+");
    side = pl_document_find(d.s->document, "/elements/0/layup/0/side");
    assert_string_equal(pl_node_text(d.s->document, side), "bottom");
}

static void a_long_value_never_overflows(void **state)
{
    (void)state;
    press(&d, "Enter");
    for (int i = 0; i < 300; i++)
        press(&d, i % 3 ? "7" : "\u00e9");
    draw(&d, 40, 20, false);
    assert_true(strlen(d.s->line.text) < sizeof d.s->line.text);
    for (int i = 0; i < 310; i++)
        press(&d, "Backspace");
    assert_string_equal(d.s->line.text, "");
    press(&d, "Escape");
    assert_document(&d, d.bytes);
}

static void a_text_that_moved_to_the_left_tells_so(void **state)
{
    (void)state;
    press(&d, "w Home");
    draw(&d, 40, 20, false);
    const struct pl_cell *first = &d.f.cells[d.f.cursor_row * d.f.columns + d.f.cursor_column];
    assert_int_not_equal(first->code, 0x2026);
    press(&d, "Ctrl-U text:some/long/path/that/goes/on/and/on.json");
    draw(&d, 40, 20, false);
    first = &d.f.cells[d.f.cursor_row * d.f.columns + 2];
    assert_int_equal(first->code, 0x2026);
    assert_int_equal(d.f.cells[d.f.cursor_row * d.f.columns + d.f.cursor_column - 1].code, 'n');
    draw(&d, 200, 60, false);
    assert_shown(&d, "some/long/path/that/goes/on/and/on.json");
}

static void ctrl_u_empties_what_is_typed(void **state)
{
    (void)state;
    press(&d, "Enter 1 2 3 Left Ctrl-U 4 Enter");
    assert_true(value_at(&d, "/elements/0/layup/0/plies") == 4);
    press(&d, "w Ctrl-U");
    assert_string_equal(d.s->questions[0].line.text, "");
    press(&d, "Escape Enter");
    draw_usual(&d);
    assert_shown(&d, "Ctrl-U empty it");
}

static void a_step_past_the_end_says_so(void **state)
{
    (void)state;
    press(&d, "- - -");
    assert_close(value_at(&d, first_plies), 1, 0);
    draw_usual(&d);
    assert_shown(&d, "as far as it goes");
}

/* ---- taking away ---- */

static void what_was_taken_away_is_named_with_the_way_back(void **state)
{
    (void)state;
    press(&d, "2 Down Down Delete");
    assert_string_equal(d.s->message, "taken away: top cap; u brings it back");
    press(&d, "u 3 Home Down Down Down Delete");  /* the one with a limit of its tip */
    assert_string_equal(d.s->message, "taken away: scrutineer, and its limit; u brings it back");
    press(&d, "u 3 Home Delete");
    assert_string_equal(d.s->message, "taken away: top speed; u brings it back");
    press(&d, "u 4 Tab Tab Down Delete");
    assert_string_equal(d.s->message, "left out: allowables, core knockdown; u brings it back");
    press(&d, "u");
    assert_document(&d, d.bytes);
}

static void a_row_said_another_way_tells_what_is_not_the_same(void **state)
{
    (void)state;
    press(&d, "2 text:x");
    assert_string_equal(d.s->message, "said as a strip: the same on the mean chord, not elsewhere; u takes it back");
    press(&d, "text:x");
    assert_string_equal(d.s->message, "said by its edges: the same on the mean chord, not elsewhere; u takes it back");
    press(&d, "3 Home Down Down text:x");
    assert_non_null(strstr(d.s->message, "said by its force: "));
    press(&d, "text:x");
    assert_non_null(strstr(d.s->message, "said by energy: "));
    press(&d, "Down text:x");
    assert_non_null(strstr(d.s->message, "can be said in one way only"));
}

static void a_held_delete_does_not_answer_its_own_question(void **state)
{
    (void)state;
    press(&d, "2 Tab Tab Tab Delete Delete Delete d");
    assert_int_equal(d.s->n_questions, 1);
    assert_document(&d, d.bytes);
    press(&d, "Escape");
    assert_document(&d, d.bytes);
    press(&d, "Delete Enter");
    assert_int_equal(d.s->n_questions, 0);
    assert_false(d.s->valid);
    press(&d, "u");
    assert_document(&d, d.bytes);
}

/* ---- saving and leaving ---- */

static void q_leaves_when_nothing_is_to_be_lost(void **state)
{
    (void)state;
    press(&d, "4 ] q");
    assert_true(d.s->leave);
}

static void q_asks_when_something_is_to_be_lost(void **state)
{
    (void)state;
    press(&d, "+ q");
    assert_false(d.s->leave);
    for (int i = 0; i < SIZES; i++) {
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        assert_shown(&d, "s save");
        assert_shown(&d, "Escape");
    }
    press(&d, "x + Enter");  /* no answer */
    assert_false(d.s->leave);
    draw_usual(&d);
    assert_shown(&d, "s save");
    press(&d, "Escape");
    draw_usual(&d);
    assert_not_shown(&d, "s save");
    assert_close(value_at(&d, first_plies), 3, 0);
}

static void leaving_without_saving_leaves_the_file_alone(void **state)
{
    (void)state;
    press(&d, "+ q d");
    assert_true(d.s->leave);
    char *now = read_whole_file(d.path, NULL);
    assert_string_equal(now, d.bytes);
    assert_int_equal(count_in_folder(d.folder), 1);
    free(now);
}

static void saving_and_leaving_writes_what_is_there(void **state)
{
    (void)state;
    press(&d, "+ q s");
    assert_true(d.s->leave);
    char *now = read_whole_file(d.path, NULL);
    assert_document(&d, now);
    assert_string_not_equal(now, d.bytes);
    assert_int_equal(count_in_folder(d.folder), 1);
    free(now);
}

static void saving_is_told_and_leaves_nothing_to_ask(void **state)
{
    (void)state;
    press(&d, "+");
    draw_usual(&d);
    assert_shown(&d, "changed");
    press(&d, "Ctrl-S");
    draw_usual(&d);
    assert_shown(&d, "saved");
    assert_not_shown(&d, "changed");
    press(&d, "u");
    draw_usual(&d);
    assert_shown(&d, "changed");  /* back past the save is a change again */
    press(&d, "U q");
    assert_true(d.s->leave);
}

static void a_save_that_fails_is_told_and_keeps_everything(void **state)
{
    (void)state;
    press(&d, "+");
    assert_int_equal(remove(d.path), 0);
    free(d.s->path);
    assert_true(asprintf(&d.s->path, "%s/nowhere/part.json", d.folder) > 0);
    press(&d, "q s");
    assert_false(d.s->leave);
    draw_usual(&d);
    assert_shown(&d, "not saved");
    assert_true(pl_document_changed(d.s->document));
    assert_close(value_at(&d, first_plies), 3, 0);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(figures_1_to_8_are_the_pages),
        TRIAL(tab_goes_through_the_parts_of_a_page_and_back_to_the_first),
        TRIAL(backtab_takes_tab_back),
        TRIAL(up_and_down_go_through_the_rows_and_stop_at_the_ends),
        TRIAL(left_and_right_go_through_the_fields_of_a_row),
        TRIAL(every_field_says_what_it_is_for),
        TRIAL(a_case_chosen_on_the_strength_page_is_the_one_shown),
        TRIAL(curves_are_chosen_with_left_and_right),
        WHOLE(the_other_element_is_one_key_away),
        TRIAL(typing_replaces_the_selected_value),
        TRIAL(moving_in_the_value_keeps_it),
        TRIAL(backspace_and_delete_take_a_selected_value_away),
        TRIAL(escape_leaves_the_value_as_it_was),
        TRIAL(a_comma_is_a_point),
        TRIAL(what_is_no_value_stays_to_be_mended_with_the_reason),
        TRIAL(a_value_taken_over_as_it_stands_changes_nothing),
        TRIAL(a_choice_can_be_typed_by_its_start_and_stepped),
        TRIAL(a_long_value_never_overflows),
        TRIAL(a_text_that_moved_to_the_left_tells_so),
        TRIAL(ctrl_u_empties_what_is_typed),
        TRIAL(a_step_past_the_end_says_so),
        TRIAL(a_held_delete_does_not_answer_its_own_question),
        TRIAL(what_was_taken_away_is_named_with_the_way_back),
        TRIAL(a_row_said_another_way_tells_what_is_not_the_same),
        TRIAL(q_leaves_when_nothing_is_to_be_lost),
        TRIAL(q_asks_when_something_is_to_be_lost),
        TRIAL(leaving_without_saving_leaves_the_file_alone),
        TRIAL(saving_and_leaving_writes_what_is_there),
        TRIAL(saving_is_told_and_leaves_nothing_to_ask),
        TRIAL(a_save_that_fails_is_told_and_keeps_everything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
