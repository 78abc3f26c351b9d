import pytest

from teardowns.search_engines import postgresql, sqlite
from teardowns.searching.wanted import AllOf, AnyOf, Token

WANTED = AllOf((Token("urhub", True), AnyOf((Token("ur2.4a"), Token("ul24a")))))


def test_words_stand_between_quotes_and_signs_join_them():
    assert sqlite.written(WANTED) == '("urhub"* AND ("ur2.4a" OR "ul24a"))'
    assert postgresql.written(WANTED) == "('urhub':* & ('ur2.4a' | 'ul24a'))"


@pytest.mark.parametrize("engine", [sqlite, postgresql])
@pytest.mark.parametrize("word", ['a"', "a'", "a b", "", "a*", "NEAR(a", "a\\", "a:b", "."])
def test_what_is_no_word_reaches_no_engine(engine, word):
    with pytest.raises(ValueError, match="letters and digits"):
        engine.written(Token(word))


@pytest.mark.parametrize("engine", [sqlite, postgresql])
def test_an_empty_part_is_refused(engine):
    with pytest.raises(ValueError, match="empty"):
        engine.written(AllOf(()))
