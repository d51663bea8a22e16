/* What arrives is what was drawn: a small terminal of our own reads the bytes of a painted frame, and each of
 * its cells must hold the frame's character in the frame's look, however the frame before looked. */
#include "pseudo.h"

#include "plyloft/terminal.h"
#include "plyloft/text.h"
#include "plyloft/theme.h"

enum { ROWS = 18, COLUMNS = 31, FRAMES = 150 };

/* ---- the terminal (ECMA-48 and what xterm's description names beside it) ---- */

struct glass_cell {
    struct pl_cell cell;
    struct pl_look look;
};

static struct {
    struct glass_cell cells[ROWS][COLUMNS];
    int row, column, kept_row, kept_column, top, bottom;  /* scrolling goes on from top to bottom */
    bool wrap_next, no_wrap, insert, cursor_shown;
    struct pl_look look;
    int parameters[16], n_parameters;
    uint32_t last;             /* for repeats */
    char unknown[64];          /* the first sequence it did not understand */
} glass;

static struct glass_cell blank_cell(void)
{
    struct glass_cell c = {.cell = {.code = ' ', .width = 1}, .look = {-1, glass.look.background, 0}};
    return c;
}

static void wipe(int row, int from, int to)
{
    for (int k = from; k < to; k++)
        if (row >= 0 && row < ROWS && k >= 0 && k < COLUMNS)
            glass.cells[row][k] = blank_cell();
}

static void glass_reset(void)
{
    memset(&glass, 0, sizeof glass);
    glass.look = (struct pl_look){-1, -1, 0};
    glass.bottom = ROWS - 1;
    for (int row = 0; row < ROWS; row++)
        wipe(row, 0, COLUMNS);
}

static void shift_right(int row, int from, int by)
{
    for (int k = COLUMNS - 1; k >= from + by; k--)
        glass.cells[row][k] = glass.cells[row][k - by];
    wipe(row, from, from + by);
}

static void shift_left(int row, int from, int by)
{
    for (int k = from; k < COLUMNS - by; k++)
        glass.cells[row][k] = glass.cells[row][k + by];
    wipe(row, COLUMNS - by > from ? COLUMNS - by : from, COLUMNS);
}

/* Rows from one on, down to the scrolling bottom, move up (by > 0) or down; empty ones come in. */
static void move_rows(int from, int by)
{
    struct glass_cell old[ROWS][COLUMNS];
    memcpy(old, glass.cells, sizeof old);
    for (int row = from; row <= glass.bottom; row++) {
        if (row + by >= from && row + by <= glass.bottom)
            memcpy(glass.cells[row], old[row + by], sizeof old[row]);
        else
            wipe(row, 0, COLUMNS);
    }
}

static void line_feed(void)
{
    if (glass.row == glass.bottom)
        move_rows(glass.top, 1);
    else if (glass.row + 1 < ROWS)
        glass.row++;
}

static void reverse_line_feed(void)
{
    if (glass.row == glass.top)
        move_rows(glass.top, -1);
    else if (glass.row > 0)
        glass.row--;
}

static void break_halves(int row, int column)
{
    struct glass_cell *c = &glass.cells[row][column];
    if (c->cell.width == 0 && column > 0)
        c[-1].cell = (struct pl_cell){.code = ' ', .width = 1};
    if (c->cell.width == 2 && column + 1 < COLUMNS)
        c[1].cell = (struct pl_cell){.code = ' ', .width = 1};
}

static void combine(uint32_t code)
{
    int column = glass.wrap_next ? glass.column : glass.column - 1;
    if (column > 0 && glass.cells[glass.row][column].cell.width == 0)
        column--;
    struct pl_cell *cell = &glass.cells[glass.row][column < 0 ? 0 : column].cell;
    cell->combining[cell->combining[0] ? 1 : 0] = code;
}

static void write_code(uint32_t code)
{
    int width = pl_code_columns(code);
    if (width == 0) {
        combine(code);
        return;
    }
    if (glass.wrap_next && !glass.no_wrap) {
        glass.column = 0;
        line_feed();
    }
    glass.wrap_next = false;
    if (glass.insert)
        shift_right(glass.row, glass.column, width);
    for (int i = 0; i < width && glass.column + i < COLUMNS; i++) {
        break_halves(glass.row, glass.column + i);
        glass.cells[glass.row][glass.column + i] = (struct glass_cell){
            .cell = {.code = i ? 0 : code, .width = (uint8_t)(i ? 0 : width)}, .look = glass.look};
    }
    glass.last = code;
    glass.column += width;
    if (glass.column >= COLUMNS) {
        glass.column = COLUMNS - 1;
        glass.wrap_next = true;
    }
}

static int parameter(int i, int otherwise)
{
    return i < glass.n_parameters && glass.parameters[i] > 0 ? glass.parameters[i] : otherwise;
}

static void select_look(void)
{
    for (int i = 0; i < (glass.n_parameters ? glass.n_parameters : 1); i++) {
        int v = i < glass.n_parameters && glass.parameters[i] >= 0 ? glass.parameters[i] : 0;
        if (v == 0)
            glass.look = (struct pl_look){-1, -1, 0};
        else if (v == 1 || v == 2)
            glass.look.attributes |= v == 1 ? PL_BOLD : PL_DIM;
        else if (v == 4 || v == 7)
            glass.look.attributes |= v == 4 ? PL_UNDERLINE : PL_REVERSE;
        else if (v == 22)
            glass.look.attributes &= ~(unsigned)(PL_BOLD | PL_DIM);
        else if (v == 24 || v == 27)
            glass.look.attributes &= ~(unsigned)(v == 24 ? PL_UNDERLINE : PL_REVERSE);
        else if (v == 39 || (v >= 30 && v <= 37))
            glass.look.foreground = (short)(v == 39 ? -1 : v - 30);
        else if (v == 49 || (v >= 40 && v <= 47))
            glass.look.background = (short)(v == 49 ? -1 : v - 40);
        else if ((v == 38 || v == 48) && parameter(i + 1, 0) == 5) {
            *(v == 38 ? &glass.look.foreground : &glass.look.background) = (short)parameter(i + 2, 0);
            i += 2;
        } else
            snprintf(glass.unknown, sizeof glass.unknown, "look %d", v);
    }
}

static void erase_display(int how)
{
    if (how == 0)
        wipe(glass.row, glass.column, COLUMNS);
    for (int row = how == 0 ? glass.row + 1 : 0; row < (how == 1 ? glass.row : ROWS); row++)
        wipe(row, 0, COLUMNS);
    if (how == 1)
        wipe(glass.row, 0, glass.column + 1);
}

static void set_mode(char kind, bool on)
{
    int mode = parameter(0, 0);
    if (kind == '?' && mode == 7)
        glass.no_wrap = !on;
    else if (kind == '?' && mode == 25)
        glass.cursor_shown = on;
    else if (kind == 0 && mode == 4)
        glass.insert = on;
}

static void place(int row, int column)
{
    glass.row = row < 0 ? 0 : row >= ROWS ? ROWS - 1 : row;
    glass.column = column < 0 ? 0 : column >= COLUMNS ? COLUMNS - 1 : column;
    glass.wrap_next = false;
}

static void obey(char kind, char final)
{
    int n = parameter(0, 1), row = glass.row, column = glass.column;
    switch (final) {
    case 'H': place(n - 1, parameter(1, 1) - 1); break;
    case 'A': place(row - n, column); break;
    case 'B': place(row + n, column); break;
    case 'C': place(row, column + n); break;
    case 'D': place(row, column - n); break;
    case 'd': place(n - 1, column); break;
    case 'G': place(row, n - 1); break;
    case 'J': erase_display(parameter(0, 0)); break;
    case 'K': wipe(row, parameter(0, 0) ? 0 : column, parameter(0, 0) == 1 ? column + 1 : COLUMNS); break;
    case 'X': wipe(row, column, column + n); break;
    case '@': shift_right(row, column, n); break;
    case 'P': shift_left(row, column, n); break;
    case 'b': for (; n > 0; n--) write_code(glass.last); break;
    case 'm': select_look(); break;
    case 'h':
    case 'l': set_mode(kind, final == 'h'); break;
    case 'L': move_rows(row, -n); break;
    case 'M': move_rows(row, n); break;
    case 'S': move_rows(glass.top, n); break;
    case 'T': move_rows(glass.top, -n); break;
    case 'r':
        glass.top = n - 1;
        glass.bottom = parameter(1, ROWS) - 1;
        place(0, 0);
        break;
    case 't': break;  /* titles */
    default: snprintf(glass.unknown, sizeof glass.unknown, "sequence %c%c", kind ? kind : '[', final);
    }
}

/* A control sequence from behind its "ESC ["; what follows it. */
static const char *control_sequence(const char *at)
{
    char kind = *at == '?' ? *at++ : 0;
    glass.n_parameters = 0;
    while ((*at >= '0' && *at <= '9') || *at == ';') {
        char *end;
        int value = *at == ';' ? -1 : (int)strtol(at, &end, 10);
        at = value < 0 ? at : end;
        if (glass.n_parameters < 16)
            glass.parameters[glass.n_parameters++] = value;
        if (*at == ';')
            at++;
    }
    obey(kind, *at);
    return *at ? at + 1 : at;
}

static const char *escape(const char *at)
{
    switch (*at) {
    case '[': return control_sequence(at + 1);
    case '(': return at + 2;
    case 'M': reverse_line_feed(); return at + 1;
    case '7': glass.kept_row = glass.row, glass.kept_column = glass.column; return at + 1;
    case '8': place(glass.kept_row, glass.kept_column); return at + 1;
    case '=':
    case '>': return at + 1;
    default: snprintf(glass.unknown, sizeof glass.unknown, "escape %c", *at); return at + 1;
    }
}

static void glass_read(const char *bytes, size_t length)
{
    const char *end = bytes + length;
    while (bytes < end) {
        uint32_t code;
        size_t n = pl_utf8_decode(bytes, (size_t)(end - bytes), &code);
        assert_true(n > 0);
        bytes += n;
        if (code == 27)
            bytes = escape(bytes);
        else if (code == '\r')
            place(glass.row, 0);
        else if (code == '\n')
            line_feed();
        else if (code == '\b')
            place(glass.row, glass.column - 1);
        else if (code == '\t')
            place(glass.row, (glass.column / 8 + 1) * 8);
        else if (code >= ' ')
            write_code(code);
    }
}

/* ---- frames ---- */

static uint32_t seed;

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
    glass_reset();
    seed = 1;
    const char *at = output_of(&p);
    for (int i = 0; i < FRAMES; i++) {
        const char *bell = strchr(at, '\a');
        assert_non_null(bell);
        change(&f);
        glass_read(at, (size_t)(bell - at));
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
    glass_reset();
    for (int i = 0; i < 3; i++) {
        const char *bell = strchr(at, '\a');
        assert_non_null(bell);
        glass_read(at, (size_t)(bell - at));
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
