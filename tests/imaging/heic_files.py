"""HEIC files, made by the optional package; nothing is registered with Pillow in this process."""
import io
from importlib import import_module

import pytest

from teardowns.imaging.heic import PACKAGE, is_readable
from tests.hostile.building import control

readable = pytest.mark.skipif(not is_readable(), reason="the optional package is not installed")


def heic(picture=None, **options):
    out = io.BytesIO()
    import_module(PACKAGE).from_pillow(picture or control()).save(out, quality=95, **options)
    return out.getvalue()
