/* kit_drape.c - where cloth will not lie: edges too sharp to wrap, hollows, and double curvature.
 *
 * Double curvature: a net of threads that starts square closes the angle between them by the surface's whole curvature over
 * the piece (Hazzidakis 1880 for nets that do not stretch); that curvature of a surface of flat facets is what the angles
 * round its corners lack of a full turn (Gauss).  Plain cloth locks near 35 degrees of shear (handbook, glossary).
 */
#include "kit_inside.h"

#include <math.h>
#include <stdio.h>

static bool is_uni(const struct pl_fabric *f)
{
    return f->e2_pa < 0.7 * f->e1_pa;
}

double pl_wrap_radius_m(const struct pl_fabric *f, double angle_rad)
{
    double across = sin(angle_rad);
    if (!is_uni(f))
        return 0.003;
    return f->fibre == PL_CARBON ? fmax(0.003, 0.009 * across * across) : 0.004;
}

/* Where an item is the hardest to lay on one side, and how large it is there. */
struct worst { double radius_m, y_m; };

static bool goes_round_the_nose(const struct pl_layup_item *item)
{
    return !pl_given(item->centre_at) && item->chord_from <= 0;
}

enum { PLACES = 12 };

static struct worst least_radius(const struct kit_element *e, size_t index, enum pl_side side, bool nose)
{
    const struct pl_layup_item *item = &e->element->layup[index];
    double from_m = item->from_m, to_m = pl_item_half_length_m(item, e->loft.semispan_m);
    struct worst worst = {(double)INFINITY, 0};
    for (int i = 0; i <= PLACES; i++) {
        struct pl_loft_place place;
        double y_m = from_m + (to_m - from_m) * i / PLACES, from, to;
        pl_loft_at(&e->loft, y_m, e->scratch, &place);
        pl_item_edges(item, place.chord_m, &from, &to, NULL);
        double radius_m = nose ? pl_loft_nose_radius_m(&e->loft, &place) : pl_loft_hollow_radius_m(&e->loft, &place, side, from, to);
        if (radius_m < worst.radius_m)
            worst = (struct worst){radius_m, y_m};
    }
    return worst;
}

/* ---- double curvature ---- */

enum { ALONG = 24, ACROSS = 8 };

static double angle_at(struct pl_vector at, struct pl_vector a, struct pl_vector b)
{
    struct pl_vector p = pl_minus(a, at), q = pl_minus(b, at), n = pl_cross(p, q);
    return atan2(sqrt(pl_dot(n, n)), pl_dot(p, q));
}

/* Of the eight neighbours round a corner of the grid, the six that share its facets, in turn. */
static double lack_of_a_turn(struct pl_vector at, const struct pl_vector round[6])
{
    double sum = 0;
    for (int i = 0; i < 6; i++)
        sum += angle_at(at, round[i], round[(i + 1) % 6]);
    return 2 * M_PI - sum;
}

static void set_row(const struct kit_element *e, size_t index, enum pl_side side, double y_m, double low, double high, struct pl_vector row[ACROSS + 1])
{
    struct pl_loft_place place;
    double from, to;
    pl_loft_at(&e->loft, y_m, e->scratch, &place);
    pl_item_edges(&e->element->layup[index], place.chord_m, &from, &to, NULL);
    for (int k = 0; k <= ACROSS; k++)
        row[k] = pl_loft_on_surface(&e->loft, &place, side, from + (to - from) * (low + (high - low) * k / ACROSS));
}

/* Shear between the threads at the corner of a quarter of a piece, from its centreline and the middle of its girth. */
static double quarter_shear_rad(const struct kit_element *e, size_t index, enum pl_side side, double low, double high)
{
    const struct pl_layup_item *item = &e->element->layup[index];
    double from_m = item->from_m, to_m = pl_item_half_length_m(item, e->loft.semispan_m), sum = 0;
    struct pl_vector rows[3][ACROSS + 1];
    for (int i = 0; i <= ALONG; i++) {
        for (int k = 0; i && k <= ACROSS; k++) {
            rows[0][k] = rows[1][k];
            rows[1][k] = rows[2][k];
        }
        set_row(e, index, side, from_m + (to_m - from_m) * i / ALONG, low, high, rows[2]);
        for (int k = 1; i >= 2 && k < ACROSS; k++) {
            const struct pl_vector round[6] = {rows[0][k], rows[0][k + 1], rows[1][k + 1], rows[2][k], rows[2][k - 1], rows[1][k - 1]};
            sum += lack_of_a_turn(rows[1][k], round);
        }
    }
    return fabs(sum);
}

static const double locks_rad = 35 * M_PI / 180;

static bool warn_shear(struct pl_kit *kit, const struct kit_element *e, size_t index, enum pl_side side)
{
    double shear = fmax(quarter_shear_rad(e, index, side, 0, 0.5), quarter_shear_rad(e, index, side, 0.5, 1));
    return shear < locks_rad || pl_kit_warn(kit, "%s, %s: double curvature shears its threads by %.0f degrees; plain cloth locks near 35: dart it, or lay it in parts",
                                         e->element->layup[index].name, side == PL_TOP ? "top" : "bottom", shear * 180 / M_PI);
}

static bool warn_radii(struct pl_kit *kit, const struct kit_element *e, size_t index, enum pl_side side)
{
    const struct pl_layup_item *item = &e->element->layup[index];
    const struct pl_fabric *f = &e->part->fabrics[item->fabric];
    double limit_m = pl_wrap_radius_m(f, item->angle_rad);
    struct worst hollow = least_radius(e, index, side, false);
    /* A corner shows as a radius of about the fiftieth of the chord that it is measured over. */
    if (hollow.radius_m < fmax(limit_m, 0.02 * e->element->stations[0].chord_m)
        && !pl_kit_warn(kit, "%s, %s: hollow of %.0f mm radius at %.0f mm: press the cloth down, it bridges", item->name, side == PL_TOP ? "top" : "bottom",
                     1e3 * hollow.radius_m, 1e3 * hollow.y_m))
        return false;
    if (!goes_round_the_nose(item))
        return true;
    struct worst nose = least_radius(e, index, side, true);
    return nose.radius_m >= limit_m
           || pl_kit_warn(kit, "%s: nose of %.1f mm radius at %.0f mm is sharper than the %.0f mm that its cloth wraps: round it, or lay a flox fillet", item->name,
                       1e3 * nose.radius_m, 1e3 * nose.y_m, 1e3 * limit_m);
}

bool pl_kit_add_drape(struct pl_kit *kit, const struct kit_element *e)
{
    for (size_t i = 0; i < e->element->n_layup; i++)
        for (int side = PL_TOP; side <= PL_BOTTOM; side++)
            if (pl_item_on_side(&e->element->layup[i], (enum pl_side)side)
                && (!warn_radii(kit, e, i, (enum pl_side)side) || !warn_shear(kit, e, i, (enum pl_side)side)))
                return false;
    return true;
}
