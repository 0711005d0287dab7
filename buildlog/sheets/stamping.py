"""What a sheet is known by: the facts that it shows, the code worked out of them, the square that leads back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.conf import settings
from django.http import HttpRequest

from buildlog.builds.queries import remembered
from calculators.drawing.square_code import square_code
from calculators.planning.facts import Fact, SheetFacts, code_shown, digest_of, paper_code
from calculators.planning.worked import WorkedBuild


@dataclass(frozen=True, slots=True)
class Stamp:
    """What a sheet is known by. `square` is the SVG of its square code, nothing where no address is known."""

    code: str
    digest: str
    facts: tuple[Fact, ...]
    square: str = ""

    @property
    def shown(self) -> str:
        """The code as it is printed."""
        return code_shown(self.code)


def facts_of(worked: WorkedBuild) -> SheetFacts:
    """The facts of the sheets of a build, worked out once as long as the build is in hand."""
    return remembered(worked, "sheet facts", lambda: SheetFacts(worked))


def digest_now(worked: WorkedBuild, kind: str, component: str, options: Mapping[str, str]) -> str:
    """The digest that a sheet would have now."""
    name = f"sheet digest {kind} {component} {sorted(options.items())}"
    return remembered(worked, name, lambda: digest_of(facts_of(worked).of(kind, component, options)))


def stamp_of(
    worked: WorkedBuild,
    kind: str,
    component: str = "",
    options: Mapping[str, str] | None = None,
    address: str = "",
) -> Stamp:
    """Work out what a sheet is known by; `address` is where the square code leads, nothing for none."""
    chosen = dict(options or {})
    facts = facts_of(worked).of(kind, component, chosen)
    digest = digest_now(worked, kind, component, chosen)
    code = paper_code(worked.build.number, kind, digest, component, chosen)
    square = ""
    if address:
        square = square_code(f"{address}/paper/{code}/", f"Is this paper current? {code_shown(code)}")
    return Stamp(code, digest, facts, square)


def address_of_paper(request: HttpRequest | None = None) -> str:
    """Where the codes on paper lead: the configured address, in the demonstration the one that was asked.

    A server that people reach from outside prints no address that came with a request.
    """
    if settings.PUBLIC_ADDRESS:
        return str(settings.PUBLIC_ADDRESS)
    if settings.DEMO and request is not None:
        return f"{request.scheme}://{request.get_host()}"  # one of ALLOWED_HOSTS, or refused before
    return ""
