"""`manage.py schema` prints the schema that the reader and writer of build files follow."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from calculators.planning.files import schema


def test_it_prints_the_schema() -> None:
    out = io.StringIO()
    call_command("schema", stdout=out)
    assert json.loads(out.getvalue()) == schema()


def test_it_writes_the_schema_to_a_file(tmp_path: Path) -> None:
    out = io.StringIO()
    call_command("schema", "-o", str(tmp_path / "build.schema.json"), stdout=out)
    assert json.loads((tmp_path / "build.schema.json").read_text(encoding="utf-8")) == schema()
    assert out.getvalue() == ""


def test_a_folder_that_is_not_there_gets_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(CommandError) as caught:
        call_command("schema", "-o", str(tmp_path / "no" / "x.json"))
    assert caught.value.returncode == 2
    assert "No such file or directory; name a file in a folder that exists." in str(caught.value)
