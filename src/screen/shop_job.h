/* shop_job.h - what the page Shop shows: the kit in words and outlines. */
#ifndef PLYLOFT_SHOP_JOB_H
#define PLYLOFT_SHOP_JOB_H

#include "plyloft/shop_words.h"

struct pl_session;
struct pl_shop_job;

struct pl_shop_piece { char mark[16]; double x_m[4], y_m[4]; };

struct pl_shop_roll {
    char name[96], words[160];
    double length_m, width_m;
    struct pl_shop_piece *pieces;  /* those that fit */
    size_t n_pieces;
};

enum pl_shop_line_kind { PL_SHOP_TEXT, PL_SHOP_HEADING, PL_SHOP_QUIET, PL_SHOP_WARNING };
struct pl_shop_line { enum pl_shop_line_kind kind; char text[256]; };
enum { PL_SHOP_LINES = 400 };

struct pl_shop_page {
    char failed[256];              /* why there is none; "" else */
    struct pl_kit_cells *pieces;   /* in laying order */
    size_t n_pieces;
    struct pl_shop_roll *rolls;
    size_t n_rolls;
    struct pl_shop_line *lines;    /* resin, mass, what to mind */
    size_t n_lines;
};

struct pl_shop_job *pl_shop_job_new(void);  /* NULL without memory */
void pl_shop_job_free(struct pl_shop_job *job);

/* Works it out when the page is shown and the part has changed; false when there is nothing to do. */
bool pl_shop_job_step(struct pl_session *session);

const struct pl_shop_page *pl_shop_page(const struct pl_session *session);  /* NULL: not yet */
bool pl_shop_is_old(const struct pl_session *session);

#endif
