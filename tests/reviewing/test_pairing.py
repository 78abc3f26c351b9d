"""Two in ten by one reviewer, and nobody is refused before there are ten."""
import pytest

from teardowns.reviewing.pairing import is_refused, remark


@pytest.mark.parametrize(("own", "everyones", "refused"), [
    (0, 0, False), (5, 9, False),         # fewer than ten bind nobody
    (1, 10, False),                       # 2 of 11 would be 18 %
    (2, 10, True),                        # 3 of 11 would be 27 %
    (2, 14, False),                       # 3 of 15 would be 20 %
    (3, 14, True),                        # 4 of 15 would be 27 %
])
def test_one_more_must_stay_within_two_in_ten(own, everyones, refused):
    assert is_refused(own, everyones) is refused


def test_a_moderator_is_told_of_a_close_pair_before_the_rule_binds():
    assert remark("rita", 3, 5).startswith("3 of 5 reviews of this contributor’s work are by rita")


def test_a_pair_that_met_once_or_within_the_share_is_no_remark():
    assert remark("rita", 2, 2) == ""
    assert remark("rita", 3, 15) == ""
