"""Hardware: threads, drills, holes, heads, nuts, washers, wood screws and how the trade names them.

May import: the standard library, `calculators.quantities` and `calculators.tables`. Each subject is a module
of its own; the one name offered here is `find_thread`, which reads a thread as people write it.
"""

from calculators.hardware.threads import find_thread

__all__ = ["find_thread"]
