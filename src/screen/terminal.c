#ifndef NCURSES_WIDECHAR
#define NCURSES_WIDECHAR 1
#endif
#include <curses.h>

#include "plyloft/terminal.h"

#include "plyloft/keys.h"
#include "plyloft/signals.h"
#include "plyloft/text.h"
#include "plyloft/theme.h"

#include <errno.h>
#include <langinfo.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>
#include <wchar.h>

#define COUNT(array) (sizeof(array) / sizeof((array)[0]))

enum { ESCAPE_DELAY_MS = 25 };

/* One terminal a process; curses and signals are no less global. */
static struct {
    SCREEN *screen;              /* NULL: not open */
    WINDOW *keys;                /* a pad, since reading from a window would paint it first */
    struct termios found;        /* modes at opening */
    char restore[256];           /* bytes that put the screen back in a crash */
    enum pl_depth depth;
    bool plain, mouse, gone;
    bool shown_is_true;          /* shown is what stands on the terminal */
    struct pl_frame shown;
    int waiting[32];             /* bytes taken from curses and put back, oldest first */
    int n_waiting;
    mbstate_t half_read;         /* of a character whose bytes come one by one */
    int empty_reads;
    unsigned signals;            /* taken, not yet told */
} term;

/* ---- keys: what curses and the terminal send ---- */

static const struct {
    int code, key;
} key_codes[] = {
    {KEY_UP, PL_KEY_UP},         {KEY_DOWN, PL_KEY_DOWN},       {KEY_LEFT, PL_KEY_LEFT},
    {KEY_RIGHT, PL_KEY_RIGHT},   {KEY_PPAGE, PL_KEY_PAGE_UP},   {KEY_NPAGE, PL_KEY_PAGE_DOWN},
    {KEY_HOME, PL_KEY_HOME},     {KEY_FIND, PL_KEY_HOME},       {KEY_A1, PL_KEY_HOME},
    {KEY_END, PL_KEY_END},       {KEY_SELECT, PL_KEY_END},      {KEY_C1, PL_KEY_END},
    {KEY_A3, PL_KEY_PAGE_UP},    {KEY_C3, PL_KEY_PAGE_DOWN},    {KEY_BTAB, PL_KEY_BACKTAB},
    {KEY_ENTER, PL_KEY_ENTER},   {KEY_BACKSPACE, PL_KEY_BACKSPACE}, {KEY_DC, PL_KEY_DELETE},
};

/* Codes of our own for keypad keys that type a character; beyond those curses gives out. */
enum { KEYPAD = 0x4000 };

/* What terminals send whatever their description says: cursor keys in both modes (ECMA-48 and the VT100's
 * manual), editing keys (VT220), the numeric keypad as an "application" one (VT100). */
static const struct {
    const char *bytes;
    int code;
} sequences[] = {
    {"\033[A", KEY_UP},         {"\033[B", KEY_DOWN},       {"\033[C", KEY_RIGHT},      {"\033[D", KEY_LEFT},
    {"\033OA", KEY_UP},         {"\033OB", KEY_DOWN},       {"\033OC", KEY_RIGHT},      {"\033OD", KEY_LEFT},
    {"\033[H", KEY_HOME},       {"\033[F", KEY_END},        {"\033OH", KEY_HOME},       {"\033OF", KEY_END},
    {"\033[1~", KEY_HOME},      {"\033[4~", KEY_END},       {"\033[7~", KEY_HOME},      {"\033[8~", KEY_END},
    {"\033[3~", KEY_DC},        {"\033[5~", KEY_PPAGE},     {"\033[6~", KEY_NPAGE},     {"\033[Z", KEY_BTAB},
    {"\033Op", KEYPAD + '0'},   {"\033Oq", KEYPAD + '1'},   {"\033Or", KEYPAD + '2'},   {"\033Os", KEYPAD + '3'},
    {"\033Ot", KEYPAD + '4'},   {"\033Ou", KEYPAD + '5'},   {"\033Ov", KEYPAD + '6'},   {"\033Ow", KEYPAD + '7'},
    {"\033Ox", KEYPAD + '8'},   {"\033Oy", KEYPAD + '9'},   {"\033Oj", KEYPAD + '*'},   {"\033Ok", KEYPAD + '+'},
    {"\033Ol", KEYPAD + ','},   {"\033Om", KEYPAD + '-'},   {"\033On", KEYPAD + '.'},   {"\033Oo", KEYPAD + '/'},
    {"\033OX", KEYPAD + '='},   {"\033OM", KEY_ENTER},
};

/* The keypad's are taken from descriptions that know them as corners only (KEY_A1): whoever sends them means
 * digits, since a keypad that moves the cursor sends the cursor's own. */
static void define_sequences(void)
{
    for (size_t i = 0; i < COUNT(sequences); i++) {
        int known = key_defined(sequences[i].bytes);  /* 0: not at all, -1: as the start of others */
        if (known == 0 || (known > 0 && sequences[i].code > KEYPAD))
            define_key(sequences[i].bytes, sequences[i].code);
    }
}

static int key_of_code(int code)
{
    if (code > KEYPAD && code < KEYPAD + 128)
        return code - KEYPAD;
    for (size_t i = 0; i < COUNT(key_codes); i++)
        if (key_codes[i].code == code)
            return key_codes[i].key;
    return PL_KEY_NONE;
}

/* ---- opening and closing ---- */

static bool speaks_utf8(const char *term_name)
{
    const char *codeset = nl_langinfo(CODESET);
    /* The Linux console understands UTF-8, but its fonts of 256 or 512 characters have no dots. */
    if (strncmp(term_name, "linux", 5) == 0)
        return false;
    return strcasecmp(codeset, "UTF-8") == 0 || strcasecmp(codeset, "utf8") == 0;
}

static enum pl_status refuse(struct pl_problems *problems, enum pl_status status, const char *sentence,
                             const char *found)
{
    pl_problem_add(problems, PL_ERROR, "", sentence, found);
    return status;
}

static enum pl_status suits(const char *term_name, struct pl_problems *problems)
{
    if (!isatty(STDIN_FILENO))
        return refuse(problems, PL_CANNOT_READ, "the bench needs a terminal, and standard input is none", NULL);
    if (!isatty(STDOUT_FILENO))
        return refuse(problems, PL_CANNOT_WRITE, "the bench needs a terminal, and standard output is none", NULL);
    if (!term_name || !*term_name)
        return refuse(problems, PL_CANNOT_WRITE, "TERM is not set, so the kind of terminal is not known", NULL);
    if (strcmp(term_name, "dumb") == 0)
        return refuse(problems, PL_CANNOT_WRITE, "a terminal of this kind cannot show pages, --lines does without; see TERM", term_name);
    return PL_OK;
}

/* Adds what a terminal is sent for a capability, without the pauses ("$<5>") only old hardware needs. */
static void add_capability(char *out, size_t size, const char *name)
{
    const char *bytes = tigetstr(name);
    size_t n = strlen(out);
    if (!bytes || bytes == (const char *)-1)
        return;
    for (; *bytes && n + 1 < size; bytes++) {
        const char *pause_end = bytes[0] == '$' && bytes[1] == '<' ? strchr(bytes, '>') : NULL;
        if (pause_end)
            bytes = pause_end;
        else
            out[n++] = *bytes;
    }
    out[n] = '\0';
}

/* Only calls that are safe in a handler. */
static void put_back_in_crash(void)
{
    signal(SIGTTOU, SIG_IGN);
    if (write(STDOUT_FILENO, term.restore, strlen(term.restore)) >= 0)
        tcsetattr(STDIN_FILENO, TCSANOW, &term.found);
}

/* Keys come one at a time and unchanged, Ctrl-S, Ctrl-C, Ctrl-V and Ctrl-\ too; Ctrl-Z still stops.  Ctrl-C as
 * a byte, not a signal, keeps its turn among the keys and spares whoever started us (make, say). */
static void set_modes(void)
{
    struct termios modes;
    cbreak();
    noecho();
    nonl();
    if (tcgetattr(STDIN_FILENO, &modes) < 0)
        return;
    modes.c_iflag &= ~(tcflag_t)(IXON | IXOFF | ICRNL);
    modes.c_lflag &= ~(tcflag_t)IEXTEN;
    modes.c_lflag |= ISIG | NOFLSH;
    modes.c_cc[VINTR] = modes.c_cc[VQUIT] = _POSIX_VDISABLE;
    tcsetattr(STDIN_FILENO, TCSADRAIN, &modes);
    def_prog_mode();  /* curses sets these again after a stop */
}

/* Depth is mono unless the terminal's own two colours can be kept. */
static void set_colours(void)
{
    const char *no_colour = getenv("NO_COLOR");
    term.depth = PL_DEPTH_MONO;
    if ((no_colour && *no_colour) || !has_colors() || start_color() == ERR || use_default_colors() == ERR)
        return;
    enum pl_depth depth = COLORS >= 256 ? PL_DEPTH_256 : PL_DEPTH_8;
    if (COLORS < 8 || COLOR_PAIRS <= PL_ROLES)
        return;
    for (int role = 0; role < PL_ROLES; role++) {
        struct pl_look look = pl_theme_look((enum pl_role)role, depth);
        if (init_pair((short)(role + 1), look.foreground, look.background) == ERR)
            return;
    }
    term.depth = depth;
}

/* What a crash has to send, by what is on now. */
static void set_restore(void)
{
    static const char *const endings[] = {"cnorm", "sgr0", "rmkx", "rmcup"};
    term.restore[0] = '\0';
    if (term.mouse)
        memcpy(term.restore, "\033[?1006;1000l", sizeof "\033[?1006;1000l");
    for (size_t i = 0; i < COUNT(endings); i++)
        add_capability(term.restore, sizeof term.restore, endings[i]);
}

void pl_terminal_mouse(bool on)
{
    if (!term.screen)
        return;
    mouseinterval(0);  /* a press acts at once */
    term.mouse = mousemask(on ? BUTTON1_PRESSED : 0, NULL) != 0;
    set_restore();
}

/* The window's size as the system knows it, which a LINES left in the environment must not hide. */
static void follow_size(void)
{
    struct winsize w;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &w) == 0 && w.ws_row && w.ws_col && (w.ws_row != LINES || w.ws_col != COLS))
        resize_term(w.ws_row, w.ws_col);
}

static void forget_shown(void)
{
    term.shown_is_true = false;
    clearok(curscr, TRUE);
}

static void set_up(const struct pl_terminal_options *options, const char *term_name)
{
    term.plain = options->plain || !speaks_utf8(term_name);
    if (!getenv("ESCDELAY"))
        set_escdelay(ESCAPE_DELAY_MS);
    set_modes();
    set_colours();
    keypad(term.keys, TRUE);
    nodelay(term.keys, TRUE);
    typeahead(-1);  /* a key that waits must not leave half a picture */
    define_sequences();
    pl_terminal_mouse(options->mouse);
    follow_size();
}

enum pl_status pl_terminal_open(const struct pl_terminal_options *options, struct pl_problems *problems)
{
    static bool at_exit;
    const char *term_name = getenv("TERM");
    if (term.screen)
        return PL_OK;
    enum pl_status status = suits(term_name, problems);
    if (status != PL_OK)
        return status;
    memset(&term, 0, sizeof term);
    if (tcgetattr(STDIN_FILENO, &term.found) < 0)
        return refuse(problems, PL_CANNOT_READ, "the terminal does not answer", NULL);
    if ((!at_exit && atexit(pl_terminal_close) != 0) || !pl_signals_open(put_back_in_crash))
        return refuse(problems, PL_NO_MEMORY, "too little memory, or too many files open, for the screen", NULL);
    at_exit = true;
    fflush(stdout);
    term.screen = newterm(term_name, stdout, stdin);
    const char *place_cursor = term.screen ? tigetstr("cup") : NULL;
    term.keys = term.screen ? newpad(1, 1) : NULL;
    if (!term.keys || !place_cursor || place_cursor == (const char *)-1) {
        pl_terminal_close();
        pl_signals_close();
        return refuse(problems, PL_CANNOT_WRITE,
                      "no description of this kind of terminal is installed that the bench could use, see TERM",
                      term_name);
    }
    set_up(options, term_name);
    return PL_OK;
}

void pl_terminal_close(void)
{
    if (!term.screen)
        return;
    if (!isendwin())
        endwin();
    tcsetattr(STDIN_FILENO, TCSADRAIN, &term.found);
    delwin(term.keys);
    delscreen(term.screen);
    term.screen = NULL;
    pl_frame_free(&term.shown);
    pl_signals_close();
}

struct pl_terminal_caps pl_terminal_caps(void)
{
    return (struct pl_terminal_caps){.plain = term.plain, .colour = term.depth != PL_DEPTH_MONO, .mouse = term.mouse};
}

void pl_terminal_size(int *rows, int *columns)
{
    *rows = term.screen ? LINES : 0;
    *columns = term.screen ? COLS : 0;
}

/* ---- painting ---- */

/* The width follows from the character. */
static bool same_cell(const struct pl_cell *a, const struct pl_cell *b)
{
    return a->code == b->code && a->role == b->role && a->combining[0] == b->combining[0] &&
           a->combining[1] == b->combining[1];
}

static attr_t attributes_of(struct pl_look look)
{
    attr_t a = A_NORMAL;
    if (look.attributes & PL_BOLD)
        a |= A_BOLD;
    if (look.attributes & PL_DIM)
        a |= A_DIM;
    if (look.attributes & PL_UNDERLINE)
        a |= A_UNDERLINE;
    if (look.attributes & PL_REVERSE)
        a |= A_REVERSE;
    return a;
}

static short pair_of(struct pl_look look, uint8_t role)
{
    bool own = look.foreground != PL_COLOUR_DEFAULT || look.background != PL_COLOUR_DEFAULT;
    return own ? (short)(role + 1) : 0;
}

static void put_cell(int row, int column, const wchar_t *text, uint8_t role)
{
    struct pl_look look = pl_theme_look((enum pl_role)role, term.depth);
    cchar_t cell;
    if (setcchar(&cell, text, attributes_of(look), pair_of(look, role), NULL) == OK)
        mvadd_wch(row, column, &cell);
}

/* Curses and our own table must agree on how wide a character is, or the rest of the line would shift: where
 * they do not, '?' stands for it. */
static void paint_cell(int row, int column, const struct pl_cell *cell)
{
    wchar_t text[4] = {(wchar_t)cell->code};
    if (cell->width == 2 && column + 1 >= COLS) {  /* a frame wider than the terminal */
        put_cell(row, column, L" ", cell->role);
        return;
    }
    bool ascii = cell->code < 0x80, fits = ascii;
    if (!ascii && !term.plain)
        fits = !pl_code_unsafe(cell->code) && wcwidth(text[0]) == cell->width;
    if (!fits) {
        text[0] = (wchar_t)(cell->width == 1 ? pl_code_plain(cell->code) : '?');
        put_cell(row, column, text, cell->role);
        if (cell->width == 2)
            put_cell(row, column + 1, text, cell->role);
        return;
    }
    for (int i = 0, n = 1; i < 2 && cell->combining[i] && !term.plain; i++)
        if (wcwidth((wchar_t)cell->combining[i]) == 0)
            text[n++] = (wchar_t)cell->combining[i];
    put_cell(row, column, text, cell->role);
}

static void paint_row(const struct pl_frame *f, int row, int columns, bool all)
{
    size_t start = (size_t)row * (size_t)f->columns;
    for (int column = 0; column < columns; column++) {
        const struct pl_cell *cell = &f->cells[start + (size_t)column];
        if (cell->width > 0 && (all || !same_cell(cell, &term.shown.cells[start + (size_t)column])))
            paint_cell(row, column, cell);
    }
}

static void place_cursor(const struct pl_frame *f)
{
    bool on = f->cursor_row >= 0 && f->cursor_column >= 0 && f->cursor_row < LINES && f->cursor_column < COLS;
    if (on)
        move(f->cursor_row, f->cursor_column);
    curs_set(on ? 1 : 0);  /* curses writes nothing when it is so already */
}

static void remember(const struct pl_frame *f)
{
    bool same_size = term.shown.cells && term.shown.rows == f->rows && term.shown.columns == f->columns;
    term.shown_is_true = same_size || pl_frame_resize(&term.shown, f->rows, f->columns);
    if (term.shown_is_true && f->cells)
        memcpy(term.shown.cells, f->cells, (size_t)f->rows * (size_t)f->columns * sizeof *f->cells);
}

void pl_terminal_paint(const struct pl_frame *f)
{
    if (!term.screen || term.gone)
        return;
    bool all = !term.shown_is_true || term.shown.rows != f->rows || term.shown.columns != f->columns;
    if (all)
        erase();
    int rows = f->rows < LINES ? f->rows : LINES, columns = f->columns < COLS ? f->columns : COLS;
    for (int row = 0; row < rows; row++)
        paint_row(f, row, columns, all);
    place_cursor(f);
    refresh();
    remember(f);
}

/* ---- waiting ---- */

/* Next byte (below 256) or key code of curses; ERR when none waits. */
static int next_input(void)
{
    if (term.n_waiting) {
        int input = term.waiting[0];
        memmove(term.waiting, term.waiting + 1, (size_t)--term.n_waiting * sizeof *term.waiting);
        return input;
    }
    return wgetch(term.keys);
}

/* After Escape: takes the rest of a key this terminal's description does not name ("[1;5C"), which typed
 * letter by letter would do five things nobody asked for.  Anything else is put back. */
static bool rest_of_unknown_key(void)
{
    int taken[16], n = 0, parameters = 0;
    while (n < (int)COUNT(taken)) {
        int input = next_input();
        if (input == ERR)
            break;
        taken[n++] = input;
        if (n == 1 ? input == '[' : input >= 0x20 && input <= 0x3f) {
            parameters = n - 1;
            continue;
        }
        if (parameters > 0 && input >= 0x40 && input <= 0x7e)
            return true;  /* as ECMA-48, 5.4, builds a control sequence */
        break;
    }
    memmove(term.waiting + n, term.waiting, (size_t)term.n_waiting * sizeof *term.waiting);
    memcpy(term.waiting, taken, (size_t)n * sizeof *taken);
    term.n_waiting += n;
    return false;
}

/* A byte of a character in the locale's encoding; the character once it is whole, else PL_KEY_NONE. */
static int key_of_bytes(int byte)
{
    char c = (char)byte;
    wchar_t code = 0;
    bool halfway = !mbsinit(&term.half_read);
    size_t status = mbrtowc(&code, &c, 1, &term.half_read);
    if (status == (size_t)-1) {
        memset(&term.half_read, 0, sizeof term.half_read);
        return halfway ? key_of_bytes(byte) : PL_KEY_NONE;  /* the one before was cut short */
    }
    if (status == (size_t)-2 || code < ' ' || pl_code_unsafe((uint32_t)code))
        return PL_KEY_NONE;
    return (int)code;
}

static int key_of_input(int input)
{
    if (input >= 256)
        return key_of_code(input);
    if (input != 127 && input >= ' ')
        return key_of_bytes(input);
    memset(&term.half_read, 0, sizeof term.half_read);
    if (input == 27 && rest_of_unknown_key())
        return PL_KEY_NONE;
    return pl_key_of_byte(input);
}

static bool click(struct pl_event *event)
{
    MEVENT m;
    if (getmouse(&m) != OK || !(m.bstate & BUTTON1_PRESSED))
        return false;
    event->kind = PL_EVENT_CLICK;
    event->row = m.y;
    event->column = m.x;
    return true;
}

/* A report of the mouse that nobody asked for, or that was on its way when it was switched off: its numbers, up to the
 * letter that ends it, are no keys.  Curses may have taken them already: whatever else comes is put back. */
static void drop_report(void)
{
    int input;
    do
        input = next_input();
    while (input == ';' || (input >= '0' && input <= '9'));
    if (input == ERR || input == 'M' || input == 'm' || term.n_waiting == (int)COUNT(term.waiting))
        return;
    memmove(term.waiting + 1, term.waiting, (size_t)term.n_waiting * sizeof *term.waiting);
    term.waiting[0] = input;
    term.n_waiting++;
}

/* An event from what was typed; false when nothing that means something waits. */
static bool typed(struct pl_event *event)
{
    int input;
    while ((input = next_input()) != ERR) {
        term.empty_reads = 0;
        if (input == KEY_MOUSE) {
            if (!term.mouse)
                drop_report();
            else if (click(event))
                return true;
            continue;
        }
        event->key = key_of_input(input);
        if (event->key != PL_KEY_NONE) {
            event->kind = PL_EVENT_KEY;
            return true;
        }
    }
    return false;
}

static void resized(struct pl_event *event)
{
    follow_size();
    forget_shown();
    event->kind = PL_EVENT_RESIZE;
    pl_terminal_size(&event->rows, &event->columns);
}

/* Back from a stop, ours or one that could not be caught: whoever had the terminal meanwhile may have
 * changed anything, so curses takes it over from the start. */
static void stop_and_go_on(bool stop)
{
    struct termios modes;
    if (!isendwin())
        endwin();
    if (stop)
        pl_signals_stop();
    if (tcgetattr(STDIN_FILENO, &modes) < 0)  /* a hang-up sends SIGCONT too */
        term.gone = true;
    reset_prog_mode();
    term.signals |= pl_signals_take();  /* of going on, of which we know */
}

/* An event from the signals that came, the gravest first; false when there is none. */
static bool signalled(struct pl_event *event)
{
    term.signals |= pl_signals_take();
    unsigned s = term.signals;
    if (s & PL_SIGNAL_HANGUP)
        term.gone = true;
    if (term.gone) {
        event->kind = PL_EVENT_HANGUP;
        return true;
    }
    if (s & PL_SIGNAL_TERMINATE) {
        term.signals &= ~(unsigned)PL_SIGNAL_TERMINATE;
        event->kind = PL_EVENT_TERMINATE;
        return true;
    }
    if (s & (PL_SIGNAL_STOP | PL_SIGNAL_CONTINUE | PL_SIGNAL_RESIZE)) {
        if (s & (PL_SIGNAL_STOP | PL_SIGNAL_CONTINUE))
            stop_and_go_on(s & PL_SIGNAL_STOP);
        term.signals &= ~(unsigned)(PL_SIGNAL_STOP | PL_SIGNAL_CONTINUE | PL_SIGNAL_RESIZE);
        resized(event);
        if (term.gone)
            event->kind = PL_EVENT_HANGUP;
        return true;
    }
    if (s & PL_SIGNAL_INTERRUPT) {
        term.signals &= ~(unsigned)PL_SIGNAL_INTERRUPT;
        event->kind = PL_EVENT_KEY;
        event->key = PL_KEY_CTRL('C');
        return true;
    }
    return false;
}

static long long now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (long long)t.tv_sec * 1000000 + t.tv_nsec / 1000;
}

/* Something to read, but no byte: the other end is closed.  Asked for twice, since another process on the
 * same terminal may have taken the bytes between the two questions. */
static bool input_ended(void)
{
    int bytes = 0;
    if (ioctl(STDIN_FILENO, FIONREAD, &bytes) == 0 && bytes > 0)
        return false;
    return ++term.empty_reads > 1;
}

/* True when there may be an event, false when the time is over. */
static bool wait_for_any(int timeout_ms)
{
    struct pollfd fds[2] = {{.fd = STDIN_FILENO, .events = POLLIN}, {.fd = pl_signals_fd(), .events = POLLIN}};
    int ready = poll(fds, 2, timeout_ms);
    if (ready < 0)
        return errno == EINTR;
    short came = fds[0].revents;
    if ((came & (POLLHUP | POLLERR | POLLNVAL)) || ((came & POLLIN) && input_ended()))
        term.gone = true;
    return ready > 0;
}

void pl_terminal_wait(struct pl_event *event, int timeout_ms)
{
    long long end_us = timeout_ms >= 0 ? now_us() + 1000LL * timeout_ms : 0;
    *event = (struct pl_event){.kind = PL_EVENT_TIMEOUT};
    if (!term.screen) {
        event->kind = PL_EVENT_HANGUP;
        return;
    }
    while (!signalled(event) && !typed(event)) {
        /* Whole milliseconds upward: a wait is never shorter than asked for. */
        long long left_us = timeout_ms >= 0 ? end_us - now_us() : -1;
        int left_ms = timeout_ms < 0 ? -1 : left_us > 0 ? (int)((left_us + 999) / 1000) : 0;
        if (!wait_for_any(left_ms) && (timeout_ms < 0 || now_us() >= end_us))
            return;
    }
}
