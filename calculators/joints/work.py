"""Working a joint: from the fastener and its stack to lengths, holes, what holds, and what is wrong."""

from __future__ import annotations

from functools import lru_cache

from calculators.joints.layout import behind_point_mm, lay_out, protrusion_mm
from calculators.joints.model import Extent, Finding, JointInput, JointResult
from calculators.joints.rules import findings_of
from calculators.joints.showing import sources_of, steps_of
from calculators.joints.worked import Worked


# A build is looked at again after every change, with most of its joints as they were.
@lru_cache(maxsize=2048)
def work_joint(joint: JointInput) -> JointResult:
    """Work out all that follows from a joint.

    Args:
        joint: the fastener, its stack from the head side, and what is asked of it.

    Returns:
        Lengths, holes, what holds, and findings; what could not be looked up is a finding `unchecked`.

    Raises:
        InputError: when the joint means nothing: no layers, a thickness that is not over 0, a fastener
            that is not known, a number that is none.

    Source: the rules and sizes name their own.

    Example:
        >>> from calculators.hardware.designation import read_fastener
        >>> from calculators.joints.model import Layer, StackItem
        >>> stack = tuple(StackItem(layer=Layer(p, "oak", t)) for p, t in (("batten", 22), ("base", 28)))
        >>> result = work_joint(JointInput("F01", read_fastener("No. 8 x 1 3/4 csk brass"), stack))
        >>> round(result.penetration_mm, 2), round(result.penetration_d, 1)
        (22.45, 5.4)
    """
    worked = lay_out(joint)
    return _result(worked, findings_of(worked))


def _result(worked: Worked, findings: tuple[Finding, ...]) -> JointResult:
    screw, stack = worked.screw, worked.stack
    tapped = [bite for bite in worked.bites if bite.kind in ("tapped", "insert")]
    engagement = min((bite.engaged_mm for bite in tapped), default=None)
    point = worked.point_piece
    penetration = worked.tip_mm - point.enter_mm if point is not None else None
    protrusion = protrusion_mm(worked)
    known = [pressure for pressure in worked.pressures if pressure.mpa is not None]
    on_wood = [pressure for pressure in known if pressure.member.is_wood]
    bearing = [pressure.mpa for pressure in on_wood or known if pressure.mpa is not None]
    return JointResult(
        joint=worked.joint,
        fastener=worked.fastener,
        major_mm=screw.major_mm,
        head_diameter_mm=screw.head_diameter_mm,
        head_height_mm=screw.head_height_mm,
        head_angle_deg=screw.head_angle_deg,
        across_flats_mm=screw.across_flats_mm,
        head_below_mm=stack.head_below_mm,
        extents=tuple(Extent(m.item, m.enter_mm, m.leave_mm) for m in stack.members),
        tip_mm=worked.tip_mm,
        plain_shank_mm=worked.plain_mm or 0.0,
        length_needed_mm=(worked.needed.least_mm, worked.needed.most_mm) if worked.needed else None,
        stock_lengths_mm=worked.stock_mm,
        holes=worked.holes,
        engagement_mm=engagement,
        engagement_d=None if engagement is None else engagement / screw.major_mm,
        penetration_mm=penetration,
        penetration_d=None if penetration is None else penetration / screw.major_mm,
        behind_point_mm=behind_point_mm(worked),
        protrusion_mm=protrusion,
        protrusion_threads=protrusion / screw.pitch_mm if protrusion is not None and screw.pitch_mm else None,
        washer_pressure_mpa=max(bearing, default=None),
        preload_n=worked.preload_n,
        findings=findings,
        working=steps_of(worked),
        sources=sources_of(worked, findings),
    )
