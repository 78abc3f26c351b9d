"""What the child does with one picture: decode, cover, scale in cascade, encode, say what came."""
import os
import warnings
from io import BytesIO

# The plug-ins are imported here because a child that works can open no file any more.
from PIL import AvifImagePlugin, Image, ImagePalette, TiffImagePlugin, WebPImagePlugin

from . import heic
from .burn_in import painted
from .decoding import Damaged, ProfileTooLong, scaled, unpacked, upright
from .job import Job
from .limits import MAX_PIXELS
from .perceptual_hash import perceptual_hash
from .structure.found import ZEROS

NEEDED = (AvifImagePlugin, ImagePalette, TiffImagePlugin, WebPImagePlugin)  # EXIF in AVIF: TIFF
QUALITY = 80
METHOD, ZOOM_METHOD = 2, 0           # WebP effort; large ones have most of the pixels
LARGE = 2_000_000                    # px from which the least is made, for a quarter more bytes
DAMAGE = (Damaged, Image.DecompressionBombError, Image.DecompressionBombWarning, OSError,
          SyntaxError, ValueError, EOFError, IndexError, KeyError, TypeError, RuntimeError)


def prepare(text: str) -> None:
    """Everything that needs files, and the decoder's own limit on pixels as an error."""
    Image.preinit()
    if Job.from_json(text).format == heic.FORMAT:
        heic.prepare()
    Image.MAX_IMAGE_PIXELS = MAX_PIXELS
    warnings.simplefilter("error", Image.DecompressionBombWarning)


class NotWritten(Exception):
    """The output has no room: no fault of the picture."""


def outcome(text: str) -> dict:
    """{"lengths": …, "perceptual_hash": …}, {"refused": code, "why": …} or {"errno": …}."""
    try:
        return _make(Job.from_json(text))
    except NotWritten as error:
        return {"errno": error.args[0]}
    except ProfileTooLong:
        return {"refused": "too_much_metadata"}
    except MemoryError:
        return {"refused": "too_complex"}
    except DAMAGE as error:
        return {"refused": "corrupt_image", "why": repr(error)[:200]}
    except Exception as error:       # whatever a decoder raises must end as a refusal
        return {"refused": "decode_failed", "why": repr(error)[:200]}


def _make(job):
    profile = unpacked(_bytes_of(job.profile), job.profile_packed)
    image = _largest(_bytes_of(job.pieces), profile, job)
    lengths = []
    for size in reversed(job.sizes):
        if image.size != size:
            image = scaled(image, size)
        lengths.append(_write(image))
    return {"lengths": lengths[::-1], "perceptual_hash": perceptual_hash(image)}


def _largest(data, profile, job):
    """The largest derivative; regions are covered at full size, before any pixels mix."""
    if not job.covered:
        return upright(data, profile, job, job.sizes[-1])
    full = job.size[::-1] if job.orientation >= 5 else job.size
    return scaled(painted(upright(data, profile, job, full), job.covered), job.sizes[-1])


def _bytes_of(pieces):
    return b"".join(map(_bytes_of_one, pieces))


def _bytes_of_one(piece):
    if isinstance(piece, bytes):
        return piece
    offset, length = piece
    return bytes(length) if offset == ZEROS else os.pread(0, length, offset)


def _write(image):
    out = BytesIO()
    method = ZOOM_METHOD if image.width * image.height > LARGE else METHOD
    image.save(out, "WEBP", quality=QUALITY, method=method, icc_profile=b"", exif=b"", xmp=b"")
    view = out.getbuffer()
    done = 0
    try:
        while done < len(view):
            done += os.write(1, view[done:])
    except OSError as error:
        raise NotWritten(error.errno) from error
    return len(view)
