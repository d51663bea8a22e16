/* States side by side: kept, compared with the present one, dropped, and brought back. */
#include "pages.h"

#include "plyloft/words.h"

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

static bool find_row(const char *label, const char *group, struct pl_trial_row *out)
{
    bool in_group = !group;
    for (size_t i = 0; i < pl_trials_rows(d.s); i++) {
        pl_trials_row(d.s, i, out);
        if (out->heading)
            in_group = group && !strcmp(out->label, group);
        else if (in_group && !strcmp(out->label, label))
            return true;
    }
    return false;
}

/* Three, four and five plies of the cap: 5 as "now" of the sample's 6. */
static void keep_three(void)
{
    press(&d, "2 Down Down - k - k - k +");
}

static void columns_hold_what_each_state_came_to(void **state)
{
    (void)state;
    struct pl_trial_row row;
    char mass[3][32], reserve[3][32];
    press(&d, "2 Down Down");
    for (int i = 0; i < 3; i++) {
        press(&d, "- k");
        const struct pl_verdict *v = pl_session_verdict(d.s);
        pl_number_fixed(mass[i], sizeof mass[i], v->mass_kg, 3);
        pl_reserve_words(v->cases[2].least.reserve, reserve[i], sizeof reserve[i]);
    }
    press(&d, "+ 7");
    assert_int_equal(pl_trials_count(d.s), 4);
    assert_true(find_row("mass, kg", NULL, &row));
    for (int i = 0; i < 3; i++)
        assert_string_equal(row.values[i + 1], mass[i]);
    assert_true(find_row("kerb on tip", "reserve", &row));
    for (int i = 0; i < 3; i++)
        assert_string_equal(row.values[i + 1], reserve[i]);
    assert_true(row.wrong[3] && !row.wrong[1]);
    assert_true(find_row("top cap, plies", "what differs in the part", &row));
    assert_string_equal(row.values[0], "4");
    assert_string_equal(row.values[1], "5");
    assert_string_equal(row.values[2], "4");
    assert_string_equal(row.values[3], "3");
    assert_true(row.differs[1] && !row.differs[2] && row.differs[3]);
}

static void the_table_shows_every_row_when_it_is_scrolled_on_any_size(void **state)
{
    (void)state;
    keep_three();
    press(&d, "7");
    for (int i = 0; i < SIZES; i++) {
        size_t n = pl_trials_rows(d.s);
        for (size_t row = 0; row < n; row++) {
            struct pl_trial_row t;
            char label[8];
            bool seen = false;
            pl_trials_row(d.s, row, &t);
            snprintf(label, sizeof label, "%.6s", t.label);
            d.s->trials.first = 0;
            for (size_t k = 0; k < n && !seen; k++) {
                int at_row = 0, at_column = 0;
                draw(&d, sizes[i].columns, sizes[i].rows, false);
                seen = find(&d, label, &at_row, &at_column);
                press(&d, "Down");
            }
            if (!seen)
                fail_msg("\"%s\" is not shown on %d x %d", t.label, sizes[i].columns, sizes[i].rows);
        }
        press(&d, "Home");
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        assert_shown(&d, "SHORT");
        assert_shown(&d, "1.238*");
    }
}

static void a_state_is_brought_back_byte_for_byte_as_one_step_of_undo(void **state)
{
    (void)state;
    press(&d, "2 k Down Down - - - 7 Right Enter");
    assert_document(&d, d.bytes);
    assert_true(d.s->valid);
    press(&d, "u");
    assert_true(value_at(&d, "/elements/0/layup/2/plies") == 3);
    press(&d, "2 b Enter");
    assert_document(&d, d.bytes);
    draw_usual(&d);
    assert_shown(&d, "brought back A: as it was opened");
    press(&d, "7 Right Enter");
    draw_usual(&d);
    assert_shown(&d, "the part is as it was kept, as: A");
}

static void four_are_kept_at_most_and_letters_stay(void **state)
{
    (void)state;
    struct pl_trial_row row;
    press(&d, "2 Down Down k - k - k - k - k");
    draw_usual(&d);
    assert_shown(&d, "four states are kept");
    assert_int_equal(pl_trials_count(d.s), PL_TRIALS_MOST);
    press(&d, "7 Right Right Delete");  /* B goes */
    assert_int_equal(pl_trials_count(d.s), 4);
    draw_usual(&d);
    assert_shown(&d, "dropped: B");
    assert_true(find_row("top cap, plies", "what differs in the part", &row));
    assert_string_equal(row.values[2], "4");
    assert_string_equal(pl_trials_letter(pl_trials_slot(d.s, 2)), "C");
    press(&d, "k");
    assert_string_equal(pl_trials_letter(pl_trials_slot(d.s, 2)), "B");
    press(&d, "7 Home Left Left Left Left Left Delete");
    draw_usual(&d);
    assert_shown(&d, "the present state is not dropped");
    assert_int_equal(pl_trials_count(d.s), PL_TRIALS_MOST);
}

static void the_same_state_is_not_kept_twice(void **state)
{
    (void)state;
    press(&d, "2 k k");
    draw_usual(&d);
    assert_shown(&d, "this state is kept already, as: A");
    assert_int_equal(pl_trials_count(d.s), 2);
    press(&d, "7");
    struct pl_trial_row row;
    assert_false(find_row("top cap, plies", "what differs in the part", &row));
}

static void a_state_that_cannot_be_judged_is_kept_and_compared_all_the_same(void **state)
{
    (void)state;
    struct pl_trial_row row;
    press(&d, "2 k Tab Right Enter text:0 Enter");  /* a chord of nothing */
    if (d.s->typing)
        press(&d, "Escape");
    assert_false(d.s->valid);
    press(&d, "k u 7");
    assert_true(find_row("verdict", NULL, &row));
    assert_string_equal(row.values[0], "holds");
    assert_string_equal(row.values[2], "unjudged");
    assert_true(find_row("mass, kg", NULL, &row));
    assert_string_equal(row.values[2], "-");
    assert_true(row.differs[2]);
    press(&d, "Right Right Enter");
    assert_false(d.s->valid);
    assert_true(find_row("verdict", NULL, &row));
    assert_string_equal(row.values[0], "unjudged");
}

static void without_a_kept_state_the_page_says_how_to_keep_one(void **state)
{
    (void)state;
    press(&d, "7 Enter Delete Left Right Up Down End");
    for (int i = 0; i < SIZES; i++) {
        draw(&d, sizes[i].columns, sizes[i].rows, true);
        assert_shown(&d, "Nothing is kept yet");
    }
    press(&d, "b");
    assert_int_equal(d.s->n_questions, 0);
}

static void values_stand_apart_from_labels_and_the_mark_before_its_letter(void **state)
{
    (void)state;
    press(&d, "k + k + k + k + k 7 Right Right");
    draw(&d, 40, 20, false);
    for (int row = 7; row < 18; row++) {
        const struct pl_cell *before = &d.f.cells[row * d.f.columns + 8];  /* the first value has the columns 9 to 13 */
        assert_true(before->code == ' ' || before->role == PL_ROLE_TITLE);
    }
    for (int i = 0; i < SIZES; i++)
        for (size_t c = 0; c < 5; c++) {
            int row = 0, column = 0;
            press(&d, "Left Left Left Left Left");
            for (size_t k = 0; k < c; k++)
                press(&d, "Right");
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_true(find(&d, "* d", &row, &column));
            while (d.f.cells[row * d.f.columns + column].code != 0x25bc)
                column++;
            assert_int_equal(d.f.cells[row * d.f.columns + column + 1].code, c ? 'A' + c - 1 : 'n');
        }
}

/* The first bar below that title: whether it is filled just before its limit's line, and just behind. */
static void look_at_bar(const char *title, int columns, bool *before, bool *behind)
{
    int row = 0, column = 0;
    draw(&d, columns, 60, false);
    assert_true(find(&d, title, &row, &column));
    const struct pl_cell *bar = &d.f.cells[(row + 2) * d.f.columns + column + 5];
    while (bar->code != 0x2502)
        bar++;
    *before = bar[-1].code == 0x2593;
    *behind = bar[1].code == 0x2593;
}

static void a_bar_ends_on_the_side_of_its_limit(void **state)
{
    (void)state;
    static const double shares[] = {0.98, 0.999, 1, 1.001, 1.02};
    press(&d, "k + 7");
    struct pl_state_case *c = &d.s->trials.states[0].cases[0];
    for (int columns = 110; columns <= 200; columns++)
        for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
            bool before, behind;
            c->least.reserve = shares[i];
            c->tip_limit_m = 0.0083;
            c->tip_most_m = shares[i] * c->tip_limit_m;
            look_at_bar("reserve of each load case", columns, &before, &behind);
            assert_int_equal(before, shares[i] >= 1);
            look_at_bar("how far the tip moves", columns, &before, &behind);
            assert_int_equal(before, shares[i] >= 1);
            assert_int_equal(behind, shares[i] > 1);
        }
}

static void a_click_on_a_column_chooses_it(void **state)
{
    (void)state;
    keep_three();
    press(&d, "7");
    draw_usual(&d);
    int row = 0, column = 0;
    assert_true(find(&d, "lowest reserve", &row, &column));
    for (size_t c = 0; c < 4; c++) {
        const struct pl_hit *hit = NULL;
        for (size_t i = 0; i < d.f.n_hits; i++)
            if (d.f.hits[i].action == PL_DO_CHOOSE_STATE && d.f.hits[i].argument == (int)c)
                hit = &d.f.hits[i];
        assert_non_null(hit);
        assert_true(row >= hit->row && row < hit->row + hit->rows);
        pl_session_click(d.s, hit->action, hit->argument);
        assert_int_equal(d.s->trials.column, c);
    }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(columns_hold_what_each_state_came_to),
        TRIAL(the_table_shows_every_row_when_it_is_scrolled_on_any_size),
        TRIAL(a_state_is_brought_back_byte_for_byte_as_one_step_of_undo),
        TRIAL(four_are_kept_at_most_and_letters_stay),
        TRIAL(the_same_state_is_not_kept_twice),
        TRIAL(a_state_that_cannot_be_judged_is_kept_and_compared_all_the_same),
        TRIAL(without_a_kept_state_the_page_says_how_to_keep_one),
        TRIAL(a_click_on_a_column_chooses_it),
        TRIAL(values_stand_apart_from_labels_and_the_mark_before_its_letter),
        TRIAL(a_bar_ends_on_the_side_of_its_limit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
