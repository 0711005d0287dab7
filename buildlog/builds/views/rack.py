"""Side L, the rack: stock entered, changed, measured, and what is cut from it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from buildlog.builds.actions import fingerprint
from buildlog.builds.conflicts import Conflict
from buildlog.builds.entering import enter_lines, listed
from buildlog.builds.entry import typed_lines
from buildlog.builds.listing import ROWS, listing
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of
from buildlog.builds.rack import StockRow, consequences_of, marks_typed, stock_rows
from buildlog.builds.saying import keeps_theirs, save_and_say, save_form
from buildlog.builds.stock_form import MeasuredForm, StockForm
from calculators.planning import model as plain
from calculators.planning.edits import find, put, remove, taken_along
from calculators.planning.edits.measuring import cut_from, gauge_of, measure_stock
from calculators.quantities.errors import InputError


@require_http_methods(["GET", "HEAD", "POST"])
def rack(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the rack, or enter stock, one piece a line."""
    row = row_of(request, number)
    if request.method != "POST":
        return _show(request, row)
    lines = typed_lines(request.POST, "lines")
    entered = enter_lines(row, of_workshop(request).user, "stock", lines, _added)
    if entered.unread:
        if entered.says:
            messages.success(request, f"{entered.says}.")
        return _show(request, row_of(request, number), unread=entered.unread, status=422)
    if entered.says:
        messages.success(request, f"{entered.says}.", extra_tags=f"{number}/rack")
    return HttpResponseRedirect(f"{_address(request, row)}#entry-stock-new")


def _added(build: plain.Build, added: tuple[str, ...]) -> str:
    called = {one.mark: one.called for one in build.stock}
    return f"On the rack: {listed([f'{mark} {called[mark]}' for mark in added])}"


def _address(request: HttpRequest, row: Build, name: str = "rack", *args: str) -> str:
    return reverse(f"builds:{name}", args=(of_workshop(request).workshop.slug, row.number, *args))


def _show(request: HttpRequest, row: Build, *, status: int = 200, **more: Any) -> HttpResponse:
    build = plain_of(row)
    asked = request.GET.copy()
    at = more.get("opened") or next((more[name][0] for name in ("measuring", "cutting") if name in more), "")
    marks = [one.mark for one in build.stock]
    if at in marks and not asked.get("page") and not asked.get("find"):
        asked["page"] = str(marks.index(at) // ROWS + 1)
    found = listing(asked, stock_rows(build), words=StockRow.words, orders={})
    context: dict[str, Any] = {
        "list": found,
        "rows": [_with_form(each, build, more) for each in found.page],
        "consequences": consequences_of(row, request.GET.get("measured", "")),
        "draft": f"{row.number}/rack",
    }
    opened = request.GET.get("change", "")
    stock = next((one for one in build.stock if one.mark == opened), None)
    if stock is not None and "form" not in more:
        context |= _opened(build, stock)
    return show(request, row, "rack", "builds/rack.html", context | more, status=status)


def _with_form(each: StockRow, build: plain.Build, more: dict[str, Any]) -> tuple[StockRow, MeasuredForm]:
    wrong = more.get("measuring")
    if wrong is not None and wrong[0] == each.stock.mark:
        return each, wrong[1]
    return each, MeasuredForm(None, stock=each.stock, unit=build.unit)


def _opened(build: plain.Build, stock: plain.Stock) -> dict[str, Any]:
    form = StockForm(initial=StockForm.of(stock), unit=build.unit)
    return {"opened": stock.mark, "form": form, "seen": fingerprint("stock", stock)}


def _stock_of(row: Build, mark: str) -> plain.Stock:
    stock = next((one for one in plain_of(row).stock if one.mark == mark), None)
    if stock is None:
        raise Http404(f"no stock {mark}")
    return stock


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Change all fields of a piece."""
    row = row_of(request, number)
    draft = f"{number}/rack/{mark}"
    if request.method != "POST" or keeps_theirs(request, draft):
        return HttpResponseRedirect(f"{_address(request, row)}?change={mark}#stock-{mark}")
    build, stock = plain_of(row), _stock_of(row, mark)
    form = StockForm(request.POST, initial=StockForm.of(stock), unit=build.unit)
    more: dict[str, Any] = {"opened": mark, "form": form, "seen": request.POST.get("seen", "")}
    if not form.is_valid():
        return _show(request, row, status=422, **more)
    found = save_form(
        request,
        row,
        form,
        lambda now: put(now, "stock", form.read(find(now, "stock", mark)), key=mark),
        f"{form.cleaned_data['mark']} {form.cleaned_data['called']}".strip() + " changed",
        seen=("stock", mark),
        theirs=lambda theirs: StockForm(initial=StockForm.of(theirs), unit=build.unit),
        draft=draft,
    )
    if isinstance(found, Conflict):
        return _show(request, row_of(request, number), status=409, conflict=found, **more)
    if found is None:
        return _show(request, row_of(request, number), status=422, **more)
    return HttpResponseRedirect(f"{_address(request, row)}#stock-{form.cleaned_data['mark']}")


@require_POST
def measured(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Say what a piece measures; every part that is cut from it is looked at again."""
    row = row_of(request, number)
    build, stock = plain_of(row), _stock_of(row, mark)
    form = MeasuredForm(request.POST, stock=stock, unit=build.unit)
    if not form.is_valid():
        return _show(request, row, status=422, measuring=(mark, form))
    length = form.cleaned_data["length"]
    says = f"{mark} {stock.called}: {gauge_of(stock)} measured, {length.written or length.mm}"
    try:
        saved = save_and_say(request, row, lambda now: measure_stock(now, mark, length).build, says)
    except InputError as error:
        form.add_error("length", [fault.says for fault in error.faults])
        return _show(request, row, status=422, measuring=(mark, form))
    if saved.change is None:
        return HttpResponseRedirect(f"{_address(request, row)}#stock-{mark}")
    return HttpResponseRedirect(f"{_address(request, row)}?measured={saved.change.pk}#measured")


@require_POST
def cut(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Say which parts are cut from a piece."""
    row = row_of(request, number)
    stock, typed = _stock_of(row, mark), request.POST.get("parts", "")[:20_000]
    marks = marks_typed(typed)
    says = f"Cut from {mark} {stock.called}: {listed(list(marks)) or 'nothing'}"
    try:
        save_and_say(request, row, lambda now: cut_from(now, mark, marks), says, draft=f"{number}/cut/{mark}")
    except InputError as error:
        faults = tuple(fault.says for fault in error.faults)
        return _show(request, row, status=422, cutting=(mark, typed, faults))
    return HttpResponseRedirect(f"{_address(request, row)}#stock-{mark}")


@require_http_methods(["GET", "HEAD", "POST"])
def take_off(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Say what goes with a piece, and take it off the rack when that is wanted."""
    row = row_of(request, number)
    stock = _stock_of(row, mark)
    if request.method != "POST":
        context = {"stock": stock, "along": taken_along(plain_of(row), "stock", mark)}
        return show(request, row, "rack", "builds/rack_remove.html", context)
    try:
        save_and_say(
            request, row, lambda now: remove(now, "stock", mark), f"{mark} {stock.called} taken off the rack"
        )
    except InputError as error:
        messages.error(request, str(error))
    return HttpResponseRedirect(_address(request, row))
