"""Rules for threaded inserts in wood."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.mending import number
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule, unchecked
from calculators.joints.worked import Member, Worked

_TINY = 1e-6


@rule(
    "insert-hole",
    "The hole for an insert is its body's size in softwood, 0.4 to 0.8 mm more in hardwood.",
    "common practice",
)
def _insert_hole(w: Worked) -> Iterator[Seen]:
    """The hole for a threaded insert."""
    for host, insert in _inserts(w):
        hole, body = w.hole(host).diameter_mm, insert.body_mm
        if body is None:
            says = (
                f"The body of the insert in {host.part} is not known, so its hole cannot be "
                "checked: measure it."
            )
            yield unchecked(says, host.part)
            continue
        if host.material is None:
            yield unchecked(
                f"The material of {host.part} is not known, so its insert's hole cannot be checked."
            )
            continue
        low, high = 0.0, w.limits["insert-hole-softwood-most"]
        if host.is_hardwood:
            low, high = w.limits["insert-hole-least"], w.limits["insert-hole-most"]
        over = hole - body
        if low - 0.005 <= over <= high + 0.005:
            continue
        best = body + (low if host.is_hardwood else 0.0)
        mend = Mend(f"Drill {best:.1f} mm.", f"{host.path}.hole.diameter_mm", number(best))
        loose = insert.outside_mm is not None and hole >= insert.outside_mm
        cost = "the wood splits as it goes in" if over < low else "its thread has little to hold in"
        says = (
            f"The hole for the insert in {host.part} is {hole:.2f} mm on a body of {body:g} mm; "
            f"{body + low:.1f} to {body + high:.1f} mm is usual: {cost}."
        )
        limit = low if over < low else high
        yield Seen("error" if loose else "warning", says, host.part, over, limit, "mm", (mend,))


@rule(
    "insert-edge",
    "An insert stands at least twice its outside diameter from an edge.",
    "common practice",
)
def _insert_edge(w: Worked) -> Iterator[Seen]:
    """How near an edge an insert is."""
    for host, insert in _inserts(w):
        assert host.layer is not None
        known = {"edge": host.layer.edge_mm, "end": host.layer.end_mm, "side": host.layer.side_mm}
        near = sorted((value, name) for name, value in known.items() if value is not None)
        if not near:
            continue
        if not insert.outside_mm:
            yield unchecked(
                f"The outside of the insert in {host.part} is not known: its edge cannot be checked."
            )
            continue
        distance, name = near[0]
        share, good = distance / insert.outside_mm, w.limits["insert-edge"]
        if share >= good - _TINY:
            continue
        least = w.limits["insert-edge-least"]
        error = share < least - _TINY
        says = (
            f"The insert is {distance:.1f} mm from the edge of {host.part}, {share:.1f} of its "
            "outside diameter; "
            f"{good:g} is wanted, or the wood splits."
        )
        away = good * insert.outside_mm
        mend = Mend(f"Move it to {away:.1f} mm or more.", f"{host.path}.{name}_mm", number(away + 5e-4))
        yield Seen(
            "error" if error else "warning", says, host.part, share, least if error else good, "OD", (mend,)
        )


def _inserts(w: Worked) -> list[tuple[Member, Member]]:
    """Each layer that takes an insert, with the insert."""
    hosts = [m for m in w.layers if m.takes == "insert"]
    inserts = [m for m in w.stack.members if m.kind == "insert"]
    return list(zip(hosts, inserts, strict=False))


RULES: tuple[Rule, ...] = (_insert_hole, _insert_edge)
