#include "view.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Thickness of the wall against the core in the drawing: true to scale a skin would not show. */
static const double wall_stretch = 3;

static void core_extent(const struct pl_place_view *p, double *low, double *high, double *wall)
{
    *low = HUGE_VAL;
    *high = -HUGE_VAL;
    *wall = 0;
    for (size_t i = 0; i < p->n_core; i++) {
        *low = fmin(*low, p->core_bottom_m[i]);
        *high = fmax(*high, p->core_top_m[i]);
    }
    for (size_t i = 0; i < p->section.wall.n_runs; i++)
        *wall = fmax(*wall, p->stacks->stacks[p->section.wall.runs[i].stack].thickness_m);
}

/* Against the thinnest run, as in the plan, so that a skin more does not change every colour. */
static enum pl_role run_role(const struct pl_place_view *p, const struct pl_stack *stack)
{
    size_t least = stack->n_plies;
    for (size_t i = 0; i < p->section.wall.n_runs; i++) {
        size_t plies = p->stacks->stacks[p->section.wall.runs[i].stack].n_plies;
        least = plies < least ? plies : least;
    }
    return stack->n_plies <= least ? PL_ROLE_CLOTH_A : stack->n_plies <= least + 3 ? PL_ROLE_CLOTH_B : PL_ROLE_CLOTH_C;
}

/* Outer face of one run, from its middle line outward. */
static void draw_run(const struct pl_canvas *c, const struct pl_place_view *p, const struct pl_wall_run *run)
{
    const struct pl_wall *w = &p->section.wall;
    const struct pl_stack *stack = &p->stacks->stacks[run->stack];
    double out = (wall_stretch - 0.5) * stack->thickness_m, x0 = 0, z0 = 0;
    enum pl_role role = run_role(p, stack);
    for (size_t i = run->first; i < run->first + run->count; i++) {
        double x = w->x_m[i] + p->section.x_neutral_m + out * w->normal_x[i];
        double z = w->z_m[i] + p->section.z_neutral_m + out * w->normal_z[i];
        if (i > run->first)
            pl_canvas_line(c, x0, z0, x, z, role);
        x0 = x;
        z0 = z;
    }
}

/* The number of plies at the middle of each run that is wide enough to carry it. */
static void label_run(const struct pl_canvas *c, const struct pl_place_view *p, const struct pl_wall_run *run)
{
    double middle = 0.5 * (run->from + run->to) * p->section.chord_m;
    double width = (run->to - run->from) * p->section.chord_m / (c->x_to - c->x_from) * c->columns;
    size_t n = p->stacks->stacks[run->stack].n_plies;
    char text[32];
    int row, column, edge = run->side == PL_TOP ? c->row - 1 : c->row + c->rows;
    snprintf(text, sizeof text, "%zu", n);
    if (width >= (double)strlen(text) + 1 && pl_canvas_cell(c, middle, 0.5 * (c->y_from + c->y_to), &row, &column))
        pl_frame_text(c->frame, edge, column, PL_ROLE_TEXT, text);
}

static void draw_core(const struct pl_canvas *c, const struct pl_place_view *p)
{
    for (size_t i = 0; i + 1 < p->n_core; i++) {
        pl_canvas_line(c, p->core_x_m[i], p->core_top_m[i], p->core_x_m[i + 1], p->core_top_m[i + 1], PL_ROLE_LINE);
        pl_canvas_line(c, p->core_bottom_x_m[i], p->core_bottom_m[i], p->core_bottom_x_m[i + 1], p->core_bottom_m[i + 1],
                       PL_ROLE_LINE);
    }
}

/* How many times deeper than long the drawing is.  Dots stand about as far apart along as up, so it is to scale when
 * both ranges share one pitch. */
static double depth_of(const struct pl_canvas *c)
{
    return (c->x_to - c->x_from) / (2.0 * c->columns) / ((c->y_to - c->y_from) / (4.0 * c->rows));
}

enum { COLUMNS_LEAST = 40 };

/* The depth is stretched to use the room, but not beyond twice: the canvas then takes fewer rows; and it is never
 * pressed while there are columns to give up. */
static double fit_depth(struct pl_canvas *c)
{
    double depth = depth_of(c);
    if (depth > 2) {
        int rows = (int)ceil(c->rows * 2 / depth);
        c->rows = rows < c->rows ? rows : c->rows;
    } else if (depth < 1 && c->columns > COLUMNS_LEAST) {
        int columns = (int)(c->columns * depth);
        c->columns = columns > COLUMNS_LEAST ? columns : COLUMNS_LEAST;
    }
    return depth_of(c);
}

static void put_title(struct pl_frame *f, struct pl_region r, const struct pl_place_view *p, double stretch)
{
    char chord[32], depth[32], title[160];
    pl_number_digits(chord, sizeof chord, 1e3 * p->section.chord_m, 5);
    pl_number_digits(depth, sizeof depth, stretch, 2);
    snprintf(title, sizeof title, "section, chord %s mm, depth x %s, plies", chord, depth);
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
}

/* Height of the core's surface over a place of the chord. */
static double surface_z(const struct pl_place_view *p, enum pl_side side, double x_m)
{
    const double *x = side == PL_TOP ? p->core_x_m : p->core_bottom_x_m, *z = side == PL_TOP ? p->core_top_m : p->core_bottom_m;
    size_t i = 1;
    while (i + 1 < p->n_core && x[i] < x_m)
        i++;
    double run = x[i] - x[i - 1];
    return run > 0 ? z[i - 1] + (x_m - x[i - 1]) / run * (z[i] - z[i - 1]) : z[i];
}

static const struct pl_check_row *row_here(const struct pl_session *s)
{
    const struct pl_case_result *c = s->valid ? pl_view_case_at_marker(s) : NULL;
    const struct pl_check_row *row = c ? pl_case_row_at(c, s->marker_m) : NULL;
    return row && row->reserve < PL_MOST_RESERVE ? row : NULL;
}

/* The same where it is a place of the wall; the core's own modes are everywhere in it. */
static const struct pl_check_row *wall_row_here(const struct pl_session *s)
{
    const struct pl_check_row *row = row_here(s);
    return row && pl_given(row->fraction) && (row->mode == PL_MODE_PLY || row->mode == PL_MODE_WRINKLING) ? row : NULL;
}

static void mark_weakest(const struct pl_session *s, const struct pl_canvas *c, const struct pl_place_view *p)
{
    const struct pl_check_row *row = wall_row_here(s);
    int cell_row, cell_column;
    if (!row)
        return;
    double x_m = row->fraction * p->section.chord_m;
    if (pl_canvas_cell(c, x_m, surface_z(p, row->side, x_m), &cell_row, &cell_column))
        pl_frame_text(c->frame, cell_row, cell_column, row->reserve < 1 ? PL_ROLE_FAILS : PL_ROLE_TITLE, "!");
}

/* What would fail first at the marker: "! here 1.08 wrinkling, top, 0.10 chord". */
static void put_words(const struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_check_row *row = row_here(s);
    bool wall = row && row == wall_row_here(s);
    char reserve[32], at[32] = "", end[96], words[320];
    if (!row || r.rows < 1)
        return;
    pl_reserve_words(row->reserve, reserve, sizeof reserve);
    if (wall)
        pl_number_fixed(at, sizeof at, row->fraction, 2);
    snprintf(words, sizeof words, "! here %s", reserve);
    snprintf(end, sizeof end, " %s%s%s%s%s", pl_mode_name(row->mode), wall ? ", " : "",
             !wall ? "" : row->side == PL_TOP ? "top" : "bottom", wall ? ", " : "", at);
    if (wall)
        strcat(end, " chord");
    pl_view_add_pinned(s, end, r.columns - 2, words, sizeof words);
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, row->reserve < 1 ? PL_ROLE_WARNING : PL_ROLE_QUIET, words);
}

void pl_view_section(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *p)
{
    double low, high, wall, chord = p->section.chord_m;
    if (r.rows < 5 || r.columns < 20)
        return;
    core_extent(p, &low, &high, &wall);
    double room = pl_view_round_out(wall_stretch * wall);
    int words = r.rows >= 9;
    struct pl_canvas c = {f, r.row + 2, r.column + 1, r.rows - 3 - words, r.columns - 2, -0.02 * chord, 1.02 * chord, low - room,
                          high + room};
    put_title(f, r, p, fit_depth(&c));
    draw_core(&c, p);
    for (size_t i = 0; i < p->section.wall.n_runs; i++)
        draw_run(&c, p, &p->section.wall.runs[i]);
    for (size_t i = 0; i < p->section.wall.n_runs; i++)
        label_run(&c, p, &p->section.wall.runs[i]);
    mark_weakest(s, &c, p);
    int used = c.row + c.rows + 1 - r.row;
    put_words(s, f, (struct pl_region){r.row + used, r.column, r.rows - used, r.columns});
}

/* ---- the plies of one place of the wall, in laying order: where it is weakest on the side shown, else thickest ---- */

static bool holds_place(const struct pl_wall_run *run, const struct pl_check_row *row)
{
    return row && row->side == run->side && row->fraction >= run->from && row->fraction <= run->to;
}

static const struct pl_wall_run *run_to_show(const struct pl_session *s, const struct pl_place_view *p)
{
    const struct pl_wall *w = &p->section.wall;
    const struct pl_wall_run *best = NULL;
    const struct pl_check_row *row = wall_row_here(s);
    for (size_t i = 0; i < w->n_runs; i++) {
        const struct pl_wall_run *run = &w->runs[i];
        if (run->side == s->side && holds_place(run, row))
            return run;
        if (run->side == s->side && (!best || p->stacks->stacks[run->stack].thickness_m > p->stacks->stacks[best->stack].thickness_m))
            best = run;
    }
    return best;
}

int pl_view_wall_rows(const struct pl_session *s, const struct pl_place_view *p)
{
    const struct pl_wall_run *run = run_to_show(s, p);
    return run ? 1 + (int)p->stacks->stacks[run->stack].n_parts : 0;
}

static void put_part(struct pl_frame *f, int row, struct pl_region r, const struct pl_element *e, const struct pl_part *part,
                     const struct pl_stack_part *stacked, bool mirrored)
{
    const struct pl_layup_item *item = &e->layup[stacked->item];
    const struct pl_fabric *fabric = &part->fabrics[item->fabric];
    char angle[32], thickness[32], plies[80];
    pl_number_digits(angle, sizeof angle, (mirrored ? -1 : 1) * item->angle_rad * 180 / M_PI, 4);
    pl_number_fixed(thickness, sizeof thickness, 1e3 * (double)stacked->plies * pl_fabric_ply_m(fabric), 2);
    snprintf(plies, sizeof plies, "%zu x %s deg", stacked->plies, angle);
    int column = r.column + 3, end = r.column + r.columns;
    pl_frame_text_in(f, row, column, 18, PL_ROLE_TEXT, item->name);
    pl_frame_text_right(f, row, column + 18, 12, PL_ROLE_TEXT, plies);
    pl_frame_text_right(f, row, column + 31, 5, PL_ROLE_TEXT, thickness);
    pl_frame_text_in(f, row, column + 37, end - column - 38, PL_ROLE_QUIET, fabric->name);
}

/* "wall, top, 0.17 to 0.43 of the chord: 9 plies, 2.23 mm; the core side first" */
static void put_wall_title(struct pl_frame *f, struct pl_region r, const struct pl_wall_run *run, const struct pl_stack *stack)
{
    char title[200], from[32], to[32], thickness[32];
    pl_number_fixed(from, sizeof from, run->from, 2);
    pl_number_fixed(to, sizeof to, run->to, 2);
    pl_number_fixed(thickness, sizeof thickness, 1e3 * stack->thickness_m, 2);
    snprintf(title, sizeof title, "wall, %s, %s to %s of the chord: %zu plies, %s mm", run->side == PL_TOP ? "top" : "bottom", from,
             to, stack->n_plies, thickness);
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
}

void pl_view_wall(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *p)
{
    const struct pl_part *part = pl_session_part(s);
    const struct pl_wall_run *run = run_to_show(s, p);
    const struct pl_check_row *row = wall_row_here(s);
    if (!run || r.rows < 2)
        return;
    const struct pl_stack *stack = &p->stacks->stacks[run->stack];
    bool here = holds_place(run, row);
    put_wall_title(f, r, run, stack);
    for (size_t i = 0; i < stack->n_parts && (int)i + 1 < r.rows; i++) {
        put_part(f, r.row + 1 + (int)i, r, &part->elements[s->element], part, &stack->parts[i], s->marker_m < 0);
        /* A ply fails alone, a wall wrinkles with all its plies. */
        if (here && (row->mode == PL_MODE_WRINKLING || stack->parts[i].item == row->item))
            pl_frame_text(f, r.row + 1 + (int)i, r.column + 1, row->reserve < 1 ? PL_ROLE_FAILS : PL_ROLE_TITLE, "!");
    }
}
