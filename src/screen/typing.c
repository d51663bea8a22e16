#include "session.h"

#include "plyloft/keys.h"
#include "plyloft/part_edit.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static void pointed_at(const struct pl_session *s, char *out, size_t size)
{
    struct pl_cursor c = pl_block_cursor(s);
    pl_block_pointer(s, s->block, c.row, c.column, out, size);
}

void pl_typing_start(struct pl_session *s)
{
    char pointer[128];
    pointed_at(s, pointer, sizeof pointer);
    pl_part_value_words(s->document, pointer, s->typed, sizeof s->typed);
    if (!strcmp(s->typed, "-"))
        s->typed[0] = '\0';
    s->typing = s->untouched = true;
    s->typed_at = strlen(s->typed);
    s->message[0] = '\0';
}

static size_t length_before(const char *text, size_t at)
{
    size_t n = 0;
    while (n < at && ((unsigned char)text[at - n - 1] & 0xc0) == 0x80)
        n++;
    return at ? n + 1 : 0;
}

static size_t length_at(const char *text, size_t at)
{
    uint32_t code;
    size_t n = pl_utf8_decode(text + at, strlen(text + at), &code);
    return text[at] && !n ? 1 : n;
}

static void take_out(struct pl_session *s, size_t at, size_t n)
{
    memmove(s->typed + at, s->typed + at + n, strlen(s->typed + at + n) + 1);
    s->typed_at = at;
}

static void put_in(struct pl_session *s, int key)
{
    char bytes[4];
    size_t n = pl_utf8_encode((uint32_t)key, bytes), length = strlen(s->typed);
    if (length + n >= sizeof s->typed)
        return;
    memmove(s->typed + s->typed_at + n, s->typed + s->typed_at, length - s->typed_at + 1);
    memcpy(s->typed + s->typed_at, bytes, n);
    s->typed_at += n;
}

/* Takes the typed value over.  A text that is no value stays, to be mended, with the reason. */
static void accept(struct pl_session *s)
{
    char pointer[128];
    struct pl_problems problems = {0};
    pointed_at(s, pointer, sizeof pointer);
    enum pl_status status = pl_part_type(s->document, pointer, s->typed, &problems);
    if (status == PL_OK) {
        s->typing = false;
        pl_session_judge(s);
    } else if (problems.count) {
        snprintf(s->message, sizeof s->message, "%s%s%s%s", problems.list[0].rule, problems.list[0].found[0] ? " (found " : "",
                 problems.list[0].found, problems.list[0].found[0] ? ")" : "");
    } else {
        snprintf(s->message, sizeof s->message, "not enough memory");
    }
    pl_problems_free(&problems);
}

void pl_typing_key(struct pl_session *s, int key)
{
    s->message[0] = '\0';
    bool selected = s->untouched;
    if (key == PL_KEY_ENTER) {
        accept(s);
        return;
    }
    s->untouched = false;
    if (key == PL_KEY_ESCAPE) {
        s->typing = false;
    } else if (key == PL_KEY_LEFT) {
        s->typed_at -= length_before(s->typed, s->typed_at);
    } else if (key == PL_KEY_RIGHT) {
        s->typed_at += length_at(s->typed, s->typed_at);
    } else if (key == PL_KEY_HOME) {
        s->typed_at = 0;
    } else if (key == PL_KEY_END) {
        s->typed_at = strlen(s->typed);
    } else if (key == PL_KEY_BACKSPACE || key == PL_KEY_DELETE) {
        size_t back = key == PL_KEY_BACKSPACE ? length_before(s->typed, s->typed_at) : 0;
        if (selected)
            take_out(s, 0, strlen(s->typed));
        else
            take_out(s, s->typed_at - back, back ? back : key == PL_KEY_DELETE ? length_at(s->typed, s->typed_at) : 0);
    } else if (key >= ' ' && key < PL_KEY_UP && !pl_code_unsafe((uint32_t)key)) {
        if (selected)
            take_out(s, 0, strlen(s->typed));
        put_in(s, key);
    }
}
