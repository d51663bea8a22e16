/* storeys.h - elements that stand on others, and pushes on them, in a few words (see part_text.h).
 *
 * Every upper element is a plain one of 100 mm chord, its leading edge 250 mm behind and 30 mm above that of the
 * main one, over the same span.
 */
#ifndef PLYLOFT_TESTS_STOREYS_H
#define PLYLOFT_TESTS_STOREYS_H

#include "../part_text.h"
#include "../support.h"

/* How a mount holds; words for `mount`. */
#define PINNED "'hold': 'pinned'"
#define CLAMPED "'hold': 'clamped'"
#define SPRUNG "'hold': 'clamped', 'stiffness_nm_per_rad': 1500"

/* on NULL: on the car. */
static inline const char *mount(const char *name, double y_mm, const char *hold, const char *on)
{
    const char *carrier = on ? say(", 'on': '%s', 'at': 0.9", on) : "";
    return say("{'name': '%s', 'y_mm': %.15g, %s%s}", name, y_mm, hold, carrier);
}

static inline const char *upper(const char *name, const char *mounts)
{
    return say("{'name': '%s', 'incidence_deg': 0, 'stations': [{'y_mm': 0, 'chord_mm': 100, 'x_le_mm': 250,"
               " 'z_le_mm': 30, 'twist_deg': 0, 'profile': 'section'}, {'y_mm': 640, 'chord_mm': 100, 'x_le_mm': 250,"
               " 'z_le_mm': 30, 'twist_deg': 0, 'profile': 'section'}], 'core': 'foam', 'resin': 'resin', 'layup':"
               " [%s], 'mounts': [%s]}",
               name, say_skin("plain", 45, 3), mounts);
}

/* On two pins of the carrier. */
static inline const char *on_pins(const char *name, double at_mm, const char *on)
{
    return upper(name, say("%s, %s", mount("l", -at_mm, PINNED, on), mount("r", at_mm, PINNED, on)));
}

/* A point load upward; with: names of cases, each in quotes. */
static inline const char *push(const char *name, const char *element, double y_mm, double force_n, double factor,
                               const char *with)
{
    return say("{'name': '%s', 'kind': 'point', 'element': '%s', 'factor': %.15g, 'y_mm': %.15g, 'acts_at': 0.4,"
               " 'direction': 'up', 'force_n': %.15g, 'with': [%s]}",
               name, element, factor, y_mm, force_n, with);
}

/* The sample's wing with a flap that is wet with a resin of its own, a heavier one. */
static inline struct wing_text two_resins(void)
{
    struct wing_text text = front_wing;
    text.resin = say("%s}, {'name': 'heavy', 'kind': 'epoxy', 'density_kgm3': 1300, 'mix_ratio_by_weight': [100, 30],"
                     " 'pot_life_min': 40, 'pot_life_at_c': 25, 'tg_dry_c': 75, 'tg_wet_c': 65", front_wing.resin);
    text.more_elements =
        say("{'name': 'flap', 'incidence_deg': 5, 'stations': [{'y_mm': 0, 'chord_mm': 100, 'x_le_mm': 250,"
            " 'z_le_mm': 30, 'twist_deg': 0, 'profile': 'section'}, {'y_mm': 640, 'chord_mm': 90, 'x_le_mm': 250,"
            " 'z_le_mm': 30, 'twist_deg': 0, 'profile': 'section'}], 'core': 'foam', 'resin': 'heavy', 'layup': [%s],"
            " 'mounts': [{'name': 'l', 'y_mm': -600, 'hold': 'clamped'}, {'name': 'r', 'y_mm': 600, 'hold':"
            " 'clamped'}]}", say_skin("plain", 20, 2));
    return text;
}

#endif
