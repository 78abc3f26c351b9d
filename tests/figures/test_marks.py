import re
from pathlib import Path

import pytest

from teardowns.figures import marks

SPRITE = Path(__file__).parents[2] / "templates/teardowns/_marks.html"
DRAWN = set(re.findall(r'<symbol id="([^"]+)"', SPRITE.read_text()))


@pytest.mark.parametrize("mark", [
    *(marks.verdict_chip(word) for word in marks.VERDICTS),
    *(marks.check_mark(outcome) for outcome in marks.CHECKS),
    *(marks.grade_mark(grade) for grade in marks.GRADES),
    *(marks.review_mark(state, state) for state in marks.REVIEWS),
    *(marks.looking_mark(state, state) for state in marks.LOOKED),
    *(marks.kind_mark(kind, kind) for kind in marks.KINDS),
])
def test_every_mark_has_its_drawing_and_its_word(mark):
    symbol = re.search(r'href="#([^"]+)"', mark)[1]
    assert symbol in DRAWN
    assert re.sub(r"<[^>]+>", "", mark).strip()


def test_no_two_words_share_a_drawing():
    used = [*marks.VERDICTS.values(), *marks.CHECKS.values(), *marks.GRADES.values()]
    assert len(set(used)) == len(used)


def test_an_unknown_verdict_is_refused_rather_than_drawn():
    with pytest.raises(KeyError):
        marks.verdict_chip("safe")
