#include "plyloft/text.h"

#include <string.h>

size_t pl_utf8_decode(const char *s, size_t left, uint32_t *code)
{
    const unsigned char *u = (const unsigned char *)s;
    if (!left)
        return 0;
    if (u[0] < 0x80) {
        *code = u[0];
        return 1;
    }
    size_t length = u[0] >= 0xf0 ? 4 : u[0] >= 0xe0 ? 3 : 2;
    if (u[0] < 0xc2 || u[0] > 0xf4 || length > left)
        return 0;
    uint32_t c = u[0] & (0xffu >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if ((u[i] & 0xc0) != 0x80)
            return 0;
        c = c << 6 | (u[i] & 0x3f);
    }
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    if (c < least[length] || c > 0x10ffff || (c >= 0xd800 && c <= 0xdfff))
        return 0;
    *code = c;
    return length;
}

size_t pl_utf8_encode(uint32_t code, char out[4])
{
    if (code < 0x80) {
        out[0] = (char)code;
        return 1;
    }
    size_t length = code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    for (size_t i = length; i-- > 1; code >>= 6)
        out[i] = (char)(0x80 | (code & 0x3f));
    static const unsigned char lead[] = {0, 0, 0xc0, 0xe0, 0xf0};
    out[0] = (char)(lead[length] | code);
    return length;
}

struct range {
    uint32_t from, to;
};

static bool in_ranges(uint32_t code, const struct range *ranges, size_t count)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t mid = (low + high) / 2;
        if (code > ranges[mid].to)
            low = mid + 1;
        else if (code < ranges[mid].from)
            high = mid;
        else
            return true;
    }
    return false;
}

#define IN(code, table) in_ranges(code, table, sizeof table / sizeof table[0])

bool pl_code_unsafe(uint32_t code)
{
    /* C0, DEL, C1; marks that are unseen or turn the direction of the line; line and
     * paragraph separators; tags; non-characters. */
    static const struct range unsafe[] = {
        {0x00, 0x1f},     {0x7f, 0x9f},     {0xad, 0xad},     {0x61c, 0x61c},   {0x180e, 0x180e},
        {0x200b, 0x200f}, {0x2028, 0x202e}, {0x2060, 0x206f}, {0xfdd0, 0xfdef}, {0xfeff, 0xfeff},
        {0xfff0, 0xfffb}, {0xfffe, 0xffff}, {0xe0000, 0xe0fff},
    };
    return IN(code, unsafe) || (code & 0xfffe) == 0xfffe;
}

void pl_text_safe(char *out, size_t size, const char *text)
{
    static const char ellipsis[] = "\xe2\x80\xa6", replaced[] = "\xef\xbf\xbd";
    size_t n = 0, left = strlen(text), fits = 0; /* fits: bytes kept when an ellipsis must follow */
    if (!size)
        return;
    while (left) {
        uint32_t code;
        size_t length = pl_utf8_decode(text, left, &code), put = length;
        const char *from = text;
        if (!length || (pl_code_unsafe(code) && code != '\t' && code != '\n' && code != '\r')) {
            from = replaced;
            put = 3;
        } else if (code < 0x20) {
            from = " ";
        }
        if (n + sizeof ellipsis <= size)
            fits = n;
        if (n + put + 1 > size) {
            n = fits;
            if (n + sizeof ellipsis <= size) {
                memcpy(out + n, ellipsis, 3);
                n += 3;
            }
            break;
        }
        memcpy(out + n, from, put);
        n += put;
        text += length ? length : 1;
        left -= length ? length : 1;
    }
    out[n] = '\0';
}

int pl_code_columns(uint32_t code)
{
    static const struct range combining[] = {
        {0x300, 0x36f},   {0x483, 0x489},   {0x591, 0x5bd},   {0x610, 0x61a},   {0x64b, 0x65f},   {0x670, 0x670},
        {0x6d6, 0x6dc},   {0x6df, 0x6e4},   {0x900, 0x902},   {0x93a, 0x93a},   {0x93c, 0x93c},   {0x941, 0x948},
        {0x94d, 0x94d},   {0xe31, 0xe31},   {0xe34, 0xe3a},   {0xe47, 0xe4e},   {0x1ab0, 0x1aff}, {0x1dc0, 0x1dff},
        {0x20d0, 0x20f0}, {0x302a, 0x302d}, {0x3099, 0x309a}, {0xfe00, 0xfe0f}, {0xfe20, 0xfe2f}, {0x1f3fb, 0x1f3ff},
        {0xe0100, 0xe01ef},
    };
    static const struct range wide[] = {
        {0x1100, 0x115f},   {0x231a, 0x231b},   {0x2329, 0x232a},   {0x23e9, 0x23ec},   {0x25fd, 0x25fe},
        {0x2614, 0x2615},   {0x2648, 0x2653},   {0x26a1, 0x26a1},   {0x26aa, 0x26ab},   {0x26bd, 0x26be},
        {0x2705, 0x2705},   {0x274c, 0x274c},   {0x2753, 0x2755},   {0x2795, 0x2797},   {0x2b1b, 0x2b1c},
        {0x2e80, 0x303e},   {0x3041, 0x33ff},   {0x3400, 0x4dbf},   {0x4e00, 0x9fff},   {0xa000, 0xa4cf},
        {0xa960, 0xa97f},   {0xac00, 0xd7a3},   {0xf900, 0xfaff},   {0xfe30, 0xfe6f},   {0xff01, 0xff60},
        {0xffe0, 0xffe6},   {0x1f300, 0x1f64f}, {0x1f680, 0x1f6ff}, {0x1f900, 0x1f9ff}, {0x20000, 0x3fffd},
    };
    if (code < 0x300)
        return 1;
    if (IN(code, combining))
        return 0;
    return IN(code, wide) ? 2 : 1;
}

int pl_text_columns(const char *text)
{
    int columns = 0;
    size_t left = strlen(text);
    while (left) {
        uint32_t code = '?';
        size_t length = pl_utf8_decode(text, left, &code);
        columns += pl_code_columns(code);
        text += length ? length : 1;
        left -= length ? length : 1;
    }
    return columns;
}

size_t pl_text_break(const char *text, int columns)
{
    size_t left = strlen(text), at = 0, blank = 0;
    int used = 0;
    while (left > at) {
        uint32_t code = '?';
        size_t length = pl_utf8_decode(text + at, left - at, &code);
        used += pl_code_columns(code);
        if (used > columns)
            return text[at] == ' ' ? at : blank ? blank : at;
        if (text[at] == ' ')
            blank = at;
        at += length ? length : 1;
    }
    return at;
}
