import pytest

from teardowns.imaging.job import Job, derived_sizes
from teardowns.imaging.limits import MAX_DERIVED_PIXELS, MAX_DERIVED_SIDE


def test_a_job_survives_its_way_to_the_child():
    job = Job("WEBP", (6, 4), 1, ((3, 2), (6, 4)), (b"\0\xff", (12, 30)), ((50, 9),), True,
              ((0.5, 1.0, 2.0, 3.0),))
    assert Job.from_json(job.to_json()) == job


@pytest.mark.parametrize("size, widths", [
    ((100, 80), [100]), ((320, 200), [320]), ((321, 200), [320, 321]),
    ((2560, 1920), [320, 640, 1280, 2560]), ((4000, 3000), [320, 640, 1280, 2560, 4000]),
    ((6000, 4000), [320, 640, 1280, 2560, 5120]), ((20_000, 3), [320, 640, 1280, 2560, 5120]),
    ((1700, 1300), [320, 640, 1700]), ((1707, 1300), [320, 640, 1280, 1707]),  # 1280 × 4/3
    ((3000, 2000), [320, 640, 1280, 3000]), ((700, 500), [320, 640, 700]),
])
def test_widths_are_steps_up_to_the_picture_or_the_zoom_size(size, widths):
    assert [w for w, _ in derived_sizes(*size)] == widths


@pytest.mark.parametrize("size", [(1, 20_000), (20_000, 1), (3100, 20_000), (7874, 7874),
                                  (2000, 19_000), (1, 1)])
def test_no_size_is_empty_or_more_than_the_encoder_holds(size):
    for w, h in derived_sizes(*size):
        assert 1 <= w <= size[0]
        assert 1 <= h <= MAX_DERIVED_SIDE
        assert w * h <= MAX_DERIVED_PIXELS * 1.001


def test_heights_keep_the_proportions():
    assert derived_sizes(4000, 3000)[:2] == ((320, 240), (640, 480))
