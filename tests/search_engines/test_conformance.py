"""What each engine must answer: run on SQLite and on PostgreSQL, with the same rows and words."""
import pytest
from django.db import connection

from teardowns.models import SearchText
from teardowns.search_engines import (
    beginning,
    by_group,
    engine,
    forget_words,
    ids,
    inside,
    install,
    install_after_migrating,
    known_words,
    missing,
    tidy,
)
from teardowns.searching.wanted import AllOf, AnyOf, Token

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def no_words():
    """Tests that end their transactions leave words behind, which are forgotten later."""
    with connection.cursor() as cursor:
        cursor.execute(f"DELETE FROM {known_words.TABLE} WHERE word <> ''")


def put(key, tokens, run_together=""):
    SearchText.objects.create(id=key, title="", tokens=tokens, run_together=run_together)


def found(wanted, limit=10):
    return ids(connection, [wanted], limit)


def within(*pieces, besides=None, kind=0, limit=10):
    return inside(connection, pieces, besides, kind, limit)


def test_the_index_is_there_once_the_tables_are():
    assert missing(connection) == []


def test_a_word_finds_the_rows_that_have_it_the_newest_first():
    put(4, "urhub urdesk")
    put(8, "urhub")
    put(12, "urhubs")
    assert found(Token("urhub")) == [8, 4]


def test_a_beginning_finds_whatever_begins_so():
    put(4, "urhub")
    put(8, "urhubs")
    put(12, "uthub")
    assert found(Token("urhu", is_start=True)) == [8, 4]


@pytest.mark.parametrize("words", [1, known_words.MOST, known_words.MOST + 1])
def test_a_beginning_finds_the_newest_of_however_many_words_begin_so(words):
    SearchText.objects.bulk_create([SearchText(id=4 * n, title="", tokens=f"urhubcap{n % words}")
                                    for n in range(1, 101)])
    assert found(Token("urhubca", is_start=True), limit=99) == [*range(400, 4, -4)]
    wanted = AllOf((Token("urhubca", is_start=True), Token("urhubcap0")))
    assert found(wanted, limit=1) == found(Token("urhubcap0"), limit=1)


def spelt_out(start):
    sql, values = engine(connection).written(Token(start, is_start=True))
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT {sql}", values)
        return "".join(letter for letter in cursor.fetchone()[0] if letter not in "'\"() ")


def test_a_beginning_is_asked_for_word_by_word_where_they_are_few():
    put(4, "urcharger urchargers utcharger")
    put(8, "urcharger")
    joined = {"sqlite": "urchargerORurchargers", "postgresql": "urcharger|urchargers"}
    assert spelt_out("urcharge") == joined[connection.vendor]
    assert spelt_out("urchargex") == "urchargex"
    put(12, " ".join(f"urcharger{n}" for n in range(known_words.MOST)))
    assert spelt_out("urcharge") == {"sqlite": "urcharge*", "postgresql": "urcharge:*"}[
        connection.vendor]


def test_words_that_no_row_has_any_more_are_forgotten():
    put(4, "urcharger urhousing")
    put(8, "urchargers")
    SearchText.objects.filter(pk=4).update(tokens="urhousing")
    assert forget_words(connection, "", 2) == "urchargers"
    assert spelt_out("urcharge") == "urchargers"
    assert forget_words(connection, "urchargers", 2) == "urhousing"
    assert forget_words(connection, "urhousing", 2) is None
    assert spelt_out("urhousi") == "urhousing"


def test_words_are_joined_by_and_or_in_any_depth():
    put(4, "ura urb")
    put(8, "ura urc")
    put(12, "urb urc")
    a, b, c = Token("ura"), Token("urb"), Token("urc")
    assert found(AllOf((a, b))) == [4]
    assert found(AllOf((a, AnyOf((b, c))))) == [8, 4]
    assert found(AnyOf((AllOf((a, b)), AllOf((b, c))))) == [12, 4]


@pytest.mark.parametrize("word", ["urжук", "ur充电器", "urλ", "ur2.4a", "urand", "urnear", "uror"])
def test_letters_of_any_script_points_and_words_of_a_query_language_are_words(word):
    put(4, f"ura {word}")
    put(8, "ura")
    assert found(Token(word)) == [4]


def test_a_point_holds_a_number_together():
    put(4, "ur2.4a")
    assert found(Token("ur2")) == found(Token("ur4a")) == []


def test_tiers_come_one_after_the_other_and_each_row_once():
    put(4, "uma ura")
    put(8, "ura")
    assert ids(connection, [Token("uma"), Token("ura")], 10) == [4, 8]
    assert by_group(connection, [[Token("uma")], [Token("urz")], [Token("ura")]], 10) == [
        [4], [], [8, 4]]


def test_each_tier_has_its_limit_and_no_tier_asks_nothing():
    for key in (4, 8, 12):
        put(key, "ura")
    assert found(Token("ura"), limit=2) == [12, 8]
    assert ids(connection, [], 10) == by_group(connection, [], 10) == []
    assert by_group(connection, [[], [Token("ura")]], 1)[0] == []


def test_a_group_of_tiers_has_one_limit_and_names_each_row_once_by_its_first_tier():
    for key, tokens in ((4, "ura urb"), (8, "ura"), (12, "urb"), (16, "ura urb")):
        put(key, tokens)
    a, b = Token("ura"), Token("urb")
    assert by_group(connection, [[a, b], [b, a]], 10) == [[16, 8, 4, 12], [16, 12, 4, 8]]
    assert by_group(connection, [[a, b], [b]], 2) == [[16, 8], [16, 12]]
    assert by_group(connection, [[a, Token("urc"), b, AnyOf((a, b))]], 4) == [[16, 8, 4, 12]]


def test_the_last_place_of_a_group_goes_to_the_newest_that_is_left():
    put(4, "uma")
    for key in (8, 12, 16):
        put(key, "ura")
    assert by_group(connection, [[Token("uma"), Token("ura")]], 2) == [[4, 16]]


@pytest.mark.parametrize("limit", [1, 2, 3, 5, 8, 100])
@pytest.mark.parametrize("word", [Token("ura"), Token("urb"), Token("ur", is_start=True),
                                  AllOf((Token("ura"), Token("urb")))])
def test_the_newest_are_found_wherever_they_lie_among_a_million(word, limit):
    """Keys far apart: an engine may look through the newest first."""
    rows = {key: f"ura {'urb' * (n % 3 == 0)}".strip()
            for n, key in enumerate(range(4, 4_000_000, 170_000))}
    SearchText.objects.bulk_create([SearchText(id=key, title="", tokens=tokens)
                                    for key, tokens in rows.items()])
    is_b = word not in (Token("ura"), Token("ur", is_start=True))
    wanted = [key for key in sorted(rows, reverse=True) if not is_b or "urb" in rows[key]]
    assert found(word, limit) == wanted[:limit] or (limit == 1 and found(word, 1)[0] in wanted)


def test_a_piece_is_found_inside_of_one_marking_and_not_across_two():
    put(4, "", "p26318\nab34")
    put(8, "", "63\n18")
    assert within("631") == [4]
    assert within("6318") == [4]
    assert within("8a") == within("18ab") == []


def test_pieces_and_words_are_asked_for_together():
    put(4, "urhub", "p26318")
    put(8, "urdesk", "p26318")
    assert within("631", "318", besides=Token("urhub")) == [4]
    assert within("631", "999") == []


def test_a_piece_is_found_by_letters_that_all_have_and_by_letters_that_few_have():
    """An engine may begin with the rare ones."""
    rows = [SearchText(id=4 * n, title="", tokens="ura", run_together=f"v100{n:04}\nab34")
            for n in range(1, 1101)]
    SearchText.objects.bulk_create(rows)
    assert within("v1000012") == within("0012", "v1000012") == [48]
    assert within("v100", limit=2) == within("ab3", limit=2) == [4400, 4396]
    assert within("v100", "1012") == within("1012", "ab34", besides=Token("ura")) == [4048]
    assert within("1012a") == within("v100", "999x") == []


def test_pieces_are_asked_for_by_kind_and_with_a_limit():
    put(4, "", "p26318")
    put(5, "", "p26318")
    put(8, "", "p26318")
    assert within("6318", limit=1) == [8]
    assert within("6318", kind=1) == [5]


def test_a_changed_row_is_found_by_its_new_words_alone():
    put(4, "urhub", "p26318")
    SearchText.objects.filter(pk=4).update(tokens="urdesktop", run_together="a81")
    assert found(Token("urhub")) == within("6318") == []
    assert found(Token("urdesktop")) == within("a81") == [4]
    assert found(Token("urdeskt", is_start=True)) == [4]


def test_a_row_that_takes_the_place_of_another_is_found_by_its_new_words_alone():
    put(4, "urhub", "p26318")
    SearchText.objects.bulk_create(
        [SearchText(id=4, title="", tokens="urdesk", run_together="a81")], update_conflicts=True,
        unique_fields=["id"], update_fields=["tokens", "run_together"])
    assert found(Token("urhub")) == within("6318") == []
    assert found(Token("urdesk")) == [4]


def test_a_row_that_went_is_not_found():
    put(4, "urhub", "p26318")
    SearchText.objects.filter(pk=4).delete()
    assert found(Token("urhub")) == within("6318") == []


def test_an_index_made_anew_finds_what_the_table_holds():
    put(4, "urhub", "p26318")
    install(connection)
    assert found(Token("urhub")) == within("6318") == [4]


def test_a_tidied_index_finds_the_same():
    for key in range(4, 84, 4):
        put(key, f"ura urw{key}", f"p26318\nm{key}x")
    SearchText.objects.filter(pk=8).delete()
    before = found(Token("ura"), limit=50), within("6318", limit=50)
    tidy(connection)
    assert (found(Token("ura"), limit=50), within("6318", limit=50)) == before
    assert len(before[0]) == len(before[1]) == 19


def test_what_is_missing_is_made_after_migrating():
    put(4, "urhub", "p26318")
    drop = {"sqlite": "DROP TRIGGER searchtext_put",
            "postgresql": "DROP INDEX searchtext_pieces"}[connection.vendor]
    with connection.cursor() as cursor:
        cursor.execute(drop)
    put(8, "urhubcaps")
    assert missing(connection)
    install_after_migrating(using=connection.alias)
    assert missing(connection) == []
    assert found(Token("urhub")) == [4]
    assert found(Token("urhubca", is_start=True)) == [8]


def test_an_index_of_an_older_definition_counts_as_missing(monkeypatch):
    one = engine(connection)
    if connection.vendor == "postgresql":
        monkeypatch.setitem(one.VERSIONS, "functions", ("another",))
    else:
        monkeypatch.setitem(one.DEFINITIONS, "functions", "another")
    assert missing(connection) == ["functions"]


def test_a_beginning_of_a_column_is_a_condition():
    put(4, "")
    SearchText.objects.filter(pk=4).update(title="hub65")
    for text, count in (("hub", 1), ("hub65", 1), ("hub66", 0), ("ub", 0)):
        condition, values = beginning(connection, "title", text)
        with connection.cursor() as cursor:
            cursor.execute(f"SELECT count(*) FROM teardowns_searchtext WHERE {condition}", values)
            assert cursor.fetchone() == (count,)
