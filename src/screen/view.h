/* view.h - the pages, drawn into a frame.
 *
 * pl_view is a function of the session alone: it changes nothing a person would notice
 * and knows no terminal.  Each drawing has a file of its own; all figures come from the
 * check room.
 */
#ifndef PLYLOFT_VIEW_H
#define PLYLOFT_VIEW_H

#include "plyloft/frame.h"

#include "block.h"
#include "session.h"

enum { PL_LEAST_ROWS = 20, PL_LEAST_COLUMNS = 40 };

/* Draws the page into f, whose size is set. */
void pl_view(struct pl_session *session, struct pl_frame *f);

struct pl_region { int row, column, rows, columns; };

/* Cuts a part off: the top, or the left. */
static inline struct pl_region pl_region_top(struct pl_region *r, int rows)
{
    rows = rows < r->rows ? rows : r->rows;
    struct pl_region top = {r->row, r->column, rows, r->columns};
    r->row += rows;
    r->rows -= rows;
    return top;
}

static inline struct pl_region pl_region_left(struct pl_region *r, int columns)
{
    columns = columns < r->columns ? columns : r->columns;
    struct pl_region left = {r->row, r->column, r->rows, columns};
    r->column += columns;
    r->columns -= columns;
    return left;
}

/* ---- pages ---- */
void pl_view_shape(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_cloth(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_loads(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_strength(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_shop(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_trials(struct pl_session *session, struct pl_frame *f, struct pl_region r);

/* ---- parts of pages ---- */

/* Verdict, always there: rows it took from row on. */
int pl_view_verdict(const struct pl_session *session, struct pl_frame *f, int row);

/* Rows that a block of fields wants, its heading included. */
int pl_view_block_rows(const struct pl_session *session, int block);
void pl_view_block(struct pl_session *session, struct pl_frame *f, struct pl_region r, int block);

/* The titles of a page's blocks on one row, the one that takes the keys marked. */
void pl_view_block_titles(struct pl_session *session, struct pl_frame *f, int row, int columns);
/* The block that takes the keys, then as many others as fit, in page order. */
void pl_view_blocks(struct pl_session *session, struct pl_frame *f, struct pl_region *r, int keep_rows);

void pl_view_plan(struct pl_session *session, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place);
void pl_view_section(struct pl_session *session, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place);
void pl_view_wall(struct pl_session *session, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place);
void pl_view_curve(struct pl_session *session, struct pl_frame *f, struct pl_region r, enum pl_curve curve);
/* What its highest point would tell, of reserve its lowest: "moment, greatest 51.9 N m, 170 mm right, kerb on tip". */
void pl_curve_words(const struct pl_session *session, char *out, size_t size);

/* The moment, and below it, where there is room, the steps of the wall that must follow it. */
void pl_view_moment(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_wall_steps(struct pl_session *session, struct pl_frame *f, struct pl_region r);
/* Outline of the wing from above and from the front. */
void pl_view_outline(struct pl_session *session, struct pl_frame *f, struct pl_region r);
/* The section at the marker in the air: pressure round it, lift and drag over incidence. */
void pl_view_pressure(struct pl_session *session, struct pl_frame *f, struct pl_region r);
void pl_view_lift_and_drag(struct pl_session *session, struct pl_frame *f, struct pl_region r);
/* The wing in the flow of the downforce case in hand: figures in words, and the load along the span. */
void pl_view_flow(struct pl_session *session, struct pl_frame *f, struct pl_region r);
/* As set otherwise; in words: the title (0), then each row; how many there are. */
void pl_view_settings(struct pl_session *session, struct pl_frame *f, struct pl_region r);
size_t pl_settings_words(const struct pl_session *session, size_t i, char *out, size_t size);
enum { PL_FLOW_LINES = 4 };
size_t pl_flow_lines(const struct pl_session *session, char lines[PL_FLOW_LINES][160]);

/* Rows that the plies at one place take. */
int pl_view_wall_rows(const struct pl_session *session, const struct pl_place_view *place);

/* Mounts, pads and pushes of the element shown, of the case shown or of all. */
enum { PL_MARKS_MOST = 64 };
struct pl_mark { double y_m; enum pl_glyph glyph; };
size_t pl_view_marks(const struct pl_session *session, struct pl_mark out[PL_MARKS_MOST]);
/* The case shown, or that of the lowest reserve; NULL when nothing is judged. */
const struct pl_case_result *pl_view_weakest_case(const struct pl_session *session);
/* The case shown, or the one of lowest reserve at the marker; NULL when none loads the element. */
const struct pl_case_result *pl_view_case_at_marker(const struct pl_session *session);
/* Curves and drawings show the mounts as given.  Where the weakest place of their case, or of all, is one with the
 * mounts pinned: "as given; pinned 0.89", with the words of its place "as given; pinned 0.89 at 100 right"; else "". */
typedef void pl_place_in_words(double y_m, char *out, size_t size);
void pl_view_pinned_words(const struct pl_session *session, pl_place_in_words *place, char *out, size_t size);
/* The longest of text, its end and those words that fits in width: first the place gives way, then the end. */
void pl_view_add_pinned(const struct pl_session *session, const char *end, int width, char *text, size_t size);
/* The letter that stands for a load case on curves. */
char pl_view_case_letter(size_t load_case);

/* A figure at the left of a drawing, in the columns kept free there. */
enum { PL_LABEL_COLUMNS = 7 };
void pl_view_label(struct pl_frame *f, const struct pl_canvas *c, double value, int decimals);

/* The next round figure from zero outward, so that the scale of a drawing stays while its figures change a little. */
double pl_view_round_out(double value);

/* What each load case does at the marker. */
int pl_view_marker_table_rows(const struct pl_session *session);
void pl_view_marker_table(struct pl_session *session, struct pl_frame *f, struct pl_region r);

/* The newest question over the page, below row top: the verdict stays. */
void pl_view_question(struct pl_session *session, struct pl_frame *f, int top);

/* Keys at the foot of the page: one or two that belong together, and what they do; each is a place to click. */
struct pl_foot { int key, other; const char *words; };

/* In one row, r: as many as fit, the last always. */
void pl_view_foot(struct pl_frame *f, struct pl_region r, const struct pl_foot *feet, size_t count);
/* Columns they would take with all their words. */
int pl_view_foot_width(struct pl_region r, const struct pl_foot *feet, size_t count);
static inline struct pl_region pl_foot_row(const struct pl_frame *f)
{
    return (struct pl_region){f->rows - 1, 0, 1, f->columns};
}
void pl_view_page_foot(const struct pl_session *session, struct pl_frame *f);
/* What the page's foot would name if it had room for all; their number. */
size_t pl_view_page_actions(const struct pl_session *session, enum pl_action *out, size_t most);

/* The keys that answer a question, that move an end in hand; and what a question says ("" for nothing). */
const struct pl_foot *pl_question_feet(const struct pl_question *question, size_t *count);
const struct pl_foot *pl_hold_feet(size_t *count);
const char *pl_question_words(const struct pl_session *session, const struct pl_question *question);

/* What a page is for. */
const char *pl_page_words(enum pl_page page);

/* Help on the page and the field in hand, and the sheet of all keys. */
void pl_view_help(const struct pl_session *session, struct pl_frame *f, const struct pl_question *question, int top);

/* A text over as many rows of the region as it takes, those after the first set in by indent columns; rows taken. */
int pl_view_wrapped(struct pl_frame *f, struct pl_region r, int indent, enum pl_role role, const char *text);

/* A text cut so that its end, which says more, stays whole; the column behind. */
int pl_view_text_and_end(struct pl_frame *f, int row, int column, int width, enum pl_role role, const char *text,
                         const char *end);

/* A line being typed, in width columns. */
void pl_view_line(const struct pl_line *line, struct pl_frame *f, int row, int column, int width);

/* The section at the marker; false when there is none to draw (the reason stands in the region). */
bool pl_view_place(struct pl_session *session, struct pl_frame *f, struct pl_region r, struct pl_place_view *place);

/* "y 170 right" */
void pl_marker_words(const struct pl_session *session, char *out, size_t size);

#endif
