"""The marks of a build: one series of names for all that people and papers refer to."""

from __future__ import annotations

from calculators.planning.model import Build


def marks_of(build: Build) -> list[str]:
    """List the marks of a build.

    Args:
        build: the build.

    Returns:
        The marks of its components, its joints and its kept calculations, in that order.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> marks_of(Build("B1", "Box", components=(Component("P1", "Lid"),)))
        ['P1']
    """
    return [one.mark for held in (build.components, build.joints, build.calculations) for one in held]
