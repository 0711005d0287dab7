"""Strength of screws against proof and ultimate loads as printed.

Source: EN ISO 898-1, proof loads and ultimate tensile loads of coarse threads, a supplier's table, read. The
load is the stress times the tensile stress area that the table prints beside it. Loads are printed to three
figures, so half a per cent is allowed. SAE J429: torque table in open Python utilities plib (commit
2a04bb02), proof strengths in psi, read.
"""

import pytest

from calculators.materials import strength_of

PROOF = [("8.8", 4, 8.78, 5100), ("8.8", 5, 14.2, 8230), ("8.8", 8, 36.6, 21200), ("8.8", 10, 58, 33700),
         ("8.8", 16, 157, 91000), ("8.8", 20, 245, 147000), ("10.9", 10, 58, 48100), ("12.9", 12, 84.3, 81800),
         ("4.6", 6, 20.1, 4520)]  # fmt: skip
ULTIMATE = [("10.9", 10, 58, 60300), ("12.9", 12, 84.3, 103000), ("8.8", 20, 245, 203000)]


def test_proof_loads(published):
    book = published("EN ISO 898-1, a supplier's table of proof and ultimate loads")
    for grade, diameter, area, load in PROOF:
        found = strength_of(grade, diameter).proof_mpa * area
        book.check(f"M{diameter} {grade} proof", found, load, 0.005 * load, "N")
    for grade, diameter, area, load in ULTIMATE:
        found = strength_of(grade, diameter).tensile_mpa * area
        book.check(f"M{diameter} {grade} ultimate", found, load, 0.005 * load, "N")


def test_a_misprinted_load(published):
    book = published("EN ISO 898-1, a supplier's table of proof and ultimate loads")
    book.differs(
        "M4 10.9", strength_of("10.9", 4).tensile_mpa * 8.78, 91130, "misprint for 9130", tolerance=100
    )


@pytest.mark.parametrize(("grade", "psi"), [("SAE 2", 55000), ("SAE 5", 85000), ("SAE 8", 120000)])
def test_sae_proof_strengths(published, grade, psi):
    book = published("SAE J429 proof strengths, torque table in open Python utilities plib (commit 2a04bb02)")
    book.check(grade, strength_of(grade, 12.7).proof_mpa / 0.00689475729, psi, 10, "psi")
