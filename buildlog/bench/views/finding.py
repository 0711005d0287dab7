"""The search over everything at the bench, and the trade's words."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.workshops.door import open_to_all
from calculators.reference import filter_words, find
from calculators.reference.browsing import cells_of, columns_of, length_in_both
from calculators.reference.words import LONGEST
from calculators.tables import load


@open_to_all
@require_safe
def search(request: HttpRequest) -> HttpResponse:
    """Search the words, calculators and tables."""
    question = request.GET.get("q", "")[:LONGEST].strip()
    found = find(question)
    context = {
        "q": question,
        "found": found,
        "length": length_in_both(found.length) if found.length else None,
        "tables": [
            (each, columns_of(each.table), [cells_of(each.table, row) for row in each.rows])
            for each in found.tables
        ],
    }
    return render(request, "bench/find.html", context)


@open_to_all
@require_safe
def words(request: HttpRequest) -> HttpResponse:
    """List British and American words side by side."""
    question = request.GET.get("q", "")[:LONGEST].strip()
    context = {"q": question, "words": filter_words(question), "table": load("trade_words")}
    return render(request, "bench/words.html", context)
