/* parts.h - parts tried by changing one thing in a good file at a time.
 *
 * A trial holds a document, the part built from it and what was said.  What a test asks of the problems is
 * printed with all of them when it is not there.
 */
#ifndef PLYLOFT_TESTS_PARTS_H
#define PLYLOFT_TESTS_PARTS_H

#include "documents.h"

#include "plyloft/check.h"
#include "plyloft/field.h"

#include <stdio.h>

#define SAMPLE_PART "samples/front-wing.json"        /* one element, every kind of load case */
#define WHOLE_PART "tests/part/every-field.json"     /* two elements, every field of the table */

struct trial {
    struct pl_document *doc;
    struct pl_part part;
    struct pl_problems problems;
    enum pl_status status;
};

static inline void trial_text(struct trial *t, const char *text)
{
    *t = (struct trial){.doc = read_text(text)};
}

static inline void trial_open(struct trial *t, const char *path)
{
    char *text = read_whole_file(path, NULL);
    trial_text(t, text);
    free(text);
}

static inline void trial_close(struct trial *t)
{
    pl_document_free(t->doc);
    pl_part_free(&t->part);
    pl_problems_free(&t->problems);
}

/* The sample, and its bytes as they were: the caller's to free. */
static inline char *trial_open_sample(struct trial *t)
{
    trial_open(t, SAMPLE_PART);
    return strdup(pl_document_bytes(t->doc, NULL));
}

static inline void trial_build(struct trial *t)
{
    pl_problems_clear(&t->problems);
    t->status = pl_part_build(&t->part, t->doc, &t->problems);
}

/* Builds, and solves what could be built, so that the rules over shape and cloth speak as well. */
static inline void trial_solve(struct trial *t)
{
    trial_build(t);
    if (t->status != PL_OK)
        return;
    struct pl_solve *solve = pl_solve_new();
    assert_non_null(solve);
    t->status = pl_solve_run(solve, &t->part, &t->problems);
    pl_solve_free(solve);
}

/* Sets a value, or takes it out with json NULL. */
static inline void put(struct trial *t, const char *pointer, const char *json)
{
    if (json)
        set(t->doc, pointer, json);
    else
        do_edit(t->doc, REMOVE, pointer, NULL, 0);
}

/* One more row like one that is there. */
static inline void put_copy(struct trial *t, const char *from, const char *to)
{
    char *json = pl_document_copy(t->doc, from);
    assert_non_null(json);
    do_edit(t->doc, INSERT, to, json, 0);
    free(json);
}

static inline void print_problems(const struct trial *t)
{
    char sentence[1024];
    for (size_t i = 0; i < t->problems.count; i++) {
        pl_problem_sentence(&t->problems.list[i], NULL, sentence, sizeof sentence);
        print_error("  %s: %s\n", t->problems.list[i].severity == PL_ERROR ? "error" : "warning", sentence);
    }
    if (!t->problems.count)
        print_error("  nothing was said\n");
}

static inline size_t count_told(const struct trial *t, enum pl_severity severity, const char *place, const char *rule)
{
    size_t n = 0;
    for (size_t i = 0; i < t->problems.count; i++) {
        const struct pl_problem *p = &t->problems.list[i];
        n += p->severity == severity && !strcmp(p->place, place) && strstr(p->rule, rule);
    }
    return n;
}

/* Said once, with that value found. */
static inline void check_told(const struct trial *t, enum pl_severity severity, const char *place, const char *rule,
                              const char *found, const char *file, int line)
{
    for (size_t i = 0; i < t->problems.count; i++) {
        const struct pl_problem *p = &t->problems.list[i];
        if (p->severity == severity && !strcmp(p->place, place) && strstr(p->rule, rule) && !strcmp(p->found, found)
            && count_told(t, severity, place, rule) == 1)
            return;
    }
    print_error("%s at %s: \"%s\" (found %s) was not said just once, but\n",
                severity == PL_ERROR ? "an error" : "a warning", place, rule, found);
    print_problems(t);
    _fail(file, line);
}

static inline void check_nothing_told(const struct trial *t, const char *file, int line)
{
    if (t->status == PL_OK && !t->problems.count)
        return;
    print_error("it was to be taken without a word, but\n");
    print_problems(t);
    _fail(file, line);
}

#define assert_error(t, place, rule, found) check_told(t, PL_ERROR, place, rule, found, __FILE__, __LINE__)
#define assert_warning(t, place, rule, found) check_told(t, PL_WARNING, place, rule, found, __FILE__, __LINE__)
#define assert_taken_silently(t) check_nothing_told(t, __FILE__, __LINE__)

/* The one error there is, and the part is refused for it. */
#define assert_only_error(t, place, rule, found) \
    do { \
        assert_error(t, place, rule, found); \
        assert_int_equal((t)->problems.errors, 1); \
        assert_int_equal((t)->status, PL_BAD_INPUT); \
    } while (0)

/* The one warning there is, and the part is taken. */
#define assert_only_warning(t, place, rule, found) \
    do { \
        assert_warning(t, place, rule, found); \
        assert_int_equal((t)->problems.count, 1); \
        assert_int_equal((t)->status, PL_OK); \
    } while (0)

/* ---- the table of fields, walked over a part that has every field ---- */

/* Where rows of each group stand in such a part. */
static const struct { enum pl_group_id group; const char *pointer; } places_of_rows[] = {
    {PL_GROUP_PART, ""},
    {PL_GROUP_PROFILE, "/profiles"},
    {PL_GROUP_FABRIC, "/fabrics"},
    {PL_GROUP_RESIN, "/resins"},
    {PL_GROUP_CORE, "/cores"},
    {PL_GROUP_ELEMENT, "/elements"},
    {PL_GROUP_STATION, "/elements/0/stations"},
    {PL_GROUP_LAYUP, "/elements/0/layup"},
    {PL_GROUP_MOUNT, "/elements/0/mounts"},
    {PL_GROUP_MOUNT, "/elements/1/mounts"},
    {PL_GROUP_END_PLATES, "/elements/0/end_plates"},
    {PL_GROUP_CASE, "/load_cases"},
    {PL_GROUP_PAD, "/load_cases/2/pads"},
    {PL_GROUP_ALLOWABLES, "/allowables"},
    {PL_GROUP_LIMITS, "/limits"},
    {PL_GROUP_CAR, "/car"},
    {PL_GROUP_SHED, "/shed"},
};

/* Whether the row at pointer belongs to the group and has the field; *row is then its struct. */
static inline bool row_has(const struct trial *t, enum pl_group_id group, const struct pl_field *f, const char *pointer,
                           const void **row)
{
    char field[160];
    enum pl_group_id found;
    snprintf(field, sizeof field, "%s/%s", pointer, f->key);
    *row = pl_part_row(&t->part, pointer, &found);
    return *row && found == group && (!f->when || f->when(*row)) && pl_document_find(t->doc, field) != PL_NO_NODE;
}

/* The first row that has the field, its pointer in out. */
static inline const void *first_row_with(const struct trial *t, enum pl_group_id group, const struct pl_field *f,
                                         char *out, size_t size)
{
    const void *row;
    for (size_t i = 0; i < sizeof places_of_rows / sizeof *places_of_rows; i++) {
        const char *list = places_of_rows[i].pointer;
        pl_node node = pl_document_find(t->doc, list);
        if (places_of_rows[i].group != group)
            continue;
        snprintf(out, size, "%s", list);
        if (!pl_groups[group].list && row_has(t, group, f, out, &row))
            return row;
        for (size_t k = 0; pl_groups[group].list && k < pl_node_count(t->doc, node); k++) {
            snprintf(out, size, "%s/%zu", list, k);
            if (row_has(t, group, f, out, &row))
                return row;
        }
    }
    return NULL;
}

/* Calls visit for every field, with its row in the built part and its pointer in the document. */
typedef void field_visit(struct trial *t, const struct pl_field *f, const void *row, const char *pointer);

static inline void visit_fields(struct trial *t, field_visit *visit)
{
    for (int g = 0; g < PL_GROUPS; g++)
        for (size_t i = 0; i < pl_groups[g].n_fields; i++) {
            const struct pl_field *f = &pl_groups[g].fields[i];
            char row_pointer[96], pointer[160];
            trial_build(t);
            const void *row = first_row_with(t, (enum pl_group_id)g, f, row_pointer, sizeof row_pointer);
            if (!row)
                fail_msg("%s of a %s stands nowhere in the part with every field", f->key, pl_groups[g].noun);
            snprintf(pointer, sizeof pointer, "%s/%s", row_pointer, f->key);
            visit(t, f, row, pointer);
        }
}

#endif
