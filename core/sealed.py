"""What is kept in the database and must not be read out of a copy of it."""
import base64
import hashlib

from cryptography.fernet import Fernet, MultiFernet
from django.conf import settings


def box(purpose: str) -> MultiFernet:
    """Locks with the site's key, and opens what its former keys locked; for one purpose alone."""
    keys = [str(settings.SECRET_KEY), *map(str, settings.SECRET_KEY_FALLBACKS)]
    return MultiFernet([Fernet(base64.urlsafe_b64encode(
        hashlib.sha256(f"{purpose} {key}".encode()).digest())) for key in keys])
