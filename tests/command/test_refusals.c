/* What the commands refuse: files that cannot be read, files that are no part, parts that break a rule.  Nothing
 * comes on standard output, the reason stands on standard error, and nothing is written. */
#include "program.h"

#include "plyloft/document.h"

#include <sys/stat.h>

/* ---- the common law of a refusal ---- */

static const char *const commands[][10] = {
    {"check", NULL},
    {"check", NULL, "--json"},
    {"section", NULL, "--at", "0", "--json"},
    {"laminate", NULL, "--at", "0", "--side", "top", "--chord", "0.3"},
    {"profile", NULL, "--profile", "main", "--json"},
    {NULL},
};

enum { COMMANDS = sizeof commands / sizeof *commands };

/* Puts the path in the place that a command leaves for it. */
static struct run run_on(int command, const char *path)
{
    const char *words[10] = {NULL};
    for (int i = 0; i < 9; i++)
        words[i] = commands[command][i];
    words[command == COMMANDS - 1 ? 0 : 1] = path;
    return run_with(NULL, NULL, words);
}

static void assert_refused(const struct run *run, int status, const char *path, const char *words)
{
    assert_status(run, status);
    assert_string_equal(run->out, "");
    assert_int_equal(strncmp(run->err, path, strlen(path)), 0);
    assert_has(run->err, words);
    assert_int_equal(run->err[strlen(run->err) - 1], '\n');
    assert_true(run->seconds < 20);  /* seconds even where everything is checked twice over */
}

/* Every command refuses the path in the same words. */
static void assert_all_refuse(int status, const char *path, const char *words)
{
    for (int i = 0; i < COMMANDS; i++) {
        struct run run = run_on(i, path);
        assert_refused(&run, status, path, words);
        run_free(&run);
    }
}

/* Writes bytes as a part, lets every command refuse it, and sees that it is as before and alone in its folder. */
static void assert_bytes_refused(const char *bytes, size_t length, const char *words)
{
    char *path = in_scratch("part.json");
    size_t after_length;
    write_whole_file(path, bytes, length);
    assert_all_refuse(3, path, words);
    struct run run = RUN("screen", path, "--keys", "+ Ctrl-S");
    assert_refused(&run, 3, path, words);
    run_free(&run);
    char *after = read_whole_file(path, &after_length);
    assert_int_equal(after_length, length);
    assert_memory_equal(after, bytes, length);
    assert_int_equal(count_in_folder(scratch), 1);
    free(after);
    free(path);
}

/* The sample with one piece of its text replaced; the reason names the line it stands on. */
static void assert_text_refused(const char *piece, const char *with)
{
    char *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL, *at = strstr(text, piece), place[32];
    int line = 1;
    if (!at)
        fail_msg("the sample has no %s", piece);
    for (const char *c = text; c < at; c++)
        line += *c == '\n';
    snprintf(place, sizeof place, ": line %d, column ", line);
    assert_true(asprintf(&changed, "%.*s%s%s", (int)(at - text), text, with, at + strlen(piece)) > 0);
    assert_bytes_refused(changed, strlen(changed), place);
    free(changed);
    free(text);
}

/* ---- what is no readable file ---- */

static void what_is_not_there_is_4(void **state)
{
    (void)state;
    char *path = in_scratch("nowhere.json");
    assert_all_refuse(4, path, "cannot be opened");
    struct run run = RUN("screen", path);
    assert_refused(&run, 4, path, "cannot be opened");
    run_free(&run);
    free(path);
    assert_int_equal(count_in_folder(scratch), 0);
}

static void a_folder_is_4(void **state)
{
    (void)state;
    assert_all_refuse(4, scratch, "is a directory");
}

static void a_fifo_is_4_at_once(void **state)
{
    (void)state;
    char *path = in_scratch("fifo");
    assert_int_equal(mkfifo(path, 0600), 0);
    assert_all_refuse(4, path, "is a fifo");
    free(path);
}

static void an_endless_device_is_4_at_once(void **state)
{
    (void)state;
    assert_all_refuse(4, "/dev/zero", "is a device");
    struct run run = RUN_ON("/dev/zero", "check", "-");
    assert_refused(&run, 4, "-", "is larger than 16 MB");
    run_free(&run);
}

static void a_file_past_16_mb_is_4(void **state)
{
    (void)state;
    char *path = in_scratch("large.json");
    FILE *f = fopen(path, "wb");
    assert_non_null(f);
    assert_int_equal(fseek(f, PL_DOCUMENT_MOST_BYTES, SEEK_SET), 0);
    assert_int_equal(fputc(' ', f), ' ');
    assert_int_equal(fclose(f), 0);
    assert_all_refuse(4, path, "is larger than 16 MB");
    free(path);
}

static void an_unnamed_file_is_4(void **state)
{
    (void)state;
    struct run run = RUN("check", "");
    assert_refused(&run, 4, "", "cannot be opened");
    run_free(&run);
}

/* ---- what is no JSON ---- */

static void an_empty_file_is_3(void **state)
{
    (void)state;
    assert_bytes_refused("", 0, "line 1, column 1");
    assert_bytes_refused("\n \n", 3, "the file is empty");
    struct run run = RUN("check", "-");
    assert_refused(&run, 3, "-", "line 1, column 1");
    run_free(&run);
}

static void a_file_cut_off_is_3(void **state)
{
    (void)state;
    char *text = read_whole_file(SAMPLE_PART, NULL);
    size_t length = strlen(text);
    assert_bytes_refused(text, length / 2, "line ");
    assert_bytes_refused(text, strlen(text) - 3, "line ");
    assert_bytes_refused(text, 1, "line 1, column 2");
    free(text);
}

static void a_mountain_of_brackets_is_3_at_once(void **state)
{
    (void)state;
    size_t length = 5 * 1000 * 1000;
    char *bytes = malloc(length);
    assert_non_null(bytes);
    memset(bytes, '[', length);
    assert_bytes_refused(bytes, length, "line 1, column 65");
    free(bytes);
}

static void what_json_has_not_is_3_with_line_and_column(void **state)
{
    (void)state;
    assert_text_refused("\"chord_mm\": 230", "\"chord_mm\": NaN");
    assert_text_refused("\"chord_mm\": 230", "\"chord_mm\": 1e400");
    assert_text_refused("\"chord_mm\": 230", "\"chord_mm\": 0x1e");
    assert_text_refused("\"chord_mm\": 230", "\"chord_mm\": 230,");
    assert_text_refused("\"chord_mm\": 230", "\"chord_mm\": 230, \"chord_mm\": 230");
    assert_text_refused("\"chord_mm\": 230", "\"chord_mm\": 230, \"chord\\u005fmm\": 230");
    assert_text_refused("\"revision\": \"A\"", "\"revision\": \"\xff\"");
    assert_text_refused("\"revision\": \"A\"", "\"revision\": \"\xc3\"");
    assert_text_refused("\"revision\": \"A\"", "\"revision\": \"\x1b[31m\"");
}

/* ---- what is no part ---- */

/* The place, the rule and the value found, in one line of their own. */
static void assert_part_refused(const char *pointer, const char *value, const char *place, const char *rule,
                                const char *found)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    size_t length;
    char *text = read_whole_file(SAMPLE_PART, &length), *path = in_scratch("part.json"), *start = NULL;
    assert_int_equal(pl_document_read(&doc, text, length, &problems), PL_OK);
    assert_int_equal(value ? pl_edit_set(doc, pointer, value, &problems) : pl_edit_remove(doc, pointer, &problems),
                     PL_OK);
    const char *bytes = pl_document_bytes(doc, &length);
    write_whole_file(path, bytes, length);
    assert_true(asprintf(&start, "%s: %s: ", path, place) > 0);
    for (int i = 0; i < COMMANDS; i++) {
        struct run run = run_on(i, path);
        assert_refused(&run, 3, path, start);
        char *line = strstr(run.err, start);
        *strchr(line, '\n') = '\0';
        assert_has(line, rule);
        assert_has(line, found);
        run_free(&run);
    }
    char *after = read_whole_file(path, NULL);
    assert_string_equal(after, bytes);
    assert_int_equal(count_in_folder(scratch), 1);
    pl_document_free(doc);
    free(after);
    free(start);
    free(path);
    free(text);
}

static void a_part_that_breaks_a_rule_is_3_with_place_rule_and_value(void **state)
{
    (void)state;
    static const struct { const char *pointer, *value, *place, *rule, *found;
    } wrong[] = {
        {"/elements/0/stations/1/chord_mm", "-20", "/elements/0/stations/1/chord_mm", "must be above 0", "(found -20)"},
        {"/elements/0/layup/4/name", "\"first skin\"", "/elements/0/layup/4/name", "unique", "(found \"first skin\")"},
        {"/elements/0/stations/1/profile", "\"tip\"", "/elements/0/stations/1/profile", "names no profile",
         "(found \"tip\")"},
        {"/elements/0/stations/1/profile", NULL, "/elements/0/stations/1/profile", "is missing", "missing"},
        {"/profiles", "[]", "/profiles", "must have 1 to", "it has 0"},
        {"/elements/0/mounts/1/y_mm", "650", "/elements/0/mounts/1/y_mm", "past the tip", "(found 650)"},
        {"/resins/0/kind", "\"polyester\"", "/elements/0/resin", "polystyrene", "(found \"slow laminating epoxy\")"},
        {"/resins/0/kind", "\"glue\"", "/resins/0/kind", "must be one of epoxy", "(found \"glue\")"},
        {"/load_cases/1/pads/0/y_mm", "-600", "/load_cases/1/pads/0/y_mm", "past the tip", "(found -600)"},
        {"/allowables/service_c", "80", "/allowables/service_c", "must", "(found 80)"},
        {"/version", "2", "/version", "must", "(found 2)"},
        {"/format", "\"other\"", "/format", "plyloft-part", "(found \"other\")"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_part_refused(wrong[i].pointer, wrong[i].value, wrong[i].place, wrong[i].rule, wrong[i].found);
}

static void digits_of_no_naca_profile_are_3(void **state)
{
    (void)state;
    assert_part_refused("/profiles/0/naca", "\"9\"", "/profiles/0/naca", "four- or five-digit", "(found 9)");
}

static void all_that_is_wrong_stands_on_lines_of_its_own(void **state)
{
    (void)state;
    char *path = in_scratch("empty.json");
    write_whole_file(path, "{\"name\": 5, \"profiles\": {}}", 27);
    struct run run = RUN("check", path);
    assert_refused(&run, 3, path, "/name: must be a text (found 5)");
    assert_has(run.err, "/profiles: must be a list");
    assert_has(run.err, "/format: is missing");
    assert_has(run.err, "/allowables: is missing");
    size_t length = strlen(path);
    for (char *line = run.err; *line; line = strchr(line, '\n') + 1)
        assert_int_equal(strncmp(line, path, length), 0);
    run_free(&run);
    free(path);
}

static void values_from_a_file_cannot_send_control_characters(void **state)
{
    (void)state;
    char *path = in_scratch("part.json");
    const char *text = "{\"name\": 5, \"a\\u001b[31m\": 1, \"format\": \"\\u009b2J\\u202e\"}";
    write_whole_file(path, text, strlen(text));
    struct run run = RUN("check", path);
    assert_status(&run, 3);
    assert_null(strchr(run.err, 0x1b));
    assert_has_not(run.err, "\xc2\x9b");
    assert_has_not(run.err, "\u202e");
    run_free(&run);
    run = RUN("check", SAMPLE_PART, "--case", "\x1b[31mred");
    assert_status(&run, 3);
    assert_null(strchr(run.err, 0x1b));
    run_free(&run);
    free(path);
}

/* ---- what the part does not have ---- */

static void a_name_or_place_that_the_part_does_not_have_is_3(void **state)
{
    (void)state;
    static const struct { const char *words[10], *said;
    } asked[] = {
        {{"check", SAMPLE_PART, "--case", "hail"}, "/load_cases: has no load case of that name (found hail)"},
        {{"check", SAMPLE_PART, "--case", ""}, "/load_cases"},
        {{"section", SAMPLE_PART, "--at", "0", "--element", "flap"},
         "/elements: has no element of that name (found flap)"},
        {{"section", SAMPLE_PART, "--at", "640.1"},
         "/elements/0: the span ends at 640 mm from the centreline (found 640.1)"},
        {{"section", SAMPLE_PART, "--at", "-1e9", "--json"}, "the span ends at 640 mm"},
        {{"laminate", SAMPLE_PART, "--at", "700", "--side", "top", "--chord", "0.3"}, "the span ends at 640 mm"},
        {{"laminate", SAMPLE_PART, "--at", "0", "--side", "top", "--chord", "1.01"},
         "--chord: must be from 0 to 1 (found 1.01)"},
        {{"laminate", SAMPLE_PART, "--at", "0", "--side", "top", "--chord", "0.3", "--element=x"}, "has no element"},
        {{"profile", SAMPLE_PART, "--profile", "tail"}, "/profiles: has no profile of that name (found tail)"},
    };
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        struct run run = run_with(NULL, NULL, asked[i].words);
        assert_refused(&run, 3, SAMPLE_PART, asked[i].said);
        run_free(&run);
    }
}

static void the_tips_themselves_are_places_of_the_part(void **state)
{
    (void)state;
    struct run run = RUN("section", SAMPLE_PART, "--at", "640");
    assert_status(&run, 0);
    run_free(&run);
    run = RUN("laminate", SAMPLE_PART, "--at", "-640", "--side", "bottom", "--chord", "1");
    assert_status(&run, 0);
    run_free(&run);
}

/* ---- no answer ---- */

static void a_wing_without_a_finite_answer_is_5(void **state)
{
    (void)state;
    char *path = in_scratch("part.json"), *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL;
    char *at = strstr(text, "\"chord_mm\": 230");
    assert_true(
        asprintf(&changed, "%.*s\"chord_mm\": 1e-200%s", (int)(at - text), text, at + strlen("\"chord_mm\": 230")) > 0);
    write_whole_file(path, changed, strlen(changed));
    static const char *const arguments[][4] = {{"check"}, {"check", "--json"}};
    for (int i = 0; i < 2; i++) {
        struct run run = run_with(NULL, NULL, (const char *const[]){arguments[i][0], path, arguments[i][1], NULL});
        assert_refused(&run, 5, path, "answer");
        run_free(&run);
    }
    free(changed);
    free(text);
    free(path);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
    const struct CMUnitTest tests[] = {
        TRIAL(what_is_not_there_is_4),
        TRIAL(a_folder_is_4),
        TRIAL(a_fifo_is_4_at_once),
        TRIAL(an_endless_device_is_4_at_once),
        TRIAL(a_file_past_16_mb_is_4),
        TRIAL(an_unnamed_file_is_4),
        TRIAL(an_empty_file_is_3),
        TRIAL(a_file_cut_off_is_3),
        TRIAL(a_mountain_of_brackets_is_3_at_once),
        TRIAL(what_json_has_not_is_3_with_line_and_column),
        TRIAL(a_part_that_breaks_a_rule_is_3_with_place_rule_and_value),
        TRIAL(digits_of_no_naca_profile_are_3),
        TRIAL(all_that_is_wrong_stands_on_lines_of_its_own),
        TRIAL(values_from_a_file_cannot_send_control_characters),
        TRIAL(a_name_or_place_that_the_part_does_not_have_is_3),
        TRIAL(the_tips_themselves_are_places_of_the_part),
        TRIAL(a_wing_without_a_finite_answer_is_5),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
