#include "rules.h"

#include "plyloft/field.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void pl_part_tell(const struct pl_document *doc, struct pl_problems *problems, enum pl_severity severity, const char *pointer,
                  const char *rule)
{
    char found[80] = "";
    pl_node node = pl_document_find(doc, pointer);
    enum pl_node_kind kind = node == PL_NO_NODE ? PL_NODE_NULL : pl_node_kind(doc, node);
    if (node != PL_NO_NODE && kind != PL_NODE_LIST && kind != PL_NODE_OBJECT)
        pl_node_spelling(doc, node, found, sizeof found);
    pl_problem_add(problems, severity, pointer, rule, found);
}

void pl_rule_tell(const struct rules *r, enum pl_severity severity, const char *rule, const char *pointer, ...)
{
    char text[PL_POINTER_MOST];
    va_list args;
    va_start(args, pointer);
    vsnprintf(text, sizeof text, pointer, args);
    va_end(args);
    pl_part_tell(r->doc, r->problems, severity, text, rule);
}

/* Names are unique within each list.  Lists are short but for hostile files, which the table bounds. */
static void unique_names(const struct rules *r, const struct pl_group *g, const char *rows, size_t count, const char *pointer)
{
    for (size_t i = 1; i < count; i++) {
        const char *name = *(const char *const *)(rows + i * g->stride + g->fields[0].at);
        for (size_t j = 0; name && j < i; j++) {
            const char *other = *(const char *const *)(rows + j * g->stride + g->fields[0].at);
            if (other && !strcmp(name, other)) {
                pl_rule_tell(r, PL_ERROR, "names must be unique in their list", "%s/%s/%zu/name", pointer, g->key, i);
                break;
            }
        }
    }
}

static void rule_unique_names(const struct rules *r)
{
    const struct pl_part *p = r->part;
    unique_names(r, &pl_groups[PL_GROUP_PROFILE], (const char *)p->profiles, p->n_profiles, "");
    unique_names(r, &pl_groups[PL_GROUP_FABRIC], (const char *)p->fabrics, p->n_fabrics, "");
    unique_names(r, &pl_groups[PL_GROUP_RESIN], (const char *)p->resins, p->n_resins, "");
    unique_names(r, &pl_groups[PL_GROUP_CORE], (const char *)p->cores, p->n_cores, "");
    unique_names(r, &pl_groups[PL_GROUP_ELEMENT], (const char *)p->elements, p->n_elements, "");
    unique_names(r, &pl_groups[PL_GROUP_CASE], (const char *)p->load_cases, p->n_load_cases, "");
    for (size_t i = 0; i < p->n_elements; i++) {
        char pointer[48];
        snprintf(pointer, sizeof pointer, "/elements/%zu", i);
        unique_names(r, &pl_groups[PL_GROUP_LAYUP], (const char *)p->elements[i].layup, p->elements[i].n_layup, pointer);
        unique_names(r, &pl_groups[PL_GROUP_MOUNT], (const char *)p->elements[i].mounts, p->elements[i].n_mounts, pointer);
    }
}

static void rule_format(const struct rules *r)
{
    if (r->part->format && strcmp(r->part->format, "plyloft-part"))
        pl_rule_tell(r, PL_ERROR, "must be \"plyloft-part\"", "/format");
}

static const struct rule part_rules[] = {
    {"the format is plyloft-part", rule_format, false},
    {"names are unique within each list", rule_unique_names, false},
};

static void run(const struct rules *r, const struct rule *list, size_t count, bool broken)
{
    for (size_t i = 0; i < count; i++)
        if (!broken || !list[i].whole)
            list[i].check(r);
}

void pl_part_rules(struct pl_part *part, const struct pl_document *doc, struct pl_problems *problems, bool broken)
{
    struct rules r = {part, doc, problems};
    size_t before = problems->errors;
    run(&r, part_rules, sizeof part_rules / sizeof *part_rules, broken);
    run(&r, pl_material_rules, pl_n_material_rules, broken);
    run(&r, pl_element_rules, pl_n_element_rules, broken);
    run(&r, pl_case_rules, pl_n_case_rules, broken || problems->errors > before);
}
