"""Small files that ask for much: pixels, processor time, frames, metadata."""
import struct
import zlib

from PIL import Image

from .building import (
    SIZE,
    accepted,
    box,
    canvas,
    chunk,
    control,
    exif,
    header,
    in_jpeg,
    in_png,
    jpeg_with,
    piece,
    pixels_of,
    png_of,
    png_with,
    refused,
    riff,
    saved,
    segment,
    webp_with,
)

PIXELS = "too_many_pixels"
END = chunk(b"IEND")


def cases():
    yield from pixels()
    yield from processor()
    yield from frames()
    yield from metadata()
    yield from previews()


def pixels():
    data = chunk(b"IDAT", zlib.compress(b"\0" * 100_000))
    sizes = {"square": (50_000, 50_000), "warned": (13_300, 13_300), "ribbon": (1, 4_000_000),
             "tape": (4_000_000, 1), "largest": (2**31 - 1, 2**31 - 1), "just": (7875, 7875),
             "side": (20_001, 2)}
    for name, (w, h) in sizes.items():
        yield refused(f"png-{name}", png_of(header(w, h), data, END), PIXELS)
    for colour, depth in ((0, 1), (0, 16), (2, 16), (3, 8), (4, 16), (6, 16)):
        yield refused(f"png-colour-{colour}-{depth}",
                      png_of(header(9400, 9400, depth, colour), data, END), PIXELS)
    yield refused("png-interlaced", png_of(header(10_000, 10_000, interlace=1), data, END), PIXELS)
    yield refused("png-header-only", png_of(header(50_000, 50_000)), PIXELS)
    rows = chunk(b"IDAT", zlib.compress(b"\0" * (13_300 * (1 + -(-13_300 // 8)))))
    yield refused("png-real-flood", png_of(header(13_300, 13_300, 1, 0), rows, END), PIXELS)
    for name, (w, h) in {"24000": (24_000, 24_000), "65535": (65_535, 65_535),
                         "narrow": (1, 65_535)}.items():
        yield refused(f"jpeg-{name}", resized_jpeg(w, h), PIXELS)
        yield refused(f"jpeg-{name}-progressive", resized_jpeg(w, h, progressive=True), PIXELS)
    yield refused("webp-lossless-40-bytes", riff(piece(b"VP8L", lossless_head(16_384, 16_384))),
                  PIXELS)
    yield refused("webp-lossy", riff(piece(b"VP8 ", lossy_head(16_383, 16_383))), PIXELS)
    yield refused("webp-canvas", riff(canvas(2**24, 2**24), saved("WEBP")[12:]), PIXELS)
    for name, (w, h) in {"square": (50_000, 50_000), "ribbon": (1, 4_000_000)}.items():
        yield refused(f"avif-{name}", resized_avif(w, h), PIXELS)
    yield accepted("png-longest-side", png_of(
        header(20_000, 3, 1, 0), chunk(b"IDAT", zlib.compress((b"\0" + b"\xff" * 2500) * 3)), END),
        corners=((255,) * 3,) * 4, size=(20_000, 3))
    yield accepted("png-longest-ribbon", png_of(
        header(2, 20_000, 8, 0), chunk(b"IDAT", zlib.compress(b"\0\xff\xff" * 20_000)), END),
        corners=((255,) * 3,) * 4, size=(2, 20_000))


def resized_jpeg(width, height, **options):
    data = bytearray(saved("JPEG", **options))
    at = max(data.find(b"\xff\xc0\0\x11"), data.find(b"\xff\xc2\0\x11"))
    data[at + 5:at + 9] = struct.pack(">HH", height, width)
    return bytes(data)


def resized_avif(width, height):
    data = saved("AVIF")
    at = data.index(b"ispe") + 8
    return data[:at] + struct.pack(">II", width, height) + data[at + 8:]


def lossless_head(width, height):
    return b"\x2f" + struct.pack("<I", (width - 1) | (height - 1) << 14) + b"\0" * 15


def lossy_head(width, height):
    return b"\x10\0\0\x9d\x01\x2a" + struct.pack("<HH", width, height) + b"\0" * 20


def processor():
    for count in (101, 20_001):
        yield refused(f"jpeg-{count}-scans", many_scans(count), "too_complex")
    for count in (1_001, 100_000):
        texts = chunk(b"tEXt", b"a\0b") * count
        yield refused(f"png-{count}-texts", png_with(texts), "too_much_metadata")
    empty = chunk(b"IDAT") * 20_001
    yield refused("png-empty-data", png_of(header(*SIZE), empty, pixels_of(), END), "too_complex")
    yield refused("jpeg-comments", jpeg_with(segment(0xFE, b"x") * 5_000), "too_much_metadata")
    yield refused("webp-chunks", webp_with(piece(b"abcd", b"xy") * 5_000), "too_much_metadata")
    yield refused("avif-boxes", saved("AVIF") + box(b"free") * 20_001, "too_complex")
    yield refused("avif-shared-bytes", avif_with_items(100, 900), "too_complex")
    yield refused("avif-items", avif_with_items(60_000, 1), "too_complex")
    yield refused("avif-many-small-boxes", saved("AVIF") + box(b"free") * 200_000, "too_complex")
    yield refused("jpeg-fill-bytes", jpeg_with(b"\xff" * 1_900_000), "corrupt_image")
    yield accepted("jpeg-fill-bytes-few", jpeg_with(b"\xff" * 900))
    yield refused("tiff-pages", saved("TIFF", save_all=True, append_images=[tiny()] * 400),
                  "unsupported_type")
    comments = (b"\x21\xfe" + b"\xff" + b"c" * 255 + b"\0") * 5_000
    yield refused("gif-comments", b"GIF89a" + b"\1\0\1\0\0\0\0" + comments + b";",
                  "unsupported_type")


def many_scans(count):
    """A progressive JPEG of which one scan is repeated."""
    data = saved("JPEG", progressive=True)
    start = data.index(b"\xff\xda")
    end = data.index(b"\xff", start + 20)
    while data[end + 1] == 0:
        end = data.index(b"\xff", end + 2)
    return data[:start] + data[start:end][:40] * count + data[end:]


def avif_with_items(items, extents):
    table = b"".join(struct.pack(">HHH", n + 1, 0, extents) + struct.pack(">II", 0, 1_000) * extents
                     for n in range(items))[:1_800_000]
    places = box(b"iloc", b"\0\0\0\0\x44\0" + struct.pack(">H", items) + table)
    primary = box(b"pitm", b"\0\0\0\0\0\1")
    return (box(b"ftyp", b"avif\0\0\0\0avifmif1") + box(b"meta", b"\0\0\0\0" + primary + places)
            + box(b"mdat", b"\0" * 5_000))


def tiny():
    return Image.new("L", (2, 2), 90)


def frames():
    moving = [Image.new("RGB", (8, 8), (n * 97 % 256, 0, n % 251)) for n in range(1_000)]
    for count in (2, 1_000):
        yield refused(f"webp-{count}-frames", saved(
            "WEBP", moving[0], save_all=True, append_images=moving[1:count]), "animated")
    for count in (2, 500):
        yield refused(f"apng-{count}-frames", saved(
            "PNG", moving[0], save_all=True, append_images=moving[1:count]), "animated")
    yield refused("apng-one-frame", png_with(chunk(b"acTL", struct.pack(">II", 1, 0))), "animated")
    yield refused("apng-2-to-the-31", png_with(chunk(b"acTL", struct.pack(">II", 2**31, 0))),
                  "animated")
    yield refused("webp-flag-only", webp_with(flags=2), "animated")
    yield refused("webp-stray-frame", webp_with(piece(b"ANMF", b"\0" * 16)), "animated")
    yield refused("avif-sequence", saved("AVIF", moving[0], save_all=True,
                                         append_images=moving[1:5]), "animated")
    yield refused("gif-2000-frames", saved("GIF", moving[0], save_all=True,
                                           append_images=moving[1:] * 2), "unsupported_type")


def metadata():
    bomb = zlib.compress(b"\0" * 100_000_000, 9)
    yield accepted("png-ztxt-bomb", png_with(chunk(b"zTXt", b"a\0\0" + bomb)), says=("comments",))
    itxt = chunk(b"iTXt", b"a\0\1\0\0\0" + zlib.compress(b"\0" * 1_000_000, 9))
    yield accepted("png-itxt-80", png_with(itxt * 80), says=("comments",))
    yield refused("png-profile-bomb", png_with(chunk(b"iCCP", b"a\0\0" + bomb)),
                  "too_much_metadata")
    hexed = b"Raw profile type exif\0\nexif\n 8\n" + b"45786966" * 20_000
    yield accepted("png-hex-exif", png_with(chunk(b"tEXt", hexed) * 10))
    yield accepted("png-exif-repeated", png_with(chunk(b"eXIf", exif((0x10F, b"m" * 600))) * 500))
    yield refused("jpeg-2000-app1", jpeg_with(segment(0xE1, b"Exif\0\0") * 2_000),
                  "too_much_metadata")
    yield accepted("jpeg-app1-1-9-mb", jpeg_with(segment(0xE1, b"x" * 65_000) * 29))
    tags = exif(*[(0x9C00 + n, 1) for n in range(3_000)])
    yield accepted("jpeg-3000-tags", in_jpeg(tags))
    yield accepted("png-3000-tags", in_png(tags))
    yield accepted("jpeg-exif-loop", in_jpeg(exif((0x10F, 1), next_at=8)))
    own = struct.pack(">HHII", 0x8769, 4, 1, 8)
    yield accepted("jpeg-exif-in-itself", in_jpeg(b"MM\0*" + struct.pack(">IH", 8, 1) + own))
    yield accepted("jpeg-exif-far-away", in_jpeg(b"MM\0*" + struct.pack(">I", 2**32 - 1)))
    yield accepted("jpeg-exif-65535-tags", in_jpeg(b"II*\0" + struct.pack("<IH", 8, 65_535)))
    for name, profile in {"noise": b"\x55" * 3_000, "empty": b"", "short": b"ICC"}.items():
        yield accepted(f"jpeg-profile-{name}", jpeg_with(
            segment(0xE2, b"ICC_PROFILE\0\1\1" + profile)))
        yield accepted(f"png-profile-{name}", png_with(
            chunk(b"iCCP", b"a\0\0" + zlib.compress(profile))))
    yield accepted("jpeg-profile-part-missing", jpeg_with(
        segment(0xE2, b"ICC_PROFILE\0\2\2" + b"x" * 500)))
    yield accepted("png-profile-not-deflated", png_with(chunk(b"iCCP", b"a\0\0not deflated")))


def previews():
    huge = exif((0x10F, b"maker"), next_at="here") + struct.pack(
        ">HHHIHHHHIHHI", 2, 0x100, 3, 1, 65_535, 0, 0x101, 3, 1, 65_535, 0, 0)
    yield accepted("jpeg-preview-4-gpx", in_jpeg(huge), says=("preview picture",))
    bomb = zlib.compress(b"\0" * 10_000_000, 9)
    yield accepted("jpeg-preview-bomb", in_jpeg(exif((0x10F, b"x"), next_at="here") + bomb))
    second = saved("JPEG", Image.new("L", (64, 64)))
    yield accepted("jpeg-two-pictures", jpeg_with(after=second),
                   says=("data after the end of the picture",))
    yield accepted("jpeg-huge-second", jpeg_with(after=resized_jpeg(65_535, 65_535)))
    both = saved("MPO", save_all=True, append_images=[control((32, 32))])
    yield accepted("jpeg-mpo", both, says=("further pictures",))
    yield accepted("jpeg-jfxx", jpeg_with(segment(0xE0, b"JFXX\0\x10" + b"\xff\xd8\xff" * 90)),
                   says=("preview picture",))
