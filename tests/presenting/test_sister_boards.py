"""What a unit's page says of other boards, from rows as they are stored."""
from teardowns.models import Likeness, Publication, SisterReport
from teardowns.presenting.sister_boards import alike_units, sister_boards

TURNS = {"code": "primary_turns", "value": 24.0, "u": 0.48, "read_u": 0.48, "share": 0.0,
         "because": "", "unit": 7, "version": 2, "refs": ["stacklayer/primary-1"]}
LENT = TURNS | {"u": 1.29, "share": 0.05, "because": "not looked at here"}
ENDS = {"low": 0.6, "high": 0.6}
WAS = {"verdict": "no evidence", "plausibility": 0.6, "ends": ENDS, "text": "20 V", "printed": ""}
NOW = WAS | {"verdict": "possible", "plausibility": 0.93, "ends": {"low": 0.93, "high": 0.93}}


def publication(**fields):
    report = SisterReport(**{"wanted": "a", "digest": "a", "families": ["board-hb-12"]} | fields)
    made = Publication(unit_id=27, number=1)
    made.sister_report = report
    return made


def boards(**fields):
    return sister_boards(publication(**fields))


def test_what_is_being_worked_out_anew_is_not_shown():
    assert boards(inherited=[LENT], digest="b") is None
    assert sister_boards(Publication(unit_id=1)) is None


def test_where_nothing_was_found_nothing_is_said():
    assert boards() is None


def test_a_value_that_was_taken_over_names_its_unit_its_version_and_why():
    """± is 2 u = 2.58, printed with one digit, for its first is no 1."""
    row, = boards(inherited=[LENT]).lent
    assert row.value.replace("\u202f", " ") == "24 ± 3"
    assert row.origin.address == "/units/7/versions/2/#stacklayer-primary-1"
    assert row.origin.name == "unit 7, version 2"
    assert row.because == "not looked at here; ± widened by 5 % of the value (k = 1)"


def test_the_difference_is_told_in_words_and_claims_of_one_difference_together():
    claims = [[f"claim/{n}", WAS | {"printed": f"{n} V"}, NOW | {"printed": f"{n} V"}]
              for n in (9, 15)]
    sentence, = boards(inherited=[LENT], claims=claims).sentences
    assert sentence == ("With what sister boards showed, these 2 claims would be possible, not "
                        "“no evidence”: “9 V”, “15 V”.")


def test_where_no_word_moves_that_is_said():
    claims = [["claim/9", NOW, NOW | {"plausibility": 0.8, "ends": ENDS}]]
    assert boards(inherited=[LENT], claims=claims).sentences == [
        "With what sister boards showed, no word about a claim would be another."]
    assert boards(inherited=[LENT]).sentences == []


def test_a_hazard_of_a_sister_is_a_question_and_no_finding():
    point = {"scenario": "no_fuse", "title": "No fuse", "level": "high", "unit": 7, "version": 2,
             "refs": ["component/fuse"]}
    said, = boards(open_points=[point]).open_points
    assert said.text == ("No fuse, high risk there. Whether it is so in this unit is open: look "
                         "for it.")


def disagreement(first=TURNS, second=TURNS | {"unit": 27, "value": 21.0, "u": 0.4}, texts=("", ""),
                 about="primary_turns"):
    return {"about": about, "first": first, "second": second, "units": [7, 27], "texts": texts}


def test_a_sister_that_was_set_aside_says_here_and_there():
    """2 u = 0.8 and 0.96, both printed with one digit."""
    said, = boards(set_aside=[disagreement()]).set_aside
    assert said.text.replace("\u202f", " ") == "Primary turns: 21.0 ± 0.8 here, 24 ± 1 there."
    assert said.origin.name == "unit 7, version 2"


def test_markings_that_differ_are_told_by_their_role():
    said, = boards(set_aside=[disagreement(None, None, ["UWK-12", "PZ6318"],
                                           "primary_controller")]).set_aside
    assert said.text == "Primary controller, marking: PZ6318 here, UWK-12 there."
    assert said.origin.address == "/units/7/"


def test_units_that_look_alike_are_named_by_number():
    made = Publication(unit_id=27)
    made.likeness = Likeness(alike=[[7, 0.8251, "core and primary turns"]])
    one, = alike_units(made)
    assert (one.address, one.name, one.score) == ("/units/7/", "unit 7", "0.83")
    assert alike_units(Publication(unit_id=1)) == [] == alike_units(None)
