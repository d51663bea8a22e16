/* draw_flow.c - what the wing makes of the air in the load case in hand: figures, and the load along the span. */
#include "view.h"

#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void number(char out[32], double value, int decimals)
{
    if (isnan(value))
        strcpy(out, "-");
    else
        pl_number_fixed(out, 32, value, decimals);
}

size_t pl_flow_lines(const struct pl_session *s, char lines[PL_FLOW_LINES][160])
{
    struct pl_wing_job_view v = pl_wing_job_view(s);
    char one[32], two[32], three[32];
    size_t n = 0;
    if (!v.load_case) {
        snprintf(lines[n++], sizeof *lines, "no downforce case: add one to see the flow over the wing");
        return n;
    }
    if (v.failed || !v.strips) {
        snprintf(lines[n++], sizeof *lines, v.failed ? "the flow over this wing has no answer" : "being worked out");
        return n;
    }
    number(one, v.rows ? v.totals.force_limited_n : v.force_n, 0);
    number(two, v.force_n, 0);
    if (v.rows)
        snprintf(lines[n++], sizeof *lines, "downforce %s N (thin lattice %s)%s", one, two, v.old ? ", old" : "");
    else
        snprintf(lines[n++], sizeof *lines, "downforce of the thin lattice %s N%s", two, v.old ? ", old: being worked out" : "");
    if (!v.rows)
        return n;
    number(one, v.totals.drag_limited_n, 1);
    number(two, v.totals.force_limited_n / v.totals.drag_limited_n, 1);
    number(three, 1e3 * v.totals.centre_limited_m, 0);
    snprintf(lines[n++], sizeof *lines, "drag %s N, %s to one, acts %s mm aft", one, two, three);
    number(one, v.totals.allowance, 2);
    snprintf(lines[n++], sizeof *lines, "allowance %s for a computed load to say the same", one);
    return n;
}

static struct pl_canvas canvas_of(struct pl_frame *f, struct pl_region r, double semispan_m, double low, double high)
{
    return (struct pl_canvas){f, r.row, r.column + PL_LABEL_COLUMNS + 1, r.rows - 1, r.columns - PL_LABEL_COLUMNS - 2, -semispan_m, semispan_m,
                              pl_view_round_out(low), pl_view_round_out(high)};
}

/* Force a length of strip i; limited with stall and thickness. */
static double load_of(const struct pl_wing_job_view *v, size_t i, bool limited)
{
    return v->pressure_pa * v->strips[i].chord_m * (limited ? v->rows[i].cl_limited : v->strips[i].cl);
}

static void draw_load(const struct pl_canvas *c, const struct pl_wing_job_view *v, size_t element, bool limited, enum pl_role role)
{
    size_t before = PL_NONE;
    for (size_t i = 0; i < v->n; i++) {
        if (v->strips[i].element != element)
            continue;
        size_t from = before == PL_NONE ? i : before;  /* the first meets its mirror */
        double y0 = before == PL_NONE ? -v->strips[i].y_m : v->strips[from].y_m, y1 = v->strips[i].y_m;
        for (int side = -1; side <= 1; side += 2)
            pl_canvas_line(c, side * v->stretch * y0, load_of(v, from, limited), side * v->stretch * y1, load_of(v, i, limited), role);
        before = i;
    }
}

static void draw_loads(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_wing_job_view *v)
{
    double low = 0, high = 1;
    const struct pl_part *part = pl_session_part(s);
    for (size_t i = 0; i < v->n; i++) {
        low = fmin(low, load_of(v, i, false));
        high = fmax(high, load_of(v, i, false));
    }
    struct pl_canvas c = canvas_of(f, r, pl_element_semispan_m(&part->elements[v->load_case->element]), low, high);
    pl_canvas_dashed(&c, c.x_from, 0, c.x_to, 0, PL_ROLE_LINE);
    pl_canvas_dashed(&c, s->marker_m, c.y_from, s->marker_m, c.y_to, PL_ROLE_MARKER);
    for (size_t e = 0; e < part->n_elements; e++) {
        draw_load(&c, v, e, false, PL_ROLE_LINE);
        if (v->rows)
            draw_load(&c, v, e, true, e == v->load_case->element ? PL_ROLE_CLOTH_A : PL_ROLE_CLOTH_B);
    }
    pl_view_label(f, &c, c.y_to, 0);
    pl_view_label(f, &c, c.y_from, 0);
    pl_frame_text_in(f, c.row + c.rows, c.column, c.columns, PL_ROLE_QUIET, v->rows ? "N/m down, left to right tip; dim: thin lattice" : "N/m down, left to right tip");
}

void pl_view_flow(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_wing_job_view v = pl_wing_job_view(s);
    char lines[PL_FLOW_LINES][160], title[200];
    size_t n = pl_flow_lines(s, lines);
    if (r.rows < 3 || r.columns < 30)
        return;
    snprintf(title, sizeof title, "flow over the wing%s%s", v.load_case ? ", " : "", v.load_case ? v.load_case->name : "");
    pl_frame_text_in(f, pl_region_top(&r, 1).row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
    for (size_t i = 0; i < n && r.rows > 0; i++)
        pl_frame_text_in(f, pl_region_top(&r, 1).row, r.column + 1, r.columns - 2, v.failed ? PL_ROLE_WARNING : v.old ? PL_ROLE_QUIET : PL_ROLE_TEXT, lines[i]);
    if (v.rows && v.totals.n_doubts && r.rows > 7) {
        struct pl_region last = {r.row + r.rows - 2, r.column + 1, 2, r.columns - 2};
        r.rows -= 2;
        pl_view_wrapped(f, last, 0, PL_ROLE_WARNING, v.totals.doubts[0]);
    }
    if (v.strips && r.rows >= 4)
        draw_loads(s, f, r, &v);
}
