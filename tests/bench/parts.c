/* The parts measured with, made from the sample by edits of its document. */
#include "bench.h"

#include "plyloft/file.h"

#include <stdio.h>
#include <stdlib.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

enum { GROUPS = 100, PLIES = 100 };

/* ---- a part, ready to be checked ---- */

static enum pl_status read_document(struct bench_wing *w, const char *path)
{
    char *bytes;
    size_t length;
    enum pl_status status = pl_file_read(path, &bytes, &length, &w->problems);
    if (status != PL_OK)
        return status;
    status = pl_document_read(&w->document, bytes, length, &w->problems);
    free(bytes);
    return status;
}

bool bench_wing_open(struct bench_wing *w, const char *path, struct bench_figure *f)
{
    *w = (struct bench_wing){.solve = pl_solve_new()};
    enum pl_status status = w->solve ? read_document(w, path) : PL_NO_MEMORY;
    if (status == PL_OK)
        status = pl_part_build(&w->part, w->document, &w->problems);
    if (status != PL_OK)
        bench_missing_status(f, path, status, &w->problems);
    return status == PL_OK;
}

bool bench_wing_check(struct bench_wing *w, struct bench_figure *f)
{
    pl_problems_clear(&w->problems);
    enum pl_status status = pl_solve_run(w->solve, &w->part, &w->problems);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &w->problems);
    return status == PL_OK;
}

void bench_wing_close(struct bench_wing *w)
{
    pl_solve_free(w->solve);
    pl_part_free(&w->part);
    pl_document_free(w->document);
    pl_problems_free(&w->problems);
}

/* As they are cut: a ply on both sides is two pieces, and so is one that is left out in the middle. */
size_t bench_wing_pieces(const struct bench_wing *w)
{
    size_t pieces = 0;
    for (size_t e = 0; e < w->part.n_elements; e++)
        for (size_t i = 0; i < w->part.elements[e].n_layup; i++) {
            const struct pl_layup_item *item = &w->part.elements[e].layup[i];
            pieces += (size_t)item->plies * (item->side == PL_BOTH ? 2 : 1) * (item->from_m > 0 ? 2 : 1);
        }
    return pieces;
}

/* ---- files ---- */

typedef enum pl_status bench_change(struct pl_document *doc, struct pl_problems *problems);

static enum pl_status make_file(const char *path, bench_change *change, struct bench_wing *w)
{
    size_t length;
    enum pl_status status = read_document(w, BENCH_SAMPLE);
    if (status == PL_OK && change)
        status = change(w->document, &w->problems);
    if (status != PL_OK)
        return status;
    const char *bytes = pl_document_bytes(w->document, &length);
    return pl_file_save(path, bytes, length, &w->problems);
}

static const char *make(char *path, size_t size, const char *name, bench_change *change, struct bench_figure *f)
{
    struct bench_wing w = {0};
    if (!bench_folder()[0]) {
        bench_missing(f, "there is no scratch folder");
        return NULL;
    }
    bench_folder_path(path, size, name);
    enum pl_status status = make_file(path, change, &w);
    if (status != PL_OK)
        bench_missing_status(f, BENCH_SAMPLE, status, &w.problems);
    bench_wing_close(&w);
    return status == PL_OK ? path : NULL;
}

const char *bench_part_copy(struct bench_figure *f)
{
    static char path[600];
    return make(path, sizeof path, "wing.json", NULL, f);
}

struct edit { const char *pointer, *json; };  /* json NULL: taken out */

static enum pl_status make_edits(struct pl_document *doc, const struct edit *edits, size_t count,
                                 struct pl_problems *problems)
{
    enum pl_status status = PL_OK;
    for (size_t i = 0; i < count && status == PL_OK; i++)
        status = edits[i].json ? pl_edit_set(doc, edits[i].pointer, edits[i].json, problems)
                               : pl_edit_remove(doc, edits[i].pointer, problems);
    return status;
}

/* A spring on each mount holds the slope, so the rules ask for no pinned variant. */
static enum pl_status one_case(struct pl_document *doc, struct pl_problems *problems)
{
    static const struct edit edits[] = {
        {"/load_cases/3", NULL},
        {"/load_cases/2", NULL},
        {"/load_cases/1", NULL},
        {"/limits/tip_deflection_mm", NULL},
        {"/load_cases/0/distribution", "\"uniform\""},
        {"/elements/0/mounts/0/stiffness_nm_per_rad", "4000"},
        {"/elements/0/mounts/1/stiffness_nm_per_rad", "4000"},
    };
    return make_edits(doc, edits, COUNT(edits), problems);
}

const char *bench_part_one_case(struct bench_figure *f)
{
    static char path[600];
    return make(path, sizeof path, "one-case.json", one_case, f);
}

static enum pl_status nine_cases(struct pl_document *doc, struct pl_problems *problems)
{
    enum pl_status status = one_case(doc, problems);
    char *json = status == PL_OK ? pl_document_copy(doc, "/load_cases/0") : NULL;
    for (int i = 1; i < 9 && json && status == PL_OK; i++) {
        char pointer[48], name[32];
        snprintf(pointer, sizeof pointer, "/load_cases/%d/name", i);
        snprintf(name, sizeof name, "\"top speed %d\"", i + 1);
        status = pl_edit_insert(doc, "/load_cases/-", json, problems);
        if (status == PL_OK)
            status = pl_edit_set(doc, pointer, name, problems);
    }
    if (status == PL_OK && !json)
        status = PL_NO_MEMORY;
    free(json);
    return status;
}

const char *bench_part_nine_cases(struct bench_figure *f)
{
    static char path[600];
    return make(path, sizeof path, "nine-cases.json", nine_cases, f);
}

/* Without the station beyond the brackets the tips are at the brackets, where the caps must find room to drop. */
static enum pl_status short_wing(struct pl_document *doc, struct pl_problems *problems)
{
    static const struct edit edits[] = {
        {"/elements/0/stations/2", NULL},
        {"/elements/0/layup/1", NULL},
        {"/elements/0/layup/1/drop_mm", "10"},
        {"/elements/0/layup/2/drop_mm", "10"},
    };
    enum pl_status status = one_case(doc, problems);
    return status == PL_OK ? make_edits(doc, edits, COUNT(edits), problems) : status;
}

const char *bench_part_short(struct bench_figure *f)
{
    static char path[600];
    return make(path, sizeof path, "short.json", short_wing, f);
}

static enum pl_status computed(struct pl_document *doc, struct pl_problems *problems)
{
    return pl_edit_set(doc, "/load_cases/0/distribution", "\"computed\"", problems);
}

const char *bench_part_computed(struct bench_figure *f)
{
    static char path[600];
    return make(path, sizeof path, "computed.json", computed, f);
}

/* So thin that a hundred plies of it are a wall: 0.02 mm. */
static const char thin_cloth[] =
    "{\"name\": \"glass veil 25\", \"fibre\": \"glass\", \"areal_weight_gsm\": 25, \"fibre_density_kgm3\": 2560,"
    " \"fibre_volume_fraction\": 0.42, \"e1_gpa\": 17, \"e2_gpa\": 17, \"g12_gpa\": 3.2, \"nu12\": 0.13,"
    " \"xt_mpa\": 240, \"xc_mpa\": 190, \"yt_mpa\": 240, \"yc_mpa\": 190, \"s_mpa\": 45, \"roll_width_mm\": 1270}";

/* The first group of either side is a skin; the others are strips side by side, each ply 2 mm shorter than the
 * one on it, so that the wall is another one every 2 mm from 442 mm outward. */
static void append_group(struct pl_buffer *out, int i)
{
    int strip = i / 2;
    pl_buffer_text(out, i ? ",\n        " : "\n        ");
    pl_buffer_printf(out, "{\"name\": \"group %d\", \"fabric\": \"glass veil 25\", \"angle_deg\": %d, ", i + 1,
                     strip % 2 ? 0 : 45);
    pl_buffer_printf(out, "\"plies\": %d, \"side\": \"%s\", ", PLIES, i % 2 ? "bottom" : "top");
    if (strip == 0) {
        pl_buffer_text(out, "\"chord_from\": 0, \"chord_to\": 1}");
        return;
    }
    pl_buffer_text(out, "\"centre_at\": ");
    pl_buffer_number(out, 0.05 + 0.9 * strip / (GROUPS / 2), 3);
    pl_buffer_text(out, ", \"width_mm\": 6, \"drop_mm\": 2}");
}

static enum pl_status large(struct pl_document *doc, struct pl_problems *problems)
{
    struct pl_buffer layup = {0};
    enum pl_status status = pl_edit_insert(doc, "/fabrics/-", thin_cloth, problems);
    pl_buffer_printf(&layup, "[");
    for (int i = 0; i < GROUPS; i++)
        append_group(&layup, i);
    pl_buffer_printf(&layup, "\n      ]");
    if (status == PL_OK)
        status = layup.failed ? PL_NO_MEMORY : pl_edit_set(doc, "/elements/0/layup", layup.text, problems);
    pl_buffer_free(&layup);
    return status;
}

const char *bench_part_large(struct bench_figure *f)
{
    static char path[600];
    return make(path, sizeof path, "large.json", large, f);
}
