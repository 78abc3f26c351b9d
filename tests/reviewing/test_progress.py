"""Which rows are asked, and when nothing is left to decide."""
from teardowns.reviewing.progress import progress
from teardowns.reviewing.words import Row, Word

ALICE, BOB, RITA, ROLF = 1, 2, 3, 4
MASS, LENGTH = Row("measurement/mass", 2, ALICE), Row("measurement/length", 1, ALICE)
ROWS = (MASS, LENGTH)


def confirm(row, reviewer=RITA, decision="confirmed", work=None):
    return Word(row.ref, row.version, reviewer, decision, work=work)


def test_every_row_of_new_work_is_asked():
    found = progress(ROWS, [], ALICE)
    assert len(found.asked) == 2 and not found.is_complete


def test_it_is_complete_when_each_row_has_a_decision_by_anybody():
    found = progress(ROWS, [confirm(MASS), confirm(LENGTH, ROLF, "disputed")], ALICE)
    assert found.is_complete and found.disputed == (LENGTH.ref,)


def test_a_decision_on_an_earlier_version_decides_nothing():
    earlier = Word(MASS.ref, 1, RITA, "confirmed")
    assert progress(ROWS, [earlier], ALICE).decided == ()


def test_each_reviewer_has_a_progress_of_their_own():
    found = progress(ROWS, [confirm(MASS)], ALICE)
    assert len(found.decided_by(RITA)) == 1 and found.decided_by(ROLF) == ()


def test_nobody_is_asked_about_rows_of_their_own():
    rows = (MASS, Row("measurement/gap", 1, ROLF))
    assert [each.row.ref for each in progress(rows, [], ALICE).asked_of(ROLF)] == [MASS.ref]


def test_a_correction_asks_for_what_it_changed_alone():
    before = [confirm(Row(MASS.ref, 1, ALICE)), confirm(LENGTH)]
    found = progress(ROWS, before, ALICE, work=7)
    assert [each.row.ref for each in found.asked] == [MASS.ref]


def test_a_row_that_was_disputed_before_is_asked_again():
    before = [confirm(MASS, decision="disputed"), confirm(LENGTH)]
    assert [each.row.ref for each in progress(ROWS, before, ALICE, work=7).asked] == [MASS.ref]


def test_a_row_does_not_cease_to_be_asked_once_it_is_decided():
    found = progress(ROWS, [confirm(MASS, work=7)], ALICE, work=7)
    assert len(found.asked) == 2 and len(found.decided) == 1


def test_what_came_in_confirmed_and_was_not_changed_is_settled():
    rows = (Row(MASS.ref, 2, ALICE, "confirmed"), LENGTH)
    assert [each.row.ref for each in progress(rows, [], ALICE, work=7).asked] == [LENGTH.ref]


def test_a_confirmation_by_the_author_of_the_correction_settles_nothing():
    before = [confirm(MASS, BOB)]
    assert len(progress((MASS,), before, BOB, work=7).asked) == 1


def test_a_row_that_nobody_spoke_of_keeps_the_state_it_has():
    found = progress((Row(MASS.ref, 2, ALICE, "confirmed"),), [], ALICE)
    assert found.rows[0].state == "confirmed" and not found.is_complete


def test_work_without_rows_asks_nothing():
    assert progress((), [], ALICE).is_complete
