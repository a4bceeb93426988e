#include "vh_lower.h"

#include "vh_math.h"

#define DEG_PER_RAD (180.0 / VH_PI)

static double rise_cm(const struct vh_lower_policy *p)
{
    return p->wire_cm - p->laid_height_cm;
}

static double least_sin(const struct vh_lower_policy *p)
{
    return vh_sin(p->lean_deg / DEG_PER_RAD);
}

double vh_lower_string_cm(const struct vh_lower_policy *p, struct vh_lower_state s)
{
    return s.laid_cm + rise_cm(p) / s.sin_lean;
}

double vh_lower_head_cm(const struct vh_lower_policy *p, struct vh_lower_state s, double stem_cm)
{
    return p->laid_height_cm + (stem_cm - s.laid_cm) * s.sin_lean;
}

bool vh_lower_is_past_wire(const struct vh_lower_policy *p, struct vh_lower_state s, double stem_cm)
{
    const double seen_cm = 1.0; /* less no eye sees */

    return vh_lower_head_cm(p, s, stem_cm) >= p->wire_cm + seen_cm;
}

double vh_lower_hook_cm(const struct vh_lower_policy *p, struct vh_lower_state s)
{
    const double cos_lean = sqrt(vh_max(0.0, 1.0 - s.sin_lean * s.sin_lean));

    return s.laid_cm + rise_cm(p) * cos_lean / s.sin_lean;
}

double vh_lower_lean_deg(struct vh_lower_state s)
{
    return 90.0 - vh_acos(s.sin_lean) * DEG_PER_RAD;
}

double vh_lower_fruit_cm(const struct vh_lower_policy *p, struct vh_lower_state s, double joint_cm)
{
    return p->laid_height_cm + vh_max(0.0, joint_cm - s.laid_cm) * s.sin_lean - p->truss_hang_cm;
}

struct vh_lower_state vh_lower_state_for_stem(const struct vh_lower_policy *p, double stem_cm,
                                              double clearance_cm)
{
    const double room = rise_cm(p) - clearance_cm, longest = room / least_sin(p);

    if (stem_cm <= room)
        return (struct vh_lower_state){0.0, 1.0};
    if (stem_cm <= longest)
        return (struct vh_lower_state){0.0, room / stem_cm};
    return (struct vh_lower_state){stem_cm - longest, least_sin(p)};
}

struct vh_lower_state vh_lower_state_for_string(const struct vh_lower_policy *p, double string_cm)
{
    const double hanging = rise_cm(p) / least_sin(p);

    if (string_cm <= hanging)
        return (struct vh_lower_state){0.0, vh_min(1.0, rise_cm(p) / string_cm)};
    return (struct vh_lower_state){string_cm - hanging, least_sin(p)};
}

double vh_lower_wire_needed_cm(const struct vh_lower_policy *p, double zone_cm)
{
    return zone_cm * least_sin(p) + p->fruit_floor_cm + p->truss_hang_cm + p->head_clearance_cm;
}

double vh_lower_lean_needed_deg(const struct vh_lower_policy *p, double zone_cm)
{
    const double flattest_deg = 15.0;
    const double room = p->wire_cm - p->head_clearance_cm - p->fruit_floor_cm - p->truss_hang_cm;

    if (!(zone_cm > 0.0) || room < zone_cm * vh_sin(flattest_deg / DEG_PER_RAD))
        return VH_UNKNOWN;
    return 90.0 - vh_acos(vh_min(1.0, room / zone_cm)) * DEG_PER_RAD;
}
