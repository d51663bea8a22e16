#include "session.h"

#include "block.h"

#include "plyloft/buffer.h"
#include "plyloft/part_edit.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The list of the catalogue that fits the part of the page in hand. */
static bool group_here(const struct pl_session *s, enum pl_catalogue_group *group)
{
    const struct pl_block *b = pl_block_here(s);
    if (!b)
        return false;
    switch (b->group) {
    case PL_GROUP_FABRIC:
    case PL_GROUP_LAYUP: *group = PL_CATALOGUE_FABRICS; return true;
    case PL_GROUP_RESIN: *group = PL_CATALOGUE_RESINS; return true;
    case PL_GROUP_CORE: *group = PL_CATALOGUE_CORES; return true;
    default: *group = PL_CATALOGUE_METALS; return true;
    }
}

static bool load(struct pl_session *s)
{
    struct pl_problems problems = {0};
    if (!s->catalogue && pl_catalogue_load(&s->catalogue, &problems) != PL_OK)
        pl_session_say_problem(s, "some of your own materials are left out", &problems);
    pl_problems_free(&problems);
    return s->catalogue;
}

void pl_materials_open(struct pl_session *s, struct pl_question *q)
{
    enum pl_catalogue_group group;
    if (!group_here(s, &group) || !load(s)) {
        pl_question_done(s);
        return;
    }
    snprintf(q->pointer, sizeof q->pointer, "%s", pl_catalogue_group_key(group));
    static const char *const titles[PL_CATALOGUE_GROUPS] = {"cloths", "resins", "cores", "metals"};
    snprintf(q->words, sizeof q->words, "%s: typical planning values, no certificate", titles[group]);
}

static enum pl_catalogue_group group_of(const struct pl_question *q)
{
    enum pl_catalogue_group group = PL_CATALOGUE_FABRICS;
    while (group + 1 < PL_CATALOGUE_GROUPS && strcmp(pl_catalogue_group_key(group), q->pointer))
        group++;
    return group;
}

size_t pl_materials_count(const struct pl_session *s, const struct pl_question *q)
{
    return s->catalogue ? pl_catalogue_count(s->catalogue, group_of(q)) : 0;
}

/* The figure that tells rows of a kind apart, in words. */
static void figure_words(const struct pl_session *s, enum pl_catalogue_group group, size_t item, char *out, size_t size)
{
    static const struct { const char *key, *unit; } figures[PL_CATALOGUE_GROUPS] = {
        {"e1_gpa", "GPa"}, {"tg_dry_c", "C Tg"}, {"density_kgm3", "kg/m3"}, {"yield_mpa", "MPa yield"},
    };
    double value = pl_catalogue_number(s->catalogue, group, item, figures[group].key);
    char number[32];
    out[0] = '\0';
    if (!pl_given(value))
        return;
    pl_number_digits(number, sizeof number, value, 4);
    snprintf(out, size, "%s %s", number, figures[group].unit);
}

void pl_materials_item(const struct pl_session *s, const struct pl_question *q, size_t item, char *out, size_t size)
{
    enum pl_catalogue_group group = group_of(q);
    char name[128], figure[64];
    pl_text_safe(name, sizeof name, pl_catalogue_name(s->catalogue, group, item));
    figure_words(s, group, item, figure, sizeof figure);
    snprintf(out, size, "%s, %s, %s", name, figure, pl_catalogue_is_own(s->catalogue, group, item) ? "your own" : "typical");
}

/* Where the row went, so that the cursor can stand on it. */
static void go_to(struct pl_session *s, enum pl_catalogue_group group, size_t row)
{
    static const enum pl_group_id groups[] = {PL_GROUP_FABRIC, PL_GROUP_RESIN, PL_GROUP_CORE};
    size_t count;
    const struct pl_block *blocks = pl_page_blocks(s->page, &count);
    for (size_t i = 0; i < count; i++)
        if (blocks[i].kind == PL_TABLE && blocks[i].group == groups[group]) {
            s->blocks[s->page] = (int)i;
            s->cursors[s->page][i] = (struct pl_cursor){row, 0};
        }
}

/* Picked on a ply group, the cloth is for it. */
static bool use_for_plies(struct pl_session *s, size_t row, struct pl_problems *problems)
{
    const struct pl_block *b = pl_block_here(s);
    int block = s->blocks[s->page];
    char pointer[256], name[64];
    if (b->group != PL_GROUP_LAYUP || !pl_block_row(s, block, pl_block_cursor(s, block).row, pointer, sizeof pointer))
        return false;
    snprintf(name, sizeof name, "/fabrics/%zu/name", row);
    strncat(pointer, "/fabric", sizeof pointer - strlen(pointer) - 1);
    pl_node node = pl_document_find(s->document, name);
    return node != PL_NO_NODE && pl_part_type(s->document, pointer, pl_node_text(s->document, node), problems) == PL_OK;
}

void pl_materials_take(struct pl_session *s, struct pl_question *q)
{
    struct pl_problems problems = {0};
    enum pl_catalogue_group group = group_of(q);
    size_t row = 0, item = q->chosen;
    if (group == PL_CATALOGUE_METALS) {
        pl_session_say(s, "a part has no list of metals; they are here to be looked up", NULL);
        return;
    }
    pl_question_done(s);
    enum pl_status status = pl_catalogue_copy(s->catalogue, s->document, group, item, &row, &problems);
    bool for_plies = status == PL_OK && use_for_plies(s, row, &problems);
    if (status == PL_OK && !for_plies)
        go_to(s, group, row);
    pl_session_edited(s, status, &problems);
}

void pl_materials_keep(struct pl_session *s)
{
    struct pl_problems problems = {0};
    const struct pl_block *b = pl_block_here(s);
    char row[256];
    int block = s->blocks[s->page];
    if (!b || (b->group != PL_GROUP_FABRIC && b->group != PL_GROUP_RESIN && b->group != PL_GROUP_CORE)
        || !pl_block_row(s, block, pl_block_cursor(s, block).row, row, sizeof row)) {
        pl_session_say(s, "go to a cloth, a resin or a core to keep it as your own", NULL);
        return;
    }
    if (!load(s))
        return;
    if (pl_catalogue_keep(s->catalogue, s->document, row, &problems) == PL_OK)
        pl_session_say(s, "kept as your own", pl_catalogue_file(s->catalogue));
    else
        pl_session_say_problem(s, "not kept", &problems);
    pl_problems_free(&problems);
}

void pl_materials_close(struct pl_session *s)
{
    pl_catalogue_free(s->catalogue);
}
