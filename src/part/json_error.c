/* Where a text broke the rules, and what stood there. */
#include "json.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

void pl_json_place(const char *bytes, size_t length, size_t at, char *out, size_t size)
{
    size_t line = 1, column = 1;
    for (size_t i = 0; i < at && i < length;) {
        uint32_t code;
        size_t step = pl_utf8_decode(bytes + i, length - i, &code);
        if (bytes[i] == '\n') {
            line++;
            column = 1;
        } else {
            column++;
        }
        i += step ? step : 1;
    }
    snprintf(out, size, "line %zu, column %zu", line, column);
}

static bool of_a_word(char c)
{
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == '+' ||
           c == '-' || c == '.' || (unsigned char)c >= 0x80;
}

/* Bytes of the text in quotes at the start of s; 1 when it is not closed on its line. */
static size_t quoted_length(const char *s, size_t left)
{
    for (size_t i = 1; i < left && (unsigned char)s[i] >= 0x20; i++) {
        if (s[i] == '"')
            return i + 1;
        if (s[i] == '\\' && i + 1 < left)
            i++;
    }
    return 1;
}

static size_t token_length(const char *s, size_t left)
{
    size_t n = 0;
    if (*s == '"')
        return quoted_length(s, left);
    while (n < left && of_a_word(s[n]))
        n++;
    return n;
}

int pl_json_fail_bytes(const struct pl_json_source *s, size_t at, size_t length, const char *rule)
{
    char found[2 * sizeof s->error->found]; /* more than is kept, so that a longer one is seen to be cut */
    length = length < sizeof found ? length : sizeof found - 1;
    memcpy(found, s->bytes + at, length);
    found[length] = '\0';
    s->error->at = at;
    snprintf(s->error->rule, sizeof s->error->rule, "%s", rule);
    pl_text_safe(s->error->found, sizeof s->error->found, found);
    return 0;
}

/* A word, a text in its quotes or one character; what cannot be seen by its number. */
int pl_json_fail(const struct pl_json_source *s, size_t at, const char *rule)
{
    const char *here = s->bytes + at;
    size_t left = s->length - at, length = left ? token_length(here, left) : 0;
    uint32_t code = 0;
    size_t character = pl_utf8_decode(here, left, &code);
    pl_json_fail_bytes(s, at, length ? length : character, rule);
    if (left && !character)
        snprintf(s->error->found, sizeof s->error->found, "byte 0x%02x", (unsigned)(unsigned char)*here);
    else if (left && (pl_code_unsafe(code) || code == 0xa0))
        snprintf(s->error->found, sizeof s->error->found, "U+%04X", (unsigned)code);
    return 0;
}

int pl_json_fail_cut(const struct pl_json_source *s, const char *inside)
{
    *s->error = (struct pl_json_error){.at = s->length};
    snprintf(s->error->rule, sizeof s->error->rule, "%s ends inside %s", s->subject, inside);
    return 0;
}
