"""Will this screw run in that nut: how far it goes in before it binds, how deep it holds, and why."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from calculators.hardware.thread_profile import STATES, Profile, nut_profile, play_mm, screw_profile
from calculators.hardware.thread_sizes import Thread

FAR_PITCH = 0.05
"""Pitches further apart than this share of the finer do not mate (common practice)."""

FAR_MAJOR_MM = 0.35
"""A screw larger than the nut by more than this does not enter (common practice)."""

LEAST_PLAY_MM = 0.005
"""Less play than this each way along the axis is not run by hand (this project)."""

WEAK_SHARE = 85.0
"""Less overlap of the flanks than this share of the shallower thread's own [%] is weak (this project)."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """A screw in a nut. `plays_mm` and `turns` are by state of `STATES`; turns without end are None.

    `freedom_mm` is the trade's rule on basic sizes: the difference of the pitch diameters times the tangent
    of the half flank angle, the smaller of the two; `bears_at` says where flanks of two angles touch.
    """

    screw: Thread
    nut: Thread
    engagement_mm: float
    same_hand: bool
    verdict: str
    pitch_difference_mm: float
    threads_engaged: float
    pitch_error_mm: float
    freedom_mm: float
    overlap_mm: float
    share: float
    plays_mm: Mapping[str, float]
    turns: Mapping[str, float | None]
    bears_at: str
    why: tuple[str, ...]

    @property
    def same(self) -> bool:
        """Whether both are of one diameter, pitch and angle, under whatever name."""
        return same_thread(self.screw, self.nut)


def same_thread(one: Thread, other: Thread) -> bool:
    """Whether two threads are one thread, under one name or two.

    Args:
        one: a thread.
        other: another.

    Returns:
        Whether diameter, pitch and flank angle are the same.

    Source: this project.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> same_thread(find_thread("1/4 BSF"), find_thread("1/4 x 26 BSB"))
        True
    """
    return (
        abs(one.major_mm - other.major_mm) < 1e-6
        and abs(one.pitch_mm - other.pitch_mm) < 1e-6
        and one.angle_deg == other.angle_deg
    )


def compare_threads(
    screw: Thread, nut: Thread, engagement_mm: float, *, same_hand: bool = True
) -> Comparison:
    """Put a screw in a nut, at basic sizes, at the limits and at the middle of the limits.

    Pitches that differ by dp use up the play of 2 f along the axis in 2 f / dp turns; f is the least gap of
    the two profiles, crest, flank and root, with tooth and groove in line.

    Args:
        screw: the screw's thread.
        nut: the thread of the nut or tapped hole.
        engagement_mm: [mm] length of thread engaged, over 0.
        same_hand: whether both are right-handed or both left-handed.

    Returns:
        The comparison; its verdict is by the middle of the limits, the ordinary screw and nut.

    Source: rule of accumulated pitch and axial freedom: common practice; profiles as in `screw_profile`;
        the verdict's bounds: this project.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> compare_threads(find_thread("2 BA"), find_thread("3/16 BSF"), 4.7).verdict
        'binds'
    """
    difference = screw.pitch_mm - nut.pitch_mm
    shapes = {state: (screw_profile(screw, state), nut_profile(nut, state)) for state in STATES}
    plays = {state: play_mm(*pair) for state, pair in shapes.items()}
    turns = {
        # A screw that passes the bore without touching the thread never binds.
        state: None if pair[0].major_mm <= pair[1].minor_mm else _turns(plays[state], difference)
        for state, pair in shapes.items()
    }
    engaged = engagement_mm / screw.pitch_mm
    half_angle = math.radians(min(screw.angle_deg, nut.angle_deg)) / 2
    overlap = (min(screw.major_mm, nut.major_mm) - nut.minor_diameter_mm) / 2
    own = min((each.major_mm - each.minor_diameter_mm) / 2 for each in (screw, nut))
    found = Comparison(
        screw,
        nut,
        engagement_mm,
        same_hand,
        "",
        difference,
        engaged,
        abs(difference) * engaged,
        (nut.pitch_diameter_mm - screw.pitch_diameter_mm) * math.tan(half_angle),
        max(0.0, overlap),
        max(0.0, min(100.0, 100 * overlap / own)),
        plays,
        turns,
        _bears_at(*shapes["ordinary"]) if screw.angle_deg != nut.angle_deg else "over the flanks",
        (),
    )
    return _judged(found)


def _turns(play: float, difference: float) -> float | None:
    if abs(difference) < 1e-9:
        return None if play > -1e-9 else 0.0
    return max(0.0, 2 * play) / abs(difference)


def _bears_at(screw: Profile, nut: Profile) -> str:
    """Where two profiles of different angles come closest: the two ends of the common depth are tried."""
    low, high = nut.minor_mm / 2, screw.major_mm / 2
    radii = [low + (high - low) * (place + 0.5) / 24 for place in range(24)]
    gaps = [nut.groove_mm(each) - screw.tooth_mm(each) for each in radii]
    return "near the screw's crest" if gaps.index(min(gaps)) >= 12 else "near the screw's root"


def _judged(found: Comparison) -> Comparison:
    verdict, *why = _reasons(found)
    return Comparison(
        **{name: getattr(found, name) for name in Comparison.__slots__ if name not in ("verdict", "why")},
        verdict=verdict,
        why=tuple(why),
    )


def _reasons(found: Comparison) -> Iterator[str]:
    """The verdict, then the sentences that say why."""
    screw, nut = found.screw, found.nut
    over = screw.major_mm - nut.major_mm
    finer = min(screw.pitch_mm, nut.pitch_mm)
    play, turns = found.plays_mm["ordinary"], found.turns["ordinary"]
    if not found.same_hand:
        yield "different"
        yield "One is right-handed, the other left-handed: not a turn goes in."
        return
    reach = screw_profile(screw, "ordinary").major_mm - nut_profile(nut, "ordinary").minor_mm
    if reach <= 0:
        yield "different"
        yield (
            f"An ordinary screw drops through the nut, whose bore is {-reach:.2f} mm larger than the "
            "screw's thread."
        )
        return
    if abs(found.pitch_difference_mm) > FAR_PITCH * finer:
        yield "different"
    elif over > FAR_MAJOR_MM + 1e-9:
        yield "different"
        yield f"The screw is {over:.2f} mm larger than the nut's thread: it does not enter."
    elif play < LEAST_PLAY_MM or (turns is not None and turns < found.threads_engaged):
        yield "binds"
    else:
        yield "fits" if found.share >= WEAK_SHARE else "loose"
    yield from _pitch_words(found)
    yield from _size_words(found, over)
    yield from _angle_words(found)


def _pitch_words(found: Comparison) -> Iterator[str]:
    share = 100 * abs(found.pitch_difference_mm) / found.nut.pitch_mm
    if share < 1e-6:
        yield "The pitches are the same."
        return
    yield (
        f"The pitches differ by {share:.2g} %, {abs(found.pitch_difference_mm):.3f} mm a turn and "
        f"{found.pitch_error_mm:.3f} mm over the {found.threads_engaged:.3g} threads engaged."
    )
    turns, most = found.turns["ordinary"], found.turns["slack"]
    if found.plays_mm["ordinary"] > 0 and turns is not None and turns < found.threads_engaged:
        yield (
            f"At ordinary sizes it binds after {_count(turns)}, with the smallest screw in the largest nut "
            f"after {_count(most or 0.0)}."
        )


def _count(turns: float) -> str:
    return f"{turns:.1f} turns" if turns >= 1.05 else "one turn" if turns >= 0.95 else "less than a turn"


def _size_words(found: Comparison, over: float) -> Iterator[str]:
    if found.same:
        yield "Both are one thread" + ("." if found.screw == found.nut else " by two names.")
        return
    play = found.plays_mm["ordinary"]
    if over > 0.02:
        where = (
            "it is tight and jams"
            if play < LEAST_PLAY_MM
            else "it starts all the same, since screws are made under size and nuts over size"
        )
        yield f"The screw is {over:.2f} mm larger than the nut's thread on basic sizes: {where}."
    elif over < -0.02:
        yield (
            f"The screw is {-over:.2f} mm smaller than the nut's thread on basic sizes: "
            f"the flanks overlap by {found.share:.0f} % of what they should."
        )
    if 0 <= play < LEAST_PLAY_MM:
        yield f"At ordinary sizes {2 * play:.3f} mm of play along the axis is left, too little for the hand."
    elif play < 0 and over <= 0.02:
        yield f"At ordinary sizes the flanks foul by {-play:.3f} mm."
    elif found.plays_mm["tight"] < -1e-9:
        yield "The largest screw does not enter the smallest nut."


def _angle_words(found: Comparison) -> Iterator[str]:
    angles = found.screw.angle_deg, found.nut.angle_deg
    if angles[0] != angles[1]:
        yield (
            f"The flanks are at {angles[0]:g} and {angles[1]:g} degrees: they bear on a line "
            f"{found.bears_at}, not over the flanks, and hold less than a thread of one form."
        )
