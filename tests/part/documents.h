/* documents.h - documents made and edited in tests of src/part.
 *
 * What goes wrong here fails the test.
 */
#ifndef PLYLOFT_TESTS_DOCUMENTS_H
#define PLYLOFT_TESTS_DOCUMENTS_H

#include "../support.h"

#include "plyloft/document.h"

#include <stdlib.h>
#include <string.h>

static inline struct pl_document *read_text(const char *text)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    if (pl_document_read(&doc, text, strlen(text), &problems) != PL_OK)
        fail_msg("%s: %s", problems.list[0].place, problems.list[0].rule);
    return doc;
}

static inline void assert_bytes(const struct pl_document *doc, const char *want)
{
    size_t length;
    const char *bytes = pl_document_bytes(doc, &length);
    assert_string_equal(bytes, want);
    assert_int_equal(length, strlen(want));
}

enum what { SET, INSERT, REMOVE, MOVE };

static inline enum pl_status edit(struct pl_document *doc, enum what what, const char *pointer, const char *json,
                                  size_t to, struct pl_problems *problems)
{
    switch (what) {
    case SET:
        return pl_edit_set(doc, pointer, json, problems);
    case INSERT:
        return pl_edit_insert(doc, pointer, json, problems);
    case REMOVE:
        return pl_edit_remove(doc, pointer, problems);
    default:
        return pl_edit_move(doc, pointer, to, problems);
    }
}

static inline void do_edit(struct pl_document *doc, enum what what, const char *pointer, const char *json, size_t to)
{
    struct pl_problems problems = {0};
    if (edit(doc, what, pointer, json, to, &problems) != PL_OK)
        fail_msg("%s: %s", problems.list[0].place, problems.list[0].rule);
    assert_int_equal(problems.count, 0);
}

static inline void set(struct pl_document *doc, const char *pointer, const char *json)
{
    do_edit(doc, SET, pointer, json, 0);
}

#endif
