/* session.h - what the person at the bench is doing.
 *
 * Holds the document, the part and verdict derived from it, and where the person is:
 * page, block, row, column, span marker, the value being typed, the questions asked.  A
 * key goes in, the session changes; view.h draws it.  Knows no terminal, and no formula:
 * figures come from the check room, edits from the part room.
 */
#ifndef PLYLOFT_SESSION_H
#define PLYLOFT_SESSION_H

#include "plyloft/catalogue.h"
#include "plyloft/check.h"
#include "plyloft/document.h"
#include "plyloft/driver.h"
#include "plyloft/field.h"
#include "plyloft/file.h"
#include "plyloft/forgotten.h"
#include "plyloft/gap.h"
#include "plyloft/part.h"
#include "plyloft/problems.h"
#include "plyloft/recovery.h"
#include "plyloft/section_air.h"
#include "plyloft/wing_sections.h"

#include "actions.h"
#include "line.h"
#include "shop_job.h"
#include "trials.h"

enum pl_page {
    PL_PAGE_SHAPE, PL_PAGE_CLOTH, PL_PAGE_LOADS, PL_PAGE_STRENGTH, PL_PAGE_JOINTS, PL_PAGE_SHOP, PL_PAGE_TRIALS,
    PL_PAGE_LOG, PL_PAGES
};

extern const char *const pl_page_names[PL_PAGES];

enum { PL_BLOCKS_MOST = 12, PL_QUESTIONS_MOST = 4 };

enum pl_curve { PL_CURVE_RESERVE, PL_CURVE_MOMENT, PL_CURVE_DEFLECTION, PL_CURVE_STRESS, PL_CURVES };

enum pl_question_kind {
    PL_ASK_QUIT,       /* something is not saved */
    PL_SHOW_HELP,
    PL_PICK_VALUE,     /* a choice or a name for the cell */
    PL_PICK_MATERIAL,  /* a row of the catalogue for the list */
    PL_ASK_REMOVE,     /* something still uses the row */
    PL_ASK_PATH,       /* save under another name */
    PL_ASK_PROFILE,    /* a coordinate file */
    PL_ASK_KIT,        /* a file for the kit, */
    PL_ASK_BOOK,       /* and for the ply book */
    PL_SHOW_PROFILE,   /* drawn before it is taken */
    PL_ASK_RECOVERY,   /* work that was not saved was found */
    PL_ASK_OVERWRITE,  /* another program changed the file */
    PL_FIND_ACTION,    /* by name */
    PL_PICK_EDIT,      /* the list of edits, to go back to one */
    PL_PICK_STATE      /* a kept state, to be brought back */
};

/* A file's name is typed. */
static inline bool pl_asks_path(enum pl_question_kind kind)
{
    return kind == PL_ASK_PATH || kind == PL_ASK_PROFILE || kind == PL_ASK_KIT || kind == PL_ASK_BOOK;
}

/* A question stands on a stack: the newest takes the keys. */
struct pl_question {
    enum pl_question_kind kind;
    char pointer[256];      /* of the cell, row or list it is about */
    char words[256];
    struct pl_line line;    /* what is typed */
    size_t chosen, first;   /* in a list; first line shown of help */
};

struct pl_cursor { size_t row, column; };

/* What of a ply group is moved along the span. */
enum pl_end { PL_END_OUTER, PL_END_INNER, PL_END_DROP, PL_ENDS };

struct pl_held {
    bool on;
    enum pl_end end;
    char row[160];   /* JSON Pointer of the group */
    size_t steps;    /* of undo, before it was taken in hand */
};

/* What a job of the wing flow is of. */
struct pl_wing_job_of { bool there; uint64_t key; double speed_m_s, density_kg_m3; };

/* And a job of other settings. */
struct pl_settings_of { struct pl_wing_job_of air; enum pl_over over; struct pl_car car; };

/* Figures small enough to keep beside the next ones. */
struct pl_figures { bool there; double reserve, mass_kg; };

struct pl_session {
    char *path;                  /* file it is saved to */
    struct pl_file_stamp stamp;  /* of that file as read or saved last */
    bool stamped;
    struct pl_document *document;
    struct pl_part parts[2];     /* the one judged last, and one to build the next in */
    int judged, built;           /* which of them the verdict belongs to, and which was built last */
    struct pl_problems problems; /* of the document as it is */
    struct pl_arena gap_memory;
    struct pl_gap_shape *gaps;   /* of the part built last; NULL when it could not be, or has one element */
    struct pl_solve *solve;
    struct pl_forgotten *forgotten;
    struct pl_section_air *air;      /* of the section at the marker, while the page Shape shows it */
    struct pl_wing_air *wing_air;    /* flows over the wing, for loads and pages */
    struct pl_wing_sections *wing;   /* of the downforce case in hand, while the page Loads shows it */
    struct pl_wing_job_of wing_of;
    bool wing_done, wing_failed;
    struct pl_driver *driver;        /* the case in hand as set otherwise, while the page Loads shows it */
    enum pl_over over;               /* what is set otherwise */
    struct pl_settings_of driver_of;
    struct pl_shop_job *shop;        /* the kit, while the page Shop shows it */
    struct pl_catalogue *catalogue;  /* read when first asked for; NULL before */
    struct pl_recovery kept;         /* our own unsaved work, kept aside */
    struct pl_recovered found;       /* work of an earlier session, not yet decided on */
    unsigned long kept_revision;     /* the one kept aside, or saved, last */
    bool valid;                  /* the verdict is that of the document as it is */
    struct pl_figures now, before;
    enum pl_page page;
    size_t element;              /* the one shown */
    size_t load_case;            /* the one shown; PL_NONE: all */
    enum pl_curve curve;
    int blocks[PL_PAGES];        /* the part of each page that takes the keys */
    int brought_up[PL_PAGES];    /* block, from 1, that the view made room for last; 0: none */
    struct pl_cursor cursors[PL_PAGES][PL_BLOCKS_MOST];
    size_t case_row;             /* 0 is all cases */
    double marker_m;
    enum pl_side side;           /* shown in plan and wall */
    bool typing;                 /* the value of the cell is typed in line */
    struct pl_line line;
    struct pl_held held;         /* an end of a ply group in hand */
    struct pl_trials trials;     /* kept states beside the present one */
    struct pl_keymap keys;
    bool mouse;                  /* clicks are asked for */
    struct pl_question questions[PL_QUESTIONS_MOST];
    size_t n_questions;
    struct pl_point *points;     /* of a coordinate file, to be taken or left */
    size_t n_points;
    char message[512];
    bool leave, to_start;        /* done; and to the list of parts rather than out */
};

/* Opens path; on failure problems say why and *session is NULL. */
enum pl_status pl_session_open(struct pl_session **session, const char *path, struct pl_problems *problems);
void pl_session_close(struct pl_session *session);

void pl_session_key(struct pl_session *session, int key);
void pl_session_act(struct pl_session *session, int action, int argument);
/* What a click's action and argument mean (view.h places them), while a value is typed or a question asked, too. */
void pl_session_click(struct pl_session *session, int action, int argument);
/* Argument of PL_DO_MARKER_AT. */
int pl_marker_argument(double y_m);

static inline const struct pl_part *pl_session_part(const struct pl_session *s) { return &s->parts[s->judged]; }
static inline const struct pl_part *pl_session_built(const struct pl_session *s) { return &s->parts[s->built]; }

/* The verdict, old when !session->valid; NULL when there never was one. */
static inline const struct pl_verdict *pl_session_verdict(const struct pl_session *s) { return pl_solve_verdict(s->solve); }

double pl_session_semispan_m(const struct pl_session *session);  /* of the element shown, as judged last */

/* Figures derived anew after an edit; the view never does. */
void pl_session_judge(struct pl_session *session);
/* The same document with the flow that came in: what was before the last edit stays so. */
void pl_session_judge_again(struct pl_session *session);

/* One slice of work that can wait: true while there is more. */
bool pl_session_idle(struct pl_session *session);

/* Writes the work for recovery when it changed since; called a second after an edit, and when the terminal goes. */
void pl_session_keep(struct pl_session *session);

void pl_session_say(struct pl_session *session, const char *words, const char *more);
/* A problem of the part, its place told by names and labels. */
void pl_session_problem_words(const struct pl_session *session, const struct pl_problem *problem, char *out, size_t size);
/* The first problem as the message. */
void pl_session_say_problem(struct pl_session *session, const char *words, const struct pl_problems *problems);

/* Takes an edit's outcome: judges anew, or says why not; frees problems. */
void pl_session_edited(struct pl_session *session, enum pl_status status, struct pl_problems *problems);

/* ---- the wing in the air (wing_job.c) ---- */
/* One slice; false when there is nothing to do. */
bool pl_wing_job_step(struct pl_session *session);
void pl_wing_job_part_changes(struct pl_session *session);
/* The downforce case it is of; NULL without. */
const struct pl_load_case *pl_wing_job_case(const struct pl_session *session);

struct pl_wing_job_view {
    const struct pl_load_case *load_case;
    bool failed, old;                    /* old: of an earlier shape */
    const struct pl_wing_strip *strips;  /* NULL: not yet */
    const struct pl_wing_section *rows;  /* NULL: not yet */
    size_t n;
    double stretch, pressure_pa, force_n;
    struct pl_wing_figures figures;
    struct pl_wing_totals totals;        /* with rows */
};
struct pl_wing_job_view pl_wing_job_view(const struct pl_session *session);

/* ---- what the mounts feel (view_joints.c) ---- */
size_t pl_reaction_rows(const struct pl_session *session);
bool pl_reaction_words(const struct pl_session *session, size_t row, char *out, size_t size);  /* false: there is no such row */

/* The same wing as set otherwise: one quantity over several values. */
struct pl_settings_view {
    const struct pl_load_case *load_case;  /* NULL: no downforce case */
    bool old;                              /* of an earlier shape */
    const struct pl_driver_row *rows;
    size_t n, wanted;                      /* done so far */
};
struct pl_settings_view pl_settings_view(const struct pl_session *session);

/* ---- files (files.c) ---- */
/* Saves to its own path; overwrite: even when another program changed the file since. */
bool pl_session_save(struct pl_session *session, bool overwrite);
void pl_session_save_as(struct pl_session *session, const char *path);
/* Adds the path to the list of recent parts. */
void pl_session_remember(struct pl_session *session);
/* Asks about work of an earlier session that was not saved, if there is any. */
void pl_session_ask_recovery(struct pl_session *session);
void pl_session_drop(struct pl_session *session);  /* leaves without saving; the recovery goes, too */
void pl_session_recover(struct pl_session *session);
/* The whole document anew, as one step of undo of that name. */
enum pl_status pl_session_replace(struct pl_session *session, const char *name, const char *bytes);
/* Takes the file as another program left it, as one step of undo. */
void pl_session_read_anew(struct pl_session *session);
void pl_session_forget_recovery(struct pl_session *session);
/* Looks whether another program changed the file; says so. */
void pl_session_look_at_disk(struct pl_session *session);

/* ---- the kit and the ply book on paper (sheets.c) ---- */
/* A name for either beside the part's own. */
void pl_sheets_name(const struct pl_session *session, enum pl_question_kind kind, char *out, size_t size);
/* Writes to the name that is typed, .pdf, or .svg for a kit's rolls; says why not. */
void pl_sheets_write(struct pl_session *session, const struct pl_question *question);

/* ---- profiles from coordinate files (profiles.c) ---- */
void pl_profile_open(struct pl_session *session, struct pl_question *question);
void pl_profile_take(struct pl_session *session, struct pl_question *question);

/* ---- the catalogue (materials.c) ---- */
void pl_materials_open(struct pl_session *session, struct pl_question *question);
size_t pl_materials_count(const struct pl_session *session, const struct pl_question *question);
void pl_materials_item(const struct pl_session *session, const struct pl_question *question, size_t item, char *out, size_t size);
void pl_materials_take(struct pl_session *session, struct pl_question *question);
void pl_materials_keep(struct pl_session *session);  /* the row in hand into the builder's own catalogue */
void pl_materials_close(struct pl_session *session);

/* ---- the cell (typing.c) ---- */
void pl_cell_enter(struct pl_session *session);
void pl_cell_key(struct pl_session *session, int key);
void pl_cell_step(struct pl_session *session, int way);

/* ---- what a cell shows and takes, of the file or derived (cells.c) ---- */
/* Looks at the part built last anew; whole: it has no error. */
void pl_gaps_look(struct pl_session *session, bool whole);
bool pl_element_is_behind(const struct pl_session *session);  /* the one shown has another ahead: gap and overlap are shown */
void pl_cell_words(const struct pl_session *session, const char *pointer, char *out, size_t size);
bool pl_cell_there(const struct pl_session *session, const char *pointer);  /* has a value, rather than one left out */
void pl_cell_more_words(const struct pl_session *session, const char *pointer, char *out, size_t size);  /* "": none */
enum pl_status pl_cell_type(struct pl_session *session, const char *pointer, const char *typed, struct pl_problems *problems);
enum pl_status pl_cell_step_value(struct pl_session *session, const char *pointer, int way, struct pl_problems *problems);

/* ---- a ply group's end in hand (hold.c) ---- */
void pl_hold_start(struct pl_session *session);
void pl_hold_key(struct pl_session *session, int key);
void pl_hold_move_to(struct pl_session *session, double y_m);  /* a click on the plan */
void pl_hold_words(const struct pl_session *session, char *out, size_t size);

/* ---- steps of undo (undo_list.c) ---- */
void pl_session_undo(struct pl_session *session, bool back);
size_t pl_edits_count(const struct pl_session *session);  /* the part as it was opened, then each step */
void pl_edits_item(const struct pl_session *session, size_t item, char *out, size_t size);
void pl_edits_go(struct pl_session *session, size_t item);

/* ---- the search for an action (find.c) ---- */
size_t pl_find_count(const struct pl_question *question);
size_t pl_find_doing(const struct pl_question *question, size_t item);  /* index in pl_doings */
void pl_find_key(struct pl_session *session, struct pl_question *question, int key);

/* ---- the row in hand (rows.c) ---- */
void pl_row_add_here(struct pl_session *session);
void pl_row_copy_here(struct pl_session *session);
void pl_row_remove_here(struct pl_session *session, bool asked);
void pl_row_move_here(struct pl_session *session, int way);
void pl_row_switch_here(struct pl_session *session);  /* strip or edges, force or energy */

/* ---- questions (questions.c) ---- */
struct pl_question *pl_ask(struct pl_session *session, enum pl_question_kind kind, const char *pointer);
static inline struct pl_question *pl_question_of(struct pl_session *s)
{
    return s->n_questions ? &s->questions[s->n_questions - 1] : NULL;
}
void pl_question_done(struct pl_session *session);
void pl_question_key(struct pl_session *session, int key);

/* Items of a question that is a list: their number, and the text of each. */
size_t pl_question_items(const struct pl_session *session, const struct pl_question *question);
void pl_question_item(const struct pl_session *session, const struct pl_question *question, size_t item, char *out, size_t size);

/* What the question is, as its box says. */
void pl_question_title(const struct pl_session *session, const struct pl_question *question, char *out, size_t size);

/* True for a name that stands in the list that the question is about. */
bool pl_question_ticked(const struct pl_session *session, const struct pl_question *question, const char *item);

/* Completes a path that is typed; the number of files it could be. */
size_t pl_path_complete(struct pl_line *line);

#endif
