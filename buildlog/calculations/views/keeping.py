"""From the bench into a build: in which of one's builds a calculation is to be kept."""

from __future__ import annotations

from django.core.paginator import Paginator
from django.db.models import Q
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.bench.rows import address_of, given_in
from buildlog.builds.models import Build
from buildlog.workshops.door import for_signed_in
from buildlog.workshops.models import Person
from calculators.catalogue import find_calculator, names

FIND = "find-build"
ROWS = 30
"""The builds of one page."""


@for_signed_in
@require_safe
def keep(request: HttpRequest, name: str) -> HttpResponse:
    """Show the builds that the person may change; each link opens the form there, with the inputs."""
    if name not in names():
        raise Http404("no such calculator")
    person = request.user
    assert isinstance(person, Person)
    calculator = find_calculator(name)
    inputs = {each.name for each in calculator.inputs}
    own = tuple(key for key in request.GET if key.partition(".")[0] not in inputs)
    where = [one.workshop_id for one in person.memberships.all() if one.may_change]
    rows = Build.rows.for_person(person).filter(workshop_id__in=where).select_related("workshop")
    find = request.GET.get(FIND, "")[:60].replace("\x00", "").strip()
    for word in find.split():
        rows = rows.filter(Q(number__icontains=word) | Q(title__icontains=word))
    given = given_in(request.GET, calculator, own)
    page = Paginator(rows.order_by("-changed_at", "-pk"), ROWS).get_page(request.GET.get("page"))
    context = {
        "calculator": calculator,
        "page": page,
        "query": address_of(given),
        "paged_query": address_of(given | ({FIND: find} if find else {})),
        "find": find,
        "find_name": FIND,
        "hidden": [(key, text) for key, text in request.GET.items() if key not in own],
    }
    return render(request, "calculations/keep.html", context)
