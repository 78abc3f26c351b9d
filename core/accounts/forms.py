"""The account pages' forms, in our own words: allauth's fields with our labels and hints."""
from allauth.account import forms as account
from allauth.mfa.adapter import get_adapter
from allauth.mfa.base import forms as factors
from allauth.mfa.models import Authenticator
from allauth.mfa.totp import forms as totp
from allauth.mfa.webauthn import forms as keys
from django import forms
from django.utils import timezone

from core.accounts.models import Scope

PASSWORD_HINT = ("At least 12 characters, better 15 or more. Several words in a row are easy to "
                 "keep in mind. Spaces and every other character count as typed.")
CODE_HINT = "The six digits that your app shows now, or one of your recovery codes."


class Worded:
    """Fields named by `labels`, with a hint from `hints`, and no text inside the box."""

    fields: dict[str, forms.Field]
    labels: dict[str, str] = {}
    hints: dict[str, str] = {}
    attributes: dict[str, dict[str, str]] = {}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            field.label = self.labels.get(name, field.label)
            field.help_text = self.hints.get(name, "")
            field.widget.attrs.pop("placeholder", None)
            field.widget.attrs.update(self.attributes.get(name, {}))
            word_errors(field)


def word_errors(field):
    """What is missing or no address, in words that name the remedy."""
    field.error_messages["required"] = "This is missing: fill it in."
    if isinstance(field, forms.EmailField):
        field.error_messages["invalid"] = (
            "This is no e-mail address: it is written name, @, domain, without spaces.")


NAME = {"autocapitalize": "none", "spellcheck": "false"}
CODE = {"autocomplete": "one-time-code", "inputmode": "numeric", "autocapitalize": "none",
        "autofocus": ""}


class SignInForm(Worded, account.LoginForm):
    labels = {"login": "Username or e-mail address", "password": "Password"}
    attributes = {"login": NAME | {"autocomplete": "username", "autofocus": "",
                                   "maxlength": "254"}}


class SignUpForm(Worded, account.SignupForm):
    labels = {"username": "Username", "email": "E-mail address", "password1": "Password"}
    hints = {
        "username": "Your public name: it stands beside whatever you record or write. 2 to 30 "
                    "letters from a to z, digits, dots, hyphens and underscores.",
        "email": "Shown to nobody. You get a message with a link to confirm it.",
        "password1": PASSWORD_HINT,
    }
    attributes = {"username": NAME}


class ChangeAddressForm(Worded, account.AddEmailForm):
    labels = {"email": "New e-mail address"}
    hints = {"email": "We send a link to it. Until you open that, your present address counts."}


class ChangePasswordForm(Worded, account.ChangePasswordForm):
    labels = {"oldpassword": "Present password", "password1": "New password",
              "password2": "New password again"}
    hints = {"password1": PASSWORD_HINT}


class ResetPasswordForm(Worded, account.ResetPasswordForm):
    labels = {"email": "E-mail address"}
    hints = {"email": "The one that you signed up with."}


class ResetPasswordKeyForm(Worded, account.ResetPasswordKeyForm):
    labels = {"password1": "New password", "password2": "New password again"}
    hints = {"password1": PASSWORD_HINT}


class ConfirmPasswordForm(Worded, account.ReauthenticateForm):
    labels = {"password": "Password"}


def after_last_use(code, factor):
    """A clock that was set back would open to codes that somebody saw before."""
    is_app = factor.type == Authenticator.Type.TOTP
    if is_app and factor.last_used_at and factor.last_used_at > timezone.now():
        raise get_adapter().validation_error("incorrect_code")
    return code


class CodeForm(Worded, factors.AuthenticateForm):
    hints = {"code": CODE_HINT}
    attributes = {"code": CODE}

    def clean_code(self):
        return after_last_use(super().clean_code(), self.authenticator)


class ConfirmCodeForm(Worded, factors.ReauthenticateForm):
    hints = {"code": CODE_HINT}
    attributes = {"code": CODE}

    def clean_code(self):
        return after_last_use(super().clean_code(), self.authenticator)


class SetUpAppForm(Worded, totp.ActivateTOTPForm):
    labels = {"code": "Code that the app shows"}
    hints = {"code": "Six digits. Typing them proves that the app works before it is needed."}
    attributes = {"code": CODE | {"maxlength": "6"}}


class AddKeyForm(Worded, keys.AddWebAuthnForm):
    labels = {"name": "Name", "passwordless": "Let it sign me in by itself"}
    hints = {"name": "To tell your keys apart, such as “phone” or “the key on my ring”.",
             "passwordless": "A passkey: it asks for your finger, your face or its PIN, and then "
                             "stands for password and second factor at once."}
    attributes = {"name": {"maxlength": "60"}}


class TokenForm(forms.Form):
    """A new token: what it is for, what it may do, how long."""

    name = forms.CharField(
        max_length=60, label="What is it for?", help_text="Only you see this.")
    scopes = forms.MultipleChoiceField(
        choices=Scope.choices, label="What may it do?", widget=forms.CheckboxSelectMultiple,
        initial=[Scope.READ])
    days = forms.TypedChoiceField(
        coerce=int, label="How long is it good?", initial=90,
        choices=[(30, "30 days"), (90, "90 days"), (365, "One year")])

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["name"].error_messages["required"] = "Say what it is for."
        self.fields["scopes"].error_messages["required"] = "Choose what it may do."



class DeleteForm(forms.Form):
    """Typing one's name guards against a click too many."""

    name = forms.CharField(max_length=150, label="Your username", help_text=(
        "Type it to show that you mean it."))

    def __init__(self, *args, owner, **kwargs):
        super().__init__(*args, **kwargs)
        self.owner = owner
        word_errors(self.fields["name"])

    def clean_name(self):
        if self.cleaned_data["name"].strip().lower() != self.owner.username.lower():
            raise forms.ValidationError(
                f"This is not your username. Type {self.owner.username}, or leave the page.")
        return self.cleaned_data["name"]
