/* sheets.c - the kit and the ply book written to files from the bench. */
#include "session.h"

#include "plyloft/kit_sheets.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static bool ends_in(const char *path, const char *ending)
{
    size_t n = strlen(path), k = strlen(ending);
    return n > k && !strcmp(path + n - k, ending);
}

void pl_sheets_name(const struct pl_session *s, enum pl_question_kind kind, char *out, size_t size)
{
    const char *path = strcmp(s->path, "-") ? s->path : "wing";
    size_t n = strlen(path) - (ends_in(path, ".json") ? strlen(".json") : 0);
    snprintf(out, size, "%.*s-%s.pdf", (int)n, path, kind == PL_ASK_KIT ? "kit" : "plies");
}

static enum pl_status draw(const struct pl_session *s, const struct pl_shop *shop, const struct pl_question *q, struct pl_buffer *out)
{
    const struct pl_part *part = pl_session_part(s);
    if (q->kind == PL_ASK_BOOK)
        return pl_book_pdf(part, shop, out);
    return ends_in(q->line.text, ".svg") ? pl_kit_svg(part, shop, out) : pl_kit_pdf(part, shop, out);
}

/* What stands in the way before any work is done; NULL: nothing. */
static const char *why_not(const struct pl_session *s, const struct pl_question *q)
{
    const char *path = q->line.text;
    if (!s->valid || !pl_session_verdict(s))
        return "the part cannot be judged: there is nothing to write";
    if (ends_in(path, ".pdf") || (q->kind == PL_ASK_KIT && ends_in(path, ".svg")))
        return NULL;
    return q->kind == PL_ASK_KIT ? "the name must end in .pdf or .svg" : "the name must end in .pdf";
}

void pl_sheets_write(struct pl_session *s, const struct pl_question *q)
{
    struct pl_problems problems = {0};
    struct pl_shop shop = {0};
    struct pl_buffer out = {0};
    char path[sizeof q->line.text];
    const char *why = why_not(s, q);
    if (why) {
        pl_session_say(s, why, NULL);
        return;
    }
    snprintf(path, sizeof path, "%s", q->line.text);
    enum pl_status status = pl_shop_build(&shop, pl_session_part(s), pl_session_verdict(s)->mass_kg, &problems);
    if (status == PL_OK)
        status = draw(s, &shop, q, &out);
    if (status == PL_OK)
        status = out.failed ? PL_NO_MEMORY : pl_file_save(path, out.text, out.length, &problems);
    if (status == PL_OK) {
        pl_question_done(s);
        pl_session_say(s, "written", path);
    } else if (problems.count) {
        pl_session_say_problem(s, "not written", &problems);
    } else {
        pl_session_say(s, "not written: not enough memory", NULL);
    }
    pl_buffer_free(&out);
    pl_shop_free(&shop);
    pl_problems_free(&problems);
}
