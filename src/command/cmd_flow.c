#include "command.h"

#include "plyloft/wing_flow.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static size_t find_case(struct pl_loaded *l, const char *name)
{
    size_t found = pl_find_named(l, PL_GROUP_CASE, name);
    if (found != PL_NONE && l->part.load_cases[found].kind != PL_DOWNFORCE) {
        fprintf(stderr, "%s: /load_cases/%zu/kind: must be downforce for a flow\n", l->path, found);
        return PL_NONE;
    }
    return found;
}

static void print_station(struct pl_json_writer *w, const struct pl_part *part, const struct pl_wing_strip *s, double side, double pressure_pa)
{
    pl_json_object(w, NULL);
    if (part->n_elements > 1)
        pl_json_text(w, "element", part->elements[s->element].name);
    pl_json_number(w, "y_mm", 1e3 * side * s->y_m);
    pl_json_number(w, "cl", s->cl);
    pl_json_number(w, "force_n_per_m", pressure_pa * s->chord_m * s->cl);
    pl_json_close(w);
}

static void print_json(const struct pl_loaded *l, const struct pl_load_case *c, const struct pl_wing_flow *flow, struct pl_buffer *out)
{
    struct pl_wing_figures f = pl_wing_flow_figures(flow);
    struct pl_json_writer w;
    size_t n;
    const struct pl_wing_strip *strips = pl_wing_flow_strips(flow, &n);
    double pressure_pa = 0.5 * c->air_density_kg_m3 * c->speed_m_s * c->speed_m_s;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_number(&w, "lift_coefficient", f.lift);
    pl_json_number(&w, "induced_drag_coefficient", f.induced_drag);
    pl_json_number(&w, "force_n", pressure_pa * f.area_m2 * f.lift);
    pl_json_number(&w, "centre_of_pressure", f.centre_m / f.root_chord_m);
    pl_json_list(&w, "stations");
    for (size_t e = 0; e < l->part.n_elements; e++) {
        for (size_t i = n; i-- > 0;)
            if (strips[i].element == e)
                print_station(&w, &l->part, &strips[i], -1, pressure_pa);
        for (size_t i = 0; i < n; i++)
            if (strips[i].element == e)
                print_station(&w, &l->part, &strips[i], 1, pressure_pa);
    }
    pl_json_end(&w);
}

int pl_command_flow(int argc, char **argv)
{
    const char *path = NULL, *name = NULL;
    bool json = false;
    const struct pl_option options[] = {{"case", &name, NULL, true}, {"json", NULL, &json, false}};
    struct pl_loaded l;
    int status;
    if (!pl_options_read(argc, argv, options, 2, &path, &status))
        return status;
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    size_t found = find_case(&l, name);
    struct pl_wing_flow *flow = pl_wing_flow_new();
    if (found == PL_NONE) { pl_unload(&l); return PL_EXIT_INPUT; }
    pl_wing_flow_aim(flow, &l.part, &l.part.load_cases[found], &l.problems);
    while (pl_wing_flow_step(flow))
        ;
    if (pl_wing_flow_status(flow) != PL_OK) { status = pl_fail(&l, pl_wing_flow_status(flow)); pl_unload(&l); return status; }
    struct pl_buffer out = {0};
    print_json(&l, &l.part.load_cases[found], flow, &out);
    pl_wing_flow_free(flow);
    status = pl_print_out(&out, status);
    pl_unload(&l);
    return status;
}
