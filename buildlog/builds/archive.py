"""A build with its photographs as one ZIP file: `build.json` and `photographs/<digest>.jpg`, all stored.

Equal builds with equal photographs give equal bytes. Reading trusts nothing: every name, count and size is
looked at before anything is unpacked, and nothing is ever written to where the archive says.
"""

from __future__ import annotations

import re
import stat
import struct
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from hashlib import sha256
from typing import IO

from buildlog.pictures.reading import LARGEST_FILE as LARGEST_PICTURE
from calculators.planning.buildfile.parsing import LARGEST_FILE as LARGEST_BUILD
from calculators.planning.files import read_build, write_build
from calculators.planning.model import Build
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

BUILD_NAME = "build.json"
FOLDER = "photographs/"
MOST_FILES = 5_000
MOST_BYTES = 1024 * 1024 * 1024
"""The most that all files of an archive come to when they are unpacked [bytes]."""
MOST_DIRECTORY = 4 * 1024 * 1024
"""The largest list of files at the end of an archive [bytes]; it is read whole."""
MOST_FAULTS = 50

_PICTURE = re.compile(r"photographs/([0-9a-f]{64})\.jpg")
_END = b"PK\x05\x06"
_LARGE_END = b"PK\x06\x07"


def digests_of(build: Build) -> tuple[str, ...]:
    """The digests of a build's photographs, each once, in the order of its entries."""
    return tuple(dict.fromkeys(one.digest for entry in build.entries for one in entry.photographs))


def write_archive(build: Build, picture: Callable[[str], bytes | None], out: IO[bytes]) -> tuple[str, ...]:
    """Write a build and its photographs; `picture` gives the JPEG file of a digest.

    Returns the digests that there was no photograph for.
    """
    missing: list[str] = []
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        archive.writestr(_entry(BUILD_NAME), write_build(build))
        for digest in digests_of(build):
            data = picture(digest)
            if data is None:
                missing.append(digest)
            else:
                archive.writestr(_entry(f"{FOLDER}{digest}.jpg"), data)
    return tuple(missing)


def _entry(name: str) -> zipfile.ZipInfo:
    """The same for equal names: no clock, no system."""
    info = zipfile.ZipInfo(name, date_time=(1980, 1, 1, 0, 0, 0))
    info.create_system, info.external_attr = 3, (stat.S_IFREG | 0o644) << 16
    return info


def is_archive(start: bytes) -> bool:
    """Whether a file that begins so is a ZIP file."""
    return start[:2] == b"PK"


class Archive:
    """An archive that was looked through and is sound: its build, and the photographs that it has."""

    def __init__(self, zipped: zipfile.ZipFile) -> None:
        self._zipped = zipped
        self._pictures = _looked_through(zipped)
        self.build = read_build(self._read(BUILD_NAME, LARGEST_BUILD))

    def pictures(self) -> Iterator[tuple[str, bytes]]:
        """Each photograph that the build shows and the archive has: its digest and its file.

        Raises InputError for one whose file is not what its name says.
        """
        for digest in digests_of(self.build):
            if digest in self._pictures:
                name = f"{FOLDER}{digest}.jpg"
                data = self._read(name, LARGEST_PICTURE)
                if sha256(data).hexdigest() != digest:
                    says = f"{quoted(name)} is not the photograph that its name says: it was changed since."
                    raise InputError.of(says, field=name)
                yield digest, data

    def _read(self, name: str, most: int) -> bytes:
        try:
            with self._zipped.open(name) as file:
                return file.read(most + 1)
        except Exception as problem:  # what is cut off, wrongly summed or wrongly packed raises many things
            says = f"{quoted(name)} in the archive is damaged; fetch the archive again."
            raise InputError.of(says, field=name) from problem


@contextmanager
def open_archive(file: IO[bytes]) -> Iterator[Archive]:
    """Open an archive, look through it, and read its build. Raises InputError."""
    _check_end(file)
    try:
        zipped = zipfile.ZipFile(file)
    except Exception as problem:  # a hostile list of files raises many things
        raise _broken() from problem
    with zipped:
        yield Archive(zipped)


def _broken() -> InputError:
    return InputError.of("The archive breaks off or is no ZIP file; fetch it again.")


def _check_end(file: IO[bytes]) -> None:
    """Refuse an archive whose list of files is too long to be read into memory."""
    size = file.seek(0, 2)
    start = max(0, size - 66_000)
    file.seek(start)
    tail = file.read()
    file.seek(0)
    at = tail.rfind(_END)
    if at < 0 or len(tail) < at + 22:
        raise _broken()
    count, length = struct.unpack("<HI", tail[at + 10 : at + 16])
    is_large = tail[max(0, at - 20) : at].startswith(_LARGE_END)
    if is_large or count > MOST_FILES or length > MOST_DIRECTORY:
        raise InputError.of(
            f"The archive holds more than the {MOST_FILES:,} files that are read.", limit=float(MOST_FILES)
        )


def _looked_through(zipped: zipfile.ZipFile) -> set[str]:
    """The digests of the photographs in an archive; InputError with all that is wrong with its files."""
    faults: list[str] = []
    seen: set[str] = set()
    pictures: set[str] = set()
    infos = zipped.infolist()
    if len(infos) > MOST_FILES:
        raise InputError.of(f"The archive holds more than the {MOST_FILES:,} files that are read.")
    for info in infos:
        if info.is_dir() and info.filename == FOLDER and not info.file_size:
            continue
        says = _fault_of(info, seen)
        if says:
            faults.append(says)
        seen.add(info.filename)
        found = _PICTURE.fullmatch(info.filename)
        if found:
            pictures.add(found[1])
    total = sum(info.file_size for info in infos)
    if total > MOST_BYTES:
        faults.insert(0, f"Unpacked, the archive has {total:,} bytes; at most {MOST_BYTES:,} are read.")
    if BUILD_NAME not in seen:
        faults.insert(0, f"The archive has no {BUILD_NAME}; it is not one that a build was kept in.")
    if faults:
        told = [Fault(says) for says in faults[:MOST_FAULTS]]
        more = len(faults) - len(told)
        raise InputError(*told, *([Fault(f"And {more} more.")] if more else []))
    return pictures


def _fault_of(info: zipfile.ZipInfo, seen: set[str]) -> str:
    """What is wrong with one file of an archive, or nothing."""
    name = quoted(info.filename)
    is_picture = _PICTURE.fullmatch(info.filename)
    if info.filename != BUILD_NAME and not is_picture:
        return f"The archive holds {name}; it may hold {BUILD_NAME} and {FOLDER}<digest>.jpg alone."
    if info.filename in seen:
        return f"The archive holds {name} twice."
    kind = stat.S_IFMT(info.external_attr >> 16)
    if kind not in (0, stat.S_IFREG):
        return f"{name} in the archive is no plain file."
    if info.flag_bits & 0x1:
        return f"{name} in the archive is locked with a password; keep it without one."
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        return f"{name} in the archive is packed in a way that is not read; use plain ZIP."
    most = LARGEST_PICTURE if is_picture else LARGEST_BUILD
    if info.file_size > most:
        return f"{name} in the archive has {info.file_size:,} bytes unpacked; it may have {most:,}."
    return ""
