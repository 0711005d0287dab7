"""Conversions of units against printed factors.

Sources:
- NIST Special Publication 811, Guide for the Use of the International System of Units, appendix B,
  physics.nist.gov/Pubs/SP811/appenB.html, read.
- SI conversion table, nap.edu/openbook.php?record_id=14211, p. 37, read.
- NIST SP 811 factors of lbf ft, lbf in and kgf, from memory.
"""

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator


def converted(value: str, to: str) -> float:
    found = answer(find_calculator("convert"), {"value": value, "to": to}).results["value"].value
    assert isinstance(found, float)
    return found


def test_nist_811_appendix_b(published):
    book = published("NIST SP 811 appendix B")
    # Half of the last of the seven printed figures.
    book.check("1 lb ft/s", converted("1 lb ft/s", "kg m/s"), 0.1382550, 5e-8, "kg m/s")
    book.check("1 ft3/s", converted("1 ft3/s", "m3/s"), 0.02831685, 5e-9, "m3/s")


def test_si_conversion_table(published):
    book = published("SI conversion table, nap.edu record 14211, p. 37")
    book.check("1 in, exact by definition", converted("1 in", "mm"), 25.4, 0, "mm")
    # Half of the last of the three printed figures.
    book.check("1 lbf", converted("1 lbf", "N"), 4.45, 0.005, "N")
    book.check("1 psi", converted("1 psi", "kPa"), 6.89, 0.005, "kPa")


def test_nist_811_from_memory(published):
    book = published("NIST SP 811 factors", confidence="memory")
    # Half of the last printed figure.
    book.check("1 lbf ft", converted("1 lbf ft", "N m"), 1.355818, 5e-7, "N m")
    book.check("1 lbf in", converted("1 lbf in", "N m"), 0.1129848, 5e-8, "N m")
    book.check("1 kgf, exact by definition", converted("1 kgf", "N"), 9.80665, 1e-12, "N")
