"""Whether everything is in place for running: digests compared, and few modules loaded for it."""

from __future__ import annotations

import json
import os
import sys
from hashlib import sha256

_HERE = os.path.dirname(os.path.abspath(__file__))
_VENV = os.path.join(os.path.dirname(os.path.dirname(_HERE)), ".venv")


def is_ready() -> bool:
    """Tell whether this command already runs in an environment that is complete for running Oddleg.

    A no says nothing but that `environment.prepare` has to look closer.
    """
    try:
        with open(os.path.join(_VENV, "oddleg-stamp.json"), encoding="utf-8") as file:
            stamp = json.load(file)
        with open(os.path.join(_HERE, "run.lock"), "rb") as file:
            digest = sha256(file.read()).hexdigest()
        found = {stamp["run"], stamp["system-run"]}
    except (OSError, ValueError, KeyError, TypeError):
        return False
    return found == {digest} and os.path.realpath(sys.prefix) == os.path.realpath(_VENV)
