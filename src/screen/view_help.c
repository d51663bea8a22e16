/* view_help.c - help on the page and the field in hand, and the sheet of all keys. */
#include "view.h"

#include "plyloft/buffer.h"
#include "plyloft/keys.h"
#include "plyloft/part_edit.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static const char *const page_words[PL_PAGES] = {
    [PL_PAGE_SHAPE] = "What the wing is: stations along the span with chord, sweep, height, twist and profile; the profiles; end "
                      "plates. A station behind another element has gap and overlap beside them. Every figure is solved again "
                      "as you change it.",
    [PL_PAGE_CLOTH] = "What is laid on the core, in laying order: ply groups with their cloth, angle, plies and ends, then the "
                      "cloths, resins and cores they are made of. \"here\" is plies at the marker, \"one less\" the lowest "
                      "reserve with one ply of the group forgotten. On the plan the figures are plies; bold ones are the ends "
                      "of the group in hand.",
    [PL_PAGE_LOADS] = "What the wing must carry: downforce, the car on a jack, a strike on the tip, single pushes; and what holds "
                      "it. A factor multiplies the load of its case. Loads are planning figures; the rule book has the last word.",
    [PL_PAGE_STRENGTH] = "Whether it holds, and why not: the lowest reserve of every load case, where it is and of what kind. A "
                         "reserve of 1 just holds the factored load. Limits and allowables stand in the other parts of the page.",
    [PL_PAGE_JOINTS] = "What the wing puts on each of its mounts, case by case, as given and with its clamped mounts pinned: forces up and "
                       "aft, moments by the right hand about axes aft, right and up through the shear centre there. n chooses the "
                       "load case. Brackets, bonds and end plates are still to come, and named as not checked until then.",
    [PL_PAGE_SHOP] = "What to cut, mix and order: pieces in laying order, each on its roll; resin in cups that end on a ply and do not "
                     "outlive the pot; what the wing weighs when it races. The shed says how warm it is, how fast you work and "
                     "what is left over. Kit and ply book can be written to files. Templates are still to come.",
    [PL_PAGE_TRIALS] = "States of the part side by side: keep one, go on editing, compare. Five columns at most, the present one "
                       "first; what differs from it is marked. Any column can be brought back, as one step of undo.",
    [PL_PAGE_LOG] = "What was built, weighed and tested: still to come.",
};

const char *pl_page_words(enum pl_page page)
{
    return page_words[page];
}

/* Rows that scroll: what lies above the first one shown is counted, not drawn. */
struct sheet { struct pl_frame *f; struct pl_region r; int skip, row, lines; };

/* Draws a wrapped text, dropping the rows that are scrolled away. */
static void put_line(struct sheet *sh, int indent, enum pl_role role, const char *text)
{
    char line[1024];
    int in = indent;
    do {
        size_t n = pl_text_break(text, sh->r.columns - in);
        snprintf(line, sizeof line, "%.*s", (int)n, text);
        if (sh->lines >= sh->skip && sh->row < sh->r.rows)
            pl_frame_text_in(sh->f, sh->r.row + sh->row++, sh->r.column + in, sh->r.columns - in, role, line);
        sh->lines++;
        text += n + (text[n] == ' ');
        if (!n)
            break;
    } while (*text);
}

/* A key and what it does on one row; "-": no key, found by its name. */
static void put_key_line(struct sheet *sh, const char *keys, const char *words)
{
    if (sh->lines >= sh->skip && sh->row < sh->r.rows) {
        int row = sh->r.row + sh->row++;
        pl_frame_text_in(sh->f, row, sh->r.column, 9, PL_ROLE_TITLE, keys[0] ? keys : "-");
        pl_frame_text_in(sh->f, row, sh->r.column + 10, sh->r.columns - 10, PL_ROLE_TEXT, words);
    }
    sh->lines++;
}

static void range_words(const struct pl_field *field, char *out, size_t size)
{
    char rule[128], low[32], high[32], step[32];
    const char *unit = pl_unit_name(field->unit);
    out[0] = '\0';
    if (field->kind != PL_FIELD_NUMBER && field->kind != PL_FIELD_WHOLE && field->kind != PL_FIELD_MAP)
        return;
    pl_field_range_words(field, rule, sizeof rule);
    snprintf(out, size, "It %s%s%s", rule, unit[0] ? " " : "", unit);
    if (field->usual[0] != 0 || field->usual[1] != 0) {
        pl_number_digits(low, sizeof low, field->usual[0], 6);
        pl_number_digits(high, sizeof high, field->usual[1], 6);
        snprintf(out + strlen(out), size - strlen(out), "; %s to %s is usual", low, high);
    }
    if (field->step > 0) {
        pl_number_digits(step, sizeof step, field->step, 6);
        snprintf(out + strlen(out), size - strlen(out), "; a step is %s", step);
    }
    snprintf(out + strlen(out), size - strlen(out), ".%s", field->optional ? " It may be left out." : "");
}

static void put_field(const struct pl_session *s, struct sheet *sh)
{
    char pointer[256], words[512], row[96];
    enum pl_group_id group;
    const struct pl_field *field = pl_block_pointer_here(s, pointer, sizeof pointer) ? pl_field_at(pointer, &group) : NULL;
    if (!field)
        return;
    snprintf(words, sizeof words, "%s", pointer);
    char *slash = strrchr(words, '/');
    if (slash)
        *slash = '\0';
    pl_part_row_words(s->document, words, row, sizeof row);
    snprintf(words, sizeof words, "%s of %s", field->label, words[0] ? row : "the part");
    put_line(sh, 0, PL_ROLE_TITLE, words);
    put_line(sh, 2, PL_ROLE_TEXT, field->help);
    range_words(field, words, sizeof words);
    if (words[0])
        put_line(sh, 2, PL_ROLE_TEXT, words);
    if (field->derived)
        snprintf(words, sizeof words, "In no file: worked out from the stations, and edited through them.");
    else
        snprintf(words, sizeof words, "In the file: %.200s", pointer);
    put_line(sh, 2, PL_ROLE_QUIET, words);
    put_line(sh, 0, PL_ROLE_TEXT, "");
}

static void put_keys_here(const struct pl_session *s, struct sheet *sh)
{
    enum pl_action actions[48];
    size_t n = pl_view_page_actions(s, actions, sizeof actions / sizeof *actions);
    put_line(sh, 0, PL_ROLE_TITLE, "Keys that matter here");
    for (size_t i = 0; i < n; i++) {
        char keys[64];
        size_t doing = pl_doing_of(actions[i], 0);
        pl_keymap_words(&s->keys, doing, keys, sizeof keys);
        put_key_line(sh, keys, pl_doings[doing].words);
    }
}

static void put_place(const struct pl_session *s, struct sheet *sh)
{
    const struct pl_block *b = pl_block_here(s);
    char title[160];
    snprintf(title, sizeof title, "%s%s%s", pl_page_names[s->page], b ? ": " : "", b ? b->title : "");
    put_line(sh, 0, PL_ROLE_TITLE, title);
    put_line(sh, 2, PL_ROLE_TEXT, page_words[s->page]);
    put_line(sh, 0, PL_ROLE_TEXT, "");
    put_field(s, sh);
    put_keys_here(s, sh);
}

/* ---- the sheet of all keys, in as many columns as fit ---- */

enum { KEY_COLUMN = 38 };

static int sheet_lines(void)
{
    int n = 0;
    for (size_t i = 0; i < pl_n_doings; i++)
        n += 1 + (!i || pl_doings[i].kind != pl_doings[i - 1].kind);
    return n;
}

static void put_all_keys(const struct pl_session *s, struct pl_frame *f, struct pl_region r, int skip)
{
    int lines = sheet_lines(), most = r.columns / KEY_COLUMN > 0 ? r.columns / KEY_COLUMN : 1;
    int columns = (lines + r.rows - 1) / r.rows, line = 0;
    columns = columns > most ? most : columns;
    int width = r.columns / columns, room = r.rows * columns;
    skip = lines > room ? skip : 0;
    for (size_t i = 0; i < pl_n_doings; i++) {
        bool heading = !i || pl_doings[i].kind != pl_doings[i - 1].kind;
        for (int k = heading ? 0 : 1; k < 2; k++, line++) {
            int at = line - skip;
            if (at < 0 || at >= room)
                continue;
            struct sheet one = {f, {r.row + at % r.rows, r.column + at / r.rows * width, 1, width - 1}, 0, 0, 0};
            char keys[64];
            pl_keymap_words(&s->keys, i, keys, sizeof keys);
            if (k)
                put_key_line(&one, keys, pl_doings[i].words);
            else
                put_line(&one, 0, PL_ROLE_QUIET, pl_doing_headings[pl_doings[i].kind]);
        }
    }
}

void pl_view_help(const struct pl_session *s, struct pl_frame *f, const struct pl_question *q, int top)
{
    size_t n_feet;
    const struct pl_foot *feet = pl_question_feet(q, &n_feet);
    struct pl_region r = {top, 2, f->rows - top - 1, f->columns - 3};
    pl_frame_fill(f, top, 0, f->rows - top, f->columns, PL_ROLE_TEXT, ' ');
    if (q->chosen) {
        put_all_keys(s, f, r, (int)q->first);
    } else {
        struct sheet sh = {f, r, (int)q->first, 0, 0};
        put_place(s, &sh);
    }
    pl_view_foot(f, pl_foot_row(f), feet, n_feet);
}
