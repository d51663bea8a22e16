#include "plyloft/keys.h"

#include "plyloft/text.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    int key;
} names[] = {
    {"Up", PL_KEY_UP},           {"Down", PL_KEY_DOWN},           {"Left", PL_KEY_LEFT},     {"Right", PL_KEY_RIGHT},
    {"PageUp", PL_KEY_PAGE_UP},  {"PageDown", PL_KEY_PAGE_DOWN},  {"Home", PL_KEY_HOME},     {"End", PL_KEY_END},
    {"Tab", PL_KEY_TAB},         {"BackTab", PL_KEY_BACKTAB},     {"Enter", PL_KEY_ENTER},   {"Escape", PL_KEY_ESCAPE},
    {"Backspace", PL_KEY_BACKSPACE}, {"Delete", PL_KEY_DELETE},   {"Space", ' '},
};

enum { NAMES = sizeof names / sizeof names[0] };

int pl_key_of_byte(int byte)
{
    switch (byte) {
    case 8:
    case 127:
        return PL_KEY_BACKSPACE;
    case 9:
        return PL_KEY_TAB;
    case 10:
    case 13:
        return PL_KEY_ENTER;
    case 27:
        return PL_KEY_ESCAPE;
    default:
        return byte >= 1 && byte <= 26 ? PL_KEY_CTRL_A + byte - 1 : PL_KEY_NONE;
    }
}

/* ---- the text of --keys ---- */

static bool separates(char c)
{
    return c == ' ' || c == '\t' || c == '\n';
}

static const char *end_of_word(const char *at)
{
    while (*at && !separates(*at))
        at++;
    return at;
}

/* Key that a whole word names, or PL_KEY_NONE. */
static int named_key(const char *word, size_t length)
{
    static const char ctrl[] = "Ctrl-";
    for (int i = 0; i < NAMES; i++)
        if (strlen(names[i].name) == length && memcmp(names[i].name, word, length) == 0)
            return names[i].key;
    if (length == sizeof ctrl && memcmp(word, ctrl, sizeof ctrl - 1) == 0) {
        char letter = word[length - 1];
        if (letter >= 'A' && letter <= 'Z')
            return pl_key_of_byte(letter - 'A' + 1);
        if (letter >= 'a' && letter <= 'z')
            return pl_key_of_byte(letter - 'a' + 1);
    }
    return PL_KEY_NONE;
}

void pl_keys_start(struct pl_keys_reader *r, const char *keys)
{
    *r = (struct pl_keys_reader){.at = keys};
}

/* Next letter of the word being typed, or PL_KEY_NONE at its end. */
static int next_letter(struct pl_keys_reader *r)
{
    while (r->word_end && r->at < r->word_end) {
        uint32_t code = 0;
        size_t length = pl_utf8_decode(r->at, (size_t)(r->word_end - r->at), &code);
        r->at += length ? length : 1;
        if (length && !pl_code_unsafe(code))
            return (int)code;
    }
    r->word_end = NULL;
    return PL_KEY_NONE;
}

static const char typed[] = "text:";

int pl_keys_next(struct pl_keys_reader *r)
{
    for (;;) {
        int key = next_letter(r);
        if (key != PL_KEY_NONE)
            return key;
        while (separates(*r->at))
            r->at++;
        if (!*r->at)
            return PL_KEY_NONE;
        const char *word = r->at, *end = end_of_word(word);
        key = named_key(word, (size_t)(end - word));
        if (key != PL_KEY_NONE) {
            r->at = end;
            return key;
        }
        r->word_end = end;
        if (strncmp(word, typed, sizeof typed - 1) == 0)
            r->at = word + sizeof typed - 1;
    }
}

static bool is_stray(const char *word, size_t length)
{
    size_t characters = 0, letters = 0;
    for (size_t i = 0; i < length; i++) {
        unsigned char byte = (unsigned char)word[i];
        characters += (byte & 0xc0) != 0x80;
        letters += byte >= 0x80 || (byte >= '0' && byte <= '9') || (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
    }
    return characters > 1 && letters && strncmp(word, typed, sizeof typed - 1) && named_key(word, length) == PL_KEY_NONE;
}

bool pl_keys_stray(const struct pl_keys_reader *r, const char **word, size_t *length)
{
    const char *at = r->at;
    if (r->word_end && at < r->word_end)
        return false;  /* inside a word */
    while (separates(*at))
        at++;
    *word = at;
    *length = (size_t)(end_of_word(at) - at);
    return is_stray(at, *length);
}

/* ---- names ---- */

void pl_key_name(int key, char *out, size_t size)
{
    for (int i = 0; i < NAMES; i++)
        if (names[i].key == key) {
            snprintf(out, size, "%s", names[i].name);
            return;
        }
    char text[5] = "";
    if (key >= PL_KEY_CTRL_A && key <= PL_KEY_CTRL_Z) {
        snprintf(out, size, "Ctrl-%c", 'A' + (key - PL_KEY_CTRL_A));
        return;
    }
    if (key > ' ' && key <= 0x10ffff && !(key >= 0xd800 && key <= 0xdfff) && !pl_code_unsafe((uint32_t)key))
        pl_utf8_encode((uint32_t)key, text);
    snprintf(out, size, "%s", text);
}
