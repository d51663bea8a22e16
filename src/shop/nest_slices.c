/* A bound from slices.  A cut across the roll anywhere meets pieces whose widths add up to no more than the roll's.
 * Give each width a worth u so that no such set is worth more than 1: then a piece takes u times its length of the
 * roll, and the sum over all pieces is a bound, exact for every u.  The best u solves the linear program dual to
 * cutting stock (Gilmore & Gomory 1961, Oper. Res. 9; as a bound for strips: Martello, Monaci & Vigo 2003, INFORMS
 * J. Comput. 15):
 *     most  sum of n pi,  with pi <= l u(w), and where a piece turns pi <= w u(l) too;  u of each set <= 1.
 * The lengths may be any numbers for which the bound is wanted, such as scaled ones (nest_scales.c).  Sets are found
 * one after another, by the knapsack that breaks the program's answer most; in the end u is divided by what the
 * worst set is worth, so that neither rounding nor an early end spoils the proof. */
#include "nest_inside.h"

#include <math.h>
#include <string.h>

enum { TYPES_MOST = 24, ROUNDS = 60, PIVOTS = 400, KNAPSACK_STEPS = 2000, ROWS_MOST = 4 * TYPES_MOST + ROUNDS + 2 };

/* Rectangles alike.  Where two ways are given the second is a quarter turn; a way that cannot be has length
 * HUGE_VAL. */
struct type {
    double length[2], width_m[2];
    size_t of_width[2]; /* places in widths_m */
    size_t count;
};

struct pl_nest_slices {
    struct type types[TYPES_MOST];
    size_t n_types;
    double widths_m[2 * TYPES_MOST];
    size_t most[2 * TYPES_MOST]; /* pieces that may lie with this width */
    size_t n_widths;
    double roll_m;
    /* The program's table: a row for each constraint, columns u, pi, the right side, a slack for each row; its last row
     * the gain.  Rows are `stride` long, of which `columns` are in use. */
    double *table;
    size_t rows, columns, right, stride;
    size_t basis[ROWS_MOST];
};

struct pl_nest_slices *pl_nest_slices_take(struct pl_arena *arena)
{
    struct pl_nest_slices *s = pl_arena_take(arena, 1, sizeof *s);
    if (s)
        s->table = pl_arena_take(arena, ROWS_MOST * (ROWS_MOST + 3 * TYPES_MOST + 1), sizeof *s->table);
    return s && s->table ? s : NULL;
}

static double *row(struct pl_nest_slices *s, size_t r)
{
    return s->table + r * s->stride;
}

static size_t place_of_width(struct pl_nest_slices *s, double width_m, size_t count)
{
    size_t i = 0;
    while (i < s->n_widths && s->widths_m[i] != width_m)
        i++;
    if (i == s->n_widths) {
        s->widths_m[s->n_widths] = width_m;
        s->most[s->n_widths++] = 0;
    }
    s->most[i] += count;
    return i;
}

/* False when there are more kinds than this bound is worth. */
static bool sort_types(struct pl_nest_slices *s, const struct pl_nest_strip *strip, const double *lengths)
{
    s->n_types = s->n_widths = 0;
    for (size_t i = 0; i < strip->count; i++) {
        const struct pl_nest_rect *r = &strip->rects[i];
        struct type type = {{lengths[2 * i], lengths[2 * i + 1]}, {r->width_m, r->length_m}, {0, 0}, 0};
        size_t t = 0;
        while (t < s->n_types && (memcmp(s->types[t].length, type.length, sizeof type.length) != 0 ||
                                  memcmp(s->types[t].width_m, type.width_m, sizeof type.width_m) != 0))
            t++;
        if (t == TYPES_MOST)
            return false;
        if (t == s->n_types)
            s->types[s->n_types++] = type;
        s->types[t].count++;
    }
    for (size_t t = 0; t < s->n_types; t++)
        for (int way = 0; way < 2; way++)
            if (s->types[t].length[way] < HUGE_VAL)
                s->types[t].of_width[way] = place_of_width(s, s->types[t].width_m[way], s->types[t].count);
    return true;
}

/* The worthiest set: widths in falling worth by width, how many of each. */
struct knapsack {
    const struct pl_nest_slices *s;
    const double *worth;
    size_t by_density[2 * TYPES_MOST], taken[2 * TYPES_MOST], best[2 * TYPES_MOST];
    double most;
    size_t steps;
};

/* A set that may still be filled from the i-th width on; false when the steps end, with `most` an upper bound then. */
static void pack(struct knapsack *k, size_t i, double room_m, double worth)
{
    if (worth > k->most) {
        k->most = worth;
        memcpy(k->best, k->taken, sizeof k->best);
    }
    if (i == k->s->n_widths || !k->steps)
        return;
    k->steps--;
    size_t w = k->by_density[i];
    double width_m = k->s->widths_m[w];
    if (worth + room_m * k->worth[w] / width_m <= k->most + 1e-12)
        return;
    size_t n = (size_t)fmin((double)k->s->most[w], floor(room_m / width_m));
    for (size_t take = n + 1; take--;) {
        k->taken[w] = take;
        pack(k, i + 1, room_m - (double)take * width_m, worth + (double)take * k->worth[w]);
    }
    k->taken[w] = 0;
}

/* Gives what the worthiest set is worth, or more. */
static double worst_set(struct knapsack *k, const struct pl_nest_slices *s, const double *worth)
{
    *k = (struct knapsack){.s = s, .worth = worth, .steps = KNAPSACK_STEPS};
    for (size_t i = 0; i < s->n_widths; i++) {
        size_t at = i;
        for (; at && worth[k->by_density[at - 1]] / s->widths_m[k->by_density[at - 1]] < worth[i] / s->widths_m[i];
             at--)
            k->by_density[at] = k->by_density[at - 1];
        k->by_density[at] = i;
    }
    size_t densest = k->by_density[0];
    pack(k, 0, s->roll_m, 0);
    return k->steps ? k->most : s->roll_m * worth[densest] / s->widths_m[densest];
}

/* Adds a constraint in terms of the basis as it stands. */
static void add_row(struct pl_nest_slices *s, const double *coefficients, size_t n, double right)
{
    size_t fresh = s->rows, slack = s->columns++;
    for (size_t r = 0; r <= s->rows; r++)
        row(s, r)[slack] = 0;
    memcpy(row(s, fresh + 1), row(s, fresh), s->columns * sizeof *s->table);
    double *new_row = row(s, fresh);
    memset(new_row, 0, s->columns * sizeof *new_row);
    memcpy(new_row, coefficients, n * sizeof *new_row);
    new_row[slack] = 1;
    new_row[s->right] = right;
    for (size_t r = 0; r < s->rows; r++) {
        double factor = new_row[s->basis[r]];
        for (size_t c = 0; factor != 0 && c < s->columns; c++)
            new_row[c] -= factor * row(s, r)[c];
    }
    s->basis[s->rows++] = slack;
}

static void pivot(struct pl_nest_slices *s, size_t at_row, size_t at_column)
{
    double *p = row(s, at_row), by = p[at_column];
    for (size_t c = 0; c < s->columns; c++)
        p[c] /= by;
    for (size_t r = 0; r <= s->rows; r++) {
        double factor = row(s, r)[at_column];
        if (r == at_row || factor == 0)
            continue;
        for (size_t c = 0; c < s->columns; c++)
            row(s, r)[c] -= factor * p[c];
    }
    s->basis[at_row] = at_column;
}

/* One step of the simplex; false at the top.  The lowest column first, so that it does not run in circles (Bland
 * 1977). */
static bool climb(struct pl_nest_slices *s)
{
    size_t column = 0, best = s->rows;
    const double *gain = row(s, s->rows);
    while (column < s->columns && (column == s->right || gain[column] >= -1e-11))
        column++;
    if (column == s->columns)
        return false;
    double least = HUGE_VAL;
    for (size_t r = 0; r < s->rows; r++) {
        double a = row(s, r)[column], ratio = row(s, r)[s->right] / a;
        if (a > 1e-9 && (ratio < least - 1e-12 || (ratio < least + 1e-12 && s->basis[r] < s->basis[best]))) {
            least = fmin(least, ratio);
            best = r;
        }
    }
    if (best == s->rows)
        return false;
    pivot(s, best, column);
    return true;
}

/* One step back below a constraint that was added; false when all hold (dual simplex: Lemke 1954). */
static bool mend(struct pl_nest_slices *s)
{
    size_t worst = s->rows, best = s->columns;
    double least = -1e-10, smallest = HUGE_VAL;
    for (size_t r = 0; r < s->rows; r++)
        if (row(s, r)[s->right] < least) {
            least = row(s, r)[s->right];
            worst = r;
        }
    for (size_t c = 0; worst < s->rows && c < s->columns; c++) {
        double a = row(s, worst)[c], ratio = row(s, s->rows)[c] / -a;
        if (c != s->right && a < -1e-9 && ratio < smallest - 1e-12) {
            smallest = ratio;
            best = c;
        }
    }
    if (best == s->columns)
        return false;
    pivot(s, worst, best);
    return true;
}

static void start(struct pl_nest_slices *s)
{
    size_t sizes = s->n_widths + s->n_types;
    s->rows = 0;
    s->right = sizes;
    s->columns = sizes + 1;
    s->stride = sizes + 1 + ROWS_MOST;
    memset(s->table, 0, s->stride * sizeof *s->table);
    for (size_t t = 0; t < s->n_types; t++)
        row(s, 0)[s->n_widths + t] = -(double)s->types[t].count;
    for (size_t t = 0; t < s->n_types; t++)
        for (int way = 0; way < 2; way++) {
            double constraint[3 * TYPES_MOST] = {0};
            if (s->types[t].length[way] == HUGE_VAL)
                continue;
            constraint[s->n_widths + t] = 1;
            constraint[s->types[t].of_width[way]] = -s->types[t].length[way];
            add_row(s, constraint, sizes, 0);
        }
    for (size_t w = 0; w < s->n_widths; w++) {
        double constraint[3 * TYPES_MOST] = {0};
        constraint[w] = fmin((double)s->most[w], (double)pl_nest_side_by_side(s->roll_m, s->widths_m[w]));
        add_row(s, constraint, sizes, 1);
    }
}

static void read_worth(const struct pl_nest_slices *s, double *worth)
{
    memset(worth, 0, s->n_widths * sizeof *worth);
    for (size_t r = 0; r < s->rows; r++)
        if (s->basis[r] < s->n_widths)
            worth[s->basis[r]] = fmax(0, s->table[r * s->stride + s->right]);
}

static double bound_of(const struct pl_nest_slices *s, const double *worth, double most)
{
    double sum = 0;
    for (size_t t = 0; t < s->n_types; t++) {
        double each = HUGE_VAL;
        for (int way = 0; way < 2; way++)
            if (s->types[t].length[way] < HUGE_VAL)
                each = fmin(each, s->types[t].length[way] * worth[s->types[t].of_width[way]]);
        sum += (double)s->types[t].count * each;
    }
    return most > 0 ? sum / most : 0;
}

double pl_nest_slices_least(struct pl_nest_slices *s, const struct pl_nest_strip *strip, const double *lengths)
{
    struct knapsack k;
    double worth[2 * TYPES_MOST], least = 0;
    s->roll_m = strip->width_m + 1e-9;
    if (!strip->count || !sort_types(s, strip, lengths))
        return 0;
    start(s);
    size_t steps = 0;
    while (steps < PIVOTS && climb(s))
        steps++;
    for (int round = 0; round < ROUNDS && steps < PIVOTS; round++) {
        read_worth(s, worth);
        double most = worst_set(&k, s, worth);
        least = fmax(least, bound_of(s, worth, most));
        if (most <= 1 + 1e-9 || !k.steps)
            break;
        double constraint[3 * TYPES_MOST] = {0};
        for (size_t w = 0; w < s->n_widths; w++)
            constraint[w] = (double)k.best[w];
        add_row(s, constraint, s->n_widths, 1);
        while (steps < PIVOTS && mend(s))
            steps++;
    }
    return least;
}
