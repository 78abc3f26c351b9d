"""What the tests of accounts share: signing in by the form, and the mail that was sent."""
import re

from allauth.mfa.totp.internal.auth import TOTP, format_hotp_value, hotp_value
from django.core import mail
from django.urls import reverse

# RFC 4226, appendix D: the key "12345678901234567890" (here in base 32) and its code at count 1.
SECRET = "GEZDGNBVGY3TQOJQ" * 2
COUNT, CODE = 1, "287082"


def sign_in(client, name, password=None, **more):
    """The form sent as a person would."""
    return client.post(reverse("sign_in"), {
        "login": name, "password": password or f"{name}-of-the-cast"} | more)


def is_signed_in(client):
    return "_auth_user_id" in client.session


def link_of(message):
    """The one link of a message, as a path of this site."""
    return re.search(r"https?://testserver(/\S+)", message.body).group(1)


def last_mail(address):
    """The newest message to that address."""
    return [message for message in mail.outbox if message.to == [address]][-1]


def give_app(user):
    """A second factor whose code is CODE while the clock stands at COUNT (conftest)."""
    return TOTP.activate(user, SECRET).instance


def confirm_password(client, name):
    """Fresh authentication, as sensitive changes ask for it."""
    return client.post(reverse("account_reauthenticate"), {"password": f"{name}-of-the-cast"})


def set_up_app(client, name):
    """An app set up through the pages. Part of it waits for the commit: transactional tests."""
    confirm_password(client, name)
    client.get(reverse("mfa_activate_totp"))
    secret = client.session["mfa.totp.secret"]
    code = format_hotp_value(hotp_value(secret, COUNT))
    return client.post(reverse("mfa_activate_totp"), {"code": code})
