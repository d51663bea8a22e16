/* part_objects.c - what a part as a whole may have and may do without: the car. */
#include "plyloft/part_rows.h"

#include "part_rows_inside.h"

#include "plyloft/field.h"

#include <stdio.h>

/* Values that must be there, to begin with. */
static const struct { enum pl_group_id group; const char *key; double value; } firsts[] = {
    {PL_GROUP_CAR, "wheelbase_mm", 2400},
    {PL_GROUP_CAR, "front_axle_x_mm", 700},
};

static bool may_go(enum pl_group_id group)
{
    return group < PL_GROUPS && pl_groups[group].optional && pl_groups[group].parent == PL_GROUP_PART && !pl_groups[group].list;
}

enum pl_status pl_object_add(struct pl_document *doc, enum pl_group_id group, struct pl_problems *problems)
{
    struct pl_row_edit e;
    if (!may_go(group))
        return pl_row_refuse(problems, "", "has no such object", NULL);
    const char *key = pl_groups[group].key;
    if (pl_row_has(doc, "/%s", key))
        return pl_row_refuse(problems, "", "has one already", pl_groups[group].noun);
    pl_row_begin(&e, doc, problems, NULL, "add: %s", pl_groups[group].noun);
    pl_row_set(&e, "{}", "/%s", key);
    for (size_t i = 0; i < sizeof firsts / sizeof *firsts; i++)
        if (firsts[i].group == group)
            pl_row_set_number(&e, firsts[i].value, "/%s/%s", key, firsts[i].key);
    return pl_row_end(&e);
}

enum pl_status pl_object_remove(struct pl_document *doc, enum pl_group_id group, struct pl_problems *problems)
{
    struct pl_row_edit e;
    if (!may_go(group) || !pl_row_has(doc, "/%s", pl_groups[group].key))
        return pl_row_refuse(problems, "", "has none such", group < PL_GROUPS ? pl_groups[group].noun : NULL);
    pl_row_begin(&e, doc, problems, NULL, "remove: %s", pl_groups[group].noun);
    pl_row_unset(&e, "/%s", pl_groups[group].key);
    return pl_row_end(&e);
}
