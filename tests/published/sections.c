/* Thin-walled sections: Bredt, Timoshenko, Megson; wrinkling after Hoff and Mautner. */
#include "published.h"

#include "specimen.h"

#include <math.h>

static const double sheet_e = 70e9, sheet_g = 70e9 / 2.6, sheet_m = 0.5e-3, tube_m = 0.05 + 0.25e-3;

/* One figure of a section of the tube, 100 mm across, or of another specimen. */
#define SECTION_FIGURE(name, set_up, figure) \
    static double name(void) \
    { \
        static struct specimen s; \
        specimen_start(&s, 0.1, 0.1); \
        set_up; \
        double value = specimen_section(&s)->figure; \
        specimen_end(&s); \
        return value; \
    }

static void make_solid(struct specimen *s)
{
    s->layup[0].fabric = 1;  /* film */
    s->core.e_pa = 4e9;
    specimen_oval(s, 0.1);
}

/* 100 x 20 mm between middle lines, 0.5 mm of 7.522 GPa. */
static void make_box(struct specimen *s)
{
    specimen_cloth(&s->fabrics[0], 9.642e9, 7.522e9, 0.2, 0.5e-3);
    s->stations[0].chord_m = s->stations[1].chord_m = 0.0995;
    specimen_box(s, 0.5 * 19.5 / 99.5);
}

/* 100 x 40 mm of 5 um sheet, the front web five times as thick. */
static void make_web_box(struct specimen *s)
{
    specimen_cloth(&s->fabrics[0], sheet_e, sheet_g, 0.3, 5e-6);
    specimen_box(s, 0.2);
    specimen_lay(s, 0, 4, PL_BOTH, 0, 1e-6);
}

/* Half a tube: nose of radius 1 chord, 5 um of sheet, its open edge closed by the straight line. */
static void make_half_tube(struct specimen *s)
{
    specimen_cloth(&s->fabrics[0], sheet_e, sheet_g, 0.3, 5e-6);
    for (int i = 0; i <= 2 * SPECIMEN_HALF; i++) {
        double x = s->points[i].x;
        s->points[i].z = (i < SPECIMEN_HALF ? 1 : -1) * sqrt(fmax(0, 1 - (1 - x) * (1 - x)));
    }
}

/* 5 and 4 uni plies of 72 mm, middles 31 mm apart, on film and air. */
static void make_caps(struct specimen *s)
{
    const double ply_m = 0.310 / (2560 * 0.42);
    specimen_cloth(&s->fabrics[0], 1e6, 4e5, 0.25, 1e-5);
    specimen_cloth(&s->fabrics[1], 31e9, 3e9, 0, ply_m);
    s->fabrics[1].e2_pa = 8e9;
    s->fabrics[1].nu12 = 0.28;
    s->stations[0].chord_m = s->stations[1].chord_m = 0.2;
    specimen_box(s, 0.5 * (0.031 - 4.5 * ply_m - 1e-5) / 0.2);
    specimen_lay(s, 1, 5, PL_TOP, 0.5 - 0.18, 0.5 + 0.18);
    specimen_lay(s, 1, 4, PL_BOTTOM, 0.5 - 0.18, 0.5 + 0.18);
}

static void make_flat_oval(struct specimen *s) { specimen_oval(s, 0.1); }

SECTION_FIGURE(tube_bending, (void)0, ei_flap_nm2)
SECTION_FIGURE(tube_torsion, (void)0, gj_nm2)
SECTION_FIGURE(tube_shear, (void)0, shear_stiffness_n)
SECTION_FIGURE(oval_torsion, make_flat_oval(&s), gj_nm2)
SECTION_FIGURE(solid_bending, make_solid(&s), ei_flap_nm2)
SECTION_FIGURE(solid_lead, make_solid(&s), ei_lead_nm2)
SECTION_FIGURE(box_torsion, make_box(&s), gj_nm2)
SECTION_FIGURE(web_box_centre, make_web_box(&s), x_shear_centre_m)
SECTION_FIGURE(half_tube_centre, make_half_tube(&s), x_shear_centre_m)
SECTION_FIGURE(half_tube_shear, make_half_tube(&s), shear_stiffness_n)
SECTION_FIGURE(caps_bending, make_caps(&s), ei_flap_nm2)

static double exact_tube_bending(void) { return M_PI * pow(tube_m, 3) * sheet_e * sheet_m; }
static double exact_tube_torsion(void) { return 2 * M_PI * pow(tube_m, 3) * sheet_g * sheet_m; }
static double exact_tube_shear(void) { return 0.5 * 2 * M_PI * tube_m * sheet_m * sheet_g; }
static double exact_solid_bending(void) { return M_PI * 0.05 * 1e-6 / 4 * 4e9; }
static double exact_solid_lead(void) { return M_PI * 1.25e-4 * 0.01 / 4 * 4e9; }

/* Girth of an ellipse by the arithmetic-geometric mean (Gauss), then Steiner's parallel line half a wall outside. */
static double exact_oval_torsion(void)
{
    double a = 0.05, b = 0.01, x = a, y = b, sum = a * a, power = 0.5, d = sheet_m / 2;
    sum -= power * (a * a - b * b);
    for (int i = 0; i < 30; i++) {
        double mean = 0.5 * (x + y), half = 0.5 * (x - y);
        y = sqrt(x * y);
        x = mean;
        power *= 2;
        sum -= power * half * half;
    }
    double girth = 2 * M_PI * sum / x, area = M_PI * a * b + girth * d + M_PI * d * d;
    return 4 * area * area * sheet_g * sheet_m / (girth + 2 * M_PI * d);
}

/* Open flow from the middle of the front web, up, rearward, down; closed for no twist.  Per V t / I, behind the web. */
static double exact_web_box_centre(void)
{
    double w = 0.1, h = 0.04, more = 5, flange = more * h * h * w / 8 + h * w * w / 4;
    double rear = more * h * h * h / 8 + h * h * w / 2 + h * h * h / 12;
    double constant = (h * h * h / 24 + 2 * flange + rear) / (h / more + 2 * w + h);
    double moment = -flange * h - rear * w + constant * 2 * w * h;
    return -moment / (w * h * h / 2 + h * h * h / 12 * (1 + more));
}

/* q = C + k cos b along the arc, k = 2 V / (pi r), C = -2 k / pi: no moment about the middle of the circle. */
static double exact_half_tube_shear(void)
{
    double r = 0.1, t = 5e-6;
    return sheet_g * t * M_PI * M_PI * r / (4 * (M_PI / 2 - 4 / M_PI));
}

/* ---- wrinkling of a tube on foam of 14/5 MPa ---- */

static void make_foam(struct specimen *s)
{
    s->core.e_pa = 14e6;
    s->core.g_pa = 5e6;
}

/* Three plain glass plies at 45 degrees twisted: stress at which the wall wrinkles, MPa. */
static double wrinkle_in_shear(void)
{
    static struct specimen s;
    const struct pl_internal f = {.torque_nm = 1};
    specimen_start(&s, 0.1, 0.1);
    make_foam(&s);
    specimen_cloth(&s.fabrics[0], 17e9, 3.2e9, 0.13, 0.163 / (2560 * 0.38));
    s.layup[0].plies = 3;
    s.layup[0].angle_rad = M_PI / 4;
    struct pl_weakest w = specimen_weakest(&s, &f);
    double stress_pa = 1 / (2 * s.view.section.cell_area_m2 * 3 * pl_fabric_ply_m(&s.fabrics[0]));
    specimen_end(&s);
    return w.mode == PL_MODE_WRINKLING ? w.reserve * stress_pa / 1e6 : (double)NAN;
}

/* Two uni plies along the tube, bent. */
static double wrinkle_in_bending(void)
{
    static struct specimen s;
    const struct pl_internal f = {.moment_flap_nm = 1};
    specimen_start(&s, 0.1, 0.1);
    make_foam(&s);
    specimen_cloth(&s.fabrics[0], 31e9, 3e9, 0.28, 0.310 / (2560 * 0.42));
    s.fabrics[0].e2_pa = 8e9;
    s.layup[0].plies = 2;
    struct pl_weakest w = specimen_weakest(&s, &f);
    double radius_m = 0.05 + pl_fabric_ply_m(&s.fabrics[0]), stress_pa = 31e9 * radius_m / s.view.section.ei_flap_nm2;
    specimen_end(&s);
    return w.mode == PL_MODE_WRINKLING ? w.reserve * stress_pa / 1e6 : (double)NAN;
}

/* The unsymmetric stack of F5.7, three quarters of the core's product. */
static double wrinkle_of_front_stack(void)
{
    static struct specimen s;
    specimen_start(&s, 0.1, 0.1);
    specimen_cloth(&s.fabrics[0], 17e9, 3.2e9, 0.13, 0.163 / (2560 * 0.38));
    specimen_cloth(&s.fabrics[1], 31e9, 3e9, 0.28, 0.310 / (2560 * 0.42));
    s.fabrics[1].e2_pa = 8e9;
    s.layup[0].plies = 2;
    specimen_lay(&s, 1, 5, PL_BOTH, 0, 1);
    specimen_lay(&s, 0, 1, PL_BOTH, 0, 1);
    s.layup[0].angle_rad = s.layup[2].angle_rad = M_PI / 4;
    specimen_section(&s);
    double modulus_pa = pl_stack_face_modulus(&s.view.stacks->stacks[0], 1, 0);
    specimen_end(&s);
    return 0.5 * cbrt(modulus_pa * 14e6 * 5e6 * 0.75) / 1e6;
}

static const struct published_row rows[] = {
    EXACT("closed form", "round tube, bending pi r^3 E t", "N m2", exact_tube_bending, tube_bending, 1e-3),
    EXACT("Bredt 1896", "round tube, torsion 2 pi r^3 G t", "N m2", exact_tube_torsion, tube_torsion, 1e-3),
    EXACT("Timoshenko 1921", "round tube, shear stiffness G A / 2", "N", exact_tube_shear, tube_shear, 1e-3),
    EXACT("Bredt, Gauss, Steiner", "oval tube 5:1, torsion", "N m2", exact_oval_torsion, oval_torsion, 1e-3),
    EXACT("closed form", "solid oval 5:1, pi a b^3 E / 4", "N m2", exact_solid_bending, solid_bending, 1e-3),
    EXACT("closed form", "solid oval 5:1, pi a^3 b E / 4", "N m2", exact_solid_lead, solid_lead, 1e-3),
    PRINTED("Bredt, handbook F7.4", "box 100 x 20 x 0.5 mm, 7.522 GPa", "N m2", 250.7, box_torsion, 3e-4),
    EXACT("Megson, ch. 17", "box, front web 5 x as thick, shear centre", "m", exact_web_box_centre, web_box_centre,
          1e-3),
    PRINTED("Megson, ch. 17", "closed half tube, shear centre", "m", 0.1, half_tube_centre, 1e-3),
    EXACT("Megson, ch. 17", "closed half tube, shear stiffness", "N", exact_half_tube_shear, half_tube_shear, 1e-3),
    PRINTED("handbook F7.3", "two caps 31 mm apart, EI", "N m2", 1374, caps_bending, 1e-3),
    PRINTED("Hoff, Mautner 1945, F5.9", "three +-45 glass plies in pure shear", "MPa", 53.0, wrinkle_in_shear, 1e-3),
    PRINTED("Hoff, Mautner 1945, F5.9", "glass uni of 31 GPa in bending", "MPa", 64.7, wrinkle_in_bending, 1e-3),
    PRINTED("Hoff, Mautner 1945, F5.9", "[45/45/0x5/45], 0.75 of the core", "MPa", 49.6, wrinkle_of_front_stack, 1e-3),
};

const struct published_table published_sections = {"Sections", rows, sizeof rows / sizeof *rows};
