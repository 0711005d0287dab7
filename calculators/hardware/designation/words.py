"""The trade's words for hardware: what each means, British first, with the American beside it.

Brand words that the trade has made common are read, and are written in plain words.
"""

from __future__ import annotations

from functools import lru_cache

HEADS: dict[str, tuple[str, ...]] = {
    "csk": ("csk", "countersunk", "counter sunk", "countersink", "cs", "flat head", "flathead", "fh", "fhms"),
    "raised csk": (
        "raised csk",
        "rsd csk",
        "r csk",
        "rcsk",
        "csk raised",
        "raised countersunk",
        "countersunk raised",
        "raised",
        "oval",
        "oval head",
    ),
    "pan": ("pan", "pn", "panhead", "phms"),
    "cheese": ("cheese", "ch", "chse", "chs", "fillister", "filister", "fil", "cheesehead"),
    "round": ("round", "rnd", "rd", "rh", "roundhead", "rhd", "rhms"),
    "socket cap": (
        "socket cap",
        "cap head",
        "caphead",
        "socket head cap",
        "socket head",
        "shcs",
        "skt cap",
        "socket capscrew",
        "allen cap",
        "cap socket",
        "hex socket cap",
        "socket cheese",
    ),
    "socket csk": (
        "socket csk",
        "socket countersunk",
        "csk socket",
        "skt csk",
        "csk hex socket",
        "hex socket csk",
        "countersunk socket",
        "flat socket",
        "socket flat head",
        "flat head socket",
        "fhcs",
        "socket flat",
        "allen csk",
        "csk allen",
    ),
    "button": ("button", "button head", "btn", "bhcs"),
    "coach": ("carriage", "cup square", "cup sq", "cup head", "mushroom square"),
    "knurled": ("knurled", "knurl", "thumb", "knurled thumb", "knurled head"),
    "none": ("headless",),
}
DRIVES: dict[str, tuple[str, ...]] = {
    "slotted": ("slotted", "slot", "slt", "slotted drive", "screwdriver slot"),
    "cross": (
        "cross",
        "cross recess",
        "cross recessed",
        "crosshead",
        "cross head",
        "cross slot",
        "cross drive",
        "phillips",
        "philips",
        "philip",
        "pozi",
        "pozidriv",
        "pozidrive",
        "posidrive",
        "posidriv",
        "recessed",
        "pz",
        "pz1",
        "pz2",
        "pz3",
        "ph",
        "ph1",
        "ph2",
        "ph3",
    ),
    "hex socket": ("hex socket", "hexagon socket", "socket", "skt", "allen", "allen key", "hex key"),
    "hexalobular": ("hexalobular", "torx", "tx", "star drive", "six lobe", "sixlobe"),
    "square": ("square drive", "square socket", "robertson", "square recess"),
    "hand": ("hand",),
}
KINDS: dict[str, tuple[str, ...]] = {
    "set screw": ("set screw", "setscrew", "set", "fully threaded", "full thread", "threaded to head"),
    "bolt": ("bolt",),
    "grub screw": ("grub", "grub screw", "grubscrew"),
    "stud": ("stud", "studding", "threaded rod", "screwed rod", "all thread", "allthread"),
    "coach screw": ("coach screw", "coachscrew", "lag screw", "lag bolt", "lag"),
}
POINTS: dict[str, tuple[str, ...]] = {
    "cup": ("cup point", "cup pointed"),
    "cone": ("cone", "cone point", "coned", "cone pointed"),
    "flat": ("flat point", "flat pointed"),
    "dog": ("dog", "dog point", "half dog", "dog pointed"),
}
MATERIALS: dict[str, tuple[str, ...]] = {
    "steel": ("steel", "stl"),
    "mild steel": ("mild steel", "ms", "bms", "bright mild steel"),
    "stainless": ("stainless", "stainless steel", "ss", "st st", "inox", "s steel"),
    "stainless A1": ("a1", "stainless a1", "a1 stainless", "stainless steel a1", "a1 stainless steel"),
    "stainless A2": ("a2", "stainless a2", "a2 stainless", "stainless steel a2", "a2 stainless steel"),
    "stainless A4": ("a4", "stainless a4", "a4 stainless", "stainless steel a4", "a4 stainless steel"),
    "brass": ("brass", "brs"),
    "bronze": ("bronze",),
    "silicon bronze": ("silicon bronze", "sil bronze"),
    "phosphor bronze": ("phosphor bronze", "phos bronze"),
    "copper": ("copper",),
    "aluminium": ("aluminium", "aluminum", "ali", "alu", "alum", "alloy", "aluminium alloy"),
    "nylon": ("nylon", "polyamide"),
    "titanium": ("titanium", "ti"),
}
FINISHES: dict[str, tuple[str, ...]] = {
    "zinc plated": (
        "zinc plated",
        "zinc",
        "zinced",
        "zp",
        "bzp",
        "zn",
        "bright zinc",
        "bright zinc plated",
        "zinc plate",
        "zinc coated",
        "electro zinc",
    ),
    "yellow zinc plated": ("yellow zinc plated", "yellow zinc", "zyp", "yzp", "yellow passivated"),
    "nickel plated": ("nickel plated", "nickel", "np", "nickelled", "nickel plate", "ni"),
    "chrome plated": ("chrome plated", "chrome", "chromed", "cp", "chromium plated", "chromium"),
    "brass plated": ("brass plated", "brassed", "eb", "electro brassed", "electro brass", "brass plate"),
    "copper plated": ("copper plated", "coppered"),
    "tin plated": ("tin plated", "tinned"),
    "plated": ("plated",),
    "blued": ("blued", "blue"),
    "black": ("black", "black oxide", "blackened", "blacked", "blk"),
    "black japanned": ("black japanned", "japanned", "bj"),
    "galvanised": (
        "galvanised",
        "galvanized",
        "galv",
        "hot dip galvanised",
        "hot dipped galvanised",
        "hdg",
        "hot dip galvanized",
        "hot dipped galvanized",
    ),
    "sherardised": ("sherardised", "sherardized"),
    "anodised": ("anodised", "anodized"),
    "self colour": ("self colour", "self color", "sc", "unplated"),
    "polished": ("polished",),
}
GRADES: dict[str, tuple[str, ...]] = {
    "high tensile": ("high tensile", "hi tensile", "ht", "htensile", "high tensile steel", "ht steel"),
}
SERIES: dict[str, tuple[str, ...]] = {
    "inch-us": ("american", "us", "usa", "us series", "american series"),
    "inch-british": ("british", "uk", "english", "british series"),
}
FORMS: dict[str, tuple[str, ...]] = {
    "full": ("full",),
    "half": ("half", "thin", "jam", "half thickness", "lock half"),
    "dome": ("acorn", "domed cap", "dome cap"),
    "wing": ("wing", "butterfly"),
    "stiff": (
        "stiff",
        "nyloc",
        "nylock",
        "nylon insert",
        "nylon lock",
        "self locking",
        "prevailing torque",
        "nyloc lock",
        "elastic stop",
    ),
    "small": ("small",),
    "repair": ("repair", "penny", "fender", "mudguard", "large"),
    "spring": ("spring", "split", "split lock", "spring lock", "split spring", "single coil"),
    "crinkle": ("crinkle", "wave", "wavy"),
    "toothed": (
        "toothed",
        "shakeproof",
        "internal tooth",
        "external tooth",
        "tooth lock",
        "internal shakeproof",
        "external shakeproof",
        "star lock",
        "tooth",
        "serrated",
    ),
    "cup": ("finishing", "surface cup", "countersunk cup"),
}
ITEMS: dict[str, tuple[str, ...]] = {
    "screw": ("screw", "scr", "screws", "scw"),
    "nut": ("nut",),
    "washer": ("washer", "wshr"),
    "insert": ("insert", "threaded insert", "screw in insert"),
}
FAMILIES: dict[str, tuple[str, ...]] = {
    "wood": ("wood", "wood screw", "woodscrew", "chipboard", "chipboard screw", "timber screw", "w s"),
    "machine": ("machine", "machine screw", "metal thread", "metal threaded", "engineers", "engineer screw"),
}
CONTEXT = ("flat", "cup", "dome", "domed", "square", "plain", "cap", "hex", "hexagon", "hexagonal", "star",
           "lock", "coach")  # fmt: skip
"""Words whose meaning hangs on the thing they stand with; `meaning.py` and `screw_words.py` decide them."""

FORMS_OF: dict[str, tuple[str, ...]] = {
    "nut": ("full", "half", "dome", "square", "wing", "stiff", "knurled"),
    "washer": ("plain", "small", "repair", "spring", "crinkle", "toothed", "cup"),
}
"""The forms of nuts and of washers."""

LABELS: dict[str, tuple[str, ...]] = {
    "outside": ("od", "o d", "outside", "outside dia", "outside diameter", "out dia"),
    "body": ("body", "body dia", "core"),
    "thickness": ("thick", "thk", "thickness"),
    "length": ("long", "lg", "length", "len"),
    "cut to": ("cut to", "cut down to", "shortened to", "cut"),
}
NOISE = (
    "head", "heads", "hd", "headed", "type", "thread", "threaded", "thd", "with", "and", "the", "a", "of",
    "for", "in", "drive", "recess", "dia", "diameter", "size", "finish", "grade", "class", "gr", "form",
    "point", "pointed", "to", "standard", "twinthread", "twin thread",
)  # fmt: skip
"""Words that say nothing alone."""

REFUSED: dict[str, str] = {
    "off": "how many is kept apart from what; leave the count out of this line",
    "pcs": "how many is kept apart from what; leave the count out of this line",
    "pack": "how many is kept apart from what; leave the count out of this line",
    "self tapping": "self-tapping screws for sheet metal are not kept here; write a wood or machine screw",
    "self tapper": "self-tapping screws for sheet metal are not kept here; write a wood or machine screw",
    "sheet metal": "self-tapping screws for sheet metal are not kept here; write a wood or machine screw",
    "square head": "square heads are not kept here; write hex, or the nearest head",
    "rivet": "rivets are not kept here; write a screw, bolt, nut, washer or insert",
    "nail": "nails are not kept here; write a screw, bolt, nut, washer or insert",
    "pin": "pins are not kept here; write a screw, bolt, nut, washer or insert",
    "fine": "a fine thread is named by its pitch; write it as M6 x 0.75 or 1/4-28 UNF",
    "coarse": "a coarse thread is named by its system; write it as M6 or 1/4-20 UNC",
}

_PLURAL = ("bolt", "nut", "washer", "insert", "stud", "woodscrew", "grubscrew", "setscrew", "coachscrew")
_TABLES = {
    "head": HEADS, "drive": DRIVES, "kind": KINDS, "point": POINTS, "material": MATERIALS,
    "finish": FINISHES, "grade": GRADES, "series": SERIES, "form": FORMS, "item": ITEMS,
    "family": FAMILIES, "label": LABELS,
}  # fmt: skip


@lru_cache(maxsize=1)
def vocabulary() -> dict[str, tuple[str, str]]:
    """Give every phrase that is understood, with the slot it fills and the value it gives there.

    Returns:
        Phrase in plain lower-case words to (slot, value); the slots `context`, `noise` and `refused`
        hold the words that need their neighbours, say nothing, or are refused with a reason.

    Raises:
        ValueError: when one phrase is listed twice, which is a slip in this file.

    Source: common practice.

    Example:
        >>> vocabulary()["oval head"], vocabulary()["jam"]
        (('head', 'raised csk'), ('form', 'half'))
    """
    known: dict[str, tuple[str, str]] = {}

    def add(phrase: str, slot: str, value: str) -> None:
        if known.setdefault(phrase, (slot, value)) != (slot, value):
            raise ValueError(f"{phrase!r} is both {known[phrase]} and {(slot, value)}")

    for slot, table in _TABLES.items():
        for value, phrases in table.items():
            for phrase in phrases:
                add(phrase, slot, value)
    for word in CONTEXT:
        add(word, "context", {"hexagon": "hex", "hexagonal": "hex", "domed": "dome"}.get(word, word))
    for word in NOISE:
        add(word, "noise", word)
    for word, reason in REFUSED.items():
        add(word, "refused", reason)
    for phrase in [p for p in known if p.split()[-1] in (*_PLURAL, "screw")]:
        add(phrase + "s", *known[phrase])
    return known
