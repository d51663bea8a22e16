/* buffer.h - text that grows, and numbers free of the locale.
 *
 * A buffer that could not grow is marked failed and ignores what follows, so that
 * writers need one test at their end.
 */
#ifndef PLYLOFT_BUFFER_H
#define PLYLOFT_BUFFER_H

#include <stdbool.h>
#include <stddef.h>

struct pl_buffer {
    char *text;       /* NUL-terminated once anything was added, else NULL */
    size_t length, capacity;
    bool failed;
};

void pl_buffer_free(struct pl_buffer *b);
void pl_buffer_clear(struct pl_buffer *b);  /* keeps the memory */
void pl_buffer_add(struct pl_buffer *b, const char *bytes, size_t length);
void pl_buffer_text(struct pl_buffer *b, const char *text);

/* printf without floating-point conversions: use pl_buffer_number for those. */
void pl_buffer_printf(struct pl_buffer *b, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Fixed number of decimals, decimal point whatever the locale; -0 prints as 0. */
void pl_buffer_number(struct pl_buffer *b, double value, int decimals);

/* The shortest spelling that reads back as the same double, up to 17 digits; value must be finite. */
void pl_number_shortest(char *out, size_t size, double value);

/* As many significant digits as asked, trailing zeros dropped ("12.5", "0.0034", "1e+12"). */
void pl_number_digits(char *out, size_t size, double value, int digits);

/* Fixed decimals. */
void pl_number_fixed(char *out, size_t size, double value, int decimals);

/* Reads a decimal number at the start of text whatever the locale, as strtod does; *end is
 * where it stopped (text itself when there is none).  Hexadecimal, "inf" and "nan" are not
 * numbers here. */
double pl_number_read(const char *text, const char **end);

#endif
