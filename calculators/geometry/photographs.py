"""Sizes from a photograph: by a known length in it, with depth and slant put right."""

from __future__ import annotations

from math import cos, hypot, radians

from calculators.quantities.errors import InputError


def size_in_photograph(
    pixels: float,
    reference_pixels: float,
    reference_mm: float,
    *,
    behind_mm: float = 0.0,
    distance_mm: float | None = None,
    angle_deg: float = 0.0,
) -> float:
    """A size by comparing it with a known length in the same photograph.

        size = px (ref / ref px) (1 + behind / distance) / cos(angle)

    Args:
        pixels: [1] the unknown in pixels, over 0.
        reference_pixels: [1] the known length in pixels, over 0.
        reference_mm: [mm] the known length.
        behind_mm: [mm] how far the unknown lies behind the known length; less than 0 where it is in front.
        distance_mm: [mm] from the camera to the known length; needed where the two are not level.
        angle_deg: [deg] by which the unknown is turned away from the picture's plane, 0 to 80.

    Returns:
        The size [mm].

    Raises:
        InputError: when the distance is needed and missing, or the unknown would be behind the camera.

    Source: geometry of a pinhole camera.

    Example:
        >>> round(size_in_photograph(451, 846, 304.8, behind_mm=30, distance_mm=1800), 1)
        165.2
    """
    if not 0 <= angle_deg <= 80:
        says = "The angle must be 0 to 80 degrees."
        raise InputError.of(says, field="angle", value=angle_deg, limit=80.0, unit="deg")
    depth = 1.0
    if behind_mm:
        if distance_mm is None:
            says = "The input distance is missing; where one lies behind the other the camera's is needed."
            raise InputError.of(says, field="distance")
        depth = 1 + behind_mm / distance_mm
        if depth <= 0.01:
            says = (
                f"At {-behind_mm:g} mm in front it would be at the camera, which is {distance_mm:g} mm away."
            )
            raise InputError.of(
                says + " Write less.", field="behind", value=behind_mm, limit=-distance_mm, unit="mm"
            )
    return pixels * reference_mm / reference_pixels * depth / cos(radians(angle_deg))


def click_spread(size_mm: float, pixels: float, reference_pixels: float, error_pixels: float) -> float:
    """How far a size may be off by the clicks on its ends and on those of the known length.

        spread = size sqrt((e / ref px)2 + (e / px)2)

    Args:
        size_mm: [mm] the size.
        pixels: [1] the unknown in pixels.
        reference_pixels: [1] the known length in pixels.
        error_pixels: [1] how far each of the two may be off in pixels.

    Returns:
        The spread [mm].

    Source: law of propagation of uncertainty for a quotient, JCGM 100:2008, 5.1.2 (from memory).

    Example:
        >>> round(click_spread(165.2, 451, 846, 2), 1)
        0.8
    """
    return size_mm * hypot(error_pixels / reference_pixels, error_pixels / pixels)
