/* shop_job.c - the kit for the page Shop, worked out between keys and kept as text, so that an old one can be shown while
 * the part has moved on. */
#include "shop_job.h"

#include "session.h"

#include "plyloft/shop.h"
#include "plyloft/shop_words.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct pl_shop_job {
    struct pl_shop shop;
    struct pl_arena arena;
    struct pl_shop_page page;
    unsigned long revision;
    bool there;
};

struct pl_shop_job *pl_shop_job_new(void)
{
    return calloc(1, sizeof(struct pl_shop_job));
}

void pl_shop_job_free(struct pl_shop_job *j)
{
    if (!j)
        return;
    pl_shop_free(&j->shop);
    pl_arena_free(&j->arena);
    free(j);
}

/* ---- into text ---- */

static void put_line(struct pl_shop_job *j, enum pl_shop_line_kind kind, const char *format, ...) __attribute__((format(printf, 3, 4)));

static void put_line(struct pl_shop_job *j, enum pl_shop_line_kind kind, const char *format, ...)
{
    struct pl_shop_page *page = &j->page;
    va_list arguments;
    if (page->n_lines == PL_SHOP_LINES)
        return;
    struct pl_shop_line *line = &page->lines[page->n_lines++];
    line->kind = kind;
    va_start(arguments, format);
    vsnprintf(line->text, sizeof line->text, format, arguments);
    va_end(arguments);
}

static void put_resin(struct pl_shop_job *j, const struct pl_part *part, const struct pl_resin_plan *p)
{
    char words[256], what[256];
    const struct pl_resin *r = &part->resins[p->resin];
    put_line(j, PL_SHOP_HEADING, "%s, %.0f min in the pot at %g C", r->name, p->pot_life_min, part->shed.temperature_c);
    pl_measure_batch_words(r, p->mixed_kg, words, sizeof words);
    put_line(j, PL_SHOP_TEXT, "all %s", words);
    for (size_t i = 0; i < p->n_batches; i++) {
        pl_measure_batch_words(r, p->batches[i].mixed_kg, words, sizeof words);
        pl_batch_words(part, &j->shop.kit, &p->batches[i], what, sizeof what);
        put_line(j, PL_SHOP_TEXT, "cup %zu  %s, %.0f min", i + 1, words, p->batches[i].minutes);
        put_line(j, PL_SHOP_QUIET, "       %s", what);
    }
    pl_measure_batch_words(r, p->spare_kg, words, sizeof words);
    put_line(j, PL_SHOP_TEXT, "spare  %s, left unmixed", words);
}

static void put_lines(struct pl_shop_job *j, const struct pl_part *part)
{
    char line[256];
    for (size_t i = 0; i < j->shop.resin.n_plans; i++)
        put_resin(j, part, &j->shop.resin.plans[i]);
    put_line(j, PL_SHOP_HEADING, "mass");
    for (size_t i = 0; pl_race_line(&j->shop.resin, i, NULL, line, sizeof line); i++)
        put_line(j, PL_SHOP_TEXT, "%s", line);
    put_line(j, PL_SHOP_HEADING, "weigh before starting");
    for (size_t i = 0; pl_weigh_line(part, &j->shop.kit, &j->shop.resin, i, line, sizeof line); i++)
        put_line(j, PL_SHOP_TEXT, "%s", line);
    put_line(j, PL_SHOP_HEADING, "mind");
    for (size_t i = 0; pl_shop_warning(&j->shop, i); i++)
        put_line(j, PL_SHOP_WARNING, "%s", pl_shop_warning(&j->shop, i));
    for (const char *const *c = pl_shop_cautions(); *c; c++)
        put_line(j, PL_SHOP_TEXT, "%s", *c);
}

static bool put_roll(struct pl_shop_job *j, const struct pl_part *part, size_t index)
{
    const struct pl_kit_cloth *c = &j->shop.kit.cloths[index];
    const struct pl_fabric *f = &part->fabrics[c->fabric];
    struct pl_shop_roll *roll = &j->page.rolls[index];
    roll->pieces = pl_arena_take(&j->arena, c->nest.count, sizeof *roll->pieces);
    if (!roll->pieces)
        return false;
    roll->length_m = c->nest.length_m;
    roll->width_m = f->roll_width_m;
    pl_text_safe(roll->name, sizeof roll->name, f->name);
    snprintf(roll->words, sizeof roll->words, "%.2f m of %.0f mm, %.0f %% used, %.2f m2 left over, %.0f g dry", c->nest.length_m, 1e3 * f->roll_width_m,
             100 * c->nest.used, c->nest.length_m * f->roll_width_m * (1 - c->nest.used), 1e3 * c->dry_kg);
    if (pl_given(c->price))
        snprintf(roll->words + strlen(roll->words), sizeof roll->words - strlen(roll->words), ", price %.2f", c->price);
    for (size_t i = 0; i < c->nest.count; i++) {
        const struct pl_kit_piece *p = &j->shop.kit.pieces[c->pieces[i]];
        struct pl_nest_piece flat = {p->cut_length_m, p->cut_width_m, p->thread_rad, p->balanced};
        struct pl_shop_piece *out = &roll->pieces[roll->n_pieces];
        if (!c->nest.places[i].fits)
            continue;
        pl_nest_corners(&flat, &c->nest.places[i], out->x_m, out->y_m);
        snprintf(out->mark, sizeof out->mark, "%s", p->mark);
        roll->n_pieces++;
    }
    return true;
}

static bool fill_page(struct pl_shop_job *j, const struct pl_part *part)
{
    const struct pl_kit *kit = &j->shop.kit;
    pl_arena_reset(&j->arena);
    j->page = (struct pl_shop_page){.n_pieces = kit->n_pieces, .n_rolls = kit->n_cloths};
    j->page.pieces = pl_arena_take(&j->arena, kit->n_pieces, sizeof *j->page.pieces);
    j->page.rolls = pl_arena_take(&j->arena, kit->n_cloths, sizeof *j->page.rolls);
    j->page.lines = pl_arena_take(&j->arena, PL_SHOP_LINES, sizeof *j->page.lines);
    bool good = j->page.pieces && j->page.rolls && j->page.lines;
    for (size_t i = 0; good && i < kit->n_pieces; i++)
        pl_kit_cells(part, &kit->pieces[i], &j->page.pieces[i]);
    for (size_t i = 0; good && i < kit->n_cloths; i++)
        good = put_roll(j, part, i);
    if (good)
        put_lines(j, part);
    else
        j->page = (struct pl_shop_page){0};
    return good;
}

/* ---- when ---- */

bool pl_shop_job_step(struct pl_session *s)
{
    struct pl_shop_job *j = s->shop;
    struct pl_problems problems = {0};
    unsigned long revision = pl_document_revision(s->document);
    const struct pl_verdict *v = pl_session_verdict(s);
    if (s->page != PL_PAGE_SHOP || !s->valid || !v || (j->there && j->revision == revision))
        return false;
    enum pl_status status = pl_shop_build(&j->shop, pl_session_part(s), v->mass_kg, &problems);
    const struct pl_problem *p = pl_problems_first_error(&problems);
    if (status == PL_OK && !fill_page(j, pl_session_part(s)))
        status = PL_NO_MEMORY;
    if (status != PL_OK)
        j->page = (struct pl_shop_page){0};
    snprintf(j->page.failed, sizeof j->page.failed, "%s", status == PL_OK ? "" : p ? p->rule : "not enough memory");
    pl_problems_free(&problems);
    j->there = true;
    j->revision = revision;
    return true;
}

const struct pl_shop_page *pl_shop_page(const struct pl_session *s)
{
    return s->shop->there ? &s->shop->page : NULL;
}

bool pl_shop_is_old(const struct pl_session *s)
{
    return !s->valid || s->shop->revision != pl_document_revision(s->document);
}
