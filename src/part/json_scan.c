/* The strict pass: RFC 8259 to the letter, and the limits of document.h.
 *
 * One loop over the text with the open lists and objects on a stack of our own, so that
 * depth costs neither recursion nor time.  What the rules forbid gets the sentence that
 * helps most: whoever edits by hand meets trailing commas, comments and single quotes. */
#include "json.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum expect {
    EXPECT_VALUE,
    EXPECT_ITEM_OR_END,
    EXPECT_KEY,
    EXPECT_KEY_OR_END,
    EXPECT_COLON,
    EXPECT_MORE,
    EXPECT_NOTHING
};

struct scan {
    struct pl_json_source source;
    size_t at;
    struct pl_json_tree *tree;
    enum expect expect;
    size_t key_start, key_end;
    uint32_t open[PL_DOCUMENT_MOST_DEPTH];
    size_t depth;
    bool no_memory;
};

static bool in_list(const struct scan *s)
{
    return s->depth && s->tree->nodes[s->open[s->depth - 1]].kind == PL_NODE_LIST;
}

static bool fail(struct scan *s, const char *rule)
{
    return pl_json_fail(&s->source, s->at, rule);
}

static bool fail_at_end(struct scan *s)
{
    struct pl_json_error *error = s->source.error;
    if (s->depth)
        return pl_json_fail_cut(&s->source, in_list(s) ? "a list" : "an object");
    *error = (struct pl_json_error){0};
    snprintf(error->rule, sizeof error->rule, "%s is empty", s->source.subject);
    return false;
}

/* ---- nodes ---- */

static bool make_room(struct scan *s)
{
    struct pl_json_tree *t = s->tree;
    if (t->count < t->capacity)
        return true;
    size_t capacity = t->capacity ? 2 * t->capacity : 64;
    struct pl_json_node *nodes = pl_part_memory(t->nodes, capacity * sizeof *nodes);
    if (!nodes) {
        s->no_memory = true;
        return false;
    }
    t->nodes = nodes;
    t->capacity = capacity;
    return true;
}

static bool add_node(struct scan *s, enum pl_node_kind kind, size_t end)
{
    struct pl_json_tree *t = s->tree;
    if (!make_room(s))
        return false;
    uint32_t parent = s->depth ? s->open[s->depth - 1] : PL_JSON_NONE;
    t->nodes[t->count] = (struct pl_json_node){
        .start = (uint32_t)s->at,
        .end = (uint32_t)end,
        .key_start = (uint32_t)s->key_start,
        .key_end = (uint32_t)s->key_end,
        .parent = parent,
        .after = (uint32_t)t->count + 1,
        .kind = (uint16_t)kind,
    };
    if (s->depth)
        t->nodes[parent].count++;
    t->count++;
    s->key_start = s->key_end = 0;
    return true;
}

/* A value ended at end: what comes next depends on where it stands. */
static bool value_done(struct scan *s, size_t end)
{
    s->at = end;
    s->expect = s->depth ? EXPECT_MORE : EXPECT_NOTHING;
    return true;
}

static bool open_container(struct scan *s, enum pl_node_kind kind)
{
    struct pl_json_error *error = s->source.error;
    if (s->depth == PL_DOCUMENT_MOST_DEPTH) {
        *error = (struct pl_json_error){.at = s->at};
        snprintf(error->rule, sizeof error->rule, "levels of nesting must be at most %d", PL_DOCUMENT_MOST_DEPTH);
        snprintf(error->found, sizeof error->found, "%d", PL_DOCUMENT_MOST_DEPTH + 1);
        return false;
    }
    uint32_t node = (uint32_t)s->tree->count;
    if (!add_node(s, kind, s->at))
        return false;
    s->open[s->depth++] = node;
    s->at++;
    s->expect = kind == PL_NODE_LIST ? EXPECT_ITEM_OR_END : EXPECT_KEY_OR_END;
    return true;
}

static bool close_container(struct scan *s)
{
    struct pl_json_node *node = &s->tree->nodes[s->open[--s->depth]];
    node->end = (uint32_t)s->at + 1;
    node->after = (uint32_t)s->tree->count;
    return value_done(s, s->at + 1);
}

/* ---- single values ---- */

static bool scan_text(struct scan *s)
{
    size_t end = pl_json_text_end(&s->source, s->at);
    return end && add_node(s, PL_NODE_TEXT, end) && value_done(s, end);
}

static bool scan_number(struct scan *s)
{
    const char *stop, *spelling = s->source.bytes + s->at;
    size_t end = pl_json_number_end(&s->source, s->at);
    if (!end)
        return false;
    double value = pl_number_read(spelling, &stop);
    if (stop == spelling) { /* only when a long one found no memory */
        s->no_memory = true;
        return false;
    }
    if (!isfinite(value))
        return pl_json_fail_bytes(&s->source, s->at, end - s->at, "is outside the range of a number");
    if (!add_node(s, PL_NODE_NUMBER, end))
        return false;
    s->tree->nodes[s->tree->count - 1].is.number = value;
    return value_done(s, end);
}

static bool fail_word(struct scan *s)
{
    const struct pl_json_source *t = &s->source;
    if (pl_json_has_word(t, s->at, "nan") || pl_json_has_word(t, s->at, "inf"))
        return fail(s, "a number must be finite");
    if (pl_json_has_word(t, s->at, "true") || pl_json_has_word(t, s->at, "false") ||
        pl_json_has_word(t, s->at, "null") || pl_json_has_word(t, s->at, "none"))
        return fail(s, "the words without quotes are true, false and null");
    return fail(s, "a text must stand in double quotes");
}

static bool scan_word(struct scan *s)
{
    static const char *const words[] = {"true", "false", "null"};
    static const enum pl_node_kind kinds[] = {PL_NODE_TRUE, PL_NODE_FALSE, PL_NODE_NULL};
    size_t left = s->source.length - s->at;
    for (size_t i = 0; i < 3; i++) {
        size_t length = strlen(words[i]), same = left < length ? left : length;
        if (memcmp(s->source.bytes + s->at, words[i], same) != 0)
            continue;
        if (left < length)
            return pl_json_fail_cut(&s->source, "a word");
        return add_node(s, kinds[i], s->at + length) && value_done(s, s->at + length);
    }
    return fail_word(s);
}

/* ---- one step of the grammar each ---- */

/* The rule broken by the character at the reading point wherever it stands outside a text;
 * otherwise the rule given. */
static bool fail_unexpected(struct scan *s, const char *otherwise)
{
    uint32_t code;
    if (!pl_utf8_decode(s->source.bytes + s->at, s->source.length - s->at, &code))
        return fail(s, "text must be UTF-8");
    if (code == '/' || code == '#')
        return fail(s, "comments are not allowed");
    if (code == '\'' || (code >= 0x2018 && code <= 0x201f))
        return fail(s, "texts and keys must stand in straight double quotes");
    return fail(s, otherwise);
}

static bool fail_value(struct scan *s)
{
    char c = s->source.bytes[s->at];
    if (s->depth && s->expect == EXPECT_VALUE && (c == ']' || c == '}'))
        return fail(s, in_list(s) ? "the last item must not be followed by a comma" : "a value must follow the key");
    return fail_unexpected(s, c == '+'   ? "a number must not begin with +"
                              : c == '.' ? "a digit must stand before the decimal point"
                                         : "a value must stand here");
}

static bool step_value(struct scan *s)
{
    char c = s->source.bytes[s->at];
    if (c == '"')
        return scan_text(s);
    if (c == '-' || (c >= '0' && c <= '9'))
        return scan_number(s);
    if (c == '[')
        return open_container(s, PL_NODE_LIST);
    if (c == '{')
        return open_container(s, PL_NODE_OBJECT);
    if (c == ']' && s->expect == EXPECT_ITEM_OR_END)
        return close_container(s);
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'))
        return scan_word(s);
    return fail_value(s);
}

static bool fail_key(struct scan *s)
{
    char c = s->source.bytes[s->at];
    if (c == '}')
        return fail(s, "the last member must not be followed by a comma");
    return fail_unexpected(s, c >= '0' && c <= '9' && s->expect == EXPECT_KEY
                                  ? "a key must follow the comma, and decimals a point"
                                  : "a key in double quotes must stand here");
}

static bool step_key(struct scan *s)
{
    char c = s->source.bytes[s->at];
    if (c == '}' && s->expect == EXPECT_KEY_OR_END)
        return close_container(s);
    if (c != '"')
        return fail_key(s);
    s->key_start = s->at;
    s->key_end = pl_json_text_end(&s->source, s->at);
    s->at = s->key_end;
    s->expect = EXPECT_COLON;
    return s->key_end != 0;
}

static bool step_colon(struct scan *s)
{
    if (s->source.bytes[s->at] != ':')
        return fail_unexpected(s, "a colon must follow the key");
    s->at++;
    s->expect = EXPECT_VALUE;
    return true;
}

static bool step_more(struct scan *s)
{
    bool list = in_list(s);
    char c = s->source.bytes[s->at];
    if (c == (list ? ']' : '}'))
        return close_container(s);
    if (c != ',')
        return fail_unexpected(s, list ? "a comma or ] must follow an item" : "a comma or } must follow a member");
    s->at++;
    s->expect = list ? EXPECT_VALUE : EXPECT_KEY;
    return true;
}

static bool step_nothing(struct scan *s)
{
    return fail_unexpected(s, "only white space may follow the value");
}

static bool scan_all(struct scan *s)
{
    static bool (*const steps[])(struct scan *) = {
        [EXPECT_VALUE] = step_value,     [EXPECT_ITEM_OR_END] = step_value, [EXPECT_KEY] = step_key,
        [EXPECT_KEY_OR_END] = step_key,  [EXPECT_COLON] = step_colon,       [EXPECT_MORE] = step_more,
        [EXPECT_NOTHING] = step_nothing,
    };
    const char *b = s->source.bytes;
    for (;;) {
        while (b[s->at] == ' ' || b[s->at] == '\n' || b[s->at] == '\r' || b[s->at] == '\t')
            s->at++;
        if (s->at >= s->source.length)
            return s->expect == EXPECT_NOTHING ? true : fail_at_end(s);
        if (!steps[s->expect](s))
            return false;
    }
}

enum pl_status pl_json_scan(struct pl_json_tree *tree, const char *bytes, size_t length, const char *subject,
                            struct pl_json_error *error)
{
    struct scan s = {.source = {bytes, length, subject, error}, .tree = tree};
    tree->count = 0;
    if (length > PL_DOCUMENT_MOST_BYTES) {
        *error = (struct pl_json_error){.at = PL_DOCUMENT_MOST_BYTES};
        snprintf(error->rule, sizeof error->rule, "%s is larger than %d MB", subject,
                 PL_DOCUMENT_MOST_BYTES / (1024 * 1024));
        return PL_BAD_INPUT;
    }
    if (length >= 3 && !memcmp(bytes, "\xef\xbb\xbf", 3)) {
        fail(&s, "a byte order mark must not stand before the value");
        return PL_BAD_INPUT;
    }
    if (scan_all(&s))
        return PL_OK;
    return s.no_memory ? PL_NO_MEMORY : PL_BAD_INPUT;
}
