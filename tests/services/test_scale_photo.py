"""A scale is checked before it is kept, and a new one never replaces what was measured with."""
import pytest

from teardowns.imaging.scales import ScaleError
from teardowns.models import PhotoScale
from teardowns.services.scale_photo import scale_of, scale_photo

pytestmark = pytest.mark.django_db


def test_two_points_and_a_length_make_a_scale(alice, photo):
    row = scale_photo(author=alice, photo=photo, points=((10.0, 10.0), (210.0, 10.0)),
                      lengths=[0.02], length_u=None, known="ruler_10", plane="board")
    assert scale_of(row).metres_a_pixel == pytest.approx(1e-4)       # 20 mm over 200 px
    assert row.history.first().history_user == alice


def test_a_scale_that_cannot_be_used_is_not_kept(alice, photo):
    with pytest.raises(ScaleError, match="same"):
        scale_photo(author=alice, photo=photo, points=((10.0, 10.0), (10.0, 11.0)),
                    lengths=[0.02], length_u=None)
    assert not PhotoScale.objects.exists()


def test_another_scale_stands_beside_the_first(alice, photo):
    for width in (200.0, 300.0):
        scale_photo(author=alice, photo=photo, points=((10.0, 10.0), (width, 10.0)),
                    lengths=[0.02], length_u=1e-4)
    assert photo.scales.count() == 2
