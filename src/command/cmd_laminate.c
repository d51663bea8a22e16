#include "command.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void put_matrix(struct pl_json_writer *w, const char *key, double m[3][3])
{
    pl_json_list(w, key);
    for (int i = 0; i < 3; i++) {
        pl_json_list(w, NULL);
        for (int j = 0; j < 3; j++)
            pl_json_number(w, NULL, m[i][j]);
        pl_json_close(w);
    }
    pl_json_close(w);
}

static void print_json(const struct pl_element *e, const struct pl_ply *plies, size_t n, struct pl_abd *abd,
                       struct pl_buffer *out)
{
    struct pl_moduli m = pl_laminate_moduli(abd);
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_number(&w, "thickness_mm", 1e3 * abd->thickness_m);
    pl_json_list(&w, "plies");
    for (size_t i = 0; i < n; i++) {
        pl_json_object(&w, NULL);
        pl_json_text(&w, "item", e->layup[plies[i].item].name);
        pl_json_text(&w, "fabric", plies[i].fabric->name);
        pl_json_number(&w, "angle_deg", plies[i].angle_rad * 180 / M_PI);
        pl_json_number(&w, "thickness_mm", 1e3 * plies[i].thickness_m);
        pl_json_close(&w);
    }
    pl_json_close(&w);
    put_matrix(&w, "a_n_per_m", abd->a);
    put_matrix(&w, "b_n", abd->b);
    put_matrix(&w, "d_nm", abd->d);
    pl_json_number(&w, "ex_gpa", 1e-9 * m.ex_pa);
    pl_json_number(&w, "ey_gpa", 1e-9 * m.ey_pa);
    pl_json_number(&w, "gxy_gpa", 1e-9 * m.gxy_pa);
    pl_json_number(&w, "nuxy", m.nuxy);
    pl_json_end(&w);
}

static void print_matrix(struct pl_buffer *out, const char *label, double m[3][3], double scale)
{
    for (int i = 0; i < 3; i++) {
        pl_buffer_printf(out, "%-12s", i ? "" : label);
        for (int j = 0; j < 3; j++) {
            char number[64];
            pl_number_fixed(number, sizeof number, scale * m[i][j], 4);
            pl_buffer_printf(out, "%14s", number);
        }
        pl_buffer_text(out, "\n");
    }
}

static void print_text(const struct pl_element *e, const struct pl_ply *plies, size_t n, struct pl_abd *abd,
                       struct pl_buffer *out)
{
    struct pl_moduli m = pl_laminate_moduli(abd);
    char a[32], t[32], x[32], y[32], g[32], nu[32];
    pl_buffer_printf(out, "%4s  %-24s %-24s %8s %9s\n", "ply", "ply group", "cloth", "angle", "mm");
    for (size_t i = 0; i < n; i++) {
        pl_number_digits(a, sizeof a, plies[i].angle_rad * 180 / M_PI, 6);
        pl_number_fixed(t, sizeof t, 1e3 * plies[i].thickness_m, 4);
        pl_buffer_printf(out, "%4zu  %-24s %-24s %8s %9s\n", i + 1, e->layup[plies[i].item].name, plies[i].fabric->name, a, t);
    }
    pl_number_fixed(t, sizeof t, 1e3 * abd->thickness_m, 4);
    pl_buffer_printf(out, "thickness %s mm; ply 1 lies on the core; axis 1 is the span, 2 the chord\n", t);
    print_matrix(out, "A  MN/m", abd->a, 1e-6);
    print_matrix(out, "B  kN", abd->b, 1e-3);
    print_matrix(out, "D  N m", abd->d, 1);
    pl_number_fixed(x, sizeof x, 1e-9 * m.ex_pa, 3);
    pl_number_fixed(y, sizeof y, 1e-9 * m.ey_pa, 3);
    pl_number_fixed(g, sizeof g, 1e-9 * m.gxy_pa, 3);
    pl_number_fixed(nu, sizeof nu, m.nuxy, 4);
    pl_buffer_printf(out, "E along %s GPa, across %s GPa, G %s GPa, Poisson's ratio %s\n", x, y, g, nu);
}

static int report(struct pl_loaded *l, const char *element, double y_mm, const char *side, double fraction, bool json)
{
    struct pl_place_view view;
    int status = pl_load_place(l, element, y_mm, &view);
    if (status != PL_EXIT_HOLDS)
        return status;
    if (fraction < 0 || fraction > 1) {
        fprintf(stderr, "%s: --chord: must be from 0 to 1 (found %.6g)\n", l->path, fraction);
        return PL_EXIT_INPUT;
    }
    const struct pl_stack *stack = pl_solve_stack(l->solve, strcmp(side, "top") ? PL_BOTTOM : PL_TOP, fraction);
    struct pl_ply *plies = stack ? malloc(stack->n_plies * sizeof *plies) : NULL;
    if (!plies)
        return pl_fail(l, PL_NO_MEMORY);
    struct pl_abd abd;
    struct pl_buffer out = {0};
    const struct pl_element *e = &l->part.elements[element ? pl_find_named(l, PL_GROUP_ELEMENT, element) : 0];
    pl_solve_plies(l->solve, stack, plies);
    pl_laminate_abd(plies, stack->n_plies, &abd);
    (json ? print_json : print_text)(e, plies, stack->n_plies, &abd, &out);
    free(plies);
    return pl_print_out(&out, status);
}

int pl_command_laminate(int argc, char **argv)
{
    const char *path = NULL, *at = NULL, *side = NULL, *chord = NULL, *element = NULL;
    bool json = false;
    const struct pl_option options[] = {{"at", &at, NULL, true},         {"side", &side, NULL, true},
                                        {"chord", &chord, NULL, true},   {"element", &element, NULL, false},
                                        {"json", NULL, &json, false}};
    struct pl_loaded l;
    double y_mm, fraction;
    int status;
    if (!pl_options_read(argc, argv, options, 5, &path, &status) || !pl_option_number("laminate", "at", at, &y_mm, &status)
        || !pl_option_number("laminate", "chord", chord, &fraction, &status))
        return status;
    if (strcmp(side, "top") && strcmp(side, "bottom")) {
        fprintf(stderr, "plyloft laminate: --side: must be top or bottom (found %s)\n", side);
        return PL_EXIT_USAGE;
    }
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    status = report(&l, element, y_mm, side, fraction, json);
    pl_unload(&l);
    return status;
}
