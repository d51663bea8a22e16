#include "view.h"

enum { NARROW = 60, WIDE = 110, TALL = 30 };

/* Below the list: two drawings side by side where there is room, else the one that matters most. */
static void put_drawings(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place)
{
    bool shape = s->page == PL_PAGE_SHAPE;
    struct pl_region left = r.columns < NARROW ? r : pl_region_left(&r, r.columns / 2);
    if (shape)
        pl_view_outline(s, f, left);
    else
        pl_view_plan(s, f, left, place);
    if (f->columns < NARROW)
        return;
    /* An outline builds other places: the section is looked at again. */
    struct pl_place_view here = *place;
    if (!shape || pl_view_place(s, f, r, &here))
        pl_view_section(s, f, r, &here);
}

/* Instead of fields: the section at the marker in the air. */
static void put_air(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_region top = r.columns < 2 * NARROW ? pl_region_top(&r, r.rows * 2 / 5) : pl_region_left(&r, r.columns / 2);
    pl_view_pressure(s, f, top);
    pl_view_lift_and_drag(s, f, r);
}

/* One block of fields at a time, the drawings below. */
static void put_stacked(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    if (pl_block_here(s)->kind == PL_AIR) {
        put_air(s, f, r);
        return;
    }
    int here = s->blocks[s->page], wanted = pl_view_block_rows(s, here), most = r.rows - (r.columns < NARROW ? 5 : 8);
    struct pl_region list = pl_region_top(&r, wanted < most ? wanted : most);
    struct pl_place_view place;
    struct pl_region line = pl_region_top(&r, 1);
    bool there = pl_view_place(s, f, r, &place);
    pl_view_block(s, f, list, here);
    pl_frame_line(f, line.row, 0, f->columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    if (there)
        put_drawings(s, f, r, &place);
}

/* The plies at the marker take what they need; the plan and the section share most of the rest, and what the moment
 * asks of the cap stands below them where there is room. */
static void put_cloth_drawings(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place)
{
    int wall = pl_view_wall_rows(s, place) + 1, rest = r.rows - wall, moment = rest >= 34 ? rest - 24 : 0;
    int section = (rest - moment) * 9 / 20;
    pl_view_plan(s, f, pl_region_top(&r, rest - moment - section), place);
    pl_view_section(s, f, pl_region_top(&r, section), place);
    pl_view_wall(s, f, pl_region_top(&r, wall), place);
    if (moment)
        pl_view_moment(s, f, r);
}

static void put_shape_drawings(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_place_view place;
    int air = r.rows >= 30 ? r.rows / 2 : 0, outline = (r.rows - air) * 12 / 20;
    outline = air && outline < 11 ? 11 : outline;
    pl_view_outline(s, f, pl_region_top(&r, outline));
    struct pl_region section = pl_region_top(&r, r.rows - air);
    if (pl_view_place(s, f, section, &place))
        pl_view_section(s, f, section, &place);
    struct pl_region pressure = r.columns < 100 ? pl_region_top(&r, r.rows * 2 / 5) : pl_region_left(&r, r.columns / 2);
    pl_view_pressure(s, f, pressure);
    pl_view_lift_and_drag(s, f, r);
}

/* Blocks on the left with a curve below them, the drawings on the right. */
static void put_columns(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_place_view place;
    bool shape = s->page == PL_PAGE_SHAPE;
    int width = r.columns < 140 ? 66 : r.columns < 180 ? 94 : 112;
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    struct pl_region left = pl_region_left(&r, width), line = pl_region_left(&r, 1);
    bool there = pl_view_place(s, f, r, &place);
    pl_frame_line(f, line.row, line.column, line.rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    pl_view_blocks(s, f, &left, left.rows >= 24 ? 12 : 0);
    if (there && shape)
        put_shape_drawings(s, f, r);
    else if (there)
        put_cloth_drawings(s, f, r, &place);
    if (left.rows >= 24) {
        pl_view_curve(s, f, pl_region_top(&left, left.rows / 2), PL_CURVE_RESERVE);
        pl_view_curve(s, f, left, PL_CURVE_DEFLECTION);
    } else if (left.rows >= 6) {
        pl_view_curve(s, f, left, shape ? PL_CURVE_DEFLECTION : PL_CURVE_RESERVE);
    }
}

void pl_view_cloth(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    if (f->columns >= WIDE && f->rows >= TALL)
        put_columns(s, f, r);
    else
        put_stacked(s, f, r);
}

/* The same blocks-and-drawings, of the shape's own fields. */
void pl_view_shape(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    pl_view_cloth(s, f, r);
}
