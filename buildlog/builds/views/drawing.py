"""The part drawing of a component: its views, its table of holes, the angle of its projection."""

from __future__ import annotations

from dataclasses import replace

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_http_methods

from buildlog.builds.component_page import component_of
from buildlog.builds.drawing_files import Projection, projection_named
from buildlog.builds.models import Build
from buildlog.builds.page import row_of, show
from buildlog.builds.part_drawn import drawn_for_page
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import address_of, save_and_say
from calculators.planning import model as plain
from calculators.quantities.errors import InputError


@require_http_methods(["GET", "HEAD", "POST"])
def drawing(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show a part's drawing; posted, lay out the drawings of the build in the other angle of projection."""
    row = row_of(request, number)
    one = component_of(plain_of(row), mark)
    if request.method == "POST":
        try:
            named = projection_named(request.POST.get("projection", ""))
        except InputError as error:
            return _show(request, row, one, [fault.says for fault in error.faults], status=422)
        if named is None:
            return _show(request, row, one, ["Choose first or third angle."], status=422)
        save_and_say(request, row, lambda build: _laid_out(build, named), _says)
        return HttpResponseRedirect(address_of(request, row, "drawing", mark))
    return _show(request, row, one)


def _laid_out(build: plain.Build, projection: Projection) -> plain.Build:
    return replace(build, context=replace(build.context, projection=projection))


def _says(before: plain.Build, after: plain.Build) -> str:
    return f"Part drawings are in {after.context.projection} angle projection"


def _show(
    request: HttpRequest,
    row: Build,
    one: plain.Component,
    faults: list[str] | None = None,
    *,
    status: int = 200,
) -> HttpResponse:
    context: dict[str, object] = {"component": one, "faults": faults or [], "missing": ""}
    build = plain_of(row)
    context["projection"] = build.context.projection
    context["other"] = "third" if build.context.projection == "first" else "first"
    try:
        context["drawn"] = drawn_for_page(worked_of(row), one.mark)
    except InputError as error:
        context["missing"] = error.faults[0].says
    return show(request, row, "parts", "builds/drawing.html", context, status=status)
