"""The published tables and the calculators as a reference: sorted, filtered, searched, in both systems.

May import: everything of `calculators`. Offers `browse`, `table_csv`, `find` and the trade's words.
"""

from calculators.reference.browsing import browse
from calculators.reference.finding import find, words_of_calculators
from calculators.reference.spreadsheet import table_csv
from calculators.reference.words import TradeWord, all_words, filter_words, words_for

__all__ = [
    "TradeWord",
    "all_words",
    "browse",
    "filter_words",
    "find",
    "table_csv",
    "words_for",
    "words_of_calculators",
]
