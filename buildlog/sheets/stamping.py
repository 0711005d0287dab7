"""What a sheet is known by: the facts that it shows, its code, and the square code that leads back here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.conf import settings
from django.http import HttpRequest

from buildlog.builds.printed import digest_now, facts_of
from calculators.drawing.square_code import square_code
from calculators.planning.facts import Fact, code_shown, paper_code
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
