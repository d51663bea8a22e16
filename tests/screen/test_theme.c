#include "../support.h"

#include "plyloft/theme.h"

#include <math.h>

static void without_colour_no_role_has_one(void **state)
{
    (void)state;
    for (int role = 0; role < PL_ROLES; role++) {
        struct pl_look look = pl_theme_look((enum pl_role)role, PL_DEPTH_MONO);
        assert_int_equal(look.foreground, PL_COLOUR_DEFAULT);
        assert_int_equal(look.background, PL_COLOUR_DEFAULT);
    }
}

static void without_colour_the_grave_roles_still_look_different(void **state)
{
    (void)state;
    static const enum pl_role roles[] = {PL_ROLE_TEXT, PL_ROLE_HOLDS, PL_ROLE_FAILS, PL_ROLE_WARNING, PL_ROLE_CHOSEN,
                                         PL_ROLE_EDIT};
    for (int i = 0; i < 6; i++)
        for (int k = 0; k < i; k++)
            assert_int_not_equal(pl_theme_look(roles[i], PL_DEPTH_MONO).attributes,
                                 pl_theme_look(roles[k], PL_DEPTH_MONO).attributes);
}

static void of_the_eight_colours_only_those_that_read_on_both_grounds_are_used(void **state)
{
    (void)state;
    for (int role = 0; role < PL_ROLES; role++) {
        struct pl_look look = pl_theme_look((enum pl_role)role, PL_DEPTH_8);
        assert_true(look.foreground < 8 && look.background < 8);
        if (look.background == PL_COLOUR_DEFAULT)
            assert_true(look.foreground == PL_COLOUR_DEFAULT || look.foreground == PL_COLOUR_RED ||
                        look.foreground == PL_COLOUR_GREEN || look.foreground == PL_COLOUR_MAGENTA);
    }
}

/* Relative luminance (ITU-R BT.709, with the sRGB transfer of IEC 61966-2-1). */
static double luminance(uint32_t rgb)
{
    static const double weights[3] = {0.2126, 0.7152, 0.0722};
    double sum = 0;
    for (int i = 0; i < 3; i++) {
        double v = (rgb >> (16 - 8 * i) & 0xff) / 255.0;
        sum += weights[i] * (v <= 0.04045 ? v / 12.92 : pow((v + 0.055) / 1.055, 2.4));
    }
    return sum;
}

static double contrast(double a, double b)
{
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

static void fixed_colours_are_the_cube_and_the_greys(void **state)
{
    (void)state;
    assert_int_equal(pl_colour_rgb(16), 0x000000);
    assert_int_equal(pl_colour_rgb(28), 0x008700);   /* 28 - 16 = 0 x 36 + 2 x 6 + 0 */
    assert_int_equal(pl_colour_rgb(231), 0xffffff);
    assert_int_equal(pl_colour_rgb(232), 0x080808);
    assert_int_equal(pl_colour_rgb(255), 0xeeeeee);
    assert_close(contrast(luminance(0xffffff), luminance(0)), 21, 1e-12);
}

static void each_fixed_colour_reads_on_black_and_on_white(void **state)
{
    (void)state;
    for (int role = 0; role < PL_ROLES; role++) {
        struct pl_look look = pl_theme_look((enum pl_role)role, PL_DEPTH_256);
        if (look.foreground == PL_COLOUR_DEFAULT) {
            assert_int_equal(look.background, PL_COLOUR_DEFAULT);
            continue;
        }
        assert_true(look.foreground >= 16);
        double fore = luminance(pl_colour_rgb(look.foreground));
        if (look.background != PL_COLOUR_DEFAULT) {
            assert_true(contrast(fore, luminance(pl_colour_rgb(look.background))) >= 4);
        } else {
            assert_true(contrast(fore, 0) >= 4);
            assert_true(contrast(fore, 1) >= 4);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_colour_no_role_has_one),
        cmocka_unit_test(without_colour_the_grave_roles_still_look_different),
        cmocka_unit_test(of_the_eight_colours_only_those_that_read_on_both_grounds_are_used),
        cmocka_unit_test(fixed_colours_are_the_cube_and_the_greys),
        cmocka_unit_test(each_fixed_colour_reads_on_black_and_on_white),
    };
    return cmocka_run_group_tests_name("theme", tests, NULL, NULL);
}
