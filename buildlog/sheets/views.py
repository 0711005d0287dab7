"""Sheets as PDF from the pages."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of
from buildlog.builds.queries import worked_of
from buildlog.sheets.papers import Paper
from calculators.quantities.errors import InputError


@require_safe
def sheet(request: HttpRequest, workshop: str, number: str, kind: str) -> HttpResponse:
    """Print one sheet of a build; `?paper=letter` for US Letter, `?component=P01` for one component."""
    from buildlog.sheets.making import make_sheet  # WeasyPrint takes half a second to load

    worked = worked_of(row_of(request, number))
    paper: Paper = "letter" if request.GET.get("paper") == "letter" else "a4"
    try:
        pdf = make_sheet(kind, worked, paper=paper, component=request.GET.get("component", ""))
    except InputError as error:
        raise Http404(str(error)) from None
    name = f"{''.join(sign if sign.isalnum() or sign in '-_' else '-' for sign in number)}-{kind}.pdf"
    return HttpResponse(
        pdf,
        content_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{name.encode("ascii", "ignore").decode()}"'},
    )
