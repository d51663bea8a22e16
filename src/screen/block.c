#include "session.h"

#include "plyloft/part_edit.h"

#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

static const struct pl_block_column layup_columns[] = {
    {"plies", NULL, "plies", 5, true},        {"angle_deg", NULL, "angle", 5, true},
    {"half_length_mm", NULL, "ends", 6, true}, {"drop_mm", NULL, "drop", 5, true},
    {"centre_at", "chord_from", "at", 5, true}, {"width_mm", "chord_to", "width", 6, true},
    {"from_mm", NULL, "from", 5, true},       {"side", NULL, "side", 6, false},
    {"fabric", NULL, "cloth", 18, false},
};

static const struct pl_block_column station_columns[] = {
    {"y_mm", NULL, "y", 6, true},         {"chord_mm", NULL, "chord", 6, true}, {"x_le_mm", NULL, "x le", 6, true},
    {"z_le_mm", NULL, "z le", 6, true},   {"twist_deg", NULL, "twist", 6, true}, {"profile", NULL, "profile", 14, false},
};

static const struct pl_block_column naca_column[] = {{"naca", NULL, "digits", 8, false}};

/* Fields of the element itself, below the profiles. */
static const struct pl_block_column wing_columns[] = {
    {"incidence_deg", NULL, "value", 8, true},
    {"inverted", NULL, "value", 8, false},
    {"core", NULL, "value", 24, false},
    {"resin", NULL, "value", 24, false},
};

const char *pl_block_name(enum pl_block block)
{
    static const char *const names[PL_BLOCKS] = {"lay-up, from core", "stations", "profiles and wing"};
    return names[block];
}

static size_t count_at(const struct pl_session *s, const char *pointer)
{
    pl_node node = pl_document_find(s->document, pointer);
    return node == PL_NO_NODE ? 0 : pl_node_count(s->document, node);
}

size_t pl_block_rows(const struct pl_session *s, enum pl_block block)
{
    char pointer[64];
    if (block == PL_BLOCK_WING)
        return count_at(s, "/profiles") + COUNT(wing_columns);
    snprintf(pointer, sizeof pointer, "/elements/%zu/%s", s->element, block == PL_BLOCK_LAYUP ? "layup" : "stations");
    return count_at(s, pointer);
}

/* A form has one column, another field in every row. */
static const struct pl_block_column *wing_row(const struct pl_session *s, size_t row)
{
    size_t profiles = count_at(s, "/profiles");
    return row < profiles ? naca_column : &wing_columns[row - profiles];
}

size_t pl_block_columns(enum pl_block block, size_t row, const struct pl_block_column **columns)
{
    (void)row;
    *columns = block == PL_BLOCK_LAYUP ? layup_columns : block == PL_BLOCK_STATIONS ? station_columns : naca_column;
    return block == PL_BLOCK_LAYUP ? COUNT(layup_columns) : block == PL_BLOCK_STATIONS ? COUNT(station_columns) : 1;
}

static void row_pointer(const struct pl_session *s, enum pl_block block, size_t row, char *out, size_t size)
{
    if (block == PL_BLOCK_WING && row < count_at(s, "/profiles"))
        snprintf(out, size, "/profiles/%zu", row);
    else if (block == PL_BLOCK_WING)
        snprintf(out, size, "/elements/%zu", s->element);
    else
        snprintf(out, size, "/elements/%zu/%s/%zu", s->element, block == PL_BLOCK_LAYUP ? "layup" : "stations", row);
}

void pl_block_pointer(const struct pl_session *s, enum pl_block block, size_t row, size_t column, char *out, size_t size)
{
    const struct pl_block_column *columns;
    char base[128];
    pl_block_columns(block, row, &columns);
    const struct pl_block_column *c = block == PL_BLOCK_WING ? wing_row(s, row) : &columns[column];
    row_pointer(s, block, row, base, sizeof base);
    snprintf(out, size, "%s/%s", base, c->key);
    /* A strip has a middle and a width, a skin two edges: the column shows whichever the row has. */
    if (c->or_key && pl_document_find(s->document, out) == PL_NO_NODE)
        snprintf(out, size, "%s/%s", base, c->or_key);
}

void pl_block_row_words(const struct pl_session *s, enum pl_block block, size_t row, char *out, size_t size)
{
    char pointer[128];
    if (block == PL_BLOCK_WING && row >= count_at(s, "/profiles")) {
        enum pl_group_id group;
        pl_block_pointer(s, block, row, 0, pointer, sizeof pointer);
        snprintf(out, size, "%s", pl_field_at(pointer, &group)->label);
        return;
    }
    row_pointer(s, block, row, pointer, sizeof pointer);
    pl_part_row_words(s->document, pointer, out, size);
}

struct pl_cursor pl_block_cursor(const struct pl_session *s)
{
    const struct pl_block_column *columns;
    struct pl_cursor c = s->cursors[s->block];
    size_t rows = pl_block_rows(s, s->block), n = pl_block_columns(s->block, c.row, &columns);
    c.row = rows == 0 ? 0 : c.row < rows ? c.row : rows - 1;
    c.column = c.column < n ? c.column : n - 1;
    return c;
}
