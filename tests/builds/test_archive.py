"""The archive of a build: the same bytes each time, and nothing that is hostile is read."""

from __future__ import annotations

import io
import stat
import zipfile
from contextlib import suppress
from dataclasses import replace
from datetime import date

import pytest
from PIL import Image

from buildlog.builds import archive
from buildlog.builds.archive import BUILD_NAME, FOLDER, open_archive, write_archive
from buildlog.pictures.reading import ReadPicture, read_picture
from calculators.planning.files import write_build
from calculators.planning.model import Build, Entry, Photograph
from calculators.quantities.errors import InputError

SOUND = write_build(Build("B1", "Stool"))


def photograph(shade: int = 90) -> ReadPicture:
    file = io.BytesIO()
    Image.new("RGB", (60, 30), (shade, 80, 70)).save(file, "PNG")
    return read_picture(file.getvalue(), "x.png")


def with_photographs(*read: ReadPicture) -> Build:
    shown = tuple(Photograph(f"f{i}", one.digest, one.width, one.height) for i, one in enumerate(read))
    return replace(
        Build("B1", "Stool"), entries=(Entry("e1", date(2024, 3, 31), "Glued up", photographs=shown),)
    )


def zipped(**files: bytes) -> bytes:
    """An archive as anybody could make it; `build` is build.json."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, data in files.items():
            made.writestr(BUILD_NAME if name == "build" else name, data)
    return out.getvalue()


def opened(data: bytes) -> Build:
    with open_archive(io.BytesIO(data)) as found:
        list(found.pictures())
        return found.build


def refused(data: bytes) -> str:
    with pytest.raises(InputError) as caught:
        opened(data)
    return str(caught.value)


def test_what_is_written_is_read_and_equal_builds_give_equal_bytes() -> None:
    one, other = photograph(), photograph(10)
    build = with_photographs(one, other, one)
    files = {each.digest: each.full for each in (one, other)}
    first, second = io.BytesIO(), io.BytesIO()
    assert write_archive(build, files.get, first) == ()
    assert write_archive(build, files.get, second) == ()
    assert first.getvalue() == second.getvalue()
    with zipfile.ZipFile(first) as found:
        assert found.namelist() == [BUILD_NAME, *(f"{FOLDER}{digest}.jpg" for digest in files)]
        assert {info.compress_type for info in found.infolist()} == {zipfile.ZIP_STORED}
        assert {info.date_time for info in found.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    with open_archive(first) as read:
        assert read.build == build
        assert dict(read.pictures()) == files


def test_a_photograph_that_is_not_to_be_had_is_named() -> None:
    one, other = photograph(), photograph(10)
    out = io.BytesIO()
    assert write_archive(with_photographs(one, other), {one.digest: one.full}.get, out) == (other.digest,)
    with open_archive(out) as read:
        assert [digest for digest, _ in read.pictures()] == [one.digest]


@pytest.mark.parametrize(
    "name",
    [
        "../build.json", "/etc/passwd", "photographs/../../x.jpg", "C:\\x", "inner.zip", "photographs/x.jpg",
        f"photographs/{'0' * 64}.jpg/x", "photographs/", "build.json/", "BUILD.JSON", "__MACOSX/x",
    ],
)  # fmt: skip
def test_nothing_but_a_build_and_its_photographs_is_taken(name: str) -> None:
    says = refused(zipped(**{"build": SOUND, name: b"x"}))
    assert "it may hold build.json and photographs/<digest>.jpg alone" in says


def test_a_folder_of_photographs_of_its_own_does_no_harm() -> None:
    assert opened(zipped(**{"build": SOUND, FOLDER: b""})).number == "B1"


def test_links_doubles_locks_and_strange_packing_are_refused() -> None:
    out = io.BytesIO()
    link = zipfile.ZipInfo(BUILD_NAME)
    link.create_system, link.external_attr = 3, (stat.S_IFLNK | 0o777) << 16
    with zipfile.ZipFile(out, "w") as made:
        made.writestr(link, "/etc/passwd")
        with pytest.warns(UserWarning, match="Duplicate name"):
            made.writestr(BUILD_NAME, SOUND)
    says = refused(out.getvalue())
    assert "is no plain file" in says
    assert "twice" in says
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_LZMA) as made:
        made.writestr(BUILD_NAME, SOUND)
    assert "packed in a way that is not read" in refused(out.getvalue())
    locked = bytearray(zipped(build=SOUND))
    locked[locked.rindex(b"PK\x01\x02") + 8] |= 1
    assert "password" in refused(bytes(locked))


def test_sizes_and_counts_are_looked_at_before_anything_is_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    bomb = zipped(**{"build": SOUND, f"{FOLDER}{'0' * 64}.jpg": bytes(50 * 1024 * 1024)})
    assert len(bomb) < 100_000
    assert "it may have 41,943,040" in refused(bomb)
    monkeypatch.setattr(archive, "MOST_BYTES", 1000)
    assert "Unpacked, the archive has" in refused(
        zipped(**{"build": SOUND, f"{FOLDER}{'0' * 64}.jpg": bytes(2000)})
    )
    monkeypatch.setattr(archive, "MOST_FILES", 3)
    assert "more than the 3 files" in refused(zipped(build=SOUND, a=b"", b=b"", c=b""))


def test_the_size_that_an_archive_states_is_all_that_is_unpacked() -> None:
    lying = bytearray(zipped(build=SOUND + b" " * 100_000))
    at = lying.rindex(b"PK\x01\x02")
    lying[at + 24 : at + 28] = (10).to_bytes(4, "little")
    assert "damaged" in refused(bytes(lying))


def test_what_breaks_off_or_is_something_else_gets_a_sentence() -> None:
    whole = zipped(build=SOUND)
    for data in (b"", b"PK", whole[:-30], whole[:40], b"PK\x05\x06" + bytes(18), whole[::-1], b"PK" * 5000):
        assert refused(data)
    for at in range(0, len(whole), 3):
        broken = bytearray(whole)
        broken[at] ^= 0xFF
        with suppress(InputError):  # nothing else may come of it
            assert opened(bytes(broken)).number == "B1"


def test_an_archive_without_a_build_or_with_half_of_one_is_refused() -> None:
    assert "has no build.json" in refused(zipped(**{f"{FOLDER}{'0' * 64}.jpg": b"x"}))
    assert "breaks off" in refused(zipped(build=SOUND[:-5]))


def test_a_photograph_that_is_not_what_its_name_says_is_refused() -> None:
    one, other = photograph(), photograph(10)
    says = refused(
        zipped(**{"build": write_build(with_photographs(one)), f"{FOLDER}{one.digest}.jpg": other.full})
    )
    assert "is not the photograph that its name says" in says
