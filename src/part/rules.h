/* rules.h - the rules over several fields, one table.  Private to the part room. */
#ifndef PLYLOFT_RULES_H
#define PLYLOFT_RULES_H

#include "build.h"

struct rules {
    struct pl_part *part;
    const struct pl_document *doc;
    struct pl_problems *problems;
};

/* Says what is wrong at a pointer made printf-wise; the value there is found in the document. */
void pl_rule_tell(const struct rules *r, enum pl_severity severity, const char *rule, const char *pointer, ...)
    __attribute__((format(printf, 4, 5)));

struct rule {
    const char *name;                      /* what must be so, for the reference page and the tests */
    void (*check)(const struct rules *r);
    bool whole;                            /* only when every field could be read */
};

extern const struct rule pl_element_rules[], pl_case_rules[], pl_material_rules[];
extern const size_t pl_n_element_rules, pl_n_case_rules, pl_n_material_rules;

#endif
