import pytest

from teardowns.search_engines import postgresql, sqlite
from teardowns.searching.wanted import AllOf, AnyOf, Token

WORDS = AllOf((Token("urhub"), AnyOf((Token("ur2.4a"), Token("ul24a")))))


def test_words_stand_between_quotes_and_signs_join_them():
    assert sqlite.written(WORDS) == ("%s", ['("urhub" AND ("ur2.4a" OR "ul24a"))'])
    assert postgresql.written(WORDS) == ("%s", ["('urhub' & ('ur2.4a' | 'ul24a'))"])


def test_a_beginning_is_looked_up_by_the_database_between_what_is_written():
    sql, values = postgresql.written(AllOf((Token("urhub"), Token("urcharge", True))))
    assert (sql, values) == ("%s || searchtext_begun(%s) || %s",
                             ["('urhub' & ", "urcharge", ")"])


def test_sqlite_keeps_the_rows_of_short_beginnings_itself():
    assert sqlite.written(Token("urhub", True)) == ("%s", ['"urhub"*'])
    sql, values = sqlite.written(Token("urhubs", True))
    assert set(values) == {"", "urhubs"} and sql.count("%s") == len(values)


@pytest.mark.parametrize("engine", [sqlite, postgresql])
@pytest.mark.parametrize("word", ['a"', "a'", "a b", "", "a*", "NEAR(a", "a\\", "a:b", "."])
def test_what_is_no_word_reaches_no_engine(engine, word):
    with pytest.raises(ValueError, match="letters and digits"):
        engine.written(Token(word))


@pytest.mark.parametrize("engine", [sqlite, postgresql])
def test_an_empty_part_is_refused(engine):
    with pytest.raises(ValueError, match="empty"):
        engine.written(AllOf(()))
