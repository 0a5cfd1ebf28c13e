"""The rules, one file a subject, and the list of them written by hand.

May import: the domain.
"""

from service.domain.rules import cuts, fastening, fits, glue_ups, gluing, panels, parts, runs, sizes

RULES = (
    sizes.unknown_stock,
    sizes.nominal_for_actual,
    sizes.wider_than_stock,
    sizes.longer_than_stock,
    runs.does_not_add_up,
    runs.does_not_fit,
    runs.tight,
    fits.binds,
    fits.loose,
    fits.proud,
    cuts.points_cross,
    cuts.measured_unclear,
    cuts.goes_through,
    cuts.beyond_saw,
    cuts.too_short_to_hold,
    panels.too_big,
    panels.against_grain,
    parts.duplicate_id,
    parts.unknown_part,
    parts.unjoined,
    parts.unused,
    parts.joint_unknown_part,
    parts.unknown_joint,
    fastening.pokes_out,
    fastening.too_short,
    fastening.too_thick,
    fastening.breaks_out,
    fastening.pocket_length,
    fastening.pocket_thread,
    fastening.pocket_thin,
    fastening.end_grain,
    fastening.near_edge,
    fastening.no_pilot,
    fastening.into_panel_edge,
    fastening.corrodes,
    fastening.no_tool,
    fastening.mismatch,
    gluing.outdoors,
    gluing.end_grain,
    glue_ups.over_finish,
    gluing.missing,
    glue_ups.too_slow,
    glue_ups.cold,
)

BY_CODE = {rule.code: rule for rule in RULES}
