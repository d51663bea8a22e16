/* problems.h - what went wrong, for the program and for the person.
 *
 * Anything that can fail returns a status.  What a person must know goes into a
 * list owned by the caller: a place (a JSON Pointer, RFC 6901, or a line and
 * column), the rule broken and the value found.  A list is never shared between
 * two files or two threads.  Adding never fails: when memory runs out, or the list
 * is full, problems are counted in `dropped` and the status still says error.
 */
#ifndef PLYLOFT_PROBLEMS_H
#define PLYLOFT_PROBLEMS_H

#include <stdbool.h>
#include <stddef.h>

enum pl_status {
    PL_OK = 0,
    PL_BAD_INPUT,     /* the part, a name or a place asked for; problems says why */
    PL_NO_MEMORY,
    PL_CANNOT_READ,
    PL_CANNOT_WRITE,
    PL_NOT_CONVERGED  /* a computation gave no usable answer */
};

enum pl_severity { PL_WARNING, PL_ERROR };

enum { PL_PROBLEMS_MOST = 500 };

struct pl_problem {
    enum pl_severity severity;
    char place[192];  /* "/elements/0/stations/1/chord_mm", "line 3, column 7", or "" for the file */
    char rule[256];   /* "must be above 0" */
    char found[80];   /* "-20", as spelled in the file and safe to print; "" when there is none */
};

struct pl_problems {
    struct pl_problem *list;
    size_t count, capacity;
    size_t errors;    /* among all ever added, dropped ones too */
    size_t dropped;
};

/* An empty list is all zeros: struct pl_problems p = {0}. */
void pl_problems_clear(struct pl_problems *p);  /* keeps the memory */
void pl_problems_free(struct pl_problems *p);

/* place, rule and found are copied (cut to the sizes above, at a character's
 * border); found may be NULL.  Text that came from a file is made safe here. */
void pl_problem_add(struct pl_problems *p, enum pl_severity severity, const char *place, const char *rule,
                    const char *found);

/* The same with a printf rule and no value found. */
void pl_problem_addf(struct pl_problems *p, enum pl_severity severity, const char *place, const char *rule, ...)
    __attribute__((format(printf, 4, 5)));

/* First error of the list, or NULL. */
const struct pl_problem *pl_problems_first_error(const struct pl_problems *p);

/* "front-wing.json: /elements/0/stations/1/chord_mm: must be above 0 (found -20)".
 * file may be NULL. */
void pl_problem_sentence(const struct pl_problem *problem, const char *file, char *out, size_t size);

#endif
