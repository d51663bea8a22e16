/* Help, and the keys it lists. */
#include "pages.h"

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

/* A word that stands alone, in the role that help gives to keys. */
static bool find_key(const char *key)
{
    int n = pl_text_columns(key), columns = d.f.columns;
    for (int at = 0; at + n < d.f.rows * columns; at++) {
        int same = 0;
        while (same < n && d.f.cells[at + same].code == (uint32_t)key[same] &&
               d.f.cells[at + same].role == PL_ROLE_TITLE)
            same++;
        if (same == n && d.f.cells[at + n].code == ' ' && (at % columns == 0 || d.f.cells[at - 1].code == ' '))
            return true;
    }
    return false;
}

static bool find_words(const char *words)
{
    int row, column;
    return find(&d, words, &row, &column);
}

/* Looks through all that help shows, moved from its first line to its last. */
static bool in_help(bool (*look)(const char *), const char *words, int columns, int rows)
{
    press(&d, "? ?");
    bool found = false;
    for (int i = 0; i < 80 && !found; i++) {
        draw(&d, columns, rows, false);
        found = look(words);
        press(&d, "Down");
    }
    press(&d, "Escape");
    return found;
}

static void help_lists_every_key(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++)
        for (size_t b = 0; b < pl_n_doings; b++)
            for (int k = 0; k < PL_KEYS_EACH && d.s->keys.keys[b][k]; k++) {
                char key[32];
                pl_key_name(d.s->keys.keys[b][k], key, sizeof key);
                if (!in_help(find_key, key, sizes[i].columns, sizes[i].rows))
                    fail_msg("%s is not in help on %d x %d", key, sizes[i].columns, sizes[i].rows);
            }
}

static void help_says_what_every_key_does(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++)
        for (size_t b = 0; b < pl_n_doings; b++)
            if (!in_help(find_words, pl_doings[b].words, sizes[i].columns, sizes[i].rows))
                fail_msg("\"%s\" is not in help on %d x %d", pl_doings[b].words, sizes[i].columns, sizes[i].rows);
}

static void help_names_every_page_where_there_is_room(void **state)
{
    (void)state;
    for (int p = 0; p < PL_PAGES; p++)
        assert_true(in_help(find_words, pl_page_names[p], 80, 24));
}

static void an_action_without_a_key_has_a_dash_for_it(void **state)
{
    (void)state;
    int row = 0, column = 0;
    press(&d, "? ?");
    draw(&d, 132, 43, false);
    assert_true(find(&d, "write keys to a file", &row, &column));
    assert_int_equal(d.f.cells[row * d.f.columns + column - 10].code, '-');
    assert_true(find(&d, "find an action by name", &row, &column));
    assert_int_equal(d.f.cells[row * d.f.columns + column - 10].code, 'f');
}

static void help_goes_away_and_leaves_everything_as_it_was(void **state)
{
    (void)state;
    char *before = strdup(draw_usual(&d));
    press(&d, "?");
    assert_string_not_equal(draw_usual(&d), before);
    press(&d, "Escape");
    assert_string_equal(draw_usual(&d), before);
    free(before);
}

static void every_key_of_the_contract_does_what_it_says_and_none_does_two_things(void **state)
{
    (void)state;
    static const struct { const char *key; enum pl_action action;
    } contract[] = {
        {"Up", PL_DO_UP},          {"Down", PL_DO_DOWN},
        {"Left", PL_DO_LEFT},      {"Right", PL_DO_RIGHT},
        {"PageUp", PL_DO_PAGE_UP}, {"PageDown", PL_DO_PAGE_DOWN},
        {"Home", PL_DO_HOME},      {"End", PL_DO_END},
        {"Tab", PL_DO_NEXT_BLOCK}, {"BackTab", PL_DO_BLOCK_BEFORE},
        {"1", PL_DO_PAGE},         {"8", PL_DO_PAGE},
        {"Enter", PL_DO_ENTER},     {"Escape", PL_DO_BACK},
        {"+", PL_DO_STEP_UP},      {"-", PL_DO_STEP_DOWN},
        {"[", PL_DO_MARKER_LEFT},  {"]", PL_DO_MARKER_RIGHT},
        {"u", PL_DO_UNDO},         {"U", PL_DO_REDO},
        {"Ctrl-S", PL_DO_SAVE},    {"q", PL_DO_QUIT},
        {"?", PL_DO_HELP},
    };
    for (size_t i = 0; i < sizeof contract / sizeof *contract; i++) {
        struct pl_keys_reader reader;
        pl_keys_start(&reader, contract[i].key);
        const struct pl_doing *b = pl_keymap_find(&d.s->keys, pl_keys_next(&reader));
        if (!b || b->action != contract[i].action)
            fail_msg("%s does not do what the contract says", contract[i].key);
    }
    for (size_t i = 0; i < PL_KEYS_EACH * pl_n_doings; i++)
        for (size_t k = 0; k < i; k++) {
            int key = pl_doings[i / PL_KEYS_EACH].keys[i % PL_KEYS_EACH];
            assert_true(!key || key != pl_doings[k / PL_KEYS_EACH].keys[k % PL_KEYS_EACH]);
        }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(help_lists_every_key),
        TRIAL(help_says_what_every_key_does),
        TRIAL(help_names_every_page_where_there_is_room),
        TRIAL(help_goes_away_and_leaves_everything_as_it_was),
        TRIAL(an_action_without_a_key_has_a_dash_for_it),
        TRIAL(every_key_of_the_contract_does_what_it_says_and_none_does_two_things),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
