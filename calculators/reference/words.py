"""British and American words of the trade, found by either."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from calculators.quantities.marks import plain
from calculators.tables import Source, load

LONGEST = 100
"""The longest question that is looked at."""


@dataclass(frozen=True, slots=True)
class TradeWord:
    """What a thing is called on either side.

    `trap` says where a word names another thing on the other side; it is empty where none does. `standards`
    name the rows of other tables that hold sizes of the thing.
    """

    british: tuple[str, ...]
    american: tuple[str, ...]
    meaning: str
    trap: str
    standards: tuple[str, ...]
    source: Source

    @property
    def words(self) -> tuple[str, ...]:
        """All its words, each once, British first."""
        return tuple(dict.fromkeys((*self.british, *self.american)))


@cache
def all_words() -> tuple[TradeWord, ...]:
    """All words, in the order of the table.

    Returns:
        The words.

    Source: common practice (table `trade_words`).

    Example:
        >>> all_words()[0].british, all_words()[0].american
        (('rebate',), ('rabbet',))
    """
    return tuple(
        TradeWord(
            _parted(row["british"]),
            _parted(row["american"]),
            row["meaning"],
            row["trap"],
            _parted(row["standards"]),
            row.source,
        )
        for row in load("trade_words").rows
    )


def _parted(cell: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in cell.split(";") if word.strip())


def folded(text: str) -> str:
    """Bring words to one form for comparing: plain signs, small letters, no hyphens, single spaces.

    Args:
        text: what a person wrote.

    Returns:
        The words.

    Source: this project.

    Example:
        >>> folded("  Half-Lap ")
        'half lap'
    """
    return " ".join(plain(text[:LONGEST]).lower().replace("-", " ").split())


def _key(phrase: str) -> str:
    """A phrase with its last word in the singular: `jam nuts` is asked as `jam nut`."""
    words = folded(phrase)
    if words.endswith(("ches", "shes", "xes", "sses")):
        return words[:-2]
    return words[:-1] if words.endswith("s") and not words.endswith("ss") and len(words) > 3 else words


@cache
def _by_phrase() -> dict[str, tuple[TradeWord, ...]]:
    found: dict[str, list[TradeWord]] = {}
    for each in all_words():
        for key in dict.fromkeys(map(_key, each.words)):
            found.setdefault(key, []).append(each)
    return {key: tuple(words) for key, words in found.items()}


def words_for(question: str) -> tuple[TradeWord, ...]:
    """The entries that a question names: by its whole, else by each phrase that stands in it.

    Args:
        question: what is looked for, in British or American words.

    Returns:
        The entries; longer phrases win over those inside them.

    Source: common practice (table `trade_words`).

    Example:
        >>> [each.british[0] for each in words_for("jam nut")]
        ['half nut']
        >>> [each.british[0] for each in words_for("M5 grub screws, brass")]
        ['grub screw']
    """
    known = _by_phrase()
    if _key(question) in known:
        return known[_key(question)]
    words = folded(question.replace(",", " ")).split()
    found: list[TradeWord] = []
    start = 0
    while start < len(words):
        for end in range(min(len(words), start + 5), start, -1):
            if entries := known.get(_key(" ".join(words[start:end]))):
                found += [each for each in entries if each not in found]
                start = end - 1
                break
        start += 1
    return tuple(found)


def filter_words(question: str) -> tuple[TradeWord, ...]:
    """The entries in whose words or meaning every word of a question stands.

    Args:
        question: what is looked for; all entries when it is empty.

    Returns:
        The entries, in the order of the table.

    Source: this project.

    Example:
        >>> [each.american for each in filter_words("tap bottoming")]
        [('plug tap',), ('bottoming tap',)]
    """
    wanted = folded(question).split()
    return tuple(each for each in all_words() if all(word in _haystack(each) for word in wanted))


def _haystack(each: TradeWord) -> str:
    return folded_long(" ".join((*each.words, each.meaning, each.trap)))


def folded_long(text: str) -> str:
    """The same as `folded` for a text of our own, of any length.

    Args:
        text: the text.

    Returns:
        The words.

    Source: this project.
    """
    return " ".join(text.lower().replace("-", " ").split())
