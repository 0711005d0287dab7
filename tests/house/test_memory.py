"""Every process of the project looks for lost objects seldom."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from buildlog.setup.memory import THRESHOLDS

ROOT = Path(__file__).resolve().parents[2]
ASKED = "import gc; print(gc.get_threshold())"


@pytest.mark.parametrize(
    "command",
    [
        ["manage.py", "shell", "--no-imports", "-c", ASKED],
        ["-c", f"import buildlog.wsgi; {ASKED}"],
    ],
)
def test_the_collector_is_set(command: list[str]) -> None:
    settings = {"DJANGO_SETTINGS_MODULE": "buildlog.settings.testing", "PATH": "/usr/bin:/bin"}
    said = subprocess.run(
        [sys.executable, *command], cwd=ROOT, env=settings, capture_output=True, text=True, check=True
    )
    assert said.stdout.strip() == str(THRESHOLDS)
