#include "view.h"

#include "plyloft/keys.h"
#include "plyloft/profile.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what is asked, in words ---- */

struct asked { const char *title, *words, *answers; };

/* What is not here: a title is the label of the field asked about, or q->words, and so are words. */
static const struct asked all_asked[] = {
    [PL_ASK_QUIT] = {"Not saved", "The part has changes that are not saved: s saves and leaves, d leaves without them.",
                     "s save   d leave   Escape stay"},
    [PL_SHOW_HELP] = {"Every key", NULL, "any key goes back"},
    [PL_PICK_VALUE] = {NULL, NULL, "Up Down choose   Enter take   Escape leave"},
    [PL_PICK_MATERIAL] = {NULL, NULL, "Up Down choose   Enter take   Escape leave"},
    [PL_ASK_REMOVE] = {"Take it away?", NULL, "Delete take   Escape leave it"},
    [PL_ASK_PATH] = {"Save under another name", NULL, "Tab completes   Enter take   Escape leave"},
    [PL_ASK_PROFILE] = {"Coordinate file: two columns, x and z", NULL, "Tab completes   Enter take   Escape leave"},
    [PL_SHOW_PROFILE] = {NULL, NULL, "Enter take this profile   Escape leave it"},
    [PL_ASK_RECOVERY] = {"Work that was not saved", NULL, "r take up   d drop   Escape later"},
    [PL_ASK_OVERWRITE] = {"Changed by another program", NULL, "s over it  r read it  w other name  Escape"},
};

static struct asked asked(const struct pl_question *q)
{
    return q->kind < sizeof all_asked / sizeof *all_asked ? all_asked[q->kind] : (struct asked){0};
}

static const struct pl_field *field_picked(const struct pl_question *q)
{
    enum pl_group_id group;
    return q->kind == PL_PICK_VALUE ? pl_field_at(q->pointer, &group) : NULL;
}

const char *pl_question_title(const struct pl_session *s, const struct pl_question *q)
{
    (void)s;
    const char *title = asked(q).title, *words = q->words[0] ? q->words : "choose";
    return title ? title : field_picked(q) ? field_picked(q)->label : words;
}

const char *pl_question_words(const struct pl_question *q)
{
    return asked(q).words ? asked(q).words : q->words;
}

const char *pl_question_answers(const struct pl_question *q)
{
    /* A list of names stays, and each goes in or out. */
    if (field_picked(q) && field_picked(q)->kind == PL_FIELD_REFERENCES)
        return "Up Down choose   Enter in or out   Escape done";
    return asked(q).answers ? asked(q).answers : "";
}

/* ---- boxes ---- */

/* A box over the page, as wide as it needs, with a title; what is inside. */
static struct pl_region put_box(struct pl_frame *f, int rows, int columns, const char *title)
{
    rows = rows + 2 > f->rows - 4 ? f->rows - 4 : rows + 2;
    columns = columns + 4 > f->columns ? f->columns : columns + 4;
    int row = f->rows - 2 - rows, column = (f->columns - columns) / 2;
    pl_frame_fill(f, row, column, rows, columns, PL_ROLE_TEXT, ' ');
    pl_frame_line(f, row, column, columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    pl_frame_line(f, row + rows - 1, column, columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    pl_frame_line(f, row, column, rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    pl_frame_line(f, row, column + columns - 1, rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    pl_frame_glyph(f, row, column, PL_ROLE_LINE, PL_GLYPH_CORNER_TL);
    pl_frame_glyph(f, row, column + columns - 1, PL_ROLE_LINE, PL_GLYPH_CORNER_TR);
    pl_frame_glyph(f, row + rows - 1, column, PL_ROLE_LINE, PL_GLYPH_CORNER_BL);
    pl_frame_glyph(f, row + rows - 1, column + columns - 1, PL_ROLE_LINE, PL_GLYPH_CORNER_BR);
    pl_frame_text_in(f, row, column + 2, columns - 4, PL_ROLE_TITLE, title);
    return (struct pl_region){row + 1, column + 2, rows - 2, columns - 4};
}

static void put_foot(struct pl_frame *f, const char *words)
{
    pl_frame_fill(f, f->rows - 1, 0, 1, f->columns, PL_ROLE_TEXT, ' ');
    pl_frame_text_in(f, f->rows - 1, 1, f->columns - 2, PL_ROLE_QUIET, words);
}

/* ---- help ---- */

static size_t count_lines(void)
{
    size_t n = 0;
    for (size_t i = 0; i < pl_n_bindings; i++)
        n += pl_bindings[i].action != PL_DO_PAGE;
    return n;
}

/* Side by side where there is room, else one below the other and moved with Up and Down. */
static void put_help(struct pl_frame *f, const struct pl_question *q, int top)
{
    int lines = (int)count_lines(), room = f->rows - top - 2, most = f->columns / 38 > 0 ? f->columns / 38 : 1;
    int columns = (lines + room - 1) / room, line = 0;
    columns = columns > most ? most : columns;
    int width = f->columns / columns;
    bool scrolls = lines > room * columns;
    if (scrolls)
        line = -(int)q->first;
    pl_frame_fill(f, top, 0, f->rows - top, f->columns, PL_ROLE_TEXT, ' ');
    pl_frame_text_in(f, top, 2, f->columns - 4, PL_ROLE_TITLE, scrolls ? "Every key; Up Down for more, Escape back" : "Every key; any key goes back");
    for (size_t i = 0; i < pl_n_bindings; i++) {
        char key[32];
        if (pl_bindings[i].action == PL_DO_PAGE)
            continue;
        if (line >= 0 && line < room * columns) {
            int row = top + 1 + line % room, column = 2 + line / room * width;
            pl_key_name(pl_bindings[i].key, key, sizeof key);
            pl_frame_text(f, row, column, PL_ROLE_TITLE, key);
            pl_frame_text_in(f, row, column + 10, width - 12, PL_ROLE_TEXT, pl_bindings[i].words);
        }
        line++;
    }
    pl_frame_text_in(f, f->rows - 1, 2, f->columns - 4, PL_ROLE_TEXT, "1 to 8: pages Shape Cloth Loads Strength Joints Shop Trials Log");
}

/* ---- lists ---- */

static void put_list(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    size_t n = pl_question_items(s, q);
    int most = f->rows - 10, rows = (int)n < most ? (int)n : most;
    struct pl_region r = put_box(f, rows < 1 ? 1 : rows, f->columns < 60 ? f->columns - 4 : 56,
                                 pl_question_title(s, q));
    size_t first = q->chosen >= (size_t)r.rows ? q->chosen - (size_t)r.rows + 1 : 0;
    if (!n)
        pl_frame_text_in(f, r.row, r.column, r.columns, PL_ROLE_QUIET, "nothing to choose from");
    for (int i = 0; i < r.rows && first + (size_t)i < n; i++) {
        char text[256];
        size_t item = first + (size_t)i;
        pl_question_item(s, q, item, text, sizeof text);
        if (pl_question_ticked(s, q, text))
            pl_frame_text(f, r.row + i, r.column + r.columns - 8, PL_ROLE_TITLE, "chosen");
        if (item == q->chosen)
            pl_frame_glyph(f, r.row + i, r.column, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
        pl_frame_text_in(f, r.row + i, r.column + 2, r.columns - 11, item == q->chosen ? PL_ROLE_CHOSEN : PL_ROLE_TEXT, text);
    }
    put_foot(f, pl_question_answers(q));
}

/* ---- paths and profiles ---- */

static void put_path(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    struct pl_region r = put_box(f, 2, f->columns < 70 ? f->columns - 4 : 66, pl_question_title(s, q));
    pl_view_line(&q->line, f, r.row, r.column, r.columns);
    pl_frame_text_in(f, r.row + 1, r.column, r.columns, s->message[0] ? PL_ROLE_WARNING : PL_ROLE_QUIET,
                     s->message[0] ? s->message : pl_question_answers(q));
    put_foot(f, "");
}

static void put_profile(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    struct pl_region r = put_box(f, f->rows < 30 ? 9 : 14, f->columns < 70 ? f->columns - 4 : 66, pl_question_title(s, q));
    struct pl_canvas c = {f, r.row, r.column, r.rows, r.columns, -0.02, 1.02, -0.2, 0.2};
    double low = HUGE_VAL, high = -HUGE_VAL;
    for (size_t i = 0; i < s->n_points; i++) {
        low = fmin(low, s->points[i].z);
        high = fmax(high, s->points[i].z);
    }
    c.y_from = low - 0.02;
    c.y_to = high + 0.02;
    for (size_t i = 1; i < s->n_points; i++)
        pl_canvas_line(&c, s->points[i - 1].x, s->points[i - 1].z, s->points[i].x, s->points[i].z, PL_ROLE_TEXT);
    put_foot(f, pl_question_answers(q));
}

/* ---- questions with words ---- */

static void put_words(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    const char *words = pl_question_words(q);
    struct pl_region r = put_box(f, 3, f->columns < 70 ? f->columns - 4 : 66, pl_question_title(s, q));
    /* Two lines at most, broken at a blank. */
    char first[200];
    snprintf(first, sizeof first, "%s", words);
    const char *rest = "";
    if (pl_text_columns(words) > r.columns) {
        size_t at = strlen(first) < (size_t)r.columns ? strlen(first) : (size_t)r.columns;
        while (at && first[at] != ' ')
            at--;
        first[at] = '\0';
        rest = words + at + (words[at] == ' ');
    }
    pl_frame_text_in(f, r.row, r.column, r.columns, PL_ROLE_TEXT, first);
    pl_frame_text_in(f, r.row + 1, r.column, r.columns, PL_ROLE_TEXT, rest);
    pl_frame_text_in(f, r.row + 2, r.column, r.columns, PL_ROLE_TITLE, pl_question_answers(q));
    put_foot(f, "");
}

void pl_view_question(struct pl_session *s, struct pl_frame *f, int top)
{
    const struct pl_question *q = pl_question_of(s);
    f->cursor_row = f->cursor_column = -1;
    f->n_hits = 0;
    switch (q->kind) {
    case PL_SHOW_HELP: put_help(f, q, top); break;
    case PL_PICK_VALUE:
    case PL_PICK_MATERIAL: put_list(s, f, q); break;
    case PL_ASK_PATH:
    case PL_ASK_PROFILE: put_path(s, f, q); break;
    case PL_SHOW_PROFILE: put_profile(s, f, q); break;
    case PL_ASK_QUIT:
    case PL_ASK_REMOVE:
    case PL_ASK_RECOVERY:
    case PL_ASK_OVERWRITE: put_words(s, f, q); break;
    }
}
