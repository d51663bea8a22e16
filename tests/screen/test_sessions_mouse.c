/* The mouse on the real program: off until M, then what can be chosen is clicked - pages, rows, fields, drawings, what the
 * foot names, items of lists, answers to questions, parts to open - and off again. */
#include "seat.h"

#include "plyloft/text.h"

static const struct surroundings usual = {.term = "xterm-256color", .columns = 100, .rows = 30};
static struct seat seat;

/* Where words stand, counted from 1 as the terminal does. */
static bool place_of(const char *words, int *row, int *column)
{
    const char *page = picture(&seat), *found = strstr(page, words);
    char before[2048];
    if (!found)
        return false;
    *row = 1;
    for (const char *c = page; c < found; c++)
        *row += *c == '\n';
    const char *start = found;
    while (start > page && start[-1] != '\n')
        start--;
    snprintf(before, sizeof before, "%.*s", (int)(found - start), start);
    *column = pl_text_columns(before) + 1;
    return true;
}

/* Button 1 down and up on the words. */
static void click_on(const char *words)
{
    struct pl_buffer bytes = {0};
    int row, column;
    while (look_for(&seat, QUIET_MS))  /* a page comes in pieces */
        continue;
    if (!place_of(words, &row, &column))
        fail_msg("\"%s\" is nowhere to be clicked:\n%s", words, picture(&seat));
    pl_buffer_printf(&bytes, "\033[<0;%d;%dM\033[<0;%d;%dm", column + 1, row, column + 1, row);
    send(&seat, &bytes);
    pl_buffer_free(&bytes);
}

static void click_leads_to(const char *words, const char *shown)
{
    click_on(words);
    await(&seat, words, shown);
}

static void open_bench(void)
{
    char *text = read_whole_file(SAMPLE_PART, NULL);
    sit(&seat, &usual, text);
    await(&seat, "the start", "WING");
    free(text);
}

static void end(void)
{
    stand_up(&seat);
    seat_free(&seat);
}

static void pages_rows_drawings_and_answers_are_clicked(void **state)
{
    (void)state;
    open_bench();
    press(&seat, "M");
    await(&seat, "mouse on", "mouse on");
    click_leads_to("4 Strength", "all load cases");
    click_leads_to("kerb on tip ", "reserve: kerb on tip");
    click_leads_to("2 Cloth", "lay-up");
    click_leads_to("top cap ", "▸ top cap");
    click_leads_to("- + step", "top cap");  /* the key under the pointer: + */
    click_leads_to("? help", "Keys that matter here");
    click_leads_to("f find", "Find an action");
    click_leads_to("first row", "▸ first skin");
    click_leads_to("? help", "Keys that matter here");
    click_leads_to("Escape back", "▸ first skin");
    press(&seat, "q");
    await(&seat, "leaving", "Not saved");
    click_leads_to("Escape stay", "▸ first skin");
    end();
}

static void a_click_on_the_plan_puts_the_marker_there(void **state)
{
    (void)state;
    int row, column;
    open_bench();
    press(&seat, "M");
    await(&seat, "mouse on", "mouse on");
    assert_true(place_of("plies on the top", &row, &column));
    struct pl_buffer bytes = {0};
    pl_buffer_printf(&bytes, "\033[<0;%d;%dM\033[<0;%d;%dm", 25, row + 3, 25, row + 3);
    send(&seat, &bytes);
    pl_buffer_free(&bytes);
    /* The middle of the 24th of 48 columns over 640 mm: 23.5 / 48 x 640 = 313 mm. */
    await(&seat, "the plan clicked", "y 313 right");
    end();
}

static void without_being_asked_for_and_once_switched_off_a_click_does_nothing(void **state)
{
    (void)state;
    open_bench();
    assert_null(strstr(output_of(&seat.p), "1000h"));
    click_on("4 Strength");
    press(&seat, "Down");
    await(&seat, "Cloth still", "▸ bracket wrap");
    press(&seat, "M");
    await(&seat, "mouse on", "mouse on");
    assert_non_null(strstr(output_of(&seat.p), "1000h"));
    press(&seat, "M");
    await(&seat, "mouse off", "mouse off");
    click_on("4 Strength");
    press(&seat, "Down");
    await(&seat, "Cloth still", "▸ top cap");
    end();
}

static void a_part_is_opened_by_a_click_on_the_list(void **state)
{
    (void)state;
    open_bench();
    press(&seat, "M o");
    await(&seat, "the list", "which part");
    click_leads_to("part.json", "lay-up");
    end();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_rows_drawings_and_answers_are_clicked),
        cmocka_unit_test(a_click_on_the_plan_puts_the_marker_there),
        cmocka_unit_test(without_being_asked_for_and_once_switched_off_a_click_does_nothing),
        cmocka_unit_test(a_part_is_opened_by_a_click_on_the_list),
    };
    return cmocka_run_group_tests_name("clicks of sessions", tests, seats_set_up, seats_take_down);
}
