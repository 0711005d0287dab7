"""The forms of people and workshops."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.password_validation import password_validators_help_texts, validate_password
from django.core.exceptions import ValidationError

from buildlog.workshops import tries
from buildlog.workshops.models import Person, Role, Units


class SignInForm(AuthenticationForm):
    """A name and a password."""

    error_messages = {  # noqa: RUF012 (Django's own way of naming them)
        "invalid_login": "That name and password do not go together; capitals count in both.",
        "inactive": "This account is closed; ask an owner of your workshop.",
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["username"].label = "Sign-in name"

    def clean(self) -> dict[str, Any]:
        """Check the password, not too often."""
        username = self.cleaned_data.get("username", "")
        address = tries.address_of(self.request)
        if not tries.take_try(username, address):
            raise ValidationError("Too many tries went wrong; wait a quarter of an hour and try again.")
        cleaned = super().clean()
        tries.give_back(username, address)
        return cleaned


class NewPersonForm(forms.Form):
    """Somebody new: how they sign in, and what they are called."""

    name = forms.CharField(
        label="Your name", max_length=120, help_text="As it shall stand beside what you write."
    )
    username = forms.CharField(
        label="Sign-in name",
        max_length=150,
        help_text="Letters, digits and @ . + - _",
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "off"}),
    )
    password = forms.CharField(
        label="Password",
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=" ".join(password_validators_help_texts()),
    )

    def clean_username(self) -> str:
        """Refuse a name that is taken or has signs that a sign-in name may not have."""
        username = Person.normalize_username(self.cleaned_data["username"])
        Person.username_validator(username)
        if Person.objects.filter(username__iexact=username).exists():
            raise ValidationError("Somebody signs in with that name already; choose another.")
        return username

    def clean_password(self) -> str:
        """Refuse a password that is guessed easily."""
        password: str = self.cleaned_data["password"]
        validate_password(password, Person(username=self.data.get("username", "")[:150]))
        return password


class FirstOwnerForm(NewPersonForm):
    """The first person of an installation, with their workshop."""

    workshop = forms.CharField(label="Your workshop", max_length=120)
    code = forms.CharField(
        label="Set-up code",
        max_length=40,
        help_text="What `python3 manage.py set-up-code` prints on the server, to show that it is yours.",
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "off"}),
    )


class AccountForm(forms.Form):
    """A person's own name and units."""

    name = forms.CharField(label="Your name", max_length=120)
    units = forms.ChoiceField(
        label="Lengths on pages",
        choices=[(Units.MM, "millimetres"), (Units.INCHES, "inches"), (Units.BOTH, "both")],
        widget=forms.RadioSelect,
    )


class PasswordForm(forms.Form):
    """A new password, for somebody who knows the old one."""

    old = forms.CharField(
        label="Password now",
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )
    new = forms.CharField(
        label="New password",
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=" ".join(password_validators_help_texts()),
    )

    def __init__(self, person: Person, *args: Any, **kwargs: Any) -> None:
        self.person = person
        super().__init__(*args, **kwargs)

    def clean_old(self) -> str:
        """Check the old password."""
        if not self.person.check_password(self.cleaned_data["old"]):
            raise ValidationError("That is not your password.")
        return str(self.cleaned_data["old"])

    def clean_new(self) -> str:
        """Refuse a password that is guessed easily."""
        validate_password(self.cleaned_data["new"], self.person)
        return str(self.cleaned_data["new"])


class InviteForm(forms.Form):
    """Whom to let in, and as what."""

    name = forms.CharField(label="Who", max_length=120, help_text="For your own list.")
    role = forms.ChoiceField(label="As", choices=Role.choices, initial=Role.MAKER, widget=forms.RadioSelect)


class WorkshopForm(forms.Form):
    """A workshop's name."""

    name = forms.CharField(label="Name of the workshop", max_length=120)
