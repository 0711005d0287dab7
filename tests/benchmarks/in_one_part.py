"""How long the geometry of parts takes, and how the time grows with the holes. Reports; never passes or fails.

Run: `python -m tests.benchmarks.in_one_part`.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from decimal import Decimal

from calculators.planning.checks.in_one_part import RULES
from calculators.planning.checks.limits import limits_of
from calculators.planning.checks.site import PartSite
from calculators.planning.model import Component, Context, Hole, Pocket, Size
from calculators.planning.placing import solid_of
from calculators.planning.worked import WorkedHole
from calculators.quantities.length import Length


def mm(value: float) -> Length:
    return Length.of_mm(Decimal(str(value)))


def plate(across: int, along: int) -> PartSite:
    """A plate of oak with a hole in every 40 x 40 mm, each third countersunk, and a pocket for each nine."""
    holes, pockets = [], []
    for k in range(across * along):
        u, v = 20.0 + 40.0 * (k // across), 20.0 + 40.0 * (k % across)
        more = {"countersink_diameter": mm(9.5), "countersink_angle_deg": Decimal(90)} if k % 3 == 0 else {}
        depth = {} if k % 2 else {"depth": mm(12)}
        holes.append(Hole(f"h{k}", "top", mm(u), mm(v), diameter=mm(5), **depth, **more))
        if k % 9 == 4:
            pockets.append(Pocket(f"R{k}", "top", mm(u + 6), mm(v - 12), mm(28), mm(24), mm(6), mm(3)))
    size = Size("block", mm(40 * along), mm(40 * across), mm(18))
    part = Component(
        "P1", "Plate", material="European oak", size=size, holes=tuple(holes), pockets=tuple(pockets)
    )
    worked = tuple(WorkedHole("P1", (), "top", one.u.mm, one.v.mm, direct=one) for one in holes)
    context = Context()
    return PartSite(part, solid_of(part), worked, ("P1",), 1, context, limits_of(context))


def look(site: PartSite) -> int:
    """Apply every rule of one part, nothing remembered."""
    site.kept.clear()
    return sum(len(rule.findings(site)) for rule in RULES)


def seconds(work: Callable[[], object], times: int = 5) -> float:
    """The least time of the processor over some runs."""
    best = float("inf")
    for _ in range(times):
        begun = time.process_time()
        work()
        best = min(best, time.process_time() - begun)
    return best


def main() -> None:
    small, large = plate(14, 14), plate(44, 45)
    few, many = len(small.holes), len(large.holes)
    a, b = seconds(lambda: look(small)), seconds(lambda: look(large))
    print(
        f"one plate:  {few} holes {a * 1000:.1f} ms, {many} holes {b * 1000:.1f} ms: {b / a:.1f} times for {many / few:.1f} times"
    )
    parts = [plate(2, 2) for _ in range(500)]
    c = seconds(lambda: [look(part) for part in parts])
    print(f"500 parts with {sum(len(part.holes) for part in parts)} holes: {c * 1000:.0f} ms")


if __name__ == "__main__":
    main()
