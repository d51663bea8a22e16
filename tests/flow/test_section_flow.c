/* Flow round sections against exact solutions, and against laws that any such flow keeps. */
#include "flows.h"

static struct pl_point nodes[NODES_MOST], second[NODES_MOST];

/* ---- sections with an exact flow ---- */

/* Both of 12 to 14 % thickness and 5 % camber, with a tail of 18 degrees and with a cusp. */
static struct mapped with_tail(void) { return mapped_make(1.9, -0.08 + 0.06 * i_unit); }
static struct mapped with_cusp(void) { return mapped_make(2, -0.08 + 0.06 * i_unit); }

static double lift_error(const struct mapped *m, size_t panels, double alpha_deg)
{
    mapped_nodes(m, nodes, panels);
    struct trial t = figures_round(nodes, panels + 1, (double)NAN, alpha_deg * degree);
    return t.force.lift / mapped_lift(m, alpha_deg * degree) - 1;
}

/* Worst of all panels but those of the last twentieth of either side. */
static double speed_error(const struct mapped *m, size_t panels, double alpha_deg)
{
    double worst = 0;
    mapped_nodes(m, nodes, panels);
    struct trial t = figures_round(nodes, panels + 1, (double)NAN, alpha_deg * degree);
    for (size_t i = panels / 20; i < panels - panels / 20; i++) {
        double exact = mapped_speed(m, mapped_angle(m, ((double)i + 0.5) / (double)panels), alpha_deg * degree);
        worst = fmax(worst, fabs(fabs(t.speed[i]) - exact));
    }
    return worst;
}

static void lift_is_that_of_the_mapped_circle(void **state)
{
    (void)state;
    /* cl = 8 pi R / c sin(alpha + beta); with 200 panels it is met to 0.1 % */
    struct mapped tail = with_tail(), cusp = with_cusp();
    for (int alpha = 0; alpha <= 12; alpha += 4) {
        assert_near(lift_error(&tail, 200, alpha), 0, 1e-3);
        assert_near(lift_error(&cusp, 200, alpha), 0, 1e-3);
    }
}

static void speeds_are_those_of_the_mapped_circle(void **state)
{
    (void)state;
    struct mapped tail = with_tail(), cusp = with_cusp();
    assert_between(speed_error(&tail, 160, 5), 0, 5e-3);
    assert_between(speed_error(&cusp, 160, 5), 0, 5e-3);
    assert_between(speed_error(&tail, 640, 5), 0, 4e-4);
    assert_between(speed_error(&cusp, 640, 5), 0, 4e-4);
}

static void error_of_lift_falls_with_the_square_of_the_panels(void **state)
{
    (void)state;
    const struct mapped sections[] = {with_tail(), with_cusp()};
    for (int k = 0; k < 2; k++)
        for (size_t panels = 80; panels <= 320; panels *= 2) {
            double ratio = lift_error(&sections[k], panels, 5) / lift_error(&sections[k], 2 * panels, 5);
            assert_between(ratio, 3.8, 4.3);
        }
}

static void error_of_speeds_falls_with_the_square_of_the_panels(void **state)
{
    (void)state;
    const struct mapped sections[] = {with_tail(), with_cusp()};
    for (int k = 0; k < 2; k++)
        for (size_t panels = 80; panels <= 320; panels *= 2) {
            double ratio = speed_error(&sections[k], panels, 5) / speed_error(&sections[k], 2 * panels, 5);
            assert_between(ratio, 3.2, 4.4);
        }
}

static void pressure_and_circulation_give_the_same_lift(void **state)
{
    (void)state;
    struct mapped m = with_tail();
    mapped_nodes(&m, nodes, 320);
    struct trial t = figures_round(nodes, 321, (double)NAN, 5 * degree);
    assert_close(t.circulation_lift, t.force.lift, 1e-4);
    assert_near(t.force.drag, 0, 1e-4);  /* none in potential flow */
}

/* ---- open edges ---- */

static const char *const open_edged[] = {"0012", "2412", "4412", "6412", "23012"};

enum { OPEN_EDGED = sizeof open_edged / sizeof *open_edged };

static void drag_of_an_open_edge_is_what_its_outflow_carries(void **state)
{
    (void)state;
    /* 2 g u (u cos - 1): about -0.001 of an edge of 0.25 % chord; what is left of the drag is the method's error, and it falls
     * to a third or less with each doubling */
    for (int k = 0; k < OPEN_EDGED; k++) {
        double before = HUGE_VAL;
        for (size_t panels = 80; panels <= 640; panels *= 2) {
            struct trial t = naca_flow(open_edged[k], panels, 4);
            double off = fabs(t.force.drag - t.edge_drag);
            assert_true(off < before / 2.9);
            before = off;
        }
        assert_true(before < 2e-5);
    }
}

static void speeds_at_an_open_edge_stay_finite_as_panels_shrink(void **state)
{
    (void)state;
    for (int k = 0; k < OPEN_EDGED; k++) {
        double last = 0, change = HUGE_VAL;
        for (size_t panels = 80; panels <= 640; panels *= 2) {
            struct trial t = naca_flow(open_edged[k], panels, 4);
            assert_close(t.speed[panels - 1], -t.speed[0], 1e-9);  /* Kutta */
            assert_between(t.speed[0], 0.7, 0.8);
            assert_true(panels == 80 || fabs(t.speed[0] - last) < change);
            change = panels == 80 ? change : fabs(t.speed[0] - last);
            last = t.speed[0];
        }
        assert_true(change < 1e-3);
    }
}

static void lift_of_an_open_edge_drifts_less_than_a_thousandth_from_160_panels_on(void **state)
{
    (void)state;
    for (int k = 0; k < OPEN_EDGED; k++) {
        struct trial coarse = naca_flow(open_edged[k], 160, 4);
        for (size_t panels = 320; panels <= 640; panels *= 2) {
            struct trial fine = naca_flow(open_edged[k], panels, 4);
            assert_close(fine.force.lift, coarse.force.lift, 1e-3);
            assert_near(fine.force.moment, coarse.force.moment, 3e-4);
        }
    }
}

/* The section with its tail closed to a share of its gap, taken off square to the mean line in proportion to x. */
static double lift_with_gap(const char *designation, double share, size_t panels, double alpha_deg)
{
    naca_nodes(designation, nodes, panels);
    double x = 0.5 * (1 - share) * (nodes[0].x - nodes[panels].x), z = 0.5 * (1 - share) * (nodes[0].z - nodes[panels].z);
    for (size_t i = 0; i <= panels; i++) {
        double part = i < panels / 2 ? nodes[i].x : i > panels / 2 ? -nodes[i].x : 0;
        nodes[i] = (struct pl_point){nodes[i].x - part * x, nodes[i].z - part * z};
    }
    if (share == 0)
        nodes[panels] = nodes[0];
    return figures_round(nodes, panels + 1, (double)NAN, alpha_deg * degree).force.lift;
}

static void closing_the_edge_changes_lift_little_and_steadily(void **state)
{
    (void)state;
    /* From 0.25 % chord over 0.1 % and 0.01 % to nothing, at several numbers of panels. */
    static const char *const names[] = {"0012", "4412", "23012"};
    for (int k = 0; k < 3; k++)
        for (size_t panels = 100; panels <= 400; panels *= 2) {
            double closed = lift_with_gap(names[k], 0, panels, 4), open = lift_with_gap(names[k], 1, panels, 4);
            double thin = lift_with_gap(names[k], 0.4, panels, 4), thinner = lift_with_gap(names[k], 0.04, panels, 4);
            assert_close(open, closed, 5e-3);
            assert_close(thin, closed, 3e-3);
            assert_close(thinner, closed, 3e-4);
            assert_true(open > thin && thin > thinner && thinner > closed);
        }
}

/* ---- symmetry, and thin sections ---- */

static void a_mirrored_section_at_the_opposite_angle_lifts_the_other_way(void **state)
{
    (void)state;
    naca_nodes("4412", nodes, 160);
    for (size_t i = 0; i <= 160; i++)
        second[i] = (struct pl_point){nodes[160 - i].x, -nodes[160 - i].z};
    struct trial there = figures_round(nodes, 161, (double)NAN, 5 * degree), back = figures_round(second, 161, (double)NAN, -5 * degree);
    assert_close(back.force.lift, -there.force.lift, 1e-9);
    assert_close(back.force.moment, -there.force.moment, 1e-8);
    assert_near(back.force.drag, there.force.drag, 1e-10);
    for (size_t i = 0; i < 160; i++)
        assert_near(back.speed[i], -there.speed[159 - i], 1e-9);
}

static void a_symmetric_section_in_line_with_the_air_has_no_lift(void **state)
{
    (void)state;
    struct trial t = naca_flow("0012", 200, 0);
    assert_near(t.force.lift, 0, 1e-9);
    assert_near(t.force.moment, 0, 1e-9);
}

static void lift_and_moment_are_linear_in_both_parts_of_the_onset_flow(void **state)
{
    (void)state;
    /* circulation = C cos a + S sin a: from two angles the third follows */
    double zero = naca_flow("2412", 160, 0).circulation_lift, ninety = naca_flow("2412", 160, 90).circulation_lift;
    assert_close(naca_flow("2412", 160, 7).circulation_lift, zero * cos(7 * degree) + ninety * sin(7 * degree), 1e-9);
}

static double slope(const char *designation)
{
    return (naca_flow(designation, 320, 1).force.lift - naca_flow(designation, 320, -1).force.lift) / (2 * degree);
}

static void lift_slope_tends_to_two_pi_as_a_section_thins(void **state)
{
    (void)state;
    /* Joukowski sections have 2 pi (1 + 0.77 t); these, with wider tails, somewhat less. */
    static const char *const thinning[] = {"0024", "0012", "0006", "0003"};
    static const double thickness[] = {0.24, 0.12, 0.06, 0.03};
    double before = HUGE_VAL;
    for (int k = 0; k < 4; k++) {
        double above = slope(thinning[k]) / (2 * M_PI) - 1;
        assert_between(above / thickness[k], 0.7, 0.9);
        assert_true(above < before);
        before = above;
    }
}

static void moment_of_a_thin_symmetric_section_about_the_quarter_chord_vanishes(void **state)
{
    (void)state;
    double before = HUGE_VAL;
    static const char *const thinning[] = {"0024", "0012", "0006", "0003"};
    for (int k = 0; k < 4; k++) {
        double moment = fabs(naca_flow(thinning[k], 320, 4).force.moment);
        assert_true(moment < 0.7 * before);
        before = moment;
    }
    assert_true(before < 2e-3);
}

/* ---- over ground ---- */

/* The section turned nose up about its leading edge, its trailing edge at a height under a ground above it, as an inverted
 * wing is over its own. */
static struct trial near_ground(const char *designation, size_t panels, double alpha_deg, double height, double *ground_z)
{
    double c = cos(alpha_deg * degree), s = sin(alpha_deg * degree);
    naca_nodes(designation, nodes, panels);
    for (size_t i = 0; i <= panels; i++)
        nodes[i] = (struct pl_point){nodes[i].x * c + nodes[i].z * s, nodes[i].z * c - nodes[i].x * s};
    *ground_z = 0.5 * (nodes[0].z + nodes[panels].z) + height;
    return flow_round(nodes, panels + 1, *ground_z, 0);
}

static double on_the_ground(const struct trial *t, double x, double ground_z)
{
    double u, w;
    pl_section_flow_velocity(t->flow, 0, t->speed, x, ground_z, &u, &w);
    assert_near(w, 0, 1e-12);  /* nothing goes through */
    return 1 - u * u;
}

/* Integral of cp over the ground, x = 0.5 + sinh(s): 400 chords to either side, and behind that the tail, where cp falls with
 * x^-2 (its part with 1/x, of the edge's outflow, has the other sign on the other side). */
static double pressure_on_the_ground(const struct trial *t, double ground_z)
{
    enum { STEPS = 4000 };
    double end = asinh(400), h = 2 * end / STEPS, sum = 0;
    for (int i = 0; i < STEPS; i++) {
        double s = -end + ((double)i + 0.5) * h;
        sum += h * cosh(s) * on_the_ground(t, 0.5 + sinh(s), ground_z);
    }
    return sum + 400 * (on_the_ground(t, 400.5, ground_z) + on_the_ground(t, -399.5, ground_z));
}

/* What an open edge's outflow, square to it, carries downward: 2 g u^2 times its direction. */
static double carried_down(const struct trial *t, size_t body, const struct pl_point *list, size_t panels)
{
    const struct pl_flow_panels *p = pl_section_flow_panels(t->flow);
    double u = t->speed[p->first[body]], edge_x = list[0].x - list[panels].x;
    return 2 * u * u * edge_x;
}

static void lift_is_borne_by_the_ground(void **state)
{
    (void)state;
    /* Nothing else holds the air: the section, and what leaves its edge, against suction on the ground above.  0.05 %, and 0.1 %
     * where the gap is narrow or the section thick. */
    static const struct { const char *name; double alpha_deg, height, within; } cases[] = {
        {"6412", 2, 0.5, 5e-4}, {"6412", 2, 0.25, 5e-4}, {"6412", 6, 0.4, 5e-4}, {"0012", 5, 1, 5e-4},
        {"23012", 4, 0.3, 5e-4}, {"4412", 0, 5, 5e-4}, {"4412", 3, 0.2, 1e-3}, {"0030", 5, 0.4, 1e-3},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double ground_z;
        struct trial t = near_ground(cases[i].name, 320, cases[i].alpha_deg, cases[i].height, &ground_z);
        assert_close(-pressure_on_the_ground(&t, ground_z), t.force.lift + carried_down(&t, 0, nodes, 320), cases[i].within);
        pl_section_flow_free(t.flow);
    }
}

static double lift_at_height(const char *designation, double alpha_deg, double height)
{
    double ground_z;
    struct trial t = near_ground(designation, 200, alpha_deg, height, &ground_z);
    pl_section_flow_free(t.flow);
    return t.force.lift;
}

static void far_ground_is_free_air(void **state)
{
    (void)state;
    /* The image, 2h away, turns the air by cl / (4 pi h): at 1000 chords 2e-4 of the speed at a lift of 1. */
    double free_air = naca_flow("6412", 200, 3).force.lift;
    assert_close(lift_at_height("6412", 3, 1e3), free_air, 5e-4);
    assert_close(lift_at_height("6412", 3, 1e5), free_air, 1e-5);
}

static void suction_side_near_the_ground_lifts_more_the_nearer_it_is(void **state)
{
    (void)state;
    double before = naca_flow("6412", 200, 2).force.lift;
    for (double height = 4; height > 0.2; height *= 0.7) {
        double lift = lift_at_height("6412", 2, height);
        assert_true(lift > before);
        before = lift;
    }
}

static void which_side_the_ground_is_on_is_a_matter_of_the_mirror(void **state)
{
    (void)state;
    double ground_z;
    struct trial above = near_ground("4412", 160, 3, 0.4, &ground_z);
    for (size_t i = 0; i <= 160; i++)
        second[i] = (struct pl_point){nodes[160 - i].x, -nodes[160 - i].z};
    struct trial below = figures_round(second, 161, -ground_z, 0);
    assert_close(below.force.lift, -above.force.lift, 1e-8);
    assert_close(below.force.moment, -above.force.moment, 1e-7);
    pl_section_flow_free(above.flow);
}

/* ---- several bodies ---- */

static void move(struct pl_point *list, size_t count, double x, double z, double scale, double down_rad)
{
    double c = cos(down_rad), s = sin(down_rad);
    for (size_t i = 0; i < count; i++)
        list[i] = (struct pl_point){x + scale * (list[i].x * c + list[i].z * s), z + scale * (list[i].z * c - list[i].x * s)};
}

static void two_bodies_far_apart_are_each_alone(void **state)
{
    (void)state;
    /* At 1e4 chords one turns the other's air by cl / (4 pi 1e4), 1e-5. */
    naca_nodes("4412", nodes, 160);
    naca_nodes("0012", second, 120);
    move(second, 121, 0, 1e4, 1, 0);
    struct pl_flow_body bodies[] = {{nodes, 161}, {second, 121}};
    struct trial t = {0};
    set_bodies(&t, bodies, 2, (double)NAN, 4 * degree);
    struct pl_flow_force first = pl_section_flow_force(t.flow, 0, 4 * degree, t.speed, NULL, 0.25, 0);
    struct pl_flow_force other = pl_section_flow_force(t.flow, 1, 4 * degree, t.speed, NULL, 0.25, 1e4);
    assert_close(first.lift, naca_flow("4412", 160, 4).force.lift, 2e-4);
    assert_close(other.lift, naca_flow("0012", 120, 4).force.lift, 4e-4);
    assert_near(first.moment, naca_flow("4412", 160, 4).force.moment, 1e-4);
    assert_near(other.moment, naca_flow("0012", 120, 4).force.moment, 1e-4);
    pl_section_flow_free(t.flow);
}

/* A wing with a flap of three tenths behind and under its tail, turned down by 20 degrees; in free air or under a ground. */
static void wing_and_flap(struct trial *t, size_t panels, double ground_z, double alpha_rad)
{
    naca_nodes("4412", nodes, panels);
    naca_nodes("0012", second, panels);
    move(second, panels + 1, 1.01, -0.025, 0.3, 20 * degree);
    struct pl_flow_body bodies[] = {{nodes, panels + 1}, {second, panels + 1}};
    *t = (struct trial){0};
    set_bodies(t, bodies, 2, ground_z, alpha_rad);
}

/* Greatest part of the speed that goes through the surface, at a hundredth of a panel outside its middle. */
static double through_surface(const struct trial *t, double alpha_rad)
{
    const struct pl_flow_panels *p = pl_section_flow_panels(t->flow);
    double worst = 0;
    for (size_t i = 0; i < p->count; i++) {
        double out_x = p->tangent_z[i], out_z = -p->tangent_x[i], u, w, off = 0.01 * p->length[i];
        pl_section_flow_velocity(t->flow, alpha_rad, t->speed, p->x[i] + off * out_x, p->z[i] + off * out_z, &u, &w);
        worst = fmax(worst, fabs(u * out_x + w * out_z));
    }
    return worst;
}

/* Of the stream function: the flow between middles of neighbours, along the straight line between them half a panel's hundredth
 * outside, summed from the tail round a body. */
static double greatest_leak(const struct trial *t, size_t body, double alpha_rad)
{
    const struct pl_flow_panels *p = pl_section_flow_panels(t->flow);
    double sum = 0, worst = 0;
    for (size_t i = p->first[body]; i < p->first[body + 1]; i++) {
        enum { PARTS = 8 };
        for (int k = 0; k < PARTS; k++) {
            double share = (k + 0.5) / PARTS - 0.5, u, w;
            double x = p->x[i] + share * p->length[i] * p->tangent_x[i] + 1e-4 * p->length[i] * p->tangent_z[i];
            double z = p->z[i] + share * p->length[i] * p->tangent_z[i] - 1e-4 * p->length[i] * p->tangent_x[i];
            pl_section_flow_velocity(t->flow, alpha_rad, t->speed, x, z, &u, &w);
            sum += (u * p->tangent_z[i] - w * p->tangent_x[i]) * p->length[i] / PARTS;
        }
        worst = fmax(worst, fabs(sum));
    }
    return worst;
}

static void air_goes_along_both_of_two_bodies_close_by(void **state)
{
    (void)state;
    struct trial coarse, fine;
    wing_and_flap(&coarse, 120, (double)NAN, 4 * degree);
    double before = through_surface(&coarse, 4 * degree);
    assert_true(greatest_leak(&coarse, 0, 4 * degree) < 2e-3);
    assert_true(greatest_leak(&coarse, 1, 4 * degree) < 2e-3);
    pl_section_flow_free(coarse.flow);
    wing_and_flap(&fine, 480, (double)NAN, 4 * degree);
    assert_true(through_surface(&fine, 4 * degree) < 0.5 * before);
    pl_section_flow_free(fine.flow);
}

static void forces_of_two_bodies_close_by_balance(void **state)
{
    (void)state;
    /* Each pulls the other, so neither has its lift or drag alone; together they lift by their circulation and drag by what
     * their edges give off. */
    struct trial t;
    double alpha = 4 * degree, lift = 0, drag = 0, edge = 0, circulation_lift = 0;
    wing_and_flap(&t, 400, (double)NAN, alpha);
    const struct pl_flow_panels *p = pl_section_flow_panels(t.flow);
    for (size_t b = 0; b < 2; b++) {
        struct pl_flow_force f = pl_section_flow_force(t.flow, b, alpha, t.speed, NULL, 0, 0);
        lift += f.lift;
        drag += f.drag;
        edge += pl_section_flow_edge_drag(t.flow, b, alpha, t.speed);
        for (size_t i = p->first[b]; i < p->first[b + 1]; i++)
            circulation_lift += 2 * t.speed[i] * p->length[i];
    }
    assert_true(fabs(pl_section_flow_force(t.flow, 0, alpha, t.speed, NULL, 0, 0).drag) > 0.01);
    assert_close(lift, circulation_lift, 2e-3);
    assert_near(drag, edge, 1e-3);
    pl_section_flow_free(t.flow);
}

static void lift_of_two_bodies_is_borne_by_the_ground(void **state)
{
    (void)state;
    struct trial t;
    double lift = 0;
    wing_and_flap(&t, 320, 0.5, 0);
    for (size_t b = 0; b < 2; b++)
        lift += pl_section_flow_force(t.flow, b, 0, t.speed, NULL, 0, 0).lift + carried_down(&t, b, b ? second : nodes, 320);
    assert_close(-pressure_on_the_ground(&t, 0.5), lift, 1e-3);
    pl_section_flow_free(t.flow);
}

static void order_of_bodies_does_not_matter(void **state)
{
    (void)state;
    struct trial t;
    wing_and_flap(&t, 100, (double)NAN, 4 * degree);
    struct pl_flow_force wing = pl_section_flow_force(t.flow, 0, 4 * degree, t.speed, NULL, 0, 0);
    pl_section_flow_free(t.flow);
    struct pl_flow_body swapped[] = {{second, 101}, {nodes, 101}};
    t = (struct trial){0};
    set_bodies(&t, swapped, 2, (double)NAN, 4 * degree);
    assert_close(pl_section_flow_force(t.flow, 1, 4 * degree, t.speed, NULL, 0, 0).lift, wing.lift, 1e-9);
    pl_section_flow_free(t.flow);
}

/* ---- extremes ---- */

static void extreme_sections_and_gaps_give_figures_or_a_refusal(void **state)
{
    (void)state;
    static const char *const names[] = {"0001", "0040", "9940", "2101", "6412"};
    static const double heights[] = {(double)NAN, 1e-4, 1e-3, 0.01, 0.03, 0.1, 0.3, 1e6};
    for (size_t k = 0; k < 5; k++)
        for (size_t h = 0; h < sizeof heights / sizeof *heights; h++) {
            naca_nodes(names[k], nodes, 100);
            double highest = 0;
            for (size_t i = 0; i <= 100; i++)
                highest = fmax(highest, nodes[i].z);
            struct pl_section_flow *flow = pl_section_flow_new();
            struct pl_problems problems = {0};
            struct pl_flow_body body = {nodes, 101};
            double speed[100];
            enum pl_status status = pl_section_flow_set(flow, &body, 1, highest + heights[h], false, &problems);
            if (status == PL_OK && pl_section_flow_speeds(flow, 0, NULL, speed)) {
                struct pl_flow_force f = pl_section_flow_force(flow, 0, 0, speed, NULL, 0.25, 0);
                assert_true(isfinite(f.lift) && isfinite(f.drag) && isfinite(f.moment));
            } else {
                assert_true(problems.count > 0);
            }
            pl_section_flow_free(flow);
            pl_problems_free(&problems);
        }
}

/* ---- what sources do ---- */

static void speeds_answer_to_sources_in_proportion(void **state)
{
    (void)state;
    enum { PANELS = 100 };
    double source[PANELS], plain[PANELS], both[PANELS], alone[PANELS];
    struct pl_section_flow *flow = pl_section_flow_new();
    struct pl_problems problems = {0};
    naca_nodes("2412", nodes, PANELS);
    struct pl_flow_body body = {nodes, PANELS + 1};
    assert_int_equal(pl_section_flow_set(flow, &body, 1, (double)NAN, true, &problems), PL_OK);
    for (size_t i = 0; i < PANELS; i++)
        source[i] = 0.01 * sin(0.1 * (double)i);
    assert_true(pl_section_flow_speeds(flow, 0.05, NULL, plain));
    assert_true(pl_section_flow_speeds(flow, 0.05, source, both));
    assert_true(pl_section_flow_of_sources(flow, source, alone));
    for (size_t i = 0; i < PANELS; i++)
        assert_near(both[i], plain[i] + alone[i], 1e-12);
    pl_section_flow_free(flow);
    pl_problems_free(&problems);
}

/* ---- refusals ---- */

static void assert_refused(const struct pl_flow_body *bodies, size_t n, double ground_z, const char *words)
{
    struct pl_section_flow *flow = pl_section_flow_new();
    struct pl_problems problems = {0};
    assert_int_equal(pl_section_flow_set(flow, bodies, n, ground_z, false, &problems), PL_BAD_INPUT);
    assert_int_equal(problems.count, 1);
    if (!strstr(problems.list[0].rule, words))
        fail_msg("\"%s\" is not said in: %s", words, problems.list[0].rule);
    pl_section_flow_free(flow);
    pl_problems_free(&problems);
}

static void touching_or_crossing_the_ground_is_refused(void **state)
{
    (void)state;
    naca_nodes("0012", nodes, 100);
    struct pl_flow_body body = {nodes, 101};
    double highest = 0;
    for (size_t i = 0; i <= 100; i++)
        highest = fmax(highest, nodes[i].z);
    assert_refused(&body, 1, highest, "the section touches or crosses the ground");
    assert_refused(&body, 1, 0.01, "the section touches or crosses the ground");
    assert_refused(&body, 1, -0.01, "the section touches or crosses the ground");
    naca_nodes("0012", second, 100);
    move(second, 101, 0, 2, 1, 0);
    struct pl_flow_body either_side[] = {{nodes, 101}, {second, 101}};
    assert_refused(either_side, 2, 1, "the section touches or crosses the ground");
}

static void repeated_nodes_are_refused(void **state)
{
    (void)state;
    naca_nodes("0012", nodes, 100);
    nodes[31] = nodes[30];
    assert_refused(&(struct pl_flow_body){nodes, 101}, 1, (double)NAN, "two nodes of the outline, 30 and the next, stand on each other");
}

static void nodes_that_are_no_numbers_are_refused(void **state)
{
    (void)state;
    naca_nodes("0012", nodes, 100);
    nodes[5].z = (double)NAN;
    assert_refused(&(struct pl_flow_body){nodes, 101}, 1, (double)NAN, "stand");
    naca_nodes("0012", nodes, 100);
    nodes[5].x = HUGE_VAL;
    assert_refused(&(struct pl_flow_body){nodes, 101}, 1, (double)NAN, "stand");
}

static void too_many_or_no_bodies_and_panels_are_refused(void **state)
{
    (void)state;
    static const char words[] = "needs one to four bodies of at least 4 nodes, and fewer than 1000 panels in all";
    static struct pl_point many[1001];
    struct pl_flow_body body = {nodes, 41}, five[5];
    naca_nodes("0012", nodes, 40);
    for (int i = 0; i < 5; i++)
        five[i] = body;
    assert_refused(&body, 0, (double)NAN, words);
    assert_refused(five, 5, (double)NAN, words);
    assert_refused(&(struct pl_flow_body){nodes, 3}, 1, (double)NAN, words);
    assert_refused(&(struct pl_flow_body){nodes, 0}, 1, (double)NAN, words);
    for (int i = 0; i <= 1000; i++)
        many[i] = (struct pl_point){cos(2 * M_PI * i / 1000.0), sin(2 * M_PI * i / 1000.0)};
    assert_refused(&(struct pl_flow_body){many, 1001}, 1, (double)NAN, words);
}

static void a_flow_can_be_set_again_after_a_refusal(void **state)
{
    (void)state;
    struct pl_section_flow *flow = pl_section_flow_new();
    struct pl_problems problems = {0};
    double speed[160];
    naca_nodes("2412", nodes, 160);
    struct pl_flow_body body = {nodes, 161};
    assert_int_equal(pl_section_flow_set(flow, &body, 1, 0, false, &problems), PL_BAD_INPUT);
    assert_int_equal(pl_section_flow_set(flow, &body, 1, (double)NAN, false, &problems), PL_OK);
    assert_true(pl_section_flow_speeds(flow, 4 * degree, NULL, speed));
    double lift = pl_section_flow_force(flow, 0, 4 * degree, speed, NULL, 0.25, 0).lift;
    assert_close(lift, naca_flow("2412", 160, 4).force.lift, 1e-12);
    pl_section_flow_free(flow);
    pl_problems_free(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lift_is_that_of_the_mapped_circle),
        cmocka_unit_test(speeds_are_those_of_the_mapped_circle),
        cmocka_unit_test(error_of_lift_falls_with_the_square_of_the_panels),
        cmocka_unit_test(error_of_speeds_falls_with_the_square_of_the_panels),
        cmocka_unit_test(pressure_and_circulation_give_the_same_lift),
        cmocka_unit_test(drag_of_an_open_edge_is_what_its_outflow_carries),
        cmocka_unit_test(speeds_at_an_open_edge_stay_finite_as_panels_shrink),
        cmocka_unit_test(lift_of_an_open_edge_drifts_less_than_a_thousandth_from_160_panels_on),
        cmocka_unit_test(closing_the_edge_changes_lift_little_and_steadily),
        cmocka_unit_test(a_mirrored_section_at_the_opposite_angle_lifts_the_other_way),
        cmocka_unit_test(a_symmetric_section_in_line_with_the_air_has_no_lift),
        cmocka_unit_test(lift_and_moment_are_linear_in_both_parts_of_the_onset_flow),
        cmocka_unit_test(lift_slope_tends_to_two_pi_as_a_section_thins),
        cmocka_unit_test(moment_of_a_thin_symmetric_section_about_the_quarter_chord_vanishes),
        cmocka_unit_test(lift_is_borne_by_the_ground),
        cmocka_unit_test(far_ground_is_free_air),
        cmocka_unit_test(suction_side_near_the_ground_lifts_more_the_nearer_it_is),
        cmocka_unit_test(which_side_the_ground_is_on_is_a_matter_of_the_mirror),
        cmocka_unit_test(two_bodies_far_apart_are_each_alone),
        cmocka_unit_test(air_goes_along_both_of_two_bodies_close_by),
        cmocka_unit_test(forces_of_two_bodies_close_by_balance),
        cmocka_unit_test(lift_of_two_bodies_is_borne_by_the_ground),
        cmocka_unit_test(order_of_bodies_does_not_matter),
        cmocka_unit_test(extreme_sections_and_gaps_give_figures_or_a_refusal),
        cmocka_unit_test(speeds_answer_to_sources_in_proportion),
        cmocka_unit_test(touching_or_crossing_the_ground_is_refused),
        cmocka_unit_test(repeated_nodes_are_refused),
        cmocka_unit_test(nodes_that_are_no_numbers_are_refused),
        cmocka_unit_test(too_many_or_no_bodies_and_panels_are_refused),
        cmocka_unit_test(a_flow_can_be_set_again_after_a_refusal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
