#include "plyloft/beam.h"

/* Shear and moment of everything to the right of y. */
struct beyond { double shear, moment; };

static struct beyond even_beyond(double total_n, double from_m, double to_m, double y_m)
{
    double per_m = total_n / (to_m - from_m), start = fmin(to_m, fmax(from_m, y_m)), shear = per_m * (to_m - start);
    return (struct beyond){shear, shear * (0.5 * (start + to_m) - y_m)};
}

/* Prandtl 1921 (handbook F4.3): w0 = 4 F / (pi b), I = pi/4 - (e sqrt(1 - e2) + asin e) / 2,
 * V = w0 s I, M = w0 s2 ((1 - e2)^1.5 / 3 - e I), s = b/2, e = y/s from the middle. */
static struct beyond elliptic_beyond(double total_n, double from_m, double to_m, double y_m)
{
    double s = 0.5 * (to_m - from_m), e = fmin(1, fmax(-1, (y_m - 0.5 * (from_m + to_m)) / s)), rest = 1 - e * e;
    double w0 = 2 * total_n / (M_PI * s), i = M_PI / 4 - 0.5 * (e * sqrt(rest) + asin(e));
    return (struct beyond){w0 * s * i, w0 * s * s * (rest * sqrt(rest) / 3 - e * i)};
}

void pl_load_spread(const struct pl_beam *beam, enum pl_spread spread, double total_n, double from_m, double to_m,
                    const double *x_m, struct pl_forces *f)
{
    struct beyond right = {0, 0};
    double roll = 0;
    for (size_t c = beam->count; c-- > 0;) {
        struct beyond here = spread == PL_SPREAD_EVEN ? even_beyond(total_n, from_m, to_m, beam->y_m[c])
                                                      : elliptic_beyond(total_n, from_m, to_m, beam->y_m[c]);
        if (c + 1 < beam->count) {
            /* Force of this interval and its moment about the left end; an upward force at x rolls by -x. */
            double h = beam->y_m[c + 1] - beam->y_m[c], force = here.shear - right.shear;
            double about = here.moment - right.moment - right.shear * h;
            roll -= x_m[c] * force + (h > 0 ? (x_m[c + 1] - x_m[c]) / h * about : 0);
        }
        f->shear_z_n[c] += here.shear;
        f->flap_nm[c] += here.moment;
        f->roll_nm[c] += roll;
        right = here;
    }
}

/* ---- a force a length at each cut ---- */

/* Sums to the right of every cut; the roll is that of `at` times the force, with its sign. */
static void add_lengths(const struct pl_beam *beam, const double *force_n_m, const double *at_m, double sign, double *shears, double *moments, double *rolls)
{
    double shear = 0, moment = 0, roll = 0;
    for (size_t c = beam->count; c-- > 0;) {
        if (c + 1 < beam->count) {
            double h = beam->y_m[c + 1] - beam->y_m[c], here = force_n_m[c], right = force_n_m[c + 1];
            moment += shear * h + h * h * (here + 2 * right) / 6;
            shear += 0.5 * h * (here + right);
            roll += sign * 0.5 * h * (at_m[c] * here + at_m[c + 1] * right);
        }
        shears[c] += shear;
        moments[c] += moment;
        rolls[c] += roll;
    }
}

void pl_load_up(const struct pl_beam *beam, const double *force_n_m, const double *x_m, struct pl_forces *f)
{
    add_lengths(beam, force_n_m, x_m, -1, f->shear_z_n, f->flap_nm, f->roll_nm);
}

void pl_load_aft(const struct pl_beam *beam, const double *force_n_m, const double *z_m, struct pl_forces *f)
{
    add_lengths(beam, force_n_m, z_m, 1, f->shear_x_n, f->lead_nm, f->roll_nm);
}

/* ---- a table of places ---- */

static struct pl_load_place load_at(const struct pl_load_place *p, size_t n, double y_m)
{
    size_t i = 1;
    if (y_m <= p[0].y_m || n == 1)
        return (struct pl_load_place){y_m, p[0].force_n_m, p[0].roll_nm_m};
    if (y_m >= p[n - 1].y_m)
        return (struct pl_load_place){y_m, p[n - 1].force_n_m, p[n - 1].roll_nm_m};
    while (p[i].y_m < y_m)
        i++;
    double share = (y_m - p[i - 1].y_m) / (p[i].y_m - p[i - 1].y_m);
    return (struct pl_load_place){y_m, p[i - 1].force_n_m + share * (p[i].force_n_m - p[i - 1].force_n_m),
                                  p[i - 1].roll_nm_m + share * (p[i].roll_nm_m - p[i - 1].roll_nm_m)};
}

/* Sums to the right of a place that moves inboard, exact for a load linear on the way. */
struct sums { double shear, moment, roll; struct pl_load_place at; };

static void move_to(struct sums *s, struct pl_load_place to)
{
    double h = s->at.y_m - to.y_m;
    s->moment += s->shear * h + h * h * (to.force_n_m + 2 * s->at.force_n_m) / 6;
    s->shear += 0.5 * h * (to.force_n_m + s->at.force_n_m);
    s->roll += 0.5 * h * (to.roll_nm_m + s->at.roll_nm_m);
    s->at = to;
}

void pl_load_places(const struct pl_beam *beam, const struct pl_load_place *places, size_t n, struct pl_forces *f)
{
    size_t inboard = n;  /* places to the left of where the sums stand */
    struct sums s = {.at = load_at(places, n, beam->y_m[beam->count - 1])};
    for (size_t c = beam->count; c-- > 0;) {
        double y_m = beam->y_m[c];
        for (; inboard && places[inboard - 1].y_m > y_m; inboard--)
            if (places[inboard - 1].y_m < s.at.y_m)
                move_to(&s, places[inboard - 1]);
        move_to(&s, load_at(places, n, y_m));
        f->shear_z_n[c] += s.shear;
        f->flap_nm[c] += s.moment;
        f->roll_nm[c] += s.roll;
    }
}

double pl_load_places_total_n(const struct pl_load_place *p, size_t n, double from_m, double to_m)
{
    double total = p[0].force_n_m * (p[0].y_m - from_m) + p[n - 1].force_n_m * (to_m - p[n - 1].y_m);
    for (size_t i = 1; i < n; i++)
        total += 0.5 * (p[i].force_n_m + p[i - 1].force_n_m) * (p[i].y_m - p[i - 1].y_m);
    return total;
}
