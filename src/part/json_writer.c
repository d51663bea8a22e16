#include "plyloft/json_writer.h"

#include "plyloft/document.h"
#include "plyloft/text.h"

#include <math.h>
#include <string.h>

/* ---- texts ---- */

static void add_escaped(struct pl_buffer *out, uint32_t code)
{
    static const char letters[][2] = {{'"', '"'},  {'\\', '\\'}, {'\n', 'n'}, {'\t', 't'},
                                      {'\r', 'r'}, {'\b', 'b'},  {'\f', 'f'}};
    for (size_t i = 0; i < sizeof letters / sizeof letters[0]; i++)
        if (code == (unsigned char)letters[i][0]) {
            pl_buffer_add(out, (const char[]){'\\', letters[i][1]}, 2);
            return;
        }
    if (code >= 0x10000) { /* a surrogate pair: RFC 8259, section 7 */
        pl_buffer_printf(out, "\\u%04x", (unsigned)(0xd800 + ((code - 0x10000) >> 10)));
        code = 0xdc00 + ((code - 0x10000) & 0x3ff);
    }
    pl_buffer_printf(out, "\\u%04x", (unsigned)code);
}

/* Bytes at the start of s that stand for themselves; what follows in *code and *length, 0 when it is not UTF-8. */
static size_t plain_length(const char *s, size_t left, uint32_t *code, size_t *length)
{
    size_t plain = 0;
    while (plain < left) {
        *length = pl_utf8_decode(s + plain, left - plain, code);
        if (!*length || *code == '"' || *code == '\\' || pl_code_unsafe(*code))
            break;
        plain += *length;
    }
    return plain;
}

void pl_json_quote_onto(struct pl_buffer *out, const char *text)
{
    pl_buffer_text(out, "\"");
    for (const char *end = text + strlen(text); text < end;) {
        uint32_t code = 0;
        size_t length = 0, plain = plain_length(text, (size_t)(end - text), &code, &length);
        pl_buffer_add(out, text, plain);
        text += plain;
        if (text == end)
            break;
        if (length)
            add_escaped(out, code);
        else
            pl_buffer_text(out, "\xef\xbf\xbd");
        text += length ? length : 1;
    }
    pl_buffer_text(out, "\"");
}

char *pl_json_quote(const char *text)
{
    struct pl_buffer out = {0};
    pl_json_quote_onto(&out, text);
    if (out.failed) {
        pl_buffer_free(&out);
        return NULL;
    }
    return out.text;
}

/* ---- structure ---- */

void pl_json_start(struct pl_json_writer *w, struct pl_buffer *out, bool one_line)
{
    *w = (struct pl_json_writer){.out = out, .one_line = one_line};
}

static void begin_line(struct pl_json_writer *w)
{
    pl_buffer_printf(w->out, "\n%*s", 2 * w->depth, "");
}

/* The comma, the line end and the key of the next value; holds: it is an object or a list. */
static void begin_value(struct pl_json_writer *w, const char *key, bool holds)
{
    if (w->depth) {
        int inside = w->depth - 1;
        bool line = !w->one_line && (w->depth == 1 || (holds && w->closing[inside] == ']'));
        if (w->any[inside])
            pl_buffer_text(w->out, line ? "," : ", ");
        if (line)
            begin_line(w);
        w->any[inside] = true;
        w->lines[inside] |= line;
    }
    if (key) {
        pl_json_quote_onto(w->out, key);
        pl_buffer_text(w->out, ": ");
    }
}

static void open_container(struct pl_json_writer *w, const char *key, const char *brackets)
{
    begin_value(w, key, true);
    if (w->depth == PL_JSON_MOST_DEPTH) {
        w->out->failed = true;
        return;
    }
    pl_buffer_add(w->out, brackets, 1);
    w->closing[w->depth] = brackets[1];
    w->any[w->depth] = w->lines[w->depth] = false;
    w->depth++;
}

void pl_json_object(struct pl_json_writer *w, const char *key)
{
    open_container(w, key, "{}");
}

void pl_json_list(struct pl_json_writer *w, const char *key)
{
    open_container(w, key, "[]");
}

void pl_json_close(struct pl_json_writer *w)
{
    if (!w->depth)
        return;
    w->depth--;
    if (w->lines[w->depth])
        begin_line(w);
    pl_buffer_add(w->out, &w->closing[w->depth], 1);
}

bool pl_json_end(struct pl_json_writer *w)
{
    while (w->depth)
        pl_json_close(w);
    pl_buffer_text(w->out, "\n");
    return !w->out->failed;
}

/* ---- values ---- */

void pl_json_text(struct pl_json_writer *w, const char *key, const char *text)
{
    begin_value(w, key, false);
    if (text)
        pl_json_quote_onto(w->out, text);
    else
        pl_buffer_text(w->out, "null");
}

void pl_json_number(struct pl_json_writer *w, const char *key, double value)
{
    char digits[64] = "null";
    if (isfinite(value))
        pl_number_digits(digits, sizeof digits, value, 10);
    begin_value(w, key, false);
    pl_buffer_text(w->out, digits);
}

void pl_json_whole(struct pl_json_writer *w, const char *key, long long value)
{
    begin_value(w, key, false);
    pl_buffer_printf(w->out, "%lld", value);
}

void pl_json_bool(struct pl_json_writer *w, const char *key, bool value)
{
    begin_value(w, key, false);
    pl_buffer_text(w->out, value ? "true" : "false");
}

void pl_json_null(struct pl_json_writer *w, const char *key)
{
    pl_json_text(w, key, NULL);
}
