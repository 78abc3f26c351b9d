"""HEIC is read where the package pillow-heif is installed, and advised against elsewhere.

The package is no requirement: its wheel brings code under the GPL along.
"""
from importlib import import_module
from importlib.util import find_spec

PACKAGE = "pillow_heif"
FORMAT = "HEIF"                      # what the decoder calls it


def is_readable() -> bool:
    return find_spec(PACKAGE) is not None


def prepare() -> None:
    """Loads the decoder, which opens files; it looks at the picture alone, in one thread."""
    package = import_module(PACKAGE)
    package.register_heif_opener(thumbnails=False, depth_images=False, aux_images=False,
                                 decode_threads=1)
