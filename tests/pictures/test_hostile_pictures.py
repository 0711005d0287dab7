"""Files that are cut off, mislabelled, or made to hurt: one plain sentence each, or made harmless."""

from __future__ import annotations

import struct
import time
import zlib
from collections.abc import Callable
from io import BytesIO
from zipfile import ZipFile

import pillow_heif
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from buildlog.pictures.formats import gif, jpeg
from buildlog.pictures.reading import read_picture
from calculators.quantities.errors import InputError
from tests.benchmarks.yardstick import yardstick

DAMAGED = "The picture 'x.jpg' is cut off or damaged; send it again from where it was taken."
ACCEPTED = "JPEG, PNG, WebP, HEIC and GIF can be kept."
SCRIPT = b"<script>alert(1)</script>"


def picture(kind: str, width: int = 60, height: int = 40, **options: object) -> bytes:
    image = Image.linear_gradient("L").resize((width, height)).convert("RGB")
    file = BytesIO()
    if kind == "HEIF":
        pillow_heif.from_pillow(image).save(file)
    else:
        image.save(file, kind, **options)
    return file.getvalue()


KINDS = ("JPEG", "PNG", "WEBP", "GIF", "HEIF")
WHOLE = {kind: picture(kind) for kind in KINDS}


def refusal(data: bytes, name: str = "x.jpg") -> str:
    with pytest.raises(InputError) as raised:
        read_picture(data, name)
    (fault,) = raised.value.faults
    assert fault.field == "photographs"
    assert "\n" not in fault.says
    return fault.says


def chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def png(width: int, height: int, *chunks: bytes, mode: bytes = b"\x08\x02\0\0\0") -> bytes:
    header = chunk(b"IHDR", struct.pack(">II", width, height) + mode)
    return b"\x89PNG\r\n\x1a\n" + header + b"".join(chunks) + chunk(b"IEND", b"")


def zipped() -> bytes:
    file = BytesIO()
    with ZipFile(file, "w") as archive:
        archive.writestr("index.html", SCRIPT)
    return file.getvalue()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "The file 'x.jpg' is empty; send the photograph again."),
        (b"<!doctype html><script>alert(1)</script>", f"'x.jpg' is a page or a drawing in text, not a photograph; {ACCEPTED}"),
        (b'\n <svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>', f"'x.jpg' is a page or a drawing in text, not a photograph; {ACCEPTED}"),
        (b"\xef\xbb\xbf<svg/>", f"'x.jpg' is a page or a drawing in text, not a photograph; {ACCEPTED}"),
        (b"%PDF-1.7\n%\xe2\xe3", f"'x.jpg' is a PDF, not a photograph; {ACCEPTED}"),
        (zipped(), f"'x.jpg' is a ZIP or an office file, not a photograph; {ACCEPTED}"),
        (b"BM" + bytes(60), f"'x.jpg' is a BMP, not a photograph; {ACCEPTED}"),
        (b"GIF88a" + bytes(60), f"'x.jpg' is not a photograph that can be read here; {ACCEPTED}"),
        (bytes(5000), f"'x.jpg' is not a photograph that can be read here; {ACCEPTED}"),
        (b"\xff\xd8", f"'x.jpg' is not a photograph that can be read here; {ACCEPTED}"),
        (b"push graphic-context\nfill 'url(http://localhost/)'", f"'x.jpg' is not a photograph that can be read here; {ACCEPTED}"),
    ],
)  # fmt: skip
def test_what_is_no_photograph_is_named(data, says):
    assert refusal(data) == says


@pytest.mark.parametrize("order", ["II", "MM"])
def test_a_tiff_is_refused_whatever_it_holds(order):
    """Tags that point at themselves, or at the end of the earth, are never followed."""
    sign = {"II": "<", "MM": ">"}[order]
    looped = (
        order.encode()
        + struct.pack(f"{sign}HIHHHII", 42, 8, 1, 0x0112, 3, 0xFFFFFFFF, 8)
        + struct.pack(f"{sign}I", 8)
    )
    assert refusal(looped) == f"'x.jpg' is a TIFF or a raw photograph, not a photograph; {ACCEPTED}"
    assert "TIFF" in refusal(picture("TIFF"))


def test_other_boxes_of_the_same_family_are_refused():
    for brand in (b"avif", b"mp42", b"qt  ", b"crx "):
        assert refusal(b"\0\0\0\x18ftyp" + brand + bytes(200)).endswith(ACCEPTED)


@pytest.mark.parametrize("kind", KINDS)
def test_a_picture_that_is_cut_off_anywhere_is_refused(kind):
    whole = picture(kind, 400, 300)
    for kept in (0.2, 0.5, 0.8, 0.95):
        assert refusal(whole[: int(len(whole) * kept)]) == DAMAGED
    assert refusal(whole[:-3]) == DAMAGED
    for length in range(30, 80, 7):
        assert refusal(whole[:length]) == DAMAGED


def test_a_picture_whose_data_is_missing_though_its_end_is_there():
    packed = zlib.compress(b"".join(b"\0" + bytes([row] * 180) for row in range(40)), 0)
    assert read_picture(png(60, 40, chunk(b"IDAT", packed)), "x").height == 40
    assert refusal(png(60, 40, chunk(b"IDAT", packed[: len(packed) // 2]))) == DAMAGED
    assert refusal(png(60, 40)) == DAMAGED
    cut = bytearray(WHOLE["PNG"])
    cut[60] ^= 0xFF  # its check sum tells
    assert refusal(bytes(cut)) == DAMAGED


@pytest.mark.parametrize("tail", [SCRIPT, zipped(), b"<?php system('id');?>", bytes(100_000), WHOLE["JPEG"]])
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "GIF", "WEBP"])
def test_what_hangs_on_at_the_end_is_left_behind(kind, tail):
    assert read_picture(WHOLE[kind] + tail, "x") == read_picture(WHOLE[kind], "x")


def test_a_page_hidden_in_a_picture_is_left_behind():
    comment = b"\xff\xfe" + struct.pack(">H", 2 + len(SCRIPT)) + SCRIPT
    app = b"\xff\xe5" + struct.pack(">H", 2 + len(SCRIPT)) + SCRIPT
    hidden = WHOLE["JPEG"][:2] + comment + app + WHOLE["JPEG"][2:]
    assert read_picture(hidden, "x") == read_picture(WHOLE["JPEG"], "x")
    head = WHOLE["GIF"][:13] + WHOLE["GIF"][13 : 13 + 768]
    hidden = head + b"\x21\xfe" + bytes([len(SCRIPT)]) + SCRIPT + b"\0" + WHOLE["GIF"][len(head) :]
    assert SCRIPT not in gif.look(hidden).data
    assert read_picture(hidden, "x") == read_picture(WHOLE["GIF"], "x")


def test_a_polyglot_that_begins_as_something_else_is_refused():
    assert refusal(b"GIF89a/*" + SCRIPT + b"*/=1;") == DAMAGED
    assert "ZIP" in refusal(zipped() + WHOLE["JPEG"])
    assert "PDF" in refusal(b"%PDF-1.4 " + WHOLE["JPEG"])


LIMIT = "at most 60 million of them and 20,000 along a side can be kept. Send a smaller copy."


def sized_jpeg(width: int, height: int) -> bytes:
    whole = WHOLE["JPEG"]
    at = whole.index(b"\xff\xc0") + 5
    return whole[:at] + struct.pack(">HH", height, width) + whole[at + 4 :]


def sized_gif(width: int, height: int) -> bytes:
    return WHOLE["GIF"][:6] + struct.pack("<HH", width, height) + WHOLE["GIF"][10:]


def sized_frame_in_gif(width: int, height: int) -> bytes:
    whole = WHOLE["GIF"]
    at = whole.index(b"\x2c\0\0\0\0" + struct.pack("<HH", 60, 40)) + 5
    return whole[:at] + struct.pack("<HH", width, height) + whole[at + 4 :]


def sized_webp(width: int, height: int) -> bytes:
    body = struct.pack("<I", 0)[:4] + (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little")
    chunks = b"VP8X" + struct.pack("<I", 10) + body + WHOLE["WEBP"][12:]
    return b"RIFF" + struct.pack("<I", 4 + len(chunks)) + b"WEBP" + chunks


def sized_heif(width: int, height: int) -> bytes:
    whole = picture("HEIF", 64, 64)
    at = whole.index(b"ispe") + 8
    return whole[:at] + struct.pack(">II", width, height) + whole[at + 8 :]


def sized_png(width: int, height: int) -> bytes:
    return png(width, height, chunk(b"IDAT", zlib.compress(bytes(1_000_000), 9)), mode=b"\x01\0\0\0\0")


@pytest.mark.parametrize(
    "make", [sized_jpeg, sized_gif, sized_frame_in_gif, sized_webp, sized_heif, sized_png]
)
@pytest.mark.parametrize(
    ("width", "height"), [(40_000, 40_000), (20_001, 1), (10_000, 6_001), (65_535, 65_535)]
)
def test_a_bomb_is_refused_by_its_header(make: Callable[[int, int], bytes], width: int, height: int):
    began = time.process_time()
    data = make(width, height)
    assert len(data) < 10_000
    if make in (sized_gif, sized_frame_in_gif):
        height = max(height, 40)  # the larger of the screen and the frame
    assert refusal(data) == f"The picture 'x.jpg' has {width:,} × {height:,} pixels; {LIMIT}"
    assert (time.process_time() - began) / yardstick() < 20


def test_a_picture_larger_than_its_header_says_is_refused():
    for make in (sized_heif, sized_webp):
        assert refusal(make(16, 16)) == DAMAGED
    twice = WHOLE["JPEG"]
    at = twice.index(b"\xff\xc0")
    frame = twice[at : at + 19]
    assert refusal(twice[:at] + frame + twice[at:]) == DAMAGED


def test_a_picture_without_area_is_refused():
    for make in (sized_jpeg, sized_png, sized_heif):
        assert refusal(make(0, 40)) == DAMAGED
        assert refusal(make(60, 0)) == DAMAGED
    assert refusal(sized_gif(0, 0)[:13] + b";") == DAMAGED


def test_data_that_unpacks_to_more_than_the_picture_is_not_unpacked():
    """Forty megabytes of nothing behind a small picture: only what the picture needs is unpacked."""
    rows = b"".join(b"\0" + bytes(180) for _ in range(40))
    packed = zlib.compress(rows + bytes(200_000_000), 9)
    began = time.process_time()
    assert read_picture(png(60, 40, chunk(b"IDAT", packed)), "x").width == 60
    assert (time.process_time() - began) / yardstick() < 20


def test_many_tiny_pieces_are_read_and_too_many_are_refused():
    packed = zlib.compress(b"".join(b"\0" + bytes(180) for _ in range(40)), 0)
    pieces = [chunk(b"IDAT", packed[at : at + 1]) for at in range(len(packed))]
    assert read_picture(png(60, 40, *pieces), "x") == read_picture(png(60, 40, chunk(b"IDAT", packed)), "x")
    began = time.process_time()
    assert refusal(png(60, 40, chunk(b"IDAT", b"") * 1_000_000, *pieces)) == DAMAGED
    assert refusal(WHOLE["JPEG"][:2] + b"\xff\xe5\0\x02" * 2_000_000 + WHOLE["JPEG"][2:]) == DAMAGED
    assert (
        refusal(WHOLE["WEBP"][:4] + struct.pack("<I", 4_000_000) + WHOLE["WEBP"][8:] + bytes(4_000_000))
        == DAMAGED
    )
    assert (time.process_time() - began) / yardstick() < 60


def test_more_scans_than_any_camera_writes_are_refused():
    whole = picture("JPEG", progressive=True)
    at = whole.rindex(b"\xff\xda")
    scan = whole[at:-2]
    scans = jpeg.look(whole).data.count(b"\xff\xda")
    assert read_picture(whole[:-2] + scan * (jpeg.MOST_SCANS - scans) + b"\xff\xd9", "x").width == 60
    assert refusal(whole[:-2] + scan * (jpeg.MOST_SCANS - scans + 1) + b"\xff\xd9") == DAMAGED


@pytest.mark.parametrize("name", [b"zTXt", b"iTXt", b"tEXt", b"eXIf", b"abCd"])
def test_large_chunks_beside_the_picture_are_left_behind(name):
    bomb = zlib.compress(bytes(50_000_000), 9)
    body = {b"zTXt": b"Comment\0\0" + bomb, b"iTXt": b"Comment\0\x01\0\0\0" + bomb}.get(
        name, bytes(3_000_000)
    )
    large = WHOLE["PNG"][:33] + chunk(name, body) + WHOLE["PNG"][33:]
    assert read_picture(large, "x") == read_picture(WHOLE["PNG"], "x")


def test_a_profile_that_unpacks_without_end_is_refused():
    bomb = chunk(b"iCCP", b"p\0\0" + zlib.compress(bytes(50_000_000), 9))
    assert refusal(WHOLE["PNG"][:33] + bomb + WHOLE["PNG"][33:]) == DAMAGED


def test_a_large_profile_is_as_none():
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes() + bytes(5_000_000)
    assert read_picture(picture("JPEG", icc_profile=profile), "x") == read_picture(WHOLE["JPEG"], "x")


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("../../etc/passwd", "'../../etc/passwd'"),
        ("a\nb\r\nc.jpg", "'a?b??c.jpg'"),
        ("a\0b.jpg", "'a?b.jpg'"),
        ("\u202egpj.exe", "'?gpj.exe'"),
        ("", "''"),
        ("ص" * 300, "'" + "ص" * 28 + "...'"),
        ("<b>\"'&.jpg", "'<b>\"'&.jpg'"),
    ],
)
def test_any_name_makes_one_line(name, shown):
    assert refusal(b"", name) == f"The file {shown} is empty; send the photograph again."
    assert read_picture(WHOLE["PNG"], name).width == 60


@given(st.sampled_from(KINDS), st.data())
def test_whatever_is_changed_in_a_file_gives_a_picture_or_a_sentence(kind: str, data: st.DataObject):
    whole = bytearray(WHOLE[kind])
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(whole) - 1))
        what = data.draw(st.sampled_from(["set", "cut", "put", "repeat"]))
        if what == "set":
            whole[at] = data.draw(st.integers(0, 255))
        elif what == "cut":
            del whole[at : at + data.draw(st.integers(0, 40))]
            whole = whole or bytearray(b"\0")
        elif what == "put":
            whole[at:at] = data.draw(st.binary(max_size=8))
        else:
            whole[at:at] = whole[at : at + 30]
    try:
        read = read_picture(bytes(whole), "x")
    except InputError:
        return  # any other error fails the test
    assert read.full.startswith(b"\xff\xd8\xff")
    assert max(read.width, read.height) <= 2400
