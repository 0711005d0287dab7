"""Long tables: found by words, ordered by a column, in pages, all of it said by the address."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from django.core.paginator import Page, Paginator
from django.http import QueryDict

Row = TypeVar("Row")
ROWS = 60
"""The most rows on one page."""


@dataclass(frozen=True, slots=True)
class Listing(Generic[Row]):
    """What a template needs of a table: `page` (its rows), `find`, `sort`, `query` (the rest of the address).

    Templates: `parts/_find.html` with list=list, `parts/_sort.html` with sort=list.sort query=list.query,
    `parts/_pages.html` with page=list.page query=list.paged_query.
    """

    page: Page[Row]
    find: str
    sort: str
    query: str
    paged_query: str
    count: int
    of: int


def listing(
    asked: QueryDict,
    rows: Sequence[Row],
    *,
    words: Callable[[Row], Iterable[object]],
    orders: dict[str, Callable[[Row], Any]],
    rows_on_page: int = ROWS,
) -> Listing[Row]:
    """Find, order and page rows as the address asks.

    `words` gives the texts of a row that are searched: each word of `?find=` must be in one of them.
    `orders` are the columns that `?sort=` may name, each with its key (None sorts last); `-name` falls.
    Anything else that is asked is left aside, so that no address is wrong.
    """
    find = asked.get("find", "")[:200].strip()
    sort = asked.get("sort", "")
    found = list(rows)
    if find:
        wanted = find.casefold().split()
        texts = [" ".join(str(word) for word in words(row)).casefold() for row in found]
        found = [row for row, text in zip(found, texts, strict=True) if all(word in text for word in wanted)]
    name = sort.removeprefix("-")
    if name in orders:
        key = orders[name]
        known = [row for row in found if key(row) is not None]
        unknown = [row for row in found if key(row) is None]
        found = sorted(known, key=key, reverse=sort.startswith("-")) + unknown
    else:
        sort = ""
    rest = QueryDict(mutable=True)
    if find:
        rest["find"] = find
    query = rest.urlencode()
    if sort:
        rest["sort"] = sort
    page = Paginator(found, rows_on_page).get_page(asked.get("page"))
    return Listing(page, find, sort, query, rest.urlencode(), len(found), len(rows))
