"""Coil springs: their rate, stress, length and steadiness; springs together; and which spring to wind.

Lengths are in mm, forces in N, moments in N mm, moduli and stresses in MPa. The symbols in the formulas are
the handbooks': d wire, D mean diameter of the coil, n active coils, C = D/d index, G and E moduli.
"""
