"""The rules, one file a subject, and the list of them written by hand.

May import: the domain.
"""

from service.domain.rules import cuts, fits, panels, parts, runs, shapes, sizes

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
    shapes.length,
    shapes.angle,
    shapes.lean,
    shapes.unlike,
    shapes.blank,
    shapes.uneven,
    parts.duplicate_id,
    parts.unknown_part,
    parts.unjoined,
    parts.unused,
    parts.joint_unknown_part,
    parts.unknown_joint,
)

BY_CODE = {rule.code: rule for rule in RULES}
