"""For a workshop's own server, behind HTTPS. Everything that must not be guessed comes from the environment.

ODDLEG_SECRET_KEY   a long random text, kept secret
ODDLEG_HOSTS        the names that the server answers to, with commas between them
ODDLEG_ADDRESS      the address that the square codes on paper lead to, such as https://oddleg.example
                    (default: the name in ODDLEG_HOSTS, where it is the only one)
DATABASE_URL        the database (default: SQLite in the data folder)
ODDLEG_DATA         the data folder (default: data/ beside the project)
ODDLEG_BEHIND_PROXY 1 where a proxy sets X-Forwarded-Proto itself, after removing what a visitor sent, and
                    adds whom it answers to the end of X-Forwarded-For (tries to sign in are counted by it)
"""

from __future__ import annotations

import os

from buildlog.settings.base import *
from buildlog.settings.environment import public_address, required

SECRET_KEY = required("ODDLEG_SECRET_KEY", "a random text of 50 characters or more that nobody else knows")
ALLOWED_HOSTS = [
    host.strip()
    for host in required("ODDLEG_HOSTS", "the names this server answers to, such as oddleg.example").split(
        ","
    )
]
PUBLIC_ADDRESS = public_address(os.environ.get("ODDLEG_ADDRESS", ""), ALLOWED_HOSTS)
CSRF_TRUSTED_ORIGINS = [f"https://{host}" for host in ALLOWED_HOSTS]

if os.environ.get("ODDLEG_BEHIND_PROXY") == "1":
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SECURE_SSL_REDIRECT = True
SECURE_HSTS_SECONDS = 365 * 24 * 3600
SECURE_HSTS_INCLUDE_SUBDOMAINS = True
SECURE_HSTS_PRELOAD = True
SESSION_COOKIE_SECURE = True
CSRF_COOKIE_SECURE = True

STATIC_ROOT = ROOT / "static-collected"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
