/* driver.h - what a driver asks of a wing: downforce, drag, their place and the load on each axle at other speeds, heights and
 * incidences, and how to set the brackets for them.
 *
 * A setting turns the wing as one piece on its brackets, about the leading edge at the root of the case's element: every
 * element keeps its place to the others; end plates go along with their tips and stay upright, as the part file knows no
 * others.  The ride height is held: it is set anew after turning.  Figures are the limited ones (wing_sections.h), with stall
 * and thickness, of the full span and before the case's factor; those of the thin lattice stand beside them.
 *
 * Pitching moment: about the quarter of the root's chord, nose up positive, of the downforce: F (x_centre - x_quarter).  Axles:
 * from the moments about the rear one, front = (F (x_rear - x_centre) - D h) / wheelbase, rear = F - front, h the height of the
 * middle of the plan area over the ground.  In free air h is not known: drag is then left out of it.
 */
#ifndef PLYLOFT_DRIVER_H
#define PLYLOFT_DRIVER_H

#include "plyloft/part.h"
#include "plyloft/problems.h"

#include <stdbool.h>

struct pl_setting { double speed_m_s, ride_height_m, incidence_rad; };  /* height NAN: free air; incidence of the case's element */

static inline struct pl_setting pl_setting_of(const struct pl_part *part, const struct pl_load_case *c)
{
    return (struct pl_setting){c->speed_m_s, c->ride_height_m, part->elements[c->element].incidence_rad};
}

/* Settings around the case's own, in order, its own among them; in free air there are no other heights. */
enum pl_over { PL_OVER_SPEED, PL_OVER_HEIGHT, PL_OVER_INCIDENCE, PL_OVERS };
enum { PL_AROUND = 8 };
size_t pl_settings_around(const struct pl_part *part, const struct pl_load_case *load_case, enum pl_over over, struct pl_setting out[PL_AROUND]);

/* A part and case as set: all but elements, their stations and the case are borrowed from those given, which must live. */
struct pl_turned {
    struct pl_part part;
    struct pl_load_case load_case;
    struct pl_arena arena;
};

/* Turned is all zeros or from an earlier call, whose memory is used again.  PL_BAD_INPUT where an element would stand steeper
 * than the 90 degrees that a part file takes. */
enum pl_status pl_turned_make(struct pl_turned *turned, const struct pl_part *part, const struct pl_load_case *load_case,
                              const struct pl_setting *setting);
void pl_turned_free(struct pl_turned *turned);

/* ---- the setting sheet ---- */

/* At a bracket: heights over the ground, or in free air over the lowest point of the root of the case's element. */
struct pl_bracket_setting {
    size_t element;
    const char *name;
    double y_m;
    double nose_m, tail_m;   /* leading and trailing edge */
    double block_m;          /* under the lower end of a straight-edge from nose to tail so that it lies level: tail - nose */
    double shim_per_m;       /* to pack up behind rather than in front, by length between the bolts, against the part as it is */
};

/* Mounts of any element that stand on the car. */
size_t pl_brackets_count(const struct pl_part *part);

/* One row for each of them; rows has room for all.  Same refusals as pl_turned_make. */
enum pl_status pl_setting_sheet(const struct pl_part *part, const struct pl_load_case *load_case, const struct pl_setting *setting,
                                struct pl_bracket_setting *rows);

/* ---- what it makes of the air ---- */

struct pl_driver_row {
    struct pl_setting at;
    bool answered;                              /* else no figures: the ground is touched, or the flow has no answer */
    double force_n, drag_n, centre_m;           /* limited; centre aft of the leading edge of the case's root, NAN: no downforce */
    double thin_force_n, thin_drag_n;           /* of the thin lattice */
    double pitch_nm;
    double front_n, rear_n;                     /* load gained by either axle; NAN without a car */
    size_t separated;                           /* strips of the right half whose section is */
};

enum { PL_DRIVER_ROWS = 400, PL_DRIVER_DOUBTS = 8 };

struct pl_driver;

struct pl_driver *pl_driver_new(void);  /* NULL without memory */
void pl_driver_free(struct pl_driver *driver);

/* Begins with at most PL_DRIVER_ROWS settings, copied.  part and load_case must live until it is done.  Slices of a few
 * milliseconds: true while there is more. */
enum pl_status pl_driver_aim(struct pl_driver *driver, const struct pl_part *part, const struct pl_load_case *load_case,
                             const struct pl_setting *settings, size_t count);
bool pl_driver_step(struct pl_driver *driver);

bool pl_driver_at_work(const struct pl_driver *driver);  /* there is more */

/* As many as are done, in the order asked. */
const struct pl_driver_row *pl_driver_rows(const struct pl_driver *driver, size_t *count);
/* Why rows have no answer, or are in doubt: sentences, each once; NULL past the last. */
const char *pl_driver_doubt(const struct pl_driver *driver, size_t i);

#endif
