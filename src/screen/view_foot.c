/* view_foot.c - the last row: which keys do what here, each one a place to click. */
#include "view.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

enum { NARROW = 60 };

/* A name, shorter where room is scarce. */
static void key_words(int key, bool brief, char *out, size_t size)
{
    char name[32];
    pl_key_name(key, name, sizeof name);
    if (brief && key == PL_KEY_DELETE)
        snprintf(out, size, "Del");
    else if (brief && key == PL_KEY_ESCAPE)
        snprintf(out, size, "Esc");
    else if (brief && !strncmp(name, "Ctrl-", 5))
        snprintf(out, size, "^%s", name + 5);
    else
        snprintf(out, size, "%s", name);
}

static int width_of(const struct pl_foot *foot, bool brief, bool words)
{
    char name[32];
    int width = 0;
    for (int i = 0; i < 2; i++) {
        key_words(i ? foot->other : foot->key, brief, name, sizeof name);
        width += pl_text_columns(name) + (i && name[0] ? 1 : 0);
    }
    return width + (words && foot->words[0] ? 1 + pl_text_columns(foot->words) : 0);
}

static int put_key(struct pl_frame *f, int row, int column, int key, bool brief)
{
    char name[32];
    key_words(key, brief, name, sizeof name);
    return pl_frame_text(f, row, column, PL_ROLE_TEXT, name);
}

static int put_entry(struct pl_frame *f, int row, int column, const struct pl_foot *foot, bool brief, bool words)
{
    int start = column, other = column;
    column = put_key(f, row, column, foot->key, brief);
    if (foot->other) {
        other = column + 1;
        column = put_key(f, row, other, foot->other, brief);
    }
    if (words && foot->words[0])
        column = pl_frame_text(f, row, column + 1, PL_ROLE_QUIET, foot->words);
    pl_frame_hit(f, row, start, 1, column - start, PL_DO_PRESS, foot->key);
    if (foot->other)
        pl_frame_hit(f, row, other, 1, column - other, PL_DO_PRESS, foot->other);
    return column;
}

static int gap_in(struct pl_region r)
{
    return r.columns < 100 ? 2 : 3;
}

int pl_view_foot_width(struct pl_region r, const struct pl_foot *feet, size_t count)
{
    int total = 0;
    for (size_t i = 0; i < count; i++)
        total += width_of(&feet[i], false, true) + (i ? gap_in(r) : 0);
    return total;
}

/* Where a narrow row has no room for words, keys alone; but for the last, which is the way to all the others. */
void pl_view_foot(struct pl_frame *f, struct pl_region r, const struct pl_foot *feet, size_t count)
{
    bool brief = r.columns < NARROW && pl_view_foot_width(r, feet, count) + 1 >= r.columns;
    int gap = brief ? 1 : gap_in(r), column = r.column + 1, end = r.column + r.columns;
    int last = count ? width_of(&feet[count - 1], brief, true) : 0;
    pl_frame_fill(f, r.row, r.column, 1, r.columns, PL_ROLE_TEXT, ' ');
    for (size_t i = 0; i < count; i++) {
        bool is_last = i + 1 == count;
        int width = width_of(&feet[i], brief, !brief || is_last);
        if (!feet[i].key || (!is_last && column + width + gap + last >= end))
            continue;
        column = put_entry(f, r.row, column, &feet[i], brief, !brief || is_last) + gap;
    }
}

/* ---- of the pages ---- */

struct entry { enum pl_action action, other; const char *words; };

/* The most needed first: what does not fit is left out, help never. */
static const struct entry of_fields[] = {
    {PL_DO_STEP_DOWN, PL_DO_STEP_UP, "step"}, {PL_DO_ENTER, 0, "type"}, {PL_DO_NEXT_BLOCK, 0, "part"},
    {PL_DO_ADD, 0, "add"}, {PL_DO_REMOVE, 0, ""}, {PL_DO_MARKER_LEFT, PL_DO_MARKER_RIGHT, "span"}, {PL_DO_UNDO, 0, "undo"},
    {PL_DO_WEAKEST, 0, "weakest"}, {PL_DO_KEEP_STATE, 0, "keep"}, {PL_DO_SAVE, 0, "save"}, {PL_DO_COPY, 0, "copy"},
    {PL_DO_ROW_UP, PL_DO_ROW_DOWN, "move"}, {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_layup[] = {
    {PL_DO_STEP_DOWN, PL_DO_STEP_UP, "step"}, {PL_DO_ENTER, 0, "type"}, {PL_DO_NEXT_BLOCK, 0, "part"},
    {PL_DO_HOLD_END, 0, "end"}, {PL_DO_KEEP_STATE, 0, "keep"}, {PL_DO_MARKER_LEFT, PL_DO_MARKER_RIGHT, "span"},
    {PL_DO_UNDO, 0, "undo"}, {PL_DO_WEAKEST, 0, "weakest"}, {PL_DO_ADD, 0, "add"}, {PL_DO_REMOVE, 0, ""}, {PL_DO_SAVE, 0, "save"},
    {PL_DO_COPY, 0, "copy"}, {PL_DO_ROW_UP, PL_DO_ROW_DOWN, "move"}, {PL_DO_SIDE, 0, "top, bottom"}, {PL_DO_FIND, 0, "find"},
    {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_results[] = {
    {PL_DO_UP, PL_DO_DOWN, "case"}, {PL_DO_LEFT, PL_DO_RIGHT, "curve"}, {PL_DO_WEAKEST, 0, "weakest"},
    {PL_DO_MARKER_LEFT, PL_DO_MARKER_RIGHT, "span"}, {PL_DO_NEXT_BLOCK, 0, "part"}, {PL_DO_KEEP_STATE, 0, "keep"},
    {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_trials[] = {
    {PL_DO_KEEP_STATE, 0, "keep"}, {PL_DO_LEFT, PL_DO_RIGHT, "column"}, {PL_DO_ENTER, 0, "bring it back"}, {PL_DO_REMOVE, 0, "drop"},
    {PL_DO_UP, PL_DO_DOWN, "rows"}, {PL_DO_UNDO, 0, "undo"}, {PL_DO_SAVE, 0, "save"}, {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_air[] = {
    {PL_DO_MARKER_LEFT, PL_DO_MARKER_RIGHT, "span"}, {PL_DO_NEXT_BLOCK, 0, "part"}, {PL_DO_KEEP_STATE, 0, "keep"},
    {PL_DO_UNDO, 0, "undo"}, {PL_DO_SAVE, 0, "save"}, {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_settings[] = {
    {PL_DO_LEFT, PL_DO_RIGHT, "speed, height, incidence"}, {PL_DO_UP, PL_DO_DOWN, "row"}, {PL_DO_NEXT_CASE, 0, "case"}, {PL_DO_NEXT_BLOCK, 0, "part"}, {PL_DO_KEEP_STATE, 0, "keep"},
    {PL_DO_UNDO, 0, "undo"}, {PL_DO_SAVE, 0, "save"}, {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_shop[] = {
    {PL_DO_UP, PL_DO_DOWN, "rows"}, {PL_DO_NEXT_BLOCK, 0, "part"}, {PL_DO_WRITE_KIT, 0, "kit file"}, {PL_DO_WRITE_BOOK, 0, "ply book"}, {PL_DO_KEEP_STATE, 0, "keep"}, {PL_DO_UNDO, 0, "undo"}, {PL_DO_SAVE, 0, "save"},
    {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_reactions[] = {
    {PL_DO_UP, PL_DO_DOWN, "rows"}, {PL_DO_NEXT_CASE, 0, "case"}, {PL_DO_ELEMENT, 0, "element"}, {PL_DO_KEEP_STATE, 0, "keep"}, {PL_DO_UNDO, 0, "undo"},
    {PL_DO_SAVE, 0, "save"}, {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};
static const struct entry of_others[] = {
    {PL_DO_SAVE, 0, "save"}, {PL_DO_UNDO, 0, "undo"}, {PL_DO_FIND, 0, "find"}, {PL_DO_QUIT, 0, "leave"}, {PL_DO_HELP, 0, "help"},
};

static const struct entry *entries_of(const struct pl_session *s, size_t *count)
{
#define LIST(list) (*count = sizeof(list) / sizeof *(list), list)
    const struct pl_block *b = pl_block_here(s);
    if (s->page == PL_PAGE_TRIALS)
        return LIST(of_trials);
    if (!b)
        return LIST(of_others);
    if (b->kind == PL_CASES || b->kind == PL_CURVES_OF)
        return LIST(of_results);
    if (b->kind == PL_AIR)
        return LIST(of_air);
    if (b->kind == PL_SETTINGS)
        return LIST(of_settings);
    if (pl_block_is_shop(b))
        return LIST(of_shop);
    if (b->kind == PL_REACTIONS)
        return LIST(of_reactions);
    return b->group == PL_GROUP_LAYUP ? LIST(of_layup) : LIST(of_fields);
#undef LIST
}

const struct pl_foot *pl_hold_feet(size_t *count)
{
    static const struct pl_foot holding[] = {
        {PL_KEY_LEFT, PL_KEY_RIGHT, "10 mm"}, {'-', '+', "1 mm"}, {PL_KEY_TAB, 0, "other end"}, {PL_KEY_ENTER, 0, "done"}, {PL_KEY_HOME, 0, "to the marker"},
        {PL_KEY_END, 0, "to the tip"}, {PL_KEY_ESCAPE, 0, "put back"},
    };
    *count = sizeof holding / sizeof *holding;
    return holding;
}

void pl_view_page_foot(const struct pl_session *s, struct pl_frame *f)
{
    static const struct pl_foot typing[] = {
        {PL_KEY_ENTER, 0, "take it"}, {PL_KEY_ESCAPE, 0, "leave it as it was"}, {PL_KEY_HOME, PL_KEY_END, ""}, {PL_KEY_CTRL('U'), 0, "empty it"},
    };
    struct pl_foot feet[24];
    size_t n;
    if (s->typing) {
        pl_view_foot(f, pl_foot_row(f), typing, f->columns < NARROW ? 2 : 4);
        return;
    }
    if (s->held.on) {
        const struct pl_foot *holding = pl_hold_feet(&n);
        pl_view_foot(f, pl_foot_row(f), holding, n);
        return;
    }
    const struct entry *entries = entries_of(s, &n);
    for (size_t i = 0; i < n; i++)
        feet[i] = (struct pl_foot){pl_keymap_key(&s->keys, entries[i].action, 0),
                                   entries[i].other ? pl_keymap_key(&s->keys, entries[i].other, 0) : 0, entries[i].words};
    pl_view_foot(f, pl_foot_row(f), feet, n);
}

size_t pl_view_page_actions(const struct pl_session *s, enum pl_action *out, size_t most)
{
    size_t n, count = 0;
    const struct entry *entries = entries_of(s, &n);
    for (size_t i = 0; i < n; i++)
        for (int k = 0; k < 2 && count < most; k++)
            if (k ? entries[i].other : entries[i].action)
                out[count++] = k ? entries[i].other : entries[i].action;
    return count;
}
