#include "view.h"

#include "verdict_words.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

enum { NARROW = 70, WIDE = 110 };

static void was_words(const struct pl_session *s, bool wide, char *out, size_t size)
{
    char before[48];
    pl_before_words(s, wide, before, sizeof before);
    snprintf(out, size, "%s%s", before[0] ? "was " : "", before);
}

static size_t count_not_checked(const struct pl_session *s)
{
    size_t n = 0;
    while (pl_check_not_checked(pl_session_part(s))[n])
        n++;
    return n;
}

/* "not checked: brackets, bonds and 5 more", with that many of the words. */
static void not_checked_words(const struct pl_session *s, size_t shown, char *out, size_t size)
{
    const char *const *words = pl_check_not_checked(pl_session_part(s));
    size_t n = count_not_checked(s);
    snprintf(out, size, "not checked: ");
    for (size_t i = 0; i < shown; i++)
        snprintf(out + strlen(out), size - strlen(out), "%s%s", i ? ", " : "", words[i]);
    if (!shown)
        snprintf(out, size, "%zu not checked", n);
    else if (shown < n)
        snprintf(out + strlen(out), size - strlen(out), " and %zu more", n - shown);
}

/* What is not checked, as many words as fit: at least that something is not.  At the right where there is room, so that
 * it stays where it is while figures before it grow and shrink. */
static void put_not_checked(const struct pl_session *s, struct pl_frame *f, int row, int column, bool right)
{
    char words[256];
    size_t shown = count_not_checked(s);
    int room = f->columns - column - 1;
    do
        not_checked_words(s, shown, words, sizeof words);
    while (pl_text_columns(words) > room && shown--);
    pl_frame_text_in(f, row, right ? f->columns - pl_text_columns(words) - 1 : column, room, PL_ROLE_QUIET, words);
}

static bool all_not_checked_fit(const struct pl_session *s, const struct pl_frame *f, int column)
{
    char words[256];
    not_checked_words(s, count_not_checked(s), words, sizeof words);
    return pl_text_columns(words) < f->columns - column;
}

/* "; g goes there", if it fits. */
static void go_words(const struct pl_session *s, int width, char *words, size_t size)
{
    char key[32], more[64];
    pl_keymap_words(&s->keys, pl_doing_of(PL_DO_WEAKEST, 0), key, sizeof key);
    snprintf(more, sizeof more, "; %s goes to the field", key);
    if (key[0] && pl_text_columns(words) + pl_text_columns(more) <= width)
        snprintf(words + strlen(words), size - strlen(words), "%s", more);
}

static int put_unjudged(const struct pl_session *s, struct pl_frame *f, int row)
{
    char sentence[640], old[128];
    bool narrow = f->columns < NARROW;
    pl_unjudged_words(s, sentence, sizeof sentence);
    pl_old_words(s, old, sizeof old);
    go_words(s, f->columns - 2, old, sizeof old);
    int column = pl_frame_text(f, row, 1, PL_ROLE_FAILS, "CANNOT BE JUDGED");
    struct pl_region beside = {row, column + 2, 2, f->columns - column - 3}, below = {row + 1, 1, 2, f->columns - 2};
    pl_view_wrapped(f, narrow ? below : beside, 0, PL_ROLE_TEXT, sentence);
    pl_frame_text_in(f, row + (narrow ? 3 : 2), 1, f->columns - 2, PL_ROLE_QUIET, old);
    return row + (narrow ? 4 : 3);
}

static int put_headline(struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char words[64];
    bool nothing = v->holds && v->worst_case == PL_NONE;
    pl_headline_words(v, words, sizeof words);
    return pl_frame_printf(f, row, 1, nothing ? PL_ROLE_WARNING : v->holds ? PL_ROLE_HOLDS : PL_ROLE_FAILS, " %s ", words);
}

/* "2 warnings, page 4" */
static void warning_words(const struct pl_session *s, char *out, size_t size)
{
    size_t n = pl_count_problems(s, PL_WARNING);
    out[0] = '\0';
    if (n)
        snprintf(out, size, "%zu warning%s, page 4", n, n == 1 ? "" : "s");
}

/* Why, cut so that it still says when that is with the mounts pinned. */
static void put_where(const struct pl_session *s, struct pl_frame *f, int row, int column, int width, const struct pl_verdict *v)
{
    char where[320];
    pl_where_words(s, v, PL_WORDS_WIDE, where, sizeof where);
    if (pl_text_columns(where) > width)
        pl_where_words(s, v, PL_WORDS_NARROW, where, sizeof where);
    size_t length = strlen(where), end = strlen(pl_pinned_end);
    bool pinned = length > end && !strcmp(where + length - end, pl_pinned_end);
    if (pinned)
        where[length - end] = '\0';
    pl_view_text_and_end(f, row, column, width, PL_ROLE_TEXT, where, pinned ? pl_pinned_end : "");
}

/* "one ply forgotten 1.04: top cap" */
static void forgotten_words(const struct pl_session *s, char *out, size_t size)
{
    char reserve[32];
    const char *item = pl_forgotten_words(s, reserve, sizeof reserve);
    out[0] = '\0';
    if (item)
        snprintf(out, size, "one ply forgotten %s: %s", reserve, item);
}

enum { FORGOTTEN = 3 + sizeof "one ply forgotten 0.73: " };

static int put_narrow(const struct pl_session *s, struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char mass[96], limit[160], was[64], line[400];
    pl_mass_words(s, v, mass, sizeof mass);
    pl_limit_words(v, true, limit, sizeof limit);
    was_words(s, f->columns >= WIDE, was, sizeof was);
    int column = put_headline(f, row, v);
    pl_frame_text_in(f, row, column + 1, f->columns - column - 2, PL_ROLE_QUIET, was);
    put_where(s, f, row + 1, 1, f->columns - 2, v);
    const char *behind = strstr(limit, " mm");  /* the figures */
    bool tight = behind && pl_text_columns(mass) + 2 + (int)(behind - limit) + 3 > f->columns - 3;
    snprintf(line, sizeof line, "%s%s%s", mass, tight ? " " : "  ", limit);
    int end = pl_frame_text_in(f, row + 2, 1, f->columns - 2, PL_ROLE_TEXT, line);
    forgotten_words(s, line, sizeof line);
    if (f->columns - end >= FORGOTTEN)
        pl_frame_text_in(f, row + 2, end + 2, f->columns - end - 3, PL_ROLE_TEXT, line);
    warning_words(s, line, sizeof line);
    column = pl_frame_text(f, row + 3, 1, PL_ROLE_WARNING, line);
    put_not_checked(s, f, row + 3, line[0] ? column + 2 : 1, false);
    return row + 4;
}

/* Three columns on; where its name does not fit, figures first.  The column behind. */
static int put_limit(struct pl_frame *f, int row, int column, int width, const struct pl_verdict *v)
{
    char limit[160];
    pl_limit_words(v, false, limit, sizeof limit);
    if (pl_text_columns(limit) > width)
        pl_limit_words(v, true, limit, sizeof limit);
    return limit[0] ? pl_frame_text_in(f, row, column + 3, width, PL_ROLE_TEXT, limit) : column;
}

static int put_wide(const struct pl_session *s, struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char where[320], mass[96], was[64];
    pl_mass_words(s, v, mass, sizeof mass);
    was_words(s, f->columns >= WIDE, was, sizeof was);
    int column = put_headline(f, row, v) + 1, was_at = f->columns - pl_text_columns(was) - 1;
    put_where(s, f, row, column, was_at - column - 1, v);
    pl_frame_text(f, row, was_at, PL_ROLE_QUIET, was);
    column = pl_frame_text(f, row + 1, 1, v->mass_holds ? PL_ROLE_TEXT : PL_ROLE_WARNING, mass);
    forgotten_words(s, where, sizeof where);
    column = put_limit(f, row + 1, column, f->columns - column - (where[0] ? FORGOTTEN + 4 : 4), v);
    if (where[0])
        column = pl_frame_text_in(f, row + 1, column + 3, f->columns / 2, PL_ROLE_TEXT, where);
    warning_words(s, where, sizeof where);
    int beside = column + 3 + (where[0] ? pl_text_columns(where) + 3 : 0);
    bool below = f->columns < WIDE || !all_not_checked_fit(s, f, beside);
    if (f->columns < WIDE)
        column = -2;  /* warnings stand below, too */
    column = pl_frame_text(f, f->columns < WIDE ? row + 2 : row + 1, column + 3, PL_ROLE_WARNING, where) - (where[0] ? 0 : 3);
    put_not_checked(s, f, below ? row + 2 : row + 1, f->columns < WIDE || !below ? column + 3 : 1, !below);
    return below ? row + 3 : row + 2;
}

int pl_view_verdict(const struct pl_session *s, struct pl_frame *f, int row)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    if (!s->valid || !v)
        return put_unjudged(s, f, row);
    return f->columns < NARROW ? put_narrow(s, f, row, v) : put_wide(s, f, row, v);
}
