#include "model.h"

#include <math.h>
#include <stdio.h>

static enum pl_status add_section(struct model *m, double distance_m, enum pl_limit limit)
{
    return pl_section_build(&m->builder, distance_m, limit, &m->sections[m->n_sections++]);
}

/* Cuts of the right half in order, from the centreline: one a station, two where it is paired.  Station 0 has
 * its inboard cut on the left half. */
static enum pl_status build_right_half(struct model *m, struct cut *right, size_t *n_right, struct pl_arena *arena)
{
    m->sections = pl_arena_take_raw(arena, 2 * m->n_grid, sizeof *m->sections);
    if (!m->sections)
        return PL_NO_MEMORY;
    *n_right = m->n_sections = 0;
    for (size_t i = 0; i < m->n_grid; i++) {
        const struct grid_station *g = &m->grid[i];
        if (g->shares) {
            right[(*n_right)++] = (struct cut){g->shares > 0 ? m->n_sections : m->n_sections - 1, i, false, true};
            continue;
        }
        enum pl_limit first = i == 0 ? PL_OUTBOARD : i + 1 == m->n_grid || g->steps ? PL_INBOARD : PL_HERE;
        enum pl_status status = add_section(m, g->distance_m, first);
        right[(*n_right)++] = (struct cut){m->n_sections - 1, i, false, false};
        if (status == PL_OK && g->steps)
            status = add_section(m, g->distance_m, PL_OUTBOARD);
        if (status != PL_OK)
            return status;
        if (g->paired && i)
            right[(*n_right)++] = (struct cut){m->n_sections - 1, i, false, false};
    }
    return PL_OK;
}

static void mirror_cuts(struct model *m, const struct cut *right, size_t n_right)
{
    size_t last = m->n_grid - 1;
    for (size_t i = 0; i < n_right; i++) {
        struct cut c = right[i];
        c.station = last + c.station;
        m->cuts[n_right + i] = c;
        c.station = last - right[i].station;
        c.mirrored = true;
        m->cuts[n_right - 1 - i] = c;
    }
    m->n_stations = 2 * last + 1;
    for (size_t i = 0; i <= last; i++) {
        m->station_y_m[last + i] = m->grid[i].distance_m;
        m->station_y_m[last - i] = -m->grid[i].distance_m;
    }
    for (size_t c = 2 * n_right; c-- > 0;)
        m->station_cut[m->cuts[c].station] = c;
    m->station_cut[m->n_stations] = 2 * n_right;
}

static void set_beam_cut(struct model *m, size_t c)
{
    const struct pl_section *s = pl_model_section(m, c);
    struct pl_beam *b = &m->beam;
    double compliance[6], sign = m->cuts[c].mirrored ? -1 : 1;
    pl_section_compliance(s, compliance);
    b->y_m[c] = m->station_y_m[m->cuts[c].station];
    b->flap_flap[c] = compliance[0];
    b->lead_lead[c] = compliance[1];
    b->twist_twist[c] = compliance[2];
    b->flap_lead[c] = compliance[3];
    b->flap_twist[c] = sign * compliance[4];  /* the mirrored lay-up couples the other way */
    b->lead_twist[c] = sign * compliance[5];
    b->shear[c] = 1 / s->shear_stiffness_n;
    pl_section_to_car(s, s->x_shear_centre_m, s->z_shear_centre_m, &b->x_centre_m[c], &b->z_centre_m[c]);
}

static enum pl_status build_cuts(struct model *m, struct pl_arena *arena)
{
    size_t n_right, most = 2 * m->n_grid;
    struct cut *right = pl_arena_take_raw(arena, most, sizeof *right);
    if (!right)
        return PL_NO_MEMORY;
    enum pl_status status = build_right_half(m, right, &n_right, arena);
    if (status != PL_OK)
        return status;
    m->cuts = pl_arena_take_raw(arena, 2 * n_right, sizeof *m->cuts);
    m->station_y_m = pl_arena_take_raw(arena, 2 * m->n_grid, sizeof *m->station_y_m);
    m->station_cut = pl_arena_take_raw(arena, 2 * m->n_grid, sizeof *m->station_cut);
    m->load_x_m = pl_arena_take_raw(arena, 2 * n_right, sizeof *m->load_x_m);
    m->load_n_m = pl_arena_take_raw(arena, 2 * n_right, sizeof *m->load_n_m);
    if (!m->load_n_m || !m->cuts || !m->station_y_m || !m->station_cut || !m->load_x_m || !pl_beam_alloc(&m->beam, 2 * n_right, arena)
        || !pl_forces_alloc(&m->forces, 2 * n_right, arena)
        || !pl_displacements_alloc(&m->displacements, 2 * n_right, arena))
        return PL_NO_MEMORY;
    mirror_cuts(m, right, n_right);
    for (size_t c = 0; c < m->beam.count; c++)
        set_beam_cut(m, c);
    return PL_OK;
}

size_t pl_model_station(const struct model *m, double y_m)
{
    size_t low = 0, high = m->n_stations - 1;
    while (low < high) {
        size_t mid = (low + high) / 2;
        if (m->station_y_m[mid] < y_m - 2 * PL_SAME_PLACE_M)
            low = mid + 1;
        else
            high = mid;
    }
    return low;
}

static void order_mounts(struct model *m, const struct pl_element *element)
{
    for (size_t i = 0; i < element->n_mounts; i++) {
        size_t at = i;
        for (; at > 0 && element->mounts[m->mount_order[at - 1]].y_m > element->mounts[i].y_m; at--)
            m->mount_order[at] = m->mount_order[at - 1];
        m->mount_order[at] = i;
    }
}

static bool build_supports(struct model *m, const struct pl_element *element, struct pl_arena *arena)
{
    size_t n = element->n_mounts;
    m->given = pl_arena_take_raw(arena, n, sizeof *m->given);
    m->pinned = pl_arena_take_raw(arena, n, sizeof *m->pinned);
    m->mount_order = pl_arena_take_raw(arena, n, sizeof *m->mount_order);
    if (!m->given || !m->pinned || !m->mount_order)
        return false;
    order_mounts(m, element);
    bool rigid = false;
    for (size_t i = 0; i < n; i++) {
        const struct pl_mount *mount = &element->mounts[m->mount_order[i]];
        size_t station = pl_model_station(m, mount->y_m);
        m->given[i] = (struct pl_support){m->station_cut[station], m->station_cut[station + 1] - 1,
                                          mount->hold == PL_CLAMPED, mount->stiffness_nm_per_rad};
        m->pinned[i] = m->given[i];
        if (m->given[i].clamped && !pl_support_sprung(&m->given[i])) {
            rigid = true;
            m->pinned[i].clamped = false;
        }
    }
    m->has_pinned = n >= 2 && rigid;
    m->system_given = pl_beam_fix(&m->beam, m->given, n, arena);
    m->system_pinned = m->has_pinned ? pl_beam_fix(&m->beam, m->pinned, n, arena) : NULL;
    return m->system_given && (m->system_pinned || !m->has_pinned);
}

/* Mass per length is smooth between cuts; both limits stand where it jumps. */
static void weigh(struct model *m)
{
    m->mass_kg = m->core_mass_kg = 0;
    for (size_t c = 0; c + 1 < m->beam.count; c++) {
        const struct pl_section *a = pl_model_section(m, c), *b = pl_model_section(m, c + 1);
        double half = 0.5 * (m->beam.y_m[c + 1] - m->beam.y_m[c]);
        m->mass_kg += half * (a->mass_kg_m + b->mass_kg_m);
        m->core_mass_kg += half * (a->core_mass_kg_m + b->core_mass_kg_m);
    }
}

enum pl_status pl_model_build(struct model *m, const struct pl_part *part, size_t element, struct pl_arena *arena,
                              struct pl_problems *problems)
{
    const struct pl_element *e = &part->elements[element];
    char *pointer = pl_arena_take_raw(arena, 48, 1);
    *m = (struct model){.part = part, .element = element};
    if (!pointer)
        return PL_NO_MEMORY;
    snprintf(pointer, 48, "/elements/%zu", element);
    if (!pl_loft_build(&m->loft, part, e, arena) || !pl_cloth_build(&m->cloth, e, arena)
        || !pl_stack_set_start(&m->stacks, part, e, arena)
        || !pl_section_builder_start(&m->builder, part, &m->loft, &m->cloth, &m->stacks, arena, problems, pointer)
        || !pl_model_grid(m, arena))
        return PL_NO_MEMORY;
    m->rules = pl_strength_rules(part, e);
    enum pl_status status = build_cuts(m, arena);
    if (status != PL_OK)
        return status;
    weigh(m);
    return build_supports(m, e, arena) ? PL_OK : PL_NO_MEMORY;
}
