/* Load cases of whole parts. */
#include "published.h"

#include "specimen.h"

#include <math.h>

static struct specimen s;

static const double sheet_ei = 70e9 * 0.5e-3 * M_PI, sheet_s = 70e9 / 2.6 * 0.5e-3 * M_PI;

/* The plan of the front wing: 275 mm to 170 from the middle, 230 at 640. */
static double downforce(void)
{
    specimen_start(&s, 0.275, 0.640);
    s.element.n_stations = 3;
    s.stations[2] = s.stations[1];
    s.stations[1].y_m = 0.170;
    s.stations[2].chord_m = 0.230;
    s.load_case = (struct pl_load_case){.name = "air", .kind = PL_DOWNFORCE, .factor = 1, .speed_m_s = 205 / 3.6,
                                        .air_density_kg_m3 = 1.19, .distribution = PL_ELLIPTIC, .coefficient = 1.25,
                                        .acts_at = 0.42, .ride_height_m = (double)NAN, .tip_limit_m = (double)NAN};
    double value = specimen_case(&s)->total_force_n;
    specimen_end(&s);
    return value;
}

/* One pad of two, in full: half of 190 kg x 1.4, factor 1.5, on 60 x 90 mm of 0.28 MPa. */
static double jack(void)
{
    specimen_start(&s, 0.3, 0.3);
    s.core.e_pa = 4e9;  /* so that no wall wrinkles first */
    s.core.g_pa = 1e8;
    s.core.compressive_strength_pa = 0.28e6;
    s.pad = (struct pl_pad){.y_m = 0.15, .acts_at = 0.5, .length_m = 0.060, .width_m = 0.090};
    s.load_case = (struct pl_load_case){.name = "jack", .kind = PL_JACKING, .factor = 1.5, .supported_mass_kg = 95,
                                        .dynamic_factor = 1.4, .pads = &s.pad, .n_pads = 1, .tip_limit_m = (double)NAN};
    const struct pl_case_result *c = specimen_case(&s);
    double value = c->least.mode == PL_MODE_CORE_CRUSH ? c->least.reserve : (double)NAN;
    specimen_end(&s);
    return value;
}

/* A tube 40 mm across, 0.4 m from the clamp to the tip, struck at its shear centre. */
static void make_strike(double mass_kg, double speed_m_s, double travel_m)
{
    specimen_start(&s, 0.040, 0.4);
    s.load_case = (struct pl_load_case){.name = "strike", .kind = PL_TIP_STRIKE, .factor = 1, .y_m = (double)NAN,
                                        .acts_at = 0.5, .direction = PL_UP, .force_n = (double)NAN,
                                        .moving_mass_kg = mass_kg, .closing_speed_m_s = speed_m_s, .travel_m = travel_m,
                                        .tip_limit_m = (double)NAN};
}

static double tube_stiffness(void)
{
    double r = 0.020 + 0.25e-3, l = 0.4;
    return 1 / (l * l * l / (3 * sheet_ei * r * r * r) + l / (sheet_s * r));
}

static double strike(void)
{
    make_strike(6, 1.1, (double)NAN);
    double value = specimen_case(&s)->total_force_n;
    specimen_end(&s);
    return value;
}

static double exact_strike(void) { return 1.1 * sqrt(6 * tube_stiffness()); }

static double strike_way(void)
{
    make_strike(6, 1.1, (double)NAN);
    double value = 1e3 * specimen_case(&s)->given.at_load_m;
    specimen_end(&s);
    return value;
}

static double exact_strike_way(void) { return 1e3 * 1.1 * sqrt(6 / tube_stiffness()); }

static double strike_by_travel(void)
{
    make_strike(60, 0.8, 0.010);
    double value = specimen_case(&s)->total_force_n;
    specimen_end(&s);
    return value;
}

static double exact_strike_by_travel(void) { return tube_stiffness() * 0.010; }

static const struct published_row rows[] = {
    PRINTED("Abbott, Doenhoff 1959, F4.1", "downforce of the front wing, unfactored", "N", -797.9, downforce, 1e-4),
    PRINTED("handbook F4.6", "pad of 60 x 90 mm under 1956.4 N, reserve", "", 0.773, jack, 1e-3),
    EXACT("Goldsmith 1960, F4.7", "6 kg at 1.1 m/s on a tube, v sqrt(k m)", "N", exact_strike, strike, 1e-3),
    EXACT("Goldsmith 1960, F4.7", "the same, v sqrt(m / k)", "mm", exact_strike_way, strike_way, 1e-3),
    EXACT("handbook F4.7", "60 kg at 0.8 m/s, at most k x 10 mm", "N", exact_strike_by_travel, strike_by_travel, 1e-3),
};

const struct published_table published_loads = {"Load cases", rows, sizeof rows / sizeof *rows};
