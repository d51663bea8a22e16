/* keys.h - names of keys, as typed on a terminal and as written in --keys.
 *
 * A key is a Unicode code point, or one of the codes below.  Part of the screen.
 */
#ifndef PLYLOFT_KEYS_H
#define PLYLOFT_KEYS_H

#include <stdbool.h>
#include <stddef.h>

enum pl_key {
    PL_KEY_NONE = 0,
    PL_KEY_UP = 0x110001, PL_KEY_DOWN, PL_KEY_LEFT, PL_KEY_RIGHT, PL_KEY_PAGE_UP, PL_KEY_PAGE_DOWN, PL_KEY_HOME,
    PL_KEY_END, PL_KEY_TAB, PL_KEY_BACKTAB, PL_KEY_ENTER, PL_KEY_ESCAPE, PL_KEY_BACKSPACE, PL_KEY_DELETE,
    PL_KEY_CTRL_A, /* Ctrl-A to Ctrl-Z are PL_KEY_CTRL_A + 0 ... + 25 */
    PL_KEY_CTRL_Z = PL_KEY_CTRL_A + 25,
};

/* A terminal cannot tell Ctrl-H, I, J and M from Backspace, Tab and Enter, so these never occur. */
#define PL_KEY_CTRL(letter) (PL_KEY_CTRL_A + ((letter) - 'A'))

/* The key that a control byte (below 32, or 127) of a terminal means; PL_KEY_NONE for those of no use here. */
int pl_key_of_byte(int byte);

/* Walks a --keys text.  Words stand between spaces: a key's name ("Up", "Enter", "Space", "Ctrl-S"), as written
 * here, or a single character is that key; any other word is typed letter by letter; "text:WORD" types WORD even
 * if it names a key.  Characters that must not reach a terminal (text.h) are skipped. */
struct pl_keys_reader {
    const char *at;       /* what comes next; keys must stay valid while it is read */
    const char *word_end; /* of the word being typed letter by letter, else NULL */
};

void pl_keys_start(struct pl_keys_reader *r, const char *keys);
int pl_keys_next(struct pl_keys_reader *r);  /* PL_KEY_NONE at the end */

/* True when what comes next is a word of two or more characters, a letter or figure among them, that names no key and
 * has no "text:" before it: where nothing is typed, a slip.  *word is then its first byte. */
bool pl_keys_stray(const struct pl_keys_reader *r, const char **word, size_t *length);

/* "Up", "Space", "Ctrl-S", "a"; "" for PL_KEY_NONE and for no key at all. */
void pl_key_name(int key, char *out, size_t size);

#endif
