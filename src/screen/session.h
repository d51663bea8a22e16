/* session.h - what the person at the bench is doing.
 *
 * Holds the document, the part and verdict derived from it, and where the person is:
 * page, block, row, column, span marker, the value being typed, the question asked.  A
 * key goes in, the session changes; view (view.h) draws it.  Knows no terminal, and no
 * formula: figures come from the check room.
 */
#ifndef PLYLOFT_SESSION_H
#define PLYLOFT_SESSION_H

#include "plyloft/check.h"
#include "plyloft/field.h"
#include "plyloft/document.h"
#include "plyloft/part.h"
#include "plyloft/problems.h"

enum pl_page {
    PL_PAGE_SHAPE, PL_PAGE_CLOTH, PL_PAGE_LOADS, PL_PAGE_STRENGTH, PL_PAGE_JOINTS, PL_PAGE_SHOP, PL_PAGE_TRIALS,
    PL_PAGE_LOG, PL_PAGES
};

extern const char *const pl_page_names[PL_PAGES];

/* Blocks of fields on the Cloth page, in Tab order; on the Strength page cases and curves. */
enum pl_block { PL_BLOCK_LAYUP, PL_BLOCK_STATIONS, PL_BLOCK_WING, PL_BLOCKS };
enum pl_strength_block { PL_BLOCK_CASES, PL_BLOCK_CURVES, PL_STRENGTH_BLOCKS };
enum pl_curve { PL_CURVE_RESERVE, PL_CURVE_MOMENT, PL_CURVE_DEFLECTION, PL_CURVE_STRESS, PL_CURVES };

enum pl_question { PL_NO_QUESTION, PL_ASK_QUIT, PL_SHOW_HELP };

struct pl_cursor { size_t row, column; };

/* Figures small enough to keep beside the next ones. */
struct pl_figures { bool there; double reserve, mass_kg; };

struct pl_session {
    char *path;                  /* file it is saved to */
    struct pl_document *document;
    struct pl_part parts[2];     /* the one judged last, and one to build the next in */
    int judged;                  /* which of them the verdict belongs to */
    struct pl_problems problems; /* of the document as it is */
    struct pl_solve *solve;
    bool valid;                  /* the verdict is that of the document as it is */
    struct pl_figures now, before;
    enum pl_page page;
    size_t element;              /* the one shown */
    size_t load_case;            /* the one shown; PL_NONE: all */
    enum pl_block block;
    enum pl_strength_block strength_block;
    enum pl_curve curve;
    struct pl_cursor cursors[PL_BLOCKS];
    size_t case_row;             /* 0 is all cases */
    double marker_m;
    enum pl_side side;           /* shown in plan and wall */
    bool typing, untouched;      /* a value is typed; it still stands as it was, selected */
    char typed[200];
    size_t typed_at;             /* bytes before the cursor */
    enum pl_question question;
    int help_row;                /* first line of help shown where they do not all fit */
    bool saved_once;             /* nothing to lose is told apart from nothing changed */
    char message[512];
    bool leave;
};

/* Opens path; on failure problems say why and *session is NULL. */
enum pl_status pl_session_open(struct pl_session **session, const char *path, struct pl_problems *problems);
void pl_session_close(struct pl_session *session);

void pl_session_key(struct pl_session *session, int key);
/* What a click's action and argument mean (view.h places them). */
void pl_session_act(struct pl_session *session, int action, int argument);

static inline const struct pl_part *pl_session_part(const struct pl_session *s) { return &s->parts[s->judged]; }

/* The verdict, old when !session->valid; NULL when there never was one. */
static inline const struct pl_verdict *pl_session_verdict(const struct pl_session *s) { return pl_solve_verdict(s->solve); }

double pl_session_semispan_m(const struct pl_session *session);  /* of the element shown, as judged last */

/* Figures derived anew after an edit; the view never does. */
void pl_session_judge(struct pl_session *session);

/* ---- values typed (typing.c) ---- */
void pl_typing_start(struct pl_session *session);
void pl_typing_key(struct pl_session *session, int key);

/* ---- blocks of fields (block.c) ---- */
struct pl_block_column { const char *key, *or_key, *heading; int width; bool right; };

size_t pl_block_rows(const struct pl_session *session, enum pl_block block);
size_t pl_block_columns(enum pl_block block, size_t row, const struct pl_block_column **columns);
/* JSON Pointer of a cell of the element shown. */
void pl_block_pointer(const struct pl_session *session, enum pl_block block, size_t row, size_t column, char *out, size_t size);
void pl_block_row_words(const struct pl_session *session, enum pl_block block, size_t row, char *out, size_t size);
const char *pl_block_name(enum pl_block block);
struct pl_cursor pl_block_cursor(const struct pl_session *session);  /* held inside what there is */

/* ---- keys (actions.c) ---- */
enum pl_action {
    PL_DO_NOTHING, PL_DO_UP, PL_DO_DOWN, PL_DO_LEFT, PL_DO_RIGHT, PL_DO_PAGE_UP, PL_DO_PAGE_DOWN, PL_DO_HOME, PL_DO_END,
    PL_DO_NEXT_BLOCK, PL_DO_BLOCK_BEFORE, PL_DO_PAGE, PL_DO_TYPE, PL_DO_BACK, PL_DO_STEP_UP, PL_DO_STEP_DOWN,
    PL_DO_MARKER_LEFT, PL_DO_MARKER_RIGHT, PL_DO_UNDO, PL_DO_REDO, PL_DO_SAVE, PL_DO_QUIT, PL_DO_HELP, PL_DO_SIDE,
    PL_DO_ELEMENT, PL_DO_CHOOSE_ROW, PL_DO_CHOOSE_CASE
};

struct pl_binding { int key; enum pl_action action; int argument; const char *words; };

extern const struct pl_binding pl_bindings[];
extern const size_t pl_n_bindings;

/* The binding of a key, or NULL. */
const struct pl_binding *pl_binding_of(int key);

#endif
