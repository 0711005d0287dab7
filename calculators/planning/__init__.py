"""The build as plain data: its model, its file, its schedules and its findings.

May import: everything below it in calculators. Offers `Build`, `read_build`, `write_build` and `schema` here;
the other records are in `model.py`, the lists in `schedules`, the whole-build check in `inspection.py`.
"""

from calculators.planning.files import read_build, schema, write_build
from calculators.planning.model import Build

__all__ = ["Build", "read_build", "schema", "write_build"]
