"""Signing in and out; people and settings of a workshop."""

from __future__ import annotations

from django.contrib.auth.views import LoginView

from buildlog.workshops.door import open_to_all

sign_in = open_to_all(LoginView.as_view(template_name="workshops/sign_in.html"))
