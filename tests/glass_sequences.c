#include "glass_inner.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static void not_understood(struct glass *g, const char *what, int a, int b)
{
    if (!g->unknown[0])
        snprintf(g->unknown, sizeof g->unknown, "%s %c%c (%d %d)", what, a > ' ' && a < 127 ? a : '.',
                 b > ' ' && b < 127 ? b : '.', a, b);
}

/* ---- control sequences ---- */

static int parameter(const struct glass *g, int i, int otherwise)
{
    return i < g->n_parameters && g->parameters[i] > 0 ? g->parameters[i] : otherwise;
}

static bool set_colour(struct glass *g, int v)
{
    short *colour = v / 10 % 2 ? &g->look.foreground : &g->look.background;  /* 3x and 9x, 4x and 10x */
    if ((v >= 30 && v <= 37) || (v >= 40 && v <= 47))
        *colour = (short)(v % 10);
    else if ((v >= 90 && v <= 97) || (v >= 100 && v <= 107))
        *colour = (short)(v % 10 + 8);
    else if (v == 39 || v == 49)
        *colour = PL_COLOUR_DEFAULT;
    else
        return false;
    return true;
}

static bool set_attribute(struct glass *g, int v)
{
    static const struct { int on, off; unsigned attribute; } attributes[] = {
        {1, 22, PL_BOLD}, {2, 22, PL_DIM}, {4, 24, PL_UNDERLINE}, {7, 27, PL_REVERSE},
    };
    bool known = false;
    for (int i = 0; i < 4; i++)
        if (v == attributes[i].on || v == attributes[i].off) {
            g->look.attributes &= ~attributes[i].attribute;
            g->look.attributes |= v == attributes[i].on ? attributes[i].attribute : 0;
            known = true;
        }
    return known || v == 10;  /* 10: the usual font */
}

static void select_look(struct glass *g)
{
    for (int i = 0; i < (g->n_parameters ? g->n_parameters : 1); i++) {
        int v = parameter(g, i, 0);
        if (v == 0) {
            g->look = no_look;
        } else if ((v == 38 || v == 48) && parameter(g, i + 1, 0) == 5) {
            *(v == 38 ? &g->look.foreground : &g->look.background) = (short)parameter(g, i + 2, 0);
            i += 2;
        } else if (!set_attribute(g, v) && !set_colour(g, v)) {
            not_understood(g, "look", 'm', v);
        }
    }
}

static void erase_display(struct glass *g, int how)
{
    g->clears += how == 2 || (how == 0 && g->row == 0 && g->column == 0);
    if (how == 0)
        glass_wipe(g, g->row, g->column, g->columns);
    glass_wipe_rows(g, how == 0 ? g->row + 1 : 0, how == 1 ? g->row : g->rows);
    if (how == 1)
        glass_wipe(g, g->row, 0, g->column + 1);
}

/* ECMA-48's and, behind '?', the maker's own. */
static void set_mode(struct glass *g, int mode, bool on)
{
    if (g->prefix == '?' && mode == 1)
        g->application_keys = on;
    else if (g->prefix == '?' && mode == 7)
        g->no_wrap = !on;
    else if (g->prefix == '?' && mode == 25)
        g->cursor_shown = on;
    else if (g->prefix == '?' && mode == 1049)
        glass_wipe_rows(g, 0, g->rows);  /* the other picture, blank in the beginning and when it is left */
    else if (g->prefix == 0 && mode == 4)
        g->insert = on;
    else if (!(g->prefix == '?' && (mode == 12 || mode == 1000 || mode == 1006)) && !(g->prefix == 0 && mode == 34))
        not_understood(g, "mode", g->prefix, mode);  /* 12 and 34: how the cursor looks; 1000 and 1006: the mouse */
}

static void set_modes(struct glass *g, bool on)
{
    for (int i = 0; i < (g->n_parameters ? g->n_parameters : 1); i++)
        set_mode(g, parameter(g, i, 0), on);
}

static void scroll_between(struct glass *g, int top, int bottom)
{
    g->top = top < 0 || top >= g->rows ? 0 : top;
    g->bottom = bottom <= g->top || bottom >= g->rows ? g->rows - 1 : bottom;
    glass_place(g, 0, 0);
}

static void obey(struct glass *g, char final)
{
    int n = parameter(g, 0, 1), row = g->row, column = g->column, how = parameter(g, 0, 0);
    if (!strchr(g->kind->finals, final) || (g->prefix && !strchr("hlc", final))) {
        not_understood(g, "sequence", g->prefix, final);
        return;
    }
    switch (final) {
    case 'H': glass_place(g, n - 1, parameter(g, 1, 1) - 1); break;
    case 'A': glass_place(g, row - n, column); break;
    case 'B': glass_place(g, row + n, column); break;
    case 'C': glass_place(g, row, column + n); break;
    case 'D': glass_place(g, row, column - n); break;
    case 'd': glass_place(g, n - 1, column); break;
    case 'G': glass_place(g, row, n - 1); break;
    case 'Z': glass_place(g, row, (column - 1) / 8 * 8); break;
    case 'J': erase_display(g, how); break;
    case 'K': glass_wipe(g, row, how ? 0 : column, how == 1 ? column + 1 : g->columns); break;
    case 'X': glass_wipe(g, row, column, column + n); break;
    case '@': glass_shift_right(g, row, column, n); break;
    case 'P': glass_shift_left(g, row, column, n); break;
    case 'b': for (; n > 0; n--) glass_write_code(g, g->last); break;
    case 'm': select_look(g); break;
    case 'h':
    case 'l': set_modes(g, final == 'h'); break;
    case 'L': glass_move_rows(g, row, -n); break;
    case 'M': glass_move_rows(g, row, n); break;
    case 'S': glass_move_rows(g, g->top, n); break;
    case 'T': glass_move_rows(g, g->top, -n); break;
    case 'r': scroll_between(g, n - 1, parameter(g, 1, g->rows) - 1); break;
    default: break;  /* 't', titles; 'c', the cursor's shape */
    }
}

/* ---- bytes ---- */

static void keep_pen(struct glass *g)
{
    g->kept = (struct glass_pen){g->row, g->column, g->look, {g->drawing[0], g->drawing[1]}, g->shift};
}

static void bring_back_pen(struct glass *g)
{
    glass_place(g, g->kept.row, g->kept.column);
    g->look = g->kept.look;
    g->drawing[0] = g->kept.drawing[0];
    g->drawing[1] = g->kept.drawing[1];
    g->shift = g->kept.shift;
}

static void escape(struct glass *g, char c)
{
    g->state = GLASS_TEXT;
    g->prefix = 0;
    switch (c) {
    case '[':
        g->state = GLASS_CONTROL;
        g->n_parameters = 0;
        g->parameter_open = false;
        break;
    case '(':
    case ')': g->state = GLASS_SET, g->prefix = c; break;
    case ']':
    case 'P': g->state = GLASS_STRING; break;
    case 'M': glass_reverse_line_feed(g); break;
    case 'D': glass_line_feed(g); break;
    case 'E': glass_place(g, g->row, 0), glass_line_feed(g); break;
    case '7': keep_pen(g); break;
    case '8': bring_back_pen(g); break;
    case '=':
    case '>':
    case '\\': break;
    default: not_understood(g, "escape", c, 0);
    }
}

static void control_sequence(struct glass *g, char c)
{
    if (c >= '0' && c <= '9') {
        if (!g->parameter_open && g->n_parameters < GLASS_PARAMETERS)
            g->parameters[g->n_parameters++] = 0;
        g->parameter_open = true;
        int *value = &g->parameters[g->n_parameters - 1];
        *value = *value < 100000 ? *value * 10 + (c - '0') : *value;
    } else if (c == ';') {
        if (!g->parameter_open && g->n_parameters < GLASS_PARAMETERS)
            g->parameters[g->n_parameters++] = -1;
        g->parameter_open = false;
    } else if (c >= '<' && c <= '?') {
        g->prefix = c;
    } else {
        g->state = GLASS_TEXT;
        obey(g, c);
    }
}

static void text_byte(struct glass *g, char c)
{
    uint32_t code;
    g->half_read[g->n_half_read++] = c;
    if (pl_utf8_decode(g->half_read, g->n_half_read, &code)) {
        g->n_half_read = 0;
        glass_write_code(g, code);
    } else if (g->n_half_read == sizeof g->half_read || (unsigned char)c < 0x80) {
        not_understood(g, "byte", (unsigned char)g->half_read[0], (unsigned char)c);
        g->n_half_read = 0;
    }
}

static void byte(struct glass *g, char c)
{
    switch (c) {
    case 27: g->state = g->state == GLASS_STRING ? GLASS_STRING_ESCAPE : GLASS_ESCAPE; return;
    case '\r': glass_place(g, g->row, 0); return;
    case '\n': glass_line_feed(g); return;
    case '\b': glass_place(g, g->row, g->column - 1); return;
    case '\t': glass_place(g, g->row, (g->column / 8 + 1) * 8); return;
    case 14:
    case 15: g->shift = c == 14; return;
    default:
        if ((unsigned char)c >= ' ')
            text_byte(g, c);
    }
}

void glass_read(struct glass *g, const char *bytes, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        char c = bytes[i];
        g->beyond_ascii |= (unsigned char)c > 127;
        if (g->state == GLASS_ESCAPE) {
            escape(g, c);
        } else if (g->state == GLASS_CONTROL && (unsigned char)c >= ' ') {
            control_sequence(g, c);
        } else if (g->state == GLASS_SET) {
            g->drawing[g->prefix == ')'] = c == '0';
            g->state = GLASS_TEXT;
        } else if (g->state == GLASS_STRING_ESCAPE || (g->state == GLASS_STRING && c == '\a')) {
            g->state = GLASS_TEXT;
        } else if (g->state != GLASS_STRING || c == 27) {
            byte(g, c);
        }
    }
}
