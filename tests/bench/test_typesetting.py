"""Units and formulas on a page are set as a handbook sets them, and nothing that was typed becomes markup."""

from __future__ import annotations

import pytest

from buildlog.bench.templatetags.typeset import formula, units


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        ("14.183 mm2", "14.183 mm²"),
        ("0.02198 in2", "0.02198 in²"),
        ("761.6 kg/m3", "761.6 kg/m³"),
        ("0.0004 kg m2", "0.0004 kg m²"),
        ("9.80665 m/s2", "9.80665 m/s²"),
        ("60 deg", "60°"),
        ("0.0148 N m/deg", "0.0148 N m/deg"),
        ("20 degC", "20 °C"),
        ("5 um", "5 µm"),
        ("31.75 1/in", "31.75 per inch"),
        ("60 x 30 x 5 mm r 3", "60 × 30 × 5 mm r 3"),
        ("8 lengths of M2 x 10", "8 lengths of M2 × 10"),
        ("3/16 BSF", '<span class="fraction">3/16</span> BSF'),
        ("10-32 UNF is likely", '<span class="keep">10-32 UNF</span> is likely'),
        (
            "0.1654 in, near 11/64 in (+0.166 mm)",
            '0.1654 in, <span class="keep">near <span class="fraction">11/64</span> in (+0.166 mm)</span>',
        ),
        ("in2 <b>", "in2 &lt;b&gt;"),
        ("degree, member", "degree, member"),
        ("0.088 mm either way in x and in y", "0.088 mm either way in x and in y"),
        ("1 x 2412 mm", "1 × 2412 mm"),
    ],
)
def test_units_stand_as_the_trade_writes_them(typed: str, stands: str) -> None:
    assert units(typed) == stands


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        ("pi/4 ((d2 + d3)/2)^2", "π/4 ((d2 + d3)/2)²"),
        ("K 8 F D/(pi d^3)", "K 8 F D/(π d³)"),
        ("2211/d^0.145 for music-wire", "2211/d<sup>0.145</sup> for music-wire"),
        ("t (sag after years / limit)^(1/3)", "t (sag after years / limit)<sup>1/3</sup>"),
        ("(1 - exp(-room^2 / (2 s^2)))^n", "(1 - exp(-room² / (2 s²)))<sup>n</sup>"),
        ("sqrt(8 x 10^-6 m2)", "√(8 × 10⁻⁶ m²)"),
        ("(R - r)(sqrt 2 - 1)", "(R - r)(√2 - 1)"),
        ("tau_zul", "τ<sub>zul</sub>"),
        ("F_i + k (x - x_m)", "F<sub>i</sub> + k (x - x<sub>m</sub>)"),
        ("m g (x - pivot x)", "m g (x - pivot x)"),
        ("count x length x width x thickness", "count × length × width × thickness"),
        ("2 x sqrt(3 m2)", "2 × √(3 m²)"),
        ("how far off in x and in y", "how far off in x and in y"),
        ("alpha of brass", "α of brass"),
        ("numbers, multiples, piece", "numbers, multiples, piece"),
        ("a < b & c", "a &lt; b &amp; c"),
    ],
)
def test_formulas_stand_as_in_a_handbook(typed: str, stands: str) -> None:
    assert formula(typed) == stands
