"""Side F, the order of assembly: its steps entered, changed, moved and removed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from buildlog.builds.actions import Edit, Overtaken, fingerprint
from buildlog.builds.conflicts import conflict_of
from buildlog.builds.entering import enter_lines, listed
from buildlog.builds.entry import typed_lines
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.ordering import name_of, order_of
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import save_and_say
from buildlog.builds.step_forms import StepForm
from calculators.planning import model as plain
from calculators.planning.edits import find, move_step, put, remove
from calculators.planning.lines import Unread, read_step_line, write_step_line
from calculators.quantities.errors import InputError


@require_http_methods(["GET", "HEAD", "POST"])
def order(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the steps of assembly, or enter new ones, one a line."""
    row = row_of(request, number)
    if request.method != "POST":
        return _show(request, row)
    lines = typed_lines(request.POST, "lines")
    entered = enter_lines(row, of_workshop(request).user, "step", lines, _added)
    if entered.unread:
        now = Build.rows.of(row.workshop).get(pk=row.pk)
        return _show(request, now, unread=entered.unread, just_said=entered.says, status=422)
    if entered.says:
        messages.success(request, entered.says, extra_tags=f"{number}/order")
    return _to(request, number)


def _added(after: plain.Build, keys: Sequence[str]) -> str:
    names = [f"{key} {find(after, 'step', key).title}" for key in keys]
    return f"Step{'s' if len(names) > 1 else ''} {listed(names)} added"


@require_http_methods(["GET", "HEAD", "POST"])
def step(request: HttpRequest, workshop: str, number: str, step: int) -> HttpResponse:
    """Show the order with one step open to be changed, or change it by its line or by its form."""
    row = row_of(request, number)
    now = _step_of(row, step)
    if request.method != "POST":
        if now is None:
            raise Http404(f"no step {step}")
        return _show(request, row, **_opened(row, now))
    sent = request.POST
    if sent.get("conflict") == "theirs":
        messages.info(request, "What was saved by the other stays; nothing of yours was.")
        return _to(request, number, step)
    if now is None:
        messages.error(request, f"Step {step} is not there any more; nothing was saved.")
        return _to(request, number)
    by_line = "line" in sent
    form = StepForm(None if by_line else sent, initial=StepForm.of(now))
    if not by_line and not form.is_valid():
        return _show(request, row, **_opened(row, now, form=form, seen=sent.get("seen", "")), status=422)
    edit = _line_edit(step, sent.get("line", "")) if by_line else _form_edit(step, form)
    try:
        saved = save_and_say(
            request,
            row,
            edit,
            _changed(step),
            seen={name_of(step): sent.get("seen", "")},
            draft=f"{number}/step-{step}",
        )
    except InputError as error:
        if by_line:
            faults = [fault.says for fault in error.faults]
            opened = _opened(row, now, line=sent["line"], faults=faults, seen=sent.get("seen", ""))
        else:
            add_faults(form, error)
            opened = _opened(row, now, form=form, seen=sent.get("seen", ""))
        return _show(request, row, **opened, status=422)
    except Overtaken as error:
        return _overtaken(request, row, step, form, error)
    here = next((one.number for one in saved.after.steps if one not in saved.before.steps), step)
    return _to(request, number, here)


def _overtaken(request: HttpRequest, row: Build, step: int, form: StepForm, error: Overtaken) -> HttpResponse:
    """Both versions of a step that two changed; what was typed as a line is read into the fields first."""
    if error.theirs is None:
        messages.error(request, f"Step {step} was removed by {error.by}; nothing was saved.")
        return _to(request, row.number)
    if "line" in request.POST:
        try:
            mine = read_step_line(request.POST["line"], plain_of(row), error.theirs)
        except InputError as fault:
            faults = [each.says for each in fault.faults]
            opened = _opened(row, error.theirs, line=request.POST["line"], faults=[str(error), *faults])
            return _show(request, row, **opened, status=422)
        form = StepForm(StepForm.of(mine))
    conflict = conflict_of(error, [(form, StepForm(initial=StepForm.of(error.theirs)))])
    return _show(request, row, conflict=conflict, opened=step, status=422)


def _line_edit(step: int, line: str) -> Edit:
    def edit(build: plain.Build) -> plain.Build:
        now = find(build, "step", str(step))
        return put(build, "step", read_step_line(line, build, now), key=str(step))

    return edit


def _form_edit(step: int, form: StepForm) -> Edit:
    return lambda build: put(build, "step", form.changed(find(build, "step", str(step))), key=str(step))


def _changed(step: int) -> Any:
    def says(before: plain.Build, after: plain.Build) -> str:
        now = next((one for one in after.steps if one not in before.steps), None)
        return f"Step {step} is now: {write_step_line(now, after)}"[:300] if now else f"Step {step} changed"

    return says


@require_POST
def move(request: HttpRequest, workshop: str, number: str, step: int) -> HttpResponse:
    """Move a step before another, or to the end where `before` is empty."""
    row = row_of(request, number)
    before = request.POST.get("before", "")
    target = int(before) if before.isascii() and before.isdigit() and len(before) < 8 else None
    if before and target is None:
        messages.error(request, "Nothing was moved: that is no step's number.")
        return _to(request, number)

    def says(old: plain.Build, new: plain.Build) -> str:
        moved = _titled(old, step)
        where = f"comes before {_titled(old, target)} now" if target is not None else "comes last now"
        return f"{moved} {where}"

    return _reordered(request, row, step, lambda build: move_step(build, step, target), says)


@require_POST
def take_out(request: HttpRequest, workshop: str, number: str, step: int) -> HttpResponse:
    """Remove a step."""
    row = row_of(request, number)
    return _reordered(
        request,
        row,
        step,
        lambda build: remove(build, "step", str(step)),
        lambda old, _: f"{_titled(old, step)} removed",
    )


def _reordered(request: HttpRequest, row: Build, step: int, edit: Edit, says: Any) -> HttpResponse:
    """Carry out a move or a removal of the step that the person saw, and come back to where it went."""
    seen = request.POST.get("seen", "")
    try:
        saved = save_and_say(request, row, edit, says, seen={name_of(step): seen} if seen else None)
    except InputError as error:
        messages.error(request, f"Nothing was moved. {error}")
        return _to(request, row.number)
    except Overtaken as error:
        messages.error(request, f"Nothing was moved: step {step} was changed by {error.by} since you saw it.")
        return _to(request, row.number)
    was = next((one for one in saved.before.steps if one.number == step), None)
    there = (
        one.number for one in saved.after.steps if was and one.title == was.title and one.fits == was.fits
    )
    place = next(there, None)
    return _to(request, row.number, place, end=_end(request.GET.get("way", ""), place, saved.after))


def _end(way: str, place: int | None, build: plain.Build) -> str:
    """Where the hand goes on: the button that moved the step, or the other one where that has gone."""
    numbers = [one.number for one in build.steps]
    if way not in ("up", "down") or place is None or len(numbers) < 2:
        return ""
    if place in (min(numbers), max(numbers)):
        way = "down" if place == min(numbers) else "up"
    return f"{way}-{place}"


def _titled(build: plain.Build, step: int | None) -> str:
    found = next((one.title for one in build.steps if one.number == step), "")
    return f"Step {step}, {found}," if found else f"Step {step}"


def _step_of(row: Build, step: int) -> plain.AssemblyStep | None:
    return next((one for one in plain_of(row).steps if one.number == step), None)


def _opened(
    row: Build,
    now: plain.AssemblyStep,
    *,
    form: StepForm | None = None,
    line: str | None = None,
    faults: Sequence[str] = (),
    seen: str = "",
) -> dict[str, Any]:
    """What the page needs of the step that is open."""
    return {
        "opened": now.number,
        "form": form or StepForm(initial=StepForm.of(now)),
        "line": write_step_line(now, plain_of(row)) if line is None else line,
        "line_faults": faults,
        "seen": seen or fingerprint("step", now),
    }


def _to(request: HttpRequest, number: str, step: int | None = None, *, end: str = "") -> HttpResponse:
    """Back to the order, at a step; `end` is what there has the focus."""
    here = reverse("builds:order", args=(of_workshop(request).workshop.slug, number))
    if step is None:
        return HttpResponseRedirect(here)
    return HttpResponseRedirect(f"{here}?at={step}#{end or f'step-{step}'}")


def _show(
    request: HttpRequest,
    row: Build,
    *,
    unread: Sequence[Unread] = (),
    just_said: str = "",
    status: int = 200,
    **more: Any,
) -> HttpResponse:
    asked = request.GET.get("at", "")
    at = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 8 else more.get("opened")
    context = {
        "order": order_of(worked_of(row), request.GET, at),
        "unread": unread,
        "just_said": just_said,
        "draft": f"{row.number}/order",
        **more,
    }
    return show(request, row, "order", "builds/order.html", context, status=status)
