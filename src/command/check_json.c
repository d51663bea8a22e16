#include "command.h"

#include <math.h>
#include <stdio.h>

static void put_lowest(struct pl_json_writer *w, const struct pl_lowest *l)
{
    pl_json_object(w, "lowest");
    pl_json_number(w, "reserve", l->reserve);
    pl_json_number(w, "y_mm", 1e3 * l->y_m);
    pl_json_text(w, "mode", pl_mode_name(l->mode));
    pl_json_text(w, "item", l->item);
    pl_json_close(w);
}

static void put_solution(struct pl_json_writer *w, const struct pl_solution *s)
{
    if (s->variant == PL_VARIANT_EVEN)
        pl_json_text(w, "variant", "even");
    else if (s->variant >= 0)
        pl_json_whole(w, "variant", s->variant);
    put_lowest(w, &s->lowest);
    pl_json_number(w, "tip_deflection_mm", 1e3 * s->tip_m);
    pl_json_number(w, "largest_deflection_mm", 1e3 * s->largest_m);
    pl_json_number(w, "tip_nose_mm", 1e3 * s->nose_m);
    pl_json_number(w, "tip_tail_mm", 1e3 * s->tail_m);
    if (pl_given(s->at_load_m))
        pl_json_number(w, "deflection_at_load_mm", 1e3 * s->at_load_m);
}

static void put_row(struct pl_json_writer *w, const struct pl_check_row *row)
{
    pl_json_object(w, NULL);
    pl_json_number(w, "y_mm", 1e3 * row->y_m);
    pl_json_number(w, "shear_n", row->shear_n);
    pl_json_number(w, "moment_nm", row->moment_nm);
    pl_json_number(w, "torque_nm", row->torque_nm);
    pl_json_number(w, "deflection_mm", 1e3 * row->deflection_m);
    pl_json_number(w, "twist_deg", row->twist_rad * 180 / M_PI);
    pl_json_number(w, "reserve", row->reserve);
    pl_json_text(w, "mode", pl_mode_name(row->mode));
    pl_json_close(w);
}

static void put_reactions(struct pl_json_writer *w, const struct pl_element *e, const struct pl_reaction *reactions, size_t n)
{
    pl_json_list(w, "reactions");
    for (size_t i = 0; i < n; i++) {
        const struct pl_reaction *r = &reactions[i];
        const struct pl_mount *mount = &e->mounts[r->mount];
        pl_json_object(w, NULL);
        pl_json_text(w, "mount", mount->name);
        pl_json_number(w, "x_mm", 1e3 * r->at_x_m);
        pl_json_number(w, "y_mm", 1e3 * mount->y_m);
        pl_json_number(w, "z_mm", 1e3 * r->at_z_m);
        pl_json_number(w, "x_n", r->x_n);
        pl_json_number(w, "y_n", 0);
        pl_json_number(w, "z_n", r->z_n);
        pl_json_number(w, "about_x_nm", r->about_x_nm);
        pl_json_number(w, "about_y_nm", r->about_y_nm);
        pl_json_number(w, "about_z_nm", r->about_z_nm);
        pl_json_close(w);
    }
    pl_json_close(w);
}

static void put_case(struct pl_json_writer *w, const struct pl_loaded *l, const struct pl_case_result *c)
{
    pl_json_object(w, NULL);
    pl_json_text(w, "name", c->load_case->name);
    pl_json_text(w, "kind", pl_field_named(PL_GROUP_CASE, "kind")->choices[c->load_case->kind]);
    pl_json_text(w, "element", l->part.elements[c->load_case->element].name);
    pl_json_number(w, "total_force_n", c->total_force_n);
    put_solution(w, &c->given);
    if (c->has_pinned) {
        pl_json_object(w, "pinned");
        put_solution(w, &c->pinned);
        put_reactions(w, &l->part.elements[c->load_case->element], c->pinned_reactions, c->n_reactions);
        pl_json_close(w);
    }
    put_reactions(w, &l->part.elements[c->load_case->element], c->reactions, c->n_reactions);
    pl_json_list(w, "stations");
    for (size_t i = 0; i < c->n_rows; i++)
        put_row(w, &c->rows[i]);
    pl_json_close(w);
    pl_json_close(w);
}

void pl_check_json(const struct pl_loaded *l, size_t only, bool holds, struct pl_buffer *out)
{
    const struct pl_verdict *v = pl_solve_verdict(l->solve);
    struct pl_json_writer w;
    char sentence[1024];
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_text(&w, "format", "plyloft-check");
    pl_json_whole(&w, "version", 1);
    pl_json_text(&w, "part", l->part.name);
    pl_json_list(&w, "warnings");
    for (size_t i = 0; i < l->problems.count; i++) {
        pl_problem_sentence(&l->problems.list[i], NULL, sentence, sizeof sentence);
        pl_json_text(&w, NULL, sentence);
    }
    pl_json_close(&w);
    pl_json_list(&w, "not_checked");
    for (const char *const *word = pl_check_not_checked(&l->part); *word; word++)
        pl_json_text(&w, NULL, *word);
    pl_json_close(&w);
    pl_json_list(&w, "elements");
    for (size_t i = 0; i < v->n_elements; i++) {
        pl_json_object(&w, NULL);
        pl_json_text(&w, "name", v->elements[i].element->name);
        pl_json_number(&w, "span_mm", 1e3 * v->elements[i].span_m);
        pl_json_number(&w, "area_m2", v->elements[i].area_m2);
        pl_json_number(&w, "mass_kg", v->elements[i].mass_kg);
        pl_json_close(&w);
    }
    pl_json_close(&w);
    pl_json_list(&w, "cases");
    for (size_t i = 0; i < v->n_cases; i++)
        if (only == PL_NONE || only == i)
            put_case(&w, l, &v->cases[i]);
    pl_json_close(&w);
    pl_json_bool(&w, "holds", holds);
    pl_json_end(&w);
}
