#include "plyloft/buffer.h"

#include <locale.h>
#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void pl_buffer_free(struct pl_buffer *b)
{
    free(b->text);
    *b = (struct pl_buffer){0};
}

void pl_buffer_clear(struct pl_buffer *b)
{
    b->length = 0;
    b->failed = false;
    if (b->text)
        b->text[0] = '\0';
}

static bool make_room(struct pl_buffer *b, size_t more)
{
    if (b->failed || more > SIZE_MAX / 4 - b->length) {
        b->failed = true;
        return false;
    }
    size_t need = b->length + more + 1;
    if (need <= b->capacity)
        return true;
    size_t capacity = b->capacity ? b->capacity : 256;
    while (capacity < need)
        capacity *= 2;
    char *text = realloc(b->text, capacity);
    if (!text) {
        b->failed = true;
        return false;
    }
    b->text = text;
    b->capacity = capacity;
    return true;
}

void pl_buffer_add(struct pl_buffer *b, const char *bytes, size_t length)
{
    if (!make_room(b, length))
        return;
    memcpy(b->text + b->length, bytes, length);
    b->length += length;
    b->text[b->length] = '\0';
}

void pl_buffer_text(struct pl_buffer *b, const char *text)
{
    pl_buffer_add(b, text, strlen(text));
}

void pl_buffer_printf(struct pl_buffer *b, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    int need = vsnprintf(NULL, 0, format, args);
    va_end(args);
    if (need < 0 || !make_room(b, (size_t)need)) {
        b->failed = true;
        return;
    }
    va_start(args, format);
    vsnprintf(b->text + b->length, (size_t)need + 1, format, args);
    va_end(args);
    b->length += (size_t)need;
}

/* The library must not depend on the caller's locale, nor change it: whatever stands
 * for the decimal point is replaced after printing. */
static void plain_point(char *out)
{
    const char *point = localeconv()->decimal_point;
    char *at = strcmp(point, ".") ? strstr(out, point) : NULL;
    if (!at)
        return;
    *at = '.';
    memmove(at + 1, at + strlen(point), strlen(at + strlen(point)) + 1);
}

void pl_number_fixed(char *out, size_t size, double value, int decimals)
{
    if (fabs(value) < 0.5 * pow(10, -decimals))
        value = 0;
    snprintf(out, size, "%.*f", decimals, value);
    plain_point(out);
}

void pl_number_digits(char *out, size_t size, double value, int digits)
{
    snprintf(out, size, "%.*g", digits, value == 0 ? 0.0 : value);
    plain_point(out);
}

void pl_number_shortest(char *out, size_t size, double value)
{
    for (int digits = 1; digits <= 17; digits++) {
        pl_number_digits(out, size, value, digits);
        const char *end;
        if (pl_number_read(out, &end) == value)
            return;
    }
}

void pl_buffer_number(struct pl_buffer *b, double value, int decimals)
{
    char text[400];
    pl_number_fixed(text, sizeof text, value, decimals);
    pl_buffer_text(b, text);
}

/* Length of the decimal number at the start of text, 0 when there is none. */
static size_t number_length(const char *text)
{
    size_t i = text[0] == '-' || text[0] == '+', digits = 0;
    while (text[i] >= '0' && text[i] <= '9')
        i++, digits++;
    if (text[i] == '.')
        for (i++; text[i] >= '0' && text[i] <= '9'; i++)
            digits++;
    if (!digits)
        return 0;
    if (text[i] == 'e' || text[i] == 'E') {
        size_t j = i + 1 + (text[i + 1] == '-' || text[i + 1] == '+');
        if (text[j] >= '0' && text[j] <= '9') {
            while (text[j] >= '0' && text[j] <= '9')
                j++;
            i = j;
        }
    }
    return i;
}

double pl_number_read(const char *text, const char **end)
{
    size_t length = number_length(text);
    *end = text + length;
    if (!length)
        return 0;
    const char *point = localeconv()->decimal_point;
    size_t extra = strlen(point);
    char small[128], *copy = length + extra < sizeof small ? small : malloc(length + extra + 1);
    if (!copy) {
        *end = text;
        return 0;
    }
    size_t n = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '.') {
            memcpy(copy + n, point, extra);
            n += extra;
        } else {
            copy[n++] = text[i];
        }
    }
    copy[n] = '\0';
    double value = strtod(copy, NULL);
    if (copy != small)
        free(copy);
    return value;
}
