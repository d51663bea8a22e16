/* Pages as text: that they fit, that the verdict is always there, and what keys make of them. */
#include "pages.h"

#include "screen/verdict_words.h"

#include "plyloft/words.h"

#include <math.h>

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    return 0;
}

static int fresh_weak(void **state)
{
    (void)state;
    desk_open(&d, WEAK_PART);
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

static const char *reserve_now(void)
{
    static char words[32];
    const struct pl_verdict *v = pl_session_verdict(d.s);
    pl_reserve_words(v->cases[v->worst_case].least.reserve, words, sizeof words);
    return words;
}

/* ---- sizes ---- */

static void assert_page_fits(int columns, int rows, bool plain)
{
    const char *text = draw(&d, columns, rows, plain);
    int lines = 0;
    for (const char *line = text; *line; lines++) {
        char one[2048];
        size_t length = strcspn(line, "\n");
        snprintf(one, sizeof one, "%.*s", (int)length, line);
        if (pl_text_columns(one) > columns)
            fail_msg("a line of %d columns on %d x %d: %s", pl_text_columns(one), columns, rows, one);
        for (const char *c = one; plain && *c; c++)
            assert_in_range((unsigned char)*c, ' ', '~');
        line += length + (line[length] == '\n');
    }
    assert_in_range(lines, 1, rows);
    assert_true(d.f.cursor_row < rows && d.f.cursor_column < columns);
    for (size_t i = 0; i < d.f.n_hits; i++) {
        const struct pl_hit *h = &d.f.hits[i];
        assert_true(h->row >= 0 && h->column >= 0 && h->rows > 0 && h->columns > 0);
        assert_true(h->row + h->rows <= rows && h->column + h->columns <= columns);
    }
}

static void assert_all_pages_fit(void)
{
    static const struct {
        int columns, rows;
    } more[] = {{40, 20},  {41, 21},  {59, 22},  {60, 20},  {75, 24},  {76, 30},  {80, 24}, {100, 30},
                {109, 40}, {110, 30}, {139, 31}, {140, 50}, {200, 60}, {300, 20}, {40, 100}};
    enum pl_page page = d.s->page;
    for (int p = 0; p < PL_PAGES; p++)
        for (size_t i = 0; i < sizeof more / sizeof *more; i++) {
            d.s->page = (enum pl_page)p;
            assert_page_fits(more[i].columns, more[i].rows, false);
            assert_page_fits(more[i].columns, more[i].rows, true);
        }
    d.s->page = page;
}

static void every_page_fits_every_size(void **state)
{
    (void)state;
    assert_all_pages_fit();
    press(&d, "] ] ] t");
    assert_all_pages_fit();
}

static void pages_fit_with_a_question_help_or_a_value_on_them(void **state)
{
    (void)state;
    press(&d, "?");
    assert_all_pages_fit();
    press(&d, "Escape 2 + q");
    assert_all_pages_fit();
    press(&d, "Escape Enter 123456789012345678901234567890");
    d.s->page = PL_PAGE_CLOTH;
    for (int i = 0; i < SIZES; i++) {
        assert_page_fits(sizes[i].columns, sizes[i].rows, false);
        assert_true(d.f.cursor_row >= 0 && d.f.cursor_column >= 0);
    }
}

static void pages_fit_while_the_part_cannot_be_judged(void **state)
{
    (void)state;
    press(&d, "2 Enter 0 Enter");
    assert_false(d.s->valid);
    assert_all_pages_fit();
}

static void a_screen_too_small_says_so_and_comes_back_whole(void **state)
{
    (void)state;
    char *before = strdup(draw(&d, 80, 24, false));
    static const struct { int columns, rows; } small[] = {{39, 24}, {80, 19}, {10, 3}, {1, 1}};
    for (size_t i = 0; i < sizeof small / sizeof *small; i++)
        assert_page_fits(small[i].columns, small[i].rows, false);
    draw(&d, 39, 19, true);
    assert_shown(&d, "40 x 20");
    assert_string_equal(draw(&d, 80, 24, false), before);
    free(before);
}

static void drawing_changes_nothing(void **state)
{
    (void)state;
    for (int p = 0; p < PL_PAGES; p++) {
        d.s->page = (enum pl_page)p;
        char *first = strdup(draw(&d, 200, 60, false));
        draw(&d, 40, 20, true);
        assert_string_equal(draw(&d, 200, 60, false), first);
        free(first);
    }
    assert_document(&d, d.bytes);
}

/* ---- the verdict ---- */

static void the_verdict_stands_on_every_page(void **state)
{
    (void)state;
    for (int p = 0; p < PL_PAGES; p++)
        for (int i = 0; i < 2 * SIZES; i++) {
            d.s->page = (enum pl_page)p;
            draw(&d, sizes[i / 2].columns, sizes[i / 2].rows, i % 2);
            assert_role(&d, "HOLDS", PL_ROLE_HOLDS);
            assert_shown(&d, reserve_now());
            assert_shown(&d, "pit jack");
            assert_shown(&d, "wrinkling");
            assert_shown(&d, "kg");
            assert_shown(&d, "not checked");
        }
}

static void an_underbuilt_wing_falls_short_on_every_page(void **state)
{
    (void)state;
    for (int p = 0; p < PL_PAGES; p++)
        for (int i = 0; i < SIZES; i++) {
            d.s->page = (enum pl_page)p;
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_role(&d, "FALLS SHORT", PL_ROLE_FAILS);
            assert_not_shown(&d, "WING HOLDS");
            assert_shown(&d, reserve_now());
        }
}

static void the_verdict_names_place_mass_and_the_worst_deflection_against_its_limit(void **state)
{
    (void)state;
    const struct pl_verdict *v = pl_session_verdict(d.s);
    char place[32], mass[32], moved[32];
    pl_place_words(v->cases[v->worst_case].least.y_m, place, sizeof place);
    pl_number_fixed(mass, sizeof mass, v->mass_kg, 3);
    pl_number_fixed(moved, sizeof moved, 1e3 * fabs(v->cases[3].tip_most_m), 1);
    draw_usual(&d);
    assert_shown(&d, place);
    assert_shown(&d, mass);
    assert_shown(&d, "1.3 kg");
    assert_shown(&d, "scrutineer");
    assert_shown(&d, moved);
    assert_shown(&d, "10 mm");
}

static void a_limit_that_is_passed_is_told_in_words(void **state)
{
    (void)state;
    draw_usual(&d);
    assert_shown(&d, "TOO FAR");
    assert_not_shown(&d, "TOO HEAVY");
}

static void a_cut_verdict_loses_names_and_keeps_figures(void **state)
{
    (void)state;
    static const int widths[] = {40, 60, 69};
    for (size_t i = 0; i < sizeof widths / sizeof *widths; i++) {
        draw(&d, widths[i], 24, false);
        assert_shown(&d, "TOO FAR 11.0 of 10 mm");
    }
    press(&d, "Down Down +");
    draw(&d, 40, 20, false);
    assert_shown(&d, "reserve 1.03 but TOO FAR 10.2 of 10 m");
    while (pl_session_idle(d.s))
        ;
    for (int columns = 70; columns <= 200; columns += 10) {
        draw(&d, columns, 24, false);
        assert_shown(&d, "one ply forgotten 0.71: f");
    }
}

/* Seven words, brackets to vibration; whole from 110 columns on, on a row of their own if need be. */
static void what_is_not_checked_is_told_in_whole_words_and_a_count(void **state)
{
    (void)state;
    static const char all[] = "not checked: brackets, bonds, end plates, strike crushing, fatigue, divergence, vibration";
    static const struct { int columns; const char *words; } at[] = {
        {40, "not checked: brackets and 6 more "},
        {80, "not checked: brackets, bonds, end plates, strike crushing, fatigue and 2 more "},
        {110, all}, {132, all}, {200, all},
    };
    for (int warned = 0; warned < 2; warned++) {
        for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
            draw(&d, at[i].columns, 30, false);
            if (!warned || i > 1)
                assert_shown(&d, at[i].words);
        }
        press(&d, warned ? "" : "4 Tab Tab Down Delete");  /* no knockdown of the core: a warning stands beside */
        assert_int_equal(d.s->problems.count, 1);
    }
    draw(&d, 40, 20, false);
    assert_shown(&d, "1 warning, page 4  7 not checked");
}

static void the_lay_up_names_its_cloths_where_there_is_room_and_both_meanings_of_a_column(void **state)
{
    (void)state;
    press(&d, "2");
    draw(&d, 200, 60, false);
    assert_shown(&d, "side   cloth");
    assert_shown(&d, "both   glass plain 163");
    assert_shown(&d, "top    glass uni 310");
    draw_usual(&d);
    assert_shown(&d, "drop at/from  mm/to");
    press(&d, "Down Right Right Right Right text:x");  /* from the strip's middle and width to its edges */
    draw_usual(&d);
    assert_shown(&d, "at/from  mm/to");
}

static void a_rounded_figure_stays_on_its_side_of_the_limit(void **state)
{
    (void)state;
    static const struct { double value, limit; int decimals; const char *words; } of[] = {
        {7.24, 10, 1, "7.2 of 10"},       {10, 10, 1, "10.0 of 10"},          {10.958, 10.96, 1, "10.9 of 10.96"},
        {10.97, 10.96, 1, "11.0 of 10.96"}, {10.02, 10, 1, "10.1 of 10"},       {10.958, 10.958, 1, "10.9 of 10.958"},
        {1.2997, 1.3, 3, "1.300 of 1.3"}, {1.30004, 1.3, 3, "1.301 of 1.3"}, {1.2998, 1.2999, 3, "1.299 of 1.2999"},
    };
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        char words[96];
        pl_against_limit_words(of[i].value, of[i].limit, of[i].decimals, words, sizeof words);
        assert_string_equal(words, of[i].words);
    }
}

/* ---- mounts pinned ---- */

/* Loaded so, the air on the middle of the wing governs, and worst with the mounts pinned. */
static void load_until_pinned_governs(void)
{
    struct pl_problems problems = {0};
    assert_int_equal(pl_edit_set(d.s->document, "/load_cases/0/factor", "8", &problems), PL_OK);
    assert_int_equal(pl_edit_set(d.s->document, "/load_cases/0/name", "\"air at the top speed of the long straight\"", &problems), PL_OK);
    pl_session_judge(d.s);
    const struct pl_verdict *v = pl_session_verdict(d.s);
    assert_int_equal(v->worst_case, 0);
    assert_true(v->cases[0].least_pinned);
}

static void a_lowest_reserve_of_the_mounts_pinned_says_so_at_every_width(void **state)
{
    (void)state;
    static const int widths[] = {40, 60, 69, 70, 80, 109, 110, 132, 200};
    load_until_pinned_governs();
    for (size_t i = 0; i < sizeof widths / sizeof *widths; i++)
        for (int row = 0; row < 2; row++) {
            char want[80];
            d.s->page = PL_PAGE_CLOTH;
            d.s->load_case = PL_NONE;
            draw(&d, widths[i], 24, false);
            assert_shown(&d, ", pinned");  /* the verdict */
            press(&d, "4 Home g");
            press(&d, row ? "Down" : "");
            const char *page = draw(&d, widths[i], 24, false);
            const char *list = strstr(page, "all load cases");
            assert_non_null(list);
            assert_non_null(strstr(list, ", pinned"));
            snprintf(want, sizeof want, "as given; pinned %s", reserve_now());
            assert_shown(&d, want);  /* the line of the marker */
        }
    draw(&d, 80, 24, false);
    assert_shown(&d, " at 100 right");
}

static void the_section_says_that_it_is_of_the_mounts_as_given(void **state)
{
    (void)state;
    char want[80];
    press(&d, "2 g");
    draw(&d, 132, 43, false);
    assert_not_shown(&d, "as given");
    load_until_pinned_governs();
    press(&d, "g");
    snprintf(want, sizeof want, "as given; pinned %s", reserve_now());
    draw(&d, 80, 24, false);
    assert_shown(&d, want);
    snprintf(want, sizeof want, "as given; pinned %s at 100 right", reserve_now());
    draw(&d, 132, 43, false);
    assert_shown(&d, want);
}

/* Design: the verdict never leaves the screen. */
static void the_verdict_stays_under_help_and_questions(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++) {
        press(&d, "+ q");
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        assert_shown(&d, reserve_now());
        press(&d, "Escape ?");
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        assert_shown(&d, reserve_now());
        press(&d, "Escape");
    }
}

static void an_edit_shows_the_figure_before_and_the_figure_now(void **state)
{
    (void)state;
    char before[64];
    snprintf(before, sizeof before, "was %s", reserve_now());
    draw_usual(&d);
    assert_not_shown(&d, "was ");
    press(&d, "2 Down Down -");
    draw_usual(&d);
    assert_shown(&d, before);
    assert_shown(&d, reserve_now());
    assert_shown(&d, "changed");
}

/* ---- cap plies until it holds ---- */

static void cap_plies_turn_the_verdict(void **state)
{
    (void)state;
    draw_usual(&d);
    assert_shown(&d, "FALLS SHORT");
    press(&d, "2 Down Down + + + + Down + + +");
    assert_close(value_at(&d, "/elements/0/layup/2/plies"), 6, 0);
    assert_close(value_at(&d, "/elements/0/layup/3/plies"), 5, 0);
    draw_usual(&d);
    assert_role(&d, "HOLDS", PL_ROLE_HOLDS);
    assert_not_shown(&d, "FALLS SHORT");
    assert_true(pl_session_verdict(d.s)->holds);
}

static void undo_gives_the_file_back_to_the_byte(void **state)
{
    (void)state;
    char *page = strdup(draw_usual(&d));
    press(&d, "2 Down Down + + + + Down + + + Right Right - - Tab Down Right Enter 261,5 Enter");
    assert_true(pl_document_changed(d.s->document));
    press(&d, "u u u u u u u u u u u u");
    assert_document(&d, d.bytes);
    assert_false(pl_document_changed(d.s->document));
    draw_usual(&d);
    assert_not_shown(&d, "changed");
    assert_shown(&d, "FALLS SHORT");
    press(&d, "U U U U U U U U U U U U");
    assert_close(value_at(&d, "/elements/0/layup/2/plies"), 6, 0);
    assert_close(value_at(&d, "/elements/0/stations/1/chord_mm"), 261.5, 0);
    free(page);
}

static void undo_and_redo_name_the_step(void **state)
{
    (void)state;
    press(&d, "2 Down Down +");
    press(&d, "u");
    draw_usual(&d);
    assert_shown(&d, "top cap: Plies 2");
    press(&d, "u");
    draw_usual(&d);
    assert_shown(&d, "nothing to undo");
    press(&d, "U");
    draw_usual(&d);
    assert_shown(&d, "top cap: Plies 2");
    press(&d, "U");
    draw_usual(&d);
    assert_shown(&d, "nothing to redo");
}

/* ---- the marker ---- */

static void the_marker_moves_and_the_page_speaks_of_where_it_stands(void **state)
{
    (void)state;
    static const enum pl_page pages[] = {PL_PAGE_CLOTH, PL_PAGE_STRENGTH};
    for (size_t p = 0; p < sizeof pages / sizeof *pages; p++) {
        d.s->page = pages[p];
        for (int i = 0; i < SIZES; i++) {
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_shown(&d, "y centre");
            press(&d, "] ] ]");
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_role(&d, "y 30 right", PL_ROLE_MARKER);
            press(&d, "[ [ [ [ [");
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_role(&d, "y 20 left", PL_ROLE_MARKER);
            press(&d, "] ]");
        }
    }
}

static void the_marker_stops_at_the_tips(void **state)
{
    (void)state;
    for (int i = 0; i < 70; i++)
        press(&d, "]");
    draw_usual(&d);
    assert_shown(&d, "y 640 right");
    assert_close(d.s->marker_m, 0.64, 1e-12);
    for (int i = 0; i < 140; i++)
        press(&d, "[");
    draw_usual(&d);
    assert_shown(&d, "y 640 left");
}

static void the_marker_keeps_to_the_wing_when_the_span_shrinks(void **state)
{
    (void)state;
    for (int i = 0; i < 70; i++)
        press(&d, "]");
    press(&d, "2 Tab Down Down Enter 610 Enter");
    draw_usual(&d);
    assert_shown(&d, "y 610 right");
    press(&d, "u");
    draw_usual(&d);
    assert_shown(&d, "y 610 right");
}

static void the_list_of_cloth_says_what_lies_at_the_marker(void **state)
{
    (void)state;
    /* The bracket wrap lies from 100 to 240 mm: none of it at the centre, both plies at 170. */
    draw(&d, 200, 60, false);
    char *centre = strdup(d.page.text);
    for (int i = 0; i < 17; i++)
        press(&d, "]");
    draw(&d, 200, 60, false);
    assert_shown(&d, "y 170 right");
    assert_string_not_equal(d.page.text, centre);
    int row = 0, column = 0;
    assert_true(find(&d, "bracket wrap", &row, &column));
    bool two = false;
    for (int c = column; c < column + 30; c++)
        two = two ||
              (d.f.cells[row * d.f.columns + c].code == '2' && d.f.cells[row * d.f.columns + c].role == PL_ROLE_MARKER);
    assert_true(two);
    free(centre);
}

/* ---- a part that cannot be judged ---- */

static void an_edit_that_cannot_be_judged_is_kept_and_explained_beside_old_figures(void **state)
{
    (void)state;
    char old[64];
    snprintf(old, sizeof old, "%s", reserve_now());
    press(&d, "2 Tab Right Enter text:-20 Enter");
    assert_close(value_at(&d, "/elements/0/stations/0/chord_mm"), -20, 0);
    for (int i = 0; i < SIZES; i++)
        for (int p = 0; p < PL_PAGES; p++) {
            d.s->page = (enum pl_page)p;
            draw(&d, sizes[i].columns, sizes[i].rows, false);
            assert_role(&d, "CANNOT BE JUDGED", PL_ROLE_FAILS);
            assert_not_shown(&d, "WING HOLDS");
            assert_shown(&d, "old");
            assert_shown(&d, old);
        }
    d.s->page = PL_PAGE_CLOTH;
    press(&d, "u");
    draw_usual(&d);
    assert_role(&d, "HOLDS", PL_ROLE_HOLDS);
    assert_not_shown(&d, "CANNOT BE JUDGED");
    assert_document(&d, d.bytes);
}

static void the_way_to_the_first_error_is_one_key(void **state)
{
    (void)state;
    char pointer[256];
    static const struct { const char *pointer, *json, *there, *words; } errors[] = {
        {"/elements/0/layup/2/drop_mm", "500", "/elements/0/layup/2/drop_mm", "this is why: top cap, drop: "},
        {"/elements/0/stations/2/chord_mm", "-1", "/elements/0/stations/2/chord_mm", "this is why: station 3 of main, chord: "},
        {"/load_cases/1/pads/1/y_mm", "9000", "/load_cases/1/pads/1/y_mm", "this is why: pad 2 of pit jack, at: "},
        {"/load_cases/3/force_n", "-5", "/load_cases/3/force_n", "this is why: scrutineer, force: "},
        {"/cores/0/e_mpa", "0", "/cores/0/e_mpa", "this is why: extruded polystyrene 33, E: "},
        {"/allowables/knockdown", "7", "/allowables/knockdown", "this is why: allowables, ply knockdown: "},
        {"/limits/tip_deflection_mm/scrutineer", "-3", "/limits/tip_deflection_mm/scrutineer", "this is why: limits, "},
        {"/elements/0/mounts", "[]", "", "this is why: main, mounts: "},
    };
    for (size_t i = 0; i < sizeof errors / sizeof *errors; i++) {
        struct pl_problems problems = {0};
        assert_int_equal(pl_edit_set(d.s->document, errors[i].pointer, errors[i].json, &problems), PL_OK);
        pl_session_judge(d.s);
        assert_false(d.s->valid);
        press(&d, i % 2 ? "7 g" : "4 Home g");
        if (strncmp(d.s->message, errors[i].words, strlen(errors[i].words)))
            fail_msg("%s: %s", errors[i].pointer, d.s->message);
        bool cell = pl_block_pointer_here(d.s, pointer, sizeof pointer);
        assert_string_equal(cell ? pointer : "", errors[i].there);
        assert_int_equal(strchr(d.s->message, '/') != NULL, false);
        press(&d, "u");
        draw_usual(&d);
        assert_true(d.s->valid);
    }
}

static void the_reason_can_be_read_on_every_size(void **state)
{
    (void)state;
    press(&d, "2 Tab Right Enter text:-20 Enter");
    for (int i = 0; i < SIZES; i++) {
        draw(&d, sizes[i].columns, sizes[i].rows, false);
        assert_shown(&d, "station 1 of main, chord");
        assert_shown(&d, "above 0");
    }
}

static void curves_of_old_figures_are_marked_as_old(void **state)
{
    (void)state;
    press(&d, "2 Enter 0 Enter 4");
    draw_usual(&d);
    assert_role(&d, "(old)", PL_ROLE_WARNING);
    press(&d, "u");
    draw_usual(&d);
    assert_not_shown(&d, "(old)");
}

static void a_part_that_never_could_be_judged_opens_and_can_be_mended(void **state)
{
    (void)state;
    desk_close(&d);
    char *text = read_whole_file(SAMPLE_PART, NULL);
    memcpy(strstr(text, "\"plies\": 2"), "\"plies\": 0", 10);
    desk_open_text(&d, text);
    free(text);
    assert_all_pages_fit();
    draw_usual(&d);
    assert_shown(&d, "CANNOT BE JUDGED");
    assert_shown(&d, "first skin, plies: must be");
    assert_not_shown(&d, "HOLDS");
    press(&d, "2 Enter 2 Enter");
    draw_usual(&d);
    assert_role(&d, "HOLDS", PL_ROLE_HOLDS);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WEAK(test) cmocka_unit_test_setup_teardown(test, fresh_weak, release)
    const struct CMUnitTest tests[] = {
        TRIAL(every_page_fits_every_size),
        TRIAL(pages_fit_with_a_question_help_or_a_value_on_them),
        TRIAL(pages_fit_while_the_part_cannot_be_judged),
        TRIAL(a_screen_too_small_says_so_and_comes_back_whole),
        TRIAL(drawing_changes_nothing),
        TRIAL(the_verdict_stands_on_every_page),
        WEAK(an_underbuilt_wing_falls_short_on_every_page),
        TRIAL(the_verdict_names_place_mass_and_the_worst_deflection_against_its_limit),
        WEAK(a_limit_that_is_passed_is_told_in_words),
        TRIAL(the_lay_up_names_its_cloths_where_there_is_room_and_both_meanings_of_a_column),
        TRIAL(what_is_not_checked_is_told_in_whole_words_and_a_count),
        WEAK(a_cut_verdict_loses_names_and_keeps_figures),
        TRIAL(a_rounded_figure_stays_on_its_side_of_the_limit),
        TRIAL(a_lowest_reserve_of_the_mounts_pinned_says_so_at_every_width),
        TRIAL(the_section_says_that_it_is_of_the_mounts_as_given),
        TRIAL(the_verdict_stays_under_help_and_questions),
        TRIAL(an_edit_shows_the_figure_before_and_the_figure_now),
        WEAK(cap_plies_turn_the_verdict),
        WEAK(undo_gives_the_file_back_to_the_byte),
        WEAK(undo_and_redo_name_the_step),
        TRIAL(the_marker_moves_and_the_page_speaks_of_where_it_stands),
        TRIAL(the_marker_stops_at_the_tips),
        TRIAL(the_marker_keeps_to_the_wing_when_the_span_shrinks),
        TRIAL(the_list_of_cloth_says_what_lies_at_the_marker),
        TRIAL(an_edit_that_cannot_be_judged_is_kept_and_explained_beside_old_figures),
        TRIAL(the_reason_can_be_read_on_every_size),
        TRIAL(the_way_to_the_first_error_is_one_key),
        TRIAL(curves_of_old_figures_are_marked_as_old),
        TRIAL(a_part_that_never_could_be_judged_opens_and_can_be_mended),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
