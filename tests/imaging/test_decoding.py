import io
import zlib

import pytest
from PIL import Image, ImageCms

from teardowns.imaging import decoding
from teardowns.imaging.limits import MAX_PROFILE
from tests.hostile.building import control


def test_scaling_by_strips_equals_scaling_at_once():
    picture = Image.effect_noise((900, 1400), 60)
    size = (600, 933)
    whole = picture.resize(size, Image.Resampling.HAMMING)
    strips = decoding.scaled(picture, size)
    worst = max(abs(a - b) for a, b in zip(whole.tobytes(), strips.tobytes(), strict=True))
    # Rows are weighted anew in each strip; rounding to whole grey levels may differ by one.
    assert worst <= 1


def test_sixteen_bits_are_scaled_not_clipped():
    # 65535 · 128/255 = 32896, the 16 bit value of grey 128.
    assert decoding.flat(Image.new("I;16", (1, 1), 32_896)).getpixel((0, 0)) == 128


def test_what_is_transparent_lies_on_white():
    assert decoding.flat(Image.new("RGBA", (1, 1), (0, 0, 0, 0))).getpixel((0, 0)) == (255,) * 3


def test_colours_without_a_profile_stay_as_they_are():
    assert decoding.in_srgb(control(), b"").tobytes() == control().tobytes()


@pytest.mark.parametrize("profile", [b"no profile at all", b"\0" * 200])
def test_a_profile_that_makes_no_sense_counts_as_none(profile):
    assert decoding.in_srgb(control(), profile).tobytes() == control().tobytes()


def test_linear_light_is_converted_by_its_profile():
    """Half the light is 188 in sRGB: 255 (1.055 · 0.5^(1/2.4) − 0.055) = 187.5 (IEC 61966-2-1)."""
    linear = srgb().replace(curve_of(srgb()), b"curv" + b"\0" * 8)      # no entry: y = x
    grey = decoding.in_srgb(Image.new("RGB", (1, 1), (128, 128, 128)), linear)
    assert all(abs(value - 188) <= 1 for value in grey.getpixel((0, 0)))


def srgb():
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def curve_of(profile):
    at = profile.index(b"para", 128)
    return profile[at:at + 12]


def test_a_profile_is_unpacked_no_further_than_its_limit():
    assert decoding.unpacked(zlib.compress(b"p" * 500), True) == b"p" * 500
    with pytest.raises(decoding.ProfileTooLong):
        decoding.unpacked(zlib.compress(b"\0" * (MAX_PROFILE + 1)), True)
    assert decoding.unpacked(b"not packed", True) == b""
    assert decoding.unpacked(b"as it is", False) == b"as it is"


def test_only_the_format_that_was_walked_is_tried():
    out = io.BytesIO()
    control().save(out, "PNG")
    job = decoding.Job("WEBP", control().size, 1, (), (), (), False)
    with pytest.raises(decoding.Damaged):
        decoding.opened(out.getvalue(), job)
