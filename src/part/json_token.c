/* The strict pass inside texts and numbers: RFC 8259, sections 6 and 7.
 *
 * Half of a surrogate pair and the character NUL are well-formed there, and refused here:
 * neither can be kept in a C string of UTF-8. */
#include "json.h"

#include "plyloft/text.h"

#include <string.h>

bool pl_json_has_word(const struct pl_json_source *s, size_t at, const char *word)
{
    size_t length = strlen(word);
    if (s->length - at < length)
        return false;
    for (size_t i = 0; i < length; i++) {
        char c = s->bytes[at + i];
        if ((c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c) != word[i])
            return false;
    }
    return true;
}

static bool hexadecimal(const char *digits, unsigned *value)
{
    *value = 0;
    for (size_t i = 0; i < 4; i++) {
        char c = digits[i];
        unsigned digit = c >= '0' && c <= '9'   ? (unsigned)(c - '0')
                         : c >= 'a' && c <= 'f' ? (unsigned)(c - 'a' + 10)
                         : c >= 'A' && c <= 'F' ? (unsigned)(c - 'A' + 10)
                                                : 16u;
        if (digit == 16)
            return false;
        *value = *value * 16 + digit;
    }
    return true;
}

/* Length of the \u at at. */
static size_t unicode_escape(const struct pl_json_source *s, size_t at)
{
    const char *b = s->bytes + at;
    unsigned code, second;
    if (s->length - at < 6)
        return (size_t)pl_json_fail_cut(s, "a text");
    if (!hexadecimal(b + 2, &code))
        return (size_t)pl_json_fail_bytes(s, at, 2, "\\u must be followed by four hexadecimal digits");
    if (!code)
        return (size_t)pl_json_fail_bytes(s, at, 6, "a text must not hold the character NUL");
    if (code < 0xd800 || code > 0xdfff)
        return 6;
    if (code < 0xdc00 && s->length - at >= 12 && b[6] == '\\' && b[7] == 'u' && hexadecimal(b + 8, &second) &&
        second >= 0xdc00 && second <= 0xdfff)
        return 12;
    return (size_t)pl_json_fail_bytes(s, at, 6, "half of a surrogate pair must not stand alone");
}

static size_t escape(const struct pl_json_source *s, size_t at)
{
    if (s->length - at < 2)
        return (size_t)pl_json_fail_cut(s, "a text");
    char c = s->bytes[at + 1];
    if (c == 'u')
        return unicode_escape(s, at);
    if (c && strchr("\"\\/bfnrt", c))
        return 2;
    return (size_t)pl_json_fail_bytes(s, at, 2, "a backslash must be followed by one of \" \\ / b f n r t u");
}

/* Length of what stands at at, other than a plain character and the closing quote. */
static size_t special(const struct pl_json_source *s, size_t at)
{
    uint32_t code;
    unsigned char c = (unsigned char)s->bytes[at];
    if (c == '\\')
        return escape(s, at);
    if (c == '\n' || c == '\r')
        return (size_t)pl_json_fail_bytes(s, at, 0, "a text must be closed by a quote on the line it began on");
    if (c < 0x20)
        return (size_t)pl_json_fail(s, at, "a control character in a text must be written with a backslash");
    size_t length = pl_utf8_decode(s->bytes + at, s->length - at, &code);
    return length ? length : (size_t)pl_json_fail(s, at, "text must be UTF-8");
}

size_t pl_json_text_end(const struct pl_json_source *s, size_t at)
{
    for (size_t i = at + 1; i < s->length;) {
        unsigned char c = (unsigned char)s->bytes[i];
        if (c == '"')
            return i + 1;
        size_t step = c >= 0x20 && c < 0x80 && c != '\\' ? 1 : special(s, i);
        if (!step)
            return 0;
        i += step;
    }
    return (size_t)pl_json_fail_cut(s, "a text");
}

/* Where the digits from at on end; the text's NUL does at the latest. */
static size_t digits_end(const struct pl_json_source *s, size_t at)
{
    while (s->bytes[at] >= '0' && s->bytes[at] <= '9')
        at++;
    return at;
}

/* The digits that must stand at at. */
static size_t more_digits(const struct pl_json_source *s, size_t start, size_t at, const char *rule)
{
    size_t end = digits_end(s, at);
    if (end > at)
        return end;
    return (size_t)(at >= s->length ? pl_json_fail_cut(s, "a number") : pl_json_fail(s, start, rule));
}

size_t pl_json_number_end(const struct pl_json_source *s, size_t start)
{
    const char *b = s->bytes;
    size_t first = start + (b[start] == '-');
    if (pl_json_has_word(s, first, "inf"))
        return (size_t)pl_json_fail(s, start, "a number must be finite");
    size_t i = more_digits(s, start, first, "a digit must follow the minus sign");
    if (i && b[first] == '0' && i > first + 1)
        return (size_t)pl_json_fail(s, start, "a number must not begin with a needless 0");
    if (i && b[i] == '.')
        i = more_digits(s, start, i + 1, "a digit must follow the decimal point");
    if (i && (b[i] == 'e' || b[i] == 'E'))
        i = more_digits(s, start, i + 1 + (b[i + 1] == '+' || b[i + 1] == '-'),
                        "a digit must follow the e of a power of ten");
    return i;
}
