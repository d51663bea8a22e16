/* Drawings as PDF and SVG: pages of the size asked, the same bytes twice, and no text that breaks a file. */
#include "../support.h"

#include "plyloft/drawing.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct pl_drawing *two_pages(const char *text)
{
    struct pl_drawing *d = pl_drawing_new();
    assert_non_null(d);
    pl_drawing_page(d, 210, 297);
    pl_drawing_group(d, "first group");
    pl_drawing_rectangle(d, PL_PEN_LINE, PL_FILL_LIGHT, 12.5, 20, 30, 40);
    pl_drawing_text(d, 20, 30, 3, PL_AT_MIDDLE, 45, text);
    pl_drawing_group(d, "second & <third>");
    pl_drawing_arrow(d, 10, 10, 60, 10);
    pl_drawing_line(d, PL_PEN_DASHED, 0, 0, 210, 297);
    pl_drawing_page(d, 420, 594);
    pl_drawing_text_in(d, 5, 5, 3, 40, text);
    return d;
}

static size_t count(const char *bytes, size_t length, const char *word)
{
    size_t n = 0, k = strlen(word);
    for (size_t i = 0; i + k <= length; i++)
        n += !memcmp(bytes + i, word, k);
    return n;
}

static void a_pdf_has_the_pages_asked_for_and_the_same_bytes_twice(void **state)
{
    (void)state;
    struct pl_drawing *d = two_pages("caf\xc3\xa9 & <b>");
    struct pl_buffer one = {0}, two = {0};
    assert_int_equal(pl_drawing_pages(d), 2);
    assert_int_equal(pl_drawing_pdf(d, "a title", &one), PL_OK);
    assert_int_equal(pl_drawing_pdf(d, "a title", &two), PL_OK);
    assert_int_equal(one.length, two.length);
    assert_memory_equal(one.text, two.text, one.length);
    assert_memory_equal(one.text, "%PDF-", 5);
    assert_int_equal(count(one.text, one.length, "/Type /Page") - count(one.text, one.length, "/Type /Pages"), 2);
    /* 210 x 297 mm are 595.28 x 841.89 points (ISO 216, ISO 32000-1). */
    assert_int_equal(count(one.text, one.length, "/MediaBox [ 0 0 595.275") + count(one.text, one.length, "/MediaBox [ 0 0 595.276"), 1);
    assert_int_equal(count(one.text, one.length, "/MediaBox [ 0 0 1190.55"), 1);
    pl_buffer_free(&one);
    pl_buffer_free(&two);
    pl_drawing_free(d);
}

static void without_a_page_there_is_none(void **state)
{
    (void)state;
    struct pl_drawing *d = pl_drawing_new();
    struct pl_buffer out = {0};
    pl_drawing_line(d, PL_PEN_LINE, 0, 0, 1, 1);
    assert_int_equal(pl_drawing_pages(d), 0);
    assert_int_not_equal(pl_drawing_pdf(d, "", &out), PL_OK);
    assert_int_not_equal(pl_drawing_svg(d, 0, "", &out), PL_OK);
    pl_buffer_free(&out);
    pl_drawing_free(d);
}

/* Well formed as far as this writer goes: tags close in order, attributes are quoted, and no bare & or < in text. */
static void assert_well_formed(const char *xml)
{
    char open[8][16];
    size_t depth = 0;
    const char *c = strstr(xml, "?>");
    assert_non_null(c);
    for (c += 2; *c; c++) {
        if (*c == '&')
            assert_true(!strncmp(c, "&amp;", 5) || !strncmp(c, "&lt;", 4) || !strncmp(c, "&gt;", 4) || !strncmp(c, "&quot;", 6));
        if (*c != '<')
            continue;
        const char *end = strchr(c, '>');
        assert_non_null(end);
        size_t quotes = count(c, (size_t)(end - c), "\""), n = strcspn(c + 1, " />");
        assert_int_equal(quotes % 2, 0);
        if (c[1] == '/') {
            n = strcspn(c + 2, ">");
            assert_true(depth > 0 && strlen(open[depth - 1]) == n && !strncmp(open[depth - 1], c + 2, n));
            depth--;
        } else if (end[-1] != '/') {
            assert_true(depth < 8 && n < sizeof *open);
            memcpy(open[depth], c + 1, n);
            open[depth++][n] = '\0';
        }
        c = end;
    }
    assert_int_equal(depth, 0);
}

static void an_svg_is_well_formed_in_true_millimetres(void **state)
{
    (void)state;
    static const char *const texts[] = {"plain", "a & b < c > \"d\"", "caf\xc3\xa9", "\x01\x02 bad \xff\xfe", "]]>", ""};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct pl_drawing *d = two_pages(texts[i]);
        struct pl_buffer out = {0};
        assert_int_equal(pl_drawing_svg(d, 0, texts[i], &out), PL_OK);
        assert_well_formed(out.text);
        assert_non_null(strstr(out.text, "width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\""));
        assert_non_null(strstr(out.text, "points=\"12.5,20 42.5,20 42.5,60 12.5,60\""));
        assert_non_null(strstr(out.text, "<g id=\"g1-first-group\">"));
        assert_non_null(strstr(out.text, "<g id=\"g2-second-third\">"));
        assert_int_equal(count(out.text, out.length, "\x01"), 0);
        pl_buffer_free(&out);
        assert_int_not_equal(pl_drawing_svg(d, 2, "", &out), PL_OK);
        pl_buffer_free(&out);
        pl_drawing_free(d);
    }
}

static void text_is_as_wide_as_asked_at_most(void **state)
{
    (void)state;
    double narrow = pl_text_width_mm("iiii", 3), wide = pl_text_width_mm("WWWW", 3);
    assert_true(narrow > 0 && wide > narrow);
    assert_close(pl_text_width_mm("WWWW", 6), 2 * wide, 1e-6);
    struct pl_drawing *d = pl_drawing_new();
    struct pl_buffer out = {0};
    pl_drawing_page(d, 100, 100);
    pl_drawing_text_in(d, 5, 5, 3, wide, "WWWWWWWW\xc3\xa9\xc3\xa9");
    pl_drawing_text_in(d, 5, 9, 3, wide, "WWW");
    pl_drawing_text_in(d, 5, 9, 3, 0.1, "\xc3\xa9\xc3\xa9");
    assert_int_equal(pl_drawing_svg(d, 0, "", &out), PL_OK);
    assert_non_null(strstr(out.text, ">WWW</text>"));
    assert_int_equal(count(out.text, out.length, "\xe2\x80\xa6</text>"), 2);
    pl_buffer_free(&out);
    pl_drawing_free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pdf_has_the_pages_asked_for_and_the_same_bytes_twice), cmocka_unit_test(without_a_page_there_is_none),
        cmocka_unit_test(an_svg_is_well_formed_in_true_millimetres), cmocka_unit_test(text_is_as_wide_as_asked_at_most),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
