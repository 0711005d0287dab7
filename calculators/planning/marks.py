"""The marks of a build: one series of names for all that people and papers refer to."""

from __future__ import annotations

from calculators.planning.model import Build


def marks_of(build: Build) -> list[str]:
    """List the marks of a build.

    Args:
        build: the build.

    Returns:
        The marks of its components, its joints, its kept calculations and its stock, in that order.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> marks_of(Build("B1", "Box", components=(Component("P1", "Lid"),)))
        ['P1']
    """
    shelves = (build.components, build.joints, build.calculations, build.stock)
    return [one.mark for held in shelves for one in held]
