"""Hardware: threads, drills, holes, heads, nuts, washers, wood screws and how the trade names them.

May import: the standard library, `calculators.quantities` and `calculators.tables`. Each subject is a module
of its own and nothing is offered here, so that a command loads what it needs and no more.
"""
