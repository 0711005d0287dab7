"""The published tables: their list, and one to look through."""

from __future__ import annotations

from urllib.parse import urlencode

from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.workshops.door import open_to_all
from calculators.quantities.errors import InputError
from calculators.reference import browse, table_csv
from calculators.reference.browsing import LONGEST, cells_of, columns_of
from calculators.tables import Row, Table, load, names

ROWS = 100
"""The rows of a page."""


@open_to_all
@require_safe
def tables(request: HttpRequest) -> HttpResponse:
    """List the published tables."""
    return render(request, "bench/tables.html", {"tables": [load(name) for name in names()]})


@open_to_all
@require_safe
def table(request: HttpRequest, name: str) -> HttpResponse:
    """Show a table: filtered, sorted, page by page; or give it as CSV."""
    if name not in names():
        raise Http404("no such table")
    found = load(name)
    question, sort = request.GET.get("q", "")[:LONGEST].strip(), request.GET.get("sort", "")[:LONGEST]
    fault = ""
    try:
        rows = browse(found, question, sort)
    except InputError as error:
        rows, sort, fault = browse(found, question), "", error.faults[0].says
    if request.GET.get("format") == "csv" and not fault:
        return _as_csv(found, rows)
    page = Paginator(rows, ROWS).get_page(request.GET.get("page"))
    numbers = {key: place for place, key in enumerate(found.sources, 1)}
    context = {
        "table": found,
        "columns": columns_of(found),
        "rows": [(cells_of(found, row), numbers[row.source.key]) for row in page],
        "page": page,
        "q": question,
        "sort": sort,
        "fault": fault,
        "query": urlencode({"q": question} if question else {}),
        "here": urlencode({key: value for key, value in (("q", question), ("sort", sort)) if value}),
    }
    return render(request, "bench/table.html", context, status=422 if fault else 200)


def _as_csv(found: Table, rows: tuple[Row, ...]) -> HttpResponse:
    response = HttpResponse(table_csv(found, rows), content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{found.name}.csv"'
    return response
