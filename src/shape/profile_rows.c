#include "profile_rows.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { WORD_MOST = 64 };

void pl_rows_complain(struct reader *r, size_t line, const char *rule, struct span text)
{
    char place[32], found[256];
    size_t length = (size_t)(text.to - text.from);
    length = length < sizeof found ? length : sizeof found - 1;
    if (length)
        memcpy(found, text.from, length);
    found[length] = '\0';
    snprintf(place, sizeof place, "line %zu", line);
    pl_problem_add(r->problems, PL_ERROR, line ? place : "", rule, found);
    r->complaints++;
}

/* ---- lines and words ---- */

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static struct span trimmed(struct span s)
{
    while (s.from < s.to && is_blank(*s.from))
        s.from++;
    while (s.to > s.from && is_blank(s.to[-1]))
        s.to--;
    return s;
}

/* CR, LF and both together end a line. */
static bool next_line(struct reader *r, struct span *line)
{
    const char *p = r->at;
    if (p == r->end)
        return false;
    while (p < r->end && *p != '\n' && *p != '\r')
        p++;
    *line = (struct span){r->at, p};
    if (p < r->end)
        p += r->end - p > 1 && p[0] == '\r' && p[1] == '\n' ? 2 : 1;
    r->at = p;
    r->line++;
    return true;
}

static bool is_remark(struct span s)
{
    size_t length = (size_t)(s.to - s.from);
    return length && (*s.from == '#' || *s.from == '!' || (length > 1 && s.from[0] == '/' && s.from[1] == '/'));
}

enum comma { COMMA_PARTS, COMMA_IN_NUMBER };

static bool parts_columns(struct span line, const char *p, enum comma comma)
{
    bool inside = p > line.from && is_digit(p[-1]) && p + 1 < line.to && is_digit(p[1]);
    return *p == ';' || (*p == ',' && !(comma == COMMA_IN_NUMBER && inside));
}

/* The next word of a line, from *at on; an empty one where a separator stands for it.  A separator at the end of the
 * line parts nothing. */
static bool next_word(struct span line, const char **at, enum comma comma, struct span *word)
{
    const char *p = *at;
    if (p == line.to)
        return false;
    word->from = p;
    while (p < line.to && !is_blank(*p) && !parts_columns(line, p, comma))
        p++;
    word->to = p;
    p = trimmed((struct span){p, line.to}).from;
    if (p < line.to && parts_columns(line, p, comma))
        p = trimmed((struct span){p + 1, line.to}).from;
    *at = p;
    return !is_remark(*word);
}

/* Decimal numbers with a point or a comma, exponents with E or, as old programs print them, D. */
static bool read_number(struct span word, double *value)
{
    char text[WORD_MOST];
    size_t length = (size_t)(word.to - word.from);
    const char *end;
    if (!length || length >= sizeof text)
        return false;
    for (size_t i = 0; i < length; i++) {
        char c = word.from[i];
        text[i] = c == ',' ? '.' : c == 'd' || c == 'D' ? 'e' : c;
    }
    text[length] = '\0';
    *value = pl_number_read(text, &end);
    return end == text + length && isfinite(*value);
}

static bool same_word(struct span word, const char *small)
{
    size_t length = strlen(small);
    if ((size_t)(word.to - word.from) != length)
        return false;
    for (size_t i = 0; i < length; i++)
        if ((word.from[i] | 0x20) != small[i])
            return false;
    return true;
}

/* Meant as a number, though it may be none. */
static bool looks_like_number(struct span word)
{
    if (word.from < word.to && (*word.from == '-' || *word.from == '+'))
        word.from++;
    return (word.from < word.to && (is_digit(*word.from) || *word.from == '.')) || same_word(word, "nan")
           || same_word(word, "inf") || same_word(word, "infinity");
}

static bool has(struct span s, char c)
{
    return s.from < s.to && memchr(s.from, c, (size_t)(s.to - s.from));
}

/* A line under one reading of the comma. */
struct words {
    size_t count, like_numbers;
    double value[2];
    struct span bad;           /* the first that is no number; from NULL without */
    bool point, decimal_first; /* some number has a point; the first word is a number with a decimal sign */
};

static struct words read_words(struct span line, enum comma comma)
{
    struct words w = {0};
    struct span word;
    for (const char *at = line.from; next_word(line, &at, comma, &word); w.count++) {
        double value = 0;
        bool number = read_number(word, &value);
        if (!number && !w.bad.from)
            w.bad = word;
        if (w.count < 2)
            w.value[w.count] = value;
        w.point = w.point || has(word, '.');
        w.like_numbers += looks_like_number(word);
        w.decimal_first = w.count ? w.decimal_first : number && (has(word, '.') || has(word, ','));
    }
    return w;
}

/* ---- what stands before the numbers ---- */

/* Better a complaint about a title than a point with a slip of the pen taken for one: only what cannot have been meant
 * as two numbers is a title. */
static bool titles(const struct words *w)
{
    return w->count == 1 || (w->like_numbers < w->count && !(w->count == 2 && w->decimal_first));
}

static bool is_title(struct span line)
{
    struct words parted = read_words(line, COMMA_PARTS), whole = read_words(line, COMMA_IN_NUMBER);
    return titles(&parted) && titles(&whole);
}

/* "x z", "x/c, y/c". */
static bool names_columns(struct span line)
{
    struct span x, z, more;
    const char *at = line.from;
    return next_word(line, &at, COMMA_PARTS, &x) && next_word(line, &at, COMMA_PARTS, &z)
           && !next_word(line, &at, COMMA_PARTS, &more) && (same_word(x, "x") || same_word(x, "x/c"))
           && (same_word(z, "z") || same_word(z, "y") || same_word(z, "z/c") || same_word(z, "y/c"));
}

static void set_title(struct pl_profile_text *out, struct span line)
{
    char text[4 * sizeof out->title];
    size_t length = (size_t)(line.to - line.from);
    length = length < sizeof text ? length : sizeof text - 1;
    memcpy(text, line.from, length);
    text[length] = '\0';
    pl_text_safe(out->title, sizeof out->title, text);
}

/* ---- the numbers ---- */

static void complain_of_words(struct reader *r, const struct words *w, struct span line)
{
    char rule[64];
    snprintf(rule, sizeof rule, "must hold two numbers, x and z: it has %zu", w->count);
    if (w->bad.from && w->bad.from == w->bad.to)
        pl_rows_complain(r, r->line, "has an empty column", line);
    else if (w->bad.from)
        pl_rows_complain(r, r->line, "is not a decimal number", w->bad);
    else
        pl_rows_complain(r, r->line, rule, line);
}

static void note(size_t *first, size_t line, bool seen)
{
    if (seen && !*first)
        *first = line;
}

static void read_pair(struct reader *r, struct span line)
{
    struct words parted = read_words(line, COMMA_PARTS), whole = read_words(line, COMMA_IN_NUMBER);
    bool by_parts = parted.count == 2 && !parted.bad.from, by_whole = whole.count == 2 && !whole.bad.from;
    const struct words *w = by_parts ? &parted : &whole;
    if (!by_parts && !by_whole) {
        complain_of_words(r, &parted, line);
        return;
    }
    note(&r->point_line, r->line, w->point);
    note(&r->comma_line, r->line, !by_parts);
    note(&r->parted_line, r->line, !by_whole);
    r->rows[r->count++] = (struct row){{w->value[0], w->value[1]}, r->line, line};
}

static void take_line(struct reader *r, struct span line)
{
    if (!r->count && !r->complaints && names_columns(line))
        return;
    if (!r->count && !r->complaints && !r->out->title[0] && is_title(line))
        set_title(r->out, line);
    else
        read_pair(r, line);
}

/* A plain text has no control bytes but tabs and line ends. */
static bool is_plain(struct reader *r, struct span line)
{
    for (const char *p = line.from; p < line.to; p++) {
        unsigned char c = (unsigned char)*p;
        char rule[48];
        if (c == '\t' || (c >= 0x20 && c != 0x7f))
            continue;
        snprintf(rule, sizeof rule, "is not plain text: it has a byte 0x%02x", c);
        pl_rows_complain(r, r->line, rule, (struct span){p, p});
        return false;
    }
    return true;
}

/* Byte order marks in front, and the mark that old systems put behind a text. */
static bool take_marks(struct reader *r)
{
    size_t length = (size_t)(r->end - r->at);
    if (length >= 2 && (!memcmp(r->at, "\xff\xfe", 2) || !memcmp(r->at, "\xfe\xff", 2))) {
        pl_rows_complain(r, 0, "is a text of two bytes a letter (UTF-16): save it as UTF-8",
                         (struct span){r->at, r->at});
        return false;
    }
    if (length >= 3 && !memcmp(r->at, "\xef\xbb\xbf", 3))
        r->at += 3;
    if (r->at < r->end && r->end[-1] == 0x1a)
        r->end--;
    return true;
}

static bool check_commas(struct reader *r)
{
    char rule[128];
    size_t other = r->point_line ? r->point_line : r->parted_line;
    if (!r->comma_line || !other)
        return true;
    snprintf(rule, sizeof rule, "has a comma as decimal sign, but line %zu %s", other,
             r->point_line ? "has a point" : "parts its columns with one");
    pl_rows_complain(r, r->comma_line, rule, (struct span){r->end, r->end});
    return false;
}

bool pl_rows_read(struct reader *r)
{
    struct span line;
    if (!take_marks(r))
        return false;
    while (next_line(r, &line)) {
        if (!is_plain(r, line))
            return false;
        line = trimmed(line);
        if (line.from == line.to || *line.from == ';' || is_remark(line))
            continue;
        if (r->count == r->capacity) {
            pl_rows_complain(r, r->line, "has too many points: at most 2000", line);
            return false;
        }
        take_line(r, line);
        if (r->complaints == PL_ROW_COMPLAINTS_MOST)
            return false;
    }
    return !r->complaints && check_commas(r);
}
