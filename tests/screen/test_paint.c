/* What arrives is what was drawn: a small terminal of our own (glass.h) reads the bytes of a painted frame, and each of
 * its cells must hold the frame's character in the frame's look, however the frame before looked. */
#include "../glass.h"
#include "pseudo.h"

#include "plyloft/terminal.h"
#include "plyloft/theme.h"

enum { ROWS = 18, COLUMNS = 31, FRAMES = 150 };

static struct glass glass;

/* ---- frames ---- */

static uint32_t seed;
/* Where wrapping cannot be switched off curses writes the last cell of all one column early and pushes it on, which
 * half a wide character beside it would not stand; no page of ours has one there. */
static bool narrow_corner;

static int chance(int below)
{
    seed = seed * 1664525u + 1013904223u;
    return (int)((seed >> 8) % (uint32_t)below);
}

/* A few words, lines and dots more on the frame before, or everything anew. */
static void change(struct pl_frame *f)
{
    static const char *const words[] = {"cap 5", "翼", "外翼板", "ae\u0301\u0302o", "      ", "─┼─", "1.07", "–",
                                        "ae\u0301o",
                                        "a long line that runs over the edge", "🙂🙂", "                      ", "."};
    if (chance(12) == 0)
        pl_frame_clear(f);
    for (int i = chance(20); i >= 0; i--)
        pl_frame_text(f, chance(ROWS), chance(COLUMNS + 2) - 2, (enum pl_role)chance(PL_ROLES), words[chance(13)]);
    pl_frame_text(f, 0, 0, PL_ROLE_TEXT, chance(2) ? "e\u0301\u0302" : "e\u0301");
    struct pl_canvas c = {f, chance(ROWS), chance(COLUMNS), 4, 9, 0, 1, 0, 1};
    if (chance(3) == 0)
        pl_canvas_line(&c, chance(3) - 1, chance(2), chance(3), chance(2), (enum pl_role)chance(PL_ROLES));
    if (chance(5) == 0)
        pl_frame_fill(f, chance(ROWS), chance(COLUMNS), 3, 8, (enum pl_role)chance(PL_ROLES), chance(2) ? ' ' : '=');
    if (narrow_corner)
        pl_frame_text(f, ROWS - 1, COLUMNS - 2, PL_ROLE_TEXT, " ");
    pl_frame_glyph(f, ROWS - 1, COLUMNS - 1, PL_ROLE_TEXT, (enum pl_glyph)chance(PL_GLYPHS));
    f->cursor_row = chance(ROWS + 1) - 1;
    f->cursor_column = chance(COLUMNS);
}

static void paint_frames(FILE *out)
{
    struct pl_frame f = {0};
    struct pl_problems problems = {0};
    if (pl_terminal_open(&(struct pl_terminal_options){0}, &problems) != PL_OK ||
        !pl_frame_resize(&f, ROWS, COLUMNS))
        _exit(8);
    seed = 1;
    for (int i = 0; i < FRAMES; i++) {
        change(&f);
        pl_terminal_paint(&f);
        /* A bell says where this frame's bytes end. */
        if (write(STDOUT_FILENO, "\a", 1) != 1)
            _exit(7);
    }
    fprintf(out, "painted\n");
    pl_terminal_close();
    pl_frame_free(&f);
    pl_problems_free(&problems);
}

static bool same_look(struct pl_look a, struct pl_look b, bool space)
{
    /* Nothing tells what colour or weight a space has, unless a line is drawn under it or it is turned over. */
    unsigned seen = space ? PL_UNDERLINE | PL_REVERSE : ~0u;
    bool fore = !space || (a.attributes & (PL_UNDERLINE | PL_REVERSE));
    return (a.attributes & seen) == (b.attributes & seen) && a.background == b.background &&
           (!fore || a.foreground == b.foreground);
}

static void assert_shows(const struct pl_frame *f, enum pl_depth depth, int number)
{
    if (glass.unknown[0])
        fail_msg("not understood: %s", glass.unknown);
    for (int row = 0; row < ROWS; row++)
        for (int column = 0; column < COLUMNS; column++) {
            const struct pl_cell *want = &f->cells[row * COLUMNS + column];
            const struct glass_cell *got = &glass.cells[row][column];
            if (want->width == 0 && got->cell.width == 0)
                continue;
            bool same = want->code == got->cell.code && want->width == got->cell.width &&
                        want->combining[0] == got->cell.combining[0] && want->combining[1] == got->cell.combining[1];
            if (!same || !same_look(pl_theme_look((enum pl_role)want->role, depth), got->look, want->code == ' '))
                fail_msg("frame %d, row %d, column %d: U+%04X, width %d, role %d is shown as U+%04X, width %d, "
                         "colours %d on %d, attributes %u", number, row, column, (unsigned)want->code, want->width,
                         want->role, (unsigned)got->cell.code, got->cell.width, got->look.foreground,
                         got->look.background, got->look.attributes);
        }
    assert_int_equal(glass.cursor_shown, f->cursor_row >= 0);
    if (f->cursor_row >= 0) {
        assert_int_equal(glass.row, f->cursor_row);
        assert_int_equal(glass.column, f->cursor_column);
    }
}

static void assert_every_frame_arrives(const struct surroundings *s, enum pl_depth depth)
{
    struct pseudo p;
    struct pl_frame f = {0};
    start(&p, s, paint_frames);
    type(&p, "keys that wait");  /* must not keep a frame from being finished */
    assert_reports(&p, "painted");
    assert_int_equal(finish(&p), 0);
    assert_true(pl_frame_resize(&f, ROWS, COLUMNS));
    glass_start(&glass, ROWS, COLUMNS, s->term);
    seed = 1;
    const char *at = output_of(&p);
    for (int i = 0; i < FRAMES; i++) {
        const char *bell = strchr(at, '\a');
        assert_non_null(bell);
        change(&f);
        glass_read(&glass, at, (size_t)(bell - at));
        assert_shows(&f, depth, i);
        at = bell + 1;
    }
    pl_frame_free(&f);
    forget(&p);
}

static void every_frame_arrives_cell_by_cell_in_its_look(void **state)
{
    (void)state;
    struct surroundings s = {.term = "xterm", .rows = ROWS, .columns = COLUMNS};
    assert_every_frame_arrives(&s, PL_DEPTH_8);
    s.no_color = "1";
    assert_every_frame_arrives(&s, PL_DEPTH_MONO);
    s = (struct surroundings){.term = "xterm-256color", .rows = ROWS, .columns = COLUMNS};
    assert_every_frame_arrives(&s, PL_DEPTH_256);
    narrow_corner = true;
    s.term = "tmux-256color";
    if (is_described(s.term))
        assert_every_frame_arrives(&s, PL_DEPTH_256);
    s.term = "screen";
    if (is_described(s.term))
        assert_every_frame_arrives(&s, PL_DEPTH_8);
    narrow_corner = false;
}

/* ---- how much is written ---- */

static void paint_little(FILE *out)
{
    struct pl_frame f = {0};
    struct pl_problems problems = {0};
    if (pl_terminal_open(&(struct pl_terminal_options){0}, &problems) != PL_OK || !pl_frame_resize(&f, 60, 200))
        _exit(8);
    for (int row = 0; row < 60; row++)
        for (int column = 0; column < 200; column += 10)
            pl_frame_printf(&f, row, column, (enum pl_role)((row + column / 10) % PL_ROLES), "%9d", row * column);
    for (int i = 0; i < 3; i++) {
        if (i == 2)
            pl_frame_text(&f, 30, 100, PL_ROLE_EDIT, "[ 5 ]");
        pl_terminal_paint(&f);
        if (write(STDOUT_FILENO, "\a", 1) != 1)
            _exit(7);
    }
    fprintf(out, "painted\n");
    pl_terminal_close();
    pl_frame_free(&f);
    pl_problems_free(&problems);
}

static void only_what_changed_is_written(void **state)
{
    (void)state;
    struct pseudo p;
    size_t lengths[3];
    start(&p, &(struct surroundings){.term = "xterm", .rows = 60, .columns = 200}, paint_little);
    assert_reports(&p, "painted");
    assert_int_equal(finish(&p), 0);
    const char *at = output_of(&p);
    for (int i = 0; i < 3; i++) {
        const char *bell = strchr(at, '\a');
        assert_non_null(bell);
        lengths[i] = (size_t)(bell - at);
        at = bell + 1;
    }
    assert_true(lengths[0] > 10000);       /* 60 x 20 numbers of 9 columns */
    assert_int_equal(lengths[1], 0);       /* the same frame again */
    assert_true(lengths[2] > 5 && lengths[2] < 60);
    forget(&p);
}

static void nothing_is_cleared_after_the_first_frame(void **state)
{
    (void)state;
    struct pseudo p;
    start(&p, &(struct surroundings){.term = "xterm", .rows = ROWS, .columns = COLUMNS}, paint_frames);
    assert_int_equal(finish(&p), 0);
    const char *first_end = strchr(output_of(&p), '\a');
    assert_non_null(first_end);
    assert_non_null(strstr(output_of(&p), "\033[2J"));
    assert_null(strstr(first_end, "\033[2J"));
    forget(&p);
}

static void paint_large_then_small(FILE *out)
{
    struct pl_frame f = {0};
    struct pl_problems problems = {0};
    if (pl_terminal_open(&(struct pl_terminal_options){0}, &problems) != PL_OK)
        _exit(8);
    for (int i = 0; i < 3; i++) {
        /* as large as the terminal, smaller, and larger with a wide character across the terminal's edge */
        static const int sizes[3][2] = {{ROWS, COLUMNS}, {4, 8}, {ROWS + 3, COLUMNS + 3}};
        if (!pl_frame_resize(&f, sizes[i][0], sizes[i][1]))
            _exit(8);
        pl_frame_fill(&f, 0, 0, f.rows, f.columns, PL_ROLE_TEXT, (char)('a' + i));
        pl_frame_text(&f, 2, COLUMNS - 1, PL_ROLE_TEXT, "翼");
        pl_terminal_paint(&f);
        if (write(STDOUT_FILENO, "\a", 1) != 1)
            _exit(7);
    }
    fprintf(out, "painted\n");
    pl_terminal_close();
    pl_frame_free(&f);
    pl_problems_free(&problems);
}

static void a_frame_of_another_size_leaves_nothing_of_the_one_before(void **state)
{
    (void)state;
    struct pseudo p;
    start(&p, &(struct surroundings){.term = "xterm", .rows = ROWS, .columns = COLUMNS}, paint_large_then_small);
    assert_reports(&p, "painted");
    assert_int_equal(finish(&p), 0);
    const char *at = output_of(&p);
    glass_start(&glass, ROWS, COLUMNS, "xterm");
    for (int i = 0; i < 3; i++) {
        const char *bell = strchr(at, '\a');
        assert_non_null(bell);
        glass_read(&glass, at, (size_t)(bell - at));
        at = bell + 1;
        for (int row = 0; row < ROWS; row++)
            for (int column = 0; column < COLUMNS; column++) {
                bool inside = i != 1 || (row < 4 && column < 8), edge = i != 1 && row == 2 && column == COLUMNS - 1;
                uint32_t want = inside && !edge ? (uint32_t)('a' + i) : ' ';
                assert_int_equal(glass.cells[row][column].cell.code, want);
            }
    }
    forget(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_frame_arrives_cell_by_cell_in_its_look),
        cmocka_unit_test(only_what_changed_is_written),
        cmocka_unit_test(a_frame_of_another_size_leaves_nothing_of_the_one_before),
        cmocka_unit_test(nothing_is_cleared_after_the_first_frame),
    };
    return cmocka_run_group_tests_name("paint", tests, NULL, NULL);
}
