#include "specimen.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

void specimen_cloth(struct pl_fabric *f, double e_pa, double g_pa, double nu, double ply_m)
{
    *f = (struct pl_fabric){.name = "sheet", .areal_weight_kg_m2 = ply_m * 1000, .fibre_density_kg_m3 = 2000,
                            .fibre_fraction = 0.5, .e1_pa = e_pa, .e2_pa = e_pa, .g12_pa = g_pa, .nu12 = nu,
                            .xt_pa = 2e10, .xc_pa = 2e10, .yt_pa = 2e10, .yc_pa = 2e10, .s_pa = 2e10,
                            .roll_width_m = 1};
}

void specimen_oval(struct specimen *s, double half_height)
{
    for (int i = 0; i <= 2 * SPECIMEN_HALF; i++) {
        double angle = M_PI * i / SPECIMEN_HALF;
        s->points[i] = (struct pl_point){0.5 * (1 + cos(angle)), half_height * sin(angle)};
    }
    s->profile.n_points = 2 * SPECIMEN_HALF + 1;
}

void specimen_box(struct specimen *s, double half_height)
{
    const double h = half_height, near = 1e-6;  /* walls must not stand quite upright */
    const struct pl_point box[] = {{1, 0}, {1 - near, h}, {near, h}, {0, 0}, {near, -h}, {1 - near, -h}, {1, 0}};
    s->profile.n_points = sizeof box / sizeof *box;
    for (size_t i = 0; i < s->profile.n_points; i++)
        s->points[i] = box[i];
}

void specimen_lay(struct specimen *s, size_t fabric, int plies, int side, double from, double to)
{
    s->layup[s->element.n_layup++] = (struct pl_layup_item){.name = "item", .fabric = fabric, .plies = plies,
                                                            .side = side, .chord_from = from, .chord_to = to,
                                                            .centre_at = (double)NAN, .width_m = (double)NAN,
                                                            .half_length_m = (double)NAN};
}

static void set_lists(struct specimen *s)
{
    struct pl_part *p = &s->part;
    p->profiles = &s->profile;
    p->fabrics = s->fabrics;
    p->resins = &s->resin;
    p->cores = &s->core;
    p->elements = &s->element;
    p->load_cases = &s->load_case;
    p->n_profiles = p->n_resins = p->n_cores = p->n_elements = 1;
    p->n_fabrics = 2;
    p->allowables = (struct pl_allowables){1, 1, (double)NAN, PL_MAX_STRESS};
    p->limits.mass_kg = (double)NAN;
    s->profile = (struct pl_profile){.name = "outline", .points = s->points};
    s->element = (struct pl_element){.name = "specimen", .stations = s->stations, .n_stations = 2, .layup = s->layup,
                                     .mounts = &s->mount, .n_mounts = 1};
}

void specimen_start(struct specimen *s, double chord_m, double semispan_m)
{
    *s = (struct specimen){.solve = pl_solve_new()};
    set_lists(s);
    specimen_oval(s, 0.5);
    specimen_cloth(&s->fabrics[0], 70e9, 70e9 / 2.6, 0.3, 0.5e-3);
    specimen_cloth(&s->fabrics[1], 1e6, 4e5, 0.25, 1e-5);
    s->resin =
        (struct pl_resin){.name = "resin", .density_kg_m3 = 1150, .tg_dry_c = (double)NAN, .tg_wet_c = (double)NAN};
    s->core = (struct pl_core){.name = "air", .kind = "air", .density_kg_m3 = 1e-6, .e_pa = 1, .g_pa = 1,
                               .shear_strength_pa = 1e9, .compressive_strength_pa = 1e9, .max_c = (double)NAN};
    for (int i = 0; i < 2; i++)
        s->stations[i] = (struct pl_station){.y_m = i * semispan_m, .chord_m = chord_m};
    s->mount = (struct pl_mount){
        .name = "middle", .hold = PL_CLAMPED, .stiffness_nm_per_rad = (double)NAN, .on = PL_NONE, .at = (double)NAN};
    s->load_case = (struct pl_load_case){.name = "load", .factor = 1, .tip_limit_m = (double)NAN, .y_m = (double)NAN,
                                         .force_n = (double)NAN, .travel_m = (double)NAN, .moving_mass_kg = (double)NAN,
                                         .closing_speed_m_s = (double)NAN, .ride_height_m = (double)NAN};
    specimen_lay(s, 0, 1, PL_BOTH, 0, 1);
}

void specimen_end(struct specimen *s)
{
    pl_solve_free(s->solve);
    pl_problems_free(&s->problems);
}

static void give_up(const struct specimen *s)
{
    const struct pl_problem *p = pl_problems_first_error(&s->problems);
    fprintf(stderr, "published: %s: %s\n", p ? p->place : "specimen", p ? p->rule : "cannot be solved");
    exit(2);
}

const struct pl_section *specimen_section(struct specimen *s)
{
    if (pl_solve_place(s->solve, &s->part, 0, 0.05, &s->view, &s->problems) != PL_OK)
        give_up(s);
    return &s->view.section;
}

struct pl_weakest specimen_weakest(struct specimen *s, const struct pl_internal *forces)
{
    struct pl_strength_rules rules = pl_strength_rules(&s->part, &s->element);
    struct pl_weakest weakest = {.reserve = 1e12, .mode = PL_MODES};
    const struct pl_section *section = specimen_section(s);
    pl_section_weakest(section, s->view.stacks, &rules, forces, &weakest);
    return weakest;
}

const struct pl_case_result *specimen_case(struct specimen *s)
{
    s->part.n_load_cases = 1;
    if (pl_solve_run(s->solve, &s->part, &s->problems) != PL_OK)
        give_up(s);
    return &pl_solve_verdict(s->solve)->cases[0];
}
