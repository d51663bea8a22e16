/* What a row may have or not: end plates, a tip limit, cases at the same time; and a profile's points or digits. */
#include "part_rows_inside.h"

#include "plyloft/json_writer.h"
#include "plyloft/part_edit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- end plates ---- */

static double up_to(double value_mm, double step_mm)
{
    return ceil(value_mm / step_mm - 1e-9) * step_mm;
}

static double number_or(const struct pl_document *doc, const char *row, const char *key, double otherwise)
{
    double value = pl_row_number(doc, "%s/%s", row, key);
    return pl_given(value) ? value : otherwise;
}

struct plate {
    double height_mm, length_mm, below_mm, x_le_mm;
};

/* The least height above the ground that a case gives the element, counted from its root's leading edge. */
static double ride_height_mm(const struct pl_document *doc, const char *element)
{
    double least_mm = HUGE_VAL;
    for (size_t i = 0; i < pl_row_count(doc, "/load_cases"); i++)
        if (pl_names_same(pl_row_text(doc, "/load_cases/%zu/element", i), pl_row_text(doc, "%s/name", element)))
            least_mm = fmin(least_mm, pl_row_number(doc, "/load_cases/%zu/ride_height_mm", i));
    return least_mm;
}

/* Reaches over the tip's mean line, which camber takes no further than a tenth of the chord off the chord line. */
static struct plate fitting_plate(const struct pl_document *doc, const char *element)
{
    char tip[PL_POINTER_MOST];
    size_t stations = pl_row_count(doc, "%s/stations", element);
    snprintf(tip, sizeof tip, "%s/stations/%zu", element, stations ? stations - 1 : 0);
    double chord_mm = number_or(doc, tip, "chord_mm", 250), camber_mm = 0.1 * chord_mm, spare_mm = 10;
    double turn_rad = (number_or(doc, element, "incidence_deg", 0) + number_or(doc, tip, "twist_deg", 0)) * M_PI / 180;
    pl_node inverted = pl_row_find(doc, "%s/inverted", element);
    bool upside_down = inverted != PL_NO_NODE && pl_node_kind(doc, inverted) == PL_NODE_TRUE;
    double tail_mm = chord_mm * sin(turn_rad) * (upside_down ? 1 : -1);
    double needed_mm = up_to(fmax(0, -tail_mm) + camber_mm + spare_mm, 5);
    double room_mm = floor((ride_height_mm(doc, element) + number_or(doc, tip, "z_le_mm", 0) - spare_mm) / 5) * 5;
    double below_mm = fmax(needed_mm, fmin(80, room_mm)), above_mm = fmax(fmax(0, tail_mm) + camber_mm + spare_mm, 120);
    return (struct plate){up_to(below_mm + above_mm, 10), up_to(chord_mm + 3 * spare_mm, 10), below_mm,
                          floor(number_or(doc, tip, "x_le_mm", 0) - spare_mm)};
}

enum pl_status pl_row_add_end_plates(struct pl_document *doc, const char *element, struct pl_problems *problems)
{
    struct pl_row_place p;
    struct pl_row_edit e;
    char name[96];
    if (!pl_row_place(doc, element, &p) || p.group != PL_GROUP_ELEMENT || p.index == p.count)
        return pl_row_refuse(problems, element, "is no element of the part", NULL);
    if (pl_row_has(doc, "%s/end_plates", element))
        return pl_row_refuse(problems, element, "has end plates already", NULL);
    struct plate plate = fitting_plate(doc, element);
    pl_part_row_words(doc, element, name, sizeof name);
    pl_row_begin(&e, doc, problems, NULL, "add end plates: %s", name);
    pl_row_set(&e, "{}", "%s/end_plates", element);
    pl_row_set_number(&e, plate.height_mm, "%s/end_plates/height_mm", element);
    pl_row_set_number(&e, plate.length_mm, "%s/end_plates/length_mm", element);
    pl_row_set_number(&e, plate.below_mm, "%s/end_plates/below_mm", element);
    pl_row_set_number(&e, plate.x_le_mm, "%s/end_plates/x_le_mm", element);
    pl_row_set_number(&e, 5, "%s/end_plates/thickness_mm", element);
    return pl_row_end(&e);
}

enum pl_status pl_row_remove_end_plates(struct pl_document *doc, const char *element, struct pl_problems *problems)
{
    struct pl_row_place p;
    struct pl_row_edit e;
    char name[96];
    if (!pl_row_place(doc, element, &p) || p.group != PL_GROUP_ELEMENT || !pl_row_has(doc, "%s/end_plates", element))
        return pl_row_refuse(problems, element, "has no end plates", NULL);
    pl_part_row_words(doc, element, name, sizeof name);
    pl_row_begin(&e, doc, problems, NULL, "remove end plates: %s", name);
    pl_row_unset(&e, "%s/end_plates", element);
    return pl_row_end(&e);
}

/* ---- tip limits ---- */

static const char limits[] = "/limits/tip_deflection_mm";

/* Pointer of the limit of a case of that name, also when it is spelled otherwise there; false when there is none. */
static bool find_limit(const struct pl_document *doc, const char *name, char *out, size_t size)
{
    pl_node map = pl_document_find(doc, limits);
    snprintf(out, size, "%s", limits);
    if (map == PL_NO_NODE || pl_node_kind(doc, map) != PL_NODE_OBJECT)
        return false;
    for (pl_node n = pl_node_first(doc, map); n != PL_NO_NODE; n = pl_node_next(doc, n))
        if (pl_names_same(pl_node_key(doc, n), name)) {
            pl_pointer_append(out, size, pl_node_key(doc, n));
            return true;
        }
    return false;
}

static enum pl_status name_case(const struct pl_document *doc, const char *load_case, char *name, size_t size,
                                struct pl_problems *problems)
{
    struct pl_row_place p;
    if (!pl_row_place(doc, load_case, &p) || p.group != PL_GROUP_CASE || p.index == p.count)
        return pl_row_refuse(problems, load_case, "is no load case of the part", NULL);
    const char *text = pl_row_text(doc, "%s/name", load_case);
    if (!*text || strlen(text) >= size)
        return pl_row_refuse(problems, load_case, *text ? "has too long a name" : "has no name", NULL);
    snprintf(name, size, "%s", text);
    return PL_OK;
}

enum pl_status pl_row_add_tip_limit(struct pl_document *doc, const char *load_case, struct pl_problems *problems)
{
    struct pl_row_edit e;
    char name[PL_ROW_NAME_MOST / 2], shown[96], pointer[PL_POINTER_MOST];
    enum pl_status status = name_case(doc, load_case, name, sizeof name, problems);
    if (status != PL_OK)
        return status;
    if (find_limit(doc, name, pointer, sizeof pointer))
        return pl_row_refuse(problems, load_case, "has a tip limit already", NULL);
    pl_part_row_words(doc, load_case, shown, sizeof shown);
    pl_row_begin(&e, doc, problems, NULL, "add tip limit: %s", shown);
    if (!pl_row_has(doc, "/limits"))
        pl_row_set(&e, "{}", "/limits");
    if (!pl_row_has(doc, "%s", limits))
        pl_row_set(&e, "{}", "%s", limits);
    pl_pointer_append(pointer, sizeof pointer, name);
    pl_row_set(&e, "10", "%s", pointer);
    return pl_row_end(&e);
}

enum pl_status pl_row_remove_tip_limit(struct pl_document *doc, const char *load_case, struct pl_problems *problems)
{
    struct pl_row_edit e;
    char name[PL_ROW_NAME_MOST / 2], shown[96], pointer[PL_POINTER_MOST];
    enum pl_status status = name_case(doc, load_case, name, sizeof name, problems);
    if (status != PL_OK)
        return status;
    if (!find_limit(doc, name, pointer, sizeof pointer))
        return pl_row_refuse(problems, load_case, "has no tip limit", NULL);
    pl_part_row_words(doc, load_case, shown, sizeof shown);
    pl_row_begin(&e, doc, problems, NULL, "remove tip limit: %s", shown);
    pl_row_unset(&e, "%s", pointer);
    return pl_row_end(&e);
}

/* ---- cases at the same time ---- */

static size_t find_with(const struct pl_document *doc, const char *load_case, const char *name)
{
    for (size_t i = 0; i < pl_row_count(doc, "%s/with", load_case); i++)
        if (pl_names_same(pl_row_text(doc, "%s/with/%zu", load_case, i), name))
            return i;
    return PL_NONE;
}

/* Whether an element, by name, has a mount on another. */
static bool stands_on(const struct pl_document *doc, const char *element, const char *on)
{
    size_t index = pl_names_find(doc, "/elements", element, PL_NONE);
    for (size_t i = 0; index != PL_NONE && i < pl_row_count(doc, "/elements/%zu/mounts", index); i++)
        if (*on && pl_names_same(pl_row_text(doc, "/elements/%zu/mounts/%zu/on", index, i), on))
            return true;
    return false;
}

static bool fits_with(const struct pl_document *doc, const char *load_case, size_t other)
{
    const char *kind = pl_row_text(doc, "/load_cases/%zu/kind", other);
    const char *name = pl_row_text(doc, "/load_cases/%zu/name", other);
    const char *upper = pl_row_text(doc, "/load_cases/%zu/element", other);
    return *name && pl_row_kind_of(kind) != PL_JACKING && find_with(doc, load_case, name) == PL_NONE &&
           stands_on(doc, upper, pl_row_text(doc, "%s/element", load_case));
}

static const char *first_fitting(const struct pl_document *doc, const char *load_case)
{
    for (size_t i = 0; i < pl_row_count(doc, "/load_cases"); i++)
        if (fits_with(doc, load_case, i))
            return pl_row_text(doc, "/load_cases/%zu/name", i);
    return NULL;
}

enum pl_status pl_row_add_with(struct pl_document *doc, const char *load_case, const char *name,
                               struct pl_problems *problems)
{
    struct pl_row_edit e;
    char own[PL_ROW_NAME_MOST], shown[96], other[96];
    enum pl_status status = name_case(doc, load_case, own, sizeof own, problems);
    if (status != PL_OK)
        return status;
    name = name ? name : first_fitting(doc, load_case);
    if (!name)
        return pl_row_refuse(problems, load_case, "has no case left to name, of an element that stands on this one",
                             NULL);
    if (find_with(doc, load_case, name) != PL_NONE)
        return pl_row_refuse(problems, load_case, "names it already", name);
    pl_part_row_words(doc, load_case, shown, sizeof shown);
    pl_text_safe(other, sizeof other, name);
    char *json = pl_json_quote(name);
    if (!json)
        return pl_row_no_memory(problems, load_case);
    pl_row_begin(&e, doc, problems, NULL, "%s: together with %s", shown, other);
    if (!pl_row_has(doc, "%s/with", load_case))
        pl_row_set(&e, "[]", "%s/with", load_case);
    pl_row_insert(&e, json, "%s/with/-", load_case);
    free(json);
    return pl_row_end(&e);
}

enum pl_status pl_row_remove_with(struct pl_document *doc, const char *load_case, const char *name,
                                  struct pl_problems *problems)
{
    struct pl_row_edit e;
    char own[PL_ROW_NAME_MOST], shown[96], other[96];
    enum pl_status status = name_case(doc, load_case, own, sizeof own, problems);
    if (status != PL_OK)
        return status;
    size_t index = find_with(doc, load_case, name);
    if (index == PL_NONE)
        return pl_row_refuse(problems, load_case, "does not name it", name);
    pl_part_row_words(doc, load_case, shown, sizeof shown);
    pl_text_safe(other, sizeof other, name);
    pl_row_begin(&e, doc, problems, NULL, "%s: without %s", shown, other);
    pl_row_unset(&e, "%s/with/%zu", load_case, index);
    return pl_row_end(&e);
}
