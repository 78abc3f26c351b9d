"""Photos at one scale: each drawing is so many millimetres wide, whatever its picture shows."""
from __future__ import annotations

from dataclasses import dataclass

from .markup import element, escape

ROUND = (100, 50, 20, 10, 5, 2)     # mm, of a ruler


@dataclass(frozen=True, slots=True)
class ScaledPhoto:
    src: str
    large: str                      # address of the largest picture
    alt: str
    width: float                    # mm, of the whole picture
    height: float


@dataclass(frozen=True, slots=True)
class Window:
    """What every drawing of a row shows: so many millimetres."""

    width: float
    height: float


def window_of(photos: list[ScaledPhoto]) -> Window:
    """The smallest window that holds each of the photos whole."""
    return Window(max((one.width for one in photos), default=1.0),
                  max((one.height for one in photos), default=1.0))


def ruler_length(window: Window) -> int:
    """mm: the longest round length that takes at most half of the window."""
    return next((length for length in ROUND if length <= window.width / 2), 1)


def scaled_photo(photo: ScaledPhoto, window: Window) -> str:
    """The picture in the middle of the window; a unit of the drawing is a millimetre."""
    image = element("image", href=photo.src, x=_plain((window.width - photo.width) / 2),
                    y=_plain((window.height - photo.height) / 2), width=_plain(photo.width),
                    height=_plain(photo.height), preserveAspectRatio="none",
                    data_large=photo.large)
    spoken = element("title", escape(photo.alt), translate="no")
    return element("svg", spoken, image, cls="scaled", role="img",
                   viewBox=f"0 0 {_plain(window.width)} {_plain(window.height)}")


def ruler(window: Window) -> str:
    """As wide as the drawings, so that its bar is as long as the same length in them."""
    length = ruler_length(window)
    bar = element("path", d=f"M0 0V8M0 4H{length}M{length} 0V8", cls="ruler-bar")
    return element("svg", bar, cls="ruler", aria_hidden="true", preserveAspectRatio="none",
                   viewBox=f"0 0 {_plain(window.width)} 8")


def _plain(millimetres: float) -> str:
    """To the micrometre, as scripts write numbers."""
    return f"{millimetres:.3f}".rstrip("0").rstrip(".")
