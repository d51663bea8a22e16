#include "plyloft/problems.h"

#include "plyloft/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void pl_problems_clear(struct pl_problems *p)
{
    p->count = p->errors = p->dropped = 0;
}

void pl_problems_free(struct pl_problems *p)
{
    free(p->list);
    *p = (struct pl_problems){0};
}

static struct pl_problem *next_free(struct pl_problems *p)
{
    if (p->count >= PL_PROBLEMS_MOST)
        return NULL;
    if (p->count == p->capacity) {
        size_t capacity = p->capacity ? 2 * p->capacity : 8;
        struct pl_problem *list = realloc(p->list, capacity * sizeof *list);
        if (!list)
            return NULL;
        p->list = list;
        p->capacity = capacity;
    }
    return &p->list[p->count++];
}

void pl_problem_add(struct pl_problems *p, enum pl_severity severity, const char *place, const char *rule,
                    const char *found)
{
    if (severity == PL_ERROR)
        p->errors++;
    struct pl_problem *problem = next_free(p);
    if (!problem) {
        p->dropped++;
        return;
    }
    problem->severity = severity;
    pl_text_safe(problem->place, sizeof problem->place, place ? place : "");
    pl_text_safe(problem->rule, sizeof problem->rule, rule);
    pl_text_safe(problem->found, sizeof problem->found, found ? found : "");
}

void pl_problem_addf(struct pl_problems *p, enum pl_severity severity, const char *place, const char *rule, ...)
{
    char text[512];
    va_list args;
    va_start(args, rule);
    vsnprintf(text, sizeof text, rule, args);
    va_end(args);
    pl_problem_add(p, severity, place, text, NULL);
}

const struct pl_problem *pl_problems_first_error(const struct pl_problems *p)
{
    for (size_t i = 0; i < p->count; i++)
        if (p->list[i].severity == PL_ERROR)
            return &p->list[i];
    return NULL;
}

void pl_problem_sentence(const struct pl_problem *problem, const char *file, char *out, size_t size)
{
    snprintf(out, size, "%s%s%s%s%s%s%s%s", file ? file : "", file ? ": " : "", problem->place,
             problem->place[0] ? ": " : "", problem->rule, problem->found[0] ? " (found " : "", problem->found,
             problem->found[0] ? ")" : "");
}
