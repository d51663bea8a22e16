/* compare.h - states of a part kept side by side, and what makes files differ.
 *
 * A state is what is worth remembering of a part at one moment: its bytes, so that it can be brought back, and the
 * figures of its verdict.  It points into nothing else and outlives document, part and solve.  Differences are found
 * between documents, whatever they hold; words for them come from the table of fields.  No figure is worked out here.
 */
#ifndef PLYLOFT_COMPARE_H
#define PLYLOFT_COMPARE_H

#include "plyloft/arena.h"
#include "plyloft/check.h"
#include "plyloft/document.h"

/* ---- states ---- */

struct pl_state_case {
    const char *name, *element;
    struct pl_lowest least;  /* of every solution; its item is the state's own */
    double tip_most_m;       /* as in the verdict, with its sign */
    double tip_limit_m;      /* NAN: none */
    bool holds;
};

/* A cloth that some ply group is cut from. */
struct pl_state_cloth {
    const char *name;
    double area_m2, mass_kg;  /* as laid; with its resin */
    size_t plies;             /* of all ply groups together, a mirrored pair counting once */
};

struct pl_state {
    const char *name;   /* safe to print */
    const char *bytes;  /* the document's, a NUL behind them */
    size_t length;
    bool judged;        /* false: the part could not be, and what follows is empty */
    double mass_kg;
    bool holds, mass_holds;
    size_t lowest_case;  /* whose least is the lowest of all; PL_NONE without load cases */
    struct pl_state_case *cases;
    struct pl_state_cloth *cloths;  /* in the order of the part's fabrics */
    size_t n_cases, n_cloths;
    struct pl_arena arena;  /* owns all of the above */
};

/* Copies all it keeps.  verdict is that of part, which was built from the bytes; NULL when the part cannot be judged,
 * and part is then not read.  PL_NO_MEMORY leaves *out empty, as all zeros. */
enum pl_status pl_state_take(struct pl_state *out, const char *name, const char *bytes, size_t length,
                             const struct pl_part *part, const struct pl_verdict *verdict);
void pl_state_free(struct pl_state *state);  /* leaves it empty; an empty one is fine */

/* The lowest reserve of all, and where; NULL when not judged or without load cases. */
const struct pl_lowest *pl_state_lowest(const struct pl_state *state);

/* ---- differences ---- */

enum { PL_DIFFERENCES_MOST = 500 };

struct pl_difference {
    const char *pointer;        /* JSON Pointer in the first document that has the value, safe to print */
    size_t document;            /* which one that is */
    bool order;                 /* the same rows in another order: the values are their names */
    const char *const *values;  /* one a document: as spelled, texts without quotes, safe to print; "-": it has none */
};

struct pl_differences {
    struct pl_difference *list;
    size_t count;
    size_t left_out;        /* behind the first PL_DIFFERENCES_MOST */
    struct pl_arena arena;  /* owns the list and all texts */
};

/* Values that are not the same in all of n documents (two to five on a screen; any number is taken): in the order of
 * the first those that it has, then, by the same order of places, those that only later ones have.
 *
 * Numbers are the same by value, whatever their spelling; texts by what they say.  Objects are matched by key, lists by
 * index; but where in every document all rows of a list have a text `name`, unique there, rows are matched by that, so
 * that an added one does not shift all that follow.  A row that one document lacks differs in each of its values; one
 * renamed is two such rows.  Rows that stand in another order make one difference of that list, since cloth is laid in
 * the order of its list; rows that only some have do not count for it.  An empty list or object is a value, and so is
 * a list or object where another document has something else.
 *
 * PL_NO_MEMORY leaves *out empty, as all zeros. */
enum pl_status pl_differences_find(struct pl_differences *out, struct pl_document *const documents[], size_t n);
void pl_differences_free(struct pl_differences *differences);  /* leaves it empty; an empty one is fine */

/* The place in words: "top cap, plies", "station 2 of main, chord", "main, order of ply groups"; without memory the
 * pointer.  documents are those it was found in, unchanged since. */
void pl_difference_words(const struct pl_difference *difference, struct pl_document *const documents[], char *out,
                         size_t size);

#endif
