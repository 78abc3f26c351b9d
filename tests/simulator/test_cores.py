"""The core table against itself and against catalogue masses."""
import numpy as np
import pytest

from . import cores


def test_masses_of_catalogues():
    # EFD 15/8/5: 2.8 g a set (EPCOS B66413)
    assert cores.MASS[cores.NAMES.index("EFD15")] == pytest.approx(2.8e-3, rel=0.1)


def test_mean_turns_of_catalogues():
    # EFD 15/8/5: 29 mm (EPCOS B66414)
    assert cores.TURN[cores.NAMES.index("EFD15")] == pytest.approx(29e-3, rel=0.15)


def test_a_core_is_smaller_than_its_outline():
    outline = cores.WIDTH * cores.HEIGHT * np.maximum(cores.DEPTH, cores.LEG)
    assert np.all(outline > 0.9 * cores.VOLUME)
