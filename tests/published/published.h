/* published.h - figures from the literature and exact solutions beside those of this program.
 *
 * One table of rows a subject; published.c prints them all.  A band is relative.  It is a thousandth or less where
 * the figure there is exact or has four digits; a wider one says why.
 */
#ifndef PLYLOFT_PUBLISHED_H
#define PLYLOFT_PUBLISHED_H

#include <stddef.h>

struct published_row {
    const char *source, *what, *unit;
    double there;              /* as printed there, or */
    double (*exact)(void);     /* worked out from the closed form */
    double (*here)(void);
    double band;
    const char *because;       /* of a band above a thousandth */
};

/* A figure printed there, a closed form, and one printed with fewer digits than the usual band. */
#define PRINTED(source, what, unit, there, here, band) {source, what, unit, there, NULL, here, band, NULL}
#define EXACT(source, what, unit, exact, here, band) {source, what, unit, 0, exact, here, band, NULL}
#define COARSE(source, what, unit, there, here, band, because) {source, what, unit, there, NULL, here, band, because}

struct published_table {
    const char *subject;
    const struct published_row *rows;
    size_t count;
};

extern const struct published_table published_shapes, published_laminates, published_sections, published_beams,
    published_loads, published_flows, published_wings;

#endif
