/* output.h - commands of the shop: a kit worked out, and put out as text, JSON, CSV, PDF or SVG.  Private to the command room. */
#ifndef PLYLOFT_OUTPUT_H
#define PLYLOFT_OUTPUT_H

#include "plyloft/buffer.h"
#include "plyloft/part.h"
#include "plyloft/shop.h"

enum pl_output { PL_OUTPUT_TEXT, PL_OUTPUT_JSON, PL_OUTPUT_CSV, PL_OUTPUT_PDF, PL_OUTPUT_SVG };

typedef void pl_shop_writer(const struct pl_part *part, const struct pl_shop *shop, enum pl_output kind, struct pl_buffer *out, enum pl_status *status);

/* PART [--json|--csv] [-o FILE], FILE's ending choosing among .txt, .json, .csv, .pdf and, with svg, .svg; an exit status. */
int pl_shop_command(int argc, char **argv, bool svg, pl_shop_writer *write);

/* A cell of a table, cut or filled to a width; the last of a line ends it. */
void pl_print_cell(struct pl_buffer *out, const char *text, int width, bool more);
/* "-" for NAN. */
void pl_print_number(struct pl_buffer *out, double value, int width, int decimals);

/* Fields of a CSV line by RFC 4180; the last of a line ends it. */
void pl_csv_text(struct pl_buffer *out, const char *text, bool last);
void pl_csv_number(struct pl_buffer *out, double value, int decimals);  /* never the last */

#endif
