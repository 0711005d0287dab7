"""Solids, faces and poses: where things lie and what an axis meets on its way.

May import: calculators.quantities for its error type. All numbers are millimetres and degrees.
"""
