import pytest

from teardowns.reading.markings.capacitor_code import read_capacitance


@pytest.mark.parametrize("token", ["104630", "104V", "ABC", "K104", ""])
def test_what_is_no_code_is_not_read(token):
    assert read_capacitance(token) is None


def test_r_is_the_decimal_point_of_small_ceramics():
    # 2R2C: 2.2 pF ± 0.25 pF
    fields = read_capacitance("2R2C")
    assert fields["value"] == 2.2e-12
    assert fields["tolerance"][1] == pytest.approx(0.25 / 2.2)
