"""How long a part drawing takes, and how the time grows with its holes. Reports; never passes or fails.

Run: `python -m tests.benchmarks.part_drawings`.
"""

from __future__ import annotations

from functools import partial

from calculators.drawing.part_sheet import draw_part
from tests.benchmarks.yardstick import processor_seconds
from tests.drawing.part_speed import plate_of, row_of


def main() -> None:
    """Print the time for 50, 500 and 2000 holes at the same density, and each as a ratio to the one before."""
    for name, made in (("scattered", plate_of), ("in a row", row_of)):
        before = 0.0
        for holes in (50, 500, 2000):
            part = made(holes)
            paper = (part.solid.length * 1.4 + 120, part.solid.width + 200)
            work = partial(draw_part, part, paper=paper)
            seconds = min(processor_seconds(work) for _ in range(3))
            ratio = f", {seconds / before:.1f} times as long" if before else ""
            print(f"{name:>10}: {holes:5d} holes {seconds * 1000:8.1f} ms{ratio}")
            before = seconds


if __name__ == "__main__":
    main()
