/* rows.h - trials of rows: a part opened, changed, judged and taken back to its bytes.
 *
 * What is refused that should not be, or is invalid when it should be valid, fails the test with what was said.
 */
#ifndef PLYLOFT_TESTS_ROWS_H
#define PLYLOFT_TESTS_ROWS_H

#include "parts.h"

#include "part_text.h"

#include "plyloft/part_edit.h"
#include "plyloft/part_rows.h"

static struct trial t;
static char *original;

static const char *const parts[] = {SAMPLE_PART, WHOLE_PART, "samples/cantilever.json"};
enum { PARTS = sizeof parts / sizeof *parts };

static inline void begin_with(const char *text)
{
    trial_text(&t, text);
    original = strdup(text);
    assert_non_null(original);
}

static inline void begin(const char *path)
{
    char *text = read_whole_file(path, NULL);
    begin_with(text);
    free(text);
}

static inline void end(void)
{
    free(original);
    trial_close(&t);
}

static inline void undo_all(void)
{
    while (pl_document_undo(t.doc))
        continue;
    assert_bytes(t.doc, original);
}

static inline const char *newest_step(void)
{
    return pl_document_step_name(t.doc, pl_document_steps_done(t.doc) - 1);
}

static inline void check_valid(const char *what, const char *file, int line)
{
    trial_solve(&t);
    if (t.status == PL_OK)
        return;
    print_error("after %s the part is invalid:\n", what);
    print_problems(&t);
    _fail(file, line);
}

#define assert_valid(what) check_valid(what, __FILE__, __LINE__)

static inline size_t count_in(const char *list)
{
    pl_node node = pl_document_find(t.doc, list);
    return node == PL_NO_NODE ? 0 : pl_node_count(t.doc, node);
}

static inline bool has(const char *pointer)
{
    return pl_document_find(t.doc, pointer) != PL_NO_NODE;
}

static inline double number_at(const char *pointer)
{
    pl_node node = pl_document_find(t.doc, pointer);
    if (node == PL_NO_NODE || pl_node_kind(t.doc, node) != PL_NODE_NUMBER)
        fail_msg("%s is no number", pointer);
    return pl_node_number(t.doc, node);
}

static inline const char *text_at(const char *pointer)
{
    pl_node node = pl_document_find(t.doc, pointer);
    return node == PL_NO_NODE ? "(none)" : pl_node_text(t.doc, node);
}

static inline void done(enum pl_status status)
{
    if (status != PL_OK)
        fail_msg("it was refused: %s", t.problems.count ? t.problems.list[0].rule : "without a reason");
}

static inline size_t add(const char *pointer)
{
    size_t index = PL_NONE;
    pl_problems_clear(&t.problems);
    done(pl_row_add(t.doc, pointer, &index, &t.problems));
    return index;
}

static inline size_t copy(const char *pointer)
{
    size_t index = PL_NONE;
    pl_problems_clear(&t.problems);
    done(pl_row_copy(t.doc, pointer, &index, &t.problems));
    return index;
}

static inline void take(const char *pointer)
{
    pl_problems_clear(&t.problems);
    done(pl_row_remove(t.doc, pointer, &t.problems));
}

static inline size_t move(const char *pointer, int way)
{
    size_t index = PL_NONE;
    pl_problems_clear(&t.problems);
    done(pl_row_move(t.doc, pointer, way, &index, &t.problems));
    return index;
}

static inline void name_it(const char *pointer, const char *name)
{
    pl_problems_clear(&t.problems);
    done(pl_row_rename(t.doc, pointer, name, &t.problems));
}

/* Refused for the reason, with nothing changed. */
static inline void check_refused(enum pl_status status, const char *place, const char *rule, unsigned long revision)
{
    assert_int_equal(status, PL_BAD_INPUT);
    assert_int_equal(t.problems.count, 1);
    assert_string_equal(t.problems.list[0].place, place);
    if (!strstr(t.problems.list[0].rule, rule))
        fail_msg("said was \"%s\"", t.problems.list[0].rule);
    assert_int_equal(pl_document_revision(t.doc), revision);
    pl_problems_clear(&t.problems);
}

#define assert_refused(call, place, rule)                                                                              \
    do {                                                                                                               \
        unsigned long revision_ = pl_document_revision(t.doc);                                                         \
        pl_problems_clear(&t.problems);                                                                                \
        enum pl_status status_ = call;                                                                                 \
        check_refused(status_, place, rule, revision_);                                                                \
    } while (0)

/* ---- every list of a part ---- */

typedef void visit_list(const char *list, enum pl_group_id group);

static inline void visit_lists(visit_list *visit)
{
    static const enum pl_group_id top[] = {PL_GROUP_PROFILE, PL_GROUP_FABRIC,  PL_GROUP_RESIN,
                                           PL_GROUP_CORE,    PL_GROUP_ELEMENT, PL_GROUP_CASE};
    static const enum pl_group_id inner[] = {PL_GROUP_STATION, PL_GROUP_LAYUP, PL_GROUP_MOUNT};
    for (size_t i = 0; i < sizeof top / sizeof *top; i++)
        visit(say("/%s", pl_groups[top[i]].key), top[i]);
    for (size_t e = 0; e < count_in("/elements"); e++)
        for (size_t i = 0; i < sizeof inner / sizeof *inner; i++)
            visit(say("/elements/%zu/%s", e, pl_groups[inner[i]].key), inner[i]);
    for (size_t c = 0; c < count_in("/load_cases"); c++)
        if (count_in(say("/load_cases/%zu/pads", c)))
            visit(say("/load_cases/%zu/pads", c), PL_GROUP_PAD);
}

static inline void visit_parts(visit_list *visit)
{
    for (size_t i = 0; i < PARTS; i++) {
        begin(parts[i]);
        visit_lists(visit);
        end();
    }
}

static inline bool has_name(enum pl_group_id group)
{
    return !strcmp(pl_groups[group].fields[0].key, "name");
}

#endif
