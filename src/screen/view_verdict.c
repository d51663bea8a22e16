#include "view.h"

#include "verdict_words.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static void was_words(const struct pl_session *s, bool wide, char *out, size_t size)
{
    char before[48];
    pl_before_words(s, wide, before, sizeof before);
    snprintf(out, size, "%s%s", before[0] ? "was " : "", before);
}

/* What is not checked, as much as fits: at least that something is not.  At the right where there is room, so that it
 * stays where it is while figures before it grow and shrink. */
static void put_not_checked(struct pl_frame *f, int row, int column, bool right)
{
    char words[256] = "not checked: ";
    for (const char *const *word = pl_check_not_checked(); *word; word++)
        snprintf(words + strlen(words), sizeof words - strlen(words), "%s%s", *word, word[1] ? ", " : "");
    int at = f->columns - pl_text_columns(words) - 1;
    column = right && at > column ? at : column;
    pl_frame_text_in(f, row, column, f->columns - column - 1, PL_ROLE_QUIET, words);
}

static int put_unjudged(const struct pl_session *s, struct pl_frame *f, int row)
{
    char sentence[640], old[64];
    bool narrow = f->columns < 70;
    pl_unjudged_words(s, sentence, sizeof sentence);
    pl_old_words(s, old, sizeof old);
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
    pl_where_words(s, v, false, where, sizeof where);
    size_t length = strlen(where), end = strlen(pl_pinned_end);
    bool pinned = length > end && !strcmp(where + length - end, pl_pinned_end);
    if (pinned)
        where[length - end] = '\0';
    pl_view_text_and_end(f, row, column, width, PL_ROLE_TEXT, where, pinned ? pl_pinned_end : "");
}

static int put_narrow(const struct pl_session *s, struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char mass[96], limit[160], was[64], line[400];
    pl_mass_words(s, v, mass, sizeof mass);
    pl_limit_words(v, limit, sizeof limit);
    was_words(s, f->columns >= 110, was, sizeof was);
    int column = put_headline(f, row, v);
    pl_frame_text_in(f, row, column + 1, f->columns - column - 2, PL_ROLE_QUIET, was);
    put_where(s, f, row + 1, 1, f->columns - 2, v);
    snprintf(line, sizeof line, "%s  %s", mass, limit);
    pl_frame_text_in(f, row + 2, 1, f->columns - 2, PL_ROLE_TEXT, line);
    warning_words(s, line, sizeof line);
    column = pl_frame_text(f, row + 3, 1, PL_ROLE_WARNING, line);
    put_not_checked(f, row + 3, line[0] ? column + 2 : 1, false);
    return row + 4;
}

/* "one top cap ply forgotten: 1.04" */
static void forgotten_words(const struct pl_session *s, char *out, size_t size)
{
    char reserve[32];
    const char *item = pl_forgotten_words(s, reserve, sizeof reserve);
    out[0] = '\0';
    if (item)
        snprintf(out, size, "one %s ply forgotten: %s", item, reserve);
}

static int put_wide(const struct pl_session *s, struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char where[320], mass[96], limit[160], was[64];
    pl_mass_words(s, v, mass, sizeof mass);
    pl_limit_words(v, limit, sizeof limit);
    was_words(s, f->columns >= 110, was, sizeof was);
    int column = put_headline(f, row, v) + 1, was_at = f->columns - pl_text_columns(was) - 1;
    put_where(s, f, row, column, was_at - column - 1, v);
    pl_frame_text(f, row, was_at, PL_ROLE_QUIET, was);
    column = pl_frame_text(f, row + 1, 1, v->mass_holds ? PL_ROLE_TEXT : PL_ROLE_WARNING, mass);
    if (limit[0])
        column = pl_frame_text_in(f, row + 1, column + 3, f->columns / 2, PL_ROLE_TEXT, limit);
    forgotten_words(s, where, sizeof where);
    if (where[0])
        column = pl_frame_text_in(f, row + 1, column + 3, f->columns / 2, PL_ROLE_TEXT, where);
    bool below = f->columns < 110;
    warning_words(s, where, sizeof where);
    if (below)
        column = -2;
    column = pl_frame_text(f, below ? row + 2 : row + 1, column + 3, PL_ROLE_WARNING, where) - (where[0] ? 0 : 3);
    put_not_checked(f, below ? row + 2 : row + 1, column + 3, !below);
    return below ? row + 3 : row + 2;
}

int pl_view_verdict(const struct pl_session *s, struct pl_frame *f, int row)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    if (!s->valid || !v)
        return put_unjudged(s, f, row);
    return f->columns < 70 ? put_narrow(s, f, row, v) : put_wide(s, f, row, v);
}
