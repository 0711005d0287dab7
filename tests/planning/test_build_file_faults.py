"""What is wrong with a build file is said in sentences, at its place, all at once; nothing else is ever raised."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from calculators.planning.files import read_build, write_build
from calculators.quantities import InputError
from tests.planning.strategies import builds

PART = {"mark": "P01", "name": "Base"}
HEAD = {"schema_version": 1, "number": "B1", "title": "Box"}


def faults_of(data: bytes | str | dict[str, Any]) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        read_build(json.dumps(data) if isinstance(data, dict) else data)
    return [(fault.field, fault.says) for fault in caught.value.faults]


def components(*more: dict[str, Any]) -> dict[str, Any]:
    return {**HEAD, "components": [PART, *more]}


def of_part(**more: Any) -> dict[str, Any]:
    return {**HEAD, "components": [{**PART, **more}]}


def of_joint(**more: Any) -> dict[str, Any]:
    return {
        **components(),
        "joints": [{"mark": "F1", "title": "t", "fastener": "M5 x 20 csk slotted brass", **more}],
    }


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "The file is empty; a build file is a JSON object."),
        ("[]", "A build file is a JSON object, not a list."),
        (b'{"number": "B1",\n "ti', "The file breaks off: what begins at line 2, column 2 has no end."),
        ('{"number": "B1",', "The file breaks off: what begins at line 1, column 17 has no end."),
        ('{"number": x}', "The file is not JSON at line 1, column 12, at 'x}': expecting value."),
        (
            b'{"number":\n"\xff"}',
            "The file is not UTF-8 text: byte 13, in line 2, cannot be read; save it as UTF-8.",
        ),
        ("[" * 100_000, "The file is nested far deeper than any build is."),
        ('{"number": "B"}', 'This is no build file: it has no "schema_version"; write "schema_version": 1.'),
        (
            '{"schema_version": 7, "anything": 1}',
            "This file is of version 7 of the build file, which is newer than version 1 that is read here; "
            "read it with a newer Oddleg.",
        ),
        ('{"schema_version": "1"}', "The version of a build file is 1, not the text '1'."),
        ('{"schema_version": 0}', "The version of a build file is 1, not the number 0."),
        ('{"schema_version": NaN}', "The version of a build file is 1, not the number NaN."),
    ],
)
def test_a_file_that_is_no_build_file_gets_one_sentence(data: bytes | str, says: str) -> None:
    assert [sentence for _, sentence in faults_of(data)] == [says]


def test_a_file_above_the_limit_is_refused_unread() -> None:
    (fault,) = faults_of(b" " * (64 * 1024 * 1024 + 1))
    assert fault[1] == "The file has 67,108,865 bytes; a build file has at most 67,108,864."


def test_a_file_of_millions_of_values_is_refused_before_they_fill_the_memory() -> None:
    (fault,) = faults_of(b"[" + b"1," * 4_000_001 + b"1]")
    assert fault[1] == "The file has 4,000,001 commas; a build file has at most 4,000,000 values."


SIZE = "components[0] (P01).size"
DIGITS = "9" * 5000


@pytest.mark.parametrize(
    ("data", "field", "says"),
    [
        ({**HEAD, "number": "2024/17"}, "number", "'2024/17' cannot stand in an address; write it without a slash, such as 2024-17."),
        ({**HEAD, "number": ".."}, "number", "'..' cannot stand in an address; write it without a slash, such as 2024-17."),
        (of_part(nam="x"), "components[0] (P01)", "Nothing here is called 'nam'; did you mean name?"),
        (of_part(quantity="2"), "components[0] (P01).quantity", "Here stands a whole number from 1 to 100,000, not the text '2'."),
        (of_part(quantity=True), "components[0] (P01).quantity", "Here stands a whole number from 1 to 100,000, not true."),
        (of_part(quantity=0), "components[0] (P01).quantity", "Here stands a whole number from 1 to 100,000, not the number 0."),
        (of_part(name=None), "components[0] (P01).name", "Here stands a text in quotes, not null (leave out what there is nothing to say of)."),
        (of_part(name="a\nb"), "components[0] (P01).name", "'a?b' has a line break; write it on one line."),
        (of_part(note="\x00"), "components[0] (P01).note", "'?' has a character that no text can hold; take it out."),
        (of_part(note="\ud800"), "components[0] (P01).note", "'?' has a character that no text can hold; take it out."),
        (of_part(name="x" * 201), "components[0] (P01).name", "This text has 201 characters; it may have 200."),
        (of_part(reused=1), "components[0] (P01).reused", "Here stands true or false without quotes, not the number 1."),
        (of_part(poses={}), "components[0] (P01).poses", "Here stands a list in square brackets, not an object."),
        (of_part(size={"length": "abc"}), f"{SIZE}.length", "'abc' cannot be read as a length; write it as 31.75, 31.75 mm, 1 1/4 in, 3/8\", 5' 3\", 10 thou or 20 SWG."),
        (of_part(size={"length": 0}), f"{SIZE}.length", "'0' is out of reason here; write more than 0 mm and at most 100,000 mm."),
        (of_part(size={"length": {"mm": "-2"}}), f"{SIZE}.length", "-2 mm is out of reason here; write more than 0 mm and at most 100,000 mm."),
        (of_part(size={"length": {"written": "1 in", "mm": "25"}}), f"{SIZE}.length.written", "'1 in' is 25.4 mm, but beside it stands 25 mm; write the one that is meant."),
        (of_part(size={"length": {"mn": "25"}}), f"{SIZE}.length", "A length has no 'mn'; it has written, mm and unit."),
        (of_part(size={"length": {}}), f"{SIZE}.length", 'A length needs "written", "mm" or both.'),
        (of_part(size={"length": {"mm": "1e3"}}), f"{SIZE}.length.mm", 'Here stand exact millimetres such as "44.45", with at most 7 places, not the text \'1e3\'.'),
        (of_part(size={"length": {"mm": "1", "unit": "cm"}}), f"{SIZE}.length.unit", "Here stands \"mm\" or \"in\", not the text 'cm'."),
        (of_part(size={"shape": "round", "diameter": 10, "bore": "10 mm"}), f"{SIZE}.bore", "The bore of 10 mm is not less than the diameter of 10."),
        (of_part(size={"shape": "round"}, holes=[{"id": "h", "face": "top", "u": 1, "v": 1}]), "components[0] (P01).holes[0] (h).face", "P01 is a round and has no top; it has left, right, side."),
        (of_part(holes=[{"id": "h", "face": "side", "u": 1, "v": 1}]), "components[0] (P01).holes[0] (h).v", "On the side of a round the place is given by u and angle_deg, not v."),
        (of_part(holes=[{"id": "h", "face": "top", "u": 1}]), "components[0] (P01).holes[0] (h)", "The place is not whole: give v beside u."),
        (of_part(poses=[{"copy": 2}]), "components[0] (P01).poses[0].copy", "There is no copy 2 of P01: it is there 1 times."),
        (of_part(poses=[{}, {}]), "components[0] (P01).poses[1].copy", "Copy 1 of P01 lies somewhere already; keep one."),
        (of_part(poses=[{"on": "P01"}]), "components[0] (P01).poses[0].on", "P01 lies on itself: what it lies on leads back to it."),
        (of_part(poses=[{"turned_deg": float("nan")}]), "components[0] (P01).poses[0].turned_deg", 'Here stands a decimal number from -360 to 360 with at most 12 places, such as "12.5", not the number NaN.'),
        (of_part(stock="plank"), "components[0] (P01).stock", "Here stands one of \"\", \"board\", \"sheet\", \"bar\", \"tube\", \"turned\", \"bought\", not the text 'plank'."),
        (of_part(mark="P 1"), "components[0].mark", "'P 1' is not a mark; write letters, digits and hyphens, beginning with a letter or digit, at most 20."),
        (of_part(parent="P01"), "components[0] (P01).parent", "P01 is inside itself: its parents lead back to it."),
        (of_part(parent="P09"), "components[0] (P01).parent", "There is no component 'P09'."),
        (components(PART), "components[1].mark", "The mark 'P01' is used already by components[0].mark; give it another."),
        (of_joint(mark="P01"), "joints[0].mark", "The mark 'P01' is used already by components[0].mark; give it another."),
        (of_joint(home="P10"), "joints[0] (F1).home", "There is no component 'P10'; did you mean P01?"),
        (of_joint(home="P01.2"), "joints[0] (F1).home", "There is no copy 'P01.2': P01 is there 1 times."),
        (of_joint(stack=[{}]), "joints[0] (F1).stack[0]", 'A member of a stack has either "part" or "item".'),
        (of_joint(stack=[{"part": "P01", "item": "M5 full nut"}]), "joints[0] (F1).stack[0]", 'A member of a stack has either "part" or "item".'),
        (of_joint(stack=[{"part": "P01", "holes": [{"places": ["9"]}]}]), "joints[0] (F1).stack[0].holes[0].places[0]", "This joint has no place '9'."),
        (of_joint(fixed_place="9"), "joints[0] (F1).fixed_place", "This joint has no place '9'."),
        (of_joint(stack=[{"item": "M5 x 20 csk slotted brass"}]), "joints[0] (F1).stack[0].item", "'M5 x 20 csk slotted brass' is a fastener; here stands a washer, nut or insert."),
        ({**components(), "steps": [{"number": 1, "title": "t", "fits": ["P02"]}]}, "steps[0].fits[0]", "There is no component or joint 'P02'; did you mean P01?"),
        ({**components(), "steps": [{"number": 1, "title": "t", "closes": ["Q"]}]}, "steps[0].closes[0]", "There is no component or joint 'Q'."),
        ({**HEAD, "entries": [{"id": "e", "date": "2024-02-30", "text": "x"}]}, "entries[0] (e).date", "Here stands a date such as \"2024-03-31\", not the text '2024-02-30'."),
        ({**HEAD, "entries": [{"id": "e", "date": "2024-02-28", "text": "x", "marks": ["Q"]}]}, "entries[0] (e).marks[0]", "There is no component or joint 'Q'."),
    ],
)  # fmt: skip
def test_each_fault_has_its_place_and_its_sentence(data: dict[str, Any], field: str, says: str) -> None:
    assert faults_of(data) == [(field, says)]


def test_a_huge_number_is_refused_without_being_worked_out() -> None:
    data = f'{{"schema_version": 1, "number": "B", "title": "t", "steps": [{{"number": {DIGITS}, "title": "x"}}]}}'
    (fault,) = faults_of(data)
    assert fault == (
        "steps[0].number",
        f"Here stands a whole number from 0 to 1,000,000, not the number {'9' * 28}....",
    )


def test_a_repeated_name_is_a_fault_wherever_it_stands() -> None:
    data = (
        '{"schema_version": 1, "number": "B", "number": "C", "title": "t", "context": {"limits": {"a": 1, "a": 2}}, '
        '"components": [{"mark": "P1", "name": "n", "size": {"length": {"mm": "1", "mm": "1"}}}]}'
    )
    assert faults_of(data) == [
        ("", "'number' stands here more than once; keep one of them."),
        ("context.limits", "'a' stands here more than once; keep one of them."),
        ("components[0] (P1).size.length", "'mm' stands here more than once; keep one of them."),
    ]


def test_an_unreadable_line_of_hardware_carries_its_place_and_choices() -> None:
    with pytest.raises(InputError) as caught:
        read_build(json.dumps(of_joint(fastener="1/4 x 1 hex steel")))
    (fault,) = caught.value.faults
    assert fault.field == "joints[0] (F1).fastener"
    assert len(fault.choices) > 1


def test_all_faults_are_told_at_once_up_to_fifty() -> None:
    wrong = [{"mark": f"P{i}", "name": "n", "quantity": -1} for i in range(70)]
    faults = faults_of({**HEAD, "components": wrong})
    assert len(faults) == 51
    assert faults[49][0] == "components[49] (P49).quantity"
    assert faults[50] == ("", "And 20 more.")


def test_lines_are_not_read_once_enough_is_wrong() -> None:
    joints = [{"mark": f"F{i}", "title": "t", "fastener": f"{i}/4 x q"} for i in range(1, 20_000)]
    parts = [{"mark": f"P{i}", "name": "n", "quantity": -1} for i in range(60)]
    faults = faults_of({**HEAD, "components": parts, "joints": joints})
    assert faults[-1] == ("", "And at least 10 more.")
    assert len(faults) == 51


def test_too_many_entries_are_refused() -> None:
    (fault,) = faults_of({**HEAD, "components": [PART] * 20_001})
    assert fault == ("components", "This list has 20,001 entries; it may have 20,000.")


def test_a_ring_of_poses_through_several_parts_is_found_once() -> None:
    ring = [{"mark": f"P{i}", "name": "n", "poses": [{"on": f"P{(i + 1) % 5}"}]} for i in range(5)]
    assert faults_of({**HEAD, "components": ring}) == [
        ("components[0] (P0).poses[0].on", "P0 lies on itself: what it lies on leads back to it.")
    ]


def test_a_tower_of_sub_assemblies_is_neither_slow_nor_too_deep() -> None:
    tower = [{"mark": f"P{i}", "name": "n", **({"parent": f"P{i - 1}"} if i else {})} for i in range(20_000)]
    assert len(read_build(json.dumps({**HEAD, "components": tower})).components) == 20_000
    for one in tower:
        one["quantity"] = 9
    faults = faults_of({**HEAD, "components": tower})
    assert faults[0] == (
        "components[6] (P6).quantity",
        "There would be more than 1,000,000 copies of P6.",
    )  # 9^7


def raises_input_error_alone(data: bytes | str) -> None:
    """Read it; where it is refused, the refusal is sentences that can be printed. Any other error ends the test."""
    faults = ()
    try:
        read_build(data)
    except InputError as error:
        faults = error.faults
    assert len(faults) <= 51
    for fault in faults:
        assert fault.says.endswith((".", "?"))
        fault.says.encode()
        fault.field.encode()


@settings(max_examples=150, deadline=None)
@given(data=st.binary(max_size=200) | st.text(max_size=200))
@example(data="\ud800")
@example(data=b"\xef\xbb\xbf\xef\xbb\xbf{}")
def test_any_bytes_or_text_raise_input_error_alone(data: bytes | str) -> None:
    raises_input_error_alone(data)


ODD = st.sampled_from(
    [
        None,
        True,
        -1,
        1e300,
        10**400,
        "",
        "\ud800",
        "NaN",
        [],
        {},
        [[]],
        {"mm": []},
        {"written": 3},
        "P01.1",
        "9" * 70,
        "1/0",
    ]
)


def mutated(value: Any, draw: st.DrawFn) -> Any:
    """One value somewhere below is replaced, dropped, or doubled."""
    if isinstance(value, dict) and value and draw(st.integers(0, 5)):
        key = draw(st.sampled_from(list(value)))
        choice = draw(st.integers(0, 6))
        if choice == 0:
            return {k: v for k, v in value.items() if k != key}
        if choice == 1:
            return {**value, key + "x": value[key]}
        return {**value, key: mutated(value[key], draw)}
    if isinstance(value, list) and value and draw(st.integers(0, 5)):
        i = draw(st.integers(0, len(value) - 1))
        if draw(st.integers(0, 4)) == 0:
            return [*value, value[i]]
        return [*value[:i], mutated(value[i], draw), *value[i + 1 :]]
    return draw(ODD)


@st.composite
def mutated_files(draw: st.DrawFn) -> bytes | str:
    data = write_build(draw(builds()))
    if draw(st.booleans()):
        raw = json.loads(data)
        for _ in range(draw(st.integers(1, 3))):
            changed = mutated(raw, draw)
            raw = {**changed, "schema_version": 1} if isinstance(changed, dict) else raw
        return json.dumps(raw)
    at = draw(st.integers(0, len(data)))
    return data[:at] + draw(st.binary(max_size=3)) + data[at + draw(st.integers(0, 5)) :]


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=mutated_files())
def test_a_damaged_build_file_raises_input_error_alone(data: bytes | str) -> None:
    raises_input_error_alone(data)
