/* block.h - the parts of a page that hold fields, made from the table of fields.
 *
 * A table shows the rows of a list with some of their fields side by side; a sheet shows
 * every field of one row below each other, with its unit.  Which field a cell is follows
 * from the table of fields and the document, so a new field needs no code here.
 */
#ifndef PLYLOFT_BLOCK_H
#define PLYLOFT_BLOCK_H

#include "session.h"

enum pl_block_kind {
    PL_TABLE,     /* rows of a list, columns given */
    PL_SHEET,     /* all fields of the row that `of` has chosen, or of one object */
    PL_TIPS,      /* the mass limit, then a tip limit for each load case */
    PL_CASES,     /* results of the load cases: not fields */
    PL_CURVES_OF, /* curves: not fields */
    PL_WARNINGS,  /* sentences: not fields */
    PL_AIR,       /* the section, or the wing, in the air: not fields */
    PL_SETTINGS,  /* the wing as set otherwise: not fields */
    PL_SHOP_PIECES, PL_SHOP_ROLLS, PL_SHOP_RESIN  /* the kit: not fields */
};

struct pl_block_column { const char *key, *or_key, *heading; int width; bool right; };

struct pl_block {
    const char *title;
    enum pl_block_kind kind;
    enum pl_group_id group;
    int of;  /* block of the same page whose chosen row a sheet or a list of that row's own belongs to; -1: none */
    const struct pl_block_column *columns;
    size_t n_columns;
};

/* Drawn, without rows of their own. */
static inline bool pl_block_is_drawn(const struct pl_block *b) { return b->kind == PL_AIR || b->kind == PL_SETTINGS; }

static inline bool pl_block_is_shop(const struct pl_block *b)
{
    return b->kind == PL_SHOP_PIECES || b->kind == PL_SHOP_ROLLS || b->kind == PL_SHOP_RESIN;
}

/* Blocks of a page, in Tab order. */
const struct pl_block *pl_page_blocks(enum pl_page page, size_t *count);

/* A block of the page in hand; the table of stations has gap and overlap where an element is ahead.  NULL: none. */
const struct pl_block *pl_block_of(const struct pl_session *s, int block);

/* The block the person is on; NULL on pages without. */
const struct pl_block *pl_block_here(const struct pl_session *s);

size_t pl_block_rows(const struct pl_session *s, int block);
size_t pl_block_columns(const struct pl_session *s, int block);
struct pl_cursor pl_block_cursor(const struct pl_session *s, int block);  /* held inside what there is */

/* JSON Pointers: of the list or object, of a row ("" when there is none), of a cell. */
bool pl_block_list(const struct pl_session *s, int block, char *out, size_t size);
bool pl_block_row(const struct pl_session *s, int block, size_t row, char *out, size_t size);
bool pl_block_cell(const struct pl_session *s, int block, size_t row, size_t column, char *out, size_t size);

/* What stands before a row: its name, or a field's label with its unit. */
void pl_block_row_words(const struct pl_session *s, int block, size_t row, char *out, size_t size);

/* Goes to the field at a pointer, or to the row or list that has it: page, part of the page, row, column, element; false,
 * nothing changed, when no page shows it.  block_go.c */
bool pl_block_go_to(struct pl_session *s, const char *pointer);

/* The cell the person is on; false when there is none. */
bool pl_block_pointer_here(const struct pl_session *s, char *out, size_t size);

#endif
