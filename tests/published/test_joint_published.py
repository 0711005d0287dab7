"""Joints against outside figures.

Countersinks: ISO 10642 countersunk socket heads, theoretical sharp head diameter and depth at 90 degrees, as
stated by an open CAD part table (iso10642def.csv). Tightening: torque tables credited to a supplier's US
table (SAE grades) and to a public engineering site (ISO 898-1 classes), as collected in an open Python
utility; the nut factors (0.15, 0.20) and proof fractions (75 %, 85 %) were inferred from the tables and are
not printed there. Washers on wood: a worked example of the trade from memory.
"""

from __future__ import annotations

import pytest

from calculators.hardware.designation import read_fastener, read_washer
from calculators.joints import JointInput, Layer, StackItem, work_joint
from calculators.joints.drilling import countersink_depth_mm

LBF_N = 4.4482216152605
FT_LB_NM = 1.3558179483314004
PSI_MPA = 0.006894757293168
IN2_MM2 = 645.16


@pytest.mark.parametrize(
    ("d", "sharp", "depth"), [(4, 8.96, 2.48), (5, 11.2, 3.1), (6, 13.44, 3.72), (8, 17.92, 4.96)]
)
def test_countersink_depths(published, d, sharp, depth) -> None:
    """k = (dk - d) / (2 tan 45), printed to two places."""
    book = published("ISO 10642, as stated by an open CAD part table", confidence="read")
    book.check(f"M{d} head height", countersink_depth_mm(sharp, d, 90.0), depth, 0.005, "mm")


def preload(size: str, torque_nm: float, factor: float) -> float:
    """The preload of a bolt through two steel plates."""
    plates = tuple(StackItem(layer=Layer(part, "mild steel", 10.0)) for part in "ab")
    result = work_joint(
        JointInput(
            "J", read_fastener(f"{size} hex set screw steel"), plates, torque_nm=torque_nm, nut_factor=factor
        )
    )
    assert result.preload_n is not None
    return result.preload_n


@pytest.mark.parametrize(
    ("size", "area_mm2", "proof_mpa", "torque_nm"),
    [("M8", 36.6, 580, 28.8), ("M10", 58.0, 580, 57.3), ("M20", 245.0, 600, 500.0), ("M8", 36.6, 650, 32.3)],
)
def test_preload_of_metric_bolts(published, size, area_mm2, proof_mpa, torque_nm) -> None:
    """The printed torque gives 85 % of the proof load back. 1 %: torques are printed to three figures."""
    book = published("ISO 898-1 maximum torques, as collected in an open Python utility", confidence="read")
    aimed = 0.85 * proof_mpa * area_mm2
    book.check(f"{size} preload at {torque_nm} N m", preload(size, torque_nm, 0.2), aimed, 0.01 * aimed, "N")


@pytest.mark.parametrize(
    ("size", "area_in2", "proof_psi", "torque_ft_lb", "share"),
    [
        ("5/16-18 UNC", 0.0524, 85000, 13, 0.02),
        ("3/4-10 UNC", 0.334, 85000, 200, 0.02),
        ("1/2-13 UNC", 0.1419, 120000, 80, 0.02),
        ("1/4-20 UNC", 0.0318, 85000, 6.3, 0.04),
    ],
)
def test_preload_of_inch_bolts(published, size, area_in2, proof_psi, torque_ft_lb, share) -> None:
    """75 % of the proof load; 2 to 4 %: torques are printed to two figures."""
    book = published("SAE J429 torques, as collected in an open Python utility", confidence="read")
    aimed = 0.75 * proof_psi * PSI_MPA * area_in2 * IN2_MM2
    found = preload(size, torque_ft_lb * FT_LB_NM, 0.15)
    book.check(f"{size} preload at {torque_ft_lb} ft lb", found, aimed, share * aimed, "N")


@pytest.mark.parametrize(("form", "mpa", "tolerance"), [("", 62, 0.5), ("repair", 22, 0.5)])
def test_pressure_of_washers(published, form, mpa, tolerance) -> None:
    """M6 at 6 N m makes 5000 N; ISO 7089 (12 x 6.4) and ISO 7093 (18 x 6.4) washers on wood, whole MPa."""
    book = published("bearing of ISO 7089 and ISO 7093 washers at 6 N m, worked example", confidence="memory")
    stack = (
        StackItem(washer=read_washer(f"M6 {form} washer".replace("  ", " "))),
        StackItem(layer=Layer("base", "oak", 28.0)),
        StackItem(layer=Layer("plate", "mild steel", 20.0)),
    )
    result = work_joint(JointInput("J", read_fastener("M6 x 50 hex set screw steel"), stack, torque_nm=6.0))
    assert result.washer_pressure_mpa is not None
    book.check(f"M6 {form or 'plain'} washer", result.washer_pressure_mpa, mpa, tolerance, "MPa")
