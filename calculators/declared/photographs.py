"""Photo-scale: a size from a photograph by a known length in it."""

from __future__ import annotations

from math import cos, radians

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.geometry.photographs import click_spread, size_in_photograph


def _photo(given: Given) -> Result:
    px, ref_px, ref = given.number("pixels"), given.number("reference_pixels"), given.mm("reference")
    behind, distance = given.mm("behind"), given.mm_or_none("distance")
    angle, clicks = given.number("angle"), given.number("click_error")
    level = px * ref / ref_px
    size = size_in_photograph(px, ref_px, ref, behind_mm=behind, distance_mm=distance, angle_deg=angle)
    off = click_spread(size, px, ref_px, clicks)
    p, q, r, s = map(number_text, (px, ref_px, ref, size))
    depth = 1.0 if distance is None else 1 + behind / distance
    numbers = "1" if distance is None else f"1 + {number_text(behind)} / {number_text(distance)}"
    shrink = 100 * (1 - cos(radians(angle)))
    e = number_text(clicks)
    steps: tuple[Step, ...] = (
        Step("as seen", "px x ref / ref px", f"{p} x {r} / {q}", level, "mm",
             "in the plane of the known length"),
        Step("depth", "1 + behind / distance", numbers, depth, "1", "pinhole camera"),
        Step("foreshortening", "1 - cos(angle)", f"1 - cos({number_text(angle)} deg)", shrink, "%"),
        Step("size", "as seen x depth / cos(angle)",
             f"{number_text(level)} x {number_text(depth)} / cos({number_text(angle)} deg)", size, "mm"),
        Step("spread", "size sqrt((e / ref px)^2 + (e / px)^2)", f"{s} x sqrt(({e} / {q})^2 + ({e} / {p})^2)",
             off, "mm", "of a quotient: JCGM 100:2008, 5.1.2 (from memory)"),
    )  # fmt: skip
    results = named(photo_size=size, photo_spread=off, as_seen=level, mm_per_pixel=ref / ref_px,
                    foreshortening=shrink)  # fmt: skip
    warnings = []
    others = [
        size_in_photograph(
            row.number("pixels"), row.number("reference_pixels"), ref, behind_mm=behind, distance_mm=distance,
            angle_deg=angle,
        )
        for row in given.rows("more")
    ]  # fmt: skip
    if others:
        every = [size, *others]
        mean, apart = sum(every) / len(every), max(every) - min(every)
        listed = " + ".join(number_text(one) for one in every)
        steps = (*steps, Step("mean", "sum / n", f"({listed}) / {len(every)}", mean, "mm"))
        results |= named(photo_mean=mean, photo_range=apart)
        if apart > 4 * off:
            warnings.append(
                f"The photographs differ by {number_text(apart, 3)} mm, more than clicks explain "
                f"({number_text(off, 2)} mm each): one is not straight on, or the two lie at other depths."
            )
    if min(px, ref_px) < 100:
        warnings.append(
            f"With only {number_text(min(px, ref_px), 4)} pixels each click tells; 100 or more is better "
            "(common practice): go nearer or take a finer picture."
        )
    if ref_px < px / 2:
        warnings.append("The known length is much shorter than the unknown; every error of it is multiplied.")
    if angle > 20:
        warnings.append(
            f"At {number_text(angle)} degrees the size hangs on the angle; take a straight-on photograph."
        )
    return Result(results, steps, tuple(warnings))


def _pixels(name: str, says: str, example: str) -> Input:
    return Input(name=name, help=says, kind="number", above=0, maximum=1000000, example=example)


PHOTO_SCALE = Calculator(
    name="photo-scale",
    summary="A size from a photograph by a known length in it, put right for depth and slant.",
    purpose="Set out and mark",
    inputs=(
        Input(name="reference", help="the known length", kind="length", unit="mm", above=0, maximum=100000,
              example="12 in"),
        _pixels("reference_pixels", "the known length in pixels", "846"),
        _pixels("pixels", "the unknown length in pixels", "451"),
        Input(name="behind", help="how far the unknown lies behind the known length; less than 0 in "
              "front of it",
              kind="length", unit="mm", default="0 mm", minimum=-100000, maximum=100000),
        Input(name="distance", help="from the camera to the known length", kind="length", unit="mm",
              optional=True, above=0, maximum=1000000, example="1.8 m"),
        Input(name="angle", help="by which the unknown is turned away from the picture's plane",
              kind="quantity",
              unit="deg", default="0", minimum=0, maximum=80),
        Input(name="more", help="the same two lengths in more photographs, to compare: a row a photograph",
              kind="rows", optional=True, minimum=1, maximum=20, example="850, 453; 842, 450",
              members=(
                  _pixels("reference_pixels", "the known length in pixels", "850"),
                  _pixels("pixels", "the unknown length in pixels", "453"),
              )),
        Input(name="click_error", help="how far each of the two lengths may be off, in pixels", kind="number",
              default="2", minimum=0, maximum=1000),
    ),
    outputs=("photo_mean", "photo_range", "photo_size", "photo_spread", "as_seen", "mm_per_pixel",
             "foreshortening"),
    work=_photo,
    sources=("geometry of a pinhole camera",
             "spread: law of propagation, JCGM 100:2008, 5.1.2 (from memory)"),
    example={"reference": "12 in", "reference_pixels": "846", "pixels": "451", "behind": "30 mm",
             "distance": "1.8 m", "more": "850, 453; 842, 450"},
)  # fmt: skip
