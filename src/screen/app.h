/* app.h - the list of parts, or a part on the bench: one program, one loop.
 *
 * The same for a terminal (bench.h), for `plyloft screen`, and for tests.
 */
#ifndef PLYLOFT_APP_H
#define PLYLOFT_APP_H

#include "session.h"
#include "start.h"

struct pl_app {
    struct pl_start start;
    struct pl_session *session;  /* NULL: the list */
    const char *samples;
    bool ask;                    /* questions about unsaved work, and a list of recent parts kept: on a terminal */
    char parting[512];           /* the message of a part as it was left, "saved" for one */
    struct pl_keymap keys;
    char keys_wrong[480];        /* the first thing wrong in the file of keys, "" when nothing is */
    bool mouse;                  /* clicks are asked for */
    bool leave;
};

/* Opens path, or the list with NULL. */
enum pl_status pl_app_open(struct pl_app *app, const char *path, struct pl_problems *problems);
void pl_app_close(struct pl_app *app);

void pl_app_key(struct pl_app *app, int key);
void pl_app_click(struct pl_app *app, const struct pl_frame *f, int row, int column);
void pl_app_view(struct pl_app *app, struct pl_frame *f);

/* One slice of work that can wait; false when there is none. */
bool pl_app_idle(struct pl_app *app);
/* The terminal is quiet, or goes: unsaved work is kept aside. */
void pl_app_keep(struct pl_app *app);

#endif
