"""What a browser sends of a form on a page that came, however its fields are written."""

from __future__ import annotations

from html.parser import HTMLParser


class _Form(HTMLParser):
    """Reads the fields of the form with one action."""

    def __init__(self, action: str) -> None:
        super().__init__()
        self.action, self.is_in, self.sent = action, False, dict[str, str]()
        self.select = self.area = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        has = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.is_in = has.get("action") == self.action and has.get("method") == "post"
        if not self.is_in:
            return
        name = has.get("name", "")
        if tag == "input" and name and has.get("type", "text") in ("text", "hidden"):
            self.sent[name] = has.get("value", "")
        elif tag == "select":
            self.select = name
        elif tag == "textarea":
            self.area, self.sent[name] = name, ""
        elif tag == "option" and self.select and ("selected" in has or self.select not in self.sent):
            self.sent[self.select] = has.get("value", "")  # the first, where none is selected

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self.is_in = False
        elif tag == "select":
            self.select = ""
        elif tag == "textarea":
            self.area = ""

    def handle_data(self, data: str) -> None:
        if self.area:
            self.sent[self.area] += data.strip()


def sent_of(page: str, action: str) -> dict[str, str]:
    """The fields of the form with this action, each with what it holds."""
    form = _Form(action)
    form.feed(page)
    form.sent.pop("csrfmiddlewaretoken", None)
    return form.sent
