"""What every way of running Oddleg shares."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from buildlog.settings.environment import database, public_address, sqlite

ROOT = Path(__file__).resolve().parents[2]
DATA = Path(os.environ.get("ODDLEG_DATA") or ROOT / "data")

DEBUG = False
DEMO = False
"""Signs in a visitor from this very machine as the demonstration person; see workshops/middleware.py."""

PUBLIC_ADDRESS = public_address(os.environ.get("ODDLEG_ADDRESS", ""))
"""Where the codes on printed sheets lead, without a slash at its end; nothing: they have no square code."""

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.forms",  # its templates, below those of templates/django/forms
    "django_htmx",
    "buildlog.workshops",
    "buildlog.pictures",
    "buildlog.bench",
    "buildlog.builds",
    "buildlog.journal",
    "buildlog.sheets",
    "buildlog.calculations",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "buildlog.security.SecurityHeaders",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "buildlog.workshops.middleware.DemonstrationSignIn",
    "buildlog.workshops.bounds.BoundedBody",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "buildlog.builds.busy.Busy",
    "buildlog.builds.reasons.AsksReason",
    "buildlog.workshops.door.OneDoor",
]

ROOT_URLCONF = "buildlog.urls"
WSGI_APPLICATION = "buildlog.wsgi.application"
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"

TEMPLATES: list[dict[str, Any]] = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [ROOT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "buildlog.workshops.page.house",
            ],
        },
    },
]

DATABASES = {
    "default": database(os.environ["DATABASE_URL"])
    if os.environ.get("DATABASE_URL")
    else sqlite(DATA / "oddleg.sqlite3")
}
CACHES: dict[str, dict[str, Any]] = {
    "default": {
        "BACKEND": "django.core.cache.backends.locmem.LocMemCache",
        # It holds who tried to sign in how often; a full cache forgets, and 300, the default, are soon full.
        "OPTIONS": {"MAX_ENTRIES": 50_000},
    }
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "workshops.Person"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in ("UserAttributeSimilarityValidator", "MinimumLengthValidator", "CommonPasswordValidator")
]

LOGIN_URL = "people:sign-in"
LOGIN_REDIRECT_URL = "start"

LANGUAGE_CODE = "en-gb"
USE_I18N = False
TIME_ZONE = "UTC"
USE_TZ = True

STATIC_URL = "/static/"
STATICFILES_DIRS = [ROOT / "buildlog" / "static"]

DATA_UPLOAD_MAX_NUMBER_FIELDS = 4_000
"""An entry with 500 photographs, the most that a build file may have, sends about 1,500 fields."""

X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SAMESITE = "Lax"

LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "%(asctime)s %(levelname)s %(name)s: %(message)s"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    # Without Django's own handlers a fault would be told twice or, with DEBUG off, not at all.
    "loggers": {
        "django": {"handlers": [], "level": "WARNING", "propagate": True},
        "django.request": {"level": "ERROR"},  # a mistyped address is no event
    },
}
