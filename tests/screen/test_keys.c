#include "../support.h"

#include "plyloft/keys.h"

#include <stdio.h>
#include <string.h>

/* The keys read, by name, with spaces between. */
static void assert_reads(const char *keys, const char *want)
{
    char got[400] = "", name[16];
    struct pl_keys_reader r;
    pl_keys_start(&r, keys);
    for (int key; (key = pl_keys_next(&r)) != PL_KEY_NONE;) {
        pl_key_name(key, name, sizeof name);
        size_t n = strlen(got);
        snprintf(got + n, sizeof got - n, "%s%s", n ? " " : "", name);
    }
    assert_string_equal(got, want);
    assert_int_equal(pl_keys_next(&r), PL_KEY_NONE);  /* and it stays at the end */
}

static void every_named_key_reads_as_itself(void **state)
{
    (void)state;
    static const char all[] = "Up Down Left Right PageUp PageDown Home End Tab BackTab Enter Escape Backspace Delete "
                              "Space Ctrl-A Ctrl-S Ctrl-Z";
    assert_reads(all, all);
    struct pl_keys_reader r;
    pl_keys_start(&r, "Up Space Ctrl-S");
    assert_int_equal(pl_keys_next(&r), PL_KEY_UP);
    assert_int_equal(pl_keys_next(&r), ' ');
    assert_int_equal(pl_keys_next(&r), PL_KEY_CTRL('S'));
}

static void a_single_character_is_itself(void **state)
{
    (void)state;
    assert_reads("+ - [ ] u U ? 1 8 é 翼", "+ - [ ] u U ? 1 8 é 翼");
}

static void other_words_are_typed_letter_by_letter(void **state)
{
    (void)state;
    assert_reads("12.5 Enter", "1 2 . 5 Enter");
    assert_reads("Upper up ENTER Ctrl- Ctrl-1 Ctrl-SS",
                 "U p p e r u p E N T E R C t r l - C t r l - 1 C t r l - S S");
    assert_reads("größe", "g r ö ß e");
}

static void text_before_a_word_types_it_even_if_it_names_a_key(void **state)
{
    (void)state;
    assert_reads("text:Enter Enter", "E n t e r Enter");
    assert_reads("text:a text:text:b", "a t e x t : b");
    assert_reads("text: x", "x");
    assert_reads("text x", "t e x t x");
}

static void any_amount_of_space_stands_between_words(void **state)
{
    (void)state;
    assert_reads("", "");
    assert_reads("   ", "");
    assert_reads("  Down   Down\t+\n", "Down Down +");
}

static void ctrl_letters_a_terminal_cannot_tell_apart_read_as_their_key(void **state)
{
    (void)state;
    assert_reads("Ctrl-H Ctrl-I Ctrl-J Ctrl-M Ctrl-s", "Backspace Tab Enter Enter Ctrl-S");
}

static void broken_and_unsafe_characters_are_skipped(void **state)
{
    (void)state;
    assert_reads("a\xff" "b \xe2\x80 \x01 \u202ec", "a b c");
}

static void bytes_of_a_terminal_map_to_the_same_keys(void **state)
{
    (void)state;
    assert_int_equal(pl_key_of_byte(19), PL_KEY_CTRL('S'));
    assert_int_equal(pl_key_of_byte(3), PL_KEY_CTRL('C'));
    assert_int_equal(pl_key_of_byte(27), PL_KEY_ESCAPE);
    assert_int_equal(pl_key_of_byte(127), PL_KEY_BACKSPACE);
    assert_int_equal(pl_key_of_byte(8), PL_KEY_BACKSPACE);
    assert_int_equal(pl_key_of_byte(0), PL_KEY_NONE);
    assert_int_equal(pl_key_of_byte(28), PL_KEY_NONE);
}

static void a_name_fits_its_buffer_and_no_key_has_none(void **state)
{
    (void)state;
    char name[16] = "x", small[4];
    pl_key_name(PL_KEY_NONE, name, sizeof name);
    assert_string_equal(name, "");
    pl_key_name(PL_KEY_CTRL_Z + 1, name, sizeof name);
    assert_string_equal(name, "");
    pl_key_name(0x1b, name, sizeof name);
    assert_string_equal(name, "");
    pl_key_name(PL_KEY_PAGE_DOWN, small, sizeof small);
    assert_string_equal(small, "Pag");
}

static bool stray(const char *keys)
{
    struct pl_keys_reader r;
    const char *word;
    size_t length;
    pl_keys_start(&r, keys);
    return pl_keys_stray(&r, &word, &length);
}

static void a_word_that_names_no_key_is_known_before_it_is_typed(void **state)
{
    (void)state;
    static const char *const strays[] = {"nonsense", " \t up Down", "12", "Ctrl-1", "\u00e9\u00e9"};
    static const char *const keys[] = {"", " ", "Up", "Ctrl-S", "a", "\u00e9", "++", "text:nonsense", "text:"};
    for (size_t i = 0; i < sizeof strays / sizeof *strays; i++)
        assert_true(stray(strays[i]));
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        assert_false(stray(keys[i]));
    struct pl_keys_reader r;
    const char *word;
    size_t length;
    pl_keys_start(&r, "abc de");
    for (int i = 0; i < 3; i++) {
        assert_int_equal(pl_keys_stray(&r, &word, &length), !i);  /* not in the middle of a word */
        pl_keys_next(&r);
    }
    assert_true(pl_keys_stray(&r, &word, &length));
    assert_int_equal(length, 2);
    assert_memory_equal(word, "de", 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_named_key_reads_as_itself),
        cmocka_unit_test(a_single_character_is_itself),
        cmocka_unit_test(other_words_are_typed_letter_by_letter),
        cmocka_unit_test(text_before_a_word_types_it_even_if_it_names_a_key),
        cmocka_unit_test(a_word_that_names_no_key_is_known_before_it_is_typed),
        cmocka_unit_test(any_amount_of_space_stands_between_words),
        cmocka_unit_test(ctrl_letters_a_terminal_cannot_tell_apart_read_as_their_key),
        cmocka_unit_test(broken_and_unsafe_characters_are_skipped),
        cmocka_unit_test(bytes_of_a_terminal_map_to_the_same_keys),
        cmocka_unit_test(a_name_fits_its_buffer_and_no_key_has_none),
    };
    return cmocka_run_group_tests_name("keys", tests, NULL, NULL);
}
