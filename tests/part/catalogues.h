/* catalogues.h - the catalogue as its tests take it up; what goes wrong here fails the test. */
#ifndef PLYLOFT_TESTS_CATALOGUES_H
#define PLYLOFT_TESTS_CATALOGUES_H

#include "keeping.h"

#include "plyloft/catalogue.h"

#define OWN "data/plyloft/catalogue.json"
#define FABRICS PL_CATALOGUE_FABRICS

static inline void make_own_folder(void)
{
    mkdir(in_folder("data"), 0700);
    mkdir(in_folder("data/plyloft"), 0700);
}

/* With nothing to complain of. */
static inline struct pl_catalogue *load(void)
{
    struct pl_problems problems = {0};
    struct pl_catalogue *catalogue;
    enum pl_status status = pl_catalogue_load(&catalogue, &problems);
    if (problems.count)
        fail_msg("%s: %s", problems.list[0].place, problems.list[0].rule);
    assert_int_equal(status, PL_OK);
    return catalogue;
}

static inline size_t row_of(const struct pl_catalogue *c, enum pl_catalogue_group group, const char *name)
{
    for (size_t i = 0; i < pl_catalogue_count(c, group); i++)
        if (!strcmp(pl_catalogue_name(c, group, i), name))
            return i;
    fail_msg("there is no %s", name);
    return 0;
}

/* Into the part; where it then stands. */
static inline size_t copy(const struct pl_catalogue *c, struct pl_document *doc, enum pl_catalogue_group group,
                          const char *name)
{
    struct pl_problems problems = {0};
    size_t row = 99;
    if (pl_catalogue_copy(c, doc, group, row_of(c, group, name), &row, &problems) != PL_OK)
        fail_msg("%s: %s", problems.list[0].place, problems.list[0].rule);
    assert_int_equal(problems.count, 0);
    return row;
}

/* Into the own file. */
static inline void keep(struct pl_catalogue *c, const struct pl_document *doc, const char *pointer)
{
    struct pl_problems problems = {0};
    if (pl_catalogue_keep(c, doc, pointer, &problems) != PL_OK)
        fail_msg("%s: %s", problems.list[0].place, problems.list[0].rule);
    assert_int_equal(problems.count, 0);
}

static inline struct pl_document *sample(void)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    size_t length;
    char *bytes = read_whole_file("samples/front-wing.json", &length);
    assert_int_equal(pl_document_read(&doc, bytes, length, &problems), PL_OK);
    free(bytes);
    return doc;
}

#endif
