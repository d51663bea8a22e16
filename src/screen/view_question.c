#include "view.h"

#include "plyloft/keys.h"
#include "plyloft/profile.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what is asked, in words ---- */

void pl_question_title(const struct pl_session *s, const struct pl_question *q, char *out, size_t size)
{
    static const char *const titles[] = {
        [PL_ASK_QUIT] = "Not saved", [PL_SHOW_HELP] = "Help", [PL_PICK_VALUE] = "choose", [PL_ASK_REMOVE] = "Take it away?",
        [PL_ASK_PATH] = "Save under another name", [PL_ASK_PROFILE] = "Coordinate file: two columns, x and z",
        [PL_ASK_RECOVERY] = "Work that was not saved", [PL_ASK_OVERWRITE] = "Changed by another program",
        [PL_FIND_ACTION] = "Find an action: type a part of its name", [PL_PICK_EDIT] = "Edits: Enter goes back to one",
        [PL_PICK_STATE] = "Kept states: Enter brings one back",
        [PL_ASK_KIT] = "Kit: a file ending in .pdf, or .svg for the rolls", [PL_ASK_BOOK] = "Ply book: a file ending in .pdf",
    };
    enum pl_group_id group;
    const struct pl_field *field = pl_field_at(q->pointer, &group);
    const char *title = q->kind == PL_PICK_MATERIAL || q->kind == PL_SHOW_PROFILE ? q->words : titles[q->kind];
    (void)s;
    snprintf(out, size, "%s", q->kind == PL_PICK_VALUE && field ? field->label : title);
}

const char *pl_question_words(const struct pl_session *s, const struct pl_question *q)
{
    if (q->kind == PL_ASK_QUIT)
        return "The part has changes that are not saved.";
    if (q->kind == PL_SHOW_HELP)
        return q->chosen ? "" : pl_page_words(s->page);
    return q->kind == PL_PICK_MATERIAL || q->kind == PL_SHOW_PROFILE ? "" : q->words;  /* their title */
}

static const struct pl_foot quit[] = {{'s', 0, "save"}, {'d', 0, "leave without"}, {PL_KEY_ESCAPE, 0, "stay"}};
static const struct pl_foot help[] = {
    {PL_KEY_UP, PL_KEY_DOWN, "more"}, {'?', 0, "every key"}, {'f', 0, "find"}, {PL_KEY_ESCAPE, 0, "back"},
};
static const struct pl_foot all_keys[] = {
    {PL_KEY_UP, PL_KEY_DOWN, "more"}, {'?', 0, "this page"}, {'f', 0, "find"}, {PL_KEY_ESCAPE, 0, "back"},
};
static const struct pl_foot list[] = {
    {PL_KEY_UP, PL_KEY_DOWN, "choose"}, {PL_KEY_ENTER, 0, "take"}, {PL_KEY_ESCAPE, 0, "leave"},
};
static const struct pl_foot names[] = {
    {PL_KEY_UP, PL_KEY_DOWN, "choose"}, {PL_KEY_ENTER, 0, "in or out"}, {PL_KEY_ESCAPE, 0, "done"},
};
static const struct pl_foot away[] = {{PL_KEY_ENTER, 0, "take it away"}, {PL_KEY_ESCAPE, 0, "leave it"}};
static const struct pl_foot path[] = {
    {PL_KEY_TAB, 0, "completes"}, {PL_KEY_ENTER, 0, "take"}, {PL_KEY_ESCAPE, 0, "leave"},
};
static const struct pl_foot profile[] = {{PL_KEY_ENTER, 0, "take this profile"}, {PL_KEY_ESCAPE, 0, "leave it"}};
static const struct pl_foot recovery[] = {{'r', 0, "take up"}, {PL_KEY_DELETE, 0, "drop"}, {PL_KEY_ESCAPE, 0, "later"}};
static const struct pl_foot changed[] = {
    {'s', 0, "over it"}, {'r', 0, "read it"}, {'w', 0, "new name"}, {PL_KEY_ESCAPE, 0, ""},
};

#define FEET(feet) (*count = sizeof(feet) / sizeof *(feet), feet)

/* A list of names stays, and each goes in or out. */
static const struct pl_foot *list_feet(const struct pl_question *q, size_t *count)
{
    enum pl_group_id group;
    const struct pl_field *field = q->kind == PL_PICK_VALUE ? pl_field_at(q->pointer, &group) : NULL;
    return field && field->kind == PL_FIELD_REFERENCES ? FEET(names) : FEET(list);
}

const struct pl_foot *pl_question_feet(const struct pl_question *q, size_t *count)
{
    switch (q->kind) {
    case PL_ASK_QUIT: return FEET(quit);
    case PL_SHOW_HELP: return q->chosen ? FEET(all_keys) : FEET(help);
    case PL_ASK_REMOVE: return FEET(away);
    case PL_ASK_PATH:
    case PL_ASK_KIT:
    case PL_ASK_BOOK:
    case PL_ASK_PROFILE: return FEET(path);
    case PL_SHOW_PROFILE: return FEET(profile);
    case PL_ASK_RECOVERY: return FEET(recovery);
    case PL_ASK_OVERWRITE: return FEET(changed);
    case PL_PICK_VALUE:
    case PL_PICK_MATERIAL:
    case PL_FIND_ACTION:
    case PL_PICK_EDIT:
    case PL_PICK_STATE: break;
    }
    return list_feet(q, count);
}

static void put_foot(struct pl_frame *f, const struct pl_question *q)
{
    size_t n;
    const struct pl_foot *feet = pl_question_feet(q, &n);
    pl_view_foot(f, pl_foot_row(f), feet, n);
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

/* ---- lists ---- */

static void put_item(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_question *q, size_t item)
{
    char text[256];
    pl_question_item(s, q, item, text, sizeof text);
    int width = r.columns - 2;
    if (pl_question_ticked(s, q, text)) {
        pl_frame_text(f, r.row, r.column + r.columns - 8, PL_ROLE_TITLE, "chosen");
        width -= 9;
    }
    if (q->kind == PL_FIND_ACTION) {
        char keys[64];
        pl_keymap_words(&s->keys, pl_find_doing(q, item), keys, sizeof keys);
        pl_frame_text_right(f, r.row, r.column + r.columns - 9, 9, PL_ROLE_TITLE, keys);
        width -= 10;
    }
    if (item == q->chosen)
        pl_frame_glyph(f, r.row, r.column, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
    pl_frame_text_in(f, r.row, r.column + 2, width, item == q->chosen ? PL_ROLE_CHOSEN : PL_ROLE_TEXT, text);
    pl_frame_hit(f, r.row, r.column, 1, r.columns, PL_DO_CHOOSE_ITEM, (int)item);
}

static void put_list(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    size_t n = pl_question_items(s, q);
    int typed = q->kind == PL_FIND_ACTION, most = f->rows - 10 - typed, rows = (int)n < most ? (int)n : most;
    if (typed)
        rows = most < 12 ? most : 12;  /* the box keeps its size while words are typed */
    char title[256];
    pl_question_title(s, q, title, sizeof title);
    struct pl_region r = put_box(f, (rows < 1 ? 1 : rows) + typed, f->columns < 60 ? f->columns - 4 : 56, title);
    if (typed) {
        struct pl_region line = pl_region_top(&r, 1);
        pl_view_line(&q->line, f, line.row, line.column, line.columns);
    }
    size_t first = q->chosen >= (size_t)r.rows ? q->chosen - (size_t)r.rows + 1 : 0;
    if (!n)
        pl_frame_text_in(f, r.row, r.column, r.columns, PL_ROLE_QUIET, typed ? "no action is called so" : "nothing to choose from");
    for (int i = 0; i < r.rows && first + (size_t)i < n; i++)
        put_item(s, f, (struct pl_region){r.row + i, r.column, 1, r.columns}, q, first + (size_t)i);
    put_foot(f, q);
}

/* ---- paths and profiles ---- */

static void put_path(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    char title[256];
    pl_question_title(s, q, title, sizeof title);
    struct pl_region r = put_box(f, 3, f->columns < 70 ? f->columns - 4 : 66, title);
    pl_view_line(&q->line, f, r.row, r.column, r.columns);
    struct pl_region below = {r.row + 1, r.column, 2, r.columns};
    pl_view_wrapped(f, below, 0, s->message[0] ? PL_ROLE_WARNING : PL_ROLE_QUIET, s->message);
    put_foot(f, q);
}

static void put_profile(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    struct pl_region r = put_box(f, f->rows < 30 ? 9 : 14, f->columns < 70 ? f->columns - 4 : 66, q->words);
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
    put_foot(f, q);
}

/* ---- questions with words ---- */

/* The answers stand in the box, where a person looks, if it has room for their words; else in the row below. */
static void put_words(struct pl_session *s, struct pl_frame *f, const struct pl_question *q)
{
    char title[256];
    size_t n;
    const struct pl_foot *feet = pl_question_feet(q, &n);
    pl_question_title(s, q, title, sizeof title);
    struct pl_region r = put_box(f, 4, f->columns < 70 ? f->columns - 4 : 66, title);
    struct pl_region last = {r.row + r.rows - 1, r.column - 1, 1, r.columns + 1};
    bool inside = pl_view_foot_width(last, feet, n) + 2 < r.columns;
    pl_view_wrapped(f, (struct pl_region){r.row, r.column, r.rows - inside, r.columns}, 0, PL_ROLE_TEXT, pl_question_words(s, q));
    pl_view_foot(f, pl_foot_row(f), feet, inside ? 0 : n);
    if (inside)
        pl_view_foot(f, last, feet, n);
}

void pl_view_question(struct pl_session *s, struct pl_frame *f, int top)
{
    const struct pl_question *q = pl_question_of(s);
    f->cursor_row = f->cursor_column = -1;
    f->n_hits = 0;
    switch (q->kind) {
    case PL_SHOW_HELP: pl_view_help(s, f, q, top); break;
    case PL_PICK_VALUE:
    case PL_PICK_MATERIAL:
    case PL_FIND_ACTION:
    case PL_PICK_EDIT:
    case PL_PICK_STATE: put_list(s, f, q); break;
    case PL_ASK_PATH:
    case PL_ASK_KIT:
    case PL_ASK_BOOK:
    case PL_ASK_PROFILE: put_path(s, f, q); break;
    case PL_SHOW_PROFILE: put_profile(s, f, q); break;
    case PL_ASK_QUIT:
    case PL_ASK_REMOVE:
    case PL_ASK_RECOVERY:
    case PL_ASK_OVERWRITE: put_words(s, f, q); break;
    }
}
