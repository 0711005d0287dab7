"""The pages that the codes on paper lead to, and what is said there of a sheet that is thrown away."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from buildlog.builds.page import of_workshop, row_of
from buildlog.sheets.current import printed_with, verdict_on
from buildlog.workshops.door import for_signed_in, for_viewers
from buildlog.workshops.models import Person
from calculators.planning.facts import code_shown, read_code
from calculators.quantities.errors import InputError

LONGEST_TYPED = 60


@for_signed_in
@never_cache
@require_safe
def find(request: HttpRequest) -> HttpResponse:
    """Take the code that was copied from a paper (`?code=`), and lead to its page."""
    typed = request.GET.get("code", "")[:LONGEST_TYPED]
    if not typed.strip():
        return render(request, "sheets/paper_find.html", {"typed": "", "says": ""})
    try:
        code = read_code(typed)
    except InputError as error:
        return render(request, "sheets/paper_find.html", {"typed": typed, "says": str(error)}, status=422)
    return redirect(reverse("paper:paper", args=(code,)))


@for_signed_in
@never_cache
@require_safe
def paper(request: HttpRequest, code: str) -> HttpResponse:
    """Say whether the paper with a code is current, and what has changed since it was printed."""
    assert isinstance(request.user, Person)
    try:
        found = printed_with(read_code(code[:LONGEST_TYPED]), request.user)
        says = f"No sheet of your workshops was printed here with the code {code_shown(read_code(code))}."
    except InputError as error:
        found, says = [], str(error)
    if not found:
        unknown = {"typed": code[:LONGEST_TYPED], "says": says}
        return render(request, "sheets/paper_find.html", unknown, status=404)
    verdicts = [verdict_on(one) for one in found]
    context = {"verdicts": verdicts, "first": verdicts[0], "several": len(verdicts) > 1}
    return render(request, "sheets/paper_page.html", context)


@for_viewers
@require_POST
def gone(request: HttpRequest, workshop: str, number: str, code: str) -> HttpResponse:
    """Note that a paper is thrown away, or (`back=1`) that it is in use after all."""
    sheet = row_of(request, number).printed.filter(code=code).first()
    if sheet is None:
        raise Http404("no such sheet")
    sheet.gone = request.POST.get("back") != "1"
    sheet.save(update_fields=["gone"])
    said = "is thrown away" if sheet.gone else "is in use"
    messages.success(request, f"The {sheet.title.lower()} {code_shown(code)} {said}.")
    came = request.POST.get("next", "")
    if url_has_allowed_host_and_scheme(came, None):
        return redirect(came)
    return redirect(reverse("builds:paper", args=(of_workshop(request).workshop.slug, number)))
