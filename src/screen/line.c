#include "line.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

void pl_line_start(struct pl_line *line, const char *text)
{
    snprintf(line->text, sizeof line->text, "%s", text);
    line->at = strlen(line->text);
    line->untouched = true;
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

static void take_out(struct pl_line *line, size_t at, size_t n)
{
    memmove(line->text + at, line->text + at + n, strlen(line->text + at + n) + 1);
    line->at = at;
}

static void put_in(struct pl_line *line, int key)
{
    char bytes[4];
    size_t n = pl_utf8_encode((uint32_t)key, bytes), length = strlen(line->text);
    if (length + n >= sizeof line->text)
        return;
    memmove(line->text + line->at + n, line->text + line->at, length - line->at + 1);
    memcpy(line->text + line->at, bytes, n);
    line->at += n;
}

static void remove_at_cursor(struct pl_line *line, int key, bool selected)
{
    size_t back = key == PL_KEY_BACKSPACE ? length_before(line->text, line->at) : 0;
    if (selected)
        take_out(line, 0, strlen(line->text));
    else if (key == PL_KEY_DELETE)
        take_out(line, line->at, length_at(line->text, line->at));
    else
        take_out(line, line->at - back, back);
}

bool pl_line_key(struct pl_line *line, int key)
{
    bool selected = line->untouched;
    line->untouched = false;
    if (key == PL_KEY_LEFT) {
        line->at -= length_before(line->text, line->at);
    } else if (key == PL_KEY_RIGHT) {
        line->at += length_at(line->text, line->at);
    } else if (key == PL_KEY_HOME) {
        line->at = 0;
    } else if (key == PL_KEY_END) {
        line->at = strlen(line->text);
    } else if (key == PL_KEY_CTRL('U')) {
        take_out(line, 0, strlen(line->text));
    } else if (key == PL_KEY_BACKSPACE || key == PL_KEY_DELETE) {
        remove_at_cursor(line, key, selected);
    } else if (key >= ' ' && key < PL_KEY_UP && !pl_code_unsafe((uint32_t)key)) {
        if (selected)
            take_out(line, 0, strlen(line->text));
        put_in(line, key);
    } else {
        line->untouched = selected;
        return false;
    }
    return true;
}
