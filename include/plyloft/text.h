/* text.h - text that came from outside, made safe; text measured in columns.
 *
 * A part file may hold anything.  What is shown, in a message or on the screen,
 * has passed pl_text_safe once: control characters, bidirectional marks, line
 * separators and broken UTF-8 cannot reach a terminal.  Knows nothing of JSON.
 */
#ifndef PLYLOFT_TEXT_H
#define PLYLOFT_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Length in bytes of the UTF-8 sequence at s (at most left bytes), its code point
 * in *code; 0 when the bytes are not well-formed UTF-8 (RFC 3629). */
size_t pl_utf8_decode(const char *s, size_t left, uint32_t *code);

/* Writes code as UTF-8, at most 4 bytes, no NUL; the number written. */
size_t pl_utf8_encode(uint32_t code, char out[4]);

/* Copies text into out; what must not reach a terminal becomes U+FFFD, tabs and line
 * ends become spaces.  Text that does not fit is cut at a character and ends in "…". */
void pl_text_safe(char *out, size_t size, const char *text);

/* True for a code point that pl_text_safe would replace. */
bool pl_code_unsafe(uint32_t code);

/* Columns a code point takes on a terminal: 0 (combining), 1 or 2.  From the ranges
 * of Unicode's East Asian Width and combining classes; free of the locale. */
int pl_code_columns(uint32_t code);

/* Columns of a safe text. */
int pl_text_columns(const char *text);

/* Bytes of a safe text for one line of at most that many columns: up to a blank where there is one, else as many
 * characters as fit; the whole of it when it fits.  0 only for an empty text, or where the first character is
 * wider than the line. */
size_t pl_text_break(const char *text, int columns);

#endif
