"""A photograph from outside made into two JPEG files that hold the picture and nothing else.

Whatever comes in is looked at before it is decoded (`formats`), decoded by the one decoder that its first
bytes name, and written anew: no position, camera, comment, thumbnail, profile or hidden tail passes.
Equal input gives equal bytes. One picture is decoded at a time in a process, which bounds the memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO
from threading import Lock
from types import ModuleType
from typing import BinaryIO

import pillow_heif
from PIL import Image, ImageCms, ImageFile

from buildlog.pictures.formats import KINDS
from buildlog.pictures.formats.looked import Damaged, Looked
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LARGEST_FILE = 40 * 1024 * 1024
"""The largest file that is taken [bytes]."""
MOST_PIXELS = 60_000_000
LONGEST_SIDE = 20_000
FULL_SIDE, SMALL_SIDE = 2_400, 480
"""The longest side of what is kept [px]; a smaller picture keeps its size."""
QUALITY = 85
LARGEST_PROFILE = 4 * 1024 * 1024

ACCEPTED = "JPEG, PNG, WebP, HEIC and GIF can be kept"
_OTHERS = (
    (b"%PDF", "a PDF"),
    (b"PK", "a ZIP or an office file"),
    (b"II*\0", "a TIFF or a raw photograph"),
    (b"MM\0*", "a TIFF or a raw photograph"),
    (b"BM", "a BMP"),
    (b"<", "a page or a drawing in text"),
    (b"\xef\xbb\xbf<", "a page or a drawing in text"),
)
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True, slots=True)
class ReadPicture:
    """A picture as it is kept: `full` and `small` are JPEG files, the rest is about `full`.

    `digest` is the SHA-256 of `full`.
    """

    full: bytes
    small: bytes
    width: int
    height: int
    digest: str


def read_picture(data: bytes | BinaryIO, name: str) -> ReadPicture:
    """Read a photograph; of a moving picture the first frame.

    `name` is what the person's file is called; it is only shown. Raises InputError with one sentence.
    """
    name = quoted(name)
    data = data if isinstance(data, bytes) else data.read(LARGEST_FILE + 1)
    if len(data) > LARGEST_FILE:
        raise _refused(f"{name} is larger than 40 MB; send a smaller copy of the photograph.")
    looked = _looked_at(data, name)
    try:
        with _ONE_AT_A_TIME:
            return _written(_decoded(looked))
    except Exception as problem:  # decoders that are fed with nonsense raise whatever they meet
        raise _damaged(name) from problem


def _refused(says: str, value: float | None = None, limit: float | None = None) -> InputError:
    return InputError.of(says, field="photographs", value=value, limit=limit)


def _damaged(name: str) -> InputError:
    return _refused(f"The picture {name} is cut off or damaged; send it again from where it was taken.")


def _looked_at(data: bytes, name: str) -> Looked:
    """Look at the file without decoding it, and refuse what is too large."""
    kind = _kind(data, name)
    try:
        looked: Looked = kind.look(data)
    except Exception as problem:  # as above, for the library that reads HEIF
        raise _damaged(name) from problem
    width, height = looked.width, looked.height
    if width < 1 or height < 1:
        raise _damaged(name)
    if max(width, height) > LONGEST_SIDE or width * height > MOST_PIXELS:
        raise _refused(
            f"The picture {name} has {width:,} × {height:,} pixels; at most {MOST_PIXELS // 1_000_000}"
            f" million of them and {LONGEST_SIDE:,} along a side can be kept. Send a smaller copy.",
            value=width * height,
            limit=MOST_PIXELS,
        )
    return looked


def _kind(data: bytes, name: str) -> ModuleType:
    for kind in KINDS:
        if kind.is_one(data):
            return kind
    if not data:
        raise _refused(f"The file {name} is empty; send the photograph again.")
    start = data[:64].lstrip()
    what = next((what for sign, what in _OTHERS if start.startswith(sign)), "")
    is_not = f"is {what}, not a photograph" if what else "is not a photograph that can be read here"
    raise _refused(f"{name} {is_not}; {ACCEPTED}.")


def _decoded(looked: Looked) -> Image.Image:
    """Decode, shrink, turn, and bring to 8-bit sRGB on white."""
    ImageFile.LOAD_TRUNCATED_IMAGES = False  # WeasyPrint sets it for the whole process when it is imported
    image: Image.Image
    if looked.format == "HEIF":
        image = pillow_heif.open_heif(BytesIO(looked.data)).to_pillow()
    else:
        image = Image.open(BytesIO(looked.data), formats=(looked.format,))
    if image.size != (looked.width, looked.height):
        raise Damaged(f"comes out as {image.size}")
    profile = image.info.get("icc_profile")
    if looked.format == "JPEG":
        image.draft(None, (FULL_SIDE * 3 // 2,) * 2)  # decodes at a half or a quarter where that is enough
    image.load()
    image = _plain_mode(image)
    image.thumbnail((FULL_SIDE, FULL_SIDE), Image.Resampling.LANCZOS, reducing_gap=2.0)
    if looked.turn in _TURNS:
        image = image.transpose(_TURNS[looked.turn])
    image = _in_srgb(_on_white(image), profile)
    image.info = {}
    return image


def _plain_mode(image: Image.Image) -> Image.Image:
    """One of L, RGB, RGBA and CMYK; 16 bits become 8."""
    mode = image.mode
    if mode.startswith("I"):
        return image.convert("I").point(lambda grey: grey * (1 / 256)).convert("L")
    if "transparency" in image.info or mode in ("LA", "La", "PA", "RGBa"):
        return image.convert("RGBA")
    if mode == "1":
        return image.convert("L")
    return image if mode in ("L", "RGB", "RGBA", "CMYK") else image.convert("RGB")


def _on_white(image: Image.Image) -> Image.Image:
    if image.mode != "RGBA":
        return image
    white = Image.new("RGB", image.size, "white")
    white.paste(image, mask=image.getchannel("A"))
    return white


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """By the picture's own profile; a profile that makes no sense is as none."""
    if profile and len(profile) <= LARGEST_PROFILE:
        try:
            own = ImageCms.ImageCmsProfile(BytesIO(profile))
            srgb = ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(image, own, srgb, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            turned = None
        if turned is not None:
            return turned
    return image.convert("RGB")


def _written(image: Image.Image) -> ReadPicture:
    small = image.copy()
    small.thumbnail((SMALL_SIDE, SMALL_SIDE), Image.Resampling.LANCZOS)
    full = _jpeg(image)
    return ReadPicture(full, _jpeg(small), image.width, image.height, sha256(full).hexdigest())


def _jpeg(image: Image.Image) -> bytes:
    file = BytesIO()
    image.save(file, "JPEG", quality=QUALITY, optimize=True)
    return file.getvalue()
