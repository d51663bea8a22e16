#include "command.h"

#include "plyloft/gap.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct figure { const char *key, *label, *unit; double value; int decimals; };

enum { FIGURES = 13 };

static void set_figures(const struct pl_section *s, struct figure f[FIGURES])
{
    const struct figure all[FIGURES] = {
        {"y_mm", "place along the span", "mm", 1e3 * s->y_m, 1},
        {"chord_mm", "chord", "mm", 1e3 * s->chord_m, 2},
        {"ea_n", "axial stiffness EA", "N", s->ea_n, 0},
        {"ei_flap_nm2", "bending stiffness EI, flapwise", "N m2", s->ei_flap_nm2, 2},
        {"ei_lead_nm2", "bending stiffness EI, chordwise", "N m2", s->ei_lead_nm2, 1},
        {"ei_coupling_nm2", "coupling of the two", "N m2", s->ei_coupling_nm2, 2},
        {"gj_nm2", "torsional stiffness GJ", "N m2", s->gj_nm2, 2},
        {"shear_stiffness_n", "shear stiffness", "N", s->shear_stiffness_n, 0},
        {"x_neutral_mm", "neutral point, along the chord", "mm", 1e3 * s->x_neutral_m, 2},
        {"z_neutral_mm", "neutral point, above the chord", "mm", 1e3 * s->z_neutral_m, 2},
        {"x_shear_centre_mm", "shear centre, along the chord", "mm", 1e3 * s->x_shear_centre_m, 2},
        {"cell_area_mm2", "area inside the wall", "mm2", 1e6 * s->cell_area_m2, 1},
        {"mass_kgm", "mass per length", "kg/m", s->mass_kg_m, 4},
    };
    for (int i = 0; i < FIGURES; i++)
        f[i] = all[i];
}

/* How it stands to an element ahead of it, if there is one. */
struct slot { const char *ahead; struct pl_gap gap; };

static void print_json(const struct figure f[FIGURES], const struct slot *slot, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    for (int i = 0; i < FIGURES; i++)
        pl_json_number(&w, f[i].key, f[i].value);
    if (slot->ahead) {
        pl_json_text(&w, "ahead", slot->ahead);
        pl_json_number(&w, "gap_mm", 1e3 * slot->gap.gap_m);
        pl_json_number(&w, "overlap_mm", 1e3 * slot->gap.overlap_m);
    }
    pl_json_end(&w);
}

static void print_line(struct pl_buffer *out, const char *label, double value, int decimals, const char *unit)
{
    char number[64];
    pl_number_fixed(number, sizeof number, value, decimals);
    pl_buffer_printf(out, "%-34s %14s %s\n", label, number, unit);
}

static void print_slot(const struct slot *slot, struct pl_buffer *out)
{
    const struct pl_gap *gap = &slot->gap;
    print_line(out, "gap to the element ahead", 1e3 * gap->gap_m, 2, "mm");
    print_line(out, "", 100 * gap->gap_m / gap->chord_m, 2, "% of its chord");
    print_line(out, "overlap with the element ahead", 1e3 * gap->overlap_m, 2, "mm");
    print_line(out, "", 100 * gap->overlap_m / gap->chord_m, 2, "% of its chord");
    pl_buffer_printf(out, "The element ahead is %s%s.\n", slot->ahead, gap->crosses ? "; the sections cross" : "");
}

static void print_section(const struct pl_section *s, const struct slot *slot, bool json, struct pl_buffer *out)
{
    struct figure f[FIGURES];
    set_figures(s, f);
    if (json) {
        print_json(f, slot, out);
        return;
    }
    for (int i = 0; i < FIGURES; i++)
        print_line(out, f[i].label, f[i].value, f[i].decimals, f[i].unit);
    if (slot->ahead)
        print_slot(slot, out);
    pl_buffer_text(out, "In the section's chord axes: from its leading edge, along the chord and normal to it.\n");
}

static int look_ahead(const struct pl_loaded *l, const char *element, double y_m, struct slot *slot)
{
    struct pl_arena arena = {0};
    struct pl_gap_shape *shape;
    size_t index = 0;
    *slot = (struct slot){0};
    while (element && strcmp(l->part.elements[index].name, element))
        index++;
    enum pl_status status = pl_gap_shape_make(&shape, &l->part, &arena);
    if (status == PL_OK) {
        slot->gap = pl_gap_at(shape, index, y_m);
        slot->ahead = slot->gap.ahead == PL_NONE ? NULL : l->part.elements[slot->gap.ahead].name;
    }
    pl_arena_free(&arena);
    return status == PL_OK ? PL_EXIT_HOLDS : pl_fail(l, status);
}

int pl_command_section(int argc, char **argv)
{
    const char *path = NULL, *at = NULL, *element = NULL;
    bool json = false;
    const struct pl_option options[] = {{"at", &at, NULL, true}, {"element", &element, NULL, false}, {"json", NULL, &json, false}};
    struct pl_loaded l;
    struct pl_place_view view;
    double y_mm;
    int status;
    if (!pl_options_read(argc, argv, options, 3, &path, &status) || !pl_option_number("section", "at", at, &y_mm, &status))
        return status;
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    status = pl_load_place(&l, element, y_mm, &view);
    if (status == PL_EXIT_HOLDS) {
        struct pl_buffer out = {0};
        struct slot slot;
        status = look_ahead(&l, element, 1e-3 * y_mm, &slot);
        if (status == PL_EXIT_HOLDS) {
            print_section(&view.section, &slot, json, &out);
            status = pl_print_out(&out, status);
        }
    }
    pl_unload(&l);
    return status;
}
