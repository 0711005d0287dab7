"""What a browser sends of a form on a page that came."""

from __future__ import annotations

import re


def sent_of(page: str, form: str) -> dict[str, str]:
    """What a browser sends of the form whose action ends so, as it came."""
    at = page.index(f'action="{form}"')
    body = page[at : page.index("</form>", at)]
    sent = dict(re.findall(r'<input type="(?:hidden|text)" name="([^"]+)" value="([^"]*)"', body))
    sent |= {name: "" for name in re.findall(r'<input type="text" name="([^"]+)"', body) if name not in sent}
    sent |= dict.fromkeys(re.findall(r'<input type="checkbox" name="([^"]+)"[^>]* checked', body), "on")
    for name, options in re.findall(r'<select name="([^"]+)".*?>(.*?)</select>', body, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', options)
        sent[name] = chosen[1] if chosen else ""
    for name, text in re.findall(r'<textarea name="([^"]+)"[^>]*>(.*?)</textarea>', body, re.DOTALL):
        sent[name] = text.strip().replace("&#x27;", "'").replace("&quot;", '"')
    sent.pop("csrfmiddlewaretoken", None)
    return {name: value.replace("&quot;", '"').replace("&#x27;", "'") for name, value in sent.items()}
