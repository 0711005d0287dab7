"""Compare-threads: will this screw run in that nut, how far, how deep do the flanks hold, and why."""

from __future__ import annotations

import re
from collections.abc import Sequence

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import Plain, number_text
from calculators.hardware.thread_comparison import Comparison, compare_threads
from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_profile import STATES, nut_profile, screw_profile
from calculators.hardware.threads import Thread, find_thread

_LEFT = re.compile(r"[\s,-]*(?:left[\s-]*hand(?:ed)?|\(?l\.?h\.?\)?)\s*$", re.IGNORECASE)
_HANDS = ("right", "left")

_INPUTS = (
    Input(
        name="bolt",
        help="the thread of the screw; LH after it is left-handed",
        kind="text",
        example="2 BA, 10-32, M8 LH",
    ),
    Input(
        name="nut",
        help="the thread of the nut or tapped hole; LH after it is left-handed",
        kind="text",
        example="3/16 BSF",
    ),
    Input(
        name="engagement",
        help="length of thread engaged; one diameter of the screw unless told",
        kind="length",
        unit="mm",
        optional=True,
        minimum=0.1,
        maximum=500,
    ),
    Input(name="bolt_hand", help="the hand of the screw", kind="choice", choices=_HANDS, optional=True),
    Input(name="nut_hand", help="the hand of the nut", kind="choice", choices=_HANDS, optional=True),
)


def compared(given: Given) -> Comparison:
    """The comparison that a person's inputs ask for.

    Args:
        given: the inputs of compare-threads, as read.

    Returns:
        The comparison.

    Raises:
        InputError: where a thread is not known.

    Source: this project.
    """
    (screw, screw_hand), (nut, nut_hand) = (_thread(given, name) for name in ("bolt", "nut"))
    engagement = given.mm_or_none("engagement") or screw.major_mm
    return compare_threads(screw, nut, engagement, same_hand=screw_hand == nut_hand)


def _thread(given: Given, name: str) -> tuple[Thread, str]:
    """A thread and its hand; what is written after its name counts where no hand is given."""
    text = given.text(name)
    bare = _LEFT.sub("", text)
    hand = given.text_or_none(f"{name}_hand") or ("left" if bare != text else "right")
    return find_thread(bare, field=name), hand


def _compare(given: Given) -> Result:
    found = compared(given)
    turns = found.turns["ordinary"]
    results = named(
        verdict=found.verdict,
        why=list(found.why),
        pitch_error=found.pitch_error_mm,
        flank_overlap=found.overlap_mm,
        flank_share=found.share,
        pitch_difference=found.pitch_difference_mm,
        threads_engaged=found.threads_engaged,
        axial_freedom=found.freedom_mm,
        axial_play=2 * found.plays_mm["ordinary"],
    )
    if turns is not None:
        results |= named(turns_to_bind=turns)
    results |= named(at_sizes=Value([_sizes(found, state) for state in STATES], "mm"))
    sources = tuple(f"{each.system}: {limits_of(each).source}" for each in (found.screw, found.nut))
    return Result(results, _working(found), (), (*sources, *_SOURCES))


_SAYS = {"basic": "basic", "tight": "tightest", "ordinary": "ordinary", "slack": "slackest"}


def _sizes(found: Comparison, state: str) -> dict[str, Plain]:
    """The sizes of one state, the play along the axis, and the turns until it binds."""
    screw, nut = screw_profile(found.screw, state), nut_profile(found.nut, state)
    turns = found.turns[state]
    return {
        "sizes": _SAYS[state],
        "screw_major": round(screw.major_mm, 4),
        "screw_pitch_diameter": round(screw.pitch_diameter_mm, 4),
        "nut_pitch_diameter": round(nut.pitch_diameter_mm, 4),
        "nut_minor": round(nut.minor_mm, 4),
        "play": round(2 * found.plays_mm[state], 4),
        "turns": "without end" if turns is None else round(turns, 2),
    }


def _working(found: Comparison) -> tuple[Step, ...]:
    screw, nut = found.screw, found.nut
    ps, pn = number_text(screw.pitch_mm), number_text(nut.pitch_mm)
    angle = min(screw.angle_deg, nut.angle_deg)
    dp = abs(found.pitch_difference_mm)
    d2, big_d2 = number_text(screw.pitch_diameter_mm), number_text(nut.pitch_diameter_mm)
    bore = number_text(nut.minor_diameter_mm)
    play = 2 * found.plays_mm["ordinary"]
    own = min(each.major_mm - each.minor_diameter_mm for each in (screw, nut)) / 2
    crest = min(screw.major_mm, nut.major_mm)
    steps = [
        Step("dp", "p screw - p nut", f"{ps} - {pn}", found.pitch_difference_mm, "mm"),
        Step("n", "engagement / p screw", f"{number_text(found.engagement_mm)} / {ps}",
             found.threads_engaged, "1"),
        Step("accumulated error", "|dp| n", f"{number_text(dp, 5)} x {number_text(found.threads_engaged, 4)}",
             found.pitch_error_mm, "mm", "common practice"),
        Step("freedom at basic sizes", "(D2 - d2) tan(a)",
             f"({big_d2} - {d2}) tan({number_text(angle / 2)} deg)", found.freedom_mm, "mm",
             "common practice; a the smaller half flank angle"),
        Step("overlap", "(crest - D1) / 2", f"({number_text(crest)} - {bore}) / 2", found.overlap_mm, "mm",
             "" if found.overlap_mm else "no overlap: not under nought"),
        Step("share", "100 overlap / own overlap", f"100 x {number_text(found.overlap_mm, 4)} / "
             f"{number_text(own, 4)}, at most 100", found.share, "%"),
        Step("play of ordinary sizes", "least gap of the two profiles, both ways", "", play, "mm",
             "profiles in the middle of their limits"),
    ]  # fmt: skip
    if dp > 1e-9 and found.freedom_mm > 0 and found.overlap_mm > 0:
        put = f"{number_text(found.freedom_mm, 4)} / {number_text(dp, 4)}"
        steps.append(Step("turns at basic sizes", "freedom / |dp|", put, found.freedom_mm / dp, "1"))
    turns = found.turns["ordinary"]
    if turns is not None:
        put = f"{number_text(play, 4)} / {number_text(dp, 4)}" if turns else "no play"
        steps.append(Step("turns of ordinary sizes", "play / |dp|", put, turns, "1"))
    return tuple(steps)


def _draw(given: Given, result: Result) -> Sequence[Picture]:
    from calculators.drawing.thread_form import thread_pair

    return thread_pair(compared(given))


_SOURCES = (
    "accumulated pitch against axial freedom: common practice",
    "binds: less play than its share of pitch takes up, or under 0.01 mm; loose: under 85 % of overlap; "
    "different: pitches over 5 % apart, a screw over 0.35 mm too large, or another hand: this project",
)

COMPARE_THREADS = Calculator(
    name="compare-threads",
    summary="Whether a screw runs in a nut of the same or another thread, how far, and how deep it holds.",
    purpose="Choose a thread and its holes",
    inputs=_INPUTS,
    outputs=(
        "verdict",
        "why",
        "pitch_error",
        "flank_overlap",
        "flank_share",
        "pitch_difference",
        "threads_engaged",
        "axial_freedom",
        "axial_play",
        "turns_to_bind",
        "at_sizes",
    ),
    work=_compare,
    sources=("profiles: ISO 68-1, ASME B1.1, BS 84, BS 93", *_SOURCES),
    cautions=(
        "A screw in a nut of another thread strips or shakes loose sooner than it looks; do not rely on one "
        "where someone can be hurt.",
    ),
    example={"bolt": "2 BA", "nut": "3/16 BSF"},
    draw=_draw,
)
