"""Photographs in: every accepted kind, its colours and its turn; and what comes out holds nothing else."""

from __future__ import annotations

import struct
import zlib
from hashlib import sha256
from io import BytesIO

import pillow_heif
import pytest
from PIL import Image, ImageCms, ImageFile
from PIL.PngImagePlugin import PngInfo

from buildlog.pictures import reading
from buildlog.pictures.formats.exif import turn_in
from buildlog.pictures.reading import ReadPicture, read_picture
from calculators.quantities.errors import InputError

RED, GREEN, BLUE, WHITE = (200, 30, 30), (30, 160, 30), (30, 30, 200), (255, 255, 255)
SECRET = b"51 deg 28 min N"


def quarters(width: int = 64, height: int = 48, mode: str = "RGB") -> Image.Image:
    """Red above left, green above right, blue below left, white below right."""
    image = Image.new("RGB", (width, height), WHITE)
    image.paste(RED, (0, 0, width // 2, height // 2))
    image.paste(GREEN, (width // 2, 0, width, height // 2))
    image.paste(BLUE, (0, height // 2, width // 2, height))
    return image.quantize(8) if mode == "P" else image.convert(mode)


def saved(image: Image.Image, kind: str, **options: object) -> bytes:
    file = BytesIO()
    image.save(file, kind, **options)
    return file.getvalue()


def heif(image: Image.Image, **options: object) -> bytes:
    file = BytesIO()
    pillow_heif.from_pillow(image).save(file, quality=95, **options)
    return file.getvalue()


def opened(data: bytes) -> Image.Image:
    image = Image.open(BytesIO(data), formats=("JPEG",))
    image.load()
    return image


def corners(read: ReadPicture) -> list[str]:
    """The names of the colours in the four quarters: above left, above right, below left, below right."""
    image = opened(read.full)
    names = {RED: "red", GREEN: "green", BLUE: "blue", WHITE: "white"}
    found = []
    for y in (image.height // 4, 3 * image.height // 4):
        for x in (image.width // 4, 3 * image.width // 4):
            pixel = image.getpixel((x, y))
            found.append(
                next(
                    (
                        n
                        for c, n in names.items()
                        if max(abs(a - b) for a, b in zip(c, pixel, strict=True)) < 14
                    ),
                    str(pixel),
                )
            )
    return found


AS_TAKEN = ["red", "green", "blue", "white"]


def segments(jpeg: bytes) -> list[int]:
    """The markers of a JPEG, in order, up to its first scan, and what follows its end."""
    assert jpeg[:2] == b"\xff\xd8"
    found, at = [], 2
    while not found or found[-1] != 0xDA:
        assert jpeg[at] == 0xFF
        found.append(jpeg[at + 1])
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4])
    assert jpeg.endswith(b"\xff\xd9")
    return found


@pytest.mark.parametrize(
    "data",
    [
        saved(quarters(), "JPEG", quality=95),
        saved(quarters(), "JPEG", quality=95, progressive=True),
        saved(quarters(), "PNG"),
        saved(quarters(mode="P"), "PNG"),
        saved(quarters(), "PNG", interlace=1),
        saved(quarters(), "WEBP", lossless=True),
        saved(quarters(), "WEBP", quality=95),
        saved(quarters(mode="RGBA"), "WEBP", lossless=True, exact=True, exif=b"Exif\0\0MM\0*\0\0\0\x08\0\0"),
        saved(quarters(), "GIF"),
        heif(quarters()),
    ],
    ids=[
        "jpeg",
        "progressive",
        "png",
        "palette",
        "interlaced",
        "webp",
        "lossy-webp",
        "webp-parts",
        "gif",
        "heic",
    ],
)
def test_every_accepted_kind_comes_out_as_it_was(data):
    read = read_picture(data, "IMG_0001")
    assert corners(read) == AS_TAKEN
    assert (read.width, read.height) == opened(read.full).size == opened(read.small).size == (64, 48)
    assert read.digest == sha256(read.full).hexdigest()
    assert opened(read.full).mode == "RGB"
    assert set(segments(read.full)) <= {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}
    assert set(segments(read.small)) <= {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}


def test_a_file_is_read_as_its_bytes_are():
    data = saved(quarters(), "PNG")
    assert read_picture(BytesIO(data), "x") == read_picture(data, "x") == read_picture(data, "another name")


@pytest.mark.parametrize(("width", "height", "full", "small"), [
    (3000, 1500, (2400, 1200), (480, 240)),
    (1000, 4800, (500, 2400), (100, 480)),
    (2400, 2400, (2400, 2400), (480, 480)),
    (480, 100, (480, 100), (480, 100)),
    (1, 1, (1, 1), (1, 1)),
    (20_000, 1, (2400, 1), (480, 1)),
])  # fmt: skip
def test_the_longest_side_is_bounded_and_nothing_is_enlarged(width, height, full, small):
    for kind in ("JPEG", "PNG"):
        read = read_picture(saved(quarters(width, height), kind), "x")
        assert (read.width, read.height) == opened(read.full).size == full
        assert opened(read.small).size == small


# Exif 2.32, 4.6.4 A, tag 0x0112 [from memory]: what row 0 and column 0 of the stored picture are to the eye.
TURNED = {
    1: ["red", "green", "blue", "white"],
    2: ["green", "red", "white", "blue"],
    3: ["white", "blue", "green", "red"],
    4: ["blue", "white", "red", "green"],
    5: ["red", "blue", "green", "white"],
    6: ["blue", "red", "white", "green"],
    7: ["white", "green", "blue", "red"],
    8: ["green", "white", "red", "blue"],
}


def exif_with(turn: int) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = turn
    exif[0x010E] = SECRET.decode()  # the description
    gps = exif.get_ifd(0x8825)
    gps[2] = (51.0, 28.0, 38.0)
    return exif.tobytes()


@pytest.mark.parametrize("turn", TURNED)
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_picture_is_turned_as_the_camera_was_held(kind, turn):
    read = read_picture(saved(quarters(), kind, exif=exif_with(turn), quality=95), "x")
    assert corners(read) == TURNED[turn]
    assert (read.width, read.height) == ((64, 48) if turn < 5 else (48, 64))
    assert SECRET not in read.full + read.small
    assert b"Exif" not in read.full + read.small


def test_a_phones_heic_is_turned_once():
    assert corners(read_picture(heif(quarters(), exif=exif_with(6)), "x")) == TURNED[6]


@pytest.mark.parametrize(
    "exif",
    [
        b"",
        b"II*\0",
        b"II*\0\xff\xff\xff\xff\0\0",
        b"II*\0\x08\0\0\0\xff\xff",
        b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x09\0\0",  # turn 9
        b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x04\0\0\0\x01\0\0\0\x06",  # not a short
        b"nothing of the kind",
    ],
)
def test_exif_that_makes_no_sense_turns_nothing(exif):
    assert turn_in(exif) == 1
    data = saved(quarters(), "JPEG", quality=95)
    head = b"\xff\xe1" + struct.pack(">H", 8 + len(exif)) + b"Exif\0\0" + exif
    assert corners(read_picture(data[:2] + head + data[2:], "x")) == AS_TAKEN


def test_alpha_lies_on_white():
    clear = Image.new("RGBA", (40, 40), (200, 30, 30, 0))
    half = Image.new("RGBA", (40, 40), (0, 0, 0, 128))
    for kind in ("PNG", "WEBP"):
        assert opened(read_picture(saved(clear, kind), "x").full).getpixel((20, 20)) == WHITE
        assert opened(read_picture(saved(half, kind), "x").full).getpixel((20, 20)) == pytest.approx(
            (127,) * 3, abs=2
        )
    grey = Image.merge("LA", (Image.new("L", (40, 40), 0), Image.new("L", (40, 40), 0)))
    assert opened(read_picture(saved(grey, "PNG"), "x").full).getpixel((20, 20)) == WHITE
    keyed = saved(Image.new("RGB", (40, 40), RED), "PNG", transparency=RED)
    assert opened(read_picture(keyed, "x").full).getpixel((20, 20)) == WHITE


def test_grey_bits_and_sixteen_bits_become_eight():
    grey16 = Image.new("I;16", (40, 40), 0x8000)
    assert opened(read_picture(saved(grey16, "PNG"), "x").full).getpixel((20, 20)) == pytest.approx(
        (128,) * 3, abs=1
    )
    assert opened(read_picture(saved(Image.new("L", (40, 40), 77), "PNG"), "x").full).getpixel(
        (9, 9)
    ) == pytest.approx((77,) * 3, abs=1)
    assert opened(read_picture(saved(Image.new("1", (40, 40), 1), "PNG"), "x").full).getpixel((9, 9)) == WHITE


def test_a_print_shops_cmyk_becomes_rgb():
    cyan = opened(
        read_picture(saved(Image.new("CMYK", (40, 40), (255, 0, 0, 0)), "JPEG"), "x").full
    ).getpixel((9, 9))
    assert cyan[0] < 60 < 150 < min(cyan[1:])


def test_colours_follow_the_profile_and_the_profile_is_left_out():
    """A profile whose red and blue are exchanged shows that it was used."""
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    red, blue = srgb.index(b"rXYZ"), srgb.index(b"bXYZ")
    exchanged = bytearray(srgb)
    exchanged[red : red + 4], exchanged[blue : blue + 4] = b"bXYZ", b"rXYZ"
    plain = Image.new("RGB", (40, 40), (200, 0, 0))
    pixel = opened(
        read_picture(saved(plain, "JPEG", quality=95, icc_profile=bytes(exchanged)), "x").full
    ).getpixel((9, 9))
    assert pixel[2] > 150 > 60 > pixel[0]
    same = read_picture(saved(plain, "JPEG", quality=95, icc_profile=srgb), "x")
    assert opened(same.full).getpixel((9, 9)) == pytest.approx((200, 0, 0), abs=3)
    for profile in (b"no profile", srgb[:200], srgb[:128] + bytes(300)):
        read = read_picture(saved(plain, "JPEG", quality=95, icc_profile=profile), "x")
        assert opened(read.full).getpixel((9, 9)) == pytest.approx((200, 0, 0), abs=3)
        assert b"ICC" not in read.full


def test_comments_thumbnails_and_texts_are_left_out():
    text = PngInfo()
    text.add_text("Comment", SECRET.decode())
    text.add_itxt("XML:com.adobe.xmp", SECRET.decode())
    png = saved(quarters(), "PNG", pnginfo=text)
    jpeg = saved(quarters(), "JPEG", comment=SECRET, xmp=SECRET, quality=95)
    assert SECRET in png
    assert SECRET in jpeg
    for data in (png, jpeg):
        read = read_picture(data, "x")
        assert SECRET not in read.full + read.small
        assert corners(read) == AS_TAKEN


def test_of_a_moving_picture_the_first_frame_is_kept():
    second = Image.new("RGB", (64, 48), BLUE)
    for kind, more in (("GIF", {}), ("PNG", {}), ("WEBP", {"lossless": True})):
        moving = saved(quarters(), kind, save_all=True, append_images=[second], duration=100, **more)
        assert corners(read_picture(moving, "x")) == AS_TAKEN, kind


def test_equal_bytes_in_give_equal_bytes_out():
    for data in (saved(quarters(3000, 2000), "JPEG"), heif(quarters()), saved(quarters(), "WEBP")):
        assert read_picture(data, "a") == read_picture(data, "b")


def test_truncated_pictures_are_never_filled_up_whatever_another_library_has_set(monkeypatch):
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    whole = saved(quarters(), "PNG", compress_level=0)
    at = whole.index(b"IDAT")
    length = int.from_bytes(whole[at - 4 : at]) // 2
    body = whole[at : at + 4 + length]
    cut = (
        whole[: at - 4] + struct.pack(">I", length) + body + struct.pack(">I", zlib.crc32(body)) + whole[-12:]
    )
    with pytest.raises(InputError, match="is cut off or damaged"):
        read_picture(cut, "x")


def test_pixels_are_refused_beyond_the_limits_and_not_before(monkeypatch):
    monkeypatch.setattr(reading, "MOST_PIXELS", 64 * 48)
    monkeypatch.setattr(reading, "LONGEST_SIDE", 64)
    assert read_picture(saved(quarters(64, 48), "PNG"), "x").width == 64
    for width, height in ((64, 49), (65, 40)):
        with pytest.raises(InputError, match=rf"has {width} × {height} pixels"):
            read_picture(saved(quarters(width, height), "PNG"), "x")


def test_file_size_is_refused_beyond_the_limit_and_not_before(monkeypatch):
    data = saved(quarters(), "PNG")
    monkeypatch.setattr(reading, "LARGEST_FILE", len(data))
    assert read_picture(BytesIO(data), "x").width == 64
    monkeypatch.setattr(reading, "LARGEST_FILE", len(data) - 1)
    for given in (data, BytesIO(data)):
        with pytest.raises(
            InputError, match=r"^'x' is larger than 40 MB; send a smaller copy of the photograph\.$"
        ):
            read_picture(given, "x")
