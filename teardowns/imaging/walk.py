"""Through a file's structure before any decoder sees it: sizes, checksums, counts, extras."""
from dataclasses import dataclass, field
from typing import BinaryIO

from .limits import MAX_BYTES
from .refusals import check_pixels, empty_file, too_large
from .sniff import HEAD, media_type_of
from .structure import avif, heic, jpeg, png, webp
from .structure.found import Piece, Source

WALKERS = {"image/jpeg": jpeg.walk, "image/png": png.walk, "image/webp": webp.walk,
           "image/avif": avif.walk, "image/heic": heic.walk}
TURNED = {5, 6, 7, 8}                # orientations that swap the sides


@dataclass(frozen=True)
class Walk:
    media_type: str
    width: int                       # px, as shown: after the orientation is applied
    height: int
    orientation: int                 # 1 to 8, as EXIF numbers them
    removed: tuple[str, ...]         # what will be stripped, in words for people
    pieces: tuple[Piece, ...] = field(repr=False, default=())     # what a decoder is given
    profile: tuple[Piece, ...] = field(repr=False, default=())    # of colours
    profile_packed: bool = False

    @property
    def stored_size(self) -> tuple[int, int]:
        """Before the orientation is applied."""
        size = (self.width, self.height)
        return size[::-1] if self.orientation in TURNED else size


def walk(file: BinaryIO, byte_size: int) -> Walk:
    """What the file is and holds; raises Refused for all that should not reach a decoder."""
    if byte_size == 0:
        raise empty_file()
    if byte_size > MAX_BYTES:
        raise too_large(byte_size)
    source = Source(file, byte_size)
    media_type = media_type_of(source.read(0, min(HEAD, byte_size)))
    found = WALKERS[media_type](source)
    check_pixels(found.width, found.height)
    size = (found.width, found.height)
    width, height = size[::-1] if found.orientation in TURNED else size
    return Walk(media_type, width, height, found.orientation, found.removed, found.pieces,
                found.profile, found.profile_packed)
