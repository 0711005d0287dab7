"""Reads the calculators' docstrings beside their signatures, and tells where one lies or lacks.

Run alone: `python -m buildlog.gates.docstrings [FOLDER]`.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path

Function = ast.FunctionDef | ast.AsyncFunctionDef

SECTIONS = ("Args", "Returns", "Yields", "Raises", "Source", "Example", "Examples", "Note")
UNITS = (
    *("um", "mm", "cm", "m", "in", "mm2", "mm3", "mm4", "m2", "m3", "deg", "rad", "tpi", "percent"),
    *("n", "kn", "nm", "nmm", "mpa", "gpa", "pa", "psi", "j", "hz", "s", "kg", "g", "kg_m3"),
)
"""Unit suffixes of names; of a compound such as `rate_n_per_mm` the last part is enough."""

_UNIT_SUFFIX = re.compile(rf"_(?:{'|'.join(sorted(UNITS, key=len, reverse=True))})$")
_ENTRY = re.compile(r"^(?P<names>\*{0,2}\w+(?:, ?\*{0,2}\w+)*)(?: \([^)]*\))?:")


def faults_in(folder: Path) -> list[str]:
    """Read every public name below a folder; return a sentence, with its place, for each fault."""
    return [fault for path in sorted(folder.rglob("*.py")) for fault in faults_in_file(path)]


def faults_in_file(path: Path) -> list[str]:
    """Read one file."""
    tree = ast.parse(path.read_text(encoding="utf-8"), str(path))
    faults = [] if ast.get_docstring(tree) else [f"{path}:1 the module has no docstring"]
    for node in tree.body:
        if isinstance(node, Function) and _is_public(node):
            faults += [f"{path}:{node.lineno} {node.name}: {says}" for says in _faults_of_function(node)]
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            faults += [f"{path}:{line} {name}: {says}" for line, name, says in _faults_of_class(node)]
    return faults


def _is_public(node: Function) -> bool:
    decorators = {ast.unparse(decorator).rpartition(".")[2] for decorator in node.decorator_list}
    return not node.name.startswith("_") and not decorators & {"overload", "override", "setter"}


def _faults_of_function(node: Function) -> Iterator[str]:
    text = ast.get_docstring(node)
    if not text:
        yield "has no docstring"
        return
    sections = _sections(text)
    yield from _faults_of_arguments(node, sections.get("Args", ""))
    if _gives_something(node) and not (sections.get("Returns") or sections.get("Yields")):
        yield "gives a result, but its docstring has no 'Returns:'"
    if not sections.get("Source"):
        yield "has no 'Source:' (a standard, 'common practice', 'from memory' or 'this project.')"


def _faults_of_class(node: ast.ClassDef) -> Iterator[tuple[int, str, str]]:
    if not ast.get_docstring(node):
        yield node.lineno, node.name, "has no docstring"
    for member in node.body:
        if not isinstance(member, Function) or not _is_public(member):
            continue
        name = f"{node.name}.{member.name}"
        text = ast.get_docstring(member)
        if not text:
            yield member.lineno, name, "has no docstring"
        elif arguments := _sections(text).get("Args"):
            yield from ((member.lineno, name, says) for says in _faults_of_arguments(member, arguments))


def _faults_of_arguments(node: Function, section: str) -> Iterator[str]:
    documented = _entries(section)
    wanted = _parameters(node)
    for name in wanted:
        if name not in documented:
            yield f"'{name}' is not described in 'Args:'"
        elif _UNIT_SUFFIX.search(name) and not re.search(r"\[[^\]]+\]", documented[name]):
            yield f"'{name}' is described without its [unit]"
    for name in documented:
        if name not in wanted:
            yield f"'Args:' describes '{name}', which is not a parameter"


def _parameters(node: Function) -> list[str]:
    arguments = node.args
    every = [
        *arguments.posonlyargs,
        *arguments.args,
        *arguments.kwonlyargs,
        arguments.vararg,
        arguments.kwarg,
    ]
    names = [argument.arg for argument in every if argument is not None]
    return [name for name in names if name not in {"self", "cls"}]


def _gives_something(node: Function) -> bool:
    return node.returns is not None and ast.unparse(node.returns) not in {"None", "NoReturn", "Never"}


def _sections(text: str) -> dict[str, str]:
    """Split a docstring at its section lines; a section's text may begin on its own line (`Source: ...`)."""
    sections: dict[str, str] = {}
    name = ""
    for line in text.splitlines():
        heading = re.match(rf"({'|'.join(SECTIONS)}):(.*)$", line)
        if heading:
            name = heading[1]
            sections[name] = heading[2].strip()
        elif name and (line.startswith(" ") or not line.strip()):
            sections[name] += "\n" + line
        else:
            name = ""
    return {name: body.rstrip() for name, body in sections.items() if body.strip()}


def _entries(section: str) -> dict[str, str]:
    """Read `name: what it is` entries; deeper lines go on with the entry above."""
    lines = [line for line in section.splitlines() if line.strip()]
    indent = min((len(line) - len(line.lstrip()) for line in lines), default=0)
    entries: dict[str, str] = {}
    current: list[str] = []
    for line in lines:
        entry = _ENTRY.match(line.strip()) if len(line) - len(line.lstrip()) == indent else None
        if entry:
            current = [name.strip().lstrip("*") for name in entry["names"].split(",")]
        for name in current:
            entries[name] = f"{entries.get(name, '')} {line.strip()}"
    return entries


def main() -> int:
    """Print every fault in the folder named, or in calculators/."""
    faults = faults_in(Path(sys.argv[1] if len(sys.argv) > 1 else "calculators"))
    print("\n".join(faults) or "Every docstring is in order.")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
