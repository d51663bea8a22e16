/* A page as SVG: true millimetres, named groups, well-formed whatever the texts hold. */
#include "xml.h"

#include "plyloft/drawing.h"

#include <locale.h>
#include <math.h>
#include <stdlib.h>

static struct pl_drawing *new_page(double width_mm, double height_mm)
{
    struct pl_drawing *drawing = pl_drawing_new();
    assert_non_null(drawing);
    pl_drawing_page(drawing, width_mm, height_mm);
    return drawing;
}

/* The page's file, well-formed; the drawing is freed. */
static struct pl_buffer written(struct pl_drawing *drawing, size_t page, struct xml *xml)
{
    struct pl_buffer out = {0};
    assert_int_equal(pl_drawing_svg(drawing, page, "sheet", &out), PL_OK);
    assert_int_equal(strlen(out.text), out.length);
    assert_well_formed(xml, out.text);
    pl_drawing_free(drawing);
    return out;
}

static void assert_holds(const struct pl_buffer *out, const char *text)
{
    if (!strstr(out->text, text))
        fail_msg("no %s in:\n%s", text, out->text);
}

static void assert_lacks(const struct pl_buffer *out, const char *text)
{
    if (strstr(out->text, text))
        fail_msg("%s in:\n%s", text, out->text);
}

/* ---- the reader of the tests itself ---- */

static void the_reader_refuses_what_is_not_well_formed(void **state)
{
    (void)state;
    static const char *const broken[] = {
        "<svg/>", "<a>", "<a></b>", "<a><b></a></b>", "<a>&nbsp;</a>", "<a>\x01</a>", "<a>\xff</a>", "<a x=\"<\"/>",
        "<a x=\"1\" x=\"2\"/>", "<a id=\"b c\"/>", "<a id=\"2\"/>", "<a><b id=\"c\"/><b id=\"c\"/></a>", "<a/><b/>",
        "<a>]]></a>", "<a x=1/>", "<a>& </a>",
    };
    char text[200];
    struct xml xml;
    for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
        snprintf(text, sizeof text, "%s%s", i ? "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" : "", broken[i]);
        if (xml_read(&xml, text))
            fail_msg("taken: %s", broken[i]);
    }
    assert_well_formed(&xml, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<a><b id=\"c\" x=\"&lt;\">&amp;</b></a>\n");
    assert_int_equal(xml.elements, 2);
}

/* ---- sizes and places ---- */

static void a_page_is_as_large_as_asked_in_millimetres(void **state)
{
    (void)state;
    struct xml xml;
    struct pl_drawing *drawing = new_page(210, 297);
    pl_drawing_page(drawing, 841.5, 99.99996);
    struct pl_buffer first = {0};
    assert_int_equal(pl_drawing_svg(drawing, 0, NULL, &first), PL_OK);
    assert_well_formed(&xml, first.text);
    struct pl_buffer second = written(drawing, 1, &xml);
    assert_holds(&first, "width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\"");
    /* 99.99996 rounded to a tenth of a micrometre is 100. */
    assert_holds(&second, "width=\"841.5mm\" height=\"100mm\" viewBox=\"0 0 841.5 100\"");
    pl_buffer_free(&first);
    pl_buffer_free(&second);
}

static void places_stand_in_the_file_as_drawn(void **state)
{
    (void)state;
    struct xml xml;
    struct pl_drawing *drawing = new_page(210, 297);
    pl_drawing_rectangle(drawing, PL_PEN_THICK, PL_FILL_NONE, 10, 20, 50, 50);
    pl_drawing_line(drawing, PL_PEN_DASHED, 1.5, -2.25, 1 / 3.0, -0.00001);
    double x[] = {0, 100, 100.12344}, y[] = {0, 0, 7};
    pl_drawing_shape(drawing, PL_PEN_THIN, PL_FILL_NONE, false, x, y, 3);
    pl_drawing_shape(drawing, PL_PEN_LINE, PL_FILL_DARK, true, x, y, 3);
    pl_drawing_shape(drawing, PL_PEN_LINE, PL_FILL_NONE, true, x, y, 1);
    struct pl_buffer out = written(drawing, 0, &xml);
    assert_holds(&out, "<polygon points=\"10,20 60,20 60,70 10,70\" stroke-width=\"0.5\"/>");
    assert_holds(&out, "<line x1=\"1.5\" y1=\"-2.25\" x2=\"0.3333\" y2=\"0\" stroke-width=\"0.25\" "
                       "stroke-dasharray=\"3 0.75\"/>");
    assert_holds(&out, "<polyline points=\"0,0 100,0 100.1234,7\" stroke-width=\"0.13\"/>");
    assert_holds(&out, "<polygon points=\"0,0 100,0 100.1234,7\" fill=\"#808080\"");
    assert_int_equal(xml.elements, 2 + 4); /* the file and its title; one point is no shape */
    pl_buffer_free(&out);
}

static void an_arrow_ends_at_its_tip(void **state)
{
    (void)state;
    struct xml xml;
    struct pl_drawing *drawing = new_page(100, 100);
    pl_drawing_arrow(drawing, 10, 50, 40, 50);
    pl_drawing_arrow(drawing, 20, 70, 20, 69);
    pl_drawing_arrow(drawing, 30, 30, 30, 30);
    struct pl_buffer out = written(drawing, 0, &xml);
    /* A head of 2.5 mm opens 10 degrees to either side: 2.5 tan 10 = 0.4408. */
    assert_holds(&out, "<line x1=\"10\" y1=\"50\" x2=\"37.5\" y2=\"50\"");
    assert_holds(&out, "<polygon points=\"40,50 37.5,50.4408 37.5,49.5592\" fill=\"#000000\" stroke=\"none\"/>");
    assert_holds(&out, "points=\"20,69 20.1763,70 19.8237,70\""); /* just a head */
    assert_int_equal(xml.elements, 2 + 3);
    pl_buffer_free(&out);
}

static void words_are_placed_sized_and_turned(void **state)
{
    (void)state;
    struct xml xml;
    struct pl_drawing *drawing = new_page(100, 100);
    pl_drawing_text(drawing, 10, 20, 3.6, PL_AT_MIDDLE, 90, "first skin");
    pl_drawing_text(drawing, 10, 30, 3.6, PL_AT_END, 360, "two  blanks");
    struct pl_buffer out = written(drawing, 0, &xml);
    /* Capitals are 0.72 of the font's size: 3.6 / 0.72 = 5. */
    assert_holds(&out, "<text x=\"10\" y=\"20\" font-size=\"5\" text-anchor=\"middle\" transform=\"rotate(90 10 20)\"");
    assert_holds(&out, "<text x=\"10\" y=\"30\" font-size=\"5\" text-anchor=\"end\" fill");
    assert_holds(&out, ">two  blanks</text>");
    assert_holds(&out, "xml:space=\"preserve\""); /* else a viewer takes the two blanks for one */
    pl_buffer_free(&out);
}

/* ---- groups ---- */

static void groups_stand_in_order_each_with_a_name_of_its_own(void **state)
{
    (void)state;
    static const char *const names[] = {"cap", "top cap, drop 3", "cap", "3 plies", "", "cap-2", "cap",
                                        "\xc3\x9cmriss/a:b", "<&\">", "\xff\x01x"};
    static const char *const ids[] = {"cap", "top_cap_drop_3", "cap-2", "_3_plies", "_", "cap-2-2", "cap-3",
                                      "\xc3\x9cmriss_a_b", "_-2", "_x"};
    int count = sizeof names / sizeof *names;
    struct xml xml;
    struct pl_drawing *drawing = new_page(100, 100);
    for (int i = 0; i < count; i++) {
        pl_drawing_group(drawing, names[i]);
        pl_drawing_line(drawing, PL_PEN_LINE, 0, i, 1, i);
    }
    pl_drawing_page(drawing, 50, 50); /* its groups are none of the first page's */
    pl_drawing_group(drawing, "cap");
    struct pl_buffer out = written(drawing, 0, &xml);
    assert_int_equal(xml.id_count, count);
    for (int i = 0; i < count; i++)
        assert_string_equal(xml.ids[i], ids[i]);
    assert_holds(&out, "<g id=\"top_cap_drop_3\"><title>top cap, drop 3</title>\n<line x1=\"0\" y1=\"1\"");
    pl_buffer_free(&out);
}

static void what_is_drawn_belongs_to_the_group_before_it(void **state)
{
    (void)state;
    struct xml xml;
    struct pl_drawing *drawing = new_page(100, 100);
    pl_drawing_line(drawing, PL_PEN_LINE, 0, 1, 2, 3);
    pl_drawing_group(drawing, "a");
    pl_drawing_group(drawing, "b");
    pl_drawing_line(drawing, PL_PEN_LINE, 4, 5, 6, 7);
    struct pl_buffer out = written(drawing, 0, &xml);
    assert_holds(&out, "</title>\n<line x1=\"0\" y1=\"1\" x2=\"2\" y2=\"3\" stroke-width=\"0.25\"/>\n<g id=\"a\">"
                       "<title>a</title>\n</g>\n<g id=\"b\"><title>b</title>\n<line x1=\"4\"");
    assert_holds(&out, "stroke-width=\"0.25\"/>\n</g>\n</svg>\n");
    pl_buffer_free(&out);
}

/* ---- whatever the texts hold ---- */

static void strange_texts_do_not_break_the_file(void **state)
{
    (void)state;
    struct xml xml;
    struct pl_drawing *drawing = new_page(100, 100);
    char all[256];
    for (int i = 0; i < 255; i++)
        all[i] = (char)(i + 1);
    all[255] = '\0';
    pl_drawing_group(drawing, all);
    pl_drawing_text(drawing, 1, 1, 3, PL_AT_START, 0, all);
    pl_drawing_text(drawing, 1, 2, 3, PL_AT_START, 0, "a<b & \"c\" ]]> 'd'");
    pl_drawing_text(drawing, 1, 3, 3, PL_AT_START, 0, "\xef\xbf\xbf\xed\xa0\x80\xe2\x80\xae\x1b[31m");
    pl_drawing_text(drawing, 1, 4, 3, PL_AT_START, 0, NULL);
    struct pl_buffer out = {0};
    assert_int_equal(pl_drawing_svg(drawing, 0, all, &out), PL_OK);
    assert_well_formed(&xml, out.text);
    assert_holds(&out, ">a&lt;b &amp; &quot;c&quot; ]]&gt; 'd'</text>");
    assert_lacks(&out, "\x1b");
    pl_buffer_free(&out);
    pl_drawing_free(drawing);
}

static void a_locale_with_commas_changes_no_byte(void **state)
{
    (void)state;
    static const char *const places[] = {"de_DE.UTF-8", "de_DE", "fr_FR.UTF-8", "nb_NO.UTF-8"};
    struct pl_buffer plain = {0}, local = {0};
    struct pl_drawing *drawing = new_page(210.5, 297);
    pl_drawing_line(drawing, PL_PEN_DASHED, 0.5, 1.25, 2.125, 3);
    pl_drawing_text(drawing, 0.5, 1.5, 2.5, PL_AT_START, 12.5, "1.5");
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &plain), PL_OK);
    size_t i = 0; /* without such a locale here it is the same text twice */
    while (i < sizeof places / sizeof *places && !setlocale(LC_NUMERIC, places[i]))
        i++;
    enum pl_status status = pl_drawing_svg(drawing, 0, "t", &local);
    setlocale(LC_NUMERIC, "C");
    assert_int_equal(status, PL_OK);
    assert_string_equal(plain.text, local.text);
    pl_buffer_free(&plain);
    pl_buffer_free(&local);
    pl_drawing_free(drawing);
}

static void a_page_that_is_not_there_is_refused(void **state)
{
    (void)state;
    struct pl_buffer out = {0};
    struct pl_drawing *drawing = pl_drawing_new();
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &out), PL_BAD_INPUT);
    pl_drawing_page(drawing, 10, 10);
    assert_int_equal(pl_drawing_svg(drawing, 1, "t", &out), PL_BAD_INPUT);
    assert_int_equal(out.length, 0);
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &out), PL_OK);
    pl_buffer_free(&out);
    pl_drawing_free(drawing);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_reader_refuses_what_is_not_well_formed),
        cmocka_unit_test(a_page_is_as_large_as_asked_in_millimetres),
        cmocka_unit_test(places_stand_in_the_file_as_drawn),
        cmocka_unit_test(an_arrow_ends_at_its_tip),
        cmocka_unit_test(words_are_placed_sized_and_turned),
        cmocka_unit_test(groups_stand_in_order_each_with_a_name_of_its_own),
        cmocka_unit_test(what_is_drawn_belongs_to_the_group_before_it),
        cmocka_unit_test(strange_texts_do_not_break_the_file),
        cmocka_unit_test(a_locale_with_commas_changes_no_byte),
        cmocka_unit_test(a_page_that_is_not_there_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
