"""The kinds of picture that are read, a file for each: what is looked at before any decoder sees it.

Each module has `is_one(data)`, which knows its kind by the first bytes, and `look(data)`, which gives a
`Looked`: the size in pixels as the file states it, how the picture is to be turned, and the bytes that a
decoder shall see, where the format allows without comments, thumbnails, further frames and whatever was
hung on at the end. A new kind is a new file here and its name in `KINDS`.
"""

from __future__ import annotations

from buildlog.pictures.formats import gif, heif, jpeg, png, webp

KINDS = (jpeg, png, webp, heif, gif)
