/* Lists of coordinates as builders exchange them: every order and spelling gives the same outline, every fault is told
 * with its line, and no text whatever does harm. */
#include "../support.h"

#include "plyloft/buffer.h"
#include "plyloft/profile.h"
#include "plyloft/profile_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#if defined(__has_feature)
#define UNDER_SANITIZER __has_feature(address_sanitizer)
#elif defined(__SANITIZE_ADDRESS__)
#define UNDER_SANITIZER 1
#else
#define UNDER_SANITIZER 0
#endif

/* ---- reading in tests ---- */

static struct pl_arena arena;
static struct pl_problems problems;

static int start(void **state)
{
    (void)state;
    pl_arena_reset(&arena);
    pl_problems_clear(&problems);
    return 0;
}

static int finish(void **state)
{
    (void)state;
    pl_arena_free(&arena);
    pl_problems_free(&problems);
    return 0;
}

/* Reads from memory of just that size, so that a byte too far is seen by the sanitizers. */
static enum pl_status read_bytes(const char *bytes, size_t length, struct pl_profile_text *out)
{
    char *exact = malloc(length ? length : 1);
    assert_non_null(exact);
    memcpy(exact, bytes, length);
    pl_arena_reset(&arena);
    pl_problems_clear(&problems);
    enum pl_status status = pl_profile_text_read(exact, length, &arena, out, &problems);
    free(exact);
    return status;
}

static struct pl_profile_text read_good(const char *text)
{
    struct pl_profile_text out;
    char sentence[400] = "";
    if (read_bytes(text, strlen(text), &out) != PL_OK) {
        if (problems.count)
            pl_problem_sentence(&problems.list[0], NULL, sentence, sizeof sentence);
        fail_msg("refused: %s\n%s", sentence, text);
    }
    assert_int_equal(problems.count, 0);
    return out;
}

/* Refused, with one complaint, this one. */
static void assert_complaint(const char *text, const char *want)
{
    struct pl_profile_text out;
    char sentence[400] = "";
    assert_int_equal(read_bytes(text, strlen(text), &out), PL_BAD_INPUT);
    assert_int_equal(problems.errors, problems.count);
    assert_true(problems.count > 0);
    pl_problem_sentence(&problems.list[0], NULL, sentence, sizeof sentence);
    assert_string_equal(sentence, want);
    assert_int_equal(problems.count, 1);
}

/* ---- one outline, written in every way ---- */

enum { UPPER = 7, LOWER = 6, COUNT = UPPER + LOWER - 1 };  /* points of the surfaces, the nose in both */

/* From the trailing edge; all are short in decimal, so that spellings are exact. */
static const struct pl_point outline[COUNT] = {
    {1, 0.0025}, {0.75, 0.04}, {0.5, 0.0725}, {0.25, 0.085}, {0.125, 0.0675}, {0.03125, 0.035}, {0, 0},
    {0.0625, -0.025}, {0.25, -0.035}, {0.5, -0.0275}, {0.75, -0.015}, {1, -0.0025}};

static void assert_is_outline(const struct pl_profile_text *got)
{
    size_t at;
    assert_int_equal(got->count, COUNT);
    assert_null(pl_points_fault(got->points, got->count, &at));
    for (size_t i = 0; i < COUNT; i++) {
        assert_close(got->points[i].x, outline[i].x, 1e-15);
        assert_close(got->points[i].z, outline[i].z, 1e-15);
    }
}

/* How a list is written. */
struct manner {
    double scale;
    const char *before, *between, *after;  /* columns */
    char point;
};

static const struct manner plain = {1, "", " ", "\n", '.'};

static void add_number(struct pl_buffer *b, const struct manner *m, double value)
{
    char text[32];
    pl_number_shortest(text, sizeof text, value * m->scale);
    for (char *c = text; *c; c++)
        *c = *c == '.' ? m->point : *c;
    pl_buffer_text(b, text);
}

static void add_point(struct pl_buffer *b, const struct manner *m, size_t i)
{
    pl_buffer_text(b, m->before);
    add_number(b, m, outline[i].x);
    pl_buffer_text(b, m->between);
    add_number(b, m, outline[i].z);
    pl_buffer_text(b, m->after);
}

static void add_round(struct pl_buffer *b, const struct manner *m)
{
    for (size_t i = 0; i < COUNT; i++)
        add_point(b, m, i);
}

static void add_upper(struct pl_buffer *b, const struct manner *m)
{
    for (size_t i = UPPER; i-- > 0;)
        add_point(b, m, i);
}

static void add_lower(struct pl_buffer *b, const struct manner *m)
{
    for (size_t i = UPPER - 1; i < COUNT; i++)
        add_point(b, m, i);
}

/* Reads it as the outline and frees it. */
static struct pl_profile_text read_outline(struct pl_buffer *b)
{
    assert_false(b->failed);
    struct pl_profile_text out = read_good(b->text);
    assert_is_outline(&out);
    pl_buffer_free(b);
    return out;
}

static void an_outline_over_the_upper_surface_first_stays_as_it_is(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    add_round(&b, &plain);
    struct pl_profile_text out = read_outline(&b);
    assert_false(out.per_cent || out.by_surface || out.lower_first);
    assert_string_equal(out.title, "");
}

static void an_outline_under_the_lower_surface_first_is_turned_round(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    for (size_t i = COUNT; i-- > 0;)
        add_point(&b, &plain, i);
    struct pl_profile_text out = read_outline(&b);
    assert_true(out.lower_first && !out.by_surface);
}

static void two_surfaces_from_nose_to_tail_give_the_same_outline(void **state)
{
    (void)state;
    static const char *const gaps[] = {"", "\n", "  \n\t\n", "# lower surface\n"};
    for (size_t i = 0; i < sizeof gaps / sizeof *gaps; i++) {
        struct pl_buffer b = {0};
        add_upper(&b, &plain);
        pl_buffer_text(&b, gaps[i]);
        add_lower(&b, &plain);
        struct pl_profile_text out = read_outline(&b);
        assert_true(out.by_surface && !out.lower_first);
    }
}

static void the_lower_surface_may_come_first(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    add_lower(&b, &plain);
    add_upper(&b, &plain);
    struct pl_profile_text out = read_outline(&b);
    assert_true(out.by_surface && out.lower_first);
}

static void counts_may_stand_before_the_surfaces_or_between_them(void **state)
{
    (void)state;
    static const char *const heads[] = {"7 6\n", "a title\n7. 6.\n\n", "a title\n\n 7,6\n",
                                        "a title\n7.0E+00 6.0E+00\n", ""};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        struct pl_buffer b = {0};
        pl_buffer_text(&b, heads[i]);
        add_upper(&b, &plain);
        pl_buffer_text(&b, heads[i][0] ? "\n" : "7 6\n");
        add_lower(&b, &plain);
        assert_true(read_outline(&b).by_surface);
    }
}

static void points_in_per_cent_are_divided_by_100(void **state)
{
    (void)state;
    struct manner per_cent = plain;
    per_cent.scale = 100;
    for (int by_surface = 0; by_surface < 2; by_surface++) {
        struct pl_buffer b = {0};
        if (by_surface) {
            pl_buffer_text(&b, "counted\n7 6\n");
            add_upper(&b, &per_cent);
            add_lower(&b, &per_cent);
        } else {
            add_round(&b, &per_cent);
        }
        assert_true(read_outline(&b).per_cent);
    }
}

static void whole_numbers_in_per_cent_are_not_taken_for_counts(void **state)
{
    (void)state;
    /* "4 3" stands before three points, as counts between surfaces might, but after three only */
    struct pl_profile_text out = read_good("0 0\n2 2\n4 3\n50 5\n100 0\n0 0\n5 -2\n100 -1\n");
    assert_int_equal(out.count, 7);
    assert_true(out.per_cent);
}

static void a_nose_in_both_halves_is_folded(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    for (size_t i = 0; i < UPPER; i++)
        add_point(&b, &plain, i);
    pl_buffer_text(&b, "\n");
    add_lower(&b, &plain);
    assert_false(read_outline(&b).by_surface);
}

static void two_points_above_each_other_at_the_nose_both_stay(void **state)
{
    (void)state;
    struct pl_profile_text out = read_good("0 0.01\n0.5 0.06\n1 0\n0 -0.01\n0.5 -0.04\n1 0\n");
    assert_int_equal(out.count, 6);
    assert_close(out.points[2].z, 0.01, 0);
    assert_close(out.points[3].z, -0.01, 0);
}

static void a_nose_that_is_not_at_0_is_kept_as_given(void **state)
{
    (void)state;
    struct pl_profile_text out = read_good("1.001 0.001\n0.5 0.06\n0.0004 0.0012\n0.5 -0.04\n0.9992 -0.001\n");
    assert_close(out.points[0].x, 1.001, 0);
    assert_close(out.points[2].x, 0.0004, 0);
    assert_close(out.points[2].z, 0.0012, 0);
    assert_close(out.points[4].x, 0.9992, 0);
}

/* ---- spelling ---- */

static void line_ends_blanks_and_separators_make_no_difference(void **state)
{
    (void)state;
    static const struct manner manners[] = {
        {1, "", " ", "\r\n", '.'},       {1, "", " ", "\r", '.'},    {1, "  ", "   ", "  \n", '.'},
        {1, "\t", "\t", "\t\n", '.'},    {1, "", ",", "\n", '.'},    {1, "", ", ", "\n", '.'},
        {1, " ", " , ", ",\n", '.'},     {1, "", ";", "\n", '.'},    {1, "", " ; ", ";\r\n", '.'},
        {1, "", " ", "\n", ','},         {1, "", "\t", "\r\n", ','}, {1, "", ";", "\n", ','},
        {1, "", "; ", "\n", ','},        {1, "", ", ", "\n", ','},   {100, "", " ", "\n\n", ','},
        {1, "", " ", " # here\n", '.'},  {1, "+", " ", " ! p. 7\n", ','}, {1, "", " ", " // 3, 4\n", '.'},
    };
    for (size_t i = 0; i < sizeof manners / sizeof *manners; i++) {
        struct pl_buffer b = {0};
        add_round(&b, &manners[i]);
        read_outline(&b);
    }
}

static void the_last_line_needs_no_end(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    add_round(&b, &plain);
    b.text[--b.length] = '\0';
    read_outline(&b);
}

static void marks_before_and_behind_the_text_are_taken_off(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    pl_buffer_text(&b, "\xef\xbb\xbf");
    add_round(&b, &plain);
    pl_buffer_text(&b, "\x1a");
    read_outline(&b);
}

static void numbers_may_have_exponents_signs_and_bare_points(void **state)
{
    (void)state;
    struct pl_profile_text out = read_good("+1.0E+00 1.e-3\n.5 6D-02\n0. -0\n5e-1 -.04\n1d0 -1.0d-3\n");
    assert_int_equal(out.count, 5);
    assert_close(out.points[0].z, 0.001, 1e-15);
    assert_close(out.points[1].z, 0.06, 1e-15);
    assert_close(out.points[4].z, -0.001, 1e-15);
}

#define BODY "1 0\n.5 .06\n0 0\n.5 -.04\n1 0\n"

static void a_first_line_of_words_is_the_title(void **state)
{
    (void)state;
    assert_string_equal(read_good("hill section, 12 % thick  \r\n" BODY).title, "hill section, 12 % thick");
    assert_string_equal(read_good("# remark\n\n; another\n// and\n! one more\n  23012 m\n" BODY).title, "23012 m");
    assert_string_equal(read_good("4412\n" BODY).title, "4412");
    assert_string_equal(read_good("wing 1.5 0.5\n" BODY).title, "wing 1.5 0.5");
    assert_string_equal(read_good("rear\nx/c, y/c\n" BODY).title, "rear");
    assert_string_equal(read_good("X\tZ\n" BODY).title, "");
    assert_string_equal(read_good(BODY).title, "");
}

static void a_title_is_safe_to_print_and_cut_to_its_place(void **state)
{
    (void)state;
    /* U+202E would turn the line's direction, 0xe9 alone is no UTF-8 */
    assert_string_equal(read_good("a\xe2\x80\xae" "b caf\xe9 x\n" BODY).title, "a\xef\xbf\xbd" "b caf\xef\xbf\xbd x");
    struct pl_buffer b = {0};
    for (int i = 0; i < 500; i++)
        pl_buffer_text(&b, "long ");
    pl_buffer_text(&b, "\n" BODY);
    struct pl_profile_text out = read_good(b.text);
    assert_true(strlen(out.title) < sizeof out.title && strlen(out.title) > 80);
    pl_buffer_free(&b);
}

static void what_the_program_prints_of_a_naca_profile_is_read_back(void **state)
{
    (void)state;
    enum { MANY = 81 };
    struct pl_profile profile = {.name = "main", .naca = "6412"};
    struct pl_point points[MANY];
    struct pl_buffer b = {0};
    pl_profile_list(&profile, MANY, points);
    pl_buffer_text(&b, "main: area 0.082853, thickness 0.12000, camber 0.06000 (chords)\n");
    for (size_t i = 0; i < MANY; i++) {
        char x[32], z[32];
        pl_number_fixed(x, sizeof x, points[i].x, 6);
        pl_number_fixed(z, sizeof z, points[i].z, 6);
        pl_buffer_printf(&b, "%12s %12s\n", x, z);
    }
    struct pl_profile_text out = read_good(b.text);
    assert_int_equal(out.count, MANY);
    for (size_t i = 0; i < MANY; i++)
        assert_true(fabs(out.points[i].x - points[i].x) < 6e-7 && fabs(out.points[i].z - points[i].z) < 6e-7);
    pl_buffer_free(&b);
}

/* ---- complaints ---- */

static void every_fault_of_a_line_is_told_with_its_line_and_what_stands_there(void **state)
{
    (void)state;
    assert_complaint("title\n1 0\n.5 .06\n0 O\n.5 -.04\n1 0\n", "line 4: is not a decimal number (found O)");
    assert_complaint("1 0\n.5 nan\n0 0\n.5 -.04\n1 0\n", "line 2: is not a decimal number (found nan)");
    assert_complaint("inf 0\n.5 .06\n0 0\n.5 -.04\n1 0\n", "line 1: is not a decimal number (found inf)");
    assert_complaint("1 0\n.5 .06\n0 0\n.5 -1e999\n1 0\n", "line 4: is not a decimal number (found -1e999)");
    assert_complaint("1 0\n.5 0x1p-4\n0 0\n.5 -.04\n1 0\n", "line 2: is not a decimal number (found 0x1p-4)");
    assert_complaint("1.0 0.x\n.5 .06\n0 0\n.5 -.04\n1 0\n", "line 1: is not a decimal number (found 0.x)");
    assert_complaint("1,0 0,0\n0,5 0,06\n0 0\n0,5 -0,04\n1,0 O\n", "line 5: is not a decimal number (found O)");
    assert_complaint("1 0\r\n.5 .06\r\n\r\n0\r\n.5 -.04\r\n1 0\r\n",
                     "line 4: must hold two numbers, x and z: it has 1 (found 0)");
    assert_complaint("1 0 0\n.5 .06\n0 0\n.5 -.04\n1 0\n",
                     "line 1: must hold two numbers, x and z: it has 3 (found 1 0 0)");
    assert_complaint("1 0\n.5 .06\n0 0\n.5,,-.04\n1 0\n", "line 4: has an empty column (found .5,,-.04)");
    assert_complaint("1 0\n.5 .06\n,0 0\n.5 -.04\n1 0\n", "line 3: has an empty column (found ,0 0)");
    assert_complaint("1 0\n0,5,0,06\n0 0\n.5 -.04\n1 0\n",
                     "line 2: must hold two numbers, x and z: it has 4 (found 0,5,0,06)");
}

static void commas_may_not_mean_two_things_in_one_text(void **state)
{
    (void)state;
    assert_complaint("1.0 0\n0,5 0,06\n0 0\n.5 -.04\n1 0\n",
                     "line 2: has a comma as decimal sign, but line 1 has a point");
    assert_complaint("1 0\n0,5 0,06\n0,0\n0,5 -0,04\n1 0\n",
                     "line 2: has a comma as decimal sign, but line 3 parts its columns with one");
}

static void a_text_that_is_none_is_told_as_such(void **state)
{
    (void)state;
    assert_complaint("", "holds no coordinates");
    assert_complaint(" \n\n\t\r\n", "holds no coordinates");
    assert_complaint("only a title\n# and a remark\n", "holds no coordinates");
    assert_complaint("\xef\xbb\xbf", "holds no coordinates");
    assert_complaint("1 0\n.5 \x01\n0 0\n", "line 2: is not plain text: it has a byte 0x01");
    assert_complaint("\x7f" "ELF\x02\x01\x01", "line 1: is not plain text: it has a byte 0x7f");
    assert_complaint("\xff\xfe" "1", "is a text of two bytes a letter (UTF-16): save it as UTF-8");
    assert_complaint("\xfe\xff", "is a text of two bytes a letter (UTF-16): save it as UTF-8");
    struct pl_profile_text out;
    assert_int_equal(read_bytes("1 0\n0\0 0\n", 9, &out), PL_BAD_INPUT);
    assert_string_equal(problems.list[0].rule, "is not plain text: it has a byte 0x00");
    pl_problems_clear(&problems);
    assert_int_equal(pl_profile_text_read(NULL, 0, &arena, &out, &problems), PL_BAD_INPUT);
}

static void a_shape_that_is_none_is_told_with_the_line(void **state)
{
    (void)state;
    assert_complaint("1 0\n.5 .06\n0 0\n1 0\n", "needs at least 5 points: it has 4");
    assert_complaint("275 0\n137 16\n-.5 0\n137 -11\n275 0\n",
                     "line 1: x must run to 1 (chords) or 100 (per cent of the chord): it runs from -0.5 to 275"
                     " (found 275 0)");
    assert_complaint("0.9 0\n.5 .06\n0 0\n.5 -.04\n.9 0\n",
                     "line 1: x must run to 1 (chords) or 100 (per cent of the chord): it runs from 0 to 0.9"
                     " (found 0.9 0)");
    assert_complaint("1 0\n.5 .06\n.1 0\n.5 -.04\n1 0\n",
                     "line 3: must reach from x = 0 at the nose to x = 1 at the trailing edge"
                     " (found .1 0)");
    assert_complaint("1 0\n.5 .06\n.5 .06\n0 0\n.5 -.04\n1 0\n", "line 3: repeats the point before it (found .5 .06)");
    assert_complaint("1 0\n.5 .06\n0 0\n0 0\n0 0\n.5 -.04\n1 0\n", "line 5: repeats the point before it (found 0 0)");
    assert_complaint("0 0\n0 0\n.5 .06\n1 0\n0 0\n.5 -.04\n1 0\n", "line 2: repeats the point before it (found 0 0)");
    assert_complaint("1 0\n.5 .06\n.75 .04\n0 0\n.5 -.04\n1 0\n",
                     "line 3: turns back: x must fall from the trailing edge over the"
                     " upper surface to the nose (found .75 .04)");
    assert_complaint("1 0\n.5 .06\n0 0\n.5 -.04\n.25 -.05\n1 0\n",
                     "line 5: turns back: x must rise from the nose under the lower"
                     " surface to the trailing edge (found .25 -.05)");
    assert_complaint("1 0\n.6 .06\n0 0\n.3 -.04\n.6 .1\n1 0\n",
                     "line 2: has crossing surfaces, or goes round under the lower"
                     " surface first (found .6 .06)");
}

static void orders_that_are_none_are_told_with_the_line(void **state)
{
    (void)state;
    static const char order[] = "ends ahead of mid-chord: the order must be from the trailing edge round the nose and"
                                " back, or each surface from nose to tail";
    char want[300];
    /* from the nose all the way round; then either surface from tail to nose */
    snprintf(want, sizeof want, "line 5: %s (found 0 0)", order);
    assert_complaint("0 0\n.5 .06\n1 0\n.5 -.04\n0 0\n", want);
    snprintf(want, sizeof want, "line 6: %s (found 0 0)", order);
    assert_complaint("1 0\n.5 .06\n0 0\n1 0\n.5 -.04\n0 0\n", want);
    assert_complaint("0 0\n.1 .03\n.3 .05\n.5 .06\n1 0\n",
                     "line 5: ends one surface: the other must follow, from the nose again"
                     " (found 1 0)");
}

static void counts_that_do_not_fit_are_told(void **state)
{
    (void)state;
    assert_complaint("t\n4 3\n0 0\n.5 .06\n1 0\n0 0\n.5 -.04\n1 0\n",
                     "line 2: counts 7 points, but 6 follow (found 4 3)");
    assert_complaint("t\n4 2\n0 0\n.5 .06\n1 0\n0 0\n.5 -.04\n1 0\n",
                     "line 6: begins the second surface, but the counts put 4 points"
                     " in the first (found 0 0)");
}

static void complaints_end_after_ten(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    struct pl_profile_text out;
    for (int i = 0; i < 3000; i++)
        pl_buffer_text(&b, "<td>one</td> <td>two</td>\n");
    assert_int_equal(read_bytes(b.text, b.length, &out), PL_BAD_INPUT);
    assert_int_equal(problems.count, 10);
    pl_buffer_clear(&b);
    for (int i = 0; i < 50; i++)
        pl_buffer_text(&b, "1 0\n");
    pl_buffer_text(&b, BODY);
    assert_int_equal(read_bytes(b.text, b.length, &out), PL_BAD_INPUT);
    assert_int_equal(problems.count, 10);
    pl_buffer_free(&b);
}

static void add_many(struct pl_buffer *b, int upper, int lower)
{
    for (int i = 0; i < upper; i++)
        pl_buffer_printf(b, "%d.%06d 0.05\n", i == 0, i ? 1000000 - i * (1000000 / upper) : 0);
    pl_buffer_text(b, "0 0\n");
    for (int i = 1; i <= lower; i++)
        pl_buffer_printf(b, "%d.%06d -0.05\n", i == lower, i < lower ? i * (1000000 / lower) : 0);
}

static void two_thousand_points_are_taken_and_one_more_is_not(void **state)
{
    (void)state;
    struct pl_buffer b = {0};
    struct pl_profile_text out;
    add_many(&b, 1000, 999);
    assert_int_equal(read_good(b.text).count, 2000);
    for (int more = 1; more < 2000; more += more < 5 ? 1 : 500) {
        pl_buffer_clear(&b);
        add_many(&b, 1000 + more, 999);
        assert_int_equal(read_bytes(b.text, b.length, &out), PL_BAD_INPUT);
        assert_int_equal(problems.count, 1);
        assert_string_equal(problems.list[0].rule, "has too many points: at most 2000");
    }
    pl_buffer_free(&b);
}

/* ---- any text at all ---- */

static uint64_t seed = 20260117;

/* xorshift64* (Vigna 2016): the same mutations on every machine. */
static size_t any(size_t below)
{
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (size_t)((seed * 2685821657736338717u) >> 33) % below;
}

/* Another digit for one of the text: often still a profile, or nearly one. */
static void slip(char *text, size_t length)
{
    size_t at = any(length);
    for (size_t i = 0; i < length; i++, at = (at + 1) % length)
        if (text[at] >= '0' && text[at] <= '9') {
            text[at] = (char)('0' + any(10));
            return;
        }
}

static void mutate(char *text, size_t *length, size_t capacity)
{
    static const char *const bits[] = {
        "\n", "\r\n", " ", ",", ";", ".", "-", "e", "#", "//", "nan", "1e999", "0 0\n", "1 0\n", "5 4\n", "x z\n",
        "100 ", "\xef\xbb\xbf", "\xff", "0,5", "title\n", "999999999999999999", "+"};
    size_t at = any(*length + 1), cut = any(15) ? any(3) : any(*length - at + 1);
    cut = cut > *length - at ? *length - at : cut;
    memmove(text + at, text + at + cut, *length - at - cut);
    *length -= cut;
    const char *bit = bits[any(sizeof bits / sizeof *bits)];
    size_t more = any(5) ? strlen(bit) : 1;
    if (*length + more > capacity)
        return;
    memmove(text + at + more, text + at, *length - at);
    if (more == 1 && strlen(bit) != 1)
        text[at] = (char)any(256);
    else
        memcpy(text + at, bit, more);
    *length += more;
}

/* Either a profile, or complaints that say why not. */
static void assert_told(enum pl_status status, const struct pl_profile_text *out)
{
    size_t at;
    if (status == PL_OK) {
        assert_true(out->count >= 5 && out->count <= PL_PROFILE_POINTS_MOST);
        assert_null(pl_points_fault(out->points, out->count, &at));
        assert_int_equal(problems.count, 0);
        return;
    }
    assert_int_equal(status, PL_BAD_INPUT);
    assert_true(problems.errors >= 1 && problems.errors == problems.count && problems.count <= 10);
    for (size_t i = 0; i < problems.count; i++)
        assert_true(problems.list[i].rule[0]);
}

static void whatever_the_bytes_they_are_a_profile_or_told_why_not(void **state)
{
    (void)state;
    enum { CAPACITY = 900, MUTATIONS = UNDER_SANITIZER ? 200000 : 50000 };
    char text[CAPACITY];
    size_t length = 0, good = 0;
    struct pl_buffer sources[3] = {{0}, {0}, {0}};
    struct manner comma = {100, "", "\t", "\r\n", ','};
    pl_buffer_text(&sources[0], "a title\n");
    add_round(&sources[0], &plain);
    pl_buffer_text(&sources[1], "another\n7 6\n");
    add_upper(&sources[1], &plain);
    add_lower(&sources[1], &plain);
    add_lower(&sources[2], &comma);
    add_upper(&sources[2], &comma);
    for (size_t i = 0; i < MUTATIONS; i++) {
        if (any(3) == 0 || !length) {
            const struct pl_buffer *b = &sources[any(3)];
            memcpy(text, b->text, length = b->length);
        }
        if (any(2))
            slip(text, length);
        else
            mutate(text, &length, CAPACITY);
        struct pl_profile_text out;
        enum pl_status status = read_bytes(text, length, &out);
        assert_told(status, &out);
        good += status == PL_OK;
    }
    assert_in_range(good, MUTATIONS / 20, MUTATIONS / 2);  /* both ways are gone often */
    for (size_t i = 0; i < 3; i++)
        pl_buffer_free(&sources[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(an_outline_over_the_upper_surface_first_stays_as_it_is, start),
        cmocka_unit_test_setup(an_outline_under_the_lower_surface_first_is_turned_round, start),
        cmocka_unit_test_setup(two_surfaces_from_nose_to_tail_give_the_same_outline, start),
        cmocka_unit_test_setup(the_lower_surface_may_come_first, start),
        cmocka_unit_test_setup(counts_may_stand_before_the_surfaces_or_between_them, start),
        cmocka_unit_test_setup(points_in_per_cent_are_divided_by_100, start),
        cmocka_unit_test_setup(whole_numbers_in_per_cent_are_not_taken_for_counts, start),
        cmocka_unit_test_setup(a_nose_in_both_halves_is_folded, start),
        cmocka_unit_test_setup(two_points_above_each_other_at_the_nose_both_stay, start),
        cmocka_unit_test_setup(a_nose_that_is_not_at_0_is_kept_as_given, start),
        cmocka_unit_test_setup(line_ends_blanks_and_separators_make_no_difference, start),
        cmocka_unit_test_setup(the_last_line_needs_no_end, start),
        cmocka_unit_test_setup(marks_before_and_behind_the_text_are_taken_off, start),
        cmocka_unit_test_setup(numbers_may_have_exponents_signs_and_bare_points, start),
        cmocka_unit_test_setup(a_first_line_of_words_is_the_title, start),
        cmocka_unit_test_setup(a_title_is_safe_to_print_and_cut_to_its_place, start),
        cmocka_unit_test_setup(what_the_program_prints_of_a_naca_profile_is_read_back, start),
        cmocka_unit_test_setup(every_fault_of_a_line_is_told_with_its_line_and_what_stands_there, start),
        cmocka_unit_test_setup(commas_may_not_mean_two_things_in_one_text, start),
        cmocka_unit_test_setup(a_text_that_is_none_is_told_as_such, start),
        cmocka_unit_test_setup(a_shape_that_is_none_is_told_with_the_line, start),
        cmocka_unit_test_setup(orders_that_are_none_are_told_with_the_line, start),
        cmocka_unit_test_setup(counts_that_do_not_fit_are_told, start),
        cmocka_unit_test_setup(complaints_end_after_ten, start),
        cmocka_unit_test_setup(two_thousand_points_are_taken_and_one_more_is_not, start),
        cmocka_unit_test_setup(whatever_the_bytes_they_are_a_profile_or_told_why_not, start),
    };
    return cmocka_run_group_tests(tests, NULL, finish);
}
