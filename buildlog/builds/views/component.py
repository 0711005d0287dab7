"""One component: all that is known of it, its fields, its holes and pockets, and where it lies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from urllib.parse import quote

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.views.decorators.http import require_http_methods

from buildlog.builds.actions import Overtaken, change_build, changed_last_by, fingerprint
from buildlog.builds.component_form import FIELD_OF_FAULT, ComponentForm, changes_said
from buildlog.builds.component_page import component_context, component_of
from buildlog.builds.conflicts import Conflict, conflict_of
from buildlog.builds.entering import enter_lines, listed
from buildlog.builds.entry import typed_lines
from buildlog.builds.features import FEATURES, FeatureOvertaken, change_feature, feature_lines, of_part
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.outlines import OutlineShown, outline_shown
from buildlog.builds.page import of_workshop, row_of, show
from buildlog.builds.printed import papers_of_part
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.saying import say_saved
from buildlog.builds.views.parts import OpenLine, component_address, open_line, show_parts
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.planning.lines import Unread, write_part_line
from calculators.quantities.errors import InputError

WORDS = {"hole": "hole", "pocket": "pocket", "pose": "place"}


@dataclass(frozen=True, slots=True)
class OpenFeature:
    """A hole, pocket or pose that is open to be changed by its line."""

    kind: str
    key: str
    text: str
    seen: str
    faults: tuple[str, ...] = ()
    theirs: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class Shown:
    """What the page shows besides what is saved: what is open, what was not read, both versions."""

    opened: OpenLine | None = None
    feature: OpenFeature | None = None
    form: ComponentForm | None = None
    conflict: Conflict | None = None
    outline: OutlineShown | None = None
    unread: Mapping[str, Sequence[Unread]] = field(default_factory=dict)


@require_http_methods(["GET", "HEAD", "POST"])
def component(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show a component, or save its fields."""
    row = row_of(request, number)
    if request.method == "POST":
        return _save(request, row, mark)
    return show_component(request, row, mark, Shown(feature=_asked_for(request, plain_of(row), mark)))


def show_component(
    request: HttpRequest, row: Build, mark: str, shown: Shown, *, status: int = 200
) -> HttpResponse:
    """The page of a component."""
    build = plain_of(row)
    one = component_of(build, mark)
    worked = worked_of(row)
    context = component_context(worked, mark, request.GET)
    form = shown.form or ComponentForm(component=one, unit=build.unit)
    context |= {
        "opened": shown.opened or open_line(build, mark),
        "papers": papers_of_part(row, worked, mark),
        "feature": shown.feature,
        "form": form,
        "conflict": shown.conflict,
        "bare_seen": _bare_print(one) if shown.form is None else request.POST.get("seen", ""),
        "unread": shown.unread,
        "outline": shown.outline or outline_shown(build, one),
        "draft": f"{row.number}/{mark}",
        "states": form.fields["state"].choices,  # type: ignore[attr-defined]
    }
    return show(request, row, "parts", "builds/component.html", context, status=status)


def _asked_for(request: HttpRequest, build: plain.Build, mark: str) -> OpenFeature | None:
    """The hole, pocket or pose that the address asks to change."""
    for kind in FEATURES:
        key = request.GET.get(kind)
        if key:
            lines = feature_lines(build, component_of(build, mark), kind)
            line = next((each.line for each in lines if each.key == key), None)
            return OpenFeature(kind, key, line, line) if line is not None else None
    return None


def _bare(one: plain.Component) -> plain.Component:
    """A component without its lines: somebody else's new hole does not stand against one's new length."""
    return replace(one, poses=(), holes=(), pockets=(), outline=())


def _bare_print(one: plain.Component) -> str:
    return fingerprint("component", _bare(one))


def _save(request: HttpRequest, row: Build, mark: str) -> HttpResponse:
    build, sent = plain_of(row), request.POST
    one = next((each for each in build.components if each.mark == mark), None)
    if one is None:
        return _gone(request, row, mark)
    if sent.get("conflict") == "theirs":
        return HttpResponseRedirect(component_address(request, row, mark))
    form = ComponentForm(sent, component=one, unit=build.unit)
    if not form.is_valid():
        return show_component(request, row, mark, Shown(form=form), status=422)
    seen = fingerprint("component", one) if sent.get("seen", "") == _bare_print(one) else "another"
    try:
        saved = change_build(
            row,
            of_workshop(request).user,
            lambda now: put(now, "component", form.read(find(now, "component", mark)), key=mark),
            lambda old, new: changes_said(
                find(old, "component", mark), find(new, "component", form.mark_said())
            ),
            reason=form.cleaned_data["reason"],
            seen={("component", mark): seen},
        )
    except Overtaken as error:
        return _overtaken(request, row, mark, form, error)
    except InputError as error:
        add_faults(form, error, FIELD_OF_FAULT)
        return show_component(request, row, mark, Shown(form=form), status=422)
    say_saved(request, row, saved, draft=f"{row.number}/{mark}/fields")
    return HttpResponseRedirect(component_address(request, row, form.mark_said()))


def _overtaken(
    request: HttpRequest, row: Build, mark: str, form: ComponentForm, error: Overtaken
) -> HttpResponse:
    """Show both versions of the fields."""
    row = row_of(request, row.number)
    if error.theirs is None:
        return _gone(request, row, mark)
    theirs = ComponentForm(component=error.theirs, unit=plain_of(row).unit)
    conflict = replace(conflict_of(error, [(form, theirs)]), seen=_bare_print(error.theirs))
    return show_component(request, row, mark, Shown(conflict=conflict), status=409)


def _gone(request: HttpRequest, row: Build, mark: str) -> HttpResponse:
    """Somebody took the component out: what was typed stands in the entry, to be entered anew."""
    build, by = plain_of(row), changed_last_by(row, "component", mark)
    form = ComponentForm(request.POST, component=plain.Component(mark, mark), unit=build.unit)
    line = write_part_line(form.read(plain.Component(mark, mark)), build) if form.is_valid() else mark
    says = f"There is no {mark} any more: {by} took it out. Enter it anew, or empty the line."
    return show_parts(request, row, unread=[Unread(1, line, (says,))], status=409)


@require_http_methods(["GET", "HEAD", "POST"])
def features(request: HttpRequest, workshop: str, number: str, mark: str, kind: str) -> HttpResponse:
    """Enter holes, pockets or poses of a component, one a line."""
    row = row_of(request, number)
    if kind not in FEATURES:
        raise Http404("no such thing in a part")
    component_of(plain_of(row), mark)
    if request.method != "POST":
        return HttpResponseRedirect(component_address(request, row, mark))
    face = request.GET.get("face", "")
    lines = typed_lines(request.POST, "lines")
    if kind == "pose":
        lines = [of_part(line, mark) for line in lines]

    def told(build: plain.Build, added: tuple[str, ...]) -> str:
        if kind == "pose":
            return f"{listed(list(added))} laid down"
        word = WORDS[kind] if len(added) == 1 else f"{WORDS[kind]}s"
        return f"{mark}: {len(added)} {word} added, {listed(list(added))}"

    entered = enter_lines(row, of_workshop(request).user, kind, lines, told, part=mark, face=face)
    draft = f"{row.number}/{mark}/{kind}"
    if entered.saved and entered.says:
        say_saved(request, row, entered.saved, draft="" if entered.unread else draft)
    if entered.unread:
        shown = Shown(unread={kind: entered.unread})
        return show_component(request, row_of(request, number), mark, shown, status=422)
    query = f"?face={quote(face)}" if face else ""
    return HttpResponseRedirect(f"{component_address(request, row, mark)}{query}#entry-{kind}s-new")


def _at_feature(request: HttpRequest, row: Build, mark: str, kind: str) -> str:
    return f"{component_address(request, row, mark)}#{kind}s"


@require_http_methods(["GET", "HEAD", "POST"])
def feature(request: HttpRequest, workshop: str, number: str, mark: str, kind: str, key: str) -> HttpResponse:
    """Change a hole, a pocket or a pose by its line, or take it out."""
    row = row_of(request, number)
    if kind not in FEATURES:
        raise Http404("no such thing in a part")
    if request.method != "POST" or request.POST.get("conflict") == "theirs":
        component_of(plain_of(row), mark)
        return HttpResponseRedirect(_at_feature(request, row, mark, kind))
    sent = request.POST
    typed = "" if "remove" in sent else sent.get("line", "")[:10_000].strip()
    line, seen = " ".join(typed.split()), sent.get("seen", "")
    # What is shown again is what was typed, with spaces of whatever kind.
    opened = OpenFeature(kind, key, typed, seen)
    what = f"{mark} {WORDS[kind]} {key}"
    try:
        saved = change_build(
            row,
            of_workshop(request).user,
            lambda build: change_feature(build, mark, kind, key, line, seen),
            f"{what}: {line[:200]}" if line else f"{what} taken out",
        )
    except FeatureOvertaken as error:
        return _feature_overtaken(request, row, mark, opened, error)
    except InputError as error:
        shown = Shown(feature=replace(opened, faults=tuple(fault.says for fault in error.faults)))
        return show_component(request, row, mark, shown, status=422)
    say_saved(request, row, saved, draft=f"{row.number}/{mark}/{kind}/{key}")
    return HttpResponseRedirect(_at_feature(request, row, mark, kind))


def _feature_overtaken(
    request: HttpRequest, row: Build, mark: str, opened: OpenFeature, error: FeatureOvertaken
) -> HttpResponse:
    row = row_of(request, row.number)
    by = changed_last_by(row, "component", mark)
    if error.theirs:
        shown = Shown(feature=replace(opened, seen=error.theirs, theirs=error.theirs, by=by))
    else:
        says = f"{by} took {opened.key} out while you had it open. Enter it anew, or empty the line."
        shown = Shown(unread={opened.kind: [Unread(1, opened.text or opened.seen, (says,))]})
    return show_component(request, row, mark, shown, status=409)
