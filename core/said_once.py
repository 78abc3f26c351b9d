"""What is said once after a form, kept in a cookie that only this host sets and gets."""
from django.conf import settings
from django.contrib.messages.storage.cookie import CookieStorage
from django.contrib.messages.storage.fallback import FallbackStorage
from django.contrib.messages.storage.session import SessionStorage

COOKIE = "__Host-messages" if settings.HTTPS else "messages"


class OfThisHost(CookieStorage):
    cookie_name = COOKIE


class SaidOnce(FallbackStorage):
    """In the cookie; what does not fit goes into the session."""

    storage_classes = (OfThisHost, SessionStorage)
