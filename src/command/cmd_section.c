#include "command.h"

#include <math.h>
#include <stdio.h>

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

static void print_section(const struct pl_section *s, bool json, struct pl_buffer *out)
{
    struct figure f[FIGURES];
    struct pl_json_writer w;
    set_figures(s, f);
    if (json) {
        pl_json_start(&w, out, false);
        pl_json_object(&w, NULL);
        for (int i = 0; i < FIGURES; i++)
            pl_json_number(&w, f[i].key, f[i].value);
        pl_json_end(&w);
        return;
    }
    for (int i = 0; i < FIGURES; i++) {
        char number[64];
        pl_number_fixed(number, sizeof number, f[i].value, f[i].decimals);
        pl_buffer_printf(out, "%-34s %14s %s\n", f[i].label, number, f[i].unit);
    }
    pl_buffer_text(out, "In the section's chord axes: from its leading edge, along the chord and normal to it.\n");
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
        print_section(&view.section, json, &out);
        status = pl_print_out(&out, status);
    }
    pl_unload(&l);
    return status;
}
