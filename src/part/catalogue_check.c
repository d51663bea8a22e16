/* Whether a file is a catalogue, and whether its rows are right.
 *
 * A row that a part can hold is judged as one: it is put into the smallest part there is, and what the table of fields
 * and the rules then say about it is the answer. */
#include "catalogue_inside.h"

#include "plyloft/buffer.h"
#include "plyloft/field.h"

#include "build.h"

#include <stdio.h>
#include <string.h>

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

static void tell(struct pl_problems *problems, enum pl_severity severity, const char *place, const char *token,
                 const char *rule, const char *found)
{
    char whole[PL_POINTER_MOST];
    snprintf(whole, sizeof whole, "%s", place);
    if (token)
        pl_pointer_append(whole, sizeof whole, token);
    pl_problem_add(problems, severity, whole, rule, found);
}

/* ---- rows of a part ---- */

/* One right row of each list, for the others to lean on. */
static const char *const plain_rows[] = {
    [PL_CATALOGUE_FABRICS] =
        "{\"name\": \"-\", \"areal_weight_gsm\": 100, \"fibre_density_kgm3\": 2560, \"fibre_volume_fraction\": 0.4,"
        " \"e1_gpa\": 17, \"e2_gpa\": 17, \"g12_gpa\": 3, \"nu12\": 0.1, \"xt_mpa\": 200, \"xc_mpa\": 200,"
        " \"yt_mpa\": 200, \"yc_mpa\": 200, \"s_mpa\": 40, \"roll_width_mm\": 1000}",
    [PL_CATALOGUE_RESINS] = "{\"name\": \"-\", \"kind\": \"epoxy\", \"density_kgm3\": 1150,"
                            " \"mix_ratio_by_weight\": [100, 30], \"pot_life_min\": 40, \"pot_life_at_c\": 25}",
    [PL_CATALOGUE_CORES] = "{\"name\": \"-\", \"kind\": \"pvc\", \"density_kgm3\": 60, \"e_mpa\": 60, \"g_mpa\": 20,"
                           " \"shear_strength_mpa\": 0.8, \"compressive_strength_mpa\": 0.9}",
};

static const char before_lists[] =
    "{\"format\": \"plyloft-part\", \"version\": 1, \"name\": \"-\","
    " \"profiles\": [{\"name\": \"-\", \"naca\": \"0012\"}],";
static const char behind_lists[] =
    "\"elements\": [{\"name\": \"-\", \"incidence_deg\": 0, \"core\": \"-\", \"resin\": \"-\", \"stations\": ["
    "{\"y_mm\": 0, \"chord_mm\": 200, \"x_le_mm\": 0, \"z_le_mm\": 0, \"twist_deg\": 0, \"profile\": \"-\"},"
    "{\"y_mm\": 500, \"chord_mm\": 200, \"x_le_mm\": 0, \"z_le_mm\": 0, \"twist_deg\": 0, \"profile\": \"-\"}],"
    " \"layup\": [{\"name\": \"-\", \"fabric\": \"-\", \"angle_deg\": 0, \"plies\": 1, \"side\": \"both\","
    " \"chord_from\": 0, \"chord_to\": 1}], \"mounts\": [{\"name\": \"-\", \"y_mm\": 0, \"hold\": \"clamped\"}]}],"
    " \"load_cases\": [], \"allowables\": {\"knockdown\": 0.5, \"criterion\": \"tsai-wu\"}}";

static enum pl_status part_with(enum pl_catalogue_group group, const char *row, struct pl_document **doc,
                                struct pl_problems *problems)
{
    struct pl_buffer text = {0};
    *doc = NULL;
    pl_buffer_text(&text, before_lists);
    for (int g = 0; g < PL_CATALOGUE_METALS; g++)
        pl_buffer_printf(&text, "\"%s\": [%s%s%s],", pl_catalogue_group_key((enum pl_catalogue_group)g),
                         g == (int)group ? row : "", g == (int)group ? "," : "", plain_rows[g]);
    pl_buffer_text(&text, behind_lists);
    enum pl_status status = text.failed ? no_memory(problems) : pl_document_read(doc, text.text, text.length, problems);
    pl_buffer_free(&text);
    return status;
}

/* Takes over what is said about the row, the first of its list. */
static bool hand_on(const struct pl_problems *said, enum pl_catalogue_group group, const char *place,
                    struct pl_problems *problems)
{
    char row[64], whole[PL_POINTER_MOST];
    bool right = true;
    snprintf(row, sizeof row, "/%s/0", pl_catalogue_group_key(group));
    size_t length = strlen(row);
    for (size_t i = 0; i < said->count; i++) {
        const struct pl_problem *p = &said->list[i];
        if (strncmp(p->place, row, length) || (p->place[length] && p->place[length] != '/'))
            continue;
        snprintf(whole, sizeof whole, "%s%s", place, p->place + length);
        pl_problem_add(problems, p->severity, whole, p->rule, p->found);
        right = right && p->severity != PL_ERROR;
    }
    return right && !said->dropped;
}

static enum pl_status check_part_row(enum pl_catalogue_group group, const char *row, const char *place,
                                     struct pl_problems *problems)
{
    struct pl_problems said = {0};
    struct pl_part part = {0};
    struct pl_document *doc;
    enum pl_status status = part_with(group, row, &doc, problems);
    if (status != PL_OK)
        return status;
    if (pl_part_build(&part, doc, &said) == PL_NO_MEMORY)
        status = no_memory(problems);
    else if (!hand_on(&said, group, place, problems))
        status = PL_BAD_INPUT;
    pl_part_free(&part);
    pl_document_free(doc);
    pl_problems_free(&said);
    return status;
}

/* ---- metals ---- */

static const struct pl_field metal_numbers[] = {
    {.key = "e_gpa", .most = 1000, .above = true},
    {.key = "yield_mpa", .most = 5000, .above = true},
    {.key = "ultimate_mpa", .most = 5000, .above = true},
    {.key = "density_kgm3", .least = 200, .most = 25000},
    {.key = "bend_radius_t", .least = 0, .most = 50},
};

struct metal {
    const struct pl_document *doc;
    const char *place;
    struct pl_problems *problems;
};

static bool wrong(const struct metal *m, const char *key, const char *rule)
{
    char found[80] = "";
    pl_node node = pl_node_member(m->doc, pl_document_root(m->doc), key);
    if (node != PL_NO_NODE)
        pl_node_spelling(m->doc, node, found, sizeof found);
    tell(m->problems, PL_ERROR, m->place, key, node == PL_NO_NODE ? "is missing" : rule, found);
    return false;
}

static bool check_text(const struct metal *m, const char *key, bool optional)
{
    pl_node node = pl_node_member(m->doc, pl_document_root(m->doc), key);
    if (node == PL_NO_NODE && optional)
        return true;
    if (node == PL_NO_NODE || pl_node_kind(m->doc, node) != PL_NODE_TEXT)
        return wrong(m, key, "must be a text");
    return optional || *pl_node_text(m->doc, node) || wrong(m, key, "must not be empty");
}

static bool check_number(const struct metal *m, const struct pl_field *f)
{
    char rule[96];
    pl_node node = pl_node_member(m->doc, pl_document_root(m->doc), f->key);
    double value = node == PL_NO_NODE ? 0 : pl_node_number(m->doc, node);
    if (node == PL_NO_NODE || pl_node_kind(m->doc, node) != PL_NODE_NUMBER)
        return wrong(m, f->key, "must be a number");
    pl_field_range_words(f, rule, sizeof rule);
    bool low = value < f->least || (f->above && value == f->least);
    return !(low || value > f->most) || wrong(m, f->key, rule);
}

static double number(const struct metal *m, const char *key)
{
    return pl_node_number(m->doc, pl_node_member(m->doc, pl_document_root(m->doc), key));
}

static bool check_metal_values(const struct metal *m)
{
    if (pl_node_kind(m->doc, pl_document_root(m->doc)) != PL_NODE_OBJECT) {
        tell(m->problems, PL_ERROR, m->place, NULL, "must be an object", NULL);
        return false;
    }
    bool right = check_text(m, "name", false);
    right = check_text(m, "note", true) && right;
    for (size_t i = 0; i < sizeof metal_numbers / sizeof *metal_numbers; i++)
        right = check_number(m, &metal_numbers[i]) && right;
    if (right && number(m, "yield_mpa") > number(m, "ultimate_mpa"))
        return wrong(m, "yield_mpa", "must not be above ultimate_mpa");
    return right;
}

static enum pl_status check_metal(const char *row, const char *place, struct pl_problems *problems)
{
    struct pl_document *doc;
    enum pl_status status = pl_document_read(&doc, row, strlen(row), problems);
    if (status == PL_OK && !check_metal_values(&(struct metal){doc, place, problems}))
        status = PL_BAD_INPUT;
    pl_document_free(doc);
    return status;
}

enum pl_status pl_catalogue_check_row(enum pl_catalogue_group group, const char *row, const char *place,
                                      struct pl_problems *problems)
{
    return group == PL_CATALOGUE_METALS ? check_metal(row, place, problems)
                                        : check_part_row(group, row, place, problems);
}

/* ---- the whole ---- */

static bool check_format(const struct pl_document *doc, struct pl_problems *problems)
{
    pl_node root = pl_document_root(doc), format = pl_node_member(doc, root, "format");
    pl_node version = pl_node_member(doc, root, "version");
    size_t before = problems->errors;
    if (pl_node_kind(doc, root) != PL_NODE_OBJECT)
        tell(problems, PL_ERROR, "", NULL, "must be an object", NULL);
    else if (format == PL_NO_NODE)
        tell(problems, PL_ERROR, "", "format", "is missing", NULL);
    else if (strcmp(pl_node_text(doc, format), "plyloft-catalogue"))
        pl_part_tell(doc, problems, PL_ERROR, "/format", "must be \"plyloft-catalogue\"");
    else if (version == PL_NO_NODE)
        tell(problems, PL_ERROR, "", "version", "is missing", NULL);
    else if (pl_node_number(doc, version) != 1)
        pl_part_tell(doc, problems, PL_ERROR, "/version", "must be 1");
    return problems->errors == before;
}

static bool known_key(const char *key)
{
    for (int g = 0; g < PL_CATALOGUE_GROUPS; g++)
        if (!strcmp(key, pl_catalogue_group_key((enum pl_catalogue_group)g)))
            return true;
    return !strcmp(key, "format") || !strcmp(key, "version") || !strcmp(key, "note");
}

bool pl_catalogue_check_head(const struct pl_document *doc, struct pl_problems *problems)
{
    pl_node root = pl_document_root(doc);
    bool right = check_format(doc, problems);
    for (int g = 0; right && g < PL_CATALOGUE_GROUPS; g++) {
        const char *key = pl_catalogue_group_key((enum pl_catalogue_group)g);
        pl_node list = pl_node_member(doc, root, key);
        if (list == PL_NO_NODE || pl_node_kind(doc, list) == PL_NODE_LIST)
            continue;
        tell(problems, PL_ERROR, "", key, "must be a list", NULL);
        right = false;
    }
    for (pl_node n = pl_node_first(doc, root); right && n != PL_NO_NODE; n = pl_node_next(doc, n))
        if (!known_key(pl_node_key(doc, n)))
            tell(problems, PL_WARNING, "", pl_node_key(doc, n), "is not a key that this version knows; it is kept",
                 NULL);
    return right;
}
