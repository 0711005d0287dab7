"""The embedded default: SQLite beside the project, this machine alone, the demonstration person signed in."""

from __future__ import annotations

import os

from buildlog.settings.base import *
from buildlog.settings.environment import kept_secret_key

DEMO = True
DEBUG = os.environ.get("ODDLEG_DEBUG") == "1"
SECRET_KEY = kept_secret_key(DATA / "secret-key")
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]"]

# Static files are served from where they lie: there is no collecting step to forget.
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = DEBUG
