"""A teardown from its photos: twelve sent, scaled, measured, parts marked, the record changes.

Once with a finger on a screen of 360 by 740, once with the keyboard alone.
"""
import json
from pathlib import Path

import pytest
from django.conf import settings
from PIL import Image, ImageDraw
from playwright.sync_api import expect

from teardowns.exchange.document import read_document
from teardowns.models import Annotation, InsulationObservation, Status
from teardowns.services.assess_units import assess_units
from teardowns.services.import_unit import import_unit
from tests.cast import person

from .conftest import watched
from .fingers import Finger
from .keys import Keys

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
RICH = Path(settings.BASE_DIR) / "fixtures/units/20-hurdlop-turbo45.json"
# Ten pixels a millimetre: a card of 85.6 by 54 mm, three gaps between pads, and the outline of a
# groove, 0.6 mm wide and 2 mm deep, which pollution degree 2 bridges (X = 1 mm, IEC 60664-1 table).
CARD = ((640, 620), (1496, 620), (1496, 1160), (640, 1160))
GAPS = {"under the optocoupler": ("new:PRI_SEC:clearance", ((500, 300), (534, 300))),
        "beside the transformer": ("new:PRI_SEC:creepage", ((700, 300), (760, 300))),
        "before the fuse": ("new:L_N:clearance", ((900, 300), (930, 300)))}
CONTOUR = ((500, 450), (530, 450), (530, 470), (536, 470), (536, 450), (562, 450))
PARTS = [((300 + 110 * i, 520), (390 + 110 * i, 590)) for i in range(4)]


def board(folder, number):
    """A drawn board beside a card; each of its own colour, since a file is kept once."""
    image = Image.new("RGB", (1600, 1200), (70 + 5 * number, 120, 90))
    draw = ImageDraw.Draw(image)
    draw.rectangle((*CARD[0], *CARD[2]), fill="white")
    for _, (left, right) in GAPS.values():
        draw.rectangle((left[0] - 40, 280, left[0], 320), fill="silver")
        draw.rectangle((right[0], 280, right[0] + 40, 320), fill="silver")
    draw.line(CONTOUR, fill="white", width=2)
    for first, last in PARTS:
        draw.rectangle((*first, *last), fill="black")
    path = folder / f"board-{number}.jpg"
    image.save(path)
    return path


@pytest.fixture
def sheet(page, live_server):
    """A draft of Alice's with parts and claims and no distance; she is signed in."""
    alice = person("alice")
    document = json.loads(RICH.read_text("utf-8")) | {"insulation": []}
    unit = import_unit(read_document(document), alice, Status.DRAFT)
    assess_units([unit])
    page.goto(f"{live_server.url}/sign-in/")
    page.get_by_label("Username").fill("alice")
    page.get_by_label("Password").fill("alice-of-the-cast")
    page.locator("main").get_by_role("button", name="Sign in").click()
    return unit


@pytest.fixture
def pictures(tmp_path):
    return [board(tmp_path, number) for number in range(12)]


def record_of(page, unit, live_server):
    """What the unit's page answers on hazards, and the grades under it."""
    page.goto(live_server.url + unit.get_absolute_url())
    return [page.locator(place).inner_text() for place in (".hazard-answer", "#insulation")]


def measured(unit):
    """Millimetres by place."""
    return {row.place: 1e3 * row.value for row in InsulationObservation.objects.filter(unit=unit)}


def examine(hand, page, unit, pictures, gaps=tuple(GAPS)):
    """The whole of it, by one way of working."""
    hand.to_photos()
    hand.send(pictures)
    expect(page.get_by_text("12 pictures saved.")).to_be_visible(timeout=30_000)
    hand.follow("Show the 12 pictures")
    expect(page.locator(".gallery img")).to_have_count(12)
    hand.follow("Opened")
    hand.draw("Scale: four corners of a rectangle", CARD)
    hand.choose("#scale-corners-known", "card")
    hand.press("#scale-corners button")
    expect(page.get_by_text("The scale is set")).to_be_visible()
    for place in gaps:
        what, points = GAPS[place]
        measure(hand, page, what, points, place)
    measure(hand, page, "new:PRI_SEC:creepage", CONTOUR, "across the groove", shape="path")
    for (first, last), name in zip(PARTS, parts_of(unit), strict=True):
        hand.draw("Mark what is shown", (first, last))
        hand.choose("#mark-shows", name)
        hand.press("#mark button")
        expect(page.get_by_text("The mark is saved.")).to_be_visible()


def measure(hand, page, what, points, place, shape="line"):
    hand.choose_drawing("Measure a length")
    hand.choose("#measure-shape", shape)
    hand.draw("Measure a length", points)
    hand.choose("#measure-what", what)
    hand.write("#measure-place", place)
    if shape == "path":
        hand.unfold("Creepage: grooves, or round a slot")
        hand.tick("#measure-surface")
    hand.press("#measure > button")
    expect(page.get_by_text(f"{place}: ").first).to_be_visible()


def parts_of(unit):
    return [f"component/{part.key}" for part in unit.components.order_by("pk")[:len(PARTS)]]


def found(unit, page, before, after, gaps=tuple(GAPS)):
    """What the run must have left."""
    lengths = measured(unit)
    drawn = {place: (right[0] - left[0]) / 10 for place, (_, (left, right)) in GAPS.items()
             if place in gaps}
    # Half a millimetre: a finger's tap on a picture that is brought closer.
    assert lengths == pytest.approx(drawn | {"across the groove": 6.2}, abs=0.5)
    shown = set(Annotation.objects.filter(photo__unit=unit).values_list("shows", flat=True))
    assert shown >= set(parts_of(unit)) and unit.photos.shown().count() == 12
    assert before[0] != after[0] and before[1] != after[1]
    assert "under the optocoupler" in after[1]
    assert page.complaints == []


def test_with_a_finger_on_a_phone(chromium, page, sheet, pictures, live_server):
    context = chromium.new_context(viewport={"width": 360, "height": 740}, has_touch=True,
                                   is_mobile=True, storage_state=page.context.storage_state())
    phone = watched(context.new_page())
    before = record_of(phone, sheet, live_server)
    phone.goto(f"{live_server.url}/bench/{sheet.pk}/origin/")
    examine(Finger(phone), phone, sheet, pictures)
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360
    found(sheet, phone, before, record_of(phone, sheet, live_server))
    context.close()


def test_with_the_keyboard_alone(page, sheet, pictures, live_server):
    before = record_of(page, sheet, live_server)
    page.goto(f"{live_server.url}/bench/{sheet.pk}/origin/")
    gaps = ("under the optocoupler",)             # each length takes the keys some ten seconds
    examine(Keys(page), page, sheet, pictures, gaps)
    found(sheet, page, before, record_of(page, sheet, live_server), gaps)
