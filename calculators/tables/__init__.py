"""The published tables: CSV files that name their standard, edition and sources, and their one loader.

May import: the standard library only. Offers `load` and `names` for the tables of this folder,
`read_table` for a table kept elsewhere, the records `Table`, `Row` and `Source`, and `TableError`.
"""

from calculators.tables.loading import load, names
from calculators.tables.model import CONFIDENCES, UNITS, Row, Source, Table, TableError
from calculators.tables.reading import read_table

__all__ = ["CONFIDENCES", "UNITS", "Row", "Source", "Table", "TableError", "load", "names", "read_table"]
