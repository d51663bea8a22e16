#include "plyloft/gap_edit.h"

#include "plyloft/buffer.h"
#include "plyloft/field.h"
#include "plyloft/part_edit.h"
#include "plyloft/quantity.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* What a pointer is of: one station of an element, or all of them. */
struct target {
    const struct pl_field *field;
    size_t element, station;
    bool whole, is_gap;
};

static bool target_of(const char *pointer, struct target *t)
{
    enum pl_group_id group;
    *t = (struct target){.field = pl_field_at(pointer, &group)};
    if (!t->field || !t->field->derived)
        return false;
    t->whole = group == PL_GROUP_ELEMENT;
    t->is_gap = !strcmp(t->field->key, "gap_mm");
    return sscanf(pointer, t->whole ? "/elements/%zu" : "/elements/%zu/stations/%zu", &t->element, &t->station) == (t->whole ? 1 : 2);
}

/* Stations of a target, from *first on; none when the part does not have it. */
static size_t stations_of(const struct target *t, const struct pl_part *part, size_t *first)
{
    size_t n = t->element < part->n_elements ? part->elements[t->element].n_stations : 0;
    *first = t->whole ? 0 : t->station;
    return t->whole ? n : t->station < n;
}

/* ---- words ---- */

/* As shown: to the hundredth of a millimetre. */
static double shown_mm(double value_m)
{
    return round(1e5 * value_m) / 100 + 0.0;
}

static void mm_words(double value_mm, char *out, size_t size)
{
    pl_number_digits(out, size, round(100 * value_mm) / 100 + 0.0, 10);
}

static void range_words(double least_mm, double most_mm, char *out, size_t size)
{
    char least[32], most[32];
    mm_words(least_mm, least, sizeof least);
    mm_words(most_mm, most, sizeof most);
    if (strcmp(least, most))
        snprintf(out, size, "%s to %s", least, most);
    else
        snprintf(out, size, "%s", least);
}

/* Least and greatest over the stations that have one ahead; false when none has. */
static bool range_of(const struct pl_gap_shape *shape, const struct target *t, double *least_m, double *most_m)
{
    const struct pl_part *part = pl_gap_part(shape);
    size_t first, n = stations_of(t, part, &first);
    *least_m = HUGE_VAL;
    *most_m = -HUGE_VAL;
    for (size_t i = first; i < first + n; i++) {
        struct pl_gap gap = pl_gap_at(shape, t->element, part->elements[t->element].stations[i].y_m);
        if (gap.ahead == PL_NONE)
            continue;
        *least_m = fmin(*least_m, t->is_gap ? gap.gap_m : gap.overlap_m);
        *most_m = fmax(*most_m, t->is_gap ? gap.gap_m : gap.overlap_m);
    }
    return *least_m <= *most_m;
}

void pl_gap_words(const struct pl_gap_shape *shape, const char *pointer, char *out, size_t size)
{
    struct target t;
    double least_m, most_m;
    snprintf(out, size, "-");
    if (shape && target_of(pointer, &t) && range_of(shape, &t, &least_m, &most_m))
        range_words(1e3 * least_m, 1e3 * most_m, out, size);
}

void pl_gap_more_words(const struct pl_gap_shape *shape, const char *pointer, char *out, size_t size)
{
    struct target t;
    size_t first;
    char share[32];
    out[0] = '\0';
    if (!shape || !target_of(pointer, &t) || t.whole || !stations_of(&t, pl_gap_part(shape), &first))
        return;
    const struct pl_element *elements = pl_gap_part(shape)->elements;
    struct pl_gap gap = pl_gap_at(shape, t.element, elements[t.element].stations[first].y_m);
    if (gap.ahead == PL_NONE)
        return;
    pl_number_fixed(share, sizeof share, 100 * (t.is_gap ? gap.gap_m : gap.overlap_m) / gap.chord_m, 2);
    snprintf(out, size, "%s %% of the chord of %.60s%s", share, elements[gap.ahead].name, gap.crosses ? ", which it crosses" : "");
}

/* ---- what is wished ---- */

enum measure { IN_MM, OF_CHORD, STEPS };

struct wish { enum measure measure; double value; };

static enum pl_status refuse(struct pl_problems *problems, const char *pointer, const char *rule, const char *found)
{
    pl_problem_add(problems, PL_ERROR, pointer, rule, found);
    return PL_BAD_INPUT;
}

static enum pl_status read_wish(const struct target *t, const char *pointer, const char *typed, struct wish *wish,
                                struct pl_problems *problems)
{
    char why[PL_QUANTITY_WHY], rule[PL_QUANTITY_WHY + 32];
    bool share = strchr(typed, '%');
    *wish = (struct wish){share ? OF_CHORD : IN_MM, 0};
    if (!typed[strspn(typed, " ")])
        return refuse(problems, pointer, "must not be empty", NULL);
    if (pl_quantity_read(typed, share ? PL_NO_UNIT : t->field->unit, &wish->value, why, sizeof why) == PL_OK)
        return PL_OK;
    snprintf(rule, sizeof rule, "must be a number: %s", why);
    return refuse(problems, pointer, rule, typed);
}

static bool in_range(const struct pl_field *f, double value_mm)
{
    return (f->above ? value_mm > f->least : value_mm >= f->least) && value_mm <= f->most;
}

/* Gap or overlap of a station as wished, in mm. */
static double wished_mm(const struct target *t, const struct wish *wish, const struct pl_gap *gap)
{
    double now_mm = shown_mm(t->is_gap ? gap->gap_m : gap->overlap_m);
    if (wish->measure == OF_CHORD)
        return 1e3 * gap->chord_m * wish->value;
    return wish->measure == STEPS ? now_mm + wish->value * t->field->step : wish->value;
}

/* ---- one edit ---- */

/* Where the leading edges of stations go. */
struct plan {
    struct pl_document *doc;
    const char *pointer;
    struct target target;
    struct wish wish;
    struct pl_part part;
    struct pl_arena arena;
    struct pl_gap_shape *shape;
    struct pl_gap_move *moves;     /* one a station of the element */
    double least_mm, most_mm;      /* of what is wished */
    size_t moved;                  /* stations that have an element ahead */
    bool at_end;                   /* a step that would leave the range */
    struct pl_problems *problems;
};

static enum pl_status refuse_fault(const struct plan *p, enum pl_gap_fault fault, const struct pl_gap *gap, const char *place,
                                   const char *wished, double least_m)
{
    char rule[256], least[32], held[32];
    const char *front = p->part.elements[gap->ahead].name;
    mm_words(1e3 * least_m, least, sizeof least);
    mm_words(1e3 * (p->target.is_gap ? gap->overlap_m : gap->gap_m), held, sizeof held);
    if (fault == PL_GAP_TOO_SMALL && p->target.is_gap)
        snprintf(rule, sizeof rule, "must be at least %s mm while the overlap is %s", least, held);
    else if (fault == PL_GAP_TOO_SMALL)
        snprintf(rule, sizeof rule, "must keep the gap, %s mm: there it is at least %s", held, least);
    else if (fault == PL_GAP_CROSSED)
        snprintf(rule, sizeof rule, "must keep the section clear of that of %.60s: they would cross", front);
    else
        snprintf(rule, sizeof rule, "must leave %.60s the nearest element ahead", front);
    return refuse(p->problems, place, rule, wished);
}

static enum pl_status plan_station(struct plan *p, size_t station)
{
    const struct target *t = &p->target;
    char place[64], wished[64], rule[128];
    double y_m = p->part.elements[t->element].stations[station].y_m;
    struct pl_gap gap = pl_gap_at(p->shape, t->element, y_m);
    if (gap.ahead == PL_NONE)
        return PL_OK;
    double value_mm = wished_mm(t, &p->wish, &gap);
    mm_words(value_mm, wished, sizeof wished);
    snprintf(place, sizeof place, "/elements/%zu/stations/%zu/%s", t->element, station, t->field->key);
    p->least_mm = p->moved ? fmin(p->least_mm, value_mm) : value_mm;
    p->most_mm = p->moved++ ? fmax(p->most_mm, value_mm) : value_mm;
    if (!in_range(t->field, value_mm)) {
        p->at_end = p->wish.measure == STEPS;
        pl_field_range_words(t->field, rule, sizeof rule);
        return p->at_end ? PL_OK : refuse(p->problems, place, rule, wished);
    }
    if (!t->is_gap && gap.crosses) {
        snprintf(rule, sizeof rule, "needs a gap first: the section crosses that of %.60s", p->part.elements[gap.ahead].name);
        return refuse(p->problems, place, rule, wished);
    }
    double gap_m = t->is_gap ? 1e-3 * value_mm : gap.gap_m, overlap_m = t->is_gap ? gap.overlap_m : 1e-3 * value_mm;
    enum pl_gap_fault fault = pl_gap_solve(p->shape, t->element, y_m, gap_m, overlap_m, &p->moves[station]);
    return fault == PL_GAP_FITS ? PL_OK : refuse_fault(p, fault, &gap, place, wished, p->moves[station].least_m);
}

static enum pl_status plan_all(struct plan *p)
{
    size_t first, n = stations_of(&p->target, &p->part, &first);
    enum pl_status status = PL_OK;
    if (n)
        p->moves = pl_arena_take(&p->arena, p->part.elements[p->target.element].n_stations, sizeof *p->moves);
    if (n && !p->moves)
        return PL_NO_MEMORY;
    for (size_t i = first; i < first + n && status == PL_OK && !p->at_end; i++)
        status = plan_station(p, i);
    if (status == PL_OK && !p->moved)
        return refuse(p->problems, p->pointer, "has no element ahead of it", NULL);
    return status;
}

/* Leading edges are kept to a thousandth of a millimetre; one that stays where it is keeps its spelling. */
static enum pl_status move_edge(const struct plan *p, size_t station, const char *key, double from_m, double by_m)
{
    char pointer[96], json[64];
    if (fabs(by_m) < 1e-9)
        return PL_OK;
    snprintf(pointer, sizeof pointer, "/elements/%zu/stations/%zu/%s", p->target.element, station, key);
    pl_number_digits(json, sizeof json, round(1e6 * (from_m + by_m)) / 1e3 + 0.0, 12);
    return pl_edit_set(p->doc, pointer, json, p->problems);
}

static enum pl_status carry_out(const struct plan *p)
{
    char from[64], to[64], name[256];
    const struct pl_element *e = &p->part.elements[p->target.element];
    size_t first, n = stations_of(&p->target, &p->part, &first);
    pl_gap_words(p->shape, p->pointer, from, sizeof from);
    range_words(p->least_mm, p->most_mm, to, sizeof to);
    pl_part_step_words(p->doc, p->pointer, from, to, name, sizeof name);
    enum pl_status status = pl_edit_begin(p->doc, name, p->pointer);
    if (status != PL_OK)
        return status;
    for (size_t i = first; i < first + n && status == PL_OK; i++) {
        status = move_edge(p, i, "x_le_mm", e->stations[i].x_le_m, p->moves[i].x_m);
        if (status == PL_OK)
            status = move_edge(p, i, "z_le_mm", e->stations[i].z_le_m, p->moves[i].z_m);
    }
    if (status == PL_OK)
        return pl_edit_end(p->doc);
    pl_edit_abandon(p->doc);
    return status;
}

static enum pl_status make(struct plan *p)
{
    struct pl_problems unread = {0};
    enum pl_status status = pl_part_build(&p->part, p->doc, &unread);
    pl_problems_free(&unread);
    if (status == PL_OK)
        status = pl_gap_shape_make(&p->shape, &p->part, &p->arena);
    if (status == PL_BAD_INPUT)
        return refuse(p->problems, p->pointer, "cannot be worked out while the part has errors", NULL);
    if (status == PL_OK)
        status = plan_all(p);
    return status == PL_OK && !p->at_end ? carry_out(p) : status;
}

static enum pl_status edit(struct pl_document *doc, const char *pointer, struct target target, struct wish wish,
                           struct pl_problems *problems)
{
    struct plan p = {.doc = doc, .pointer = pointer, .target = target, .wish = wish, .problems = problems};
    enum pl_status status = make(&p);
    pl_arena_free(&p.arena);
    pl_part_free(&p.part);
    return status;
}

enum pl_status pl_gap_type(struct pl_document *doc, const char *pointer, const char *typed, struct pl_problems *problems)
{
    struct target t;
    struct wish wish;
    if (!target_of(pointer, &t))
        return refuse(problems, pointer, "cannot be typed", typed);
    enum pl_status status = read_wish(&t, pointer, typed, &wish, problems);
    return status == PL_OK ? edit(doc, pointer, t, wish, problems) : status;
}

enum pl_status pl_gap_step(struct pl_document *doc, const char *pointer, int way, struct pl_problems *problems)
{
    struct target t;
    return target_of(pointer, &t) ? edit(doc, pointer, t, (struct wish){STEPS, way}, problems) : PL_OK;
}
