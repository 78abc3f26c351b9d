"""One picture from its bytes to an upright RGB image without a past. Runs in the child only."""
import zlib
from io import BytesIO

from PIL import Image, ImageCms, UnidentifiedImageError

from . import heic
from .job import Job
from .limits import MAX_PROFILE

STRIP = 256                                  # rows scaled at once: no second full-size copy
WHITE = (255, 255, 255)
TURNS = {2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180,
         4: Image.Transpose.FLIP_TOP_BOTTOM, 5: Image.Transpose.TRANSPOSE,
         6: Image.Transpose.ROTATE_270, 7: Image.Transpose.TRANSVERSE,
         8: Image.Transpose.ROTATE_90}
FILLING = bytes(i * 73 % 251 for i in range(4096))       # holds no FF


class Damaged(Exception):
    """The decoder's result is not the whole picture."""


class ProfileTooLong(Exception):
    """A colour profile unpacks to more than MAX_PROFILE."""


def opened(data: bytes, job: Job) -> Image.Image:
    """The picture as its decoder sees it, not loaded yet."""
    try:
        image = Image.open(BytesIO(data), formats=[job.format])
    except UnidentifiedImageError as error:
        raise Damaged from error
    # Of several pictures in a HEIC the decoder takes the one that the file is about; none moves.
    frames = 1 if job.format == heic.FORMAT else getattr(image, "n_frames", 1)
    if image.size != tuple(job.size) or frames != 1:
        raise Damaged
    return image


def upright(data: bytes, profile: bytes, job: Job, size: tuple[int, int]) -> Image.Image:
    """The picture at one size as shown, in sRGB."""
    stored = size[::-1] if job.orientation >= 5 else size
    image = opened(data, job)
    if job.format == "JPEG":
        image.draft(image.mode, stored)
    image.load()
    if job.format == heic.FORMAT and image.size != tuple(job.size):
        raise Damaged
    if job.format == "JPEG" and _ends_early(data, image, job):
        raise Damaged
    profile = profile or image.info.get("icc_profile") or b""
    image = in_srgb(scaled(flat(image), stored), profile)
    return image.transpose(TURNS[job.orientation]) if job.orientation in TURNS else image


def _ends_early(data, image, job):
    """Whether a JPEG's data ran out before its last pixel.

    The decoder then fills up with mid-grey and says nothing. A picture may well end in that grey;
    so other data is put behind the end, which shows in the pixels only if some were missing.
    """
    if image.getpixel((image.width - 1, image.height - 1)) not in (128, (128, 128, 128)):
        return False
    fewest = (max(job.size[0] // 8, 1), max(job.size[1] // 8, 1))
    looks = []
    for bytes_ in (data, data[:-2] + FILLING + data[-2:]):
        small = opened(bytes_, job)
        small.draft(small.mode, fewest)
        looks.append(small.tobytes())
    return looks[0] != looks[1]


def flat(image: Image.Image) -> Image.Image:
    """In mode L, RGB or CMYK; what is transparent lies on white."""
    if image.mode.startswith("I;16"):
        return image.point(lambda value: value * (1 / 257)).convert("L")
    if image.mode in ("LA", "PA", "RGBA") or "transparency" in image.info:
        image = image.convert("RGBA")
        ground = Image.new("RGB", image.size, WHITE)
        ground.paste(image, mask=image)
        return ground
    if image.mode in ("L", "RGB", "CMYK"):
        return image
    return image.convert("L" if image.mode in ("1", "I") else "RGB")


def scaled(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    """A new image of that size, filled strip by strip."""
    out = Image.new(image.mode, size)
    step = image.height / size[1]
    for top in range(0, size[1], STRIP):
        bottom = min(top + STRIP, size[1])
        box = (0, top * step, image.width, min(bottom * step, image.height))
        strip = image.resize((size[0], bottom - top), Image.Resampling.HAMMING, box)
        out.paste(strip, (0, top))
    return out


def in_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    """Colours converted by the picture's own profile; one that makes no sense counts as none."""
    if profile:
        try:
            own = ImageCms.ImageCmsProfile(BytesIO(profile))
            return _converted(image, own)
        except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
            pass
    return image if image.mode == "RGB" else image.convert("RGB")


def _converted(image, own):
    srgb = ImageCms.createProfile("sRGB")
    transform = ImageCms.buildTransform(own, srgb, image.mode, "RGB")
    if image.mode == "RGB":
        ImageCms.applyTransform(image, transform, inPlace=True)
        return image
    return ImageCms.applyTransform(image, transform)


def unpacked(profile: bytes, is_packed: bool) -> bytes:
    """The colour profile's own bytes; raises ProfileTooLong before more is unpacked."""
    if not is_packed or not profile:
        return profile
    inflate = zlib.decompressobj()
    try:
        out = inflate.decompress(profile, MAX_PROFILE)
    except zlib.error:
        return b""
    if inflate.unconsumed_tail:
        raise ProfileTooLong
    return out
