/* pages.h - the bench without a terminal, for tests: keys go in, pages come out as text and roles.
 *
 * A desk holds a session on a copy of a part in a folder of its own, and the page drawn last.
 */
#ifndef PLYLOFT_TESTS_PAGES_H
#define PLYLOFT_TESTS_PAGES_H

#include "../support.h"

#include "plyloft/frame.h"
#include "plyloft/keys.h"
#include "plyloft/text.h"

#include "screen/session.h"
#include "screen/view.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SAMPLE_PART "samples/front-wing.json"
#define WEAK_PART "samples/underbuilt.json"
#define WHOLE_PART "tests/part/every-field.json"

struct desk {
    struct pl_session *s;
    struct pl_frame f;
    struct pl_buffer page;      /* as text */
    char *folder, *path, *bytes;  /* bytes: the file as it was opened */
};

static const struct { int columns, rows; } sizes[] = {{40, 20}, {80, 24}, {200, 60}};
enum { SIZES = sizeof sizes / sizeof *sizes };

static inline void desk_open_text(struct desk *d, const char *text)
{
    struct pl_problems problems = {0};
    *d = (struct desk){.folder = make_folder(), .bytes = strdup(text)};
    assert_non_null(d->bytes);
    assert_true(asprintf(&d->path, "%s/part.json", d->folder) > 0);
    write_whole_file(d->path, text, strlen(text));
    if (pl_session_open(&d->s, d->path, &problems) != PL_OK)
        fail_msg("it cannot be opened: %s", problems.count ? problems.list[0].rule : "");
    pl_problems_free(&problems);
}

static inline void desk_open(struct desk *d, const char *part)
{
    char *text = read_whole_file(part, NULL);
    desk_open_text(d, text);
    free(text);
}

static inline void desk_close(struct desk *d)
{
    pl_session_close(d->s);
    pl_frame_free(&d->f);
    pl_buffer_free(&d->page);
    remove_folder(d->folder);
    free(d->path);
    free(d->bytes);
}

static inline void press(struct desk *d, const char *keys)
{
    struct pl_keys_reader reader;
    pl_keys_start(&reader, keys);
    for (int key = pl_keys_next(&reader); key != PL_KEY_NONE && !d->s->leave; key = pl_keys_next(&reader))
        pl_session_key(d->s, key);
}

/* Draws the page and gives it as text, good until the next. */
static inline const char *draw(struct desk *d, int columns, int rows, bool plain)
{
    d->f.plain = plain;
    assert_true(pl_frame_resize(&d->f, rows, columns));
    pl_view(d->s, &d->f);
    pl_buffer_clear(&d->page);
    pl_frame_print(&d->f, &d->page);
    assert_false(d->page.failed);
    return d->page.text ? d->page.text : "";
}

static inline const char *draw_usual(struct desk *d)
{
    return draw(d, 80, 24, false);
}

/* Where words (of ASCII) stand in the page drawn last. */
static inline bool find(const struct desk *d, const char *words, int *row, int *column)
{
    int n = (int)strlen(words), columns = d->f.columns;
    for (*row = 0; *row < d->f.rows; (*row)++)
        for (*column = 0; *column + n <= columns; (*column)++) {
            int same = 0;
            while (same < n && d->f.cells[*row * columns + *column + same].code == (uint32_t)words[same])
                same++;
            if (same == n)
                return true;
        }
    return false;
}

static inline void check_shown(const struct desk *d, const char *words, bool want, const char *file, int line)
{
    int row = 0, column = 0;
    if (find(d, words, &row, &column) == want)
        return;
    print_error("\"%s\" is %s the page:\n%s", words, want ? "not on" : "on", d->page.text ? d->page.text : "");
    _fail(file, line);
}

/* Words stand on the page drawn last, all their cells in that role. */
static inline void check_role(const struct desk *d, const char *words, enum pl_role role, const char *file, int line)
{
    int row = 0, column = 0;
    check_shown(d, words, true, file, line);
    find(d, words, &row, &column);
    for (size_t i = 0; i < strlen(words); i++)
        if (d->f.cells[row * d->f.columns + column + (int)i].role != role) {
            print_error("\"%s\" is drawn in role %d, not %d\n", words,
                        d->f.cells[row * d->f.columns + column + (int)i].role, role);
            _fail(file, line);
        }
}

#define assert_shown(d, words) check_shown(d, words, true, __FILE__, __LINE__)
#define assert_not_shown(d, words) check_shown(d, words, false, __FILE__, __LINE__)
#define assert_role(d, words, role) check_role(d, words, role, __FILE__, __LINE__)

static inline size_t count_role(const struct desk *d, enum pl_role role)
{
    size_t n = 0;
    for (int i = 0; i < d->f.rows * d->f.columns; i++)
        n += d->f.cells[i].role == role;
    return n;
}

/* The document's bytes are those. */
static inline void assert_document(const struct desk *d, const char *want)
{
    size_t length;
    assert_string_equal(pl_document_bytes(d->s->document, &length), want);
}

static inline double value_at(const struct desk *d, const char *pointer)
{
    pl_node node = pl_document_find(d->s->document, pointer);
    if (node == PL_NO_NODE)
        fail_msg("there is no %s", pointer);
    return pl_node_number(d->s->document, node);
}

/* Sets a value, or takes it away (NULL), as one edit. */
static inline void desk_put(struct desk *d, const char *pointer, const char *json)
{
    struct pl_problems problems = {0};
    assert_int_equal(pl_edit_begin(d->s->document, "test", NULL), PL_OK);
    enum pl_status status = json ? pl_edit_set(d->s->document, pointer, json, &problems) : pl_edit_remove(d->s->document, pointer, &problems);
    assert_int_equal(status, PL_OK);
    assert_int_equal(pl_edit_end(d->s->document), PL_OK);
    pl_problems_free(&problems);
    pl_session_judge(d->s);
}

/* All that can wait is done. */
static inline void desk_rest(struct desk *d)
{
    while (pl_session_idle(d->s))
        ;
}

static inline void desk_told(struct desk *d, const char *words, bool told, const char *file, int line)
{
    const char *page = draw_usual(d);
    if (!strstr(page, words) == !told)
        return;
    print_error("\"%s\" is %s\n%s", words, told ? "not on" : "on", page);
    _fail(file, line);
}

#define assert_told(d, words) desk_told(d, words, true, __FILE__, __LINE__)
#define assert_untold(d, words) desk_told(d, words, false, __FILE__, __LINE__)

#endif
