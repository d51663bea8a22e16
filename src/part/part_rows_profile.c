/* A profile by points or by digits. */
#include "part_rows_inside.h"

#include "plyloft/json_writer.h"
#include "plyloft/part_edit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { POINTS_MOST = 2000 };

static bool is_profile(const struct pl_document *doc, const char *row)
{
    struct pl_row_place p;
    return pl_row_place(doc, row, &p) && p.group == PL_GROUP_PROFILE && p.index < p.count;
}

static enum pl_status refuse_profile(struct pl_problems *problems, const char *row)
{
    return pl_row_refuse(problems, row, "is no profile of the part", NULL);
}

/* ---- points ---- */

/* To a millionth of the chord, a third of a micrometre on a front wing. */
static void write_points(const struct pl_point *points, size_t count, struct pl_buffer *out)
{
    char x[40], z[40];
    for (size_t i = 0; i < count; i++) {
        pl_number_digits(x, sizeof x, round(points[i].x * 1e6) / 1e6, 10);
        pl_number_digits(z, sizeof z, round(points[i].z * 1e6) / 1e6, 10);
        pl_buffer_printf(out, "%s[%s, %s]", i ? ", " : "[", x, z);
    }
    pl_buffer_text(out, "]");
}

static bool are_numbers(const struct pl_point *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!(fabs(points[i].x) < 1e6 && fabs(points[i].z) < 1e6))
            return false;
    return true;
}

enum pl_status pl_row_set_points(struct pl_document *doc, const char *row, const struct pl_point *points, size_t count,
                                 struct pl_problems *problems)
{
    struct pl_row_edit e;
    struct pl_buffer json = {0};
    char name[96];
    if (!is_profile(doc, row))
        return refuse_profile(problems, row);
    if (!count || count > POINTS_MOST || !are_numbers(points, count))
        return pl_row_refuse(problems, row, "needs 1 to 2000 points", NULL);
    pl_part_row_words(doc, row, name, sizeof name);
    write_points(points, count, &json);
    pl_row_begin(&e, doc, problems, NULL, "%s: %zu points", name, count);
    if (json.failed && e.status == PL_OK)
        e.status = pl_row_no_memory(problems, row);
    pl_row_replace(&e, row, "naca", "points", json.text);
    pl_buffer_free(&json);
    return pl_row_end(&e);
}

/* ---- digits ---- */

struct outline {
    size_t count, nose;
    struct pl_point points[POINTS_MOST];
};

static bool read_outline(const struct pl_document *doc, const char *row, struct outline *o)
{
    pl_node list = pl_row_find(doc, "%s/points", row);
    o->count = pl_row_count(doc, "%s/points", row);
    o->nose = 0;
    if (o->count < 3 || o->count > POINTS_MOST)
        return false;
    pl_node node = pl_node_first(doc, list);
    for (size_t i = 0; i < o->count; i++, node = pl_node_next(doc, node)) {
        pl_node x = pl_node_kind(doc, node) == PL_NODE_LIST ? pl_node_first(doc, node) : PL_NO_NODE;
        pl_node z = x == PL_NO_NODE ? PL_NO_NODE : pl_node_next(doc, x);
        if (z == PL_NO_NODE)
            return false;
        o->points[i] = (struct pl_point){pl_node_number(doc, x), pl_node_number(doc, z)};
        if (o->points[i].x < o->points[o->nose].x)
            o->nose = i;
    }
    return true;
}

/* The ordinate at x of the stretch of points from one to another, which lie in order along the chord. */
static double ordinate(const struct outline *o, size_t from, size_t to, double x)
{
    for (size_t i = from; i < to; i++) {
        struct pl_point a = o->points[i], b = o->points[i + 1];
        if ((a.x - x) * (b.x - x) <= 0 && a.x != b.x)
            return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
    }
    return o->points[fabs(o->points[from].x - x) < fabs(o->points[to].x - x) ? from : to].z;
}

/* The four digits of NACA report 460: camber in hundredths and its place in tenths of the chord, thickness in
 * hundredths.  Negative camber has no digits, and is left out. */
static void nearest_digits(const struct outline *o, char *digits, size_t size)
{
    double camber = 0, camber_at = 0.4, thickness = 0;
    for (int i = 1; i < 100; i++) {
        double x = 0.01 * i, upper = ordinate(o, 0, o->nose, x), lower = ordinate(o, o->nose, o->count - 1, x);
        thickness = fmax(thickness, fabs(upper - lower));
        if (0.5 * (upper + lower) > camber) {
            camber = 0.5 * (upper + lower);
            camber_at = x;
        }
    }
    int m = (int)fmin(9, round(100 * camber)), p = m ? (int)fmin(9, fmax(1, round(10 * camber_at))) : 0;
    snprintf(digits, size, "%d%d%02d", m, p, (int)fmin(40, fmax(1, round(100 * thickness))));
}

enum pl_status pl_row_set_naca(struct pl_document *doc, const char *row, struct pl_problems *problems)
{
    struct pl_row_edit e;
    char name[96], digits[40] = "0012", json[48];
    if (!is_profile(doc, row))
        return refuse_profile(problems, row);
    struct outline *outline = malloc(sizeof *outline);
    if (!outline)
        return pl_row_no_memory(problems, row);
    if (read_outline(doc, row, outline))
        nearest_digits(outline, digits, sizeof digits);
    free(outline);
    pl_part_row_words(doc, row, name, sizeof name);
    snprintf(json, sizeof json, "\"%s\"", digits);
    pl_row_begin(&e, doc, problems, NULL, "%s: NACA %s", name, digits);
    pl_row_replace(&e, row, "points", "naca", json);
    return pl_row_end(&e);
}
