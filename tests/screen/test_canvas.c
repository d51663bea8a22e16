#include "../support.h"

#include "plyloft/frame.h"

#include <float.h>
#include <math.h>
#include <string.h>

static struct pl_frame f;
static struct pl_canvas c;

/* 3 rows of 6 columns, its corner at row 1, column 2: 12 x 12 dots, x 0 to 11 and y 0 to 11, so that a
 * whole number is one dot. */
static int fresh(void **state)
{
    (void)state;
    pl_frame_free(&f);
    c = (struct pl_canvas){.frame = &f, .row = 1, .column = 2, .rows = 3, .columns = 6,
                           .x_from = 0, .x_to = 11, .y_from = 0, .y_to = 11};
    return pl_frame_resize(&f, 5, 10) ? 0 : -1;
}

static int release(void **state)
{
    (void)state;
    pl_frame_free(&f);
    return 0;
}

static void assert_prints(const char *want)
{
    struct pl_buffer b = {0};
    pl_frame_print(&f, &b);
    assert_string_equal(b.text ? b.text : "", want);
    pl_buffer_free(&b);
}

static void each_dot_of_a_cell_is_its_own_bit(void **state)
{
    (void)state;
    /* Unicode numbers the dots 1 2 3 7 down the left, 4 5 6 8 down the right; bit n - 1 stands for dot n. */
    static const unsigned bits[4][2] = {{1, 8}, {2, 16}, {4, 32}, {64, 128}};
    for (int down = 0; down < 4; down++)
        for (int across = 0; across < 2; across++) {
            pl_frame_clear(&f);
            pl_canvas_dot(&c, across, 11 - down, PL_ROLE_MARKER);
            assert_int_equal(f.cells[12].code, 0x2800 + bits[down][across]);
            assert_int_equal(f.cells[12].dots, bits[down][across]);
            assert_int_equal(f.cells[12].role, PL_ROLE_MARKER);
        }
}

static void dots_join_those_that_stand_there_and_the_last_role_stays(void **state)
{
    (void)state;
    pl_canvas_dot(&c, 0, 11, PL_ROLE_TEXT);
    pl_canvas_dot(&c, 1, 8, PL_ROLE_LIMIT);
    assert_int_equal(f.cells[12].code, 0x2881);
    assert_int_equal(f.cells[12].role, PL_ROLE_LIMIT);
    pl_frame_code(&f, 1, 3, PL_ROLE_TEXT, 0x2802);
    pl_canvas_dot(&c, 2, 11, PL_ROLE_TEXT);
    assert_int_equal(f.cells[13].code, 0x2803);
}

static void a_level_line_fills_its_cells_from_end_to_end(void **state)
{
    (void)state;
    pl_canvas_line(&c, 0, 11, 11, 11, PL_ROLE_TEXT);
    pl_canvas_line(&c, 11, 0, 0, 0, PL_ROLE_TEXT);
    assert_prints("\n  ⠉⠉⠉⠉⠉⠉\n\n  ⣀⣀⣀⣀⣀⣀\n");
}

static void an_upright_line_and_a_slanting_one_reach_their_corners(void **state)
{
    (void)state;
    pl_canvas_line(&c, 0, 0, 0, 11, PL_ROLE_TEXT);
    pl_canvas_line(&c, 0, 0, 11, 11, PL_ROLE_TEXT);
    /* the slanting one rises one dot a dot: two cells a row */
    assert_prints("\n  ⡇   ⡠⠊\n  ⡇ ⡠⠊\n  ⡧⠊\n");
}

static void a_line_has_one_dot_for_each_step_of_its_longer_way(void **state)
{
    (void)state;
    for (int x1 = 0; x1 < 12; x1++)
        for (int y2 = 0; y2 < 12; y2++) {
            pl_frame_clear(&f);
            pl_canvas_line(&c, x1, 0, 11, y2, PL_ROLE_TEXT);
            int dots = 0;
            for (int i = 0; i < 50; i++)
                dots += __builtin_popcount(f.cells[i].dots);

            assert_int_equal(dots, 1 + (11 - x1 > y2 ? 11 - x1 : y2));
        }
}

static void a_line_is_clipped_to_the_canvas(void **state)
{
    (void)state;
    pl_canvas_line(&c, -1e6, 11, 1e6, 11, PL_ROLE_TEXT);
    pl_canvas_line(&c, 5, 40, 5, -40, PL_ROLE_TEXT);
    pl_canvas_line(&c, -5, 12, 20, 12, PL_ROLE_TEXT);   /* above */
    pl_canvas_line(&c, -9, 0, 11, -30, PL_ROLE_TEXT);   /* passes the corner outside */
    assert_prints("\n  ⠉⠉⢹⠉⠉⠉\n    ⢸\n    ⢸\n");
    for (int i = 0; i < 50; i++)
        assert_true(f.cells[i].code == ' ' || (i / 10 >= 1 && i / 10 <= 3 && i % 10 >= 2 && i % 10 <= 7));
}

static void a_clipped_line_keeps_its_slope(void **state)
{
    (void)state;
    /* y = x from far outside: the same dots as the diagonal itself */
    pl_canvas_line(&c, -1000, -1000, 1000, 1000, PL_ROLE_TEXT);
    assert_prints("\n      ⡠⠊\n    ⡠⠊\n  ⡠⠊\n");
}

static void points_that_are_not_finite_are_ignored(void **state)
{
    (void)state;
    static double bad[3];
    bad[0] = nan("");
    bad[1] = HUGE_VAL;
    bad[2] = -HUGE_VAL;
    int row, column;
    for (int i = 0; i < 3; i++) {
        pl_canvas_dot(&c, bad[i], 3, PL_ROLE_TEXT);
        pl_canvas_dot(&c, 3, bad[i], PL_ROLE_TEXT);
        pl_canvas_line(&c, 3, 3, 5, bad[i], PL_ROLE_TEXT);
        pl_canvas_line(&c, bad[i], 3, 5, 5, PL_ROLE_TEXT);
        assert_false(pl_canvas_cell(&c, bad[i], 3, &row, &column));
        struct pl_canvas odd = c;
        odd.x_to = bad[i];
        pl_canvas_line(&odd, 1, 1, 2, 2, PL_ROLE_TEXT);
    }
    pl_canvas_line(&c, -DBL_MAX, 3, DBL_MAX, 3, PL_ROLE_TEXT);
    assert_prints("");
}

static void a_range_of_no_length_has_its_value_in_the_middle(void **state)
{
    (void)state;
    c.y_from = c.y_to = 2;
    pl_canvas_line(&c, 0, 2, 11, 2, PL_ROLE_TEXT);
    pl_canvas_line(&c, 0, 3, 11, 3, PL_ROLE_TEXT);
    /* 12 dots down: the middle, 5.5, is nearest to dot 6, the third of the second row */
    assert_prints("\n\n  ⠤⠤⠤⠤⠤⠤\n");
    c.x_from = c.x_to = 4;
    pl_canvas_dot(&c, 5, 2, PL_ROLE_TEXT);
    assert_prints("\n\n  ⠤⠤⠤⠤⠤⠤\n");
}

static void a_range_may_run_the_other_way(void **state)
{
    (void)state;
    c.x_from = 11;
    c.x_to = 0;
    pl_canvas_line(&c, 0, 0, 11, 11, PL_ROLE_TEXT);
    assert_prints("\n  ⠑⢄\n    ⠑⢄\n      ⠑⢄\n");
}

static void a_label_is_not_drawn_over(void **state)
{
    (void)state;
    pl_frame_text(&f, 1, 4, PL_ROLE_TEXT, "翼");
    pl_frame_text(&f, 1, 6, PL_ROLE_TEXT, ".");
    pl_canvas_line(&c, 0, 11, 11, 11, PL_ROLE_LIMIT);
    assert_prints("\n  ⠉⠉翼.⠉\n");
    assert_int_equal(f.cells[14].role, PL_ROLE_TEXT);
    f.plain = true;
    pl_canvas_line(&c, 0, 11, 11, 11, PL_ROLE_LIMIT);
    assert_int_equal(f.cells[16].code, '.');
}

static void text_over_dots_takes_them_away(void **state)
{
    (void)state;
    pl_canvas_line(&c, 0, 11, 11, 11, PL_ROLE_TEXT);
    pl_frame_text(&f, 1, 3, PL_ROLE_TEXT, "cap");
    pl_frame_text(&f, 1, 3, PL_ROLE_TEXT, " ");
    pl_canvas_dot(&c, 3, 11, PL_ROLE_TEXT);
    assert_prints("\n  ⠉⠈ap⠉⠉\n");
}

static void a_canvas_over_the_edge_of_the_frame_is_cut_there(void **state)
{
    (void)state;
    c.row = -1;
    c.column = 7;
    pl_canvas_line(&c, 0, 0, 11, 0, PL_ROLE_TEXT);
    pl_canvas_line(&c, 0, 0, 0, 11, PL_ROLE_TEXT);
    assert_prints("       ⡇\n       ⣇⣀⣀\n");
    c.columns = 0;
    pl_canvas_line(&c, 0, 0, 11, 11, PL_ROLE_TEXT);
    c.columns = -3;
    pl_canvas_line(&c, 0, 0, 11, 11, PL_ROLE_TEXT);
    assert_prints("       ⡇\n       ⣇⣀⣀\n");
}

static void the_cell_of_a_point_is_where_its_dot_falls(void **state)
{
    (void)state;
    int row, column;
    for (int x = 0; x < 12; x++)
        for (int y = 0; y < 12; y++) {
            pl_frame_clear(&f);
            pl_canvas_dot(&c, x, y, PL_ROLE_TEXT);
            assert_true(pl_canvas_cell(&c, x, y, &row, &column));
            assert_true(f.cells[row * 10 + column].dots);
        }
    assert_true(pl_canvas_cell(&c, 11.4, -0.4, &row, &column));  /* within half a dot */
    assert_int_equal(row, 3);
    assert_int_equal(column, 7);
    assert_false(pl_canvas_cell(&c, 11.6, 0, &row, &column));
    assert_false(pl_canvas_cell(&c, 0, -0.6, &row, &column));
}

static void a_dashed_line_has_two_dots_on_and_two_off(void **state)
{
    (void)state;
    pl_canvas_dashed(&c, 0, 11, 11, 11, PL_ROLE_LIMIT);
    assert_prints("\n  ⠉ ⠉ ⠉\n");
    f.plain = true;
    pl_frame_clear(&f);
    pl_canvas_dashed(&c, 0, 6, 6, 6, PL_ROLE_LIMIT);   /* two pieces of one line */
    pl_canvas_dashed(&c, 6, 6, 11, 6, PL_ROLE_LIMIT);
    assert_prints("\n\n  - - -\n");
}

static void plain_marks_tell_low_from_high(void **state)
{
    (void)state;
    f.plain = true;
    pl_canvas_dot(&c, 0, 11, PL_ROLE_TEXT);  /* top of its cell */
    pl_canvas_dot(&c, 2, 10, PL_ROLE_TEXT);
    pl_canvas_dot(&c, 4, 9, PL_ROLE_TEXT);
    pl_canvas_dot(&c, 6, 8, PL_ROLE_TEXT);   /* bottom */
    pl_canvas_dot(&c, 8, 8, PL_ROLE_TEXT);   /* both */
    pl_canvas_dot(&c, 9, 11, PL_ROLE_TEXT);
    pl_canvas_line(&c, 10, 8, 10, 11, PL_ROLE_TEXT);
    assert_prints("\n  '--.:|\n");
}

static void a_plain_slope_steps_from_mark_to_mark(void **state)
{
    (void)state;
    f.plain = true;
    pl_canvas_line(&c, 0, 8, 11, 11, PL_ROLE_TEXT);
    /* dots below the top, 3 - 3 x / 11 rounded: 3 3, 2 2, 2 2, 1 1, 1 1, 0 0 */
    assert_prints("\n  .----'\n");
}

#define T(name) cmocka_unit_test_setup_teardown(name, fresh, release)

int main(void)
{
    const struct CMUnitTest tests[] = {
        T(each_dot_of_a_cell_is_its_own_bit),
        T(dots_join_those_that_stand_there_and_the_last_role_stays),
        T(a_level_line_fills_its_cells_from_end_to_end),
        T(an_upright_line_and_a_slanting_one_reach_their_corners),
        T(a_line_has_one_dot_for_each_step_of_its_longer_way),
        T(a_line_is_clipped_to_the_canvas),
        T(a_clipped_line_keeps_its_slope),
        T(points_that_are_not_finite_are_ignored),
        T(a_range_of_no_length_has_its_value_in_the_middle),
        T(a_range_may_run_the_other_way),
        T(a_label_is_not_drawn_over),
        T(text_over_dots_takes_them_away),
        T(a_canvas_over_the_edge_of_the_frame_is_cut_there),
        T(the_cell_of_a_point_is_where_its_dot_falls),
        T(a_dashed_line_has_two_dots_on_and_two_off),
        T(plain_marks_tell_low_from_high),
        T(a_plain_slope_steps_from_mark_to_mark),
    };
    return cmocka_run_group_tests_name("canvas", tests, NULL, NULL);
}
