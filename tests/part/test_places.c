/* Where a person's files stand, and that their folders are made for that person alone. */
#include "keeping.h"

#include "plyloft/places.h"

static void assert_place(enum pl_place place, const char *name, const char *want)
{
    struct pl_problems problems = {0};
    char *path = pl_place_path(place, name, &problems);
    assert_non_null(path);
    assert_string_equal(path, want);
    assert_int_equal(problems.count, 0);
    free(path);
}

static void each_kind_of_file_has_the_folder_that_its_variable_names(void **state)
{
    (void)state;
    assert_place(PL_PLACE_STATE, NULL, in_folder("state/plyloft"));
    assert_place(PL_PLACE_DATA, "catalogue.json", in_folder("data/plyloft/catalogue.json"));
    assert_place(PL_PLACE_CONFIG, "keys", in_folder("config/plyloft/keys"));
}

static void without_the_variables_the_folders_lie_in_home(void **state)
{
    (void)state;
    unsetenv("XDG_STATE_HOME");
    setenv("XDG_DATA_HOME", "", 1);
    unsetenv("XDG_CONFIG_HOME");
    assert_place(PL_PLACE_STATE, "recent.json", in_folder("home/.local/state/plyloft/recent.json"));
    assert_place(PL_PLACE_DATA, NULL, in_folder("home/.local/share/plyloft"));
    assert_place(PL_PLACE_CONFIG, NULL, in_folder("home/.config/plyloft"));
}

static void a_variable_that_is_relative_is_ignored(void **state)
{
    (void)state;
    setenv("XDG_STATE_HOME", "state", 1);
    assert_place(PL_PLACE_STATE, NULL, in_folder("home/.local/state/plyloft"));
}

static void without_home_the_sentence_says_what_to_set(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    static const char *const homes[] = {NULL, "", "home"};
    for (size_t i = 0; i < 3; i++) {
        unsetenv("XDG_DATA_HOME");
        if (homes[i])
            setenv("HOME", homes[i], 1);
        else
            unsetenv("HOME");
        assert_null(pl_place_path(PL_PLACE_DATA, "catalogue.json", &problems));
        assert_problem(&problems, PL_ERROR, "",
                       "nothing can be kept: neither XDG_DATA_HOME nor HOME is set to an absolute path", "");
        assert_place(PL_PLACE_STATE, NULL, in_folder("state/plyloft"));
    }
}

static mode_t mode_of(const char *name)
{
    struct stat about;
    assert_int_equal(stat(in_folder(name), &about), 0);
    return about.st_mode & 07777;
}

static void missing_folders_are_made_for_their_owner_alone(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    mode_t old = umask(0);
    assert_int_equal(mkdir(in_folder("state"), 0755), 0);
    for (int times = 0; times < 2; times++)
        assert_int_equal(pl_place_make_folders(in_folder("state/plyloft//recovery/x.json"), &problems), PL_OK);
    umask(old);
    assert_int_equal(mode_of("state"), 0755); /* it was there */
    assert_int_equal(mode_of("state/plyloft"), 0700);
    assert_int_equal(mode_of("state/plyloft/recovery"), 0700);
    assert_false(is_there("state/plyloft/recovery/x.json"));
    assert_int_equal(problems.count, 0);
}

static void a_folder_that_cannot_be_made_is_named(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    put("state", "a file");
    assert_int_equal(pl_place_make_folders(in_folder("state/plyloft/x.json"), &problems), PL_CANNOT_WRITE);
    assert_problem(&problems, PL_ERROR, in_folder("state"), "cannot be made: Not a directory", "");
    assert_int_equal(symlink("nowhere/there", in_folder("link")), 0);
    assert_int_equal(pl_place_make_folders(in_folder("link/x.json"), &problems), PL_CANNOT_WRITE);
    assert_problem(&problems, PL_ERROR, in_folder("link"), "cannot be made: Not a directory", "");
}

static void assert_absolute(const char *path, const char *want)
{
    char *absolute = pl_place_absolute(path);
    assert_string_equal(absolute, want);
    free(absolute);
}

static void a_path_is_followed_through_its_folders_and_keeps_its_name(void **state)
{
    (void)state;
    char here[4096];
    assert_int_equal(mkdir(in_folder("parts"), 0700), 0);
    assert_int_equal(symlink("parts", in_folder("work")), 0);
    put("parts/wing-3.json", "{}");
    assert_int_equal(symlink("wing-3.json", in_folder("parts/newest.json")), 0);
    assert_absolute(in_folder("work/../work/newest.json"), in_folder("parts/newest.json"));
    assert_absolute(in_folder("parts/not-yet.json"), in_folder("parts/not-yet.json"));
    assert_absolute(in_folder("nowhere/x.json"), in_folder("nowhere/x.json"));
    assert_absolute("/x.json", "/x.json");
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(in_folder("work")), 0);
    assert_absolute("newest.json", in_folder("parts/newest.json"));
    assert_absolute("./wing-3.json", in_folder("parts/wing-3.json"));
    assert_absolute("nowhere/x.json", in_folder("parts/nowhere/x.json"));
    assert_absolute("..", in_folder("parts/.."));
    assert_int_equal(chdir(here), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_HOME(each_kind_of_file_has_the_folder_that_its_variable_names),
        IN_A_HOME(without_the_variables_the_folders_lie_in_home),
        IN_A_HOME(a_variable_that_is_relative_is_ignored),
        IN_A_HOME(without_home_the_sentence_says_what_to_set),
        IN_A_HOME(missing_folders_are_made_for_their_owner_alone),
        IN_A_HOME(a_folder_that_cannot_be_made_is_named),
        IN_A_HOME(a_path_is_followed_through_its_folders_and_keeps_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
