/* What a row may have, and the same row said another way: each one step of undo. */
#include "part_rows_inside.h"

#include "plyloft/json_writer.h"
#include "plyloft/part_edit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The row at pointer, when it is one of the group. */
static bool is_row_of(const struct pl_document *doc, const char *pointer, enum pl_group_id group,
                      struct pl_row_place *p)
{
    return pl_row_place(doc, pointer, p) && p->group == group && p->index < p->count;
}

static enum pl_status refuse_row(struct pl_problems *problems, const char *pointer, enum pl_group_id group)
{
    char rule[48];
    snprintf(rule, sizeof rule, "is no %s of the part", pl_groups[group].noun);
    return pl_row_refuse(problems, pointer, rule, NULL);
}

/* ---- kinds of load case ---- */

static const struct pl_field *kind_field(void)
{
    const struct pl_field *f = pl_groups[PL_GROUP_CASE].fields;
    while (strcmp(f->key, "kind"))
        f++;
    return f;
}

static int choice_of(const struct pl_field *f, const char *word)
{
    for (size_t i = 0; i < f->n_choices; i++)
        if (!strcmp(f->choices[i], word))
            return (int)i;
    return -1;
}

int pl_row_kind_of(const char *kind)
{
    return choice_of(kind_field(), kind);
}

const char *pl_row_kind_word(int kind)
{
    return kind_field()->choices[kind];
}

const char *pl_row_kind_name(int kind)
{
    static const char *const names[] = {"at speed", "on the jack", "kerb on tip", "push", "bump"};
    return names[kind];
}

static const char usual_force_n[] = "300";

/* What a kind needs, in the order it is written.  A strike has either the energy or the force. */
static const struct usual {
    enum pl_case_kind kind;
    const char *key, *json;
    const char *unless; /* not beside this key */
} usual[] = {
    {PL_DOWNFORCE, "factor", "2", NULL},
    {PL_DOWNFORCE, "speed_kmh", "180", NULL},
    {PL_DOWNFORCE, "air_density_kgm3", "1.2", NULL},
    {PL_DOWNFORCE, "distribution", "\"elliptic\"", NULL},
    {PL_DOWNFORCE, "coefficient", "1.1", NULL},
    {PL_DOWNFORCE, "acts_at", "0.42", NULL},
    {PL_JACKING, "factor", "1.5", NULL},
    {PL_JACKING, "supported_mass_kg", "150", NULL},
    {PL_JACKING, "dynamic_factor", "1.3", NULL},
    {PL_TIP_STRIKE, "factor", "1.25", NULL},
    {PL_TIP_STRIKE, "acts_at", "0.2", NULL},
    {PL_TIP_STRIKE, "direction", "\"up\"", NULL},
    {PL_TIP_STRIKE, "moving_mass_kg", "60", "force_n"},
    {PL_TIP_STRIKE, "closing_speed_ms", "0.8", "force_n"},
    {PL_TIP_STRIKE, "travel_mm", "10", "force_n"},
    {PL_POINT_LOAD, "factor", "1.5", NULL},
    {PL_POINT_LOAD, "acts_at", "0.35", NULL},
    {PL_POINT_LOAD, "direction", "\"down\"", NULL},
    {PL_POINT_LOAD, "force_n", "200", NULL},
    {PL_INERTIA, "factor", "1.5", NULL},
    {PL_INERTIA, "acts_at", "0.4", NULL},
    {PL_INERTIA, "direction", "\"down\"", NULL},
    {PL_INERTIA, "n_g", "6", NULL},
};

/* What the fields of the case ask about themselves: its kind and its distribution. */
static struct pl_load_case asked(const struct pl_document *doc, const char *row, int kind)
{
    const struct pl_field *f = pl_groups[PL_GROUP_CASE].fields;
    while (strcmp(f->key, "distribution"))
        f++;
    int distribution = choice_of(f, pl_row_text(doc, "%s/distribution", row));
    return (struct pl_load_case){.kind = kind, .distribution = distribution < 0 ? PL_ELLIPTIC : distribution};
}

static bool belongs(const char *key, const struct pl_load_case *c)
{
    const struct pl_group *g = &pl_groups[PL_GROUP_CASE];
    for (size_t i = 0; i < g->n_fields; i++)
        if (!strcmp(g->fields[i].key, key))
            return !g->fields[i].when || g->fields[i].when(c);
    return true;
}

static void unset_unknown(struct pl_row_edit *e, const char *row, const struct pl_load_case *c)
{
    const struct pl_group *g = &pl_groups[PL_GROUP_CASE];
    for (size_t i = 0; i < g->n_fields; i++)
        if (!belongs(g->fields[i].key, c))
            pl_row_unset(e, "%s/%s", row, g->fields[i].key);
    if (!pl_groups[PL_GROUP_PAD].when(c))
        pl_row_unset(e, "%s/%s", row, pl_groups[PL_GROUP_PAD].key);
}

static void set_pads(struct pl_row_edit *e, const char *row)
{
    struct pl_buffer pads = {0};
    if (pl_row_has(e->doc, "%s/pads", row))
        return;
    pl_row_typical_pads(e->doc, row, &pads);
    if (!pads.failed)
        pl_row_set(e, pads.text, "%s/pads", row);
    else if (e->status == PL_OK)
        e->status = pl_row_no_memory(e->problems, row);
    pl_buffer_free(&pads);
}

/* A push without a place is at the tip when it was a strike, which means that; near it otherwise. */
static void set_place(struct pl_row_edit *e, const char *row, bool was_strike)
{
    double half_mm = pl_row_loaded_half_span_mm(e->doc, row), near_mm = floor(0.09 * half_mm) * 10;
    if (pl_given(pl_row_number(e->doc, "%s/y_mm", row)))
        return;
    pl_row_set_number(e, !(half_mm > 0) ? 0 : was_strike ? half_mm : near_mm, "%s/y_mm", row);
}

/* Where a mount holds the wing a strike finds no spring to take its energy: it needs a force. */
static bool is_held(const struct pl_document *doc, const char *row)
{
    double given_mm = pl_row_number(doc, "%s/y_mm", row), tip_mm = pl_row_loaded_half_span_mm(doc, row);
    double y_mm = pl_given(given_mm) ? given_mm : tip_mm;
    size_t element = pl_names_find(doc, "/elements", pl_row_text(doc, "%s/element", row), PL_NONE);
    for (size_t i = 0; element != PL_NONE && i < pl_row_count(doc, "/elements/%zu/mounts", element); i++)
        if (fabs(pl_row_number(doc, "/elements/%zu/mounts/%zu/y_mm", element, i) - y_mm) < 1)
            return true;
    return false;
}

/* Cases that load an element together name no jacking case. */
static void unset_with(struct pl_row_edit *e, const char *row)
{
    for (size_t i = 0; i < pl_row_count(e->doc, "/load_cases"); i++)
        for (size_t k = pl_row_count(e->doc, "/load_cases/%zu/with", i); k-- > 0;)
            if (pl_names_same(pl_row_text(e->doc, "/load_cases/%zu/with/%zu", i, k),
                              pl_row_text(e->doc, "%s/name", row)))
                pl_row_unset(e, "/load_cases/%zu/with/%zu", i, k);
}

void pl_row_fit_kind(struct pl_row_edit *e, const char *row, int kind)
{
    bool was_strike = pl_row_kind_of(pl_row_text(e->doc, "%s/kind", row)) == PL_TIP_STRIKE;
    pl_row_set_text(e, pl_row_kind_word(kind), "%s/kind", row);
    struct pl_load_case c = asked(e->doc, row, kind);
    unset_unknown(e, row, &c);
    if (kind == PL_TIP_STRIKE && is_held(e->doc, row) && !pl_row_has(e->doc, "%s/force_n", row))
        pl_row_set(e, usual_force_n, "%s/force_n", row);
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        const struct usual *u = &usual[i];
        bool replaced = u->unless && pl_row_has(e->doc, "%s/%s", row, u->unless);
        bool wanted = (int)u->kind == kind && belongs(u->key, &c) && !replaced;
        if (wanted && !pl_row_has(e->doc, "%s/%s", row, u->key))
            pl_row_set(e, u->json, "%s/%s", row, u->key);
    }
    if (kind == PL_POINT_LOAD)
        set_place(e, row, was_strike);
    if (kind == PL_JACKING)
        set_pads(e, row);
    if (kind == PL_JACKING)
        unset_with(e, row);
}

enum pl_status pl_row_set_kind(struct pl_document *doc, const char *row, const char *kind, struct pl_problems *problems)
{
    struct pl_row_place p;
    struct pl_row_edit e;
    char name[96], what[128], from[32], pointer[PL_POINTER_MOST];
    int known = pl_row_kind_of(kind);
    if (!is_row_of(doc, row, PL_GROUP_CASE, &p))
        return refuse_row(problems, row, PL_GROUP_CASE);
    if (known < 0)
        return pl_row_refuse(problems, row, "is no kind of load case", kind);
    pl_text_safe(from, sizeof from, pl_row_text(doc, "%s/kind", row));
    if (!strcmp(from, kind))
        return PL_OK;
    pl_part_row_words(doc, row, name, sizeof name);
    snprintf(what, sizeof what, "%s: %s", name, kind_field()->label);
    snprintf(pointer, sizeof pointer, "%s/kind", row);
    pl_row_begin_change(&e, doc, problems, pointer, what, from, kind);
    pl_row_fit_kind(&e, row, known);
    return pl_row_end(&e);
}

/* ---- a strike by energy or by force ---- */

static enum pl_status switch_strike(struct pl_document *doc, const char *row, struct pl_problems *problems)
{
    struct pl_row_edit e;
    char name[96];
    bool by_force = pl_row_has(doc, "%s/force_n", row);
    pl_part_row_words(doc, row, name, sizeof name);
    pl_row_begin(&e, doc, problems, NULL, "%s: by %s", name, by_force ? "energy" : "force");
    if (by_force) {
        pl_row_replace(&e, row, "force_n", "moving_mass_kg", "60");
        pl_row_set(&e, "0.8", "%s/closing_speed_ms", row);
        pl_row_set(&e, "10", "%s/travel_mm", row);
    } else {
        pl_row_replace(&e, row, "moving_mass_kg", "force_n", usual_force_n);
        pl_row_unset(&e, "%s/closing_speed_ms", row);
        pl_row_unset(&e, "%s/travel_mm", row);
    }
    return pl_row_end(&e);
}

/* ---- a ply group between edges or about a centre ---- */

static double within(double value, double least, double most)
{
    return fmin(most, fmax(least, value));
}

static void replace_number(struct pl_row_edit *e, const char *row, const char *key, const char *new_key, double value)
{
    char json[40];
    pl_number_digits(json, sizeof json, value, 10);
    pl_row_replace(e, row, key, new_key, json);
}

static double number_or(const struct pl_document *doc, const char *row, const char *key, double otherwise)
{
    double value = pl_row_number(doc, "%s/%s", row, key);
    return pl_given(value) ? value : otherwise;
}

/* Chord fractions are kept to 0.0001 and widths to 0.1 mm: finer than a piece can be cut. */
static void to_edges(struct pl_row_edit *e, const char *row, double chord_mm)
{
    double centre = within(number_or(e->doc, row, "centre_at", 0.3), 0, 1);
    double half = 0.5 * number_or(e->doc, row, "width_mm", 60) / chord_mm;
    double from = within(round((centre - half) * 1e4) / 1e4, 0, 0.9999);
    double to = within(round((centre + half) * 1e4) / 1e4, 0, 1);
    replace_number(e, row, "centre_at", "chord_from", from);
    replace_number(e, row, "width_mm", "chord_to", fmax(to, from + 1e-4));
}

static void to_strip(struct pl_row_edit *e, const char *row, double chord_mm)
{
    double from = within(number_or(e->doc, row, "chord_from", 0), 0, 1);
    double to = within(number_or(e->doc, row, "chord_to", 1), 0, 1);
    replace_number(e, row, "chord_from", "centre_at", round(0.5 * (from + to) * 1e4) / 1e4);
    replace_number(e, row, "chord_to", "width_mm", fmax(0.1, round((to - from) * chord_mm * 10) / 10));
}

static enum pl_status switch_ply_group(struct pl_document *doc, const struct pl_row_place *p, const char *row,
                                       struct pl_problems *problems)
{
    struct pl_row_edit e;
    char name[96];
    bool strip = pl_row_has(doc, "%s/centre_at", row) || pl_row_has(doc, "%s/width_mm", row);
    double end_mm = number_or(doc, row, "half_length_mm", pl_row_half_span_mm(doc, p->parent));
    double chord_mm = pl_row_mean_chord_mm(doc, p->parent, number_or(doc, row, "from_mm", 0), end_mm);
    if (!pl_given(chord_mm))
        return pl_row_refuse(problems, row, "lies where the element has no chord: its stations come first", NULL);
    pl_part_row_words(doc, row, name, sizeof name);
    pl_row_begin(&e, doc, problems, NULL, "%s: %s", name, strip ? "between edges" : "strip about a centre");
    if (strip)
        to_edges(&e, row, chord_mm);
    else
        to_strip(&e, row, chord_mm);
    return pl_row_end(&e);
}

enum pl_status pl_row_switch(struct pl_document *doc, const char *row, struct pl_problems *problems)
{
    struct pl_row_place p;
    if (is_row_of(doc, row, PL_GROUP_LAYUP, &p))
        return switch_ply_group(doc, &p, row, problems);
    if (is_row_of(doc, row, PL_GROUP_CASE, &p) && pl_row_kind_of(pl_row_text(doc, "%s/kind", row)) == PL_TIP_STRIKE)
        return switch_strike(doc, row, problems);
    return pl_row_refuse(problems, row, "is neither a ply group nor a strike: it can be said in one way only", NULL);
}
