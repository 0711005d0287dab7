"""Side A, the parts: the table, its one-line entry, the row that is open to be changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import quote

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.utils.cache import patch_vary_headers
from django.views.decorators.http import require_http_methods

from buildlog.builds.actions import fingerprint
from buildlog.builds.entering import enter_lines, listed
from buildlog.builds.entry import typed_lines
from buildlog.builds.listing import listing
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.part_rows import ORDERS, PartRow, ancestors_of, line_of, page_of, part_rows
from buildlog.builds.queries import plain_of
from calculators.planning import model as plain
from calculators.planning.lines import Unread


@dataclass(frozen=True, slots=True)
class OpenLine:
    """The line of a row that is open: what stands in it, why it was not saved, both versions."""

    mark: str
    text: str
    seen: str
    faults: tuple[str, ...] = ()
    theirs: str = ""
    by: str = ""


@require_http_methods(["GET", "HEAD", "POST"])
def parts(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the parts of a build, or enter new ones, one a line."""
    row = row_of(request, number)
    if request.method == "POST":
        return _enter(request, row)
    mark = request.GET.get("change", "") or request.GET.get("row", "")
    opened = open_line(plain_of(row), request.GET.get("change", ""))
    if request.htmx and mark:  # type: ignore[attr-defined]
        return _show_row(request, row, mark, opened)
    return show_parts(request, row, opened=opened)


def open_line(build: plain.Build, mark: str) -> OpenLine | None:
    """The line of a component as it is, to be changed; None where there is no such component."""
    one = next((each for each in build.components if each.mark == mark), None)
    if one is None:
        return None
    return OpenLine(mark, line_of(build, one), fingerprint("component", one))


def show_parts(
    request: HttpRequest,
    row: Build,
    *,
    opened: OpenLine | None = None,
    text: str = "",
    unread: Sequence[Unread] = (),
    status: int = 200,
) -> HttpResponse:
    """The page of the parts, with what is open or was not read."""
    build = plain_of(row)
    table = part_rows(build)
    asked = request.GET.copy()
    if request.method == "POST":
        asked = _list_asked(request.POST)
    if opened and not asked.get("page") and not asked.get("find") and not asked.get("sort"):
        asked["page"] = str(page_of(build, opened.mark))
    found = listing(asked, table, words=PartRow.words, orders=ORDERS)
    is_tree = not found.find and not found.sort
    first = found.page.object_list[0] if found.page.object_list else None
    context = {
        "list": found,
        "is_tree": is_tree,
        "continued": ancestors_of(build, first.component) if is_tree and first and first.depth else (),
        "opened": opened,
        "here": _here(found.paged_query, found.page.number),
        "text": text,
        "unread": unread,
        "draft": f"{row.number}/parts",
    }
    return show(request, row, "parts", "builds/parts.html", context, status=status)


def _here(query: str, page: int) -> str:
    """Where in the list one is, as the rest of an address."""
    return "&".join(piece for piece in (query, f"page={page}" if page > 1 else "") if piece)


def _show_row(request: HttpRequest, row: Build, mark: str, opened: OpenLine | None) -> HttpResponse:
    """One row alone, to stand in the place of the one that is there."""
    part = next((each for each in part_rows(plain_of(row)) if each.component.mark == mark), None)
    if part is None:
        raise Http404(f"no part {mark}")
    asked = _list_asked(QueryDict(request.GET.urlencode()))
    context = {
        "build": plain_of(row),
        "part": part,
        "opened": opened,
        "here": asked.urlencode(),
        "is_tree": not asked.get("find") and not asked.get("sort"),
    }
    answer = render(request, "builds/_part_row.html", context)
    patch_vary_headers(answer, ["HX-Request"])
    return answer


def _list_asked(sent: QueryDict) -> QueryDict:
    """Where in the list a form was sent from: what is found, how it is ordered, which page."""
    source = QueryDict(sent.get("list", "")) if "list" in sent else sent
    asked = QueryDict(mutable=True)
    for name in ("find", "sort", "page"):
        value = source.get(name, "")
        if value:
            asked[name] = value
    return asked


def _enter(request: HttpRequest, row: Build) -> HttpResponse:
    draft = f"{row.number}/parts"
    lines = typed_lines(request.POST, "lines")
    entered = enter_lines(row, of_workshop(request).user, "part", lines, _added_parts)
    if entered.unread:
        if entered.says:
            messages.success(request, f"{entered.says}.")
        return show_parts(request, row_of(request, row.number), unread=entered.unread, status=422)
    if entered.says:
        messages.success(request, f"{entered.says}.", extra_tags=draft)
    page = page_of(entered.saved.after, entered.added[-1]) if entered.saved and entered.added else 1
    address = parts_address(request, row, query=f"page={page}" if page > 1 else "")
    return HttpResponseRedirect(f"{address}#entry-parts-new")


def _added_parts(build: plain.Build, added: tuple[str, ...]) -> str:
    names = {one.mark: one.name for one in build.components}
    return f"Added {listed([f'{mark} {names[mark]}' for mark in added])}"


def parts_address(
    request: HttpRequest, row: Build, *, query: str = "", mark: str = "", to_line: bool = False
) -> str:
    """The address of the table, at one row of it where a mark is given, or at the line that is open."""
    address = reverse("builds:parts", args=(of_workshop(request).workshop.slug, row.number))
    return (
        address
        + (f"?{query}" if query else "")
        + ("#line" if to_line else f"#part-{quote(mark)}" if mark else "")
    )


def component_address(request: HttpRequest, row: Build, mark: str) -> str:
    """The address of a component's page."""
    return reverse("builds:component", args=(of_workshop(request).workshop.slug, row.number, mark))


def back_from(
    request: HttpRequest, row: Build, build: plain.Build, mark: str, *, change: bool = False
) -> str:
    """Where a form goes on: the component's page where it came from there, else its row in the list."""
    if request.POST.get("from") == "component":
        return component_address(request, row, mark)
    asked = _list_asked(request.POST)
    if not asked.get("find") and not asked.get("sort"):
        page = page_of(build, mark)
        asked["page"] = str(page)
        if page == 1:
            del asked["page"]
    if change:
        asked["change"] = mark
    return parts_address(request, row, query=asked.urlencode(), mark=mark, to_line=change)
