/* A single word that is neither a file nor a command: named where it is nearly a command, a part file otherwise. */
#include "program.h"

static void assert_usage(const char *words, const char *const *arguments)
{
    struct run run = run_with(NULL, NULL, arguments);
    assert_status(&run, 2);
    assert_string_equal(run.out, "");
    assert_has(run.err, words);
    run_free(&run);
}

#define USAGE(words, ...) assert_usage(words, (const char *const[]){__VA_ARGS__, NULL})

static void a_mistyped_command_is_named(void **state)
{
    (void)state;
    USAGE("plyloft: chek is neither a file nor a command; did you mean check?\n", "chek");
    USAGE("did you mean section?", "sectoin");
    USAGE("did you mean laminate?", "lamiate");
    USAGE("did you mean profile?", "profiles");
    USAGE("did you mean screen?", "screne");
}

static void what_is_like_no_command_or_looks_like_a_file_is_a_part(void **state)
{
    (void)state;
    static const char *const parts[] = {"chk.json", "./chek", "wing", "c", "", "checkered-flag-wing-of-many-words"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        struct run run = RUN(parts[i]);
        assert_status(&run, 4);
        assert_has_not(run.err, "did you mean");
        run_free(&run);
    }
}

static void a_file_named_almost_like_a_command_is_read(void **state)
{
    (void)state;
    size_t length;
    char here[4096], *part = read_whole_file(SAMPLE_PART, &length);
    char *set = getenv("PLYLOFT"), *before = set ? strdup(set) : NULL;
    char *program = realpath(set ? set : "build/plyloft", NULL);
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(scratch), 0);
    write_whole_file("chek", part, length);
    setenv("PLYLOFT", program, 1);
    struct run run = RUN("chek");
    assert_int_equal(chdir(here), 0);
    if (before)
        setenv("PLYLOFT", before, 1);
    else
        unsetenv("PLYLOFT");
    assert_status(&run, 0);
    assert_has(run.out, "lowest reserve");
    run_free(&run);
    free(before);
    free(program);
    free(part);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
    const struct CMUnitTest tests[] = {
        TRIAL(a_mistyped_command_is_named),
        TRIAL(what_is_like_no_command_or_looks_like_a_file_is_a_part),
        TRIAL(a_file_named_almost_like_a_command_is_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
