/* Every quantity of a part file is reached from the keyboard: walking all parts of all pages, for every row, with the
 * arrows alone, the cursor stands on each field of the table once, and help says what it is. */
#include "support.h"

#include "screen/block.h"
#include "screen/view.h"

#include "plyloft/keys.h"

#include <stdio.h>
#include <string.h>

enum { FIELDS_MOST = 40 };

static bool reached[PL_GROUPS][FIELDS_MOST];  /* fields of the file, then those worked out */

static size_t index_of(enum pl_group_id group, const struct pl_field *f)
{
    const struct pl_group *g = &pl_groups[group];
    return f->derived ? g->n_fields + (size_t)(f - g->derived) : (size_t)(f - g->fields);
}

static const struct pl_field *field_of(size_t group, size_t i)
{
    const struct pl_group *g = &pl_groups[group];
    return i < g->n_fields ? &g->fields[i] : &g->derived[i - g->n_fields];
}

static void note(struct pl_session *s)
{
    char pointer[256];
    enum pl_group_id group;
    if (!pl_block_pointer_here(s, pointer, sizeof pointer))
        return;
    const struct pl_field *f = pl_field_at(pointer, &group);
    if (!f)
        fail_msg("the cursor stands on %s, which the table does not have", pointer);
    assert_true(strlen(f->help) > 10);
    reached[group][index_of(group, f)] = true;
}

/* All cells of the part of the page in hand, by the arrows. */
static void walk_block(struct pl_session *s)
{
    size_t rows = pl_block_rows(s, s->blocks[s->page]), columns = pl_block_columns(s, s->blocks[s->page]);
    pl_session_key(s, PL_KEY_HOME);
    for (size_t row = 0; row < rows; row++) {
        for (size_t column = 0; column < columns; column++) {
            note(s);
            pl_session_key(s, PL_KEY_RIGHT);
        }
        for (size_t column = 0; column < columns; column++)
            pl_session_key(s, PL_KEY_LEFT);
        pl_session_key(s, PL_KEY_DOWN);
    }
    pl_session_key(s, PL_KEY_HOME);
}

/* A sheet shows the row chosen in its table: every row of the table, then its sheet and its own lists. */
static void walk_page(struct pl_session *s, int key)
{
    size_t count;
    pl_session_key(s, key);
    pl_page_blocks(s->page, &count);
    for (size_t block = 0; block < count; block++) {
        walk_block(s);
        size_t rows = pl_block_rows(s, s->blocks[s->page]);
        for (size_t row = 0; row < rows; row++) {
            for (size_t other = 0; other < count; other++) {
                pl_session_key(s, PL_KEY_TAB);
                if (other + 1 < count)
                    walk_block(s);
            }
            pl_session_key(s, PL_KEY_DOWN);
        }
        pl_session_key(s, PL_KEY_HOME);
        pl_session_key(s, PL_KEY_TAB);
    }
}

static void every_field_is_reached_from_the_keyboard(void **state)
{
    (void)state;
    struct pl_session *s;
    struct pl_problems problems = {0};
    size_t missed = 0;
    assert_int_equal(pl_session_open(&s, "tests/part/every-field.json", &problems), PL_OK);
    for (size_t element = 0; element < 2; element++) {
        for (const char *key = "12346"; *key; key++)
            walk_page(s, *key);
        pl_session_key(s, 'e');
    }
    for (size_t g = 0; g < PL_GROUPS; g++)
        for (size_t i = 0; i < pl_groups[g].n_fields + pl_groups[g].n_derived; i++)
            if (!reached[g][i]) {
                print_error("%s of a %s is not reached\n", field_of(g, i)->key, pl_groups[g].noun);
                missed++;
            }
    assert_int_equal(missed, 0);
    assert_int_equal(pl_document_steps(s->document), 0);  /* and looking changes nothing */
    pl_session_close(s);
    pl_problems_free(&problems);
}

enum { CELLS_MOST = 1200 };

static char cells[CELLS_MOST][256];

/* The pointers of all cells of the page in hand that the cursors as they are show; their number in all. */
static size_t note_cells(struct pl_session *s, size_t n)
{
    size_t blocks;
    pl_page_blocks(s->page, &blocks);
    for (int block = 0; block < (int)blocks; block++)
        for (size_t row = 0; row < pl_block_rows(s, block); row++)
            for (size_t column = 0; column < pl_block_columns(s, block) && n < CELLS_MOST; column++)
                n += pl_block_cell(s, block, row, column, cells[n], sizeof cells[n]);
    return n;
}

static void every_field_is_gone_to_by_its_place_in_the_file(void **state)
{
    (void)state;
    struct pl_session *s;
    struct pl_problems problems = {0};
    char here[256];
    size_t n = 0;
    assert_int_equal(pl_session_open(&s, "tests/part/every-field.json", &problems), PL_OK);
    for (int page = PL_PAGE_SHAPE; page <= PL_PAGE_SHOP; page++)
        for (s->element = 0; s->element < 2; s->element++) {
            s->page = (enum pl_page)page;
            n = note_cells(s, n);
        }
    assert_in_range(n, 200, CELLS_MOST - 1);
    for (size_t i = 0; i < n; i++) {
        s->page = PL_PAGE_TRIALS;
        s->element = 0;
        if (!pl_block_go_to(s, cells[i]) || !pl_block_pointer_here(s, here, sizeof here))
            fail_msg("no way to %s", cells[i]);
        assert_string_equal(here, cells[i]);
    }
    s->page = PL_PAGE_TRIALS;
    assert_true(pl_block_go_to(s, "/profiles/1/points/3/1"));  /* a place inside a value */
    assert_true(pl_block_pointer_here(s, here, sizeof here));
    assert_string_equal(here, "/profiles/1/points");
    s->page = PL_PAGE_TRIALS;
    s->element = 1;
    assert_false(pl_block_go_to(s, "/nothing/of/the/kind"));
    assert_int_equal(s->page, PL_PAGE_TRIALS);
    assert_int_equal(s->element, 1);
    pl_session_close(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_field_is_reached_from_the_keyboard),
        cmocka_unit_test(every_field_is_gone_to_by_its_place_in_the_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
