/* cmd_plybook.c - the laying order with boxes to tick. */
#include "command.h"
#include "output.h"

#include "plyloft/kit_sheets.h"
#include "plyloft/shop_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void print_json(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_list(&w, "steps");
    for (size_t i = 0; i < pl_book_steps(shop); i++) {
        struct pl_book_step s = pl_book_step(part, shop, i);
        pl_json_object(&w, NULL);
        pl_json_number(&w, "step", (double)(i + 1));
        pl_json_text(&w, "do", s.words);
        if (s.piece) {
            pl_json_text(&w, "mark", s.piece->mark);
            pl_json_number(&w, "angle_deg", s.piece->angle_rad * 180 / M_PI);
        }
        pl_json_close(&w);
    }
    pl_json_close(&w);
    pl_json_list(&w, "cautions");
    for (const char *const *c = pl_shop_cautions(); *c; c++)
        pl_json_text(&w, NULL, *c);
    pl_json_end(&w);
}

static void print_csv(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    pl_csv_text(out, "step", false);
    pl_csv_text(out, "mark", false);
    pl_csv_text(out, "do", false);
    pl_csv_text(out, "done", true);
    for (size_t i = 0; i < pl_book_steps(shop); i++) {
        struct pl_book_step s = pl_book_step(part, shop, i);
        pl_csv_number(out, (double)(i + 1), 0);
        pl_csv_text(out, s.piece ? s.piece->mark : "", false);
        pl_csv_text(out, s.words, false);
        pl_csv_text(out, "", true);
    }
}

static void print_text(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    pl_buffer_printf(out, "%s%s%s, ply book\n\n", part->name, part->revision ? ", " : "", part->revision ? part->revision : "");
    for (size_t i = 0; i < pl_book_steps(shop); i++) {
        struct pl_book_step s = pl_book_step(part, shop, i);
        pl_buffer_printf(out, "[ ] %3zu  %s\n", i + 1, s.words);
    }
    pl_buffer_text(out, "\n");
    for (const char *const *c = pl_shop_cautions(); *c; c++)
        pl_buffer_printf(out, "caution: %s\n", *c);
}

static void write_out(const struct pl_part *part, const struct pl_shop *shop, enum pl_output kind, struct pl_buffer *out, enum pl_status *status)
{
    switch (kind) {
    case PL_OUTPUT_JSON: print_json(part, shop, out); break;
    case PL_OUTPUT_CSV: print_csv(part, shop, out); break;
    case PL_OUTPUT_PDF: *status = pl_book_pdf(part, shop, out); break;
    default: print_text(part, shop, out); break;
    }
}

int pl_command_plybook(int argc, char **argv)
{
    return pl_shop_command(argc, argv, false, write_out);
}
