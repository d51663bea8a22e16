/* build.h - between reading fields and the rules over them.  Private to the part room. */
#ifndef PLYLOFT_BUILD_H
#define PLYLOFT_BUILD_H

#include "plyloft/buffer.h"
#include "plyloft/document.h"
#include "plyloft/part.h"
#include "plyloft/text.h"

enum { PL_POINTER_MOST = 512 };

/* Adds a problem at a pointer, with what the document has there as the value found. */
void pl_part_tell(const struct pl_document *doc, struct pl_problems *problems, enum pl_severity severity, const char *pointer,
                  const char *rule);

/* The second table: rules over several fields.  broken: some field could not be read, so that only rules whose
 * fields are whole may speak. */
void pl_part_rules(struct pl_part *part, const struct pl_document *doc, struct pl_problems *problems, bool broken);

#endif
