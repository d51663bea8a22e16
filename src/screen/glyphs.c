/* glyphs.c - characters of the screen, in Unicode and in ASCII.
 *
 * Two spellings of each line and mark, and for any other character one column of
 * ASCII.  Tables only; frame.c and canvas.c put them into cells.
 */
#include "plyloft/frame.h"

#define COUNT(array) (sizeof(array) / sizeof((array)[0]))

static const struct spelling {
    uint32_t code;
    char plain;
} glyphs[PL_GLYPHS] = {
    [PL_GLYPH_HORIZONTAL] = {U'─', '-'},  [PL_GLYPH_VERTICAL] = {U'│', '|'},   [PL_GLYPH_CORNER_TL] = {U'┌', '+'},
    [PL_GLYPH_CORNER_TR] = {U'┐', '+'},   [PL_GLYPH_CORNER_BL] = {U'└', '+'},  [PL_GLYPH_CORNER_BR] = {U'┘', '+'},
    [PL_GLYPH_TEE_DOWN] = {U'┬', '+'},    [PL_GLYPH_TEE_UP] = {U'┴', '+'},     [PL_GLYPH_TEE_LEFT] = {U'┤', '+'},
    [PL_GLYPH_TEE_RIGHT] = {U'├', '+'},   [PL_GLYPH_CROSS] = {U'┼', '+'},      [PL_GLYPH_DASHED] = {U'╌', '-'},
    [PL_GLYPH_POINT_UP] = {U'▲', '^'},    [PL_GLYPH_POINT_DOWN] = {U'▼', 'v'}, [PL_GLYPH_POINT_RIGHT] = {U'▸', '>'},
    [PL_GLYPH_DIAMOND] = {U'◆', '*'},     [PL_GLYPH_STRIKE] = {U'✕', 'x'},     [PL_GLYPH_SHADE_1] = {U'░', ':'},
    [PL_GLYPH_SHADE_2] = {U'▒', '%'},     [PL_GLYPH_SHADE_3] = {U'▓', '#'},    [PL_GLYPH_SHADE_4] = {U'█', '@'},
    [PL_GLYPH_ELLIPSIS] = {U'…', '~'},    [PL_GLYPH_DASH] = {U'–', '-'},
};

/* What a reader takes for the same thing; one column each. */
static const struct spelling fair[] = {
    {0xa0, ' '},  {U'£', 'L'},  {U'«', '<'},  {U'°', 'd'},  {U'±', '~'},  {U'²', '2'},  {U'³', '3'},  {U'µ', 'u'},
    {U'·', '.'},  {U'»', '>'},  {U'Δ', 'D'},  {U'α', 'a'},  {U'β', 'b'},  {U'γ', 'g'},  {U'δ', 'd'},  {U'ε', 'e'},
    {U'θ', 't'},  {U'λ', 'l'},  {U'μ', 'u'},  {U'ν', 'v'},  {U'ρ', 'r'},  {U'σ', 's'},  {U'τ', 't'},  {U'φ', 'f'},
    {0x2009, ' '}, {U'‐', '-'}, {0x2011, '-'}, {U'‒', '-'}, {U'—', '-'},  {U'‘', '\''}, {U'’', '\''}, {U'“', '"'},
    {U'”', '"'},  {U'„', '"'},  {U'•', '*'},  {0x202f, ' '}, {U'′', '\''}, {U'″', '"'}, {U'‹', '<'},  {U'›', '>'},
    {U'⁴', '4'},  {U'₀', '0'},  {U'₁', '1'},  {U'₂', '2'},  {U'←', '<'},  {U'↑', '^'},  {U'→', '>'},  {U'↓', 'v'},
    {U'−', '-'},  {U'≈', '~'},  {U'≤', '<'},  {U'≥', '>'},  {U'▴', '^'},  {U'▾', 'v'},  {U'◂', '<'},  {U'✓', 'v'},
};

/* Letters of Latin-1, U+00C0 to U+00FF, without their accents; × and ÷ among them. */
static const char latin[] = "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty";

uint32_t pl_glyph_code(enum pl_glyph glyph, bool plain)
{
    if ((unsigned)glyph >= PL_GLYPHS)
        return '?';
    return plain ? (uint32_t)glyphs[glyph].plain : glyphs[glyph].code;
}

static char spelled(uint32_t code, const struct spelling *table, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (table[i].code == code)
            return table[i].plain;
    return '\0';
}

char pl_code_plain(uint32_t code)
{
    if (code < 0x80)
        return code >= ' ' && code != 0x7f ? (char)code : '?';
    if (code >= 0xc0 && code <= 0xff)
        return latin[code - 0xc0];
    if (code >= 0x2800 && code <= 0x28ff)
        return pl_dots_plain(code & 0xff);
    char c = spelled(code, glyphs, COUNT(glyphs));
    if (!c)
        c = spelled(code, fair, COUNT(fair));
    return c ? c : '?';
}

/* Where the dots lie on average decides, so that a curve of ' - . keeps its slope; a cell that
 * is touched at its top and bottom is a steep stretch (|) or two curves (:). */
char pl_dots_plain(unsigned dots)
{
    /* Bits of each of the four rows, top first (Unicode, chapter 21: dots 14, 25, 36, 78). */
    static const unsigned row_bits[4] = {0x09, 0x12, 0x24, 0xc0};
    int count = 0, sum = 0;
    unsigned touched = 0;
    for (int row = 0; row < 4; row++)
        for (unsigned bits = dots & row_bits[row]; bits; bits &= bits - 1) {
            count++;
            sum += row;
            touched |= 1u << row;
        }
    if (!count)
        return ' ';
    if ((touched & 0x9) == 0x9)
        return touched == 0xf ? '|' : ':';
    double mean = (double)sum / count;
    return mean < 0.8 ? '\'' : mean > 2.2 ? '.' : '-';
}
