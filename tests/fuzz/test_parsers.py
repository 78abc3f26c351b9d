"""Some dozens of damaged things a reader; `python -m tests.fuzz` asks them for an hour."""
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.damaging import PIECES, damaged
from tests.fuzz.guard import within_a_while
from tests.fuzz.parsers import PARSERS, check


@pytest.mark.parametrize("name", PARSERS)
def test_a_parser_answers_or_refuses_in_its_own_words(name):
    parser = PARSERS[name]

    @settings(max_examples=30, deadline=None, derandomize=True,
              suppress_health_check=list(HealthCheck))
    @given(damaged(parser.seeds(), parser.longest))
    def ask(value):
        check(name, value)

    ask()


@pytest.mark.parametrize("name", [name for name, parser in PARSERS.items()
                                  if isinstance(parser.seeds()[0], str)])
def test_the_longest_text_of_one_repeated_piece_is_read_in_time(name):
    """A pattern that goes back and back takes hours here; the guard ends it."""
    longest = PARSERS[name].longest

    @settings(max_examples=8, deadline=None, derandomize=True,
              suppress_health_check=list(HealthCheck))
    @given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=3).map("".join))
    def ask(piece):
        with within_a_while():
            check(name, (piece * longest)[:longest])

    ask()
