/* hold.c - an end of a ply group taken in hand on the plan and moved along the span.
 *
 * Every move is an edit, solved at once, and all of them one step of undo an end, so that
 * Escape puts back what was there. */
#include "session.h"

#include "block.h"

#include "plyloft/buffer.h"
#include "plyloft/keys.h"
#include "plyloft/part_edit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *key, *words;
} ends[PL_ENDS] = {
    [PL_END_OUTER] = {"half_length_mm", "outer end"},
    [PL_END_INNER] = {"from_mm", "inner end"},
    [PL_END_DROP] = {"drop_mm", "drop of each ply"},
};

static const double step_mm = 10, fine_mm = 1, far_mm = 50;

static void pointer_of(const struct pl_session *s, enum pl_end end, char *out, size_t size)
{
    snprintf(out, size, "%s/%s", s->held.row, ends[end].key);
}

/* What the file says, the tip for an outer end left out. */
static double value_mm(const struct pl_session *s, enum pl_end end)
{
    char pointer[256];
    pointer_of(s, end, pointer, sizeof pointer);
    pl_node node = pl_document_find(s->document, pointer);
    if (node == PL_NO_NODE)
        return end == PL_END_OUTER ? 1e3 * pl_session_semispan_m(s) : 0;
    return pl_node_number(s->document, node);
}

void pl_hold_start(struct pl_session *s)
{
    const struct pl_block *b = pl_block_here(s);
    int block = s->blocks[s->page];
    if (!b || b->group != PL_GROUP_LAYUP
        || !pl_block_row(s, block, pl_block_cursor(s, block).row, s->held.row, sizeof s->held.row)) {
        pl_session_say(s, "go to a ply group on Cloth to move its end", NULL);
        return;
    }
    s->held.on = true;
    s->held.end = PL_END_OUTER;
    pl_edit_stand_alone(s->document);
    s->held.steps = pl_document_steps_done(s->document);
}

/* The whole of it as typed text: an outer end at the tip and an inner one at the centreline are left out. */
static void move_to(struct pl_session *s, double mm)
{
    struct pl_problems problems = {0};
    char pointer[256], typed[32];
    double tip_mm = 1e3 * pl_session_semispan_m(s), least = s->held.end == PL_END_OUTER ? value_mm(s, PL_END_INNER) + fine_mm : 0;
    double most = s->held.end == PL_END_INNER ? value_mm(s, PL_END_OUTER) - fine_mm : tip_mm;
    mm = fmax(least, fmin(most, mm));
    if (mm == value_mm(s, s->held.end))
        return;
    pointer_of(s, s->held.end, pointer, sizeof pointer);
    pl_number_digits(typed, sizeof typed, mm, 8);
    if (s->held.end == PL_END_OUTER ? mm == tip_mm : mm == 0)
        typed[0] = '\0';
    enum pl_status status = pl_part_type(s->document, pointer, typed, &problems);
    pl_session_edited(s, status, &problems);
}

/* Whole steps from the centreline, whatever the end stood on. */
static void move_by(struct pl_session *s, double by_mm)
{
    double steps = value_mm(s, s->held.end) / fabs(by_mm);
    move_to(s, fabs(by_mm) * (by_mm > 0 ? floor(steps + 1e-6) + 1 : ceil(steps - 1e-6) - 1));
}

void pl_hold_move_to(struct pl_session *s, double y_m)
{
    double mm = 1e3 * fabs(y_m);
    if (s->held.end != PL_END_DROP)
        move_to(s, round(mm / fine_mm) * fine_mm);
}

static void put_back(struct pl_session *s)
{
    bool moved = false;
    while (pl_document_steps_done(s->document) > s->held.steps && pl_document_undo(s->document))
        moved = true;
    if (moved)
        pl_session_judge(s);
    pl_session_say(s, moved ? "put back where it was" : "left where it is", NULL);
    s->held.on = false;
}

void pl_hold_key(struct pl_session *s, int key)
{
    s->message[0] = '\0';
    switch (key) {
    case PL_KEY_LEFT: move_by(s, -step_mm); break;
    case PL_KEY_RIGHT: move_by(s, step_mm); break;
    case '-': move_by(s, -fine_mm); break;
    case '+': move_by(s, fine_mm); break;
    case PL_KEY_PAGE_UP: move_by(s, -far_mm); break;
    case PL_KEY_PAGE_DOWN: move_by(s, far_mm); break;
    case PL_KEY_HOME: pl_hold_move_to(s, s->marker_m); break;
    case PL_KEY_END: move_to(s, 1e3 * pl_session_semispan_m(s)); break;
    case PL_KEY_TAB: s->held.end = (enum pl_end)((s->held.end + 1) % PL_ENDS); break;
    case PL_KEY_BACKTAB: s->held.end = (enum pl_end)((s->held.end + PL_ENDS - 1) % PL_ENDS); break;
    case PL_KEY_ESCAPE: put_back(s); break;
    case PL_KEY_ENTER:
        s->held.on = false;
        pl_edit_stand_alone(s->document);
        break;
    default: break;
    }
}

void pl_hold_words(const struct pl_session *s, char *out, size_t size)
{
    char name[96], mm[32];
    pl_part_row_words(s->document, s->held.row, name, sizeof name);
    pl_number_digits(mm, sizeof mm, value_mm(s, s->held.end), 6);
    snprintf(out, size, "%s, %s: %s mm", name, ends[s->held.end].words, mm);
}
