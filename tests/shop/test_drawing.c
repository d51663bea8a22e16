/* Pages as PDF, words cut to a width, what cannot be drawn, and memory that runs out. */
#include "../support.h"
#include "../short_memory.h"

#include "plyloft/drawing.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct pl_drawing *new_page(double width_mm, double height_mm)
{
    struct pl_drawing *drawing = pl_drawing_new();
    assert_non_null(drawing);
    pl_drawing_page(drawing, width_mm, height_mm);
    return drawing;
}

/* ---- the PDF file ---- */

static const char *find(const struct pl_buffer *file, const char *from, const char *what)
{
    return memmem(from, (size_t)(file->text + file->length - from), what, strlen(what));
}

static size_t count(const struct pl_buffer *file, const char *what)
{
    size_t found = 0;
    for (const char *at = file->text; (at = find(file, at, what)); at += strlen(what))
        found++;
    return found;
}

/* The n-th page's box is that large, in points. */
static void assert_box(const struct pl_buffer *file, size_t n, double width_mm, double height_mm)
{
    const char *at = find(file, file->text, "/MediaBox");
    for (; n; n--) {
        assert_non_null(at);
        at = find(file, at + 1, "/MediaBox");
    }
    assert_non_null(at);
    double x, y, width, height;
    assert_int_equal(sscanf(at, "/MediaBox [ %lf %lf %lf %lf ]", &x, &y, &width, &height), 4);
    assert_close(x, 0, 0);
    assert_close(y, 0, 0);
    assert_close(width, width_mm * 72 / 25.4, 1e-6);
    assert_close(height, height_mm * 72 / 25.4, 1e-6);
}

/* Begins and ends as ISO 32000-1, 7.5, has it, and the table of objects stands where the end says. */
static void assert_whole(const struct pl_buffer *file)
{
    assert_memory_equal(file->text, "%PDF-1.4\n", 9);
    assert_memory_equal(file->text + file->length - 6, "%%EOF\n", 6);
    const char *at = find(file, file->text, "startxref\n");
    assert_non_null(at);
    unsigned long place = strtoul(at + 10, NULL, 10);
    assert_true(place + 5 < file->length);
    assert_memory_equal(file->text + place, "xref\n", 5);
}

static struct pl_buffer pdf_of(const struct pl_drawing *drawing, const char *title)
{
    struct pl_buffer file = {0};
    assert_int_equal(pl_drawing_pdf(drawing, title, &file), PL_OK);
    assert_whole(&file);
    return file;
}

static void draw_a_sheet(struct pl_drawing *drawing)
{
    const double x[] = {20, 180, 60}, y[] = {240, 242, 250};
    pl_drawing_group(drawing, "outline");
    pl_drawing_shape(drawing, PL_PEN_DASHED, PL_FILL_MIDDLE, true, x, y, 3);
    pl_drawing_rectangle(drawing, PL_PEN_THIN, PL_FILL_LIGHT, 10, 10, 50, 50);
    pl_drawing_group(drawing, "words");
    pl_drawing_arrow(drawing, 10, 100, 60, 120);
    pl_drawing_text(drawing, 10, 80, 3.5, PL_AT_MIDDLE, 30, "first skin, 45\xc2\xb0");
}

static void pages_have_the_sizes_asked_in_points(void **state)
{
    (void)state;
    struct pl_drawing *drawing = new_page(210, 297);
    draw_a_sheet(drawing);
    pl_drawing_page(drawing, 841, 594); /* ISO 216 A1, lying */
    pl_drawing_page(drawing, 100, 5080);
    draw_a_sheet(drawing);
    assert_int_equal(pl_drawing_pages(drawing), 3);
    struct pl_buffer file = pdf_of(drawing, "sheet");
    assert_int_equal(count(&file, "/MediaBox"), 3);
    assert_int_equal(count(&file, "/Type /Page") - count(&file, "/Type /Pages"), 3);
    assert_int_equal(count(&file, "/Count 3"), 1);
    assert_box(&file, 0, 210, 297);
    assert_int_equal(count(&file, "/MediaBox [ 0 0 595.27"), 1); /* 210 x 72 / 25.4 = 595.28 */
    assert_box(&file, 1, 841, 594);
    assert_box(&file, 2, 100, 5080);
    pl_buffer_free(&file);
    pl_drawing_free(drawing);
}

static void the_same_drawing_gives_the_same_bytes(void **state)
{
    (void)state;
    struct pl_drawing *drawing = new_page(210, 297), *again = new_page(210, 297);
    draw_a_sheet(drawing);
    draw_a_sheet(again);
    struct pl_buffer one = pdf_of(drawing, "sheet"), two = pdf_of(again, "sheet"), three = pdf_of(drawing, "sheet");
    assert_int_equal(one.length, two.length);
    assert_memory_equal(one.text, two.text, one.length);
    assert_int_equal(one.length, three.length);
    assert_memory_equal(one.text, three.text, one.length);
    assert_null(find(&one, one.text, "Date")); /* two runs within a second would be alike with one */
    pl_drawing_line(again, PL_PEN_LINE, 0, 0, 1, 1);
    struct pl_buffer other = pdf_of(again, "sheet");
    assert_true(other.length != one.length || memcmp(other.text, one.text, one.length));
    pl_buffer_free(&one), pl_buffer_free(&two), pl_buffer_free(&three), pl_buffer_free(&other);
    pl_drawing_free(drawing), pl_drawing_free(again);
}

static void letters_are_embedded(void **state)
{
    (void)state;
    struct pl_drawing *drawing = new_page(100, 100);
    pl_drawing_line(drawing, PL_PEN_LINE, 0, 0, 1, 1);
    struct pl_buffer without = pdf_of(drawing, NULL);
    pl_drawing_text(drawing, 10, 20, 3.5, PL_AT_START, 0, "root rib");
    struct pl_buffer with = pdf_of(drawing, NULL);
    /* Without a font on the machine the letters are cairo's own, kept as procedures. */
    assert_int_equal(count(&without, "/FontFile") + count(&without, "/Type3"), 0);
    assert_true(count(&with, "/FontFile") + count(&with, "/Type3") > 0);
    pl_buffer_free(&without), pl_buffer_free(&with);
    pl_drawing_free(drawing);
}

static void strange_texts_give_a_whole_file(void **state)
{
    (void)state;
    char all[256];
    for (int i = 0; i < 255; i++)
        all[i] = (char)(i + 1);
    all[255] = '\0';
    struct pl_drawing *drawing = new_page(210, 297);
    pl_drawing_group(drawing, all);
    pl_drawing_text(drawing, 10, 20, 3.5, PL_AT_END, 0, all);
    pl_drawing_text(drawing, 10, 30, 3.5, PL_AT_START, 0, "\xff\xc3 \xed\xa0\x80 \xe2\x80\xae \xf0\x9f\x98\x80");
    pl_drawing_text(drawing, 10, 40, 3.5, PL_AT_START, 1e9, "");
    pl_drawing_text_in(drawing, 10, 50, 3.5, 20, all);
    pl_drawing_text_in(drawing, 10, 50, 3.5, 20, NULL);
    struct pl_buffer file = pdf_of(drawing, all);
    assert_box(&file, 0, 210, 297);
    pl_buffer_free(&file);
    struct pl_buffer plain = pdf_of(drawing, "a) (b \\");
    assert_int_equal(count(&plain, "/Title"), 1);
    pl_buffer_free(&plain);
    pl_drawing_free(drawing);
}

static void a_locale_with_commas_changes_no_byte(void **state)
{
    (void)state;
    static const char *const places[] = {"de_DE.UTF-8", "de_DE", "fr_FR.UTF-8", "nb_NO.UTF-8"};
    struct pl_drawing *drawing = new_page(210.5, 297);
    draw_a_sheet(drawing);
    struct pl_buffer plain = pdf_of(drawing, "t"), local = {0};
    size_t i = 0; /* without such a locale here it is the same text twice */
    while (i < sizeof places / sizeof *places && !setlocale(LC_NUMERIC, places[i]))
        i++;
    enum pl_status status = pl_drawing_pdf(drawing, "t", &local);
    setlocale(LC_NUMERIC, "C");
    assert_int_equal(status, PL_OK);
    assert_int_equal(plain.length, local.length);
    assert_memory_equal(plain.text, local.text, plain.length);
    pl_buffer_free(&plain), pl_buffer_free(&local);
    pl_drawing_free(drawing);
}

/* ---- words ---- */

static void words_are_as_wide_as_their_letters(void **state)
{
    (void)state;
    double h = pl_text_width_mm("H", 10), hh = pl_text_width_mm("HH", 10);
    assert_true(h > 4 && h < 20); /* a capital 10 mm high */
    assert_close(hh, 2 * h, 1e-9);
    assert_close(pl_text_width_mm("H", 2.5), h / 4, 1e-9);
    assert_close(pl_text_width_mm("", 10), 0, 0);
    assert_close(pl_text_width_mm("H\n\xff", 10), pl_text_width_mm("H \xef\xbf\xbd", 10), 0);
}

/* What text_in makes of the text, by way of a file, freed by the caller; "" when it drew nothing. */
static char *cut(const char *text, double width_mm)
{
    struct pl_drawing *drawing = new_page(100, 100);
    pl_drawing_text_in(drawing, 10, 20, 3.5, width_mm, text);
    struct pl_buffer file = {0};
    assert_int_equal(pl_drawing_svg(drawing, 0, NULL, &file), PL_OK);
    char *at = strstr(file.text, "<text"), *begin = at ? strchr(at, '>') + 1 : file.text;
    char *kept = strndup(begin, at ? strcspn(begin, "<") : 0);
    pl_buffer_free(&file);
    pl_drawing_free(drawing);
    return kept;
}

static void a_text_too_wide_is_cut_with_an_ellipsis(void **state)
{
    (void)state;
    static const char text[] = "outer skin of the gr\xc3\xb6\xc3\x9fter wing \xe6\x97\xa5 at 45 degrees";
    static const char dots[] = "\xe2\x80\xa6";
    double whole = pl_text_width_mm(text, 3.5);
    double widest = 0;
    for (double width = 0; width < 1.1 * whole; width += 0.37) {
        char *kept = cut(text, width);
        size_t length = strlen(kept);
        double kept_mm = pl_text_width_mm(kept, 3.5);
        assert_true(kept_mm <= width && kept_mm >= widest);
        widest = kept_mm;
        if (width >= whole)
            assert_string_equal(kept, text);
        else if (width >= pl_text_width_mm(dots, 3.5))
            assert_true(length >= 3 && !strcmp(kept + length - 3, dots) && !strncmp(kept, text, length - 3));
        else
            assert_int_equal(length, 0);
        free(kept);
    }
}

static void a_cut_keeps_all_that_fits(void **state)
{
    (void)state;
    /* Six letters and the ellipsis, and less than a seventh. */
    double width = pl_text_width_mm("HHHHHH\xe2\x80\xa6", 3.5);
    char *exact = cut("HHHHHHHHHHHH", width), *more = cut("HHHHHHHHHHHH", width + 0.9 * pl_text_width_mm("H", 3.5));
    char *blank = cut("HHHHHH HHHHH", width + 1.1 * pl_text_width_mm(" ", 3.5));
    assert_string_equal(exact, "HHHHHH\xe2\x80\xa6");
    assert_string_equal(more, "HHHHHH\xe2\x80\xa6");
    assert_string_equal(blank, "HHHHHH\xe2\x80\xa6"); /* no blank before the ellipsis */
    free(exact), free(more), free(blank);
}

/* ---- what cannot be drawn ---- */

static void assert_refused(struct pl_drawing *drawing)
{
    struct pl_buffer file = {0};
    assert_int_equal(pl_drawing_pdf(drawing, "t", &file), PL_BAD_INPUT);
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &file), PL_BAD_INPUT);
    assert_int_equal(file.length, 0);
    pl_drawing_free(drawing);
}

static void a_drawing_with_a_place_that_is_none_is_refused_whole(void **state)
{
    (void)state;
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY, 1e9};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct pl_drawing *line = new_page(10, 10), *shape = new_page(10, 10), *arrow = new_page(10, 10);
        struct pl_drawing *text = new_page(10, 10), *rectangle = new_page(10, 10), *in = new_page(10, 10);
        pl_drawing_line(line, PL_PEN_LINE, 0, 0, 1, bad[i]);
        pl_drawing_line(line, PL_PEN_LINE, 0, 0, 1, 1); /* nor does what follows make it good */
        pl_drawing_shape(shape, PL_PEN_LINE, PL_FILL_NONE, true, bad + i, bad + i, 1);
        pl_drawing_arrow(arrow, bad[i], 0, bad[i], 0);
        pl_drawing_text(text, 0, 0, bad[i], PL_AT_START, 0, "a");
        pl_drawing_rectangle(rectangle, PL_PEN_LINE, PL_FILL_NONE, 0, 0, bad[i], 1);
        pl_drawing_text_in(in, 0, bad[i], 3, 10, "a");
        assert_refused(line), assert_refused(shape), assert_refused(arrow);
        assert_refused(text), assert_refused(rectangle), assert_refused(in);
    }
}

static void a_drawing_without_a_page_that_can_be_is_refused(void **state)
{
    (void)state;
    assert_refused(pl_drawing_new());
    struct pl_drawing *before = pl_drawing_new(), *flat = new_page(10, 0), *large = new_page(5081, 10);
    pl_drawing_line(before, PL_PEN_LINE, 0, 0, 1, 1);
    pl_drawing_page(before, 10, 10);
    assert_refused(before), assert_refused(flat), assert_refused(large), assert_refused(new_page((double)NAN, 10));
    struct pl_drawing *words = new_page(10, 10);
    pl_drawing_text(words, 0, 0, 0, PL_AT_START, 0, "a");
    assert_refused(words);
}

/* ---- memory ---- */

static enum pl_status draw_much(struct pl_buffer *file)
{
    struct pl_drawing *drawing = pl_drawing_new();
    if (!drawing)
        return PL_NO_MEMORY;
    for (int page = 0; page < 20; page++) {
        pl_drawing_page(drawing, 210, 297);
        draw_a_sheet(drawing);
    }
    enum pl_status status = pl_drawing_svg(drawing, 7, "sheet", file);
    pl_drawing_free(drawing);
    return status;
}

static void memory_that_runs_out_is_told(void **state)
{
    (void)state;
    if (!counts() || !can_fail())
        return;
    enum pl_status status = PL_NO_MEMORY;
    long tries = 0;
    for (; status != PL_OK && tries < 10000; tries++) {
        struct pl_buffer file = {0};
        fail_in = tries;
        status = draw_much(&file);
        fail_in = -1;
        assert_true(status == PL_OK || status == PL_NO_MEMORY);
        pl_buffer_free(&file);
    }
    assert_int_equal(status, PL_OK);
    assert_true(tries > 60); /* each of 60 words alone takes a copy */
}

/* All goes well again behind the one failure: that there was one must not be forgotten. */
static void memory_that_ran_out_once_is_told(void **state)
{
    (void)state;
    if (!counts() || !can_fail())
        return;
    struct pl_drawing *drawing = new_page(100, 100);
    struct pl_buffer file = {0};
    pl_drawing_group(drawing, "one");
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &file), PL_OK);
    pl_buffer_clear(&file); /* its memory is there: the next to be taken is for the title, then for the names */
    fail_in = 1;
    enum pl_status names = pl_drawing_svg(drawing, 0, "t", &file);
    char longer[600] = "";
    memset(longer, 'a', sizeof longer - 1);
    fail_in = 1; /* the copy is made, the place for it among the others is not */
    pl_drawing_text(drawing, 1, 1, 3, PL_AT_START, 0, longer);
    fail_in = -1;
    assert_int_equal(names, PL_NO_MEMORY);
    pl_buffer_clear(&file);
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &file), PL_NO_MEMORY);
    assert_int_equal(pl_drawing_pdf(drawing, "t", &file), PL_NO_MEMORY);
    pl_buffer_free(&file);
    pl_drawing_free(drawing);
}

static void a_buffer_that_failed_is_told(void **state)
{
    (void)state;
    struct pl_drawing *drawing = new_page(10, 10);
    struct pl_buffer file = {.failed = true};
    assert_int_equal(pl_drawing_pdf(drawing, "t", &file), PL_NO_MEMORY);
    assert_int_equal(pl_drawing_svg(drawing, 0, "t", &file), PL_NO_MEMORY);
    assert_null(file.text);
    pl_drawing_free(drawing);
    pl_drawing_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_have_the_sizes_asked_in_points),
        cmocka_unit_test(the_same_drawing_gives_the_same_bytes),
        cmocka_unit_test(letters_are_embedded),
        cmocka_unit_test(strange_texts_give_a_whole_file),
        cmocka_unit_test(a_locale_with_commas_changes_no_byte),
        cmocka_unit_test(words_are_as_wide_as_their_letters),
        cmocka_unit_test(a_text_too_wide_is_cut_with_an_ellipsis),
        cmocka_unit_test(a_cut_keeps_all_that_fits),
        cmocka_unit_test(a_drawing_with_a_place_that_is_none_is_refused_whole),
        cmocka_unit_test(a_drawing_without_a_page_that_can_be_is_refused),
        cmocka_unit_test(memory_that_runs_out_is_told),
        cmocka_unit_test(memory_that_ran_out_once_is_told),
        cmocka_unit_test(a_buffer_that_failed_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
