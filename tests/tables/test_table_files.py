"""The table loader: what it gives, and each fault that it must not let pass."""

import dataclasses
from decimal import Decimal

import pytest

from calculators.tables import CONFIDENCES, UNITS, TableError, load, names, read_table

GOOD = """\
# title: Pegs
# key: name
# unit size: mm
# text: name, family, source
# increasing: size within family
# edition: 1st
# source a: Standard of pegs | page 4 | read
# source b: Another | from memory | memory
# note: made up for this test
name,family,size,source
P1,short,1.50,a
P2,short,2,a
Q1,long,1,b
Q2,long,,b
"""


@pytest.fixture
def table(tmp_path):
    def write(text):
        path = tmp_path / "pegs.csv"
        path.write_text(text, encoding="utf-8")
        return read_table(path)

    return write


def test_a_good_table(table):
    pegs = table(GOOD)
    assert (pegs.name, pegs.title, pegs.edition, pegs.key) == ("pegs", "Pegs", "1st", ("name",))
    assert pegs.columns == ("name", "family", "size", "source")
    assert dict(pegs.units) == {"size": "mm"}
    assert pegs.notes == ("made up for this test",)
    row = pegs.row("P1")
    assert (row.text("family"), row.number("size"), row.decimal("size")) == ("short", 1.5, Decimal("1.50"))
    assert (row["size"], row.name, row.line) == ("1.50", "P1", 11)
    assert row.source.says == "Standard of pegs (read from page 4)"
    assert pegs.row("Q1").source.says == "Another (from memory)"
    assert [r.name for r in pegs.where("family", "long")] == ["Q1", "Q2"]
    assert pegs.column("size") == ("1.50", "2", "1", "")
    assert pegs.find("P9") is None


def test_empty_cells(table):
    row = table(GOOD).row("Q2")
    assert not row.has("size")
    assert (row.number_or_none("size"), row.get("size"), row.get("size", "?"), row.get("no")) == (
        None,
        None,
        "?",
        None,
    )
    with pytest.raises(TableError, match=r"^pegs, line 14, column 'size': the cell is empty\.$"):
        row.number("size")


def test_records_are_frozen(table):
    pegs = table(GOOD)
    with pytest.raises(dataclasses.FrozenInstanceError):
        pegs.title = "other"
    with pytest.raises(TypeError):
        pegs.rows[0].cells["size"] = "9"


def test_wrong_use(table):
    pegs = table(GOOD)
    with pytest.raises(TableError, match="there is no row 'P9'"):
        pegs.row("P9")
    with pytest.raises(TableError, match="a row is named by name"):
        pegs.row("P1", "a")
    with pytest.raises(TableError, match="column 'weight': there is no such column"):
        pegs.rows[0].text("weight")
    with pytest.raises(TableError, match="column 'family': the column is text, not a number"):
        pegs.rows[0].number("family")


FAULTS = {
    "no title": ("# title: Pegs\n", "", "pegs.csv: the header has no 'title' line."),
    "no key": ("# key: name\n", "", "pegs.csv: the header has no 'key' line."),
    "no edition": ("# edition: 1st\n", "", "pegs.csv: the header has no 'edition' line."),
    "title twice": ("# key:", "# title: Again\n# key:", "pegs.csv, line 2: 'title' is given twice."),
    "unknown word": ("# note:", "# nota:", "pegs.csv, line 9: a header line may not begin with 'nota'."),
    "no colon": ("# note: made", "# note made", "pegs.csv, line 9: a header line reads '# word: what it says'."),
    "unknown unit": ("size: mm", "size: furlong", "pegs.csv, line 3, column 'size': the unit 'furlong' is not known."),
    "unit twice": ("# text", "# unit size: in\n# text", "pegs.csv, line 4, column 'size': its unit is given twice."),
    "unit and text": (
        "# text: name,", "# text: name, size,", "pegs.csv, column 'size': the column is declared as text and with a unit.",
    ),
    "no unit": ("# unit size: mm\n", "", "pegs.csv, column 'size': the column is neither text nor given a unit."),
    "no such column": (
        "# text: name,", "# text: name, colour,",
        "pegs.csv, column 'colour': the header speaks of it, but there is no such column.",
    ),
    "order of nothing": (
        "size within family", "weight within family",
        "pegs.csv, column 'weight': the header speaks of it, but there is no such column.",
    ),
    "order of text": ("size within family", "name", "pegs.csv, line 5, column 'name': a text column cannot be in order."),
    "source of two parts": (
        "| page 4 | read", "| read", "pegs.csv, line 7: a source reads 'standard | read from | confidence'.",
    ),
    "confidence": (
        "page 4 | read", "page 4 | sure", "pegs.csv, line 7: a confidence is one of read, memory, common practice.",
    ),
    "source twice": ("# source b", "# source a", "pegs.csv, line 8: source 'a' is declared twice."),
    "source undeclared": ("1,b", "1,c", "pegs.csv, line 13, column 'source': source 'c' is not declared."),
    "source missing": ("1,b", "1,", "pegs.csv, line 13, column 'source': source '' is not declared."),
    "source unused": (
        "# note", "# source c: A third | page 5 | read\n# note",
        "pegs.csv: source 'c' is declared but no row uses it.",
    ),
    "not a number": ("1.50", "1.5O", "pegs.csv, line 11, column 'size': '1.5O' is not a number."),
    "a comma number": ("1.50", '"1,5"', "pegs.csv, line 11, column 'size': '1,5' is not a number."),
    "not finite": ("1.50", "nan", "pegs.csv, line 11, column 'size': 'nan' is not a number."),
    "name twice": ("P2", "P1", "pegs.csv, line 12, column 'name': 'P1' is already on line 11."),
    "no name": ("P2", "", "pegs.csv, line 12, column 'name': a row has no name."),
    "out of order": (
        "short,2", "short,1.5", "pegs.csv, line 12, column 'size': 1.5 should be greater than 1.50 above it ('increasing').",
    ),
    "ragged": ("P2,short,2,a", "P2,short,2", "pegs.csv, line 12: the line has 3 cells, the header 4."),
    "column twice": ("name,family,size", "name,name,size", "pegs.csv, line 10, column 'name': a column's name is empty or given twice."),
}  # fmt: skip


@pytest.mark.parametrize(("old", "new", "says"), FAULTS.values(), ids=FAULTS.keys())
def test_planted_faults(table, old, new, says):
    assert GOOD.count(old) >= 1
    with pytest.raises(TableError) as caught:
        table(GOOD.replace(old, new, 1))
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("order", "sizes", "passes"),
    [
        ("increasing", ("1", "1"), False), ("increasing", ("1", "2"), True), ("not decreasing", ("1", "1"), True),
        ("not decreasing", ("2", "1"), False), ("decreasing", ("2", "1"), True), ("decreasing", ("1", "1"), False),
        ("not increasing", ("1", "1"), True), ("not increasing", ("1", "2"), False),
    ],
)  # fmt: skip
def test_orders(table, order, sizes, passes):
    text = GOOD.replace("# increasing: size within family", f"# {order}: size within family")
    text = text.replace("Q1,long,1,b\nQ2,long,,b\n", f"Q1,long,{sizes[0]},b\nQ2,long,{sizes[1]},b\n")
    text = text.replace("P1,short,1.50,a\nP2,short,2,a", "P1,short,,a")
    if passes:
        assert table(text).row("Q2").text("size") == sizes[1]
    else:
        with pytest.raises(TableError, match=f"line 13, column 'size': {sizes[1]} should be"):
            table(text)


def test_files_that_are_no_tables(tmp_path, table):
    (tmp_path / "latin.csv").write_bytes(GOOD.replace("Pegs", "P\xe9gs").encode("latin-1"))
    with pytest.raises(TableError, match="cannot be read as UTF-8 text"):
        read_table(tmp_path / "latin.csv")
    with pytest.raises(TableError, match="cannot be read"):
        read_table(tmp_path / "absent.csv")
    with pytest.raises(TableError, match="the header declares no source"):
        table("".join(line for line in GOOD.splitlines(keepends=True) if not line.startswith("# source")))
    head = GOOD[: GOOD.index("name,family")]
    with pytest.raises(TableError, match="there is no line with the names of the columns"):
        table(head)
    with pytest.raises(TableError, match="the table has no rows"):
        table(head + "name,family,size,source\n")
    with pytest.raises(TableError, match="not a CSV line"):
        table(GOOD.replace("P1,short", '"P1"x,short'))


def test_loading_by_name():
    assert load("threads") is load("threads")
    with pytest.raises(TableError, match=r"there is no such table; there are .*threads"):
        load("../threads")


@pytest.mark.parametrize("name", names())
def test_every_table_of_the_project_is_sound(name):
    table = load(name)
    assert table.rows
    assert table.title
    assert table.edition
    assert set(table.units.values()) <= UNITS
    for source in table.sources.values():
        assert source.confidence in CONFIDENCES
        assert (source.confidence == "memory") == ("from memory" in source.read_from), source
