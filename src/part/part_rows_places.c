/* Where along the span a new station, mount or pad goes. */
#include "part_rows_inside.h"

#include <stdio.h>
#include <string.h>

enum { MOUNTS_CLEAR_MM = 50, PAD_LENGTH_MM = 100, SPAN_UNKNOWN_MM = 600 };

static double positive_or(double value, double otherwise)
{
    return value > 0 && value <= 20000 ? value : otherwise;
}

/* ---- mounts and pads ---- */

static bool is_free(const struct pl_document *doc, const struct pl_row_place *p, double y_mm, double clear_mm)
{
    for (size_t i = 0; i < p->count; i++)
        if (fabs(pl_row_number(doc, "%s/%zu/y_mm", p->list, i) - y_mm) < clear_mm - 1e-6)
            return false;
    return true;
}

/* The mirror place, or the nearest to beside_mm that keeps clear of all others, within limit_mm of the centreline. */
static double free_place_mm(const struct pl_document *doc, const struct pl_row_place *p, double beside_mm,
                            double limit_mm, double clear_mm)
{
    beside_mm = fmax(-limit_mm, fmin(limit_mm, beside_mm));
    if (is_free(doc, p, -beside_mm, clear_mm))
        return -beside_mm;
    /* Rows are few (the table says), so that a place is found long before the distances get fine. */
    for (int fine = 0; fine < 8; fine++, clear_mm /= 2)
        for (int i = 1; i <= 2 * (int)ceil(2 * limit_mm / clear_mm); i++) {
            double y_mm = beside_mm + (i % 2 ? 1 : -1) * ((i + 1) / 2) * clear_mm;
            if (fabs(y_mm) <= limit_mm && is_free(doc, p, y_mm, clear_mm))
                return y_mm;
        }
    return beside_mm;
}

static double mount_place_mm(const struct pl_document *doc, const struct pl_row_place *p, size_t like)
{
    char element[48];
    double limit_mm = positive_or(pl_row_half_span_mm(doc, p->parent), SPAN_UNKNOWN_MM);
    const char *on = pl_row_text(doc, "%s/%zu/on", p->list, like);
    size_t carrier = pl_names_find(doc, "/elements", on, PL_NONE);
    snprintf(element, sizeof element, "/elements/%zu", carrier);
    if (carrier != PL_NONE)
        limit_mm = fmin(limit_mm, positive_or(pl_row_half_span_mm(doc, element), SPAN_UNKNOWN_MM));
    double beside_mm = pl_row_number(doc, "%s/%zu/y_mm", p->list, like);
    return free_place_mm(doc, p, pl_given(beside_mm) ? beside_mm : 0, limit_mm, MOUNTS_CLEAR_MM);
}

static double pad_place_mm(const struct pl_document *doc, const struct pl_row_place *p, size_t like)
{
    double half_mm = positive_or(pl_row_loaded_half_span_mm(doc, p->parent), SPAN_UNKNOWN_MM);
    double length_mm = fmax(1, positive_or(pl_row_number(doc, "%s/%zu/length_mm", p->list, like), PAD_LENGTH_MM));
    double beside_mm = pl_row_number(doc, "%s/%zu/y_mm", p->list, like);
    return free_place_mm(doc, p, pl_given(beside_mm) ? beside_mm : 0, fmax(0, half_mm - length_mm / 2), length_mm);
}

double pl_row_free_place_mm(const struct pl_document *doc, const struct pl_row_place *p, size_t like)
{
    if (p->group == PL_GROUP_MOUNT)
        return mount_place_mm(doc, p, like);
    return p->group == PL_GROUP_PAD ? pad_place_mm(doc, p, like) : 0;
}

/* ---- stations ---- */

static double gap_mm(const struct pl_document *doc, const struct pl_row_place *p, size_t inner)
{
    return pl_row_number(doc, "%s/%zu/y_mm", p->list, inner + 1) - pl_row_number(doc, "%s/%zu/y_mm", p->list, inner);
}

size_t pl_row_inner_station(const struct pl_document *doc, const struct pl_row_place *p)
{
    if (p->count < 2)
        return 0;
    size_t inner = p->index + 1 < p->count ? p->index : p->count - 2, widest = inner;
    for (size_t i = 0; i + 1 < p->count; i++)
        if (!(gap_mm(doc, p, i) <= gap_mm(doc, p, widest)))
            widest = i;
    return p->index < p->count && gap_mm(doc, p, inner) >= 1 ? inner : widest;
}

void pl_row_place_station(struct pl_row_edit *e, const struct pl_row_place *p, size_t inner, bool between)
{
    const struct pl_group *g = &pl_groups[PL_GROUP_STATION];
    for (size_t i = 0; i < g->n_fields; i++) {
        const char *key = g->fields[i].key;
        bool is_y = !strcmp(key, "y_mm");
        if (g->fields[i].kind != PL_FIELD_NUMBER || (!between && !is_y))
            continue;
        double a = pl_row_number(e->doc, "%s/%zu/%s", p->list, inner, key), b = a + (is_y ? 2 * SPAN_UNKNOWN_MM : 0);
        if (p->count > 1) /* else the inner one stands alone, and is followed by a tip */
            b = pl_row_number(e->doc, "%s/%zu/%s", p->list, inner + 2, key);
        if (pl_given(a) && pl_given(b))
            pl_row_set_number(e, 0.5 * (a + b), "%s/%zu/%s", p->list, inner + 1, key);
    }
}
