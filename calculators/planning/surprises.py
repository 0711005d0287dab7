"""What the axis of a joint meets that its stack did not say, as findings."""

from __future__ import annotations

from calculators.geometry.layers import Overlap
from calculators.joints.model import Finding, Mend
from calculators.planning.model import StackMember

SOURCE = "this project: the layers of a joint are the parts that its axis meets"

TYPED_TOLERANCE_MM = 0.05
"""How far a typed thickness may be from the one found before it is told [mm] (common practice)."""


def axis_misses_part(joint: str, part: str, place: str) -> Finding:
    """Say that a part named in the stack does not lie on the axis.

    Args:
        joint: the joint's mark.
        part: the part's mark.
        place: the id of the place.

    Returns:
        An error of rule `axis-misses-part`.

    Source: this project.
    """
    says = (
        f"The axis of {joint} at place {place} does not meet {part}, which its stack names: move the place "
        "or the part."
    )
    return Finding("axis-misses-part", "error", says, SOURCE, joint, part, place)


def place_off_part(joint: str, part: str, face: str, place: str) -> Finding:
    """Say that a place does not lie on the face that it is placed on.

    Args:
        joint: the joint's mark.
        part: the mark of its home.
        face: the face.
        place: the id of the place.

    Returns:
        An error of rule `place-off-part`.

    Source: this project.
    """
    says = f"Place {place} of {joint} lies off the {face} of {part}: move it onto the part."
    return Finding("place-off-part", "error", says, SOURCE, joint, part, place)


def part_in_the_way(joint: str, part: str, thickness_mm: float, place: str) -> Finding:
    """Say that the axis goes through a part that the stack does not name.

    Args:
        joint: the joint's mark.
        part: the part's mark.
        thickness_mm: [mm] how much of it is on the axis.
        place: the id of the place.

    Returns:
        A warning of rule `part-in-the-way`.

    Source: this project.
    """
    says = (
        f"The axis of {joint} at place {place} also goes through {thickness_mm:.3g} mm of {part}, which its "
        "stack does not name; it is counted."
    )
    mend = Mend(f"Add {part} to the stack of {joint}.", "stack", part)
    return Finding(
        "part-in-the-way", "warning", says, SOURCE, joint, part, place, thickness_mm, None, "mm", (mend,)
    )


def typed_thickness(joint: str, member: StackMember, thickness_mm: float, place: str) -> tuple[Finding, ...]:
    """Compare a thickness that was typed with what the axis goes through.

    Args:
        joint: the joint's mark.
        member: the member of the stack.
        thickness_mm: [mm] what was found.
        place: the id of the place.

    Returns:
        A warning of rule `typed-thickness` where they differ by more than 0.05 mm.

    Source: this project.
    """
    typed = member.thickness
    if typed is None or abs(typed.mm - thickness_mm) <= TYPED_TOLERANCE_MM:
        return ()
    says = (
        f"{member.part} is typed as {typed.mm:g} mm thick in {joint}, but the axis goes through "
        f"{thickness_mm:.3g} mm of it as it lies; what lies there is used."
    )
    mend = Mend("Leave the typed thickness out.", f"stack[{member.part}].thickness", "")
    return (
        Finding(
            "typed-thickness",
            "warning",
            says,
            SOURCE,
            joint,
            member.part,
            place,
            typed.mm,
            thickness_mm,
            "mm",
            (mend,),
        ),
    )


def parts_overlap(joint: str, first: str, second: str, overlap: Overlap, place: str) -> Finding:
    """Say that two parts claim the same stretch of the axis.

    Args:
        joint: the joint's mark.
        first: the mark of the one part.
        second: the mark of the other.
        overlap: the stretch.
        place: the id of the place.

    Returns:
        An error of rule `parts-overlap`.

    Source: this project.
    """
    size_mm = overlap.leave - overlap.enter
    says = (
        f"{first} and {second} lie {size_mm:.3g} mm inside one another on the axis of {joint} at place "
        f"{place}: let one in deeper or move it."
    )
    return Finding("parts-overlap", "error", says, SOURCE, joint, second, place, size_mm, 0.0, "mm")
