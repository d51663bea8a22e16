#include "view.h"

/* Below the list: plan and section side by side, or the plan alone. */
static void put_drawings(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place)
{
    if (r.columns < 60) {
        pl_view_plan(s, f, r, place);
        return;
    }
    struct pl_region left = pl_region_left(&r, r.columns / 2);
    pl_view_plan(s, f, left, place);
    pl_view_section(s, f, r, place);
}

/* One block of fields at a time, the drawings below. */
static void put_stacked(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    int here = s->blocks[s->page], wanted = pl_view_block_rows(s, here), most = r.rows - (r.columns < 60 ? 5 : 8);
    struct pl_region list = pl_region_top(&r, wanted < most ? wanted : most);
    struct pl_place_view place;
    struct pl_region line = pl_region_top(&r, 1);
    bool there = pl_view_place(s, f, r, &place);
    pl_view_block(s, f, list, here);
    pl_frame_line(f, line.row, 0, f->columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    if (there)
        put_drawings(s, f, r, &place);
}

/* Blocks on the left with the curve of reserve, the drawings on the right. */
static void put_columns(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_place_view place;
    int width = r.columns < 140 ? 66 : 94;
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    struct pl_region left = pl_region_left(&r, width), line = pl_region_left(&r, 1);
    bool there = pl_view_place(s, f, r, &place);
    pl_frame_line(f, line.row, line.column, line.rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    pl_view_blocks(s, f, &left, left.rows >= 24 ? 12 : 0);
    if (left.rows >= 6)
        pl_view_curve(s, f, left, PL_CURVE_RESERVE);
    if (!there)
        return;
    pl_view_plan(s, f, pl_region_top(&r, r.rows * 2 / 5), &place);
    pl_view_section(s, f, pl_region_top(&r, r.rows / 2), &place);
    pl_view_wall(s, f, r, &place);
}

void pl_view_cloth(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    if (f->columns >= 110 && f->rows >= 30)
        put_columns(s, f, r);
    else
        put_stacked(s, f, r);
}

/* The same blocks-and-drawings, of the shape's own fields. */
void pl_view_shape(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    pl_view_cloth(s, f, r);
}
