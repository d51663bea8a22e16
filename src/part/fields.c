#include "plyloft/field.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))
#define IN(type, member) .at = offsetof(struct type, member)
#define LISTED(type, pointer, number) .at = offsetof(struct type, pointer), .count_at = offsetof(struct type, number)
#define CHOICES(list) .choices = list, .n_choices = COUNT(list)
#define TEXT(key_, label_, type, member) .key = key_, .label = label_, .kind = PL_FIELD_TEXT, IN(type, member)
#define NUMBER(key_, label_, unit_, type, member) \
    .key = key_, .label = label_, .kind = PL_FIELD_NUMBER, .unit = unit_, IN(type, member)

static const char *const fibres[] = {"glass", "carbon", "aramid", "basalt", "flax", "other"};
static const char *const resin_kinds[] = {"epoxy", "polyester", "vinylester"};
static const char *const sides[] = {"top", "bottom", "both"};
static const char *const holds[] = {"clamped", "pinned"};
static const char *const case_kinds[] = {"downforce", "jacking", "tip-strike", "point", "inertia"};
static const char *const distributions[] = {"uniform", "elliptic", "computed"};
static const char *const directions[] = {"up", "down"};
static const char *const criteria[] = {"tsai-wu", "max-stress"};

static bool is_downforce(const void *row) { return ((const struct pl_load_case *)row)->kind == PL_DOWNFORCE; }
static bool is_jacking(const void *row) { return ((const struct pl_load_case *)row)->kind == PL_JACKING; }
static bool is_inertia(const void *row) { return ((const struct pl_load_case *)row)->kind == PL_INERTIA; }
static bool is_strike(const void *row) { return ((const struct pl_load_case *)row)->kind == PL_TIP_STRIKE; }
static bool is_push(const void *row) { return is_strike(row) || ((const struct pl_load_case *)row)->kind == PL_POINT_LOAD; }

static bool is_given_distribution(const void *row)
{
    return is_downforce(row) && ((const struct pl_load_case *)row)->distribution != PL_COMPUTED;
}

static bool has_direction(const void *row) { return is_push(row) || is_inertia(row); }
static bool acts_somewhere(const void *row) { return has_direction(row) || is_given_distribution(row); }
static bool comes_again(const void *row) { return is_downforce(row) || is_inertia(row); }
static bool may_push_aft(const void *row) { return !is_jacking(row); }
static bool is_clamped(const void *row) { return ((const struct pl_mount *)row)->hold == PL_CLAMPED; }

static const struct pl_field part_fields[] = {
    {TEXT("format", "Format", pl_part, format), .help = "Always plyloft-part."},
    {.key = "version", .label = "Version", .kind = PL_FIELD_WHOLE, IN(pl_part, version), .least = 1, .most = 1, .step = 1,
     .help = "Version of the file's format, 1."},
    {TEXT("name", "Name", pl_part, name), .help = "What the wing is called, such as hill-climb front wing."},
    {TEXT("revision", "Revision", pl_part, revision), .optional = true, .help = "Letter or number of this state, such as A."},
    {TEXT("notes", "Notes", pl_part, notes), .optional = true,
     .help = "Anything to remember: rule book, date, where the figures come from."},
};

static const struct pl_field profile_fields[] = {
    {TEXT("name", "Name", pl_profile, name), .help = "Name that stations use, such as main."},
    {TEXT("naca", "NACA digits", pl_profile, naca), .optional = true,
     .help = "Four- or five-digit designation; 6412 has 6 % camber at 0.4 chord and is 12 % thick."},
    {.key = "points", .label = "Points", .kind = PL_FIELD_POINTS, LISTED(pl_profile, points, n_points), .optional = true,
     .help = "Coordinates in chords from the trailing edge over the upper surface round the nose and back; 60 to 120 points."},
};

#define FABRIC_MPA(key_, label_, member, low, high, help_) \
    {NUMBER(key_, label_, PL_MPA, pl_fabric, member), .most = 20000, .above = true, .usual = {low, high}, .step = 5, .help = help_}

static const struct pl_field fabric_fields[] = {
    {TEXT("name", "Name", pl_fabric, name), .help = "Name that lay-up items use, such as glass plain 163."},
    {.key = "fibre", .label = "Fibre", .kind = PL_FIELD_CHOICE, IN(pl_fabric, fibre), CHOICES(fibres), .optional = true,
     .left_out = PL_OTHER_FIBRE, .help = "What the threads are made of; glass is usual."},
    {NUMBER("areal_weight_gsm", "Areal weight", PL_GSM, pl_fabric, areal_weight_kg_m2), .most = 5000, .above = true,
     .usual = {80, 650}, .step = 5, .help = "Mass of the dry cloth per area; 163 g/m2 is a usual light plain glass."},
    {NUMBER("fibre_density_kgm3", "Fibre density", PL_KG_M3, pl_fabric, fibre_density_kg_m3), .least = 200, .most = 10000,
     .usual = {1300, 2700}, .step = 10, .help = "Glass 2560, carbon 1780, aramid 1440, flax 1400 to 1500."},
    {NUMBER("fibre_volume_fraction", "Fibre fraction", PL_NO_UNIT, pl_fabric, fibre_fraction), .most = 0.9, .above = true,
     .usual = {0.30, 0.50}, .step = 0.01, .help = "Share of fibre in the cured ply by volume; 0.38 for hand-laid plain cloth."},
    {NUMBER("e1_gpa", "E along", PL_GPA, pl_fabric, e1_pa), .most = 1000, .above = true, .usual = {8, 150}, .step = 0.5,
     .help = "Young's modulus of the cured ply along axis 1; 17 GPa for plain glass, 31 for glass uni."},
    {NUMBER("e2_gpa", "E across", PL_GPA, pl_fabric, e2_pa), .most = 1000, .above = true, .usual = {3, 80}, .step = 0.5,
     .help = "Young's modulus across; as along for balanced cloth, 8 GPa for glass uni."},
    {NUMBER("g12_gpa", "G in plane", PL_GPA, pl_fabric, g12_pa), .most = 200, .above = true, .usual = {1, 6}, .step = 0.1,
     .help = "Shear modulus in the ply's own axes; about 3 GPa."},
    {NUMBER("nu12", "Poisson's ratio", PL_NO_UNIT, pl_fabric, nu12), .least = 0, .most = 0.95, .usual = {0.02, 0.35},
     .step = 0.01, .help = "Strain across for strain along; 0.13 for plain glass, 0.28 for uni."},
    FABRIC_MPA("xt_mpa", "Tension along", xt_pa, 80, 2500, "Tensile strength along axis 1; 240 MPa for plain glass."),
    FABRIC_MPA("xc_mpa", "Compression along", xc_pa, 60, 1500, "Compressive strength along axis 1; 190 MPa for plain glass."),
    FABRIC_MPA("yt_mpa", "Tension across", yt_pa, 10, 1000, "Tensile strength across; 32 MPa for glass uni."),
    FABRIC_MPA("yc_mpa", "Compression across", yc_pa, 40, 800, "Compressive strength across; 105 MPa for glass uni."),
    FABRIC_MPA("s_mpa", "Shear", s_pa, 20, 120, "Shear strength in the ply's own axes; 45 MPa."),
    {NUMBER("roll_width_mm", "Roll width", PL_MM, pl_fabric, roll_width_m), .most = 10000, .above = true, .usual = {25, 2600},
     .step = 10, .help = "Width of the roll as bought; 1270 mm is usual for woven cloth."},
    {NUMBER("metre_price", "Price a metre", PL_NO_UNIT, pl_fabric, price_per_m), .least = 0, .most = 1e6, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 0.5, .help = "Of a metre of the roll, in your own money, such as 8."},
};

static const struct pl_field resin_fields[] = {
    {TEXT("name", "Name", pl_resin, name), .help = "Name that elements use, such as slow laminating epoxy."},
    {.key = "kind", .label = "Kind", .kind = PL_FIELD_CHOICE, IN(pl_resin, kind), CHOICES(resin_kinds),
     .help = "Epoxy bonds to every core; polyester and vinylester hold styrene, which dissolves polystyrene."},
    {NUMBER("density_kgm3", "Density", PL_KG_M3, pl_resin, density_kg_m3), .least = 200, .most = 5000, .usual = {1000, 1300},
     .step = 10, .help = "Of the cured resin; about 1150 kg/m3 for epoxy."},
    {.key = "mix_ratio_by_weight", .label = "Mix by weight", .kind = PL_FIELD_PAIR, IN(pl_resin, mix_ratio), .most = 10000,
     .above = true, .step = 1, .help = "Resin and hardener by weight as the tin says, such as 100 to 30."},
    {NUMBER("pot_life_min", "Pot life", PL_MINUTE, pl_resin, pot_life_s), .most = 10000, .above = true, .usual = {5, 240},
     .step = 1, .help = "Minutes until a cup gels, at the temperature below; 40 for a slow hardener."},
    {NUMBER("pot_life_at_c", "Pot life at", PL_CELSIUS, pl_resin, pot_life_at_c), .least = -20, .most = 80, .usual = {15, 35},
     .step = 1, .help = "Temperature the pot life holds for; 25 C is usual."},
    {NUMBER("tg_dry_c", "Tg dry", PL_CELSIUS, pl_resin, tg_dry_c), .least = -50, .most = 400, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {45, 150}, .step = 1, .help = "Glass transition as cured and dry; 55 C cured in the shed, 75 after a post-cure."},
    {NUMBER("tg_wet_c", "Tg wet", PL_CELSIUS, pl_resin, tg_wet_c), .least = -50, .most = 400, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {40, 140}, .step = 1, .help = "Glass transition when soaked; 10 to 15 C below the dry one."},
    {NUMBER("liquid_density_kgm3", "Density as poured", PL_KG_M3, pl_resin, liquid_density_kg_m3), .least = 200, .most = 5000,
     .optional = true, .left_out = 1160, .usual = {1000, 1300}, .step = 10, .help = "Of the resin before mixing, for measuring by volume; 1160 kg/m3 for epoxy."},
    {NUMBER("hardener_density_kgm3", "Hardener density", PL_KG_M3, pl_resin, hardener_density_kg_m3), .least = 200, .most = 5000,
     .optional = true, .left_out = 960, .usual = {850, 1150}, .step = 10, .help = "Of the hardener, for measuring by volume; 960 kg/m3 for an amine."},
    {NUMBER("kilogram_price", "Price a kilogram", PL_NO_UNIT, pl_resin, price_per_kg), .least = 0, .most = 1e6, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 1, .help = "Of resin and hardener together, in your own money, such as 18."},
};

static const struct pl_field core_fields[] = {
    {TEXT("name", "Name", pl_core, name), .help = "Name that elements use, such as extruded polystyrene 33."},
    {TEXT("kind", "Kind", pl_core, kind), .help = "polystyrene, pvc, polyurethane, balsa or another word for the material."},
    {NUMBER("density_kgm3", "Density", PL_KG_M3, pl_core, density_kg_m3), .most = 2000, .above = true, .usual = {15, 250},
     .step = 1, .help = "Extruded polystyrene 28 to 38 kg/m3, PVC 60 to 80."},
    {NUMBER("e_mpa", "E", PL_MPA, pl_core, e_pa), .most = 20000, .above = true, .usual = {3, 4500}, .step = 1,
     .help = "Young's modulus; 14 MPa for extruded polystyrene, 70 for PVC 60."},
    {NUMBER("g_mpa", "G", PL_MPA, pl_core, g_pa), .most = 5000, .above = true, .usual = {1, 300}, .step = 0.5,
     .help = "Shear modulus; 5 MPa for extruded polystyrene, 20 for PVC 60."},
    {NUMBER("shear_strength_mpa", "Shear strength", PL_MPA, pl_core, shear_strength_pa), .most = 500, .above = true,
     .usual = {0.05, 5}, .step = 0.01, .help = "0.21 MPa for extruded polystyrene, 0.8 for PVC 60."},
    {NUMBER("compressive_strength_mpa", "Crushing strength", PL_MPA, pl_core, compressive_strength_pa), .most = 500,
     .above = true, .usual = {0.05, 15}, .step = 0.01, .help = "0.28 MPa for extruded polystyrene, 0.9 for PVC 60."},
    {NUMBER("max_c", "Heat it stands", PL_CELSIUS, pl_core, max_c), .least = -50, .most = 400, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {50, 200}, .step = 1, .help = "Hottest the core may get; 70 C for polystyrene."},
};

static const struct pl_field element_fields[] = {
    {TEXT("name", "Name", pl_element, name), .help = "Name that load cases use, such as main."},
    {.key = "inverted", .label = "Inverted", .kind = PL_FIELD_FLAG, IN(pl_element, inverted), .optional = true,
     .help = "True when the profile hangs upside down, so that its suction side faces the ground: usual on a car."},
    {NUMBER("incidence_deg", "Incidence", PL_DEG, pl_element, incidence_rad), .least = -90, .most = 90, .usual = {-5, 25},
     .step = 0.5, .help = "Turn about the leading edge; positive adds downforce to an inverted wing; 2 to 8 deg."},
    {.key = "core", .label = "Core", .kind = PL_FIELD_REFERENCE, IN(pl_element, core), .refers_to = PL_GROUP_CORE,
     .help = "Core that the element is cut from."},
    {.key = "resin", .label = "Resin", .kind = PL_FIELD_REFERENCE, IN(pl_element, resin), .refers_to = PL_GROUP_RESIN,
     .help = "Resin it is laminated with."},
};

static const struct pl_field station_fields[] = {
    {NUMBER("y_mm", "From centre", PL_MM, pl_station, y_m), .least = 0, .most = 20000, .usual = {0, 1500}, .step = 10,
     .help = "Distance from the centreline: 0 for the first, half the span for the last, 640 mm for a small front wing."},
    {NUMBER("chord_mm", "Chord", PL_MM, pl_station, chord_m), .most = 10000, .above = true, .usual = {60, 800}, .step = 5,
     .help = "Length of the section from leading to trailing edge; 230 to 300 mm."},
    {NUMBER("x_le_mm", "Leading edge x", PL_MM, pl_station, x_le_m), .least = -20000, .most = 20000, .step = 1,
     .help = "Leading edge aft of the root's; 0 at the root, positive sweeps back."},
    {NUMBER("z_le_mm", "Leading edge z", PL_MM, pl_station, z_le_m), .least = -20000, .most = 20000, .step = 1,
     .help = "Leading edge above the root's; 0 without dihedral."},
    {NUMBER("twist_deg", "Twist", PL_DEG, pl_station, twist_rad), .least = -90, .most = 90, .usual = {-15, 15}, .step = 0.5,
     .help = "Turn added to the incidence here; -1 deg at a tip is usual washout."},
    {.key = "profile", .label = "Profile", .kind = PL_FIELD_REFERENCE, IN(pl_station, profile), .refers_to = PL_GROUP_PROFILE,
     .help = "Profile of this section."},
};

/* How a section stands to the element ahead (gap.h). */
#define DERIVED_MM(key_, label_) .key = key_, .label = label_, .kind = PL_FIELD_NUMBER, .unit = PL_MM, .derived = true, .step = 0.5
static const struct pl_field station_derived[] = {
    {DERIVED_MM("gap_mm", "Gap"), .most = 2000, .above = true, .usual = {2, 20},
     .help = "Least distance from the trailing edge ahead to this core, without cloth; 1.5 to 2 % of that chord (type 1.5 %). Moves the "
             "leading edge here."},
    {DERIVED_MM("overlap_mm", "Overlap"), .least = -2000, .most = 2000, .usual = {-10, 15},
     .help = "How far the nose stands ahead of the trailing edge ahead, along that chord; 0 to 2 % of it. Moves the leading edge here."},
};
static const struct pl_field element_derived[] = {
    {DERIVED_MM("gap_mm", "Gap, whole span"), .most = 2000, .above = true, .usual = {2, 20},
     .help = "Gap to the element ahead, at all stations at once; 1.5 to 2 % of its chord (type 1.5 %). Moves the leading edges."},
    {DERIVED_MM("overlap_mm", "Overlap, whole span"), .least = -2000, .most = 2000, .usual = {-10, 15},
     .help = "Overlap with the element ahead, at all stations at once; 0 to 2 % of its chord (type 1 %). Moves the leading edges."},
};

static const struct pl_field layup_fields[] = {
    {TEXT("name", "Name", pl_layup_item, name), .help = "Name of the ply group, such as top cap."},
    {.key = "fabric", .label = "Cloth", .kind = PL_FIELD_REFERENCE, IN(pl_layup_item, fabric), .refers_to = PL_GROUP_FABRIC,
     .help = "Cloth it is cut from."},
    {NUMBER("angle_deg", "Angle", PL_DEG, pl_layup_item, angle_rad), .least = -360, .most = 360, .usual = {-90, 90}, .step = 5,
     .help = "Of the threads from the span towards the trailing edge: 0 for caps, 45 for skins."},
    {.key = "plies", .label = "Plies", .kind = PL_FIELD_WHOLE, IN(pl_layup_item, plies), .least = 1, .most = 500,
     .usual = {1, 24}, .step = 1, .help = "Layers of this group; skins 1 to 3, caps 3 to 8."},
    {.key = "side", .label = "Side", .kind = PL_FIELD_CHOICE, IN(pl_layup_item, side), CHOICES(sides),
     .help = "Top or bottom as installed on the car, or both."},
    {NUMBER("chord_from", "Chord from", PL_NO_UNIT, pl_layup_item, chord_from), .least = 0, .most = 1, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 0.05, .help = "Front edge as a fraction of the chord; 0 is the very nose."},
    {NUMBER("chord_to", "Chord to", PL_NO_UNIT, pl_layup_item, chord_to), .least = 0, .most = 1, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 0.05, .help = "Rear edge as a fraction of the chord; 1 is the very tail."},
    {NUMBER("centre_at", "Centre at", PL_NO_UNIT, pl_layup_item, centre_at), .least = 0, .most = 1, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 0.01, .help = "Middle of a strip as a fraction of the chord; 0.30, where the section is thickest."},
    {NUMBER("width_mm", "Width", PL_MM, pl_layup_item, width_m), .most = 10000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {10, 300}, .step = 2, .help = "Of a strip, measured on the chord line; 50 to 80 mm for a cap."},
    {NUMBER("half_length_mm", "Ends at", PL_MM, pl_layup_item, half_length_m), .most = 20000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 10, .help = "Where the longest ply ends, from the centreline, such as 240 mm; left out: at the tip."},
    {NUMBER("drop_mm", "Drop", PL_MM, pl_layup_item, drop_m), .least = 0, .most = 20000, .optional = true, .step = 5,
     .help = "How much shorter each ply below is at either end; 0 for skins, 40 to 90 mm for caps."},
    {NUMBER("from_mm", "Starts at", PL_MM, pl_layup_item, from_m), .least = 0, .most = 20000, .optional = true, .step = 10,
     .help = "Where it starts, from the centreline; 0 is one piece across, above 0 a mirrored pair."},
};

static const struct pl_field mount_fields[] = {
    {TEXT("name", "Name", pl_mount, name), .help = "Name of the bracket, such as left bracket."},
    {NUMBER("y_mm", "At", PL_MM, pl_mount, y_m), .least = -20000, .most = 20000, .step = 5,
     .help = "Along the span, left negative; brackets stand 150 to 250 mm from the centreline."},
    {.key = "hold", .label = "Hold", .kind = PL_FIELD_CHOICE, IN(pl_mount, hold), CHOICES(holds),
     .help = "Clamped holds the slope too, pinned lets the wing turn in bending; real brackets stand between."},
    {NUMBER("stiffness_nm_per_rad", "Rotation spring", PL_NM_PER_RAD, pl_mount, stiffness_nm_per_rad), .most = 1e9,
     .above = true, .optional = true, .left_out = PL_NOT_GIVEN, .usual = {100, 100000}, .step = 100, .when = is_clamped,
     .help = "Measured stiffness of the clamp in bending, about 4000 N m/rad for a bonded plate; left out: rigid."},
    {.key = "on", .label = "Stands on", .kind = PL_FIELD_REFERENCE, IN(pl_mount, on), .refers_to = PL_GROUP_ELEMENT,
     .optional = true, .help = "Element that carries it; left out: the car."},
    {NUMBER("at", "Chord fraction there", PL_NO_UNIT, pl_mount, at), .least = -0.5, .most = 1.5, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 0.01, .help = "Where on that element's chord the bracket stands, such as 0.7."},
};

static const struct pl_field end_plate_fields[] = {
    {NUMBER("height_mm", "Height", PL_MM, pl_end_plates, height_m), .most = 10000, .above = true, .usual = {40, 600}, .step = 5,
     .help = "Of the flat plate; 150 to 250 mm."},
    {NUMBER("length_mm", "Length", PL_MM, pl_end_plates, length_m), .most = 10000, .above = true, .usual = {60, 900}, .step = 5,
     .help = "Fore and aft; it must reach over the tip section, 250 to 350 mm."},
    {NUMBER("below_mm", "Below the nose", PL_MM, pl_end_plates, below_m), .least = -10000, .most = 10000, .step = 5,
     .help = "How much of the height lies below the tip section's leading edge; 60 to 120 mm."},
    {NUMBER("x_le_mm", "Front edge x", PL_MM, pl_end_plates, x_le_m), .least = -20000, .most = 20000, .optional = true,
     .left_out = PL_NOT_GIVEN, .step = 5, .help = "Front edge aft of the root's leading edge, such as 10 mm; left out: at the tip's leading edge."},
    {NUMBER("thickness_mm", "Thickness", PL_MM, pl_end_plates, thickness_m), .most = 1000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {1, 20}, .step = 0.5, .help = "For templates only; 3 to 8 mm."},
};

static const struct pl_field case_fields[] = {
    {TEXT("name", "Name", pl_load_case, name), .help = "Name of the case, such as kerb on tip."},
    {.key = "kind", .label = "Kind", .kind = PL_FIELD_CHOICE, IN(pl_load_case, kind), CHOICES(case_kinds),
     .help = "Downforce at speed, jacking on pads, a tip strike, a single push at a point, or the wing's own mass in a bump."},
    {.key = "element", .label = "Element", .kind = PL_FIELD_REFERENCE, IN(pl_load_case, element), .refers_to = PL_GROUP_ELEMENT,
     .help = "Element that it loads."},
    {NUMBER("factor", "Factor", PL_NO_UNIT, pl_load_case, factor), .most = 100, .above = true, .usual = {1, 4}, .step = 0.1,
     .help = "What the load is multiplied by: downforce 2.0, jacking 1.5, strike 1.25, handling 1.5."},
    {.key = "with", .label = "Together with", .kind = PL_FIELD_REFERENCES, LISTED(pl_load_case, with, n_with), .optional = true,
     .refers_to = PL_GROUP_CASE, .help = "Cases of elements that stand on this one and push on it at the same time."},
    {.key = "distribution", .label = "Distribution", .kind = PL_FIELD_CHOICE, IN(pl_load_case, distribution),
     CHOICES(distributions), .when = is_downforce,
     .help = "Along the span: uniform, elliptic, or computed from the flow."},
    {NUMBER("speed_kmh", "Speed", PL_KM_H, pl_load_case, speed_m_s), .most = 1000, .above = true, .usual = {40, 360}, .step = 5,
     .when = is_downforce, .help = "Of the air past the wing; the car's top speed, 205 km/h on a fast hill."},
    {NUMBER("air_density_kgm3", "Air density", PL_KG_M3, pl_load_case, air_density_kg_m3), .least = 0.1, .most = 10,
     .usual = {0.95, 1.35}, .step = 0.01, .when = is_downforce, .help = "1.225 kg/m3 at 15 C and sea level; use the coldest day."},
    {NUMBER("coefficient", "Coefficient", PL_NO_UNIT, pl_load_case, coefficient), .least = -10, .most = 10, .usual = {0, 1.6},
     .step = 0.05, .when = is_given_distribution, .help = "Downforce over dynamic pressure and plan area; 0.9 to 1.4 for one element."},
    {NUMBER("ride_height_mm", "Ride height", PL_MM, pl_load_case, ride_height_m), .most = 20000, .above = true,
     .optional = true, .left_out = PL_NOT_GIVEN, .usual = {30, 1500}, .step = 5, .when = is_downforce,
     .help = "Lowest point of the root section above the ground; 60 to 90 mm in front; left out: free air."},
    {NUMBER("allowance", "Allowance", PL_NO_UNIT, pl_load_case, allowance), .most = 10, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {0.8, 1.6}, .step = 0.05, .when = is_downforce,
     .help = "Multiplies a computed load, since the flow leaves out thickness; 1.2 near the ground."},
    {NUMBER("supported_mass_kg", "Mass on the jack", PL_KG, pl_load_case, supported_mass_kg), .most = 20000, .above = true,
     .usual = {40, 500}, .step = 5, .when = is_jacking, .help = "What the jack lifts through the wing; half a light single-seater is about 200 kg."},
    {NUMBER("dynamic_factor", "Dynamic factor", PL_NO_UNIT, pl_load_case, dynamic_factor), .most = 20, .above = true,
     .usual = {1, 2}, .step = 0.05, .when = is_jacking, .help = "For a jack that is pumped or jerked; 1.3 to 1.5."},
    {NUMBER("uneven", "Uneven share", PL_NO_UNIT, pl_load_case, uneven), .least = 0, .most = 31, .optional = true,
     .left_out = 0.2, .usual = {0, 0.6}, .step = 0.05, .when = is_jacking,
     .help = "How much more than its share one pad may carry; 0.2 is usual."},
    {NUMBER("y_mm", "At", PL_MM, pl_load_case, y_m), .least = -20000, .most = 20000, .optional = true, .left_out = PL_NOT_GIVEN,
     .step = 10, .when = is_push, .help = "Along the span, left negative, such as 600 mm; a strike left out: the right tip."},
    {NUMBER("acts_at", "Acts at", PL_NO_UNIT, pl_load_case, acts_at), .least = 0, .most = 1, .step = 0.01, .when = acts_somewhere,
     .help = "Chord fraction of the force; about 0.42 for downforce of a cambered section, 0.2 for a kerb under the nose."},
    {NUMBER("cycles", "Cycles", PL_NO_UNIT, pl_load_case, cycles), .least = 1, .most = 1e9, .optional = true, .left_out = PL_NOT_GIVEN,
     .usual = {10, 1e7}, .step = 1000, .when = comes_again,
     .help = "How often it comes in the wing's life, such as 100000: glass then keeps half its strength, carbon three quarters; left out: once."},
    {NUMBER("aft_n", "Aft force", PL_NEWTON, pl_load_case, aft_n), .least = -1e6, .most = 1e6, .optional = true, .usual = {-2000, 3000}, .step = 10,
     .when = may_push_aft, .help = "Aft at the same time and place, spread like the chord where the load is spread: drag, a kerb, braking; such as 40 N; left out: none."},
    {.key = "direction", .label = "Direction", .kind = PL_FIELD_CHOICE, IN(pl_load_case, direction), CHOICES(directions),
     .when = has_direction, .help = "Up or down on the car; a kerb pushes up, the wing's own mass mostly down."},
    {NUMBER("n_g", "Times its weight", PL_NO_UNIT, pl_load_case, n_g), .most = 200, .above = true, .usual = {2, 20}, .step = 0.5, .when = is_inertia,
     .help = "Core and laminate by so many g in a bump: 3 to 6 on sprung parts, 10 to 20 on unsprung."},
    {NUMBER("tip_mass_kg", "Mass at each tip", PL_KG, pl_load_case, tip_mass_kg), .least = 0, .most = 1000, .optional = true, .usual = {0, 2}, .step = 0.05,
     .when = is_inertia, .help = "End plate with its screws on either tip, such as 0.25 kg; left out: none."},
    {NUMBER("force_n", "Force", PL_NEWTON, pl_load_case, force_n), .most = 1e6, .above = true, .optional = true, .left_out = PL_NOT_GIVEN,
     .usual = {10, 10000}, .step = 10, .when = is_push, .help = "A given push; 200 N lifts a tip, 700 N is a knee."},
    {NUMBER("moving_mass_kg", "Moving mass", PL_KG, pl_load_case, moving_mass_kg), .most = 20000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {1, 300}, .step = 5, .when = is_strike, .help = "What comes down on the obstacle; cone 2 to 4 kg, kerb 40 to 100."},
    {NUMBER("closing_speed_ms", "Closing speed", PL_M_S, pl_load_case, closing_speed_m_s), .most = 100, .above = true,
     .optional = true, .left_out = PL_NOT_GIVEN, .usual = {0.1, 4}, .step = 0.1, .when = is_strike,
     .help = "Vertical speed of the meeting; kerb 0.4 to 1.2 m/s."},
    {NUMBER("travel_mm", "Travel", PL_MM, pl_load_case, travel_m), .most = 10000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {2, 150}, .step = 1, .when = is_strike,
     .help = "How far the obstacle can push the struck point, its height less the clearance; 10 to 25 mm; left out: no bound."},
    {NUMBER("contact_length_mm", "Contact length", PL_MM, pl_load_case, contact_length_m), .most = 5000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {10, 300}, .step = 5, .when = is_strike,
     .help = "Along the span, where what strikes touches the core, such as 80 mm; left out: crushing there is not checked."},
    {NUMBER("contact_width_mm", "Contact width", PL_MM, pl_load_case, contact_width_m), .most = 5000, .above = true, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {10, 200}, .step = 5, .when = is_strike, .help = "Along the chord, such as 40 mm."},
};

static const struct pl_field pad_fields[] = {
    {NUMBER("y_mm", "At", PL_MM, pl_pad, y_m), .least = -20000, .most = 20000, .step = 5,
     .help = "Middle of the pad along the span, left negative; near the brackets, 230 mm."},
    {NUMBER("acts_at", "Chord fraction", PL_NO_UNIT, pl_pad, acts_at), .least = 0, .most = 1, .step = 0.01,
     .help = "Middle of the pad along the chord; 0.35, under the cap."},
    {NUMBER("length_mm", "Length", PL_MM, pl_pad, length_m), .most = 5000, .above = true, .usual = {20, 300}, .step = 5,
     .help = "Along the span; 60 to 120 mm."},
    {NUMBER("width_mm", "Width", PL_MM, pl_pad, width_m), .most = 5000, .above = true, .usual = {20, 300}, .step = 5,
     .help = "Along the chord; 60 to 140 mm."},
};

static const struct pl_field allowable_fields[] = {
    {NUMBER("knockdown", "Ply knockdown", PL_NO_UNIT, pl_allowables, knockdown), .most = 1, .above = true, .usual = {0.35, 0.8},
     .step = 0.05, .help = "On every ply strength for wet lay-up scatter and ageing; 0.75."},
    {NUMBER("core_knockdown", "Core knockdown", PL_NO_UNIT, pl_allowables, core_knockdown), .most = 1, .above = true,
     .optional = true, .left_out = PL_NOT_GIVEN, .usual = {0.6, 0.9}, .step = 0.05,
     .help = "On core strengths, and its moduli in wrinkling; 0.70 to 0.85."},
    {NUMBER("service_c", "Hottest in use", PL_CELSIUS, pl_allowables, service_c), .least = -60, .most = 300, .optional = true,
     .left_out = PL_NOT_GIVEN, .usual = {20, 90}, .step = 5, .help = "Laminate in the sun: white 45 C, black 75."},
    {.key = "criterion", .label = "Criterion", .kind = PL_FIELD_CHOICE, IN(pl_allowables, criterion), CHOICES(criteria),
     .help = "tsai-wu for the verdict; max-stress names the direction that fails."},
};

static const struct pl_field limit_fields[] = {
    {.key = "tip_deflection_mm", .label = "Tip deflection", .kind = PL_FIELD_MAP, .unit = PL_MM, LISTED(pl_limits, tips, n_tips),
     .most = 10000, .above = true, .optional = true, .step = 1, .refers_to = PL_GROUP_CASE,
     .help = "Greatest movement of a tip or of the loaded point in a case, by its name; the rule book says, 5 to 20 mm."},
    {NUMBER("mass_kg", "Mass", PL_KG, pl_limits, mass_kg), .most = 1000, .above = true, .optional = true, .left_out = PL_NOT_GIVEN,
     .step = 0.05, .help = "Most that all elements together may weigh; 1.3 kg for a small front wing."},
};

static const struct pl_field car_fields[] = {
    {NUMBER("wheelbase_mm", "Wheelbase", PL_MM, pl_car, wheelbase_m), .most = 10000, .above = true, .usual = {1500, 3200}, .step = 10,
     .help = "From axle to axle; 2000 to 2600 mm."},
    {NUMBER("front_axle_x_mm", "Front axle x", PL_MM, pl_car, front_axle_x_m), .least = -20000, .most = 20000, .step = 10,
     .help = "Front axle aft of the wing's leading edge at x = 0, negative when ahead: 700 mm for a front wing, -2200 for a rear one."},
};

#define SHED_MM(key_, label_, member, usual_, low, high, help_) \
    {NUMBER(key_, label_, PL_MM, pl_shed, member), .least = 0, .most = 500, .optional = true, .left_out = usual_, .usual = {low, high}, \
     .step = 1, .help = help_}

static const struct pl_field shed_fields[] = {
    {NUMBER("temperature_c", "Temperature", PL_CELSIUS, pl_shed, temperature_c), .least = -20, .most = 60, .optional = true, .left_out = 20,
     .usual = {15, 30}, .step = 1, .help = "Of the shed and the resin while laminating; 18 to 24 C. Below 15 it is thick and will not wet."},
    {NUMBER("working_rate_m2min", "Working rate", PL_M2_MIN, pl_shed, rate_m2_s), .most = 10, .above = true, .optional = true, .left_out = 0.08,
     .usual = {0.03, 0.15}, .step = 0.01, .help = "Cloth that one person lays and wets out; 0.06 to 0.12 m2/min alone, for cloth under 200 g/m2."},
    {NUMBER("losses", "Losses", PL_NO_UNIT, pl_shed, loss), .least = 0, .most = 2, .optional = true, .left_out = 0.12, .usual = {0.08, 0.20},
     .step = 0.01, .help = "Resin left in cups, brushes and rollers as a share of what the wing takes; 0.10 to 0.15."},
    {NUMBER("cup_kg", "Greatest cup", PL_KG, pl_shed, cup_kg), .most = 50, .above = true, .optional = true, .left_out = 0.3,
     .usual = {0.1, 0.4}, .step = 0.05, .help = "Most that is mixed in one cup, as more of it boils; 0.3 kg."},
    {NUMBER("slurry_gsm", "Slurry", PL_GSM, pl_shed, slurry_kg_m2), .least = 0, .most = 3000, .optional = true, .left_out = 200,
     .usual = {150, 400}, .step = 10, .help = "Resin that seals the foam; 150 to 250 g/m2, expanded foam 250 to 400."},
    {NUMBER("peel_ply_gsm", "Peel ply", PL_GSM, pl_shed, peel_ply_kg_m2), .least = 0, .most = 500, .optional = true, .left_out = 0,
     .step = 5, .help = "Resin that peel ply takes away with it, 60 to 90 g/m2; 0: none is laid."},
    SHED_MM("trim_mm", "Trim", trim_m, 20, 5, 50, "Cloth beyond either end of a piece, cut off later; 20 mm."),
    SHED_MM("nose_overlap_mm", "Overlap at the nose", nose_overlap_m, 25, 20, 40, "Round the nose onto the other side; 25 to 30 mm."),
    SHED_MM("tail_overlap_mm", "Overlap at the tail", tail_overlap_m, 12, 8, 25, "Past the trailing edge, trimmed when cured; 10 to 15 mm."),
    SHED_MM("join_mm", "Overlap of a join", join_m, 25, 20, 50, "Where a skin is made of two pieces; 25 mm."),
    SHED_MM("spacing_mm", "Between pieces", spacing_m, 5, 2, 20, "Kept between two pieces on the roll; 5 mm."),
    {NUMBER("filler_kgm3", "Filler density", PL_KG_M3, pl_shed, filler_kg_m3), .least = 50, .most = 3000, .optional = true, .left_out = 450,
     .usual = {350, 700}, .step = 10, .help = "Of the fairing filler when hard; epoxy and microballoons 350 to 600 kg/m3."},
    {NUMBER("paint_gsm", "Paint", PL_GSM, pl_shed, paint_kg_m2), .least = 0, .most = 3000, .optional = true, .left_out = 200,
     .usual = {100, 400}, .step = 10, .help = "Primer and paint when dry; 150 to 300 g/m2."},
    {NUMBER("brackets_kg", "Brackets", PL_KG, pl_shed, brackets_kg), .least = 0, .most = 1000, .optional = true, .left_out = PL_NOT_GIVEN,
     .step = 0.05, .help = "All brackets, bolts and jack points of the wing, weighed, such as 0.35 kg."},
    {NUMBER("plates_kg", "End plates", PL_KG, pl_shed, plates_kg), .least = 0, .most = 1000, .optional = true, .left_out = PL_NOT_GIVEN,
     .step = 0.05, .help = "Both end plates, weighed, such as 0.4 kg."},
};

#define FIELDS(list) .fields = list, .n_fields = COUNT(list)
#define DERIVED(list) .derived = list, .n_derived = COUNT(list)
#define LIST(parent_, key_, noun_, type, row, pointer, number, least_, most_) \
    .parent = parent_, .key = key_, .noun = noun_, .list = true, LISTED(type, pointer, number), .stride = sizeof(struct row), \
    .least = least_, .most = most_, .given_at = PL_NONE

const struct pl_group pl_groups[PL_GROUPS] = {
    [PL_GROUP_PART] = {.key = "", .noun = "part", .stride = sizeof(struct pl_part), .given_at = PL_NONE, FIELDS(part_fields)},
    [PL_GROUP_PROFILE] = {LIST(PL_GROUP_PART, "profiles", "profile", pl_part, pl_profile, profiles, n_profiles, 1, 1000),
                          FIELDS(profile_fields)},
    [PL_GROUP_FABRIC] = {LIST(PL_GROUP_PART, "fabrics", "cloth", pl_part, pl_fabric, fabrics, n_fabrics, 1, 1000),
                         FIELDS(fabric_fields)},
    [PL_GROUP_RESIN] = {LIST(PL_GROUP_PART, "resins", "resin", pl_part, pl_resin, resins, n_resins, 1, 1000),
                        FIELDS(resin_fields)},
    [PL_GROUP_CORE] = {LIST(PL_GROUP_PART, "cores", "core", pl_part, pl_core, cores, n_cores, 1, 1000), FIELDS(core_fields)},
    [PL_GROUP_ELEMENT] = {LIST(PL_GROUP_PART, "elements", "element", pl_part, pl_element, elements, n_elements, 1, 64),
                          FIELDS(element_fields), DERIVED(element_derived)},
    [PL_GROUP_STATION] = {LIST(PL_GROUP_ELEMENT, "stations", "station", pl_element, pl_station, stations, n_stations, 2, 1000),
                          FIELDS(station_fields), DERIVED(station_derived)},
    [PL_GROUP_LAYUP] = {LIST(PL_GROUP_ELEMENT, "layup", "ply group", pl_element, pl_layup_item, layup, n_layup, 1, 1000),
                        FIELDS(layup_fields)},
    [PL_GROUP_MOUNT] = {LIST(PL_GROUP_ELEMENT, "mounts", "mount", pl_element, pl_mount, mounts, n_mounts, 1, 64),
                        FIELDS(mount_fields)},
    [PL_GROUP_END_PLATES] = {.key = "end_plates", .noun = "end plates", .parent = PL_GROUP_ELEMENT, .optional = true,
                             .at = offsetof(struct pl_element, end_plates), .stride = sizeof(struct pl_end_plates),
                             .given_at = offsetof(struct pl_element, end_plates.given), FIELDS(end_plate_fields)},
    [PL_GROUP_CASE] = {LIST(PL_GROUP_PART, "load_cases", "load case", pl_part, pl_load_case, load_cases, n_load_cases, 0, 1000),
                       FIELDS(case_fields)},
    [PL_GROUP_PAD] = {LIST(PL_GROUP_CASE, "pads", "pad", pl_load_case, pl_pad, pads, n_pads, 1, PL_PADS_MOST),
                      .when = is_jacking, FIELDS(pad_fields)},
    [PL_GROUP_ALLOWABLES] = {.key = "allowables", .noun = "allowables", .parent = PL_GROUP_PART,
                             .at = offsetof(struct pl_part, allowables), .stride = sizeof(struct pl_allowables),
                             .given_at = PL_NONE, FIELDS(allowable_fields)},
    [PL_GROUP_LIMITS] = {.key = "limits", .noun = "limits", .parent = PL_GROUP_PART, .optional = true,
                         .at = offsetof(struct pl_part, limits), .stride = sizeof(struct pl_limits), .given_at = PL_NONE,
                         FIELDS(limit_fields)},
    [PL_GROUP_CAR] = {.key = "car", .noun = "car", .parent = PL_GROUP_PART, .optional = true, .at = offsetof(struct pl_part, car),
                      .stride = sizeof(struct pl_car), .given_at = offsetof(struct pl_part, car.given), FIELDS(car_fields)},
    [PL_GROUP_SHED] = {.key = "shed", .noun = "shed", .parent = PL_GROUP_PART, .optional = true, .at = offsetof(struct pl_part, shed),
                       .stride = sizeof(struct pl_shed), .given_at = PL_NONE, FIELDS(shed_fields)},
};
