"""Walks every page that links lead to, as a person would, and gathers the forms that stand on them."""

from __future__ import annotations

import re
from collections import Counter, deque
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urldefrag, urljoin

from django.test import Client

FILES = re.compile(r"\.(pdf|csv|json|zip|jpg|svg|css|js|dxf)(\?|$)|[?&]format=json")
MARKED = re.compile(
    r"(?<=/)[^/?]*\d[^/?]*(?=[/?]|$)|(?<=/tables/)[^/]+|(?<=/pockets/)[^/]+|(?<=/holes/)[^/?]+|(?<=/new-calculation/)[^/?]+|(?<=^/bench/)[^/?]+(?=/keep/)|(?<=^/bench/)[^/?]+(?=/?(\?|$))"
)
"""What stands in an address for one thing among many: marks, numbers, names of tables and calculators."""

ALIKE = 6
"""The most pages of one making that are walked."""

VARYING = re.compile(r"(?<=[?&])(page|sort|find|q|try|change|by)=[^&]*")


@dataclass
class Field:
    """One field of a form: its name, what kind of widget it is, and what it holds."""

    name: str
    kind: str
    value: str
    choices: list[str] = field(default_factory=list)


@dataclass
class Form:
    """One form of a page: where it stands, where it goes, what it holds."""

    page: str
    action: str
    method: str
    fields: list[Field]

    @property
    def signature(self) -> tuple[str, str, tuple[str, ...]]:
        """What two forms of the same making have in common."""
        action = MARKED.sub("*", self.action.split("?")[0])
        names = {re.sub(r"\d+", "*", each.name) for each in self.fields}
        return self.method, action, tuple(sorted(names))


class Page(HTMLParser):
    """Reads the links and forms of one page."""

    def __init__(self, address: str, html: str) -> None:
        super().__init__()
        self.address, self.links, self.forms = address, [], []  # type: ignore[var-annotated]
        self._form: Form | None = None
        self._select: Field | None = None
        self._area: Field | None = None
        self._areas = 0
        self.feed(html)

    def handle_starttag(self, tag: str, given: list[tuple[str, str | None]]) -> None:
        has = {name: value or "" for name, value in given}
        if tag == "a" and "href" in has:
            self.links.append(urldefrag(urljoin(self.address, has["href"]))[0])
        elif tag == "form":
            action = urldefrag(urljoin(self.address, has.get("action") or self.address))[0]
            self._form = Form(self.address, action, has.get("method", "get").lower(), [])
            self.forms.append(self._form)
        elif self._form is not None and has.get("name") and "disabled" not in has:
            if tag in ("input", "button"):
                kind = has.get("type", "text") if tag == "input" else "button"
                if kind not in ("checkbox", "radio") or "checked" in has:
                    self._form.fields.append(Field(has["name"], kind, has.get("value", "")))
                else:
                    self._form.fields.append(Field(has["name"], f"{kind} off", has.get("value", "on")))
            elif tag == "select":
                self._select = Field(has["name"], "select", "")
                self._form.fields.append(self._select)
            elif tag == "textarea":
                self._area = Field(has["name"], "textarea", "")
                self._form.fields.append(self._area)
        if tag == "option" and self._select is not None:
            self._select.choices.append(has.get("value", ""))
            if "selected" in has or not self._select.value:
                self._select.value = has.get("value", "")

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._form = None
        elif tag == "select":
            self._select = None
        elif tag == "textarea":
            self._area = None

    def handle_data(self, data: str) -> None:
        if self._area is not None:
            self._area.value += data


def crawl(client: Client, start: str = "/", most: int = 600) -> tuple[dict[str, int], list[Form]]:
    """Follow links from a page: each address with its status, and one form of each making."""
    seen: dict[str, int] = {}
    varied: set[str] = set()
    alike: Counter[str] = Counter()
    forms: dict[tuple[str, str, tuple[str, ...]], Form] = {}
    waiting = deque([start])
    while waiting and len(seen) < most:
        address = waiting.popleft()
        varying = VARYING.sub(r"\1=", address)
        if address in seen or varying in varied or not address.startswith("/") or FILES.search(address):
            continue
        shape = MARKED.sub("*", varying)
        if alike[shape] >= ALIKE:
            continue
        alike[shape] += 1
        varied.add(varying)
        answer = client.get(address)
        seen[address] = answer.status_code
        if answer.status_code in (301, 302):
            waiting.append(answer["Location"])
        if not answer.get("Content-Type", "").startswith("text/html"):
            continue
        page = Page(address, answer.content.decode())
        waiting.extend(page.links)
        for form in page.forms:
            if form.method not in ("get", "post"):
                continue
            forms.setdefault(form.signature, form)
    return seen, list(forms.values())
