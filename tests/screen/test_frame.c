#include "../support.h"

#include "plyloft/frame.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* A frame of the test's own; the text it prints is compared whole. */
static struct pl_frame f;

static int fresh(void **state)
{
    (void)state;
    pl_frame_free(&f);
    return pl_frame_resize(&f, 4, 10) ? 0 : -1;
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

static const struct pl_cell *cell(int row, int column)
{
    return &f.cells[row * f.columns + column];
}

static void an_empty_frame_prints_nothing(void **state)
{
    (void)state;
    assert_prints("");
    assert_int_equal(f.cursor_row, -1);
}

static void printing_drops_trailing_spaces_and_rows_but_keeps_rows_between(void **state)
{
    (void)state;
    assert_int_equal(pl_frame_text(&f, 0, 0, PL_ROLE_TITLE, "cap  "), 5);
    pl_frame_text(&f, 2, 2, PL_ROLE_TEXT, "tip");
    pl_frame_text(&f, 3, 0, PL_ROLE_CHOSEN, "   ");
    assert_prints("cap\n\n  tip\n");
    assert_int_equal(cell(0, 1)->role, PL_ROLE_TITLE);
    assert_int_equal(cell(3, 2)->role, PL_ROLE_CHOSEN);
}

static void text_is_clipped_at_every_edge(void **state)
{
    (void)state;
    assert_int_equal(pl_frame_text(&f, 0, 7, PL_ROLE_TEXT, "abcdef"), 13);
    assert_int_equal(pl_frame_text(&f, 1, -2, PL_ROLE_TEXT, "abcdef"), 4);
    pl_frame_text(&f, -1, 0, PL_ROLE_TEXT, "above");
    pl_frame_text(&f, 4, 0, PL_ROLE_TEXT, "below");
    pl_frame_text(&f, 2, 10, PL_ROLE_TEXT, "right");
    assert_prints("       abc\ncdef\n");
}

static void a_wide_character_takes_two_cells(void **state)
{
    (void)state;
    assert_int_equal(pl_frame_text(&f, 0, 0, PL_ROLE_WARNING, "a翼b"), 4);
    assert_int_equal(cell(0, 1)->code, U'翼');
    assert_int_equal(cell(0, 1)->width, 2);
    assert_int_equal(cell(0, 2)->width, 0);
    assert_int_equal(cell(0, 2)->role, PL_ROLE_WARNING);
    assert_int_equal(cell(0, 3)->code, 'b');
    assert_prints("a翼b\n");
}

static void a_wide_character_across_an_edge_becomes_a_space(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 8, PL_ROLE_TEXT, "x翼");
    pl_frame_text(&f, 1, -1, PL_ROLE_TEXT, "翼y");
    assert_int_equal(cell(0, 9)->code, ' ');
    assert_int_equal(cell(0, 9)->width, 1);
    assert_prints("        x\n y\n");
}

static void an_accent_on_a_wide_character_that_did_not_fit_is_dropped(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 9, PL_ROLE_TEXT, "翼\u0301");
    assert_int_equal(cell(0, 9)->combining[0], 0);
}

static void overwriting_either_half_blanks_the_other(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 2, PL_ROLE_TEXT, "翼翼");
    pl_frame_text(&f, 0, 2, PL_ROLE_TEXT, "l");
    pl_frame_text(&f, 0, 5, PL_ROLE_TEXT, "r");
    assert_prints("  l  r\n");
    for (int column = 2; column < 6; column++)
        assert_int_equal(cell(0, column)->width, 1);
}

static void a_wide_character_over_two_wide_halves_blanks_both_neighbours(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "翼翼");
    pl_frame_text(&f, 0, 1, PL_ROLE_TEXT, "板");
    assert_prints(" 板\n");
    assert_int_equal(cell(0, 1)->width, 2);
    assert_int_equal(cell(0, 2)->width, 0);
    assert_int_equal(cell(0, 3)->width, 1);
}

static void filling_half_a_wide_character_blanks_the_rest(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "翼");
    pl_frame_fill(&f, 0, 1, 1, 3, PL_ROLE_TEXT, '.');
    assert_prints(" ...\n");
}

static void combining_characters_join_the_one_before_up_to_two(void **state)
{
    (void)state;
    /* e, acute, diaeresis, and a third (grave) that finds no room */
    assert_int_equal(pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "e\u0301\u0308\u0300x"), 2);
    assert_int_equal(cell(0, 0)->combining[0], 0x301);
    assert_int_equal(cell(0, 0)->combining[1], 0x308);
    assert_prints("e\u0301\u0308x\n");
}

static void a_combining_character_without_a_base_is_dropped(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "z");
    assert_int_equal(pl_frame_text(&f, 0, 1, PL_ROLE_TEXT, "\u0301a"), 2);
    pl_frame_text(&f, 1, -1, PL_ROLE_TEXT, "e\u0301b");
    assert_prints("za\nb\n");
    assert_int_equal(cell(0, 0)->combining[0], 0);
}

static void variation_selectors_are_left_out(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "\u26a0\ufe0f!");
    assert_prints("\u26a0!\n");
}

static void what_must_not_reach_a_terminal_becomes_a_replacement(void **state)
{
    (void)state;
    assert_int_equal(pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "a\033[m\xff\u202e\xc2\x9b"), 7);
    assert_prints("a\ufffd[m\ufffd\ufffd\ufffd\n");
    pl_frame_code(&f, 1, 0, PL_ROLE_TEXT, 0x07);
    pl_frame_code(&f, 1, 1, PL_ROLE_TEXT, 0xd800);
    pl_frame_code(&f, 1, 2, PL_ROLE_TEXT, 0x110000);
    for (int column = 0; column < 3; column++)
        assert_int_equal(cell(1, column)->code, 0xfffd);
}

static void plain_shades_differ_from_each_other_and_from_the_middle_dot(void **state)
{
    (void)state;
    uint32_t fills[] = {(unsigned char)pl_code_plain(0xb7), 0, 0, 0, 0, ' '};
    for (int i = 0; i < 4; i++)
        fills[1 + i] = pl_glyph_code((enum pl_glyph)(PL_GLYPH_SHADE_1 + i), true);
    for (int i = 0; i < 6; i++)
        for (int k = 0; k < i; k++)
            assert_int_not_equal(fills[i], fills[k]);
}

static void a_plain_frame_holds_only_ascii_and_keeps_its_columns(void **state)
{
    (void)state;
    f.plain = true;
    assert_int_equal(pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "翼a\u0301é🙂\x01"), 7);
    assert_prints("??ae???\n");
    pl_frame_code(&f, 1, 0, PL_ROLE_TEXT, U'翼');
    pl_frame_code(&f, 1, 2, PL_ROLE_TEXT, 0x2801);
    pl_frame_code(&f, 1, 9, PL_ROLE_TEXT, U'翼');
    assert_prints("??ae???\n?\?'      ?\n");
}

static void plain_spellings_are_those_a_reader_expects(void **state)
{
    (void)state;
    f.plain = true;
    pl_frame_resize(&f, 2, 30);
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "…–—−×°·µ²→≤≥ÄßøŁ");
    assert_prints("~---xd.u2><>Aso?\n");
}

static void every_code_has_one_printable_plain_character(void **state)
{
    (void)state;
    for (uint32_t code = 0; code <= 0x30000; code++) {
        char c = pl_code_plain(code);
        assert_true(c >= ' ' && c < 0x7f);
        if (code >= ' ' && code < 0x7f)
            assert_int_equal(c, code);
    }
}

static void every_glyph_is_one_column_in_both_spellings(void **state)
{
    (void)state;
    for (int plain = 0; plain < 2; plain++)
        for (int glyph = 0; glyph < PL_GLYPHS; glyph++) {
            uint32_t code = pl_glyph_code((enum pl_glyph)glyph, plain);
            assert_true(plain ? code > ' ' && code < 0x7f : code > 0x7f);
            assert_int_equal(pl_code_plain(code), pl_glyph_code((enum pl_glyph)glyph, true));
            f.plain = plain;
            pl_frame_clear(&f);
            pl_frame_glyph(&f, 0, 0, PL_ROLE_LINE, (enum pl_glyph)glyph);
            assert_int_equal(cell(0, 0)->code, code);
            assert_int_equal(cell(0, 0)->width, 1);
        }
}

static void text_in_a_width_is_cut_with_an_ellipsis_and_never_beyond(void **state)
{
    (void)state;
    assert_int_equal(pl_frame_text_in(&f, 0, 1, 5, PL_ROLE_TEXT, "abcde"), 6);
    assert_int_equal(pl_frame_text_in(&f, 1, 1, 5, PL_ROLE_TEXT, "abcdef"), 6);
    assert_int_equal(pl_frame_text_in(&f, 2, 1, 1, PL_ROLE_TEXT, "abc"), 2);
    assert_int_equal(pl_frame_text_in(&f, 3, 1, 0, PL_ROLE_TEXT, "abc"), 1);
    assert_prints(" abcde\n abcd…\n …\n");
}

static void a_wide_character_that_would_straddle_the_cut_is_left_out_whole(void **state)
{
    (void)state;
    /* a 翼 翼 takes 5 columns; of 4, three are left for text: a and one wide character */
    assert_int_equal(pl_frame_text_in(&f, 0, 0, 4, PL_ROLE_TEXT, "a翼翼"), 4);
    assert_int_equal(pl_frame_text_in(&f, 1, 0, 3, PL_ROLE_TEXT, "a翼翼"), 2);
    assert_prints("a翼…\na…\n");
}

static void accents_stay_with_the_last_character_before_the_cut(void **state)
{
    (void)state;
    pl_frame_text_in(&f, 0, 0, 3, PL_ROLE_TEXT, "ae\u0301io");
    assert_prints("ae\u0301…\n");
}

static void text_in_a_width_shows_its_cut_at_the_edge_of_the_frame(void **state)
{
    (void)state;
    assert_int_equal(pl_frame_text_in(&f, 0, 6, 40, PL_ROLE_TEXT, "abcdef"), 10);
    assert_int_equal(pl_frame_text_in(&f, 1, 10, 40, PL_ROLE_TEXT, "abcdef"), 10);
    assert_prints("      abc…\n");
}

static void text_set_right_ends_at_the_width(void **state)
{
    (void)state;
    pl_frame_text_right(&f, 0, 2, 6, PL_ROLE_TEXT, "1.07");
    pl_frame_text_right(&f, 1, 2, 6, PL_ROLE_TEXT, "翼1");
    pl_frame_text_right(&f, 2, 2, 3, PL_ROLE_TEXT, "12345");
    assert_prints("    1.07\n     翼1\n  12…\n");
}

static void formatted_text_longer_than_any_buffer_is_whole(void **state)
{
    (void)state;
    assert_true(pl_frame_resize(&f, 1, 3000));
    assert_int_equal(pl_frame_printf(&f, 0, 0, PL_ROLE_TEXT, "%*d|", 2000, 7), 2001);
    assert_int_equal(cell(0, 1999)->code, '7');
    assert_int_equal(cell(0, 2000)->code, '|');
    assert_int_equal(pl_frame_printf(&f, 0, 3, PL_ROLE_TEXT, "%s %d", "ply", 4), 8);
}

static void lines_run_right_or_down(void **state)
{
    (void)state;
    pl_frame_line(&f, 0, 1, 20, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    pl_frame_line(&f, 1, 0, 20, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    assert_prints(" ─────────\n│\n│\n│\n");
    f.plain = true;
    pl_frame_clear(&f);
    pl_frame_line(&f, 0, 0, 5, PL_ROLE_LINE, PL_GLYPH_DASHED);
    assert_prints("- - -\n");
}

static void a_changed_role_leaves_the_text_and_reaches_both_halves(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "翼翼");
    pl_frame_role(&f, 0, 0, 1, 3, PL_ROLE_CHOSEN);
    for (int column = 0; column < 4; column++)
        assert_int_equal(cell(0, column)->role, PL_ROLE_CHOSEN);
    pl_frame_role(&f, 0, 1, 1, 1, PL_ROLE_QUIET);  /* a right half follows its left */
    assert_int_equal(cell(0, 1)->role, PL_ROLE_CHOSEN);
    pl_frame_role(&f, -1, -1, INT_MAX, INT_MAX, PL_ROLE_LIMIT);
    assert_int_equal(cell(3, 9)->role, PL_ROLE_LIMIT);
    assert_prints("翼翼\n");
}

static void the_last_hit_over_a_cell_wins(void **state)
{
    (void)state;
    pl_frame_hit(&f, 0, 0, 4, 10, 1, 10);
    pl_frame_hit(&f, 1, 2, 2, 3, 2, 20);
    assert_int_equal(pl_frame_hit_at(&f, 1, 2)->action, 2);
    assert_int_equal(pl_frame_hit_at(&f, 2, 4)->argument, 20);
    assert_int_equal(pl_frame_hit_at(&f, 3, 4)->action, 1);
    assert_int_equal(pl_frame_hit_at(&f, 1, 5)->action, 1);
    assert_null(pl_frame_hit_at(&f, 4, 0));
    assert_null(pl_frame_hit_at(&f, 0, 10));
}

static void hits_are_clipped_and_their_number_is_bounded(void **state)
{
    (void)state;
    pl_frame_hit(&f, 5, 0, 1, 1, 1, 0);
    pl_frame_hit(&f, 0, 0, 0, 5, 1, 0);
    assert_int_equal(f.n_hits, 0);
    pl_frame_hit(&f, -1, 8, 2, INT_MAX, 1, 0);
    assert_int_equal(f.hits[0].columns, 2);
    assert_int_equal(f.hits[0].rows, 1);
    for (int i = 0; i < 2 * PL_HITS_MOST; i++)
        pl_frame_hit(&f, 0, 0, 1, 1, 3, i);
    assert_int_equal(f.n_hits, PL_HITS_MOST);
    pl_frame_clear(&f);
    assert_null(pl_frame_hit_at(&f, 0, 0));
}

static void resizing_empties_the_frame_and_takes_any_size(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "old");
    assert_true(pl_frame_resize(&f, 2, 3));
    assert_prints("");
    assert_true(pl_frame_resize(&f, 0, -5));
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "nowhere");
    assert_prints("");
    assert_int_equal(f.columns, 0);
}

static void a_frame_without_memory_stays_as_it_was(void **state)
{
    (void)state;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "kept");
    assert_false(pl_frame_resize(&f, INT_MAX, INT_MAX));
    assert_int_equal(f.columns, 10);
    assert_prints("kept\n");
}

/* Words of all widths at random places: no half stands alone, and every printed row is at most as wide as the frame. */
static void no_half_of_a_wide_character_is_ever_left_alone(void **state)
{
    (void)state;
    static const char *const words[] = {"a", "翼", "b翼", "e\u0301", "翼翼", "  "};
    uint32_t seed = 7;
    for (int i = 0; i < 20000; i++) {
        seed = seed * 1664525u + 1013904223u;
        pl_frame_text(&f, (int)(seed >> 8 & 3), (int)(seed >> 10) % 13 - 2, PL_ROLE_TEXT, words[(seed >> 20) % 6]);
        for (int k = 0; k < 40; k++) {
            if (f.cells[k].width == 0)
                assert_true(k % 10 > 0 && f.cells[k - 1].width == 2);
            if (f.cells[k].width == 2)
                assert_true(k % 10 < 9 && f.cells[k + 1].width == 0);
        }
    }
}

#define T(name) cmocka_unit_test_setup_teardown(name, fresh, release)

int main(void)
{
    const struct CMUnitTest tests[] = {
        T(an_empty_frame_prints_nothing),
        T(printing_drops_trailing_spaces_and_rows_but_keeps_rows_between),
        T(text_is_clipped_at_every_edge),
        T(a_wide_character_takes_two_cells),
        T(a_wide_character_across_an_edge_becomes_a_space),
        T(an_accent_on_a_wide_character_that_did_not_fit_is_dropped),
        T(overwriting_either_half_blanks_the_other),
        T(a_wide_character_over_two_wide_halves_blanks_both_neighbours),
        T(filling_half_a_wide_character_blanks_the_rest),
        T(combining_characters_join_the_one_before_up_to_two),
        T(a_combining_character_without_a_base_is_dropped),
        T(variation_selectors_are_left_out),
        T(what_must_not_reach_a_terminal_becomes_a_replacement),
        T(a_plain_frame_holds_only_ascii_and_keeps_its_columns),
        T(plain_shades_differ_from_each_other_and_from_the_middle_dot),
        T(plain_spellings_are_those_a_reader_expects),
        T(every_code_has_one_printable_plain_character),
        T(every_glyph_is_one_column_in_both_spellings),
        T(text_in_a_width_is_cut_with_an_ellipsis_and_never_beyond),
        T(a_wide_character_that_would_straddle_the_cut_is_left_out_whole),
        T(accents_stay_with_the_last_character_before_the_cut),
        T(text_in_a_width_shows_its_cut_at_the_edge_of_the_frame),
        T(text_set_right_ends_at_the_width),
        T(formatted_text_longer_than_any_buffer_is_whole),
        T(lines_run_right_or_down),
        T(a_changed_role_leaves_the_text_and_reaches_both_halves),
        T(the_last_hit_over_a_cell_wins),
        T(hits_are_clipped_and_their_number_is_bounded),
        T(resizing_empties_the_frame_and_takes_any_size),
        T(a_frame_without_memory_stays_as_it_was),
        T(no_half_of_a_wide_character_is_ever_left_alone),
    };
    return cmocka_run_group_tests_name("frame", tests, NULL, NULL);
}
