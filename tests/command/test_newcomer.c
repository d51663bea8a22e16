/* A newcomer's hour with the under-built wing, as keys through `plyloft screen`, on a small and a larger terminal: every
 * key that is pressed stands on the screen first - at its foot, in its message, or in the help that ? opens - and every
 * step is answered by the verdict it should have. */
#include "program.h"

enum { SHOWN_MOST = 4 };

/* keys: what is pressed.  told: what the screen, or its help, has said of them before. */
static const struct step {
    const char *keys, *told, *shown[SHOWN_MOST];
} steps[] = {
    {"", NULL, {"WING FALLS SHORT 0.92", "kerb on tip: wrinkling, top, 240 right", "TOO FAR scrutineer 11.0 of 10 mm", "not checked: brackets"}},
    /* What governs, and where. */
    {"?", "? help", {"lay-up, from core", "Keys that matter here", "WING FALLS SHORT 0.92"}},
    {"Escape", "Escape back", {"first skin", "WING FALLS SHORT 0.92"}},
    {"4", "4 Strength", {"kerb on tip            0.92 wrinkling, top, 240 right", "WING FALLS SHORT 0.92"}},
    {"g", "g weakest", {"y 240 right", "0.92 wrinkling"}},
    {"2", "2 Cloth", {"y 240 right", "! here 0.92 wrinkling, top"}},
    /* Plies on and off. */
    {"Down Down", "Down", {"WING FALLS SHORT 0.92"}},
    {"+", "- + step", {"reserve 1.03 but TOO FAR scrutineer 10.2 of 10 mm", "was 0.92"}},
    {"+", "- + step", {"WING HOLDS 1.04", "pit jack: wrinkling, top, 170 right", "scrutineer 9.7 of 10 mm"}},
    {"-", "- + step", {"reserve 1.03 but TOO FAR scrutineer 10.2 of 10 mm"}},
    {"u", "u undo", {"WING FALLS SHORT 0.92", "undone: top cap: Plies"}},
    {"+ +", "- + step", {"WING HOLDS 1.04"}},
    /* A drop-off moved. */
    {"d PageUp PageUp", "d end", {"top cap, outer end: 550 mm", "WING HOLDS 1.04", "scrutineer 9.8 of 10 mm"}},
    {"Escape", "Escape put back", {"put back where it was", "scrutineer 9.7 of 10 mm"}},
    {"d Tab Tab", "d end", {"top cap, drop of each ply: 70 mm"}},
    {"Left", "Left Right 10 mm", {"top cap, drop of each ply: 60 mm", "WING HOLDS 1.04"}},
    {"Enter", "Enter done", {"WING HOLDS 1.04", "60"}},
    /* Three, four and five plies side by side. */
    {"-", "- + step", {"reserve 1.03 but TOO FAR scrutineer 10.2 of 10 mm"}},
    {"k", "k keep", {"kept as: A, top cap: Plies 4", "7 Trials compares"}},
    {"+ k", "k keep", {"WING HOLDS 1.04", "kept as: B, top cap: Plies 3"}},
    {"+ k", "k keep", {"WING HOLDS 1.05", "kept as: C, top cap: Plies 4"}},
    {"7", "7 Trials", {"WING HOLDS 1.05", "lowest reserve", "SHORT*", "what differs in the part"}},
    {"Right Right", "Left Right column", {"WING HOLDS 1.05"}},
    {"Enter", "Enter bring it back", {"brought back B: top cap: Plies 3", "WING HOLDS 1.04", "scrutineer 9.7 of 10 mm"}},
};

enum { STEPS = sizeof steps / sizeof *steps };

static struct run screen(const char *part, const char *size, const char *keys)
{
    const char *words[] = {"screen", part, "--size", size, "--keys", keys, NULL};
    struct run run = run_with(NULL, NULL, words);
    assert_status(&run, 0);
    return run;
}

static void add_keys(char *keys, size_t size, const char *more)
{
    size_t used = strlen(keys);
    snprintf(keys + used, size - used, " %s", more);
}

/* Whether help, opened by those keys and moved down to its end, lists the key. */
static bool in_help(const char *part, const char *size, const char *keys, const char *open, const char *told)
{
    char with_help[2400], key[16], line[80];
    bool found = false;
    snprintf(key, sizeof key, "%.*s", (int)strcspn(told, " "), told);
    snprintf(line, sizeof line, "  %-10s", key);  /* a key and its words stand in columns of their own */
    snprintf(with_help, sizeof with_help, "%s %s", keys, open);
    for (int page = 0; page < 8 && !found; page++) {
        struct run run = screen(part, size, with_help);
        found = strstr(run.out, line);
        run_free(&run);
        add_keys(with_help, sizeof with_help, "PageDown");
    }
    return found;
}

/* On the screen that those keys lead to, in the page's help, or on the sheet of all keys. */
static void assert_told(const char *part, const char *size, const char *keys, const char *told)
{
    struct run run = screen(part, size, keys);
    bool found = strstr(run.out, told);
    run_free(&run);
    if (!found && !in_help(part, size, keys, "?", told) && !in_help(part, size, keys, "? ?", told))
        fail_msg("after \"%s\" nothing on the %s screen says \"%s\"", keys, size, told);
}

static void walk(const char *size)
{
    char keys[2048] = "";
    char *part = in_scratch("weak.json"), *mended = in_scratch("mended.json"), *save;
    size_t length, after;
    char *bytes = read_whole_file(WEAK_PART, &length), *left;
    write_whole_file(part, bytes, length);
    for (int i = 0; i < STEPS; i++) {
        if (steps[i].told)
            assert_told(part, size, keys, steps[i].told);
        add_keys(keys, sizeof keys, steps[i].keys);
        struct run run = screen(part, size, keys);
        for (int k = 0; k < SHOWN_MOST && steps[i].shown[k]; k++)
            if (!strstr(run.out, steps[i].shown[k]))
                fail_msg("after \"%s\" the %s screen lacks \"%s\":\n%s", keys, size, steps[i].shown[k], run.out);
        run_free(&run);
    }
    /* Saved under a new name, and left: the file it began with is as it was, the new one holds. */
    assert_told(part, size, keys, "w         save under another name");
    assert_true(asprintf(&save, "w text:%s Enter", mended) > 0);
    add_keys(keys, sizeof keys, save);
    struct run run = screen(part, size, keys);
    assert_has(run.out, "saved");
    assert_has(run.out, "WING HOLDS 1.04");
    run_free(&run);
    remove(mended);
    add_keys(keys, sizeof keys, "q");
    run = screen(part, size, keys);
    assert_string_equal(run.out, "");  /* nothing is asked: nothing is unsaved */
    run_free(&run);
    left = read_whole_file(part, &after);
    assert_int_equal(after, length);
    assert_memory_equal(left, bytes, length);
    const char *check[] = {"check", mended, NULL};
    run = run_with(NULL, NULL, check);
    assert_status(&run, 0);
    assert_has(run.out, "WING HOLDS");
    run_free(&run);
    free(left);
    free(bytes);
    free(save);
    free(mended);
    free(part);
}

static void a_newcomers_hour_is_answered_at_every_step_at_80_by_24(void **state)
{
    (void)state;
    walk("80x24");
}

static void a_newcomers_hour_is_answered_at_every_step_at_132_by_43(void **state)
{
    (void)state;
#if defined(__SANITIZE_ADDRESS__)
    print_message("walked in the plain build alone\n");
    skip();
#endif
    walk("132x43");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_newcomers_hour_is_answered_at_every_step_at_80_by_24, scratch_make, scratch_remove),
        cmocka_unit_test_setup_teardown(a_newcomers_hour_is_answered_at_every_step_at_132_by_43, scratch_make, scratch_remove),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
