"""The rows of a calculator's results as HTML.

Written here and not in a template, since a long table has hundreds of cells and a template takes its time
with each; what was set once is remembered.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from django import template
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString, mark_safe

from buildlog.bench.templatetags.typeset import units
from calculators.calculation.both_systems import Line, Shown
from calculators.calculation.tabulating import Cell, Column, Table

register = template.Library()


@register.simple_tag(takes_context=True)
def listed_rows(context: template.Context, table: Table) -> SafeString:
    """The rows of a table, lengths in the system that the person reads."""
    return _rows(table, str(context.get("units", "")))


@lru_cache(maxsize=256)
def _rows(table: Table, shown: str) -> SafeString:
    parts: list[str] = []
    for number, (row, beneath) in enumerate(table.cells, 1):
        parts.append("<tbody><tr>")
        if table.is_numbered:
            parts.append(f'<th scope="row">{number}</th>')
        parts += [
            _cell(cell, column, shown, headed=place > 0 or table.is_numbered)
            for place, (cell, column) in enumerate(row)
        ]
        parts.append("</tr>")
        parts += [_beneath(cell, column, len(table.short), shown) for cell, column in beneath]
        parts.append("</tbody>")
    return mark_safe("".join(parts))


def _cell(cell: Cell, column: Column, shown: str, *, headed: bool) -> str:
    number = ' class="number"' if column.is_number else ""
    # On a narrow page the heading stands in the cell; the first one is the row's name.
    head = f' data-head="{_heading(column)}"' if cell.metric and headed else ""
    return f"<td{number}{head}>{_said(cell, shown)}</td>"


def _beneath(cell: Cell, column: Column, wide: int, shown: str) -> str:
    heading = f'<span class="soft">{_heading(column)}</span>'
    return f'<tr class="beneath"><td colspan="{wide}">{heading} {_said(cell, shown)}</td></tr>'


def _heading(column: Column) -> str:
    return conditional_escape(f"{_capital(column.label)}:")


def _said(cell: Cell, shown: str) -> str:
    if not cell.inches or shown == "mm":
        return units(cell.metric)
    if shown == "in":
        return units(cell.inches)
    return f'{units(cell.metric)} <span class="other">{units(cell.inches)}</span>'


@register.simple_tag
def plain_rows(results: Iterable[Shown]) -> SafeString:
    """The rows of results that are no tables: one for each, or a heading with one for each of its lines."""
    return _plain(tuple(results))


@register.simple_tag
def given_rows(lines: Iterable[Line]) -> SafeString:
    """The rows of what was given, in both systems."""
    head = '<tr><th scope="row">'
    return mark_safe(
        "".join(f"{head}{conditional_escape(_capital(one.label))}</th>{_both(one)}</tr>" for one in lines)
    )


@lru_cache(maxsize=256)
def _plain(results: tuple[Shown, ...]) -> SafeString:
    return mark_safe("".join(part for each in results for part in _result(each)))


def _result(each: Shown) -> Iterator[str]:
    said = f' <span class="hint">{conditional_escape(each.description)}</span>' if each.description else ""
    heading = f"{conditional_escape(_capital(each.label))}{said}"
    if len(each.lines) == 1 and not each.lines[0].label:
        yield f'<tr><th scope="row">{heading}</th>{_both(each.lines[0])}</tr>'
        return
    yield f'<tr class="group"><th scope="rowgroup" colspan="3">{heading}</th></tr>\n'
    for line in each.lines:
        yield f"<tr>{_line(line)}</tr>"
    if not each.lines:
        yield '<tr><td colspan="3">none</td></tr>'
    if each.more:
        yield f'<tr><td colspan="3">{each.more} lines more are in the JSON.</td></tr>'


def _line(line: Line) -> str:
    if line.label:
        return f'<th scope="row" class="member">{units(_capital(line.label))}</th>{_both(line)}'
    if line.wide:
        return f'<td class="wide-text member" colspan="3">{units(line.metric)}</td>'
    return f"<td></td>{_both(line)}"


def _both(line: Line) -> str:
    if line.wide:
        return f'<td class="wide-text" colspan="2">{units(line.metric)}</td>'
    return f'<td class="number">{units(line.metric)}</td><td class="number">{units(line.inches)}</td>'


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
