"""What a sheet of paper says that matters at the bench, the code that stands on it, what has changed since.

May import: calculators.planning.model, tree, worked, releasing, schedules and edits, and everything below
calculators.planning.
Offers the functions below; each kind of sheet has its facts in the one list of `sheets.py`.
"""

from calculators.planning.facts.code import code_shown, paper_code, read_code
from calculators.planning.facts.fact import Fact, FactChange, changes_between, digest_of
from calculators.planning.facts.sheets import FACTS, SheetFacts, sheet_facts

__all__ = [
    "FACTS",
    "Fact",
    "FactChange",
    "SheetFacts",
    "changes_between",
    "code_shown",
    "digest_of",
    "paper_code",
    "read_code",
    "sheet_facts",
]
