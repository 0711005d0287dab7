"""Spring rate test: rate and initial tension of a spring in hand, from weights and lengths."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import Value, number_text
from calculators.declared.spring import CAUTION, PURPOSE
from calculators.declared.spring_inputs import MATERIAL, SHEAR_MODULUS, WIRE, length
from calculators.declared.spring_reading import n
from calculators.mechanics.springs.measured import Line, line_through, shear_modulus_of_rate_mpa
from calculators.mechanics.springs.rates import MOST_COILS, compression_rate_n_per_mm, spring_index
from calculators.mechanics.springs.wires import spring_wire
from calculators.quantities.errors import InputError

GRAVITY = 9.80665
"""[m/s2] Standard gravity; the true one differs by up to 0.3 %."""

Readings = list[tuple[float, float]]


def _test(given: Given) -> Result:
    readings, steps = _readings(given)
    line = line_through(readings)
    if line.rate_n_per_mm <= 0:
        raise InputError.of(
            "By these readings more load moves the spring less; check them, and whether kind says pulled or "
            "pressed.",
            field="readings",
        )
    mean_x, mean_f, rate_steps = _line_steps(readings, line)
    steps += rate_steps
    results: dict[str, Value | float] = {"rate": line.rate_n_per_mm}
    warnings: list[str] = []
    if given.mm_or_none("free_length") is not None:
        initial = line.intercept_n
        numbers = f"{n(mean_f)} N - {n(line.rate_n_per_mm)} N/mm x {n(mean_x)} mm"
        steps.append(Step("F_i", "F_m - k x_m", numbers, initial, "N", "load on the line at no travel"))
        results["initial_tension"] = initial
        warnings += _about_initial(given, line, initial)
    else:
        warnings.append(
            "Without a free_length the initial tension is not known; write the length without load."
        )
    if len(readings) > 2:
        steps.append(Step("worst", "greatest |F - F_i - k x|", "", line.worst_n, "N"))
        results["worst_residual"] = line.worst_n
        span = max(f for _, f in readings) - min(f for _, f in readings)
        if line.worst_n > 0.03 * span:
            warnings.append(
                f"One reading lies {n(line.worst_n)} N off the straight line: read it again, or some coils "
                "close."
            )
    results |= _expected(given, line.rate_n_per_mm, steps, warnings)
    return Result(named(**results), tuple(steps), tuple(warnings))


def _line_steps(readings: Readings, line: Line) -> tuple[float, float, list[Step]]:
    """The means of travel and load [mm, N], and how the rate comes from the readings."""
    count = len(readings)
    mean_x, mean_f = sum(x for x, _ in readings) / count, sum(f for _, f in readings) / count
    xs, fs = (" + ".join(n(reading[of]) for reading in readings) for of in (0, 1))
    if count == 2:
        (x1, f1), (x2, f2) = readings
        formula, numbers = "(F2 - F1)/(x2 - x1)", f"({n(f2)} N - {n(f1)} N)/({n(x2)} mm - {n(x1)} mm)"
    else:
        above = sum((x - mean_x) * (f - mean_f) for x, f in readings)
        formula = "sum (x - x_m)(F - F_m)/sum (x - x_m)^2"
        numbers = f"{n(above)} N mm/{n(sum((x - mean_x) ** 2 for x, _ in readings))} mm2"
    return (
        mean_x,
        mean_f,
        [
            Step("x_m", "mean travel", f"({xs})/{count}".replace("+ -", "- "), mean_x, "mm"),
            Step("F_m", "mean load", f"({fs})/{count}", mean_f, "N"),
            Step("k", formula, numbers, line.rate_n_per_mm, "N/mm", "least squares"),
        ],
    )


def _readings(given: Given) -> tuple[Readings, list[Step]]:
    """Travel and load of each reading, in the order of the travel."""
    free = given.mm_or_none("free_length") or 0.0
    sign = 1.0 if given.text("kind") == "extension" else -1.0
    found: Readings = []
    steps = []
    for place, row in enumerate(given.rows("readings")):
        load, grams = row.number_or_none("load"), row.number_or_none("weight")
        where = f"readings[{place}].load"
        if (load is None) == (grams is None):
            had = "both are given" if load is not None else "neither is given"
            says = f"Readings, row {place + 1}: write one of load and weight; {had}."
            raise InputError.of(says, field=where)
        if load is None:
            assert grams is not None
            load = grams * GRAVITY / 1000
            steps.append(Step(f"F{place + 1}", "m g", f"{n(grams)} g x {GRAVITY} m/s2", load, "N",
                              "standard gravity"))  # fmt: skip
        travel = sign * (row.mm("length") - free)
        if given.mm_or_none("free_length") is not None and travel < 0:
            way = "longer" if sign > 0 else "shorter"
            says = f"Readings, row {place + 1}: under load it must be {way} than the {free:.6g} mm without."
            raise InputError.of(says, field=f"readings[{place}].length", value=row.mm("length"), limit=free)
        found.append((travel, load))
    if max(x for x, _ in found) - min(x for x, _ in found) < 1e-6:
        says = "All readings are at one length; write two that differ, the further apart the better."
        raise InputError.of(says, field="readings")
    return sorted(found), steps


def _about_initial(given: Given, line: Line, initial: float) -> list[str]:
    if initial < -max(line.worst_n, 0.02 * line.rate_n_per_mm):
        return [
            f"The line meets no load {n(-initial / line.rate_n_per_mm)} mm beyond the free length: measure "
            "the free length again, or some coils rest on one another."
        ]
    if given.text("kind") == "compression" and initial > max(line.worst_n, 0.02 * line.rate_n_per_mm):
        return [f"A compression spring has no initial tension; {n(initial)} N points to a wrong free length."]
    return []


def _expected(given: Given, rate: float, steps: list[Step], warnings: list[str]) -> dict[str, Value | float]:
    """The rate that wire, diameter and coils would give, beside the one that was measured."""
    names = ("wire", "mean_diameter", "active_coils")
    said = [name for name in names if given.get(name) is not None]
    if not said:
        return {}
    if len(said) < len(names):
        missing = next(name for name in names if name not in said)
        says = (
            f"The input {missing} is missing; with {' and '.join(said)} it checks the rate against the wire."
        )
        raise InputError.of(says, field=missing)
    wire, mean, coils = given.mm("wire"), given.mm("mean_diameter"), given.number("active_coils")
    spring_index(wire, mean)
    found = shear_modulus_of_rate_mpa(rate, wire, mean, coils) / 1000
    numbers = f"8 x ({n(mean)} mm)^3 x {n(coils)} x {n(rate)} N/mm/({n(wire)} mm)^4"
    steps.append(Step("G", "8 D^3 n k/d^4", numbers, found, "GPa", "EN 13906-1, from memory"))
    results: dict[str, Value | float] = {"shear_modulus_found": found}
    material, stated = given.text_or_none("material"), given.number_or_none("shear_modulus")
    if material is None and stated is None:
        return results
    shear = 1000 * stated if stated is not None else spring_wire(material or "", wire).shear_modulus_mpa
    expected = compression_rate_n_per_mm(wire, mean, coils, shear)
    off = 100 * (rate / expected - 1)
    numbers = f"{n(shear)} MPa x ({n(wire)} mm)^4/(8 x ({n(mean)} mm)^3 x {n(coils)})"
    steps.append(Step("k_d", "G d^4/(8 D^3 n)", numbers, expected, "N/mm", "EN 13906-1, from memory"))
    steps.append(Step("off", "k/k_d - 1", f"{n(rate)}/{n(expected)} - 1", off, "%"))
    if abs(off) > 10:
        side, other = ("over", "thicker") if off > 0 else ("under", "thinner")
        by = abs(100 * ((rate / expected) ** 0.25 - 1))
        warnings.append(
            f"The rate is {number_text(abs(off), 3)} % {side} the one that wire and coils give: measure the "
            f"wire again ({number_text(by, 3)} % {other} would do it), count the coils, or it is another "
            "material."
        )
    return results | {"rate_expected": expected, "rate_off": off}


def _member(name: str, about: str, unit: str, most: float) -> Input:
    return Input(name=name, help=about, kind="quantity", unit=unit, optional=True, minimum=0, maximum=most)


SPRING_RATE_TEST = Calculator(
    name="spring-rate-test",
    summary="Rate and initial tension of a spring in hand, from two or more weights and lengths.",
    purpose=PURPOSE,
    inputs=(
        Input(
            name="readings",
            help="load and length of each reading, one a row; far apart, and with no coils touching",
            kind="rows",
            minimum=2,
            maximum=20,
            example="2.1 N, 48 mm",
            members=(
                _member("load", "the load", "N", 1e6),
                Input(
                    name="length",
                    help="length under it, measured as the free length is",
                    kind="length",
                    unit="mm",
                    minimum=0,
                    maximum=10_000,
                ),
                _member("weight", "the mass that was hung on, instead of the load", "g", 1e8),
            ),
        ),
        Input(
            name="free_length",
            help="length without load; 0 where the travel itself was measured on a pulled spring",
            kind="length",
            unit="mm",
            optional=True,
            minimum=0,
            maximum=10_000,
        ),
        Input(
            name="kind",
            help="whether it is pulled or pressed",
            kind="choice",
            choices=("extension", "compression"),
            synonyms=(("tension", "extension"),),
            default="extension",
        ),
        *(
            Input(name=each.name, help=f"{each.help}, to check the rate against", kind=each.kind,
                  unit=each.unit,
                  minimum=each.minimum, maximum=each.maximum, above=each.above, optional=True)
            for each in (WIRE, length("mean_diameter", "mean diameter of the coil", most=1000))
        ),
        Input(
            name="active_coils",
            help="coils that spring, to check the rate against",
            kind="number",
            optional=True,
            above=0,
            maximum=MOST_COILS,
        ),
        MATERIAL,
        SHEAR_MODULUS,
    ),
    outputs=(
        "rate", "initial_tension", "worst_residual", "shear_modulus_found", "rate_expected", "rate_off",
    ),
    work=_test,
    sources=("least squares", "EN 13906-1 (from memory)"),
    cautions=(CAUTION,),
    example={
        "readings": "2.1 N, 48 mm; 3.7 N, 56 mm; 5.2 N, 64 mm",
        "free_length": "40 mm",
        "wire": "0.5 mm",
        "mean_diameter": "6 mm",
        "active_coils": "16",
        "material": "music-wire",
    },
)  # fmt: skip
