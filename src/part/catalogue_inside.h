/* catalogue_inside.h - what the catalogue is checked by and begins from; private to src/part. */
#ifndef PLYLOFT_PART_CATALOGUE_INSIDE_H
#define PLYLOFT_PART_CATALOGUE_INSIDE_H

#include "plyloft/catalogue.h"

/* The rows that come with the program, as a file of own rows is written. */
extern const char pl_catalogue_typical[];

/* Whether row, one value as JSON, is right: PL_OK, PL_BAD_INPUT or PL_NO_MEMORY.  Problems have places that begin with
 * place. */
enum pl_status pl_catalogue_check_row(enum pl_catalogue_group group, const char *row, const char *place,
                                      struct pl_problems *problems);

/* Whether it is a catalogue whose lists can be gone through. */
bool pl_catalogue_check_head(const struct pl_document *doc, struct pl_problems *problems);

/* Reads the own file again, with problems already told left unsaid. */
enum pl_status pl_catalogue_reload(struct pl_catalogue *catalogue, struct pl_problems *problems);

#endif
