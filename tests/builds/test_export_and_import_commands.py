"""`manage.py export` and `manage.py import`: what is written is read back the same, byte for byte."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from dataclasses import replace
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings

from buildlog.builds.actions import begin_build, undo
from buildlog.builds.keeping import read_in
from buildlog.builds.lookup import DEMONSTRATION, demonstration_build, demonstration_numbers
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import _PLAIN, plain_of
from buildlog.pictures.actions import keep_picture
from buildlog.pictures.models import Picture
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning import model as plain
from calculators.planning.files import read_build, write_build
from tests.builds.test_archive import photograph, with_photographs
from tests.planning.strategies import builds

pytestmark = pytest.mark.database
ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def shop(db: None) -> Workshop:
    return Workshop.objects.create(name="The shed", slug="the-shed")


@pytest.fixture
def ann(shop: Workshop) -> Person:
    person = Person.objects.create(username="ann", name="Ann")
    Membership.objects.create(person=person, workshop=shop, role=Role.OWNER)
    return person


def said(*words: str, **options: object) -> str:
    out = StringIO()
    call_command(*words, stdout=out, **options)
    return out.getvalue().strip()


def refused(*words: str) -> str:
    with pytest.raises(CommandError) as caught:
        call_command(*words)
    assert caught.value.returncode == 2
    return str(caught.value)


def fresh(row: Build) -> plain.Build:
    _PLAIN._things.clear()
    return plain_of(Build.rows.get(pk=row.pk))


@pytest.mark.parametrize("number", demonstration_numbers())
def test_a_demonstration_build_goes_in_and_comes_out_the_same(
    number: str, shop: Workshop, tmp_path: Path
) -> None:
    file, out, archive, second = (
        DEMONSTRATION / f"{number}.json",
        *(tmp_path / n for n in ("a.json", "a.zip", "b.zip")),
    )
    assert f"{number} " in said("import", str(file))
    row = Build.rows.get()
    assert fresh(row) == demonstration_build(number)
    assert said("export", number, "-o", str(out)) == ""
    assert out.read_bytes() == file.read_bytes()
    said("export", number, "-o", str(archive))
    row.delete()
    said("import", str(archive))
    said("export", number, "-o", str(second))
    assert second.read_bytes() == archive.read_bytes()
    assert fresh(Build.rows.get()) == demonstration_build(number)


@hypothesis_settings(
    max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
@given(build=builds())
def test_any_build_goes_in_and_comes_out_the_same(shop: Workshop, build: plain.Build) -> None:
    Build.rows.all().delete()
    data = write_build(build)
    done = read_in(shop, None, BytesIO(data), "x.json")
    assert fresh(done.row) == read_build(data) == build
    assert write_build(fresh(done.row)) == data


def test_photographs_go_along_and_come_back_the_same(shop: Workshop, ann: Person, tmp_path: Path) -> None:
    one, other = photograph(), photograph(10)
    for read in (one, other):
        keep_picture(shop, read)
    begin_build(shop, ann, with_photographs(one, other), "Begun")
    first, second = tmp_path / "a.zip", tmp_path / "b.zip"
    said("export", "B1", "-o", str(first))
    barn = Workshop.objects.create(name="Barn", slug="barn")
    assert said("import", str(first), workshop="barn") == "B1 Stool is in Barn now."
    assert sorted(barn.pictures.values_list("digest", flat=True)) == sorted([one.digest, other.digest])
    assert said("export", "B1", "-o", str(second), "--workshop", "barn") == ""
    assert second.read_bytes() == first.read_bytes()
    assert "2 workshops have a build" in refused("export", "B1", "-o", str(second))
    assert "2 workshops have a build" in refused("inspect", "B1")
    assert said("inspect", "B1", "--workshop", "barn").startswith("B1 Stool")


def test_photographs_that_are_missing_are_said_and_those_that_are_wrong_refused(
    shop: Workshop, tmp_path: Path
) -> None:
    one = photograph()
    alone, wrong = tmp_path / "a.json", tmp_path / "a.zip"
    alone.write_bytes(write_build(with_photographs(one)))
    assert "1 of its photographs is neither" in said("import", str(alone))
    assert "Without 1 photograph that" in said("export", "B1", "-o", str(tmp_path / "b.zip"))
    Build.rows.all().delete()
    with zipfile.ZipFile(wrong, "w") as made:
        made.writestr("build.json", alone.read_bytes())
        made.writestr(f"photographs/{one.digest}.jpg", b"\xff\xd8\xff nonsense")
    assert "is not the photograph that its name says" in refused("import", str(wrong))
    assert not Build.rows.exists()
    assert not Picture.objects.exists()


def test_a_photograph_with_more_in_it_than_the_picture_is_written_anew(
    shop: Workshop, tmp_path: Path
) -> None:
    from hashlib import sha256

    data = photograph().full[:-2] + b"\xff\xfe\x00\x0bsecrets!!\xff\xd9"
    digest = sha256(data).hexdigest()
    build = with_photographs(replace(photograph(), full=data, digest=digest))
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as made:
        made.writestr("build.json", write_build(build))
        made.writestr(f"photographs/{digest}.jpg", data)
    assert "1 of its photographs held more than the picture" in said("import", str(tmp_path / "a.zip"))
    kept = Picture.objects.get()
    assert b"secrets" not in bytes(kept.full)
    assert fresh(Build.rows.get()).entries[0].photographs[0].digest == kept.digest != digest


def test_a_number_that_is_there_is_refused_unless_another_is_said_or_it_is_replaced(
    shop: Workshop, ann: Person, tmp_path: Path
) -> None:
    file = tmp_path / "a.json"
    file.write_bytes(write_build(plain.Build("B1", "Stool", components=(plain.Component("P1", "seat"),))))
    said("import", str(file), "--by", "ann")
    assert refused("import", str(file)) == (
        "There is a build with the number 'B1' in The shed already: give this one another number (B2 is"
        " free), or replace the one that is there."
    )
    assert said("import", str(file), "--as", "B7") == "B7 Stool is in The shed now."
    assert said("import", str(file), "--replace") == "B1 was the same already; nothing was changed."
    file.write_bytes(write_build(plain.Build("B1", "High stool", components=(plain.Component("P2", "leg"),))))
    assert said("import", str(file), "--replace", "--by", "ann") == "B1 High stool is in The shed now."
    row = Build.rows.get(number="B1")
    change = Change.objects.filter(build=row).first()
    assert change is not None
    assert (change.says, change.person) == ("Read from 'a.json', in place of what was here", ann)
    assert [one.mark for one in fresh(row).components] == ["P2"]
    undo(row, ann)
    assert (fresh(row).title, [one.mark for one in fresh(row).components]) == ("Stool", ["P1"])


def test_which_workshop_and_who_must_be_clear(shop: Workshop, ann: Person, tmp_path: Path) -> None:
    file = tmp_path / "a.json"
    file.write_bytes(write_build(plain.Build("B1", "Stool")))
    assert "Nobody signs in to The shed as 'bob'; there are ann." in refused(
        "import", str(file), "--by", "bob"
    )
    Workshop.objects.create(name="Barn", slug="barn")
    assert refused("import", str(file)) == "There are 2 workshops; say which with --workshop: the-shed, barn."
    assert "No workshop is called 'attic'" in refused("import", str(file), "--workshop", "attic")
    assert "in Barn now" in said("import", str(file), "--workshop", "Barn")
    Workshop.objects.all().delete()
    assert "There is no workshop yet" in refused("import", str(file))


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "The file is empty"),
        (b'{"schema_version": 1, "number": "B', "breaks off"),
        (b"PK\x03\x04rest", "breaks off or is no ZIP file"),
        (b"\x89PNG", "not UTF-8"),
        (b'{"schema_version": 1, "number": "B/1", "title": "x", "components": [{"mark": "P1"}]}', "components[0]"),
    ],
)  # fmt: skip
def test_nothing_is_half_read(content: bytes, says: str, shop: Workshop, tmp_path: Path) -> None:
    file = tmp_path / "a.json"
    file.write_bytes(content)
    assert says in refused("import", str(file))
    assert not Build.rows.exists()


def test_the_words_of_the_commands_are_answered_in_sentences(shop: Workshop, tmp_path: Path) -> None:
    assert "Name a file that ends in .json or .zip." in refused(
        "export", "TW-31", "-o", str(tmp_path / "a.txt")
    )
    assert "There is no build with the number 'B9'" in refused("export", "B9", "-o", str(tmp_path / "a.zip"))
    assert "There is no file" in refused("import", str(tmp_path / "none.json"))
    assert "is a folder" in refused("import", str(tmp_path))


def test_from_outside_without_a_database(tmp_path: Path) -> None:
    def run(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, str(ROOT / "manage.py"), *words], capture_output=True, text=True, cwd=tmp_path, timeout=60,
            env={"PATH": "/usr/bin:/bin", "DATABASE_URL": "postgresql://nobody@127.0.0.1:9/none", "HOME": str(tmp_path)},
            check=False,
        )  # fmt: skip

    done = run("export", "TW-33", "-o", "a.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "a.json").read_bytes() == (DEMONSTRATION / "TW-33.json").read_bytes()
    done = run("import", "a.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("The database cannot be opened")
    done = run("import")
    assert (done.returncode, "arguments are required: file" in done.stderr) == (2, True)
