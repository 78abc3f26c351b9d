"""A secret key for a site whose operator set none: made once, kept beside the data."""
import hashlib
import os
import tempfile

from django.utils.crypto import get_random_string


def local_secret_key(data_dir):
    """The key stored in the data folder, made on first use and readable by its owner only."""
    path = data_dir / "secret-key"
    if not path.exists():
        data_dir.mkdir(parents=True, exist_ok=True, mode=0o700)
        _store_once(path, get_random_string(64))
    return path.read_text()


def _store_once(path, key):
    """Web and worker may start together: the file appears whole, and the first one wins."""
    handle, whole = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "w") as file:
        file.write(key)
    try:
        os.link(whole, path)
    except FileExistsError:
        pass
    finally:
        os.unlink(whole)


def fingerprint(key):
    """Tells two keys apart and nothing of either."""
    return hashlib.sha256(b"fingerprint of a key " + key.encode()).hexdigest()[:12]
