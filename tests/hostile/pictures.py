"""Pictures that must be taken, each with the right pixels: turned, odd colours, every kind."""
import struct
import zlib

from PIL import Image, ImageCms

from .building import (
    ACCEPTED,
    BLUE,
    EXIF_INTO,
    GREEN,
    PALE,
    RED,
    SIZE,
    Case,
    accepted,
    chunk,
    control,
    exif,
    header,
    png_of,
    png_with,
    refused,
    saved,
)

END = chunk(b"IEND")
# Where the four quarters of the stored picture are shown (EXIF 2.32, 4.6.4 A, figure of tag 274).
SHOWN = {1: (RED, GREEN, BLUE, PALE), 2: (GREEN, RED, PALE, BLUE), 3: (PALE, BLUE, GREEN, RED),
         4: (BLUE, PALE, RED, GREEN), 5: (RED, BLUE, GREEN, PALE), 6: (BLUE, RED, PALE, GREEN),
         7: (PALE, GREEN, BLUE, RED), 8: (GREEN, PALE, RED, BLUE)}
# ITU-R BT.601 luma, 0.299 R + 0.587 G + 0.114 B, of the four colours: 59.8 + 17.61 + 3.42 = 81,
# 8.97 + 117.4 + 3.42 = 130, 8.97 + 17.61 + 22.8 = 49, 240.
GREYS = ((81,) * 3, (130,) * 3, (49,) * 3, (240,) * 3)


def cases():
    yield from turned()
    yield from modes()
    yield from by_hand()
    yield from profiles()


def turned():
    for kind, into in EXIF_INTO.items():
        for number, corners in SHOWN.items():
            size = SIZE[::-1] if number >= 5 else SIZE
            yield accepted(f"{kind}-turned-{number}", into(exif((0x112, number))), corners, size)
    for number in (0, 9, 999):
        for kind in ("jpeg", "png", "webp"):
            yield accepted(f"{kind}-turned-{number}", EXIF_INTO[kind](exif((0x112, number))))


def modes():
    picture = control()
    grey = picture.convert("L")
    deep = grey.convert("I").point(lambda value: value * 257).convert("I;16")
    for mode in ("L", "LA"):
        for kind in ("PNG", "WEBP", "AVIF"):
            yield accepted(f"{kind}-{mode}".lower(), saved(kind, picture.convert(mode)), GREYS)
    yield accepted("jpeg-l", saved("JPEG", grey), GREYS)
    yield accepted("png-i16", saved("PNG", deep), GREYS)
    yield accepted("jpeg-cmyk", saved("JPEG", picture.convert("CMYK")))
    yield accepted("png-palette-of-4", saved("PNG", picture.quantize(4)))
    black = ((0,) * 3, (255,) * 3, (0,) * 3, (255,) * 3)
    two = grey.point(lambda value: 255 * (value > 100)).convert("1")
    yield accepted("png-1", saved("PNG", two), black)
    for name, options in {"progressive": {"progressive": True}, "444": {"subsampling": 0},
                          "422": {"subsampling": 1}, "restarts": {"restart_marker_rows": 1},
                          "optimised": {"optimize": True}, "low": {"quality": 30}}.items():
        yield Case(f"jpeg-{name}", saved("JPEG", **options), frozenset({ACCEPTED}),
                   (RED, GREEN, BLUE, PALE), SIZE)
    for kind in ("PNG", "WEBP", "AVIF"):
        yield accepted(f"{kind}-see-through".lower(), saved(kind, see_through()),
                       (RED, GREEN, BLUE, (255, 255, 255)))
    yield accepted("webp-lossless", saved("WEBP", lossless=True))
    yield accepted("avif-444", saved("AVIF", subsampling="4:4:4"))
    yield accepted("jpeg-one-pixel", saved("JPEG", Image.new("RGB", (1, 1), RED)), (RED,) * 4,
                   (1, 1))
    yield accepted("jpeg-grey-end", saved("JPEG", Image.new("RGB", SIZE, (128,) * 3)),
                   ((128,) * 3,) * 4)


def see_through():
    """The pale quarter is wholly transparent, over black that nobody must see."""
    picture = control().convert("RGBA")
    picture.paste((0, 0, 0, 0), (SIZE[0] // 2, SIZE[1] // 2, *SIZE))
    return picture


def by_hand():
    raw = control().tobytes()
    deep = b"".join(bytes([value, value]) for value in raw)
    yield accepted("png-rgb-16", png_of(header(*SIZE, 16), rows(deep, SIZE[0] * 6), END))
    clear = b"".join(raw[at:at + 3] + b"\xff" for at in range(0, len(raw), 3))
    yield accepted("png-rgba", png_of(header(*SIZE, 8, 6), rows(clear, SIZE[0] * 4), END))
    wide = b"".join(bytes([value, value]) for value in clear)
    yield accepted("png-rgba-16", png_of(header(*SIZE, 16, 6), rows(wide, SIZE[0] * 8), END))
    yield accepted("png-interlaced-small", png_of(header(*SIZE, interlace=1), adam7(raw), END))
    palette = chunk(b"PLTE", bytes(RED + GREEN + BLUE + PALE))
    top = bytes([0x00] * 12 + [0x55] * 12)              # two bits a pixel: colours 0 and 1
    low = bytes([0xAA] * 12 + [0xFF] * 12)              # colours 2 and 3
    two_bits = rows(top * 32 + low * 32, 24)
    yield accepted("png-palette-2-bit", png_of(header(*SIZE, 2, 3), palette, two_bits, END))
    yield accepted("png-palette-see-through", png_of(
        header(*SIZE, 2, 3), palette, chunk(b"tRNS", b"\xff\xff\xff\0"), two_bits, END),
        (RED, GREEN, BLUE, (255,) * 3))
    yield accepted("png-many-data-chunks", split_data())
    yield refused("jpeg-arithmetic", saved("JPEG").replace(b"\xff\xc0\0\x11", b"\xff\xc9\0\x11"),
                  "unsupported_type")
    yield refused("jpeg-lossless", saved("JPEG").replace(b"\xff\xc0\0\x11", b"\xff\xc3\0\x11"),
                  "unsupported_type")
    deep = saved("JPEG").replace(b"\xff\xc0\0\x11\x08", b"\xff\xc1\0\x11\x0c")
    yield refused("jpeg-12-bit", deep, "unsupported_type")


def rows(raw, step):
    lines = b"".join(b"\0" + raw[at:at + step] for at in range(0, len(raw), step))
    return chunk(b"IDAT", zlib.compress(lines))


def adam7(raw):
    """The seven passes of ISO/IEC 15948, 8.2: first column and row, steps."""
    out, (w, h) = b"", SIZE
    for x0, y0, dx, dy in ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4),
                           (1, 0, 2, 2), (0, 1, 1, 2)):
        for y in range(y0, h, dy):
            out += b"\0" + b"".join(raw[3 * (y * w + x):][:3] for x in range(x0, w, dx))
    return chunk(b"IDAT", zlib.compress(out))


def split_data():
    whole = png_with()
    at = whole.index(b"IDAT") - 4
    length = struct.unpack(">I", whole[at:at + 4])[0]
    data = whole[at + 8:at + 8 + length]
    pieces = [chunk(b"IDAT", data[n:n + 7]) for n in range(0, length, 7)]
    return png_of(header(*SIZE), *pieces, END)


def profiles():
    """A profile whose red and blue are exchanged shows whether it is used at all."""
    plain = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    other = plain.replace(b"rXYZ", b"....", 1).replace(b"bXYZ", b"rXYZ", 1).replace(
        b"....", b"bXYZ", 1)
    exchanged = (BLUE, GREEN, RED, PALE)
    for kind in ("JPEG", "PNG", "WEBP", "AVIF"):
        yield accepted(f"{kind}-profile-srgb".lower(), saved(kind, icc_profile=plain),
                       says=("colour profile",))
        yield accepted(f"{kind}-profile-exchanged".lower(), saved(kind, icc_profile=other),
                       exchanged, says=("colour profile",))
    yield accepted("jpeg-grey-with-colour-profile", saved(
        "JPEG", control().convert("L"), icc_profile=plain), GREYS)
