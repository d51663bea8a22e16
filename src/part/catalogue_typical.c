/* The rows that come with the program.
 *
 * Cured by hand with epoxy at room temperature.  Each value is the middle of the usual range, rounded to the safe side:
 * cloth strengths down to tens, below 100 MPa to fives; all else down to the figures shown.  The bend radius of a metal
 * is the greater end of its range, the shear strength of honeycomb across its ribbon the lesser one.  Cloths differ in
 * weight alone, so each kind stands here once.  A resin is given as cured at room temperature and again after a
 * post-cure; soaked, its Tg is 12 degrees lower.
 */
#include "catalogue_inside.h"

const char pl_catalogue_caution[] = "typical planning value, not a certificate";

#define AS_TEXT(...) #__VA_ARGS__
#define NEXT_LINE(...) "\n     " AS_TEXT(__VA_ARGS__)

/* ---- cloths ---- */

#define CLOTH(name, fibre, gsm, values) \
    "\n    {\"name\": \"" name " " #gsm "\", \"fibre\": \"" fibre "\", \"areal_weight_gsm\": " #gsm ", " values "}"

#define GLASS_PLAIN(gsm) CLOTH("glass plain", "glass", gsm, \
    AS_TEXT("fibre_density_kgm3": 2560, "fibre_volume_fraction": 0.38,) \
    NEXT_LINE("e1_gpa": 17.0, "e2_gpa": 17.0, "g12_gpa": 3.2, "nu12": 0.13,) \
    NEXT_LINE("xt_mpa": 240, "xc_mpa": 190, "yt_mpa": 240, "yc_mpa": 190, "s_mpa": 45, "roll_width_mm": 1270))

#define GLASS_TWILL(gsm) CLOTH("glass twill", "glass", gsm, \
    AS_TEXT("fibre_density_kgm3": 2560, "fibre_volume_fraction": 0.41,) \
    NEXT_LINE("e1_gpa": 18.5, "e2_gpa": 18.5, "g12_gpa": 3.3, "nu12": 0.13,) \
    NEXT_LINE("xt_mpa": 260, "xc_mpa": 210, "yt_mpa": 260, "yc_mpa": 210, "s_mpa": 45, "roll_width_mm": 1270))

#define GLASS_UNI(gsm) CLOTH("glass uni", "glass", gsm, \
    AS_TEXT("fibre_density_kgm3": 2560, "fibre_volume_fraction": 0.44,) \
    NEXT_LINE("e1_gpa": 32.5, "e2_gpa": 8.0, "g12_gpa": 3.0, "nu12": 0.28,) \
    NEXT_LINE("xt_mpa": 650, "xc_mpa": 420, "yt_mpa": 30, "yc_mpa": 100, "s_mpa": 40, "roll_width_mm": 500))

#define GLASS_BIAXIAL(gsm) CLOTH("glass biaxial", "glass", gsm, \
    AS_TEXT("fibre_density_kgm3": 2560, "fibre_volume_fraction": 0.44,) \
    NEXT_LINE("e1_gpa": 19.5, "e2_gpa": 19.5, "g12_gpa": 3.2, "nu12": 0.14,) \
    NEXT_LINE("xt_mpa": 300, "xc_mpa": 250, "yt_mpa": 300, "yc_mpa": 250, "s_mpa": 45, "roll_width_mm": 1270))

#define CARBON_PLAIN(gsm) CLOTH("carbon plain", "carbon", gsm, \
    AS_TEXT("fibre_density_kgm3": 1780, "fibre_volume_fraction": 0.44,) \
    NEXT_LINE("e1_gpa": 50.5, "e2_gpa": 50.5, "g12_gpa": 3.5, "nu12": 0.06,) \
    NEXT_LINE("xt_mpa": 500, "xc_mpa": 360, "yt_mpa": 500, "yc_mpa": 360, "s_mpa": 55, "roll_width_mm": 1270))

#define CARBON_UNI(gsm) CLOTH("carbon uni", "carbon", gsm, \
    AS_TEXT("fibre_density_kgm3": 1780, "fibre_volume_fraction": 0.47,) \
    NEXT_LINE("e1_gpa": 107.5, "e2_gpa": 6.75, "g12_gpa": 3.5, "nu12": 0.29,) \
    NEXT_LINE("xt_mpa": 1250, "xc_mpa": 670, "yt_mpa": 30, "yc_mpa": 110, "s_mpa": 55, "roll_width_mm": 500))

/* ---- resins, cores, metals ---- */

#define RESIN(name, kind, density, resin_to_hardener, minutes, dry, wet) \
    "\n    {\"name\": \"" name "\", \"kind\": \"" kind "\", \"density_kgm3\": " #density \
    ", \"mix_ratio_by_weight\": " resin_to_hardener ",\n     \"pot_life_min\": " #minutes \
    ", \"pot_life_at_c\": 25, \"tg_dry_c\": " #dry ", \"tg_wet_c\": " #wet "}"

#define CORE(name, kind, density, e, g, shear, crushing, heat) \
    "\n    {\"name\": \"" name "\", \"kind\": \"" kind "\", \"density_kgm3\": " #density ", \"e_mpa\": " #e \
    ", \"g_mpa\": " #g ",\n     \"shear_strength_mpa\": " #shear ", \"compressive_strength_mpa\": " #crushing \
    ", \"max_c\": " #heat "}"

#define METAL(name, e, yield, ultimate, density, radius, note) \
    "\n    {\"name\": \"" name "\", \"e_gpa\": " #e ", \"yield_mpa\": " #yield ", \"ultimate_mpa\": " #ultimate \
    ", \"density_kgm3\": " #density ", \"bend_radius_t\": " #radius ",\n     \"note\": \"" note "\"}"

const char pl_catalogue_typical[] =
    "{\n  \"format\": \"plyloft-catalogue\",\n  \"version\": 1,\n"
    "  \"note\": \"Typical planning values, not certificates: replace them with data sheets and coupon tests.\",\n"
    "  \"fabrics\": ["
    GLASS_PLAIN(105) "," GLASS_PLAIN(163) "," GLASS_PLAIN(200) "," GLASS_PLAIN(290) ","
    GLASS_TWILL(163) "," GLASS_TWILL(280) "," GLASS_TWILL(390) ","
    GLASS_UNI(220) "," GLASS_UNI(310) "," GLASS_UNI(425) ","
    GLASS_BIAXIAL(300) "," GLASS_BIAXIAL(450) "," GLASS_BIAXIAL(600) ","
    CARBON_PLAIN(160) "," CARBON_PLAIN(200) "," CARBON_PLAIN(245) ","
    CARBON_UNI(150) "," CARBON_UNI(200) "," CARBON_UNI(300)
    "\n  ],\n  \"resins\": ["
    RESIN("slow epoxy, room cure", "epoxy", 1130, "[100, 30]", 40, 54, 42) ","
    RESIN("slow epoxy, post-cured", "epoxy", 1130, "[100, 30]", 40, 85, 73) ","
    RESIN("fast epoxy, room cure", "epoxy", 1130, "[100, 30]", 15, 54, 42) ","
    RESIN("fast epoxy, post-cured", "epoxy", 1130, "[100, 30]", 15, 85, 73) ","
    RESIN("polyester, room cure", "polyester", 1190, "[100, 2]", 15, 57, 45) ","
    RESIN("polyester, post-cured", "polyester", 1190, "[100, 2]", 15, 75, 63) ","
    RESIN("vinylester, room cure", "vinylester", 1115, "[100, 2]", 20, 70, 58) ","
    RESIN("vinylester, post-cured", "vinylester", 1115, "[100, 2]", 20, 107, 95)
    "\n  ],\n  \"cores\": ["
    CORE("expanded polystyrene 20", "polystyrene", 20, 6.5, 3, 0.11, 0.12, 70) ","
    CORE("extruded polystyrene 33", "polystyrene", 33, 14, 5, 0.23, 0.30, 70) ","
    CORE("PVC 60", "pvc", 60, 67, 20, 0.82, 0.90, 70) ","
    CORE("PVC 75", "pvc", 77, 92, 28, 1.1, 1.3, 70) ","
    CORE("polyurethane 50", "polyurethane", 50, 13, 4.5, 0.27, 0.37, 90) ","
    CORE("aramid honeycomb 46, ribbon along", "aramid honeycomb", 46, 130, 42, 1.2, 2.7, 120) ","
    CORE("aramid honeycomb 46, ribbon across", "aramid honeycomb", 46, 130, 21, 0.60, 2.7, 120) ","
    CORE("plastic honeycomb 75", "plastic honeycomb", 75, 50, 10, 0.50, 1.5, 70)
    "\n  ],\n  \"metals\": ["
    METAL("aluminium 5083-O/H111", 71, 135, 275, 2660, 1.5, "Bend across the rolling direction.") ","
    METAL("aluminium 6061-T6", 69, 257, 300, 2700, 4, "The zone of a weld falls to about half.") ","
    METAL("aluminium 7075-T6", 72, 480, 550, 2810, 8, "Do not bend, do not weld.") ","
    METAL("mild steel S275", 210, 275, 410, 7850, 1, "Bend across the rolling direction.")
    "\n  ]\n}\n";
