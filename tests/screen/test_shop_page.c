/* The page Shop: the kit worked out between keys, kept as text while the part moves on, and the shed it follows. */
#include "pages.h"

#include "screen/shop_job.h"

#include <unistd.h>

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    press(&d, "6");
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

static void pieces_rolls_and_cups_have_a_part_each(void **state)
{
    (void)state;
    assert_told(&d, "being worked out");
    desk_rest(&d);
    assert_told(&d, "1A   first skin");
    press(&d, "Tab");
    assert_told(&d, "glass plain 163");
    press(&d, "Down");
    assert_told(&d, "glass uni 310");
    press(&d, "Tab");
    assert_told(&d, "min in the pot at 20 C");
    press(&d, "End");
    assert_told(&d, "Two-pack paint");
    for (size_t i = 0; i < SIZES; i++)
        assert_non_null(strstr(draw(&d, sizes[i].columns, sizes[i].rows, true), "6 Shop"));
}

static void the_list_follows_the_row(void **state)
{
    (void)state;
    desk_rest(&d);
    press(&d, "End");
    assert_told(&d, "16B");
    press(&d, "Home");
    assert_told(&d, "1A");
    assert_untold(&d, "16B");
}

static void a_row_may_be_chosen_before_the_kit_is_there(void **state)
{
    (void)state;
    press(&d, "Down Down");
    assert_non_null(pl_shop_page(d.s));
    assert_int_equal(pl_block_cursor(d.s, 0).row, 2);
}

static void a_warmer_shed_shortens_the_pot(void **state)
{
    (void)state;
    press(&d, "Tab Tab Tab a");  /* the shed, with its usual values */
    assert_told(&d, "Temperature");
    press(&d, "Enter text:30 Enter");
    desk_rest(&d);
    press(&d, "BackTab");
    assert_told(&d, "28 min in the pot at 30 C");
    press(&d, "u u");
    desk_rest(&d);
    assert_told(&d, "57 min in the pot at 20 C");
}

static void an_old_kit_stays_until_the_new_one_is_there(void **state)
{
    (void)state;
    desk_rest(&d);
    assert_false(pl_shop_is_old(d.s));
    desk_put(&d, "/elements/0/layup/0/name", "\"inner skin\"");
    assert_true(pl_shop_is_old(d.s));
    assert_told(&d, "first skin");
    desk_rest(&d);
    assert_told(&d, "inner skin");
    desk_put(&d, "/elements/0/layup", "[]");  /* cannot be judged: nothing to cut, the old one stays */
    assert_false(d.s->valid);
    desk_rest(&d);
    assert_told(&d, "inner skin");
}

static void what_cannot_be_planned_says_why(void **state)
{
    (void)state;
    desk_put(&d, "/shed", "{\"cup_kg\": 0.000001}");
    desk_rest(&d);
    assert_told(&d, "more than 1000 cups");
}

/* A name typed over the one that is proposed; what stands at its beginning then. */
static void write_to(const char *key, const char *path, const char *begins)
{
    char typed[160], bytes[16] = "";
    press(&d, key);
    snprintf(typed, sizeof typed, "text:%s Enter", path);
    press(&d, typed);
    assert_int_equal(d.s->n_questions, 0);
    assert_told(&d, "written: ");
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    assert_int_equal(fread(bytes, 1, strlen(begins), f), strlen(begins));
    assert_memory_equal(bytes, begins, strlen(begins));
    fclose(f);
    assert_int_equal(unlink(path), 0);
}

static void kit_and_ply_book_are_written_from_the_bench(void **state)
{
    (void)state;
    char folder[] = "/tmp/plyloft-shop-XXXXXX", path[64];
    assert_non_null(mkdtemp(folder));
    static const struct { const char *key, *name, *begins; } files[] = {{"i", "kit.pdf", "%PDF-"}, {"i", "kit.svg", "<?xml"}, {"l", "book.pdf", "%PDF-"}};
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, files[i].name);
        write_to(files[i].key, path, files[i].begins);
    }
    assert_int_equal(rmdir(folder), 0);
    assert_false(pl_document_changed(d.s->document));
}

static void a_file_that_cannot_be_written_leaves_the_question_open(void **state)
{
    (void)state;
    press(&d, "i");
    assert_told(&d, "part-kit.pdf");
    press(&d, "text:kit.doc Enter");
    assert_told(&d, "must end in .pdf or .svg");
    press(&d, "Escape l");
    assert_told(&d, "part-plies.pdf");
    press(&d, "text:book.svg Enter");
    assert_told(&d, "must end in .pdf");
    press(&d, "Ctrl-U text:/nonesuch/book.pdf Enter");
    assert_told(&d, "not written");
    assert_int_equal(d.s->n_questions, 1);
    press(&d, "Escape");
    desk_put(&d, "/elements/0/layup", "[]");
    press(&d, "i Enter");
    assert_told(&d, "cannot be judged");
}

int main(void)
{
#define DESK(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        DESK(pieces_rolls_and_cups_have_a_part_each), DESK(the_list_follows_the_row), DESK(a_row_may_be_chosen_before_the_kit_is_there), DESK(a_warmer_shed_shortens_the_pot),
        DESK(an_old_kit_stays_until_the_new_one_is_there), DESK(what_cannot_be_planned_says_why),
        DESK(kit_and_ply_book_are_written_from_the_bench), DESK(a_file_that_cannot_be_written_leaves_the_question_open),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
