#include "block.h"

#include "shop_job.h"

#include "plyloft/part_edit.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))
#define TABLE(title_, group_, of_, columns_) {title_, PL_TABLE, group_, of_, columns_, COUNT(columns_)}
#define SHEET(title_, group_, of_) {title_, PL_SHEET, group_, of_, NULL, 1}

static const struct pl_block_column layup_columns[] = {
    {"plies", NULL, "plies", 5, true},          {"angle_deg", NULL, "angle", 5, true},
    {"half_length_mm", NULL, "ends", 6, true},  {"drop_mm", NULL, "drop", 5, true},
    {"centre_at", "chord_from", "at/from", 7, true}, {"width_mm", "chord_to", "mm/to", 6, true},
    {"from_mm", NULL, "from", 5, true},         {"side", NULL, "side", 6, false},
    {"fabric", NULL, "cloth", 18, false},
};
static const struct pl_block_column fabric_columns[] = {
    {"areal_weight_gsm", NULL, "g/m2", 6, true}, {"fibre", NULL, "fibre", 7, false},  {"e1_gpa", NULL, "E1", 6, true},
    {"e2_gpa", NULL, "E2", 6, true},             {"g12_gpa", NULL, "G12", 5, true},   {"xt_mpa", NULL, "Xt", 6, true},
    {"xc_mpa", NULL, "Xc", 6, true},             {"yt_mpa", NULL, "Yt", 6, true},     {"yc_mpa", NULL, "Yc", 6, true},
    {"s_mpa", NULL, "S", 5, true},
};
static const struct pl_block_column resin_columns[] = {
    {"kind", NULL, "kind", 10, false},        {"density_kgm3", NULL, "kg/m3", 6, true},    {"mix_ratio_by_weight", NULL, "mix", 10, true},
    {"pot_life_min", NULL, "pot min", 7, true}, {"tg_dry_c", NULL, "Tg dry", 6, true}, {"tg_wet_c", NULL, "Tg wet", 6, true},
};
static const struct pl_block_column core_columns[] = {
    {"kind", NULL, "kind", 12, false},          {"density_kgm3", NULL, "kg/m3", 6, true},
    {"e_mpa", NULL, "E", 6, true},              {"g_mpa", NULL, "G", 6, true},
    {"shear_strength_mpa", NULL, "shear", 6, true}, {"compressive_strength_mpa", NULL, "crush", 6, true},
    {"max_c", NULL, "heat", 5, true},
};
static const struct pl_block_column station_columns[] = {
    {"y_mm", NULL, "y", 6, true},       {"chord_mm", NULL, "chord", 6, true},  {"x_le_mm", NULL, "x le", 6, true},
    {"z_le_mm", NULL, "z le", 6, true}, {"twist_deg", NULL, "twist", 6, true}, {"profile", NULL, "profile", 14, false},
};
/* Of an element that has another ahead; a little narrower, so that all of them fit beside the drawings. */
static const struct pl_block_column behind_columns[] = {
    {"y_mm", NULL, "y", 5, true},       {"chord_mm", NULL, "chord", 5, true},  {"x_le_mm", NULL, "x le", 7, true},
    {"z_le_mm", NULL, "z le", 6, true}, {"twist_deg", NULL, "twist", 5, true}, {"gap_mm", NULL, "gap", 5, true},
    {"overlap_mm", NULL, "overlap", 7, true}, {"profile", NULL, "profile", 14, false},
};
static const struct pl_block behind_block = TABLE("stations", PL_GROUP_STATION, -1, behind_columns);
static const struct pl_block_column profile_columns[] = {{"naca", "points", "digits or points", 18, false}};
static const struct pl_block_column mount_columns[] = {
    {"y_mm", NULL, "y", 6, true},    {"hold", NULL, "hold", 8, false}, {"stiffness_nm_per_rad", NULL, "spring", 8, true},
    {"on", NULL, "stands on", 12, false}, {"at", NULL, "at", 5, true},
};
static const struct pl_block_column case_columns[] = {
    {"kind", NULL, "kind", 11, false}, {"element", NULL, "element", 12, false}, {"factor", NULL, "factor", 6, true},
};
static const struct pl_block_column pad_columns[] = {
    {"y_mm", NULL, "y", 6, true}, {"acts_at", NULL, "at", 5, true}, {"length_mm", NULL, "length", 7, true}, {"width_mm", NULL, "width", 7, true},
};

static const struct pl_block shape_blocks[] = {
    TABLE("stations", PL_GROUP_STATION, -1, station_columns),
    TABLE("profiles", PL_GROUP_PROFILE, -1, profile_columns),
    SHEET("this profile", PL_GROUP_PROFILE, 1),
    SHEET("element", PL_GROUP_ELEMENT, -1),
    SHEET("end plates", PL_GROUP_END_PLATES, -1),
    SHEET("part", PL_GROUP_PART, -1),
    {"air at the marker", PL_AIR, PL_GROUP_PART, -1, NULL, 0},
};
static const struct pl_block cloth_blocks[] = {
    TABLE("lay-up, from core", PL_GROUP_LAYUP, -1, layup_columns),
    TABLE("stations", PL_GROUP_STATION, -1, station_columns),
    SHEET("this ply group", PL_GROUP_LAYUP, 0),
    TABLE("cloths", PL_GROUP_FABRIC, -1, fabric_columns),
    SHEET("this cloth", PL_GROUP_FABRIC, 3),
    TABLE("resins", PL_GROUP_RESIN, -1, resin_columns),
    SHEET("this resin", PL_GROUP_RESIN, 5),
    TABLE("cores", PL_GROUP_CORE, -1, core_columns),
    SHEET("this core", PL_GROUP_CORE, 7),
};
static const struct pl_block load_blocks[] = {
    TABLE("load cases", PL_GROUP_CASE, -1, case_columns),
    SHEET("this load case", PL_GROUP_CASE, 0),
    TABLE("its pads", PL_GROUP_PAD, 0, pad_columns),
    TABLE("mounts", PL_GROUP_MOUNT, -1, mount_columns),
    SHEET("this mount", PL_GROUP_MOUNT, 3),
    {"flow over the wing", PL_AIR, PL_GROUP_PART, -1, NULL, 0},
    {"other settings", PL_SETTINGS, PL_GROUP_PART, -1, NULL, 0},
    SHEET("car", PL_GROUP_CAR, -1),
};
static const struct pl_block strength_blocks[] = {
    {"load cases", PL_CASES, PL_GROUP_CASE, -1, NULL, 0},
    {"curves", PL_CURVES_OF, PL_GROUP_CASE, -1, NULL, 0},
    SHEET("allowables", PL_GROUP_ALLOWABLES, -1),
    {"limits", PL_TIPS, PL_GROUP_LIMITS, -1, NULL, 1},
    {"warnings", PL_WARNINGS, PL_GROUP_PART, -1, NULL, 0},
};

static const struct pl_block joint_blocks[] = {
    {"reactions", PL_REACTIONS, PL_GROUP_CASE, -1, NULL, 0},
};
static const struct pl_block shop_blocks[] = {
    {"pieces", PL_SHOP_PIECES, PL_GROUP_PART, -1, NULL, 0},
    {"rolls", PL_SHOP_ROLLS, PL_GROUP_PART, -1, NULL, 0},
    {"resin and mass", PL_SHOP_RESIN, PL_GROUP_PART, -1, NULL, 0},
    SHEET("shed", PL_GROUP_SHED, -1),
};

const struct pl_block *pl_page_blocks(enum pl_page page, size_t *count)
{
    static const struct { const struct pl_block *blocks; size_t count; } pages[PL_PAGES] = {
        [PL_PAGE_SHAPE] = {shape_blocks, COUNT(shape_blocks)},
        [PL_PAGE_CLOTH] = {cloth_blocks, COUNT(cloth_blocks)},
        [PL_PAGE_LOADS] = {load_blocks, COUNT(load_blocks)},
        [PL_PAGE_STRENGTH] = {strength_blocks, COUNT(strength_blocks)},
        [PL_PAGE_JOINTS] = {joint_blocks, COUNT(joint_blocks)},
        [PL_PAGE_SHOP] = {shop_blocks, COUNT(shop_blocks)},
    };
    *count = pages[page].count;
    return pages[page].blocks;
}

const struct pl_block *pl_block_of(const struct pl_session *s, int block)
{
    size_t count;
    const struct pl_block *blocks = pl_page_blocks(s->page, &count);
    if (block < 0 || (size_t)block >= count)
        return NULL;
    bool stations = blocks[block].kind == PL_TABLE && blocks[block].group == PL_GROUP_STATION;
    return stations && pl_element_is_behind(s) ? &behind_block : &blocks[block];
}

const struct pl_block *pl_block_here(const struct pl_session *s)
{
    return pl_block_of(s, s->blocks[s->page]);
}

static size_t count_at(const struct pl_session *s, const char *pointer)
{
    pl_node node = pl_document_find(s->document, pointer);
    return node == PL_NO_NODE ? 0 : pl_node_count(s->document, node);
}

/* Row of the built part that a sheet shows, so that its fields' `when` can be asked; NULL while the part
 * is not built. */
static const void *built_row(const struct pl_session *s, const char *pointer)
{
    enum pl_group_id group;
    return pl_part_row(pl_session_built(s), pointer, &group);
}

/* Tip limits whose load case is gone, or never was: listed too, so that they can be taken away. */
static pl_node orphan_at(const struct pl_session *s, size_t index)
{
    pl_node limits = pl_document_find(s->document, "/limits/tip_deflection_mm"), cases = pl_document_find(s->document, "/load_cases");
    for (pl_node n = pl_node_first(s->document, limits); n != PL_NO_NODE; n = pl_node_next(s->document, n)) {
        const char *key = pl_node_key(s->document, n);
        bool named = !key;
        for (pl_node c = pl_node_first(s->document, cases); c != PL_NO_NODE && !named; c = pl_node_next(s->document, c))
            named = !strcmp(pl_node_text(s->document, pl_node_member(s->document, c, "name")), key);
        if (!named && !index--)
            return n;
    }
    return PL_NO_NODE;
}

static size_t count_orphans(const struct pl_session *s)
{
    size_t n = 0;
    while (orphan_at(s, n) != PL_NO_NODE)
        n++;
    return n;
}

bool pl_block_list(const struct pl_session *s, int block, char *out, size_t size)
{
    const struct pl_block *b = pl_block_of(s, block);
    if (!b)
        return false;
    const struct pl_group *g = &pl_groups[b->group];
    char parent[160] = "";
    if (b->kind == PL_SHEET && b->of >= 0)
        return pl_block_row(s, b->of, pl_block_cursor(s, b->of).row, out, size);
    if (g->parent == PL_GROUP_ELEMENT)
        snprintf(parent, sizeof parent, "/elements/%zu", s->element);
    else if (b->of >= 0 && !pl_block_row(s, b->of, pl_block_cursor(s, b->of).row, parent, sizeof parent))
        return false;
    const void *owner = g->when ? built_row(s, parent) : NULL;
    if (owner && !g->when(owner))
        return false;  /* only a jacking case has pads */
    if (b->group == PL_GROUP_PART)
        snprintf(out, size, "%s", "");
    else if (b->group == PL_GROUP_ELEMENT)
        snprintf(out, size, "/elements/%zu", s->element);
    else
        snprintf(out, size, "%s/%s", parent, g->key);
    return true;
}

/* Whether a field stands in the sheet of a row: where it exists for the row as it is, or has a value all the same. */
static bool in_sheet(const struct pl_session *s, const char *row, const void *built, const struct pl_field *f)
{
    char cell[200];
    if (f->derived)
        return pl_element_is_behind(s);
    snprintf(cell, sizeof cell, "%s/%s", row, f->key);
    return !f->when || !built || f->when(built) || pl_document_find(s->document, cell) != PL_NO_NODE;
}

/* Fields of a sheet: those of the file, then those worked out. */
static const struct pl_field *sheet_field(const struct pl_session *s, int block, size_t row, size_t *count)
{
    const struct pl_group *g = &pl_groups[pl_block_of(s, block)->group];
    char pointer[160];
    const void *built = pl_block_list(s, block, pointer, sizeof pointer) ? built_row(s, pointer) : NULL;
    const struct pl_field *found = NULL;
    size_t n = 0;
    for (size_t i = 0; i < g->n_fields + g->n_derived; i++) {
        const struct pl_field *f = i < g->n_fields ? &g->fields[i] : &g->derived[i - g->n_fields];
        if (in_sheet(s, pointer, built, f) && n++ == row)
            found = f;
    }
    *count = n;
    return found;
}

static size_t shop_rows(const struct pl_session *s, enum pl_block_kind kind)
{
    const struct pl_shop_page *page = pl_shop_page(s);
    if (!page)
        return 0;
    return kind == PL_SHOP_PIECES ? page->n_pieces : kind == PL_SHOP_ROLLS ? page->n_rolls : page->n_lines;
}

size_t pl_block_rows(const struct pl_session *s, int block)
{
    const struct pl_block *b = pl_block_of(s, block);
    char pointer[160];
    size_t n = 0;
    if (!b || b->kind == PL_CASES || b->kind == PL_CURVES_OF || b->kind == PL_AIR)
        return 0;
    if (b->kind == PL_WARNINGS)
        return s->problems.count;
    if (b->kind == PL_SETTINGS)
        return pl_settings_view(s).wanted;
    if (pl_block_is_shop(b))
        return shop_rows(s, b->kind);
    if (b->kind == PL_REACTIONS)
        return pl_reaction_rows(s);
    if (b->kind == PL_TIPS)
        return 1 + count_at(s, "/load_cases") + count_orphans(s);
    if (!pl_block_list(s, block, pointer, sizeof pointer))
        return 0;
    if (b->kind == PL_TABLE)
        return count_at(s, pointer);
    if (pl_document_find(s->document, pointer) == PL_NO_NODE && pl_groups[b->group].optional && b->group != PL_GROUP_LIMITS)
        return 0;
    sheet_field(s, block, 0, &n);
    return n;
}

size_t pl_block_columns(const struct pl_session *s, int block)
{
    const struct pl_block *b = pl_block_of(s, block);
    return b ? b->n_columns : 0;
}

struct pl_cursor pl_block_cursor(const struct pl_session *s, int block)
{
    struct pl_cursor c = s->cursors[s->page][block];
    size_t rows = pl_block_rows(s, block), columns = pl_block_columns(s, block);
    c.row = rows == 0 ? 0 : c.row < rows ? c.row : rows - 1;
    c.column = columns == 0 ? 0 : c.column < columns ? c.column : columns - 1;
    return c;
}

bool pl_block_row(const struct pl_session *s, int block, size_t row, char *out, size_t size)
{
    const struct pl_block *b = pl_block_of(s, block);
    if (!b || row >= pl_block_rows(s, block) || b->kind == PL_TIPS || b->kind == PL_WARNINGS || b->kind == PL_SETTINGS || b->kind == PL_REACTIONS || pl_block_is_shop(b) || !pl_block_list(s, block, out, size))
        return false;
    if (b->kind == PL_TABLE)
        pl_pointer_append_index(out, size, row);
    return true;
}

static bool tip_cell(const struct pl_session *s, size_t row, char *out, size_t size)
{
    char name[64];
    size_t cases = count_at(s, "/load_cases");
    if (!row) {
        snprintf(out, size, "/limits/mass_kg");
        return true;
    }
    if (row > cases) {
        pl_node node = orphan_at(s, row - cases - 1);
        snprintf(out, size, "/limits/tip_deflection_mm");
        pl_pointer_append(out, size, node == PL_NO_NODE ? "" : pl_node_key(s->document, node));
        return node != PL_NO_NODE;
    }
    snprintf(name, sizeof name, "/load_cases/%zu/name", row - 1);
    pl_node node = pl_document_find(s->document, name);
    snprintf(out, size, "/limits/tip_deflection_mm");
    if (node != PL_NO_NODE)
        pl_pointer_append(out, size, pl_node_text(s->document, node));
    return node != PL_NO_NODE;
}

bool pl_block_cell(const struct pl_session *s, int block, size_t row, size_t column, char *out, size_t size)
{
    const struct pl_block *b = pl_block_of(s, block);
    char base[160];
    size_t n;
    if (!b || row >= pl_block_rows(s, block))
        return false;
    if (b->kind == PL_TIPS)
        return tip_cell(s, row, out, size);
    if (!pl_block_row(s, block, row, base, sizeof base))
        return false;
    if (b->kind == PL_SHEET) {
        const struct pl_field *f = sheet_field(s, block, row, &n);
        snprintf(out, size, "%s/%s", base, f ? f->key : "");
        return f;
    }
    const struct pl_block_column *c = &b->columns[column];
    snprintf(out, size, "%s/%s", base, c->key);
    /* A strip has a middle and a width, a skin two edges: the column shows whichever the row has. */
    if (c->or_key && pl_document_find(s->document, out) == PL_NO_NODE)
        snprintf(out, size, "%s/%s", base, c->or_key);
    return true;
}

void pl_block_row_words(const struct pl_session *s, int block, size_t row, char *out, size_t size)
{
    const struct pl_block *b = pl_block_of(s, block);
    char pointer[200];
    size_t n;
    out[0] = '\0';
    if (b->kind == PL_TABLE && pl_block_row(s, block, row, pointer, sizeof pointer)) {
        pl_part_row_words(s->document, pointer, out, size);
    } else if (b->kind == PL_TIPS && row > count_at(s, "/load_cases")) {
        pl_node node = orphan_at(s, row - count_at(s, "/load_cases") - 1);
        pl_text_safe(pointer, sizeof pointer, node == PL_NO_NODE ? "" : pl_node_key(s->document, node));
        snprintf(out, size, "%.60s (no such case)", pointer);
    } else if (b->kind == PL_TIPS && row) {
        snprintf(pointer, sizeof pointer, "/load_cases/%zu", row - 1);
        pl_part_row_words(s->document, pointer, out, size);
    } else {
        const struct pl_field *f = b->kind == PL_TIPS ? pl_field_at("/limits/mass_kg", &(enum pl_group_id){0})
                                                      : sheet_field(s, block, row, &n);
        snprintf(out, size, "%s", f ? f->label : "");
    }
}

bool pl_block_pointer_here(const struct pl_session *s, char *out, size_t size)
{
    int block = s->blocks[s->page];
    struct pl_cursor c;
    if (!pl_block_of(s, block) || !pl_block_rows(s, block))
        return false;
    c = pl_block_cursor(s, block);
    return pl_block_cell(s, block, c.row, c.column, out, size);
}
