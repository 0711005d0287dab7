"""Every calculator, by name: where it is declared.

A calculator's file is only loaded when it is asked for, so that a command starts at once.
"""

from __future__ import annotations

from importlib import import_module

from calculators.calculation.declaration import UNNAMED_PURPOSE, Calculator
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

PLACES: dict[str, str] = {
    "convert": "calculators.declared.convert:CONVERT",
    "nearest": "calculators.declared.nearest:NEAREST",
    "thread": "calculators.declared.threads:THREAD",
    "tapping-drill": "calculators.declared.threads:TAPPING_DRILL",
    "identify-thread": "calculators.declared.identify_thread:IDENTIFY_THREAD",
    "compare-threads": "calculators.declared.compare_threads:COMPARE_THREADS",
    "thread-wires": "calculators.declared.thread_wires:THREAD_WIRES",
    "plated-thread": "calculators.declared.plated_thread:PLATED_THREAD",
    "drill": "calculators.declared.drills:DRILL",
    "gauge": "calculators.declared.gauges:GAUGE",
    "wood-screw": "calculators.declared.wood_screws:WOOD_SCREW",
    "countersink": "calculators.declared.countersinks:COUNTERSINK",
    "joint": "calculators.declared.joints:JOINT",
    "spring": "calculators.declared.spring:SPRING",
    "spring-choice": "calculators.declared.spring_choice:SPRING_CHOICE",
    "spring-pair": "calculators.declared.spring_pair:SPRING_PAIR",
    "spring-rate-test": "calculators.declared.spring_rate_test:SPRING_RATE_TEST",
    "pivot": "calculators.declared.pivot:PIVOT",
    "knife-edge": "calculators.declared.knife_edge:KNIFE_EDGE",
    "circle-of-holes": "calculators.declared.circles:CIRCLE_OF_HOLES",
    "row-of-holes": "calculators.declared.rows_of_holes:ROW_OF_HOLES",
    "divide-length": "calculators.declared.rows_of_holes:DIVIDE_LENGTH",
    "rebate": "calculators.declared.rebates:REBATE",
    "arc": "calculators.declared.arcs:ARC",
    "taper": "calculators.declared.tapers:TAPER",
    "compound-angle": "calculators.declared.tapers:COMPOUND_ANGLE",
    "splayed-leg": "calculators.declared.tapers:SPLAYED_LEG",
    "blind-hole": "calculators.declared.blind_holes:BLIND_HOLE",
    "hole-allowance": "calculators.declared.hole_allowances:HOLE_ALLOWANCE",
    "sine-bar": "calculators.declared.sine_bars:SINE_BAR",
    "photo-scale": "calculators.declared.photographs:PHOTO_SCALE",
    "right-triangle": "calculators.declared.triangles:RIGHT_TRIANGLE",
    "square-check": "calculators.declared.triangles:SQUARE_CHECK",
    "polygon": "calculators.declared.triangles:POLYGON",
    "bend-allowance": "calculators.declared.bends:BEND_ALLOWANCE",
    "fit": "calculators.declared.fits:FIT",
    "bush-fit": "calculators.declared.bush_fits:BUSH_FIT",
    "cutting-speed": "calculators.declared.cutting_speeds:CUTTING_SPEED",
    "timber": "calculators.declared.timbers:TIMBER",
    "mass-and-balance": "calculators.declared.masses:MASS_AND_BALANCE",
    "piece-cost": "calculators.declared.piece_costs:PIECE_COST",
    "finish": "calculators.declared.coverages:FINISH",
    "glue": "calculators.declared.coverages:GLUE",
    "temperature-growth": "calculators.declared.temperature_growths:TEMPERATURE_GROWTH",
    "moisture": "calculators.declared.moistures:MOISTURE",
    "wood-movement": "calculators.declared.wood_movements:WOOD_MOVEMENT",
    "wood-screw-strength": "calculators.declared.wood_screw_strength:WOOD_SCREW_STRENGTH",
    "tightening-torque": "calculators.declared.tightening_torque:TIGHTENING_TORQUE",
    "thread-strip": "calculators.declared.thread_strip:THREAD_STRIP",
    "screw-twist-off": "calculators.declared.screw_twist_off:SCREW_TWIST_OFF",
    "grub-screw-hold": "calculators.declared.grub_screw_hold:GRUB_SCREW_HOLD",
    "washer-bearing": "calculators.declared.washer_bearing:WASHER_BEARING",
    "beam": "calculators.declared.beam:BEAM",
    "shelf-sag": "calculators.declared.shelf_sag:SHELF_SAG",
    "string-frame": "calculators.declared.string_frame:STRING_FRAME",
    "strut": "calculators.declared.strut:STRUT",
    "section-properties": "calculators.declared.section_properties:SECTION_PROPERTIES",
    "string-tension": "calculators.declared.string_tension:STRING_TENSION",
}
"""Each calculator's name with the module and name of its declaration, in the order of the list."""


def names() -> tuple[str, ...]:
    """The names of all calculators, in the order in which they are listed.

    Returns:
        The names that `find_calculator` takes.

    Source: this project.

    Example:
        >>> names()[:2]
        ('convert', 'nearest')
    """
    return tuple(PLACES)


def find_calculator(name: str) -> Calculator:
    """Find a calculator by its name.

    Args:
        name: the name; underscores and capitals are forgiven.

    Returns:
        Its declaration.

    Raises:
        InputError: when there is none, with the nearest names as choices.

    Source: this project.

    Example:
        >>> find_calculator("tapping_drill").name
        'tapping-drill'
    """
    tidied = name[:40].strip().lower().replace("_", "-")
    place = PLACES.get(tidied)
    if place is None:
        # Only loaded when something is wrong, so that a command starts at once.
        from difflib import get_close_matches

        near = tuple(get_close_matches(tidied, PLACES, n=3, cutoff=0.5))
        hint = f"did you mean {' or '.join(near)}" if near else f"there are {', '.join(PLACES)}"
        raise InputError.of(
            f"There is no calculator {quoted(name)}; {hint}.", field="calculator", choices=near
        )
    module, _, attribute = place.partition(":")
    calculator = getattr(import_module(module), attribute)
    assert isinstance(calculator, Calculator)
    return calculator


def all_calculators() -> tuple[Calculator, ...]:
    """All calculators, in the order in which they are listed.

    Returns:
        Their declarations.

    Source: this project.

    Example:
        >>> [each.name for each in all_calculators()][:2]
        ['convert', 'nearest']
    """
    return tuple(find_calculator(name) for name in PLACES)


def by_purpose() -> tuple[tuple[str, tuple[Calculator, ...]], ...]:
    """All calculators under the headings that say what one wants to do.

    Returns:
        Each heading with its calculators; headings and calculators in the order of the list, those
        without a heading of their own last.

    Source: this project.

    Example:
        >>> by_purpose()[0][0]
        'Read and convert a size'
    """
    found: dict[str, list[Calculator]] = {}
    for each in all_calculators():
        found.setdefault(each.purpose, []).append(each)
    further = found.pop(UNNAMED_PURPOSE, [])
    groups = [*found.items(), *([(UNNAMED_PURPOSE, further)] if further else [])]
    return tuple((purpose, tuple(those)) for purpose, those in groups)
