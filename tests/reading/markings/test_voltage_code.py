"""0G to 2A, 2D, 2E, 2H from makers' tables; 2G, 2W, 3A, 3D from memory of the same system."""

import pytest

from teardowns.reading.markings.voltage_code import read_voltage_code

CODES = [
    ("0G", 4), ("0J", 6.3), ("1A", 10), ("1C", 16), ("1E", 25), ("1V", 35), ("1H", 50), ("1N", 75),
    ("2A", 100), ("2D", 200), ("2E", 250), ("2G", 400), ("2W", 450), ("2H", 500), ("3A", 1000),
    ("3D", 2000),
]  # fmt: skip


@pytest.mark.parametrize(("code", "volts"), CODES)
def test_a_code_is_read(code, volts):
    assert read_voltage_code(code) == volts


@pytest.mark.parametrize("code", ["1", "C", "9C", "1Z", "11C"])
def test_what_is_no_code_is_not_read(code):
    assert read_voltage_code(code) is None
