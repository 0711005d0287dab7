"""Beams: what they rest on, what they carry, how far they bend. Offers `line.bend`, `cases.standard_case`."""
