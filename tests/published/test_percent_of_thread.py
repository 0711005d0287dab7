"""Percentage of thread through the calculators, against worked examples.

Sources:
- ASME B1.1 by the self-test values of an open Python utilities library (asme.py), read: 1/4-20, drill for
  75 % of thread, drill = D - 0.75 x 2 x (3/4 H).
- BS 93 form: 2 BA with a 4.00 mm drill, formula and sizes read in an open thread-table generator
  (docs/BA_SPEC.md), the number worked out from them by hand.
- Two conventions for M6 with a 5.0 mm drill; ours is the one on 3/4 H. 77.0 % worked out by hand from
  (D - drill) / (1.299 P).
"""

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator


def value(name: str, **given: object) -> float:
    found = answer(find_calculator("tapping-drill"), given).results[name].value
    assert isinstance(found, float)
    return found


def test_drill_for_75_percent(published):
    book = published("ASME B1.1 by the self-test values of an open Python utilities library, asme.py")
    # One in the last of the four printed places.
    book.check(
        "1/4-20 at 75 %", value("hole", designation="1/4-20 UNC", engagement=75) / 25.4, 0.2013, 1e-4, "in"
    )


def test_percentages_of_two_drills(published):
    book = published("BS 93 form, open thread-table generator docs/BA_SPEC.md")
    # The printed figure is given to half a point.
    book.check("2 BA, 4.0 mm", value("engagement", designation="2 BA"), 72.0, 0.5, "%")
    other = published("convention of 3/4 H: (D - drill) / (1.299 P)")
    other.check("M6, 5.0 mm", value("engagement", designation="M6"), 77.0, 0.5, "%")
