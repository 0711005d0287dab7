"""How often Python looks for objects that hold only one another.

A build worked out is hundreds of thousands of small objects that stay; with Python's own settings it is
walked through again and again while it is made, for half of the time that the making takes.
"""

from __future__ import annotations

import gc

THRESHOLDS = (50_000, 20, 50)
"""So many new objects before the youngest are looked at, and how much more seldom the older ones are."""


def collect_seldom() -> None:
    """Look for lost objects seldom, and never again among those that are there now: modules and tables."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(*THRESHOLDS)
