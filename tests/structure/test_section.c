/* Section constants against closed forms of tubes, boxes and solid cores, and the laws that hold for any section. */
#include "tubes.h"

#include "plyloft/profile.h"

#include <string.h>

static const double sheet_e = 70e9, sheet_g = 70e9 / 2.6, sheet_m = 0.5e-3;

static const struct pl_section *section_of(struct wing *w, const struct wing_text *text, double y_m, struct pl_place_view *view)
{
    wing_build(w, text);
    return wing_section(w, 0, y_m, view);
}

/* ---- tubes ---- */

static void a_round_tube_has_its_closed_forms(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(100, 0.5, 500);
    const struct pl_section *s = section_of(&w, &text, 0.2, &view);
    double r = 0.05 + sheet_m / 2, band = 2e-4;  /* 360 straight sides fall short of the circle by 5e-5 in area */
    assert_close(s->ea_n, 2 * M_PI * r * sheet_e * sheet_m, band);
    assert_close(s->ei_flap_nm2, M_PI * r * r * r * sheet_e * sheet_m, band);
    assert_close(s->ei_lead_nm2, M_PI * r * r * r * sheet_e * sheet_m, band);
    assert_true(fabs(s->ei_coupling_nm2) < 1e-6 * s->ei_flap_nm2);
    assert_close(s->gj_nm2, 2 * M_PI * r * r * r * sheet_g * sheet_m, band);
    assert_close(s->cell_area_m2, M_PI * r * r, band);
    /* flow V sin a / (pi r): its energy is that of half the area (Timoshenko's coefficient 1/2 of a thin tube) */
    assert_close(s->shear_stiffness_n, 0.5 * 2 * M_PI * r * sheet_m * sheet_g, band);
    assert_close(s->x_neutral_m, 0.05, 3e-5);
    assert_close(s->x_shear_centre_m, 0.05, 3e-5);
    assert_true(fabs(s->z_neutral_m) < 1e-9 && fabs(s->z_shear_centre_m) < 1e-9);
    /* one ply, girth on the core surface: 0.5 kg/m2 of fibre and half the ply of resin */
    assert_close(s->mass_kg_m, 2 * M_PI * 0.05 * (0.5 + 0.25e-3 * 1150), band);
    assert_close(s->core_area_m2, M_PI * 0.05 * 0.05, band);
    wing_free(&w);
}

static void an_oval_tube_has_its_closed_forms(void **state)
{
    (void)state;
    static const double heights[] = {0.075, 0.2, 0.35};
    for (size_t i = 0; i < 3; i++) {
        struct wing w;
        struct pl_place_view view;
        struct wing_text text = oval_text(200, heights[i], 500);
        const struct pl_section *s = section_of(&w, &text, 0.2, &view);
        struct oval middle = {0.1, 0.2 * heights[i], sheet_m / 2};
        double zz, xx, girth, area, band = 3e-4;  /* the flattest is sharp at nose and tail, where sides are long */
        oval_sums(&middle, &zz, &xx, &girth, &area);
        assert_close(s->ea_n, girth * sheet_e * sheet_m, band);
        assert_close(s->ei_flap_nm2, zz * sheet_e * sheet_m, band);
        assert_close(s->ei_lead_nm2, xx * sheet_e * sheet_m, band);
        assert_close(s->gj_nm2, 4 * area * area * sheet_g * sheet_m / girth, band);  /* Bredt 1896 */
        assert_close(s->x_shear_centre_m, 0.1, band);
        assert_true(fabs(s->z_shear_centre_m) < 1e-9);
        wing_free(&w);
    }
}

/* By symmetry the flow of an upward shear vanishes at the top, so it is known from there on without closing. */
static void shear_stiffness_of_an_oval_tube_is_that_of_its_energy(void **state)
{
    (void)state;
    struct oval o = {0.1, 0.015, sheet_m / 2};
    double zz, xx, girth, area, first = 0, energy = 0, step = 2 * M_PI / OVAL_STEPS;
    oval_sums(&o, &zz, &xx, &girth, &area);
    for (int i = 0; i < OVAL_STEPS; i++) {
        double x, z, ds;
        oval_at(&o, M_PI / 2 + (i + 0.5) * step, &x, &z, &ds);
        double q = (first + 0.5 * z * ds * step) / zz;
        first += z * ds * step;
        energy += q * q * ds * step / (sheet_g * sheet_m);
    }
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(200, 0.075, 500);
    assert_close(section_of(&w, &text, 0.2, &view)->shear_stiffness_n, 1 / energy, 1e-3);
    wing_free(&w);
    /* a core adds G times its area: 20 MPa */
    text.core = "'kind': 'pvc', 'density_kgm3': 60, 'e_mpa': 1e-6, 'g_mpa': 20, 'shear_strength_mpa': 1, 'compressive_strength_mpa': 1";
    assert_close(section_of(&w, &text, 0.2, &view)->shear_stiffness_n, 1 / energy + 20e6 * M_PI * 0.1 * 0.015, 1e-3);
    wing_free(&w);
}

static void a_solid_oval_core_has_its_closed_forms(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(200, 0.075, 500);
    text.layup = skin_of("film", 0, 1);
    text.core = "'kind': 'balsa', 'density_kgm3': 150, 'e_mpa': 4000, 'g_mpa': 160, 'shear_strength_mpa': 2, 'compressive_strength_mpa': 6";
    const struct pl_section *s = section_of(&w, &text, 0.2, &view);
    double a = 0.1, b = 0.015, e = 4e9, band = 2e-4;
    assert_close(s->ea_n, M_PI * a * b * e, band);
    assert_close(s->ei_flap_nm2, M_PI * a * b * b * b / 4 * e, band);
    assert_close(s->ei_lead_nm2, M_PI * a * a * a * b / 4 * e, band);
    assert_close(s->core_mass_kg_m, M_PI * a * b * 150, band);
    wing_free(&w);
}

/* ---- boxes ---- */

static const char *const thin_fabrics =
    "{'name': 'sheet', 'areal_weight_gsm': 5, 'fibre_density_kgm3': 2000, 'fibre_volume_fraction': 0.5,"
    " 'e1_gpa': 70, 'e2_gpa': 70, 'g12_gpa': 26.923076923076923, 'nu12': 0.3,"
    " 'xt_mpa': 9000, 'xc_mpa': 9000, 'yt_mpa': 9000, 'yc_mpa': 9000, 's_mpa': 9000, 'roll_width_mm': 1000}";

static void a_box_twists_as_bredt_says(void **state)
{
    (void)state;
    /* F7.4: 100 x 20 mm between middle lines, 0.5 mm of 7.522 GPa: 250.7 N m2; the core is half a wall smaller all round */
    struct wing_text text = straight_text(box_points(0.5 * 19.5 / 99.5), 99.5, 500);
    text.core = HOLLOW;
    text.layup = skin_of("sheet", 0, 1);
    text.fabrics = "{'name': 'sheet', 'areal_weight_gsm': 500, 'fibre_density_kgm3': 2000, 'fibre_volume_fraction': 0.5,"
                   " 'e1_gpa': 9.642, 'e2_gpa': 9.642, 'g12_gpa': 7.522, 'nu12': 0.2, 'xt_mpa': 9000, 'xc_mpa': 9000,"
                   " 'yt_mpa': 9000, 'yc_mpa': 9000, 's_mpa': 9000, 'roll_width_mm': 1000}";
    struct wing w;
    struct pl_place_view view;
    assert_close(section_of(&w, &text, 0.1, &view)->gj_nm2, 250.7, 3e-4);
    wing_free(&w);
}

/* Shear centre behind the front web of a box w by h whose front web is `more` times as thick, by hand: open flow from
 * the middle of the front web, up, rearward, down, forward; then closed for no twist (Megson, ch. 17).  Per V t / I. */
static double box_shear_centre(double w, double h, double more)
{
    double flange = more * h * h * w / 8 + h * w * w / 4;           /* - integral of the open flow, top as bottom */
    double rear = more * h * h * h / 8 + h * h * w / 2 + h * h * h / 12;
    double over_t = h * h * h / 24 + 2 * flange + rear;
    double constant = over_t / (h / more + 2 * w + h);
    double moment = -2 * flange * h / 2 - rear * w + constant * 2 * w * h;
    double i_over_t = 2 * w * h * h / 4 + h * h * h / 12 * (1 + more);
    return -moment / i_over_t;
}

static void a_thick_front_web_draws_the_shear_centre_forward(void **state)
{
    (void)state;
    assert_close(box_shear_centre(0.1, 0.04, 1), 0.05, 1e-12);
    static const int more[] = {1, 2, 5};
    for (size_t i = 0; i < 3; i++) {
        struct wing_text text = straight_text(box_points(0.2), 100, 500);
        text.core = HOLLOW;
        text.fabrics = thin_fabrics;
        text.layup = skin_of("sheet", 0, 1);
        if (more[i] > 1)
            text.layup = say("%s, {'name': 'web', 'fabric': 'sheet', 'angle_deg': 0, 'plies': %d, 'side': 'both', 'chord_from': 0,"
                             " 'chord_to': 0.000001}", text.layup, more[i] - 1);
        struct wing w;
        struct pl_place_view view;
        const struct pl_section *s = section_of(&w, &text, 0.1, &view);
        /* a ply is 0.005 mm, so middle lines stand 0.01 mm outside the core at most: 1e-4 of the width */
        assert_close(s->x_shear_centre_m, box_shear_centre(0.1, 0.04, more[i]), 1e-3);
        assert_true(fabs(s->z_shear_centre_m) < 1e-9);
        wing_free(&w);
    }
}

static double half_round_z(double angle, double size)
{
    /* x = (1 + cos a)/2 must be 1 - cos b on a half circle about (1, 0) of radius 1 */
    double x = 0.5 * (1 + cos(angle));
    return (angle < M_PI ? 1 : -1) * size * sqrt(fmax(0, 1 - (1 - x) * (1 - x)));
}

/* A half circle closed by the straight line across its open edge, which carries flow without strain: q = C + k cos b
 * with C = -2 k / pi for no twist.  The arc's moment about the middle of the circle is r2 (pi C + 2 k) = 0. */
static void closing_a_half_tube_moves_its_shear_centre_to_the_middle_of_the_circle(void **state)
{
    (void)state;
    struct wing_text text = straight_text(say("'points': [%s]", say_outline(200, half_round_z, 1)), 100, 500);
    text.core = HOLLOW;
    text.fabrics = thin_fabrics;
    text.layup = skin_of("sheet", 0, 1);
    struct wing w;
    struct pl_place_view view;
    const struct pl_section *s = section_of(&w, &text, 0.1, &view);
    double r = 0.1, t = 0.005e-3;
    assert_close(s->x_shear_centre_m, 0.1, 1e-3);
    assert_close(s->ei_flap_nm2, M_PI * r * r * r * t * sheet_e / 2, 1e-3);
    /* energy: the arc's integral of (C + k cos b)^2 r db, k = 2 V / (pi r): 1/S = (4/(pi2 r)) (pi/2 - 4/pi) / (G t) */
    assert_close(s->shear_stiffness_n, sheet_g * t * M_PI * M_PI * r / (4 * (M_PI / 2 - 4 / M_PI)), 2e-3);
    assert_close(s->gj_nm2, 4 * pow(M_PI * r * r / 2, 2) * sheet_g * t / (M_PI * r), 1e-3);
    wing_free(&w);
}

static void two_caps_bend_as_the_handbook_says(void **state)
{
    (void)state;
    /* F7.3: 5 and 4 uni plies of 72 mm, middles 31 mm apart: K 3.218 and 2.574 MN, EI 1374 N m2; one of five forgotten x .900 */
    static const double want[] = {1374, 1374 * 0.900};
    for (int lost = 0; lost < 2; lost++) {
        double ply = 0.310e-3 / (2560 * 0.42) * 1e3, film = 0.01e-3, top = (5 - lost) * ply, bottom = 4 * ply;
        double core = 0.031 - (top + bottom) / 2 - film;  /* film lies under the caps */
        struct wing_text text = straight_text(box_points(0.5 * core / 0.2), 200, 500);
        text.core = HOLLOW;
        text.layup = say("%s, {'name': 'top', 'fabric': 'uni', 'angle_deg': 0, 'plies': %d, 'side': 'top', 'centre_at': 0.5, 'width_mm': 72},"
                         "{'name': 'bottom', 'fabric': 'uni', 'angle_deg': 0, 'plies': 4, 'side': 'bottom', 'centre_at': 0.5, 'width_mm': 72}",
                         skin_of("film", 0, 1), 5 - lost);
        struct wing w;
        struct pl_place_view view;
        const struct pl_section *s = section_of(&w, &text, 0.1, &view);
        assert_close(s->ei_flap_nm2, want[lost], 1e-3);
        wing_free(&w);
    }
}

/* ---- coupling of bending and twist ---- */

static void an_unbalanced_tube_bends_when_twisted_by_its_closed_form(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(100, 0.5, 500);
    text.layup = skin_of("uni", 20, 1);
    const struct pl_section *s = section_of(&w, &text, 0.2, &view);
    const struct pl_stack *stack = &view.stacks->stacks[0];
    double r = 0.05 + stack->thickness_m / 2, k = stack->k, compliance[6], band = 3e-4;
    assert_true(s->couples && fabs(k) > 0.3);
    pl_section_compliance(s, compliance);
    /* c = (0, - k closed |z| ds, 0) = (0, -4 k r2, 0); curvature of a unit torque -c / (2 A EI); twist rate 1/GJ + c2/(4 A2 EI) */
    double c = -4 * k * r * r, area = M_PI * r * r, ei = M_PI * r * r * r * stack->e1_n_m;
    double gj = 2 * M_PI * r * r * r * stack->a66_n_m;
    assert_close(compliance[0], 1 / ei, band);
    assert_close(compliance[1], 1 / ei, band);
    assert_close(compliance[4], -c / (2 * area * ei), band);
    assert_close(compliance[2], 1 / gj + c * c / (4 * area * area * ei), band);
    assert_true(fabs(compliance[5]) < 1e-6 * fabs(compliance[4]) && fabs(compliance[3]) < 1e-6 * compliance[0]);
    wing_free(&w);
}

static void coupling_vanishes_along_across_and_balanced(void **state)
{
    (void)state;
    static const char *const balanced = "{'name': 'a', 'fabric': 'uni', 'angle_deg': 30, 'plies': 1, 'side': 'both', 'chord_from': 0, 'chord_to': 1},"
                                        "{'name': 'b', 'fabric': 'uni', 'angle_deg': -30, 'plies': 1, 'side': 'both', 'chord_from': 0, 'chord_to': 1}";
    const char *layups[] = {skin_of("uni", 0, 2), skin_of("uni", 90, 2), skin_of("uni", -90, 2), skin_of("plain", 45, 2), balanced};
    for (size_t i = 0; i < 5; i++) {
        struct wing w;
        struct pl_place_view view;
        struct wing_text text = front_wing;
        text.layup = layups[i];
        const struct pl_section *s = section_of(&w, &text, 0.2, &view);
        double compliance[6];
        pl_section_compliance(s, compliance);
        assert_false(s->couples);
        assert_close(compliance[2], 1 / s->gj_nm2, 1e-12);
        assert_true(compliance[4] == 0 && compliance[5] == 0);
        wing_free(&w);
    }
    double before = HUGE_VAL;
    for (double angle = 8; angle > 0.1; angle /= 2) {
        struct wing w;
        struct pl_place_view view;
        struct wing_text text = front_wing;
        text.layup = skin_of("uni", angle, 2);
        double compliance[6];
        pl_section_compliance(section_of(&w, &text, 0.2, &view), compliance);
        assert_true(fabs(compliance[4]) > 0 && fabs(compliance[4]) < 0.6 * before);
        before = fabs(compliance[4]);
        wing_free(&w);
    }
}

/* ---- laws ---- */

/* Sums over wall pieces by Simpson's rule, which is exact for what is at most cubic along a straight piece. */
static void a_section_strains_so_that_its_own_stress_balances_the_forces(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = front_wing;
    text.core = HOLLOW;
    text.allowables = NULL;
    text.resin = NULL;
    text.layup = say("%s, {'name': 'cap', 'fabric': 'uni', 'angle_deg': 15, 'plies': 4, 'side': 'top', 'centre_at': 0.3, 'width_mm': 60}",
                     skin_of("uni", 35, 2));
    const struct pl_section *s = section_of(&w, &text, 0.3, &view);
    struct pl_internal f = {.moment_flap_nm = 80, .moment_lead_nm = -50, .torque_nm = 60};
    struct pl_strain e = pl_section_strain(s, &f);
    double n = 0, flap = 0, lead = 0, size = 0;
    for (size_t r = 0; r < s->wall.n_runs; r++) {
        const struct pl_wall_run *run = &s->wall.runs[r];
        const struct pl_stack *stack = &view.stacks->stacks[run->stack];
        for (size_t i = run->first; i + 1 < run->first + run->count; i++)
            for (int part = 0; part < 3; part++) {
                double x = s->wall.x_m[i] + 0.5 * part * (s->wall.x_m[i + 1] - s->wall.x_m[i]);
                double z = s->wall.z_m[i] + 0.5 * part * (s->wall.z_m[i + 1] - s->wall.z_m[i]);
                double ds = hypot(s->wall.x_m[i + 1] - s->wall.x_m[i], s->wall.z_m[i + 1] - s->wall.z_m[i]) * (part == 1 ? 4 : 1) / 6;
                double n1 = stack->e1_n_m * (e.at_neutral - e.flap_1_m * z - e.lead_1_m * x) + stack->k * run->flow_torsion * f.torque_nm;
                n += n1 * ds;
                size += fabs(n1) * ds;
                flap -= n1 * z * ds;
                lead -= n1 * x * ds;
            }
    }
    assert_true(fabs(n) < 1e-6 * size);
    assert_close(flap, f.moment_flap_nm, 1e-6);
    assert_close(lead, f.moment_lead_nm, 1e-6);
    wing_free(&w);
}

/* Flow round the whole circuit, steps and closure included, adds up to the shear it stands for. */
static void shear_flow_adds_up_to_the_shear(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    const struct pl_section *s = section_of(&w, &front_wing, 0.2, &view);
    const struct pl_wall *wall = &s->wall;
    double force[2][2] = {{0, 0}, {0, 0}}, torque = 0;
    for (size_t r = 0; r < wall->n_runs; r++)
        for (size_t i = wall->runs[r].first; i < wall->runs[r].first + wall->runs[r].count; i++) {
            size_t next = i + 1 < wall->count ? i + 1 : 0, last = wall->runs[r].first + wall->runs[r].count - 1;
            double sign = wall->runs[r].side == PL_TOP ? 1 : -1, dx = wall->x_m[next] - wall->x_m[i], dz = wall->z_m[next] - wall->z_m[i];
            double z = sign * (i < last ? 0.5 * (wall->flow_z[i] + wall->flow_z[next]) : wall->flow_z[i]);
            double x = sign * (i < last ? 0.5 * (wall->flow_x[i] + wall->flow_x[next]) : wall->flow_x[i]);
            force[0][0] += z * dz;
            force[0][1] += z * dx;
            force[1][0] += x * dz;
            force[1][1] += x * dx;
            torque += sign * wall->runs[r].flow_torsion * (wall->z_m[i] * wall->x_m[next] - wall->x_m[i] * wall->z_m[next]);
        }
    /* flow is quadratic along a piece and taken as straight here */
    assert_close(force[0][0], 1, 2e-3);
    assert_close(force[1][1], 1, 2e-3);
    assert_true(fabs(force[0][1]) < 2e-3 && fabs(force[1][0]) < 2e-3);
    assert_close(torque, 1, 1e-9);
    wing_free(&w);
}

static void a_section_turned_upright_bends_the_other_way_round(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = front_wing;
    double level[6], turned[6], between[6];
    text.layup = skin_of("uni", 20, 2);
    text.element = "'incidence_deg': 0";
    pl_section_compliance(section_of(&w, &text, 0.1, &view), level);
    wing_free(&w);
    text.element = "'incidence_deg': 90";
    pl_section_compliance(section_of(&w, &text, 0.1, &view), turned);
    wing_free(&w);
    /* nose straight up: chord axes x, z lie along -z, x of the car */
    assert_close(turned[0], level[1], 1e-9);
    assert_close(turned[1], level[0], 1e-9);
    assert_close(turned[2], level[2], 1e-9);
    assert_close(turned[3], -level[3], 1e-9);
    assert_close(turned[4], -level[5], 1e-9);
    assert_close(turned[5], level[4], 1e-9);
    text.element = "'incidence_deg': 31";
    pl_section_compliance(section_of(&w, &text, 0.1, &view), between);
    assert_close(between[0] + between[1], level[0] + level[1], 1e-9);
    assert_close(between[0] * between[1] - between[3] * between[3], level[0] * level[1] - level[3] * level[3], 1e-9);
    assert_close(hypot(between[4], between[5]), hypot(level[4], level[5]), 1e-9);
    struct pl_internal car = {.shear_z_n = 3, .shear_x_n = -2, .moment_flap_nm = 5, .moment_lead_nm = 7, .torque_nm = 11};
    struct pl_internal own = pl_section_turn(&view.section, &car);
    double c = cos(31 * M_PI / 180), n = sin(31 * M_PI / 180);
    assert_close(own.shear_z_n, 3 * c - 2 * n, 1e-9);
    assert_close(own.shear_x_n, -2 * c - 3 * n, 1e-9);
    assert_close(hypot(own.moment_flap_nm, own.moment_lead_nm), hypot(5, 7), 1e-9);
    assert_close(own.torque_nm, 11, 0);
    wing_free(&w);
}

static void an_inverted_section_is_the_mirror_of_the_upright_one(void **state)
{
    (void)state;
    struct wing up, down;
    struct pl_place_view a, b;
    struct wing_text text = front_wing;
    text.layup = skin_of("plain", 45, 3);
    text.element = "'incidence_deg': 0";
    const struct pl_section *u = section_of(&up, &text, 0.2, &a);
    text.element = "'inverted': true, 'incidence_deg': 0";
    const struct pl_section *d = section_of(&down, &text, 0.2, &b);
    assert_close(d->ei_flap_nm2, u->ei_flap_nm2, 1e-9);
    assert_close(d->ei_coupling_nm2, -u->ei_coupling_nm2, 1e-9);
    assert_close(d->gj_nm2, u->gj_nm2, 1e-9);
    assert_close(d->shear_stiffness_n, u->shear_stiffness_n, 1e-9);
    assert_close(d->z_neutral_m, -u->z_neutral_m, 1e-9);
    assert_close(d->x_shear_centre_m, u->x_shear_centre_m, 1e-9);
    assert_close(d->z_shear_centre_m, -u->z_shear_centre_m, 1e-9);
    wing_free(&up);
    wing_free(&down);
}

static void the_intervals_of_a_surface_stand_within_two_thousandths_of_the_limit(void **state)
{
    (void)state;
    enum { COUNT = 1201 };
    static struct pl_point p[COUNT];
    struct pl_profile shape = {.naca = "6412"};
    pl_profile_list(&shape, COUNT, p);
    struct wing coarse, fine;
    struct pl_place_view a, b;
    struct wing_text text = front_wing;
    text.layup = skin_of("plain", 45, 3);
    const struct pl_section *s = section_of(&coarse, &text, 0.2, &a);
    wing_build(&fine, &text);
    fine.part.profiles[0] = (struct pl_profile){.name = "section", .points = p, .n_points = COUNT};
    const struct pl_section *limit = wing_section(&fine, 0, 0.2, &b);
    assert_close(s->ea_n, limit->ea_n, 1e-3);
    assert_close(s->girth_flexibility_m_n, limit->girth_flexibility_m_n, 1e-3);
    assert_close(s->cell_area_m2, limit->cell_area_m2, 1e-3);
    assert_close(s->mass_kg_m, limit->mass_kg_m, 1e-3);
    assert_close(s->ei_lead_nm2, limit->ei_lead_nm2, 1e-3);
    /* depth loses what area loses, and these go with its square */
    assert_close(s->ei_flap_nm2, limit->ei_flap_nm2, 2e-3);
    assert_close(s->gj_nm2, limit->gj_nm2, 2e-3);
    assert_close(s->shear_stiffness_n, limit->shear_stiffness_n, 2e-3);
    double both = sqrt(limit->ei_flap_nm2 * limit->ei_lead_nm2);
    assert_true(fabs(s->ei_coupling_nm2 - limit->ei_coupling_nm2) < 1e-3 * both);
    assert_true(fabs(s->x_shear_centre_m - limit->x_shear_centre_m) < 5e-4 * s->chord_m);
    wing_free(&coarse);
    wing_free(&fine);
}

static void a_bare_wall_is_told_with_its_place(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = {.layup = "{'name': 'a', 'fabric': 'plain', 'angle_deg': 0, 'plies': 1, 'side': 'top', 'chord_from': 0, 'chord_to': 1},"
                                      "{'name': 'b', 'fabric': 'plain', 'angle_deg': 0, 'plies': 1, 'side': 'bottom', 'chord_from': 0, 'chord_to': 0.8}"};
    wing_build(&w, &text);
    size_t before = w.problems.errors;
    assert_int_equal(pl_solve_place(w.solve, &w.part, 0, 0.1, &view, &w.problems), PL_BAD_INPUT);
    assert_int_equal(w.problems.errors, before + 1);
    const struct pl_problem *p = pl_problems_first_error(&w.problems);
    assert_non_null(strstr(p->rule, "bottom bare from 0.800 to 1.000"));
    assert_int_equal(pl_solve_run(w.solve, &w.part, &w.problems), PL_BAD_INPUT);
    assert_string_equal(w.problems.list[w.problems.count - 1].place, "/elements/0/layup");
    wing_free(&w);
}

static void runs_meet_at_the_edges_of_pieces_and_wrinkle_from_a_tenth_of_the_chord(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    const struct pl_section *s = section_of(&w, &front_wing, 0.17, &view);
    /* skins to the nose, wrap from 0.05, wrinkles from 0.10, cap 0.30 -+ 36/275 */
    static const double edges[] = {0, 0.05, 0.10, 0.30 - 36.0 / 275, 0.30 + 36.0 / 275, 1};
    assert_int_equal(s->wall.n_runs, 10);
    for (size_t r = 0; r < 10; r++) {
        const struct pl_wall_run *run = &s->wall.runs[r];
        size_t i = r < 5 ? 4 - r : r - 5;
        assert_int_equal(run->side, r < 5 ? PL_BOTTOM : PL_TOP);
        assert_true(fabs(run->from - edges[i]) < 1e-9 && fabs(run->to - edges[i + 1]) < 1e-9);
        assert_int_equal(run->wrinkles, i >= 2);
    }
    assert_close(view.stacks->stacks[s->wall.runs[8].stack].thickness_m, 5 * 0.163 / (2560 * 0.38) + 6 * 0.310 / (2560 * 0.42), 1e-9);
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_round_tube_has_its_closed_forms),
        cmocka_unit_test(an_oval_tube_has_its_closed_forms),
        cmocka_unit_test(shear_stiffness_of_an_oval_tube_is_that_of_its_energy),
        cmocka_unit_test(a_solid_oval_core_has_its_closed_forms),
        cmocka_unit_test(a_box_twists_as_bredt_says),
        cmocka_unit_test(a_thick_front_web_draws_the_shear_centre_forward),
        cmocka_unit_test(closing_a_half_tube_moves_its_shear_centre_to_the_middle_of_the_circle),
        cmocka_unit_test(two_caps_bend_as_the_handbook_says),
        cmocka_unit_test(an_unbalanced_tube_bends_when_twisted_by_its_closed_form),
        cmocka_unit_test(coupling_vanishes_along_across_and_balanced),
        cmocka_unit_test(a_section_strains_so_that_its_own_stress_balances_the_forces),
        cmocka_unit_test(shear_flow_adds_up_to_the_shear),
        cmocka_unit_test(a_section_turned_upright_bends_the_other_way_round),
        cmocka_unit_test(an_inverted_section_is_the_mirror_of_the_upright_one),
        cmocka_unit_test(the_intervals_of_a_surface_stand_within_two_thousandths_of_the_limit),
        cmocka_unit_test(a_bare_wall_is_told_with_its_place),
        cmocka_unit_test(runs_meet_at_the_edges_of_pieces_and_wrinkle_from_a_tenth_of_the_chord),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
