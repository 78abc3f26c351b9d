"""Every hostile picture gets its verdict, leaves nothing behind and gives nothing away."""
import os
from concurrent.futures import ThreadPoolExecutor

import pytest
from PIL import Image

from teardowns.imaging.derive import derive
from teardowns.imaging.refusals import Refused
from tests.hostile.building import ACCEPTED, CANARY
from tests.hostile.images import FAMILIES, LARGEST, cases

NEAR = 12                            # of 255: what lossy coding at this quality does to flat colour
pytestmark = pytest.mark.filterwarnings("ignore:.* image format is deprecated")
SPOTS = ((0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75))


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.__name__.split(".")[-1])
def test_every_picture_of_a_family_gets_its_verdict(family, tmp_path):
    def judged(numbered):
        number, case = numbered
        return [f"{case.name}: {problem}" for problem in problems(case, tmp_path / str(number))]

    with ThreadPoolExecutor(os.cpu_count()) as pool:
        wrong = sum(pool.map(judged, enumerate(family.cases())), [])
    assert not wrong, "\n".join(wrong)


def test_there_are_at_least_250_small_files_with_names_of_their_own():
    names = []
    for family, case in cases():
        names.append((family, case.name))
        assert len(case.data) < LARGEST, case.name
    assert len(set(names)) == len(names) >= 250


def problems(case, folder):
    """What is wrong with the answer to one case, in words."""
    original, out = folder / "original", folder / "derived"
    out.mkdir(parents=True)
    original.write_bytes(case.data)
    try:
        derived = derive(original, out)
    except Refused as refused:
        yield from problems_of_refusal(case, refused, out)
        return
    if ACCEPTED not in case.verdicts:
        yield "was accepted"
    else:
        yield from problems_of_pictures(case, derived)


def problems_of_refusal(case, refused, out):
    if refused.code not in case.verdicts:
        yield f"was refused as {refused.code}: {refused.message}"
    if any(out.iterdir()):
        yield "left files behind"
    if not refused.message.endswith(".") or refused.code in refused.message:
        yield f"says {refused.message!r}"


def problems_of_pictures(case, derived):
    if case.size and (derived.walk.width, derived.walk.height) != case.size:
        yield f"is {derived.walk.width} × {derived.walk.height}"
    if not set(case.says) <= set(derived.walk.removed):
        yield f"names only {derived.walk.removed}"
    for file in derived.files:
        if CANARY in file.path.read_bytes():
            yield "gave something away"
    with Image.open(derived.files[-1].path) as picture:
        if set(picture.info) - {"loop", "background", "timestamp", "duration"} or picture.getexif():
            yield f"carries {sorted(picture.info)}"
        yield from wrong_colours(case, picture.convert("RGB"))


def wrong_colours(case, picture):
    if case.corners is None or len(case.verdicts) > 1:
        return
    for (x, y), expected in zip(SPOTS, case.corners, strict=True):
        seen = picture.getpixel((int(x * picture.width), int(y * picture.height)))
        if max(abs(a - b) for a, b in zip(seen, expected, strict=True)) > NEAR:
            yield f"is {seen} instead of {expected} at {x}, {y}"
