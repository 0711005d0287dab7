"""For the tests: nobody is signed in by itself, SQLite in memory or the database that DATABASE_URL names."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from buildlog.settings.base import *
from buildlog.settings.environment import sqlite

SECRET_KEY = "only-for-tests-" + "x" * 50
ALLOWED_HOSTS = ["testserver", "localhost", "127.0.0.1"]
DATA = Path(tempfile.gettempdir()) / "oddleg-testing"  # nothing that a test does reaches a person's data
if not os.environ.get("DATABASE_URL"):
    DATABASES = {"default": sqlite(":memory:")}
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
WHITENOISE_USE_FINDERS = True
