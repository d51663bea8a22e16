/* What line mode says: the facts of every page, edit, value typed and question, as text; and which of them changed. */
#include "pages.h"

#include "screen/block.h"
#include "screen/facts.h"

static struct desk d;
static struct pl_facts said, now;
static struct pl_buffer out;

static int open_on(const char *part)
{
    desk_open(&d, part);
    press(&d, "2");
    return 0;
}

static int fresh(void **state)
{
    (void)state;
    return open_on(SAMPLE_PART);
}

static int fresh_whole(void **state)
{
    (void)state;
    return open_on(WHOLE_PART);
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    pl_facts_free(&said);
    pl_facts_free(&now);
    pl_buffer_free(&out);
    return 0;
}

/* ---- what is said ---- */

static void look(void)
{
    while (pl_session_idle(d.s))
        ;
    pl_facts_clear(&now);
    pl_facts_of_session(&now, d.s);
    assert_false(now.failed);
}

/* Everything, as lines; good until the next. */
static const char *all(void)
{
    static const struct pl_facts nothing;
    look();
    pl_buffer_clear(&out);
    pl_facts_changed(&now, &nothing, &out);
    assert_false(out.failed);
    struct pl_facts before = said;
    said = now;
    now = before;
    return out.text ? out.text : "";
}

/* What those keys changed. */
static const char *after(const char *keys)
{
    press(&d, keys);
    look();
    pl_buffer_clear(&out);
    pl_facts_changed(&now, &said, &out);
    assert_false(out.failed);
    struct pl_facts before = said;
    said = now;
    now = before;
    return out.text ? out.text : "";
}

static size_t count_lines(const char *text, const char *label)
{
    size_t n = 0, length = strlen(label);
    for (const char *line = text; *line; line = strchr(line, '\n') + 1)
        n += !strncmp(line, label, length) && !strncmp(line + length, ": ", 2);
    return n;
}

static size_t count_char(const char *text, char c)
{
    size_t n = 0;
    for (; *text; text++)
        n += *text == c;
    return n;
}

/* A whole line is there, or not. */
static void check_line(const char *text, const char *line, bool want, const char *file, int at)
{
    size_t length = strlen(line);
    const char *found = text;
    while ((found = strstr(found, line)) && ((found > text && found[-1] != '\n') || found[length] != '\n'))
        found++;
    if (!found == !want)
        return;
    print_error("\"%s\" is %s in:\n%s", line, want ? "not" : "", text);
    _fail(file, at);
}

static void check_label(const char *text, const char *label, bool want, const char *file, int at)
{
    if ((count_lines(text, label) > 0) == want)
        return;
    print_error("\"%s\" is %s:\n%s", label, want ? "not said" : "said", text);
    _fail(file, at);
}

#define assert_line(text, line) check_line(text, line, true, __FILE__, __LINE__)
#define assert_no_line(text, line) check_line(text, line, false, __FILE__, __LINE__)
#define assert_label(text, label) check_label(text, label, true, __FILE__, __LINE__)
#define assert_no_label(text, label) check_label(text, label, false, __FILE__, __LINE__)

/* Nothing but printable text in lines of "label: words". */
static void assert_plain(const char *text)
{
    for (const char *c = text; *c; c++) {
        if ((unsigned char)*c < 0x20 && *c != '\n')
            fail_msg("control byte %d in:\n%s", *c, text);
        uint32_t code;
        if (*c != '\n' && ((unsigned char)*c & 0xc0) != 0x80)
            assert_true(pl_utf8_decode(c, strlen(c), &code) && !pl_code_unsafe(code));
    }
    for (const char *line = text; *line; line = strchr(line, '\n') + 1) {
        const char *end = strchr(line, '\n'), *colon = strstr(line, ": ");
        assert_non_null(end);
        assert_true(colon && colon > line && colon < end - 2);
        assert_true(end - line < PL_FACT_WORDS + 40);
    }
}

/* ---- the whole state ---- */

static void the_whole_state_says_where_one_is_and_what_holds(void **state)
{
    (void)state;
    const char *text = all();
    assert_plain(text);
    assert_line(text, "part: hill-climb front wing, revision A");
    assert_line(text, "changes: none");
    assert_line(text, "page: Cloth, 2 of 8");
    assert_line(text, "part of page: lay-up, from core, 1 of 9");
    assert_line(text, "row: first skin, 1 of 5");
    assert_line(text, "field: Plies, 2");
    assert_line(text, "case shown: all");
    assert_line(text, "marker: y centre");
    assert_label(text, "help");
    assert_label(text, "one ply forgotten");
    assert_no_label(text, "was");
    assert_no_label(text, "question");
    assert_no_label(text, "typing");
    assert_no_label(text, "message");
    assert_no_label(text, "load case");
}

/* The same figures as on the page, where places have no unit. */
static void the_verdict_is_that_of_the_screen(void **state)
{
    (void)state;
    const char *text = strdup(all());
    assert_line(text, "verdict: WING HOLDS 1.08, pit jack: wrinkling, top, 170 mm right");
    assert_line(text, "mass: 1.259 of 1.3 kg");
    assert_line(text, "deflection: scrutineer 7.2 of 10 mm");
    draw(&d, 200, 60, false);
    assert_shown(&d, "WING HOLDS 1.08");
    assert_shown(&d, "pit jack: wrinkling, top, 170 right");
    assert_shown(&d, "1.259 of 1.3 kg");
    assert_shown(&d, "scrutineer 7.2 of 10 mm");
    free((char *)(uintptr_t)text);
}

static void what_is_not_checked_is_said_once(void **state)
{
    (void)state;
    const char *text = all();
    for (const char *const *word = pl_check_not_checked(&(struct pl_part){0}); *word; word++)
        assert_non_null(strstr(text, *word));
    assert_label(text, "not checked");
    assert_no_label(after("+ + 4 Down ] 3"), "not checked");
}

static void elements_are_told_apart_where_there_are_several(void **state)
{
    (void)state;
    assert_line(all(), "element: main, 1 of 2");
    const char *text = after("e");
    assert_line(text, "element: flap, 2 of 2");
    assert_label(text, "row");
}

/* ---- what changed ---- */

static void nothing_is_said_when_nothing_changed(void **state)
{
    (void)state;
    all();
    assert_string_equal(after(""), "");
    assert_string_equal(after("Down Up"), "");
    const char *text = after("+ u");
    assert_line(text, "message: undone: first skin: Plies 2 \u2192 3");
    assert_label(text, "was");  /* the figures with the ply more */
    assert_int_equal(count_char(text, '\n'), 2);
}

static void an_edit_says_what_it_changed_alone(void **state)
{
    (void)state;
    after("Down Down");
    const char *text = after("+");
    assert_plain(text);
    assert_line(text, "changes: not saved");
    assert_line(text, "field: Plies, 7");
    assert_line(text, "plies at marker: 7");
    assert_line(text, "was: reserve 1.08, 1.259 kg");
    assert_label(text, "verdict");
    assert_label(text, "mass");
    assert_no_label(text, "page");
    assert_no_label(text, "part");
    assert_no_label(text, "row");
    assert_no_label(text, "help");
    assert_no_label(text, "marker");
    assert_no_label(text, "shear there");  /* the load is what it was */
    assert_no_label(after("+"), "changes");
}

/* A field of another row is another fact, though its value is the same; its help is not. */
static void a_row_below_says_its_own_value_even_when_it_is_the_same(void **state)
{
    (void)state;
    all();
    const char *text = after("Down");
    assert_line(text, "row: bracket wrap, 2 of 5");
    assert_line(text, "field: Plies, 2");
    assert_no_label(text, "help");
    text = after("Right");
    assert_line(text, "field: Angle, 45 deg");
    assert_label(text, "help");
    assert_no_label(text, "row");
}

static void values_have_units_and_what_is_left_out_has_none(void **state)
{
    (void)state;
    all();
    assert_line(after("Right Right"), "field: Ends at, tip");
    assert_line(after("Down"), "field: Ends at, 240 mm");
    const char *text = after("3 Tab Tab Tab Right Right");  /* mounts: the spring of a rigid one */
    assert_line(text, "part of page: mounts, 4 of 8");
    assert_line(text, "field: Rotation spring, left out");
}

static void a_sheet_says_whose_it_is(void **state)
{
    (void)state;
    after("Down Down Tab Tab");
    const char *text = all();
    assert_line(text, "part of page: this ply group: top cap, 3 of 9");
    assert_non_null(strstr(text, "\nrow: 1 of "));
    assert_label(text, "plies at marker");
}

static void the_same_part_of_another_page_is_said(void **state)
{
    (void)state;
    after("3");
    assert_line(after("4"), "part of page: load cases, 1 of 5");
}

static void a_part_of_a_page_without_rows_says_so(void **state)
{
    (void)state;
    all();
    const char *text = after("1 Tab Tab Tab Tab");
    assert_line(text, "part of page: end plates, 5 of 7");
    assert_line(text, "row: none; a adds");
    assert_no_label(text, "field");
    assert_line(after("4 BackTab"), "row: none");
}

/* ---- a value being typed ---- */

static void a_value_being_typed_is_said_as_it_stands(void **state)
{
    (void)state;
    all();
    assert_string_equal(after("Enter"), "typing: 2, selected\n");
    assert_string_equal(after("1 2"), "typing: 12\n");
    assert_string_equal(after("Left"), "typing: 12, cursor after 1\n");
    assert_string_equal(after("Home"), "typing: 12, cursor at its start\n");
    assert_string_equal(after("Delete Delete"), "typing: nothing yet\n");
    assert_string_equal(after("Escape"), "typing: ended\n");
    const char *text = after("Enter 4 Enter");
    assert_line(text, "field: Plies, 4");
    assert_no_label(text, "typing");
}

static void a_value_refused_is_said_with_the_reason(void **state)
{
    (void)state;
    all();
    const char *text = after("Enter x Enter");
    assert_line(text, "typing: x");
    assert_non_null(strstr(text, "message: not done: must be a "));
    assert_no_label(text, "changes");
}

/* ---- questions ---- */

static void a_list_names_its_items_and_the_chosen_one(void **state)
{
    (void)state;
    all();
    const char *text = after("End Left Right Right Right Right Right Right Right Enter");
    assert_line(text, "question: Side");
    assert_line(text, "item: 1 of 3, top");
    assert_line(text, "item: 3 of 3, both");
    assert_line(text, "choice: both, 3 of 3");
    assert_line(text, "answers: Up Down choose, Enter take, Escape leave");
    assert_string_equal(after("Up"), "choice: bottom, 2 of 3\n");
    text = after("Enter");
    assert_line(text, "question: closed");
    assert_line(text, "field: Side, bottom");
    text = after("Enter Escape Enter");
    assert_line(text, "item: 1 of 3, top");  /* said again when it is asked again */
}

static void a_name_taken_out_is_no_longer_said_as_chosen(void **state)
{
    (void)state;
    all();
    assert_line(after("3 Tab Down Down Down Down"), "field: Together with, flap at speed");
    const char *text = after("Enter");
    assert_line(text, "question: Together with");
    assert_line(text, "item: 1 of 1, flap at speed, chosen");
    assert_line(text, "answers: Up Down choose, Enter in or out, Escape done");
    text = after("Enter");
    assert_line(text, "item: 1 of 1, flap at speed");
    assert_no_label(text, "question");
    assert_line(after("Enter"), "item: 1 of 1, flap at speed, chosen");
}

static void help_says_what_the_page_is_for_and_then_every_key(void **state)
{
    (void)state;
    all();
    const char *text = after("?");
    assert_line(text, "question: Help");
    assert_non_null(strstr(text, "about: What is laid on the core, in laying order"));
    assert_line(text, "item: + =, one step up, next choice");
    size_t few = count_lines(text, "item");
    text = after("?");
    assert_line(text, "item: Ctrl-S, save");
    assert_true(count_lines(text, "item") > few);
    assert_line(after("Escape"), "question: closed");
}

static void an_action_is_found_by_what_it_is_called(void **state)
{
    (void)state;
    all();
    const char *text = after("f");
    assert_line(text, "question: Find an action: type a part of its name");
    assert_line(text, "typing: nothing yet");
    text = after("text:redo");
    assert_line(text, "typing: redo");
    assert_line(text, "choice: redo, U, 1 of 1");
    assert_int_equal(count_lines(text, "item"), 1);
    assert_line(after("text:x"), "choice: nothing to choose from");
    text = after("Backspace Enter");
    assert_line(text, "message: nothing to redo");
    assert_line(text, "question: closed");
}

static void an_end_in_hand_says_where_it_stands_and_that_it_was_put_down(void **state)
{
    (void)state;
    all();
    after("Down");
    const char *text = after("d");
    assert_line(text, "in hand: bracket wrap, outer end: 240 mm");
    assert_label(text, "answers");
    assert_line(after("Right"), "in hand: bracket wrap, outer end: 250 mm");
    text = after("Enter");
    assert_line(text, "in hand: put down");
    assert_line(all(), "changes: not saved");
}

static void a_path_is_typed_and_its_refusal_said(void **state)
{
    (void)state;
    all();
    const char *text = after("w");
    assert_line(text, "question: Save under another name");
    assert_non_null(strstr(text, "/part.json, selected\n"));
    assert_line(after("Backspace"), "typing: nothing yet");
    assert_line(after("Enter"), "message: a name is needed");
    text = after("Escape");
    assert_line(text, "question: closed");
    assert_line(text, "typing: ended");
}

/* ---- every kind of question ---- */

static void write_points(void)
{
    char *path = NULL, *text = NULL;
    assert_true(asprintf(&path, "%s/points.dat", d.folder) > 0);
    assert_true(asprintf(&text, "an outline\n1 0\n0.5 0.06\n0 0\n0.5 -0.06\n1 0\n") > 0);
    write_whole_file(path, text, strlen(text));
    free(text);
    free(path);
}

static void ask_profile(void)
{
    char *keys = NULL;
    write_points();
    assert_true(asprintf(&keys, "1 Tab p text:%s/points.dat Enter", d.folder) > 0);
    press(&d, keys);
    free(keys);
}

static void ask_overwrite(void)
{
    press(&d, "+");
    write_whole_file(d.path, "{}", 2);
    press(&d, "Ctrl-S");
}

static void ask_recovery(void)
{
    struct pl_question *q = pl_ask(d.s, PL_ASK_RECOVERY, "");
    snprintf(q->words, sizeof q->words, "Edits of this part were not saved last time.");
}

static const struct { enum pl_question_kind kind; const char *keys; void (*ask)(void); } asks[] = {
    {PL_ASK_QUIT, "+ q", NULL},
    {PL_SHOW_HELP, "?", NULL},
    {PL_PICK_VALUE, "Right Right Right Right Right Right Right Right Enter", NULL},
    {PL_PICK_MATERIAL, "m", NULL},
    {PL_ASK_REMOVE, "Tab Tab Tab Delete", NULL},
    {PL_ASK_PATH, "w", NULL},
    {PL_ASK_PROFILE, "p", NULL},
    {PL_ASK_KIT, "6 i", NULL},
    {PL_ASK_BOOK, "6 l", NULL},
    {PL_SHOW_PROFILE, "", ask_profile},
    {PL_ASK_RECOVERY, "", ask_recovery},
    {PL_ASK_OVERWRITE, "", ask_overwrite},
    {PL_FIND_ACTION, "f", NULL},
    {PL_PICK_EDIT, "+ j", NULL},
};

static void every_question_says_what_is_asked_and_how_to_answer(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof asks / sizeof *asks; i++) {
        desk_close(&d);
        open_on(SAMPLE_PART);
        all();
        press(&d, asks[i].keys);
        if (asks[i].ask)
            asks[i].ask();
        assert_int_equal(d.s->n_questions, 1);
        assert_int_equal(d.s->questions[0].kind, asks[i].kind);
        const char *text = after("");
        assert_plain(text);
        assert_int_equal(count_lines(text, "question"), 1);
        assert_int_equal(count_lines(text, "answers"), 1);
        if (pl_question_items(d.s, &d.s->questions[0]))
            assert_int_equal(count_lines(text, "item"), pl_question_items(d.s, &d.s->questions[0]));
        draw(&d, 200, 60, false);  /* the same title as on the page */
        if (asks[i].kind != PL_SHOW_HELP)
            assert_shown(&d, pl_facts_words(&said, "question", 0));
    }
}

static void every_page_and_part_of_a_page_gives_facts(void **state)
{
    (void)state;
    for (int p = 0; p < PL_PAGES; p++) {
        char key[2] = {(char)('1' + p), '\0'}, page[32];
        size_t count;
        press(&d, key);
        pl_page_blocks(d.s->page, &count);
        snprintf(page, sizeof page, "page: %s, %d of 8", pl_page_names[p], p + 1);
        assert_non_null(strstr(all(), page));
        for (size_t i = 0; i < count; i++) {
            const char *text = all();
            assert_plain(text);
            assert_int_equal(count_lines(text, "part of page"), 1);
            assert_int_equal(count_lines(text, "row"), 1);
            assert_int_equal(count_lines(text, "verdict"), 1);
            press(&d, "Tab");
        }
    }
}

/* ---- a part that cannot be judged ---- */

static void an_invalid_part_says_why_and_comes_back_with_its_figures(void **state)
{
    (void)state;
    all();
    const char *text = after("Tab Right Enter - 5 Enter");
    assert_plain(text);
    assert_line(text, "verdict: CANNOT BE JUDGED: "
                      "station 1 of main, chord: must be above 0, at most 10000 (found -5)");
    assert_line(text, "figures: old figures: lowest reserve 1.08");
    assert_no_label(text, "mass");
    assert_no_label(text, "reserve there");
    assert_line(text, "field: Chord, -5 mm");
    assert_no_label(all(), "mass");  /* old figures are not passed off as new ones */
    text = after("u");
    assert_line(text, "verdict: WING HOLDS 1.08, pit jack: wrinkling, top, 170 mm right");
    assert_line(text, "mass: 1.259 of 1.3 kg");
    assert_label(text, "reserve there");
}

static void several_errors_are_counted_and_listed_on_the_page(void **state)
{
    (void)state;
    all();
    const char *text = after("Tab Right Enter - 5 Enter Down Enter - 6 Enter");
    assert_line(text, "errors: 2, page 4 has them");
    text = after("4 BackTab");
    assert_line(text, "row: error: station 1 of main, chord: must be above 0, at most 10000 (found -5), 1 of 2");
    assert_line(after("Down"),
                "row: error: station 2 of main, chord: must be above 0, at most 10000 (found -6), 2 of 2");
}

static void warnings_are_counted_and_their_end_is_said(void **state)
{
    (void)state;
    /* Fibre fraction is usual from .3 to .5: outside is a warning. */
    assert_no_label(all(), "warnings");
    const char *text = after("Tab Tab Tab Tab Down Down Down Down Enter . 6 Enter");
    assert_line(text, "warnings: 1, page 4 has them");
    assert_line(after("u"), "warnings: none");
}

/* ---- marker and load cases ---- */

static void the_marker_says_its_place_and_the_figures_there(void **state)
{
    (void)state;
    all();
    const char *text = after("] ]");
    assert_line(text, "marker: y 20 mm right");
    assert_label(text, "moment there");
    assert_line(after("[ [ ["), "marker: y 10 mm left");
    all();
    static const char *const units[] = {"moment there", " N m", "shear there", " N", "torque there", " N m",
                                        "deflection there", " mm", "twist there", " deg"};
    for (size_t i = 0; i < 10; i += 2) {
        const char *words = pl_facts_words(&said, units[i], 0);
        assert_non_null(words);
        assert_string_equal(words + strlen(words) - strlen(units[i + 1]), units[i + 1]);
    }
}

static void figures_there_are_those_of_the_case_shown(void **state)
{
    (void)state;
    after("4");
    all();
    const char *text = after("Down Down Down");
    assert_line(text, "row: kerb on tip, 4 of 5");
    assert_line(text, "case shown: kerb on tip");
    const struct pl_case_result *c = &pl_session_verdict(d.s)->cases[2];
    char want[80], number[32];
    pl_number_fixed(number, sizeof number, pl_case_row_at(c, 0)->moment_nm, 1);
    snprintf(want, sizeof want, "moment there: %s N m", number);
    assert_line(text, want);
    assert_non_null(strstr(text, "reserve there: "));
    assert_non_null(strstr(text, ", kerb on tip\n"));
}

static void load_cases_are_said_on_the_page_of_results_when_they_changed(void **state)
{
    (void)state;
    assert_no_label(all(), "load case");
    const char *text = after("4");
    assert_int_equal(count_lines(text, "load case"), 4);
    assert_non_null(strstr(text, "load case: pit jack: 1.08, wrinkling, top, 170 mm right, mounts as given, "
                                 "pad 2 carries more, tip moves "));
    assert_non_null(strstr(text, "tip moves 7.2 of 10 mm\n"));
    assert_int_equal(count_lines(after("]"), "load case"), 0);
    after("BackTab BackTab");
    assert_line(all(), "row: Mass, 1 of 5");
    text = after("Down Enter 1 0 0 Enter");  /* a limit for the tip of one case */
    assert_int_equal(count_lines(text, "load case"), 1);
    assert_non_null(strstr(text, " of 100 mm\n"));
}

static void a_curve_says_its_highest_or_lowest_point(void **state)
{
    (void)state;
    after("4");
    assert_line(all(), "curve: reserve, lowest 1.08, 170 mm right, pit jack");
    const char *text = after("Right");
    assert_int_equal(count_lines(text, "curve"), 1);
    const struct pl_verdict *v = pl_session_verdict(d.s);
    double most = 0;
    for (size_t i = 0; i < v->n_cases; i++)
        for (size_t k = 0; k < v->cases[i].n_rows; k++)
            if (fabs(v->cases[i].rows[k].moment_nm) > fabs(most))
                most = v->cases[i].rows[k].moment_nm;
    char want[64], number[32];
    pl_number_digits(number, sizeof number, most, 4);
    snprintf(want, sizeof want, "curve: moment, greatest %s N m, ", number);
    assert_non_null(strstr(text, want));
}

/* ---- hostile and long names ---- */

static void hostile_names_send_no_control_bytes(void **state)
{
    (void)state;
    desk_close(&d);
    char *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL;
    char *name = strstr(text, "\"hill-climb front wing\""), *cap = strstr(text, "\"top cap\"");
    assert_true(asprintf(&changed, "%.*s\"\\u001b[31mred\\u202e \\u0007wing\\nmass: 0 kg\"%.*s\"\\u009b5ncap\\r\"%s",
                         (int)(name - text), text, (int)(cap - name) - 23, name + 23, cap + 9) > 0);
    desk_open_text(&d, changed);
    assert_plain(all());
    assert_int_equal(count_lines(all(), "mass"), 1);  /* a line end in a name makes no fact of its own */
    for (int p = 0; p < PL_PAGES; p++) {
        d.s->page = (enum pl_page)p;
        assert_plain(after("Down Down + Tab"));
        assert_plain(all());
    }
    press(&d, "2 Home Down Down Right Right Right Right Right Right Right Right Enter");
    assert_plain(all());
    free(changed);
    free(text);
}

static void a_long_name_is_cut_and_the_next_fact_stands_in_its_own_line(void **state)
{
    (void)state;
    desk_close(&d);
    char *text = read_whole_file(SAMPLE_PART, NULL), *changed = NULL, many[2000];
    memset(many, 'w', sizeof many - 1);
    many[sizeof many - 1] = '\0';
    char *name = strstr(text, "\"hill-climb front wing\"");
    assert_true(asprintf(&changed, "%.*s\"%s\"%s", (int)(name - text), text, many, name + 23) > 0);
    desk_open_text(&d, changed);
    const char *said_now = all();
    assert_plain(said_now);
    assert_label(said_now, "changes");
    free(changed);
    free(text);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(the_whole_state_says_where_one_is_and_what_holds),
        TRIAL(the_verdict_is_that_of_the_screen),
        TRIAL(what_is_not_checked_is_said_once),
        WHOLE(elements_are_told_apart_where_there_are_several),
        TRIAL(nothing_is_said_when_nothing_changed),
        TRIAL(an_edit_says_what_it_changed_alone),
        TRIAL(a_row_below_says_its_own_value_even_when_it_is_the_same),
        TRIAL(values_have_units_and_what_is_left_out_has_none),
        TRIAL(a_sheet_says_whose_it_is),
        TRIAL(the_same_part_of_another_page_is_said),
        TRIAL(a_part_of_a_page_without_rows_says_so),
        TRIAL(a_value_being_typed_is_said_as_it_stands),
        TRIAL(a_value_refused_is_said_with_the_reason),
        TRIAL(a_list_names_its_items_and_the_chosen_one),
        WHOLE(a_name_taken_out_is_no_longer_said_as_chosen),
        TRIAL(help_says_what_the_page_is_for_and_then_every_key),
        TRIAL(an_action_is_found_by_what_it_is_called),
        TRIAL(an_end_in_hand_says_where_it_stands_and_that_it_was_put_down),
        TRIAL(a_path_is_typed_and_its_refusal_said),
        TRIAL(every_question_says_what_is_asked_and_how_to_answer),
        WHOLE(every_page_and_part_of_a_page_gives_facts),
        TRIAL(an_invalid_part_says_why_and_comes_back_with_its_figures),
        TRIAL(several_errors_are_counted_and_listed_on_the_page),
        TRIAL(warnings_are_counted_and_their_end_is_said),
        TRIAL(the_marker_says_its_place_and_the_figures_there),
        TRIAL(figures_there_are_those_of_the_case_shown),
        TRIAL(load_cases_are_said_on_the_page_of_results_when_they_changed),
        TRIAL(a_curve_says_its_highest_or_lowest_point),
        TRIAL(hostile_names_send_no_control_bytes),
        TRIAL(a_long_name_is_cut_and_the_next_fact_stands_in_its_own_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
