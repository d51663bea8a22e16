#include "lines.h"

#include "facts.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

enum { LINE_MOST = 65536 };

struct lines {
    struct pl_app *app;
    FILE *out;
    struct pl_facts said, now;
    char heard[PL_FACT_WORDS];  /* message of the key before, in the same line */
    enum pl_status status;
};

/* ---- out ---- */

static void write_out(struct lines *l, struct pl_buffer *text)
{
    if (text->failed)
        l->status = PL_NO_MEMORY;
    else if (text->length && (fwrite(text->text, 1, text->length, l->out) != text->length || fflush(l->out)))
        l->status = PL_CANNOT_WRITE;
    pl_buffer_free(text);
}

static void say_line(struct lines *l, const char *label, const char *words)
{
    struct pl_buffer text = {0};
    pl_buffer_printf(&text, "%s: %s\n", label, words);
    write_out(l, &text);
}

/* What changed, or all there is. */
static void say(struct lines *l, bool all)
{
    struct pl_buffer text = {0};
    pl_facts_clear(&l->now);
    if (l->app->session)
        pl_facts_of_session(&l->now, l->app->session);
    else
        pl_facts_of_start(&l->now, &l->app->start);
    if (all)
        pl_facts_clear(&l->said);
    pl_facts_changed(&l->now, &l->said, &text);
    text.failed = text.failed || l->now.failed;
    struct pl_facts before = l->said;
    l->said = l->now;
    l->now = before;
    write_out(l, &text);
}

/* ---- keys ---- */

static char *message_of(struct pl_app *app)
{
    return app->session ? app->session->message : app->start.message;
}

/* A message belongs to one key: it is said at once, before the next key of the line takes it away, and anew when it
 * comes again in another line; of a run of keys that all bring the same one, once. */
static void take_key(struct lines *l, int key)
{
    char words[PL_FACT_WORDS];
    struct pl_session *session = l->app->session;
    message_of(l->app)[0] = '\0';
    pl_app_key(l->app, key);
    pl_text_safe(words, sizeof words, session && !l->app->session ? l->app->parting : message_of(l->app));
    if (words[0] && strcmp(words, l->heard)) {
        say_line(l, "message", words);
        pl_facts_put(&l->said, "message", words);
    }
    strcpy(l->heard, words);
}

/* A value, a path or the name of an action: letters are letters. */
static bool is_typing(const struct pl_app *app)
{
    const struct pl_session *s = app->session;
    if (!s)
        return app->start.typing;
    if (!s->n_questions)
        return s->typing;
    enum pl_question_kind kind = s->questions[s->n_questions - 1].kind;
    return pl_asks_path(kind) || kind == PL_FIND_ACTION;
}

/* Every letter of a word is a key, and some of them edit: a word that nobody asked for is not pressed. */
static bool refuses(struct lines *l, const struct pl_keys_reader *reader)
{
    const char *word;
    char whole[64], shown[64];
    size_t length;
    if (is_typing(l->app) || !pl_keys_stray(reader, &word, &length))
        return false;
    snprintf(whole, sizeof whole, "%.*s%s", length > 40 ? 40 : (int)length, word, length > 40 ? "..." : "");
    pl_text_safe(shown, sizeof shown, whole);
    snprintf(message_of(l->app), sizeof l->app->start.message, "\"%s\" is no key; text: in front of it types it", shown);
    say_line(l, "message", message_of(l->app));
    pl_facts_put(&l->said, "message", message_of(l->app));
    return true;
}

/* False when the line holds no key. */
static bool take_keys(struct lines *l, const char *line)
{
    struct pl_keys_reader reader;
    bool any = false;
    l->heard[0] = '\0';
    pl_keys_start(&reader, line);
    while (!l->app->leave) {
        if (refuses(l, &reader))
            return true;
        int key = pl_keys_next(&reader);
        if (key == PL_KEY_NONE)
            break;
        any = true;
        take_key(l, key);
    }
    return any;
}

/* Figures complete, unsaved work safe. */
static void settle(struct pl_app *app)
{
    while (pl_app_idle(app))
        ;
    pl_app_keep(app);
}

/* ---- in ---- */

/* One line without its end; false when there is none any more.  What ends no line but is no key either is a blank. */
static bool read_line(FILE *in, struct pl_buffer *line, bool *too_long)
{
    int c;
    *too_long = false;
    pl_buffer_clear(line);
    while ((c = getc(in)) != EOF && c != '\n') {
        char byte = c == '\0' || c == '\r' ? ' ' : (char)c;
        *too_long = *too_long || line->length == LINE_MOST;
        if (!*too_long)
            pl_buffer_add(line, &byte, 1);
    }
    return c != EOF || line->length;
}

static void take_line(struct lines *l, const struct pl_buffer *line, bool too_long)
{
    if (too_long) {
        say_line(l, "message", "not taken: a line holds at most 65536 bytes");
        return;
    }
    bool any = take_keys(l, line->length ? line->text : "");
    if (l->app->leave)
        return;
    settle(l->app);
    if (l->status == PL_OK)
        say(l, !any);
}

static void say_end(struct lines *l, FILE *in)
{
    const struct pl_session *s = l->app->session;
    bool unsaved = s && pl_document_changed(s->document);
    if (l->app->leave)
        say_line(l, "end", "left");
    else if (unsaved && s->kept.file)
        say_line(l, "end", "no more input; unsaved work is kept aside, and offered when the part is opened again");
    else if (unsaved)
        say_line(l, "end", "no more input; unsaved work could not be kept aside and is lost");
    else
        say_line(l, "end", "no more input");
    if (l->status == PL_OK && ferror(in))
        l->status = PL_CANNOT_READ;
}

static void say_why(enum pl_status status, struct pl_problems *problems)
{
    if (status == PL_CANNOT_READ)
        pl_problem_add(problems, PL_ERROR, "", "standard input could not be read", NULL);
    else if (status == PL_CANNOT_WRITE)
        pl_problem_add(problems, PL_ERROR, "", "standard output could not be written", NULL);
}

/* How to go on, said once. */
static void say_keys(struct lines *l)
{
    char help[64], words[200];
    pl_keymap_words(&l->app->keys, pl_doing_of(PL_DO_HELP, 0), help, sizeof help);
    snprintf(words, sizeof words, "%s%s and Enter gives help; a line takes several keys, named as in plyloft(1)",
             l->app->session ? "" : "in a part ", help[0] ? help : "f");
    say_line(l, "keys", words);
}

enum pl_status pl_lines_run(struct pl_app *app, FILE *in, FILE *out, struct pl_problems *problems)
{
    struct lines l = {.app = app, .out = out};
    struct pl_buffer line = {0};
    bool too_long;
    settle(app);
    say_keys(&l);
    say(&l, true);
    while (l.status == PL_OK && !app->leave && read_line(in, &line, &too_long)) {
        if (line.failed)
            l.status = PL_NO_MEMORY;
        else
            take_line(&l, &line, too_long);
    }
    if (l.status == PL_OK)
        say_end(&l, in);
    say_why(l.status, problems);
    pl_buffer_free(&line);
    pl_facts_free(&l.said);
    pl_facts_free(&l.now);
    return l.status;
}
