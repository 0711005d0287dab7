"""Forces and motion: springs, levers about a pivot, beams, tensioned wire, bolts and screws under load.

May import: tables, quantities, calculation, hardware, materials, geometry. Each module offers its functions
by name.
"""
