#include "plyloft/profile_text.h"

#include "profile_rows.h"

#include "plyloft/buffer.h"
#include "plyloft/profile.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void complain_of_row(struct reader *r, size_t row, const char *rule)
{
    pl_rows_complain(r, r->rows[row].line, rule, r->rows[row].text);
}

static void drop_row(struct reader *r, size_t row)
{
    r->count--;
    memmove(&r->rows[row], &r->rows[row + 1], (r->count - row) * sizeof *r->rows);
}

static bool is_count(double value)
{
    return value >= 2 && value <= PL_PROFILE_POINTS_MOST && value == floor(value);
}

static bool are_counts(const struct row *row)
{
    return is_count(row->at.x) && is_count(row->at.z);
}

/* A line of counts in front of two surfaces stands before their nose, as no point far from it does; one between
 * them counts what stands on either side. */
static bool take_counts(struct reader *r)
{
    char rule[80];
    if (r->count >= 2 && are_counts(&r->rows[0]) && r->rows[1].at.x < 0.5) {
        size_t counted = (size_t)(r->rows[0].at.x + r->rows[0].at.z);
        if (counted != r->count - 1) {
            snprintf(rule, sizeof rule, "counts %zu points, but %zu follow", counted, r->count - 1);
            complain_of_row(r, 0, rule);
            return false;
        }
        r->first_surface = (size_t)r->rows[0].at.x;
        drop_row(r, 0);
        return true;
    }
    for (size_t i = 2; i + 2 < r->count; i++)
        if (are_counts(&r->rows[i]) && r->rows[i].at.x == (double)i && r->rows[i].at.z == (double)(r->count - 1 - i)
            && r->rows[i + 1].at.x < r->rows[i - 1].at.x) {
            r->first_surface = i;
            drop_row(r, i);
            break;
        }
    return true;
}

/* ---- one outline ---- */

static bool set_scale(struct reader *r)
{
    size_t least = 0, most = 0;
    char rule[160], from[32], to[32];
    for (size_t i = 1; i < r->count; i++) {
        least = r->rows[i].at.x < r->rows[least].at.x ? i : least;
        most = r->rows[i].at.x > r->rows[most].at.x ? i : most;
    }
    r->out->per_cent = fabs(r->rows[most].at.x - 100) <= 2;
    if (!r->out->per_cent && fabs(r->rows[most].at.x - 1) > 0.02) {
        pl_number_digits(from, sizeof from, r->rows[least].at.x, 6);
        pl_number_digits(to, sizeof to, r->rows[most].at.x, 6);
        snprintf(rule, sizeof rule, "x must run to 1 (chords) or 100 (per cent of the chord): it runs from %s to %s",
                 from, to);
        complain_of_row(r, most, rule);
        return false;
    }
    for (size_t i = 0; i < r->count && r->out->per_cent; i++) {
        r->rows[i].at.x /= 100;
        r->rows[i].at.z /= 100;
    }
    return true;
}

static bool same_place(const struct row *a, const struct row *b)
{
    return a->at.x == b->at.x && a->at.z == b->at.z;
}

/* A point given twice is a slip, but for the nose of an outline put together from two halves. */
static bool check_doubles(struct reader *r)
{
    double nose = HUGE_VAL;
    bool folded = r->out->by_surface;
    for (size_t i = 0; i < r->count; i++)
        nose = fmin(nose, r->rows[i].at.x);
    for (size_t i = 1; i < r->count && r->complaints < PL_ROW_COMPLAINTS_MOST; i++) {
        if (!same_place(&r->rows[i], &r->rows[i - 1]))
            continue;
        if (folded || r->rows[i].at.x > nose) {
            complain_of_row(r, i, "repeats the point before it");
            continue;
        }
        folded = true;
        drop_row(r, i--);
    }
    return !r->complaints;
}

static void turn_round(struct row *rows, size_t count)
{
    for (size_t i = 0; i < count / 2; i++) {
        struct row kept = rows[i];
        rows[i] = rows[count - 1 - i];
        rows[count - 1 - i] = kept;
    }
}

/* Two surfaces from nose to tail: the second begins where x falls back farthest. */
static bool join_surfaces(struct reader *r)
{
    size_t second = 1;
    char rule[96];
    for (size_t i = 2; i < r->count; i++)
        if (r->rows[i - 1].at.x - r->rows[i].at.x > r->rows[second - 1].at.x - r->rows[second].at.x)
            second = i;
    if (r->rows[second - 1].at.x - r->rows[second].at.x < 0.5) {
        complain_of_row(r, r->count - 1, "ends one surface: the other must follow, from the nose again");
        return false;
    }
    if (r->first_surface && r->first_surface != second) {
        snprintf(rule, sizeof rule, "begins the second surface, but the counts put %zu points in the first",
                 r->first_surface);
        complain_of_row(r, second, rule);
        return false;
    }
    turn_round(r->rows, second);
    if (same_place(&r->rows[second - 1], &r->rows[second]))
        drop_row(r, second);
    return true;
}

/* Twice the area, positive when the list goes over the upper surface first. */
static double twice_area(const struct reader *r)
{
    double sum = 0;
    for (size_t i = 0; i < r->count; i++) {
        const struct pl_point *a = &r->rows[i].at, *b = &r->rows[(i + 1) % r->count].at;
        sum += a->x * b->z - b->x * a->z;
    }
    return sum;
}

static bool put_in_order(struct reader *r)
{
    r->out->by_surface = r->rows[0].at.x < 0.5;
    if (r->rows[r->count - 1].at.x < 0.5) {
        complain_of_row(r, r->count - 1, "ends ahead of mid-chord: the order must be from the trailing edge round the"
                        " nose and back, or each surface from nose to tail");
        return false;
    }
    if (!check_doubles(r) || (r->out->by_surface && !join_surfaces(r)))
        return false;
    r->out->lower_first = twice_area(r) < 0;
    if (r->out->lower_first)
        turn_round(r->rows, r->count);
    return true;
}

static bool check_count(struct reader *r)
{
    char rule[64] = "holds no coordinates";
    if (r->count)
        snprintf(rule, sizeof rule, "needs at least 5 points: it has %zu", r->count);
    if (r->count < 5)
        pl_rows_complain(r, 0, rule, (struct span){r->end, r->end});
    return r->count >= 5;
}

static bool keep_points(struct reader *r)
{
    size_t at;
    for (size_t i = 0; i < r->count; i++)
        r->out->points[i] = r->rows[i].at;
    r->out->count = r->count;
    const char *fault = pl_points_fault(r->out->points, r->count, &at);
    if (r->count > PL_PROFILE_POINTS_MOST)
        complain_of_row(r, PL_PROFILE_POINTS_MOST, "has too many points: at most 2000");
    else if (fault)
        complain_of_row(r, at, fault);
    return !r->complaints;
}

/* Lines of the text, but not more than hold the points allowed, one nose too many and two lines of counts. */
static size_t rows_wanted(const char *text, size_t length)
{
    size_t lines = 1;
    for (size_t i = 0; i < length && lines < PL_PROFILE_POINTS_MOST + 3; i++)
        lines += text[i] == '\n' || text[i] == '\r';
    return lines;
}

enum pl_status pl_profile_text_read(const char *text, size_t length, struct pl_arena *arena,
                                    struct pl_profile_text *out, struct pl_problems *problems)
{
    *out = (struct pl_profile_text){0};
    text = length ? text : "";
    struct reader r = {.at = text, .end = text + length, .out = out, .problems = problems};
    r.capacity = rows_wanted(text, length);
    r.rows = pl_arena_take_raw(arena, r.capacity, sizeof *r.rows);
    out->points = pl_arena_take_raw(arena, r.capacity, sizeof *out->points);
    if (!r.rows || !out->points)
        return PL_NO_MEMORY;
    bool good = pl_rows_read(&r) && take_counts(&r) && check_count(&r) && set_scale(&r) && put_in_order(&r)
                && keep_points(&r);
    return good ? PL_OK : PL_BAD_INPUT;
}
