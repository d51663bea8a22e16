/* Rows on their way from a part into the builder's own file. */
#include "catalogues.h"
#include "documents.h"

static void the_first_row_kept_makes_the_file(void **state)
{
    (void)state;
    struct stat about;
    struct pl_catalogue *c = load();
    struct pl_document *doc = read_text("{\"cores\": [{\"name\": \"offcut\", \"kind\": \"pvc\", \"density_kgm3\": 80,"
                                        " \"e_mpa\": 90, \"g_mpa\": 30, \"shear_strength_mpa\": 1.1,"
                                        " \"compressive_strength_mpa\": 1.3, \"shelf\": 2}]}");
    struct pl_problems problems = {0};
    assert_int_equal(pl_catalogue_keep(c, doc, "/cores/0", &problems), PL_OK);
    assert_problem(&problems, PL_WARNING, "/cores/0/shelf",
                   "is not a key that this version knows; it is kept on saving", "");
    assert_file(OWN,
                "{\n  \"format\": \"plyloft-catalogue\",\n  \"version\": 1,\n  \"fabrics\": [],\n  \"resins\": [],\n"
                "  \"cores\": [\n    {\"name\": \"offcut\", \"kind\": \"pvc\", \"density_kgm3\": 80,"
                " \"e_mpa\": 90, \"g_mpa\": 30, \"shear_strength_mpa\": 1.1,"
                " \"compressive_strength_mpa\": 1.3, \"shelf\": 2}\n  ],\n  \"metals\": []\n}\n");
    assert_int_equal(stat(in_folder("data/plyloft"), &about), 0);
    assert_int_equal(about.st_mode & 07777, 0700);
    assert_string_equal(pl_catalogue_name(c, PL_CATALOGUE_CORES, 0), "offcut"); /* at once */
    assert_true(pl_catalogue_is_own(c, PL_CATALOGUE_CORES, 0));
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_kept_row_replaces_that_of_its_name_and_the_rest_stays_byte_for_byte(void **state)
{
    (void)state;
    /* spacing, unknown keys and even a wrong row: none of our business */
    static const char start[] = "{ \"format\":\"plyloft-catalogue\",\r\n\t\"version\" : 1.0, \"shop\": {\"a\":1 },\r\n"
                                "\t\"fabrics\" : [ {\"name\":\"wrong\"} ,\r\n\t\t",
                      end[] = " ,\r\n\t\t{\"name\":\"third\"}\r\n\t] }  \r\n";
    char text[8000];
    struct pl_problems problems = {0};
    struct pl_catalogue *c;
    struct pl_document *doc = sample();
    make_own_folder();
    snprintf(text, sizeof text, "%s%s%s", start, "{\"name\": \"glass uni 310\"}", end);
    put(OWN, text);
    assert_int_equal(pl_catalogue_load(&c, &problems), PL_BAD_INPUT);
    pl_problems_clear(&problems);
    keep(c, doc, "/fabrics/1");
    char *row = pl_document_copy(doc, "/fabrics/1");
    snprintf(text, sizeof text, "%s%s%s", start, row, end);
    assert_file(OWN, text);
    assert_string_equal(pl_catalogue_name(c, FABRICS, 0), "glass uni 310");
    assert_true(pl_catalogue_is_own(c, FABRICS, 0));
    assert_close(pl_catalogue_number(c, FABRICS, 0, "e1_gpa"), 31, 0);
    keep(c, doc, "/fabrics/1"); /* the same again */
    assert_file(OWN, text);
    keep(c, doc, "/fabrics/0"); /* behind the last one */
    char *other = pl_document_copy(doc, "/fabrics/0");
    snprintf(text + strlen(start) + strlen(row), sizeof text - strlen(start) - strlen(row),
             " ,\r\n\t\t{\"name\":\"third\"} ,\r\n\t\t%s\r\n\t] }  \r\n", other);
    assert_file(OWN, text);
    keep(c, doc, "/resins/0"); /* a list that was not there */
    assert_string_equal(pl_catalogue_name(c, PL_CATALOGUE_RESINS, 0), "slow laminating epoxy");
    char *now = read_whole_file(in_folder(OWN), NULL);
    assert_memory_equal(now, text, strlen(text) - strlen("\r\n\t] }  \r\n"));
    free(now);
    free(other);
    free(row);
    pl_problems_free(&problems);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_kept_row_comes_back_into_a_part_as_it_was(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample(), *other = read_text("{\"fabrics\": []}");
    keep(c, doc, "/fabrics/1");
    assert_int_equal(copy(c, other, FABRICS, "glass uni 310"), 0);
    char *row = pl_document_copy(doc, "/fabrics/1"), *came = pl_document_copy(other, "/fabrics/0");
    assert_string_equal(came, row);
    assert_int_equal(copy(c, doc, FABRICS, "glass uni 310"), 1); /* the sample has it */
    free(came);
    free(row);
    pl_document_free(other);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_wrong_row_is_not_kept_and_told_at_its_place_in_the_part(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    set(doc, "/fabrics/1/e2_gpa", "-8");
    assert_int_equal(pl_catalogue_keep(c, doc, "/fabrics/1", &problems), PL_BAD_INPUT);
    assert_problem(&problems, PL_ERROR, "/fabrics/1/e2_gpa", "must be above 0, at most 1000", "-8");
    assert_false(is_there(OWN));
    static const char *const others[] = {"/fabrics", "/fabrics/7", "/fabrics/1/name", "/elements/0", "", "/fabrics1"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        assert_int_equal(pl_catalogue_keep(c, doc, others[i], &problems), PL_BAD_INPUT);
        assert_problem(&problems, PL_ERROR, others[i], "is no cloth, resin or core", "");
    }
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_file_that_is_no_catalogue_is_told_and_left_alone(void **state)
{
    (void)state;
    static const struct {
        const char *text, *rule;
    } table[] = {
        {"{\"format\": ", "the row cannot be kept here: line 1, column 12: the file ends inside an object"},
        {"{\"format\": \"plyloft-part\", \"version\": 1}",
         "the row cannot be kept here: /format: must be \"plyloft-catalogue\" (found \"plyloft-part\")"},
        {"{\"format\": \"plyloft-catalogue\", \"version\": 1, \"fabrics\": 3}",
         "the row cannot be kept here: /fabrics: must be a list"},
    };
    struct pl_problems problems = {0};
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    make_own_folder();
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        put(OWN, table[i].text);
        assert_int_equal(pl_catalogue_keep(c, doc, "/fabrics/0", &problems), PL_BAD_INPUT);
        assert_problem(&problems, PL_ERROR, in_folder(OWN), table[i].rule, "");
        assert_file(OWN, table[i].text);
    }
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_place_that_cannot_be_written_is_told(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    put("data", "a file");
    assert_int_equal(pl_catalogue_keep(c, doc, "/fabrics/0", &problems), PL_CANNOT_WRITE);
    assert_int_equal(problems.count, 1);
    assert_non_null(strstr(problems.list[0].rule, "the row cannot be kept here: "));
    assert_non_null(strstr(problems.list[0].rule, "/data: cannot be made: Not a directory"));
    pl_problems_free(&problems);
    pl_catalogue_free(c);
    unsetenv("HOME");
    unsetenv("XDG_DATA_HOME");
    assert_int_equal(pl_catalogue_load(&c, &problems), PL_CANNOT_READ);
    pl_problems_clear(&problems);
    assert_int_equal(pl_catalogue_keep(c, doc, "/fabrics/0", &problems), PL_CANNOT_WRITE);
    assert_problem(&problems, PL_ERROR, "",
                   "nothing can be kept: neither XDG_DATA_HOME nor HOME is set to an absolute path", "");
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void without_memory_part_and_file_stay_as_they_were(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_catalogue *c = NULL;
    struct pl_document *doc = sample(), *first = sample();
    size_t before = pl_document_steps(doc), n;
    c = load();
    keep(c, first, "/fabrics/1"); /* a file to read */
    pl_catalogue_free(c);
    pl_document_free(first);
    c = NULL;
    for (n = 1; !c; n++) {
        fail_allocation(n);
        enum pl_status status = pl_catalogue_load(&c, &problems);
        assert_int_equal(problems.errors, status != PL_OK);
        assert_true(status == PL_OK ? allocations < n : status == PL_NO_MEMORY || !pl_catalogue_file(c));
        pl_problems_clear(&problems);
        if (status != PL_OK) {
            pl_catalogue_free(c);
            c = NULL;
        }
    }
    enum pl_status status = PL_NO_MEMORY;
    for (n = 1; status != PL_OK; n++) {
        assert_int_equal(pl_document_steps(doc), before);
        fail_allocation(n);
        status = pl_catalogue_copy(c, doc, FABRICS, 4, NULL, &problems);
        assert_int_equal(problems.errors, status != PL_OK);
        pl_problems_clear(&problems);
    }
    assert_true(n > 10);
    status = PL_NO_MEMORY;
    for (n = 1; status != PL_OK; n++) {
        fail_allocation(n);
        status = pl_catalogue_keep(c, doc, "/fabrics/0", &problems);
        assert_int_equal(problems.errors, status != PL_OK);
        pl_problems_clear(&problems);
    }
    fail_allocation(0);
    assert_string_equal(pl_catalogue_name(c, FABRICS, 1), "glass plain 163");
    assert_true(pl_catalogue_is_own(c, FABRICS, 1));
    pl_problems_free(&problems);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_HOME(the_first_row_kept_makes_the_file),
        IN_A_HOME(a_kept_row_replaces_that_of_its_name_and_the_rest_stays_byte_for_byte),
        IN_A_HOME(a_kept_row_comes_back_into_a_part_as_it_was),
        IN_A_HOME(a_wrong_row_is_not_kept_and_told_at_its_place_in_the_part),
        IN_A_HOME(a_file_that_is_no_catalogue_is_told_and_left_alone),
        IN_A_HOME(a_place_that_cannot_be_written_is_told),
        IN_A_HOME(without_memory_part_and_file_stay_as_they_were),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
