#include "plyloft/boundary_layer.h"

#include <math.h>

static const double least_reynolds_x = 1e5, laminar_separates = -0.09, shape_at_start = 1.4;

/* ---- relations ---- */

/* Cebeci and Bradshaw, Momentum Transfer in Boundary Layers, 1977, section 5.4. */
double pl_laminar_shape(double lambda)
{
    double l = fmin(0.25, fmax(laminar_separates, lambda));
    return l >= 0 ? 2.61 - 3.75 * l + 5.24 * l * l : 2.088 + 0.0731 / (0.14 + l);
}

/* The same, section 7.5: Head's curve in two pieces. */
double pl_head_h1(double shape)
{
    return 3.3 + (shape <= 1.6 ? 0.8234 * pow(fmax(shape - 1.1, 1e-6), -1.287) : 1.5501 * pow(shape - 0.6778, -3.064));
}

double pl_head_shape(double h1)
{
    static const double joint = 5.3;  /* H = 1.6 */
    if (h1 <= 3.3 + 1e-9)
        return 3;
    return h1 >= joint ? 1.1 + pow((h1 - 3.3) / 0.8234, -1 / 1.287) : fmin(3, 0.6778 + pow((h1 - 3.3) / 1.5501, -1 / 3.064));
}

static double michel(double reynolds_x)
{
    return 1.174 * (1 + 22400 / reynolds_x) * pow(reynolds_x, 0.46);
}

/* ---- laminar ---- */

struct march {
    struct pl_boundary_layer *layer;
    double nu, limit;
    int steps;
    double integral;      /* of u^5 so far */
    double entrained;     /* u theta H1 */
};

/* Of u^5 between two points, u linear. */
static double fifth_power(double a, double b, double length)
{
    double sum = 0, power[6] = {1, a, a * a, a * a * a, a * a * a * a, a * a * a * a * a}, last = 1;
    for (int i = 0; i <= 5; i++, last *= b)
        sum += power[5 - i] * last;
    return length * sum / 6;
}

static double slope_at(const struct pl_boundary_layer *l, size_t i)
{
    size_t next = i + 1 < l->count ? i + 1 : i, before = i ? i - 1 : 0;
    return (l->speed[next] - l->speed[before]) / (l->way[next] - l->way[before]);
}

/* How far Re_theta stands above Michel's curve; below 0 while the layer stays laminar. */
static double above_michel(const struct march *m, double u, double way, double theta)
{
    double reynolds_x = u * way / m->nu;
    return reynolds_x > least_reynolds_x ? u * theta / m->nu - michel(reynolds_x) : -1;
}

/* One point on; true when the layer has turned turbulent before or at it, *share of the way from the point before. */
static bool laminar_step(struct march *m, size_t i, double *share)
{
    struct pl_boundary_layer *l = m->layer;
    double a = l->speed[i - 1], b = l->speed[i];
    m->integral += fifth_power(a, b, l->way[i] - l->way[i - 1]);
    l->theta[i] = sqrt(0.45 * m->nu * m->integral / (b * b * b * b * b * b));
    double lambda = l->theta[i] * l->theta[i] * slope_at(l, i) / m->nu, above = above_michel(m, b, l->way[i], l->theta[i]);
    l->shape[i] = pl_laminar_shape(lambda);
    *share = 1;
    if (above > 0) {
        double before = i > 1 ? above_michel(m, a, l->way[i - 1], l->theta[i - 1]) : -1;
        *share = before < 0 && before > -1e6 ? -before / (above - before) : 1;
        return true;
    }
    return lambda < laminar_separates;
}

/* ---- turbulent ---- */

struct rates { double theta, entrained; };

static struct rates rates_at(const struct march *m, double u, double slope, double theta, double entrained)
{
    double h1 = entrained / (u * theta), shape = pl_head_shape(h1), reynolds_theta = fmax(u * theta / m->nu, 1);
    double friction = 0.246 * exp(-0.678 * M_LN10 * shape) * pow(reynolds_theta, -0.268);
    return (struct rates){0.5 * friction - (shape + 2) * theta * slope / u, 0.0306 * u * pow(fmax(h1 - 3, 1e-4), -0.6169)};
}

/* Runge and Kutta from one way to another between two points; false when H reached the limit, *at where. */
static bool turbulent_part(struct march *m, size_t i, double from, double *theta, double *at)
{
    const struct pl_boundary_layer *l = m->layer;
    double slope = (l->speed[i] - l->speed[i - 1]) / (l->way[i] - l->way[i - 1]), h = (l->way[i] - from) / m->steps;
    for (int k = 0; k < m->steps; k++) {
        double x = from + k * h, u0 = l->speed[i - 1] + slope * (x - l->way[i - 1]), u1 = u0 + 0.5 * slope * h, u2 = u0 + slope * h;
        struct rates r1 = rates_at(m, u0, slope, *theta, m->entrained);
        struct rates r2 = rates_at(m, u1, slope, *theta + 0.5 * h * r1.theta, m->entrained + 0.5 * h * r1.entrained);
        struct rates r3 = rates_at(m, u1, slope, *theta + 0.5 * h * r2.theta, m->entrained + 0.5 * h * r2.entrained);
        struct rates r4 = rates_at(m, u2, slope, *theta + h * r3.theta, m->entrained + h * r3.entrained);
        *theta += h / 6 * (r1.theta + 2 * r2.theta + 2 * r3.theta + r4.theta);
        m->entrained += h / 6 * (r1.entrained + 2 * r2.entrained + 2 * r3.entrained + r4.entrained);
        if (!(*theta > 0) || !isfinite(m->entrained) || pl_head_shape(m->entrained / (u2 * *theta)) >= m->limit) {
            *at = x + h;
            return false;
        }
    }
    return true;
}

/* From one point, or from between two, to the next. */
static bool turbulent_step(struct march *m, size_t i, double from, double theta)
{
    struct pl_boundary_layer *l = m->layer;
    if (!turbulent_part(m, i, from, &theta, &l->separates_way)) {
        l->separates_at = i;
        return false;
    }
    l->theta[i] = theta;
    l->shape[i] = pl_head_shape(m->entrained / (l->speed[i] * theta));
    return true;
}

/* ---- both ---- */

static void start_turbulent(struct march *m, double u, double theta)
{
    m->entrained = u * theta * pl_head_h1(shape_at_start);
}

/* The layer turned turbulent a share of the way to point i: from there on to that point. */
static bool turn(struct march *m, size_t i, double share)
{
    struct pl_boundary_layer *l = m->layer;
    double way = l->way[i - 1] + share * (l->way[i] - l->way[i - 1]), u = l->speed[i - 1] + share * (l->speed[i] - l->speed[i - 1]);
    double theta = l->theta[i - 1] + share * (l->theta[i] - l->theta[i - 1]);
    l->turbulent_from = i;
    l->turbulent_way = way;
    start_turbulent(m, u, theta);
    if (share < 1)
        return turbulent_step(m, i, way, theta);
    l->shape[i] = shape_at_start;
    return true;
}

bool pl_boundary_layer_march(struct pl_boundary_layer *l, double reynolds, double shape_separates, int steps)
{
    struct march m = {l, 1 / reynolds, shape_separates, steps, 0, 0};
    if (l->count < 3 || !(l->speed[1] > 0) || !(l->way[1] > 0))
        return false;
    l->turbulent_from = l->separates_at = l->count;
    l->turbulent_way = l->separates_way = l->way[l->count - 1];
    l->theta[0] = sqrt(0.075 * m.nu * l->way[1] / l->speed[1]);  /* Hiemenz' stagnation flow */
    l->shape[0] = pl_laminar_shape(0.075);
    for (size_t i = 1; i < l->count; i++) {
        double share;
        if (!(l->speed[i] > 0) || !(l->way[i] > l->way[i - 1])) {  /* the air stands still: nothing goes on from here */
            l->separates_at = i;
            l->separates_way = l->way[i];
            return i > 2;
        }
        if (l->turbulent_from < l->count ? !turbulent_step(&m, i, l->way[i - 1], l->theta[i - 1])
                                         : laminar_step(&m, i, &share) && !turn(&m, i, share))
            return true;
    }
    return true;
}

double pl_boundary_layer_drag(const struct pl_boundary_layer *l)
{
    size_t last = l->separates_at < l->count ? l->separates_at - 1 : l->count - 1;
    return 2 * l->theta[last] * pow(l->speed[last], 0.5 * (l->shape[last] + 5));
}
