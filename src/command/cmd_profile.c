#include "command.h"

#include "plyloft/profile.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { COUNT_USUAL = 81, COUNT_LEAST = 5, COUNT_MOST = 2001 };

static void print_profile(const struct pl_profile *p, const struct pl_point *points, size_t n, bool json, struct pl_buffer *out)
{
    struct pl_profile_figures f = pl_profile_figures(p);
    struct pl_json_writer w;
    char a[32], t[32], c[32];
    if (json) {
        pl_json_start(&w, out, false);
        pl_json_object(&w, NULL);
        pl_json_list(&w, "points");
        for (size_t i = 0; i < n; i++) {
            pl_json_list(&w, NULL);
            pl_json_number(&w, NULL, points[i].x);
            pl_json_number(&w, NULL, points[i].z);
            pl_json_close(&w);
        }
        pl_json_close(&w);
        pl_json_number(&w, "area", f.area);
        pl_json_number(&w, "thickness", f.thickness);
        pl_json_number(&w, "camber", f.camber);
        pl_json_end(&w);
        return;
    }
    pl_number_fixed(a, sizeof a, f.area, 6);
    pl_number_fixed(t, sizeof t, f.thickness, 5);
    pl_number_fixed(c, sizeof c, f.camber, 5);
    pl_buffer_printf(out, "%s: area %s, thickness %s, camber %s (chords)\n", p->name, a, t, c);
    for (size_t i = 0; i < n; i++) {
        pl_number_fixed(a, sizeof a, points[i].x, 6);
        pl_number_fixed(t, sizeof t, points[i].z, 6);
        pl_buffer_printf(out, "%12s %12s\n", a, t);
    }
}

static int report(struct pl_loaded *l, const char *name, size_t count, bool json)
{
    size_t found = pl_find_named(l, PL_GROUP_PROFILE, name);
    if (found == PL_NONE)
        return PL_EXIT_INPUT;
    const struct pl_profile *p = &l->part.profiles[found];
    pl_check_profiles(&l->part, &l->problems);
    if (l->problems.errors)
        return pl_fail(l, PL_BAD_INPUT);
    struct pl_buffer out = {0};
    if (!count && p->points) {  /* as given */
        print_profile(p, p->points, p->n_points, json, &out);
        return pl_print_out(&out, PL_EXIT_HOLDS);
    }
    count = count ? count : COUNT_USUAL;
    struct pl_point *points = malloc(count * sizeof *points);
    if (!points)
        return pl_fail(l, PL_NO_MEMORY);
    pl_profile_list(p, count, points);
    print_profile(p, points, count, json, &out);
    free(points);
    return pl_print_out(&out, PL_EXIT_HOLDS);
}

int pl_command_profile(int argc, char **argv)
{
    const char *path = NULL, *name = NULL, *count = NULL;
    bool json = false;
    const struct pl_option options[] = {{"profile", &name, NULL, true}, {"count", &count, NULL, false}, {"json", NULL, &json, false}};
    struct pl_loaded l;
    double n = 0;
    int status;
    if (!pl_options_read(argc, argv, options, 3, &path, &status)
        || (count && !pl_option_number("profile", "count", count, &n, &status)))
        return status;
    if (count && (n != floor(n) || n < COUNT_LEAST || n > COUNT_MOST)) {
        fprintf(stderr, "plyloft profile: --count: must be a whole number from %d to %d (found %s)\n", COUNT_LEAST, COUNT_MOST, count);
        return PL_EXIT_USAGE;
    }
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    status = report(&l, name, (size_t)n, json);
    pl_unload(&l);
    return status;
}
