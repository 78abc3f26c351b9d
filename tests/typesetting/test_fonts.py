"""Signs of rating plates that no common font has are drawn, on pages and on paper."""
from pathlib import Path

import pytest
from django.conf import settings
from PIL import ImageFont

from teardowns.typesetting.fonts import FAMILIES, OURS, font_folders

NOT_THERE = "\ue000"


@pytest.mark.parametrize("sign", ["⎓", "⧈"])
def test_a_sign_of_plates_has_a_drawing_of_its_own(sign):
    font = ImageFont.truetype(OURS / "signs.ttf", 40)
    drawn, box = (bytes(font.getmask(one)) for one in (sign, NOT_THERE))
    assert any(drawn) and drawn != box


def test_the_typesetter_and_the_pages_look_into_the_same_file():
    assert font_folders()[0] == str(OURS) and "Underplate Signs" in FAMILIES
    tokens = (Path(settings.BASE_DIR) / "static/css/tokens.css").read_text()
    assert 'url("../fonts/signs.ttf")' in tokens and "U+2393, U+29C8" in tokens
