"""HEIC from file to derivatives where the optional package is there, and advice where it is not."""
import pytest
from PIL import Image

from teardowns.imaging import heic as optional
from teardowns.imaging.derive import derive
from teardowns.imaging.refusals import Refused
from teardowns.imaging.sniff import kinds_taken, media_type_of
from tests.hostile.building import (
    BLUE,
    CANARY,
    GREEN,
    PALE,
    RED,
    REFUSED,
    accepted,
    control,
    exif,
    refused,
)
from tests.imaging.heic_files import heic, readable
from tests.imaging.test_hostile_images import problems

HEAD = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic"


def test_without_the_package_there_is_advice(monkeypatch):
    monkeypatch.setattr(optional, "find_spec", lambda name: None)
    with pytest.raises(Refused) as refusal:
        media_type_of(HEAD)
    assert refusal.value.code == "unsupported_type"
    assert "choose the most compatible format in the camera's settings" in refusal.value.message
    assert "HEIC" not in kinds_taken().values()


def test_the_package_need_only_be_there(monkeypatch):
    monkeypatch.setattr(optional, "find_spec", lambda name: object())
    assert media_type_of(HEAD) == "image/heic"
    assert kinds_taken()["image/heic"] == "HEIC"
    with pytest.raises(Refused, match="WebP, AVIF and HEIC pictures are taken"):
        media_type_of(b"GIF89a")


def turned(number):
    return heic(exif=b"Exif\0\0" + exif((0x112, number)))


def cropped_and_tall():
    """97 × 63, shown upright after a quarter turn to the right (EXIF 6)."""
    return heic(control((97, 63)), exif=b"Exif\0\0" + exif((0x112, 6)))


def good():
    # Corners row by row as shown; the numbers are those of EXIF, as its table of turns has them.
    yield accepted("plain", heic())
    yield accepted("upside-down", turned(3), (PALE, BLUE, GREEN, RED))
    yield accepted("to-the-right", turned(6), (BLUE, RED, PALE, GREEN), (64, 96))
    yield accepted("mirrored", turned(2), (GREEN, RED, PALE, BLUE))
    yield accepted("to-the-left", turned(8), (GREEN, PALE, RED, BLUE), (64, 96))
    yield accepted("cropped", cropped_and_tall(), (BLUE, RED, PALE, GREEN), (63, 97))
    yield accepted("large", heic(control((1400, 900))), size=(1400, 900))
    yield accepted("transparent", heic(control().convert("RGBA")))
    yield accepted("maker", heic(exif=b"Exif\0\0" + exif((0x10F, CANARY))),
                   says=("camera make and model",))
    yield accepted("position", heic(exif=b"Exif\0\0" + exif(gps=[(0x1D, CANARY)])),
                   says=("GPS position",))
    yield accepted("xmp", heic(xmp=b"<x:xmpmeta>" + CANARY + b"</x:xmpmeta>"))


def bad():
    whole = heic(exif=b"Exif\0\0" + exif((0x10F, CANARY)))
    for share in (0.02, 0.2, 0.5, 0.8, 0.97):
        yield refused(f"cut-{share}", whole[:int(len(whole) * share)], *REFUSED)
    for kind in (b"hvcC", b"ipco", b"ipma", b"ispe", b"iloc", b"iinf", b"mdat"):
        at = whole.index(kind)
        yield refused(f"emptied-{kind.decode()}", whole[:at + 4] + bytes(24) + whole[at + 28:],
                      *REFUSED)
    wide = (96).to_bytes(4, "big") + (64).to_bytes(4, "big")
    huge = (19_000).to_bytes(4, "big") + (19_000).to_bytes(4, "big")
    yield refused("huge", whole.replace(wide, huge), "too_many_pixels")
    lie = (960).to_bytes(4, "big") + (640).to_bytes(4, "big")
    yield refused("lie", whole.replace(wide, lie), "corrupt_image", "decode_failed")


@readable
@pytest.mark.parametrize("cases", [good, bad])
def test_every_picture_gets_its_verdict_and_leaves_nothing_behind(cases, tmp_path):
    wrong = [f"{case.name}: {problem}" for number, case in enumerate(cases())
             for problem in problems(case, tmp_path / str(number))]
    assert not wrong, "\n".join(wrong)


@readable
def test_what_is_covered_is_gone_from_every_size(tmp_path):
    original = tmp_path / "original"
    original.write_bytes(heic())
    file = derive(original, tmp_path, covered=[(0, 0, 48, 32)]).files[-1]
    with Image.open(file.path) as picture:
        red, green, blue = picture.convert("RGB").getpixel((24, 16))
    assert max(red, green, blue) - min(red, green, blue) < 12
