/* What a new row is like, and the measures of the wing that it is fitted to. */
#include "part_rows_inside.h"

#include "plyloft/json_writer.h"

#include <stdio.h>
#include <string.h>

/* ---- the wing as the document has it ---- */

double pl_row_half_span_mm(const struct pl_document *doc, const char *element)
{
    size_t n = pl_row_count(doc, "%s/stations", element);
    return n ? pl_row_number(doc, "%s/stations/%zu/y_mm", element, n - 1) : PL_NOT_GIVEN;
}

double pl_row_loaded_half_span_mm(const struct pl_document *doc, const char *load_case)
{
    char element[48];
    size_t index = pl_names_find(doc, "/elements", pl_row_text(doc, "%s/element", load_case), PL_NONE);
    snprintf(element, sizeof element, "/elements/%zu", index);
    return index == PL_NONE ? PL_NOT_GIVEN : pl_row_half_span_mm(doc, element);
}

/* The chord is linear between stations, so that each stretch's area is its width times the mean of its ends. */
double pl_row_mean_chord_mm(const struct pl_document *doc, const char *element, double from_mm, double to_mm)
{
    double area_mm2 = 0, width_mm = 0;
    for (size_t i = 1; i < pl_row_count(doc, "%s/stations", element); i++) {
        double y0 = pl_row_number(doc, "%s/stations/%zu/y_mm", element, i - 1);
        double y1 = pl_row_number(doc, "%s/stations/%zu/y_mm", element, i);
        double c0 = pl_row_number(doc, "%s/stations/%zu/chord_mm", element, i - 1);
        double c1 = pl_row_number(doc, "%s/stations/%zu/chord_mm", element, i);
        double low = fmax(from_mm, y0), high = fmin(to_mm, y1), middle = 0.5 * (low + high);
        if (!(high > low) || !pl_given(c0 + c1))
            continue;
        area_mm2 += (high - low) * (c0 + (c1 - c0) * (middle - y0) / (y1 - y0));
        width_mm += high - low;
    }
    return width_mm > 0 && area_mm2 > 0 ? area_mm2 / width_mm : PL_NOT_GIVEN;
}

/* The value down to a step, where there is one and that leaves anything; otherwise what is usual. */
static double fitted(double value, double step, double usual)
{
    double down = floor(value / step) * step;
    return !(value > 0) ? usual : down > 0 ? fmin(down, usual) : fmin(value, usual);
}

static double or_else(double value, double otherwise)
{
    return pl_given(value) ? value : otherwise;
}

/* ---- materials and profiles: the same whatever the wing ---- */

/* Typical planning values for hand-laid wet lay-up, as the help of each field gives them. */
static const char *const usual_members[PL_GROUPS] = {
    [PL_GROUP_PROFILE] = "\"naca\": \"4412\"",
    [PL_GROUP_FABRIC] =
        "\"fibre\": \"glass\", \"areal_weight_gsm\": 163, \"fibre_density_kgm3\": 2560,"
        " \"fibre_volume_fraction\": 0.38, \"e1_gpa\": 17, \"e2_gpa\": 17, \"g12_gpa\": 3.2, \"nu12\": 0.13,"
        " \"xt_mpa\": 240, \"xc_mpa\": 190, \"yt_mpa\": 240, \"yc_mpa\": 190, \"s_mpa\": 45,"
        " \"roll_width_mm\": 1270",
    [PL_GROUP_RESIN] = "\"kind\": \"epoxy\", \"density_kgm3\": 1150, \"mix_ratio_by_weight\": [100, 30],"
                       " \"pot_life_min\": 40, \"pot_life_at_c\": 25, \"tg_dry_c\": 75, \"tg_wet_c\": 65",
    [PL_GROUP_CORE] = "\"kind\": \"polystyrene\", \"density_kgm3\": 33, \"e_mpa\": 14, \"g_mpa\": 5,"
                      " \"shear_strength_mpa\": 0.21, \"compressive_strength_mpa\": 0.28, \"max_c\": 70",
};

static void write_usual(const char *members, const char *name, struct pl_buffer *out)
{
    pl_buffer_text(out, "{\"name\": ");
    pl_json_quote_onto(out, name);
    pl_buffer_printf(out, ", %s}", members);
}

/* ---- stations, mounts and pads where there is none yet ---- */

static void write_station(const struct pl_document *doc, struct pl_json_writer *w, double y_mm, double chord_mm,
                          double x_mm, double z_mm)
{
    pl_json_object(w, NULL);
    pl_json_number(w, "y_mm", y_mm);
    pl_json_number(w, "chord_mm", chord_mm);
    pl_json_number(w, "x_le_mm", x_mm);
    pl_json_number(w, "z_le_mm", z_mm);
    pl_json_number(w, "twist_deg", 0);
    pl_json_text(w, "profile", pl_row_text(doc, "/profiles/0/name"));
    pl_json_close(w);
}

static void write_mount(struct pl_json_writer *w, const char *name, double y_mm)
{
    pl_json_object(w, NULL);
    pl_json_text(w, "name", name);
    pl_json_number(w, "y_mm", y_mm);
    pl_json_text(w, "hold", "clamped");
    pl_json_close(w);
}

/* side: 1 right, -1 left */
static void write_pad(const struct pl_document *doc, const char *load_case, int side, struct pl_json_writer *w)
{
    double half_mm = pl_row_loaded_half_span_mm(doc, load_case), length_mm = fitted(half_mm / 2, 5, 100);
    pl_json_object(w, NULL);
    pl_json_number(w, "y_mm", side * fitted(half_mm - length_mm / 2, 10, 230));
    pl_json_number(w, "acts_at", 0.35);
    pl_json_number(w, "length_mm", length_mm);
    pl_json_number(w, "width_mm", 120);
    pl_json_close(w);
}

void pl_row_typical_pads(const struct pl_document *doc, const char *load_case, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, true);
    pl_json_list(&w, NULL);
    write_pad(doc, load_case, -1, &w);
    write_pad(doc, load_case, 1, &w);
    pl_json_end(&w);
}

/* ---- ply groups ---- */

static const char *first_fabric(const struct pl_document *doc)
{
    return pl_row_text(doc, "/fabrics/0/name");
}

/* A strip along the thickest part of the section, in two plies of which the lower is a little shorter. */
static void write_cap(const struct pl_document *doc, const char *element, const char *name, struct pl_json_writer *w)
{
    double half_mm = pl_row_half_span_mm(doc, element), chord_mm = HUGE_VAL;
    for (size_t i = 0; i < pl_row_count(doc, "%s/stations", element); i++)
        chord_mm = fmin(chord_mm, pl_row_number(doc, "%s/stations/%zu/chord_mm", element, i));
    pl_json_object(w, NULL);
    pl_json_text(w, "name", name);
    pl_json_text(w, "fabric", first_fabric(doc));
    pl_json_number(w, "angle_deg", 0);
    pl_json_whole(w, "plies", 2);
    pl_json_text(w, "side", "both");
    pl_json_number(w, "centre_at", 0.3);
    pl_json_number(w, "width_mm", fitted(chord_mm / 2, 2, 60));
    pl_json_number(w, "drop_mm", fitted(half_mm / 4, 5, 40));
    pl_json_close(w);
}

static void write_skin(const struct pl_document *doc, struct pl_json_writer *w)
{
    pl_json_object(w, NULL);
    pl_json_text(w, "name", "skin");
    pl_json_text(w, "fabric", first_fabric(doc));
    pl_json_number(w, "angle_deg", 45);
    pl_json_whole(w, "plies", 2);
    pl_json_text(w, "side", "both");
    pl_json_number(w, "chord_from", 0);
    pl_json_number(w, "chord_to", 1);
    pl_json_close(w);
}

/* ---- elements ---- */

/* Behind and a little above the trailing edge of the first one, over its whole span, on brackets of its own. */
static void write_element(const struct pl_document *doc, const char *name, struct pl_json_writer *w)
{
    bool first = !pl_row_count(doc, "/elements");
    double chord_mm = pl_row_number(doc, "/elements/0/stations/0/chord_mm");
    double half_mm = pl_row_half_span_mm(doc, "/elements/0");
    double own_mm = first ? 250 : fitted(0.4 * chord_mm, 5, 400), x_mm = first ? 0 : or_else(chord_mm, 250) + 10;
    half_mm = half_mm > 0 ? half_mm : 600;
    pl_json_object(w, NULL);
    pl_json_text(w, "name", name);
    pl_json_bool(w, "inverted", true);
    pl_json_number(w, "incidence_deg", first ? 3 : 10);
    pl_json_list(w, "stations");
    for (int i = 0; i < 2; i++)
        write_station(doc, w, i * half_mm, own_mm, x_mm, first ? 0 : 40);
    pl_json_close(w);
    pl_json_text(w, "core", pl_row_text(doc, "/cores/0/name"));
    pl_json_text(w, "resin", pl_row_text(doc, "/resins/0/name"));
    pl_json_list(w, "layup");
    write_skin(doc, w);
    pl_json_close(w);
    pl_json_list(w, "mounts");
    write_mount(w, "left bracket", -fitted(half_mm / 2, 10, 170));
    write_mount(w, "right bracket", fitted(half_mm / 2, 10, 170));
    pl_json_close(w);
    pl_json_close(w);
}

/* The blanks ahead of the first row of a list that has its rows on lines of their own; false otherwise. */
static bool row_indent(const struct pl_document *doc, const char *list, int *indent)
{
    size_t length;
    const char *bytes = pl_document_bytes(doc, &length);
    pl_node row = pl_row_find(doc, "%s/0", list);
    size_t at = row == PL_NO_NODE ? 0 : pl_row_value_span(doc, row).start, start = at;
    while (start && bytes[start - 1] == ' ')
        start--;
    *indent = (int)(at - start);
    return start && bytes[start - 1] == '\n' && *indent < 80;
}

/* Lines are moved in to where the rows of the list stand; what runs on in the file runs on here. */
static void write_lines(const struct pl_document *doc, const char *list, const char *name, struct pl_buffer *out)
{
    struct pl_buffer lines = {0};
    struct pl_json_writer w;
    int indent;
    bool in_lines = row_indent(doc, list, &indent);
    pl_json_start(&w, &lines, !in_lines);
    write_element(doc, name, &w);
    pl_json_end(&w);
    out->failed |= lines.failed;
    for (const char *line = lines.failed ? "" : lines.text; *line;) {
        size_t n = strcspn(line, "\n");
        pl_buffer_add(out, line, n);
        line += n + (line[n] == '\n');
        if (*line)
            pl_buffer_printf(out, "\n%*s", indent, "");
    }
    pl_buffer_free(&lines);
}

/* ---- any group ---- */

const char *pl_row_typical_name(enum pl_group_id group)
{
    static const char *const names[PL_GROUPS] = {
        [PL_GROUP_PROFILE] = "profile", [PL_GROUP_FABRIC] = "cloth",    [PL_GROUP_RESIN] = "resin",
        [PL_GROUP_CORE] = "core",       [PL_GROUP_ELEMENT] = "element", [PL_GROUP_LAYUP] = "cap",
        [PL_GROUP_MOUNT] = "bracket",
    };
    return names[group] ? names[group] : pl_groups[group].noun;
}

void pl_row_typical(const struct pl_document *doc, const struct pl_row_place *p, const char *name,
                    struct pl_buffer *out)
{
    struct pl_json_writer w;
    if (usual_members[p->group]) {
        write_usual(usual_members[p->group], name, out);
        return;
    }
    if (p->group == PL_GROUP_ELEMENT) {
        write_lines(doc, p->list, name, out);
        return;
    }
    pl_json_start(&w, out, true);
    if (p->group == PL_GROUP_STATION)
        write_station(doc, &w, 0, 250, 0, 0);
    else if (p->group == PL_GROUP_LAYUP)
        write_cap(doc, p->parent, name, &w);
    else if (p->group == PL_GROUP_MOUNT)
        write_mount(&w, name, fitted(pl_row_half_span_mm(doc, p->parent) / 2, 10, 170));
    else
        write_pad(doc, p->parent, 1, &w);
    pl_json_end(&w);
}
