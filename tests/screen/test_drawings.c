/* What drawings say at a glance: where it is weakest, where plies end, which curve is whose, how the wall steps. */
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

static const struct pl_cell *cell_at(int row, int column)
{
    return &d.f.cells[row * d.f.columns + column];
}

/* Cells of a drawing that lets the marker be put, with that character. */
static size_t count_in_drawings(uint32_t code, int from_row, int to_row)
{
    size_t n = 0;
    for (int row = from_row; row < to_row; row++)
        for (int column = 0; column < d.f.columns; column++) {
            const struct pl_hit *hit = pl_frame_hit_at(&d.f, row, column);
            bool words = cell_at(row, column)->role == PL_ROLE_LIMIT;  /* "holds above 1" */
            n += hit && hit->action == PL_DO_MARKER_AT && cell_at(row, column)->code == code && !words;
        }
    return n;
}

static void the_plan_marks_the_weakest_place_on_its_own_side(void **state)
{
    (void)state;
    int row = 0, column = 0;
    press(&d, "2");
    draw_usual(&d);
    assert_true(find(&d, "plies on the top", &row, &column));
    assert_int_equal(count_in_drawings('!', row, d.f.rows), 1);
    /* Under the place of the verdict, 170 mm: 38 columns for 640 mm. */
    for (int at = 0; at < 38; at++)
        for (int line = row + 1; line < row + 8; line++)
            if (cell_at(line, 1 + at)->code == '!')
                assert_int_equal(at, (int)(170.0 / 640 * 38));
    press(&d, "t");
    draw_usual(&d);
    assert_int_equal(count_in_drawings('!', row, d.f.rows), 0);
    press(&d, "t [");
    draw_usual(&d);
    assert_int_equal(count_in_drawings('!', row, d.f.rows), 0);  /* the left half */
}

static bool is_figure(const struct pl_cell *cell)
{
    return cell->code >= '0' && cell->code <= '9';
}

/* A figure is followed by the shade of its own region, so that two never read as one. */
static void figures_of_the_plan_stand_apart_and_are_decimal(void **state)
{
    (void)state;
    static const struct { int columns, rows; } at[] = {{80, 24}, {132, 43}};
    for (size_t i = 0; i < 2; i++)
        for (int plain = 0; plain < 2; plain++) {
            int row = 0, column = 0, figures = 0;
            press(&d, "2 g");
            draw(&d, at[i].columns, at[i].rows, plain);
            assert_true(find(&d, "plies on the top", &row, &column));
            for (int line = row + 1; line < row + 7; line++)
                for (int c = column; c < column + 38; c++) {
                    if (!is_figure(cell_at(line, c)))
                        continue;
                    while (is_figure(cell_at(line, c)))
                        c++;
                    figures++;
                    uint32_t code = cell_at(line, c)->code;
                    if (plain ? !strchr(".:%", (int)code) : code != 0xb7 && code != 0x2591 && code != 0x2592)
                        fail_msg("a figure stands before U+%04X:\n%s", (unsigned)code, d.page.text);
                }
            assert_true(figures > 2);
            assert_shown(&d, plain ? "11%" : "11");
            assert_not_shown(&d, "10 plies");
        }
}

static size_t bold_in_plan(void)
{
    int row = 0, column = 0;
    size_t n = 0;
    assert_true(find(&d, "plies on the top", &row, &column));
    for (int line = row + 1; line < row + 7; line++)  /* the row of mounts and pads, below, is bold, too */
        for (int at = 1; at < 39; at++)
            n += cell_at(line, at)->role == PL_ROLE_TITLE;
    return n;
}

static void the_ends_of_the_group_in_hand_stand_out(void **state)
{
    (void)state;
    press(&d, "2");
    draw_usual(&d);
    size_t skin = bold_in_plan();
    press(&d, "Down Down");
    draw_usual(&d);
    /* Six plies of the cap end one after the other, over the rows of its width; a skin ends at the tip alone. */
    assert_true(bold_in_plan() >= 6);
    assert_true(skin < 9);
    press(&d, "Down");
    draw_usual(&d);
    assert_int_equal(bold_in_plan(), 0);  /* the bottom cap is not on the top */
    press(&d, "Up d");
    draw_usual(&d);
    assert_int_equal(bold_in_plan(), 0);
    assert_true(count_role(&d, PL_ROLE_CHOSEN) >= 6);
}

static void wrinkling_marks_every_ply_of_the_wall_a_ply_only_itself(void **state)
{
    (void)state;
    int row = 0, column = 0;
    press(&d, "2 g");
    draw(&d, 132, 43, false);
    assert_true(find(&d, "wall, top, 0.05 to 0.10 of the chord: 5 plies", &row, &column));
    for (int i = 1; i <= 3; i++)
        assert_int_equal(cell_at(row + i, column)->code, '!');
    assert_shown(&d, "! here 1.08 wrinkling, top, 0.10 chord");
    /* On a core too stiff for the wall to wrinkle a ply fails first, and only its own row is marked. */
    struct pl_problems problems = {0};
    assert_int_equal(pl_edit_set(d.s->document, "/cores/0/e_mpa", "900", &problems), PL_OK);
    assert_int_equal(pl_edit_set(d.s->document, "/cores/0/g_mpa", "400", &problems), PL_OK);
    assert_int_equal(pl_edit_set(d.s->document, "/cores/0/shear_strength_mpa", "90", &problems), PL_OK);
    assert_int_equal(pl_edit_set(d.s->document, "/cores/0/compressive_strength_mpa", "90", &problems), PL_OK);
    pl_session_judge(d.s);
    const struct pl_verdict *v = pl_session_verdict(d.s);
    size_t by_ply = 0;
    while (by_ply < v->n_cases && (v->cases[by_ply].least.mode != PL_MODE_PLY || v->cases[by_ply].least_pinned))
        by_ply++;
    assert_true(by_ply < v->n_cases);
    for (size_t i = 0; i <= by_ply; i++)
        press(&d, "n");
    press(&d, "g");
    draw(&d, 132, 43, false);
    const char *item = v->cases[by_ply].least.item;
    assert_true(find(&d, "wall, ", &row, &column));
    size_t marked = 0;
    for (int i = 1; i < 8 && row + i < d.f.rows - 2; i++) {
        char name[64] = "";
        for (size_t k = 0; k < strlen(item); k++)
            name[k] = (char)cell_at(row + i, column + 2 + (int)k)->code;
        bool here = cell_at(row + i, column)->code == '!';
        assert_int_equal(here, !strcmp(name, item));
        marked += here;
    }
    assert_int_equal(marked, 1);
}

/* Of a core too weak in shear the words say so; no place of the wall is to be marked. */
static void a_core_that_shears_first_is_told_below_the_section_without_a_mark_in_it(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    size_t marks = 0;
    press(&d, "2 g");
    draw_usual(&d);
    assert_not_shown(&d, "core-shear");
    assert_int_equal(pl_edit_set(d.s->document, "/cores/0/shear_strength_mpa", "0.02", &problems), PL_OK);
    pl_session_judge(d.s);
    draw_usual(&d);
    assert_shown(&d, "! here 0.");
    assert_shown(&d, " core-shear");
    for (int row = 0; row < d.f.rows; row++)
        for (int column = 40; column < d.f.columns; column++)
            marks += cell_at(row, column)->code == '!';
    assert_int_equal(marks, 1);
    press(&d, "] ] ] ] ]");  /* under the pad */
    draw_usual(&d);
    assert_shown(&d, " pad-shear");
}

static void every_curve_has_its_letter_and_the_list_has_it_too(void **state)
{
    (void)state;
    press(&d, "4");
    draw(&d, 200, 60, false);
    const struct pl_verdict *v = pl_session_verdict(d.s);
    for (size_t i = 0; i < v->n_cases; i++) {
        char words[80];
        snprintf(words, sizeof words, "%c %s", (char)('a' + i), v->cases[i].load_case->name);
        assert_shown(&d, words);
        /* On each of four curves; the steps of the wall have a b of their own. */
        assert_int_equal(count_in_drawings((uint32_t)('a' + i), 0, d.f.rows), i == 1 ? 5 : 4);
    }
}

static void a_legend_without_room_for_names_has_letters_alone(void **state)
{
    (void)state;
    press(&d, "4");
    draw(&d, 80, 24, false);
    assert_shown(&d, "reserve  a b c d ");
    draw(&d, 132, 43, false);
    assert_shown(&d, "a top speed b pit jack");
}

static void lists_of_cases_follow_the_one_in_hand_and_tell_that_there_are_more(void **state)
{
    (void)state;
    static const char *const names[] = {"top speed", "pit jack", "kerb on tip", "scrutineer"};
    for (int page = 0; page < 2; page++)
        for (int chosen = 0; chosen < 4; chosen++) {
            int row = 0, column = 0, at = -1;
            bool more = false;
            press(&d, page ? "4 Home Down" : "3 Home");
            for (int i = 0; i < chosen; i++)
                press(&d, "Down");
            draw(&d, 40, 20, false);
            if (!page)
                assert_true(find(&d, "reserve   M N m", &row, &column));
            for (int line = page ? 6 : row + 1; line < 19 && cell_at(line, 0)->code != 0x2500; line++) {
                char name[32] = "";
                for (size_t k = 0; k < strlen(names[chosen]); k++)
                    name[k] = (char)cell_at(line, 2 + (int)k)->code;
                at = !strcmp(name, names[chosen]) ? line : at;
                more = more || cell_at(line, 1)->code == 0x25bc;
            }
            if (at < 0)
                fail_msg("%s is not listed:\n%s", names[chosen], d.page.text);
            assert_int_equal(more, !page && chosen < 3);  /* five rows fit on Strength, three on Loads */
        }
    desk_close(&d);
    desk_open(&d, WHOLE_PART);
    press(&d, "4");
    draw(&d, 40, 20, false);
    assert_int_equal(cell_at(11, 1)->code, 0x25bc);
    press(&d, "End");
    draw(&d, 40, 20, false);
    assert_int_equal(cell_at(11, 1)->code, ' ');
}

static void the_moment_stands_over_the_steps_of_the_wall(void **state)
{
    (void)state;
    int row = 0, column = 0;
    char most[32];
    press(&d, "4");
    draw(&d, 200, 60, false);
    assert_true(find(&d, "thickest wall, mm", &row, &column));
    /* 6 plies of uni, 1 + 2 of plain, 2 of wrap: the greatest at the bracket wrap over the cap. */
    double thick_m = 0;
    for (int y_mm = 0; y_mm <= 640; y_mm++)
        thick_m = fmax(thick_m, fmax(pl_solve_wall_m(d.s->solve, 1e-3 * y_mm, PL_TOP), pl_solve_wall_m(d.s->solve, 1e-3 * y_mm, PL_BOTTOM)));
    pl_number_fixed(most, sizeof most, pl_view_round_out(1e3 * thick_m), 1);
    assert_shown(&d, most);
    assert_true(fabs(1e3 * thick_m - (6 * 310.0 / 2560 / 0.42 + 5 * 163.0 / 2560 / 0.38)) < 0.3);
}

static void the_outline_shows_both_views_of_the_shape(void **state)
{
    (void)state;
    press(&d, "1");
    draw(&d, 132, 43, false);
    assert_shown(&d, "from above");
    assert_shown(&d, "from the front");
    assert_shown(&d, "span 1280 mm");
    /* A swept station draws another picture from above, a raised one from the front. */
    char *before = strdup(d.page.text);
    press(&d, "Down Down Right Right + + + + + +");
    assert_string_not_equal(draw(&d, 132, 43, false), before);
    free(before);
}

static void scales_are_round_and_hold_their_figures(void **state)
{
    (void)state;
    static const double of[][2] = {{263, 300}, {-129, -150}, {12.5, 15}, {1, 1}, {0.0999, 0.1}, {8.01, 10}, {1e-7, 1e-7}, {0, 0}};
    for (size_t i = 0; i < sizeof of / sizeof *of; i++)
        assert_close(pl_view_round_out(of[i][0]), of[i][1], 1e-12);
    for (double value = 1e-3; value < 1e4; value *= 1.07)
        assert_true(pl_view_round_out(value) >= value * (1 - 1e-8) && pl_view_round_out(value) < 1.51 * value);
}

/* More room shows more: no half of a larger screen is blank. */
static void a_larger_terminal_shows_more_and_not_more_blank(void **state)
{
    (void)state;
    static const struct { int columns, rows; } large[] = {{132, 43}, {200, 60}};
    for (int page = PL_PAGE_SHAPE; page <= PL_PAGE_STRENGTH; page++)
        for (size_t i = 0; i < 2; i++) {
            d.s->page = (enum pl_page)page;
            while (pl_session_idle(d.s))  /* what is worked out between keys */
                continue;
            draw(&d, large[i].columns, large[i].rows, false);
            int blank_rows = 0;
            for (int half = 0; half < 2; half++)
                for (int row = 5; row < d.f.rows - 2; row++) {
                    int used = 0, from = half * d.f.columns / 2 + half * 2, to = from + d.f.columns / 2 - 4;
                    for (int column = from; column < to; column++)
                        used += cell_at(row, column)->code != ' ' && cell_at(row, column)->code != 0x2502;
                    blank_rows += !used;
                }
            if (blank_rows > d.f.rows / 4)
                fail_msg("%s at %d x %d has %d blank rows in its halves", pl_page_names[page], large[i].columns, large[i].rows, blank_rows);
        }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(the_plan_marks_the_weakest_place_on_its_own_side),
        TRIAL(figures_of_the_plan_stand_apart_and_are_decimal),
        TRIAL(the_ends_of_the_group_in_hand_stand_out),
        TRIAL(wrinkling_marks_every_ply_of_the_wall_a_ply_only_itself),
        TRIAL(a_core_that_shears_first_is_told_below_the_section_without_a_mark_in_it),
        TRIAL(every_curve_has_its_letter_and_the_list_has_it_too),
        TRIAL(a_legend_without_room_for_names_has_letters_alone),
        TRIAL(lists_of_cases_follow_the_one_in_hand_and_tell_that_there_are_more),
        TRIAL(the_moment_stands_over_the_steps_of_the_wall),
        TRIAL(the_outline_shows_both_views_of_the_shape),
        TRIAL(scales_are_round_and_hold_their_figures),
        TRIAL(a_larger_terminal_shows_more_and_not_more_blank),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
