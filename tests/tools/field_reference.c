/* The reference of keys in plyloft-part(5), written from the table of fields.
 *
 * A filter: a manual page in, the same page out, with what stands between the lines
 *
 *     .\" begin generated: NAME
 *     .\" end generated: NAME
 *
 * written anew; NAME is `fields` or `rules`.  `make man` brings the page up to date with it, and
 * tests/house/test_man.sh fails while page and table differ.
 */
#include "plyloft/buffer.h"
#include "plyloft/field.h"

#include "part/rules.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LEVERS_MOST = 8, VALUES_MOST = 32 };

static void give_up(const char *what, const char *which)
{
    fprintf(stderr, "field_reference: %s: %s\n", which, what);
    exit(1);
}

/* ---- text as mdoc wants it ---- */

static bool ends_sentence(const char *text)
{
    return text[0] == '.' && text[1] == ' ' && text[2] >= 'A' && text[2] <= 'Z';
}

/* A new line for each sentence; no line starts as a macro would. */
static void print_text(const char *text)
{
    if (*text == '.' || *text == '\'')
        printf("\\&");
    for (; *text; text++) {
        if (*text == '\\')
            printf("\\e");
        else
            putchar(*text);
        if (ends_sentence(text)) {
            putchar('\n');
            text++;
        }
    }
    putchar('\n');
}

/* "a", "a or b", "a, b or c"; of all of them, or of those that take marks. */
static void print_list(const char *const *words, const bool *take, size_t count)
{
    size_t left = 0, done = 0;
    for (size_t i = 0; i < count; i++)
        left += !take || take[i];
    for (size_t i = 0; i < count; i++) {
        if (take && !take[i])
            continue;
        left--;
        printf("%s%s", done++ == 0 ? "" : left ? ", " : " or ", words[i]);
    }
}

/* ---- when a field exists ---- */

/* What the answer may hang on: a choice or a flag of the same row. */
struct lever {
    const struct pl_field *field;
    const char *const *words;
    size_t count;
    bool matters;
};

struct condition {
    bool (*when)(const void *row);
    const struct pl_group *group;
    struct lever levers[LEVERS_MOST];
    size_t n;
};

static bool holds(const struct condition *c, const size_t *at)
{
    char *row = calloc(1, c->group->stride);
    if (!row)
        give_up("no memory", c->group->noun);
    for (size_t i = 0; i < c->n; i++) {
        const struct pl_field *f = c->levers[i].field;
        if (f->kind == PL_FIELD_FLAG)
            *(bool *)(row + f->at) = at[i];
        else
            *(int *)(void *)(row + f->at) = (int)at[i];
    }
    bool answer = c->when(row);
    free(row);
    return answer;
}

/* The next setting of all levers; false after the last. */
static bool turn(const struct condition *c, size_t *at)
{
    for (size_t i = 0; i < c->n; i++) {
        if (++at[i] < c->levers[i].count)
            return true;
        at[i] = 0;
    }
    return false;
}

static void find_levers(struct condition *c)
{
    static const char *const flag_words[] = {"false", "true"};
    for (size_t i = 0; i < c->group->n_fields && c->n < LEVERS_MOST; i++) {
        const struct pl_field *f = &c->group->fields[i];
        if (f->kind == PL_FIELD_CHOICE)
            c->levers[c->n++] = (struct lever){f, f->choices, f->n_choices, false};
        else if (f->kind == PL_FIELD_FLAG)
            c->levers[c->n++] = (struct lever){f, flag_words, 2, false};
    }
    size_t at[LEVERS_MOST] = {0};
    do {
        bool answer = holds(c, at);
        for (size_t i = 0; i < c->n; i++) {
            size_t other[LEVERS_MOST];
            memcpy(other, at, sizeof at);
            other[i] = (at[i] + 1) % c->levers[i].count;
            c->levers[i].matters = c->levers[i].matters || holds(c, other) != answer;
        }
    } while (turn(c, at));
}

/* Values of one lever at which the condition holds, the others standing at `at`; how many. */
static size_t values_of(const struct condition *c, size_t lever, const size_t *at, bool *take)
{
    size_t setting[LEVERS_MOST], n = 0;
    memcpy(setting, at, sizeof setting);
    for (size_t v = 0; v < c->levers[lever].count; v++) {
        setting[lever] = v;
        n += take[v] = holds(c, setting);
    }
    return n;
}

/* "kind is tip-strike or point, or kind is downforce and distribution uniform or elliptic". */
static void print_two(const struct condition *c, size_t first, size_t second)
{
    const struct lever *a = &c->levers[first], *b = &c->levers[second];
    bool whole[VALUES_MOST] = {false}, some[VALUES_MOST];
    size_t at[LEVERS_MOST] = {0}, n_whole = 0, said = 0;
    for (at[first] = 0; at[first] < a->count; at[first]++)
        n_whole += whole[at[first]] = values_of(c, second, at, some) == b->count;
    if (n_whole) {
        printf("%s is ", a->field->key);
        print_list(a->words, whole, a->count);
        said++;
    }
    for (at[first] = 0; at[first] < a->count; at[first]++) {
        if (whole[at[first]] || !values_of(c, second, at, some))
            continue;
        printf("%s%s is %s and %s is ", said++ ? ", or " : "", a->field->key, a->words[at[first]], b->field->key);
        print_list(b->words, some, b->count);
    }
}

/* Found by asking for every setting of the row's choices, so that it cannot differ from what the reader does. */
static void print_when(bool (*when)(const void *row), const struct pl_group *group, const char *key)
{
    struct condition c = {.when = when, .group = group};
    size_t of[2], n = 0, at[LEVERS_MOST] = {0};
    bool take[VALUES_MOST];
    find_levers(&c);
    for (size_t i = 0; i < c.n; i++) {
        if (!c.levers[i].matters)
            continue;
        if (n == 2 || c.levers[i].count > VALUES_MOST)
            give_up("hangs on more than can be said", key);
        of[n++] = i;
    }
    if (!n)
        give_up("hangs on something other than the choices of its row", key);
    printf("Only where ");
    if (n == 2) {
        print_two(&c, of[0], of[1]);
    } else {
        values_of(&c, of[0], at, take);
        printf("%s is ", c.levers[of[0]].field->key);
        print_list(c.levers[of[0]].words, take, c.levers[of[0]].count);
    }
    printf(".\n");
}

/* ---- one field ---- */

static const char *unit_words(enum pl_unit unit)
{
    static const char *const words[PL_UNITS] = {
        [PL_MM] = "millimetres", [PL_DEG] = "degrees", [PL_GSM] = "grams per square metre",
        [PL_KG_M3] = "kilograms per cubic metre", [PL_GPA] = "gigapascals", [PL_MPA] = "megapascals",
        [PL_NEWTON] = "newtons", [PL_NM_PER_RAD] = "newton metres per radian", [PL_KG] = "kilograms",
        [PL_M_S] = "metres per second", [PL_KM_H] = "kilometres per hour", [PL_MINUTE] = "minutes",
        [PL_CELSIUS] = "degrees Celsius"};
    return words[unit] ? words[unit] : pl_unit_name(unit);
}

static void print_number(double value)
{
    char text[32];
    pl_number_digits(text, sizeof text, value, 6);
    printf("%s", text);
}

static void print_ranges(const struct pl_field *f)
{
    char words[96];
    const char *must = "must be ";
    pl_field_range_words(f, words, sizeof words);
    if (f->least == f->most)
        snprintf(words, sizeof words, "always %.0f", f->least);
    printf(", %s", strncmp(words, must, strlen(must)) ? words : words + strlen(must));
    if (f->usual[0] != 0 || f->usual[1] != 0) {
        printf("; typical ");
        print_number(f->usual[0]);
        printf(" to ");
        print_number(f->usual[1]);
    }
}

static void print_quantity(const struct pl_field *f, const char *what)
{
    const char *unit = unit_words(f->unit);
    printf("%s%s%s", what, unit[0] ? " in " : "", unit);
    print_ranges(f);
}

/* "a profile", "an element". */
static const char *a_or_an(const char *noun)
{
    return strchr("aeiou", noun[0]) ? "an" : "a";
}

static void print_kind(const struct pl_field *f)
{
    const char *noun = pl_groups[f->refers_to].noun, *a = a_or_an(noun);
    switch (f->kind) {
    case PL_FIELD_NUMBER: print_quantity(f, "Number"); break;
    case PL_FIELD_WHOLE: print_quantity(f, "Whole number"); break;
    case PL_FIELD_TEXT: printf("Text"); break;
    case PL_FIELD_FLAG: printf("True or false"); break;
    case PL_FIELD_CHOICE: printf("Text: "); print_list(f->choices, NULL, f->n_choices); break;
    case PL_FIELD_REFERENCE: printf("Name of %s %s", a, noun); break;
    case PL_FIELD_REFERENCES: printf("List of names, each of %s %s", a, noun); break;
    case PL_FIELD_PAIR: print_quantity(f, "List of two numbers"); break;
    case PL_FIELD_POINTS: printf("List of points, each a list of two numbers, x and z"); break;
    case PL_FIELD_MAP:
        printf("Object: under the name of %s %s, a ", a, noun);
        print_quantity(f, "number");
        break;
    }
    printf(".\n");
}

static bool is_numeric(const struct pl_field *f)
{
    return f->kind == PL_FIELD_NUMBER || f->kind == PL_FIELD_WHOLE;
}

static void print_left_out(const struct pl_field *f)
{
    if (!f->optional)
        return;
    printf("May be left out");
    if (is_numeric(f) && pl_given(f->left_out)) {
        printf(": then ");
        print_number(f->left_out);
    } else if (f->kind == PL_FIELD_CHOICE) {
        printf(": then %s", f->choices[(size_t)f->left_out]);
    } else if (f->kind == PL_FIELD_FLAG) {
        printf(": then false");
    }
    printf(".\n");
}

static void print_field(const struct pl_group *g, const struct pl_field *f)
{
    printf(".It Li %s\n", f->key);
    print_text(f->help);
    printf(".br\n");
    print_kind(f);
    print_left_out(f);
    if (f->when)
        print_when(f->when, g, f->key);
}

/* ---- groups ---- */

/* "/elements/N/stations/N". */
static void print_place(enum pl_group_id id)
{
    const struct pl_group *g = &pl_groups[id];
    if (id == PL_GROUP_PART)
        return;
    print_place(g->parent);
    printf("/%s%s", g->key, g->list ? "/N" : "");
}

static void print_group(enum pl_group_id id)
{
    const struct pl_group *g = &pl_groups[id];
    printf(".Ss %s\n", id == PL_GROUP_PART ? "The part itself" : g->key);
    if (id != PL_GROUP_PART) {
        printf("At\n.Li ");
        print_place(id);
        printf(" :\n");
        if (g->list)
            printf("a list of %zu to %zu objects, each %s %s.\n", g->least, g->most, a_or_an(g->noun), g->noun);
        else
            printf("one object.\n");
        if (g->optional)
            printf("It may be left out.\n");
        if (g->when)
            print_when(g->when, &pl_groups[g->parent], g->key);
    }
    printf(".Bl -tag -width Ds\n");
    for (size_t i = 0; i < g->n_fields; i++)
        print_field(g, &g->fields[i]);
    printf(".El\n");
}

static void print_fields(void)
{
    for (size_t i = 0; i < PL_GROUPS; i++)
        print_group((enum pl_group_id)i);
}

static void print_rule_names(const struct rule *rules, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        printf(".It\n");
        print_text(rules[i].name);
    }
}

static void print_rules(void)
{
    printf(".Bl -bullet -compact\n");
    print_rule_names(pl_material_rules, pl_n_material_rules);
    print_rule_names(pl_element_rules, pl_n_element_rules);
    print_rule_names(pl_case_rules, pl_n_case_rules);
    printf(".El\n");
}

/* ---- the page ---- */

static const struct {
    const char *name;
    void (*print)(void);
} parts[] = {{"fields", print_fields}, {"rules", print_rules}};

enum { PARTS = sizeof parts / sizeof *parts };

/* True when the line is a mark of this kind; *part is the one it names. */
static bool is_mark(const char *line, const char *kind, size_t *part)
{
    char mark[64];
    for (*part = 0; *part < PARTS; ++*part) {
        snprintf(mark, sizeof mark, ".\\\" %s generated: %s\n", kind, parts[*part].name);
        if (!strcmp(line, mark))
            return true;
    }
    return false;
}

int main(void)
{
    char *line = NULL;
    size_t size = 0, part, written = 0;
    bool inside = false;
    while (getline(&line, &size, stdin) > 0) {
        if (inside && is_mark(line, "end", &part))
            inside = false;
        if (inside)
            continue;
        fputs(line, stdout);
        if (is_mark(line, "begin", &part)) {
            parts[part].print();
            inside = true;
            written++;
        }
    }
    free(line);
    if (inside || written != PARTS)
        give_up("the marks of the generated parts are not all there", "standard input");
    return ferror(stdout) || fflush(stdout) ? 1 : 0;
}
