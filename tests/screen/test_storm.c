/* Thousands of random keys on the bench, with edits, saves, questions and resizes: it never falls over, the document
 * is valid JSON at any time, and what was saved is what stands in the file.  Seeded, so that a failure comes again. */
#include "support.h"

#include "screen/app.h"
#include "screen/facts.h"
#include "screen/view.h"

#include "plyloft/keys.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static uint64_t state_of_dice;

static unsigned dice(unsigned sides)
{
    state_of_dice = state_of_dice * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(state_of_dice >> 33) % sides;
}

static const int often[] = {
    PL_KEY_UP, PL_KEY_DOWN, PL_KEY_DOWN, PL_KEY_LEFT, PL_KEY_RIGHT, PL_KEY_RIGHT, PL_KEY_TAB, PL_KEY_TAB, PL_KEY_BACKTAB,
    PL_KEY_ENTER, PL_KEY_ENTER, PL_KEY_ESCAPE, PL_KEY_ESCAPE, '+', '-', '[', ']', 'u', 'u', 'U', '1', '2', '3', '4', '5',
    '0', '1', '2', '5', '.', ',', 'a', 'c', 'x', 'm', 't', 'e', '(', ')', PL_KEY_BACKSPACE, PL_KEY_DELETE, PL_KEY_HOME,
    PL_KEY_END, PL_KEY_PAGE_UP, PL_KEY_PAGE_DOWN, '?', 'w', 'p', 'q', PL_KEY_CTRL('S'), 'd', 's', 'r', 'y',
};

static int any_key(void)
{
    if (dice(20))
        return often[dice(sizeof often / sizeof *often)];
    static const int seldom[] = {0xe9, 0x4e2d, 0x301, 0x1f600, '"', '\\', '/', '~', ' ', 0x202e, 7, 27, PL_KEY_CTRL_Z};
    return seldom[dice(sizeof seldom / sizeof *seldom)];
}

static void draw(struct pl_app *app, struct pl_frame *f)
{
    static const int sizes[][2] = {{20, 40}, {24, 80}, {43, 132}, {60, 200}, {5, 10}, {1, 1}, {100, 300}};
    const int *size = sizes[dice(sizeof sizes / sizeof *sizes)];
    f->plain = dice(2);
    assert_true(pl_frame_resize(f, size[0], size[1]));
    pl_app_view(app, f);
    for (int i = 0; i < f->rows * f->columns; i++)
        assert_true(f->cells[i].width <= 2 && f->cells[i].role < PL_ROLES);
}

/* Line mode has words for every state, all of them safe to print. */
static void say(const struct pl_app *app)
{
    struct pl_facts f = {0};
    if (app->session)
        pl_facts_of_session(&f, app->session);
    else
        pl_facts_of_start(&f, &app->start);
    assert_false(f.failed);
    assert_non_null(pl_facts_words(&f, "page", 0));
    for (size_t i = 0; i < f.count; i++)
        for (const char *c = f.list[i].words; *c; c++)
            assert_true((unsigned char)*c >= ' ' && *c != 127);
    pl_facts_free(&f);
}

static void open_again(struct pl_app *app, const char *path)
{
    struct pl_problems problems = {0};
    app->leave = false;
    if (!app->session)
        pl_start_free(&app->start);
    assert_int_equal(pl_app_open(app, path, &problems), PL_OK);
    pl_problems_free(&problems);
}

/* What is said to be saved stands in the file, byte for byte. */
static void check_saved(const struct pl_session *s)
{
    size_t length, file_length;
    const char *bytes = pl_document_bytes(s->document, &length);
    if (strncmp(s->message, "saved", 5))
        return;
    char *file = read_whole_file(s->path, &file_length);
    assert_int_equal(file_length, length);
    assert_memory_equal(file, bytes, length);
    free(file);
}

/* Undoing everything and doing it again gives the same bytes. */
static void check_undo(struct pl_session *s)
{
    struct pl_document *doc = s->document;
    size_t length, done = pl_document_steps_done(doc), now_length;
    char *before = strdup(pl_document_bytes(doc, &length));
    for (size_t i = 0; i < done; i++)
        assert_true(pl_document_undo(doc));
    for (size_t i = 0; i < done; i++)
        assert_true(pl_document_redo(doc));
    const char *now = pl_document_bytes(doc, &now_length);
    assert_int_equal(now_length, length);
    assert_memory_equal(now, before, length);
    free(before);
    pl_session_judge(s);
}

static void storm(const char *sample, uint64_t seed, int keys)
{
    struct pl_app app = {.ask = true, .samples = NULL};
    struct pl_frame f = {0};
    char *folder = make_folder(), path[4096], here[4096];
    size_t length;
    int valid = 0, asked = 0, saved = 0;
    char *bytes = read_whole_file(sample, &length);
    assert_non_null(getcwd(here, sizeof here));
    snprintf(path, sizeof path, "%s/part.json", folder);
    write_whole_file(path, bytes, length);
    assert_int_equal(chdir(folder), 0);  /* names typed by chance lead nowhere else */
    state_of_dice = seed;
    open_again(&app, path);
    for (int i = 0; i < keys; i++) {
        pl_app_key(&app, any_key());
        if (app.leave || !app.session) {
            write_whole_file(path, bytes, length);
            open_again(&app, path);
        }
        check_saved(app.session);
        valid += app.session->valid;
        asked += app.session->n_questions > 0;
        saved += !strncmp(app.session->message, "saved", 5);
        /* A part that cannot be judged any more teaches little: take the edits back now and then. */
        for (int back = !app.session->valid && !dice(12) ? 30 : 0; back > 0; back--)
            pl_app_key(&app, back == 30 ? PL_KEY_ESCAPE : 'u');
        if (app.leave || !app.session) {
            write_whole_file(path, bytes, length);
            open_again(&app, path);
        }
        if (!dice(8))
            draw(&app, &f);
        if (!dice(8))
            say(&app);
        if (!dice(50))
            pl_app_idle(&app);
        if (!dice(200))
            pl_app_keep(&app);
        if (!dice(500))
            check_undo(app.session);
    }
    pl_app_close(&app);
    pl_frame_free(&f);
    print_message("%d keys: judged after %d, a question after %d, %d saves\n", keys, valid, asked, saved);
    assert_true(valid > keys / 4 && asked > keys / 20 && saved > 5);  /* the storm reached what it is meant to */
    assert_int_equal(chdir(here), 0);
    free(bytes);
    remove_folder(folder);
}

static int keys_to_press(void)
{
    return getenv("PL_SLOW") ? 50000 : 10000;
}

static void random_keys_on_a_small_wing_break_nothing(void **state)
{
    (void)state;
    storm("samples/cantilever.json", 20261124, keys_to_press());
}

static void random_keys_on_a_wing_with_every_load_break_nothing(void **state)
{
    (void)state;
    storm("samples/front-wing.json", 7, keys_to_press());
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_keys_on_a_small_wing_break_nothing),
        cmocka_unit_test(random_keys_on_a_wing_with_every_load_break_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
