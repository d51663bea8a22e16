/* field.h - the one table of fields.
 *
 * Everything a part file can say stands here once: its key, label, unit, place in struct
 * pl_part, what is refused and what is warned about, how far a step goes, and one sentence
 * of help.  Reading, validation, messages, the forms on screen and the reference page of
 * the manual all come from this table.  Adding a quantity is one new row in fields.c.
 */
#ifndef PLYLOFT_FIELD_H
#define PLYLOFT_FIELD_H

#include "plyloft/document.h"
#include "plyloft/part.h"
#include "plyloft/units.h"

enum pl_field_kind {
    PL_FIELD_NUMBER,     /* double, x unit factor                          */
    PL_FIELD_WHOLE,      /* int                                            */
    PL_FIELD_TEXT,       /* const char *                                   */
    PL_FIELD_FLAG,       /* bool                                           */
    PL_FIELD_CHOICE,     /* int, index into choices                        */
    PL_FIELD_REFERENCE,  /* size_t, index into the list of group refers_to */
    PL_FIELD_REFERENCES, /* size_t * and its count: a list of names        */
    PL_FIELD_PAIR,       /* double[2]                                      */
    PL_FIELD_POINTS,     /* struct pl_point * and its count                */
    PL_FIELD_MAP         /* struct pl_tip_limit * and its count, by name   */
};

enum pl_group_id {
    PL_GROUP_PART, PL_GROUP_PROFILE, PL_GROUP_FABRIC, PL_GROUP_RESIN, PL_GROUP_CORE, PL_GROUP_ELEMENT,
    PL_GROUP_STATION, PL_GROUP_LAYUP, PL_GROUP_MOUNT, PL_GROUP_END_PLATES, PL_GROUP_CASE, PL_GROUP_PAD,
    PL_GROUP_ALLOWABLES, PL_GROUP_LIMITS, PL_GROUP_CAR, PL_GROUP_SHED, PL_GROUPS
};

struct pl_field {
    const char *key, *label;
    enum pl_field_kind kind;
    enum pl_unit unit;
    size_t at, count_at;       /* offsets in the group's struct; count_at for lists */
    double least, most;        /* refused outside, in file units */
    bool above;                /* least itself is refused too */
    bool below;                /* and most */
    double usual[2];           /* warned outside, in file units; both 0: no typical range */
    double step;               /* of the + and - keys, in file units */
    bool optional;             /* may be left out, the value then being: */
    double left_out;           /* in file units (NAN for numbers that then are not given) */
    const char *const *choices;
    size_t n_choices;
    enum pl_group_id refers_to;
    bool (*when)(const void *row);  /* NULL: always there; row is the group's struct with its choices read */
    bool derived;                   /* in no file: worked out from other fields, and edited through them (gap_edit.h) */
    const char *help;               /* one sentence with a typical value */
};

struct pl_group {
    const char *key;       /* in the parent, "stations" */
    const char *noun;      /* "station" */
    enum pl_group_id parent;
    bool list;             /* a list of objects, or one object */
    bool optional;         /* may be left out */
    size_t at, count_at;   /* in the parent's struct: the list's pointer and count, or the struct itself */
    size_t given_at;       /* for an optional object: a bool in the parent's struct, or PL_NONE */
    size_t stride;
    size_t least, most;    /* rows of a list */
    bool (*when)(const void *parent_row);
    const struct pl_field *fields;
    size_t n_fields;
    const struct pl_field *derived;  /* shown and edited beside them; reading and writing know nothing of these */
    size_t n_derived;
};

extern const struct pl_group pl_groups[PL_GROUPS];

/* The group whose rows stand at pointer ("/elements/0/stations/1" is a station) and the field
 * at pointer ("/elements/0/stations/1/chord_mm"); NULL when the table has none. */
const struct pl_field *pl_field_at(const char *pointer, enum pl_group_id *group);

/* How much of a pointer names a row ("/elements/0/layup/2" of "/elements/0/layup/2/plies"), in bytes; 0 for what is the
 * part's own.  *group is the row's. */
size_t pl_field_row(const char *pointer, enum pl_group_id *group);

/* The field of a group with a key, a derived one too; NULL when it has none. */
const struct pl_field *pl_field_named(enum pl_group_id group, const char *key);

/* "must be above 0", "must be from 0 to 1": the hard range in words. */
void pl_field_range_words(const struct pl_field *field, char *out, size_t size);

/* The row's struct in a built part for a pointer to a row or to a field of it ("/elements/0/layup/2",
 * "/elements/0/layup/2/plies"); NULL when there is none. */
const void *pl_part_row(const struct pl_part *part, const char *pointer, enum pl_group_id *group);

#endif
