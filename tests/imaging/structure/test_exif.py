import struct

import pytest

from teardowns.imaging.structure.exif import look, words_in_xmp
from tests.hostile.building import exif


@pytest.mark.parametrize("order", ["<", ">"])
def test_orientation_is_read_in_both_byte_orders(order):
    assert look(exif((0x112, 6), order=order))[0] == 6


@pytest.mark.parametrize("value", [0, 9, 999])
def test_an_orientation_that_does_not_exist_counts_as_upright(value):
    assert look(exif((0x112, value)))[0] == 1


def test_private_things_are_named_without_their_values():
    words = look(exif((0xA431, b"S123"), (0x132, b"2026:01:02"), gps=[(1, b"N")]))[1]
    assert set(words) == {"camera serial number", "date and time", "GPS position"}


def test_a_second_directory_is_a_preview_whose_orientation_does_not_count():
    second = struct.pack(">HHHIHHI", 1, 0x112, 3, 1, 8, 0, 0)
    orientation, words = look(exif((0x112, 3), next_at="here") + second)
    assert (orientation, words) == (3, ["preview picture"])


@pytest.mark.parametrize("block", [b"", b"MM", b"XX\0*\0\0\0\x08", b"MM\0*\xff\xff\xff\xff",
                                   b"II*\0\x08\0\0\0\xff\xff" + b"\0" * 30])
def test_rubbish_is_camera_data_and_upright(block):
    assert look(block) == (1, ["camera data"])


def test_directories_in_a_circle_come_to_an_end():
    own = struct.pack(">HHII", 0x8769, 4, 1, 8)
    assert look(b"MM\0*" + struct.pack(">IH", 8, 1) + own + struct.pack(">I", 8))[0] == 1


def test_xmp_is_searched_for_position_and_serial_number():
    assert words_in_xmp(b"exif:GPSLatitude aux:SerialNumber") == [
        "XMP description", "GPS position", "camera serial number"]
