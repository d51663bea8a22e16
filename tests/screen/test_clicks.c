/* Clicks carry actions, any row of keys leaves the bench whole, and text from a file does no harm. */
#include "pages.h"

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    return 0;
}

static int fresh_whole(void **state)
{
    (void)state;
    desk_open(&d, WHOLE_PART);
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

/* The middle of a hit of the page drawn last is clicked; false when another lies over it. */
static bool click(const struct pl_hit *hit)
{
    const struct pl_hit *over = pl_frame_hit_at(&d.f, hit->row + hit->rows / 2, hit->column + hit->columns / 2);
    if (!over || over->action != hit->action || over->argument != hit->argument)
        return false;
    pl_session_act(d.s, over->action, over->argument);
    return true;
}

static bool is_chosen(const struct pl_hit *hit)
{
    return d.f.cells[hit->row * d.f.columns + hit->column + hit->columns / 2].role == PL_ROLE_CHOSEN;
}

/* ---- clicks ---- */

/* The first cell of a part of the page; what a sheet shows follows from the row chosen above it. */
static void to_the_first_of(int block)
{
    memset(d.s->cursors, 0, sizeof d.s->cursors);
    d.s->blocks[d.s->page] = block;
}

/* Nothing moves under the finger: what was clicked is chosen where it stood. */
static void clicked_cells_are_the_ones_chosen(int columns, int rows)
{
    struct pl_hit hits[PL_HITS_MOST];
    size_t n, cells = 0;
    int block = d.s->blocks[d.s->page];
    to_the_first_of(block);
    draw(&d, columns, rows, false);
    n = d.f.n_hits;
    memcpy(hits, d.f.hits, n * sizeof *hits);
    for (size_t i = 0; i < n; i++) {
        if (hits[i].action != PL_DO_CHOOSE_CELL)
            continue;
        cells++;
        to_the_first_of(block);
        draw(&d, columns, rows, false);
        assert_true(click(&hits[i]));
        draw(&d, columns, rows, false);
        if (!is_chosen(&hits[i]))
            fail_msg("on %d x %d, the cell clicked at row %d, column %d is not the one chosen", columns, rows,
                     hits[i].row, hits[i].column);
        assert_document(&d, d.bytes);
    }
    assert_true(cells >= 15);
}

static void a_click_on_a_cell_chooses_it(void **state)
{
    (void)state;
    press(&d, "2");
    for (int i = 0; i < SIZES; i++)
        clicked_cells_are_the_ones_chosen(sizes[i].columns, sizes[i].rows);
}

static void a_click_on_a_cell_of_every_block_chooses_it(void **state)
{
    (void)state;
    press(&d, "2");
    for (int block = 0; block < 9; block++) {
        to_the_first_of(block);
        clicked_cells_are_the_ones_chosen(200, 60);
    }
}

static void a_click_on_a_page_turns_to_it(void **state)
{
    (void)state;
    for (int i = 1; i < SIZES; i++) {
        size_t pages = 0;
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        struct pl_hit hits[PL_HITS_MOST];
        size_t n = d.f.n_hits;
        memcpy(hits, d.f.hits, n * sizeof *hits);
        for (size_t k = 0; k < n; k++) {
            if (hits[k].action != PL_DO_PAGE)
                continue;
            pages++;
            assert_true(click(&hits[k]));
            assert_int_equal(d.s->page, hits[k].argument);
            press(&d, "2");
        }
        assert_in_range(pages, 4, PL_PAGES);
    }
}

static void a_click_on_a_load_case_shows_it(void **state)
{
    (void)state;
    press(&d, "4");
    draw_usual(&d);
    size_t cases = 0;
    for (size_t i = 0; i < d.f.n_hits; i++) {
        struct pl_hit hit = d.f.hits[i];
        if (hit.action != PL_DO_CHOOSE_CASE)
            continue;
        assert_true(click(&hit));
        draw_usual(&d);
        char title[80];
        snprintf(title, sizeof title, "reserve: %s", cases ? pl_session_part(d.s)->load_cases[cases - 1].name : "");
        assert_shown(&d, cases == 0 ? "reserve  a b" : title);
        assert_int_equal(d.s->load_case, cases == 0 ? PL_NONE : cases - 1);
        cases++;
    }
    assert_int_equal(cases, 5);
}

/* ---- any keys ---- */

/* Marsaglia 2003, Xorshift RNGs: the same sequence in every run. */
static unsigned next(unsigned *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static const char *const any_keys[] = {
    "Up",    "Down",   "Left",   "Right",  "PageUp",    "PageDown", "Home",  "End",    "Tab",    "BackTab", "Enter",
    "Enter", "Escape", "+",      "-",      "=",         "[",        "]",     "t",      "e",      "u",       "U",
    "1",     "2",      "2",      "3",      "4",         "5",        "6",     "7",      "8",      "?",       "0",
    "9",     "text:.", "text:,", "text:x", "Backspace", "Delete",   "Space", "\u00e9", "Ctrl-A", "q",
};

static void assert_whole(unsigned turn)
{
    const struct { int columns, rows; } size = {sizes[turn % SIZES].columns, sizes[turn % SIZES].rows};
    const char *text = draw(&d, size.columns, size.rows, turn % 2);
    int lines = 0;
    for (const char *c = text; *c; c++) {
        assert_true((unsigned char)*c >= ' ' || *c == '\n');
        lines += *c == '\n';
    }
    assert_in_range(lines, 5, size.rows);
    if (!d.s->valid)
        assert_true(d.s->problems.errors > 0);
}

static void any_row_of_keys_leaves_the_bench_whole(void **state)
{
    (void)state;
    unsigned seed = 2463534242u;
    for (unsigned turn = 0; turn < 3000; turn++) {
        press(&d, any_keys[next(&seed) % (sizeof any_keys / sizeof *any_keys)]);
        if (d.s->n_questions && pl_question_of(d.s)->kind == PL_ASK_QUIT)
            press(&d, "Escape");
        d.s->leave = false;
        if (turn % 7 == 0)
            assert_whole(turn);
    }
    press(&d, "Escape Escape");
    while (pl_document_undo(d.s->document))
        continue;
    assert_document(&d, d.bytes);
}

/* ---- text from a file ---- */

static void names_from_a_file_cannot_send_control_characters(void **state)
{
    (void)state;
    desk_close(&d);
    char *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL;
    char *name = strstr(text, "\"hill-climb front wing\""), *cap = strstr(text, "\"top cap\"");
    assert_true(asprintf(&changed, "%.*s\"\\u001b[31mred\\u202e \\u0007wing\"%.*s\"\\u009b5ncap\"%s",
                         (int)(name - text), text, (int)(cap - name) - 23, name + 23, cap + 9) > 0);
    desk_open_text(&d, changed);
    assert_true(d.s->valid);
    for (int p = 0; p < PL_PAGES; p++) {
        d.s->page = (enum pl_page)p;
        const char *page = draw(&d, 200, 60, false);
        assert_null(strchr(page, 0x1b));
        assert_null(strchr(page, 7));
        assert_null(strstr(page, "\u202e"));
        assert_null(strstr(page, "\xc2\x9b"));
    }
    press(&d, "2 Down Down + u");
    assert_null(strstr(draw_usual(&d), "\xc2\x9b"));
    free(changed);
    free(text);
}

static void long_names_are_cut_and_push_nothing_off(void **state)
{
    (void)state;
    desk_close(&d);
    char *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL, many[400];
    memset(many, 'w', sizeof many - 1);
    many[sizeof many - 1] = '\0';
    char *name = strstr(text, "\"hill-climb front wing\""), *jack = strstr(text, "\"pit jack\"");
    assert_true(asprintf(&changed, "%.*s\"%s\"%.*s\"%s\"%s", (int)(name - text), text, many, (int)(jack - name) - 23,
                         name + 23, many, jack + 10) > 0);
    desk_open_text(&d, changed);
    assert_true(d.s->valid);
    for (int p = 0; p < PL_PAGES; p++)
        for (int i = 0; i < SIZES; i++) {
            d.s->page = (enum pl_page)p;
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_role(&d, "HOLDS", PL_ROLE_HOLDS);
            assert_role(&d, pl_page_names[p], PL_ROLE_CHOSEN);
            assert_shown(&d, "kg");
        }
    free(changed);
    free(text);
}

static void wide_characters_keep_the_page_in_its_columns(void **state)
{
    (void)state;
    press(&d, "e");
    desk_close(&d);
    char *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL;
    char *cap = strstr(text, "\"top cap\"");
    assert_true(asprintf(&changed, "%.*s\"\u4e0a\u5074\u306e\u5e2f\u4e0a\u5074\u306e\u5e2f\u4e0a\u5074\u306e\u5e2f\"%s",
                         (int)(cap - text), text, cap + 9) > 0);
    desk_open_text(&d, changed);
    press(&d, "2 Down Down");
    for (int i = 0; i < SIZES; i++) {
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        for (const char *line = d.page.text; *line; line += strcspn(line, "\n") + 1) {
            char one[2048];
            snprintf(one, sizeof one, "%.*s", (int)strcspn(line, "\n"), line);
            assert_in_range(pl_text_columns(one), 0, sizes[i].columns);
        }
    }
    free(changed);
    free(text);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(a_click_on_a_cell_chooses_it),
        TRIAL(a_click_on_a_cell_of_every_block_chooses_it),
        TRIAL(a_click_on_a_page_turns_to_it),
        TRIAL(a_click_on_a_load_case_shows_it),
        TRIAL(any_row_of_keys_leaves_the_bench_whole),
        WHOLE(any_row_of_keys_leaves_the_bench_whole),
        TRIAL(names_from_a_file_cannot_send_control_characters),
        TRIAL(long_names_are_cut_and_push_nothing_off),
        TRIAL(wide_characters_keep_the_page_in_its_columns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
