"""No permission line could go without being missed; a sample here, all of them on demand."""
import os

import pytest

from tests.core.access_mutants import noticed
from tests.core.policy_mutants import chosen, mutants, noticed_by
from tests.core.policy_mutations import CHOSEN
from tests.core.policy_states import quiet  # noqa: F401  (a fixture)

SAMPLE = 41                  # one in so many lines of the policy: some fifteen

pytestmark = pytest.mark.django_db


def test_a_sample_of_the_lines_is_missed_when_it_goes(tmp_path, quiet):  # noqa: F811
    sample = [mutant for mutant in mutants() if mutant.concerns][::SAMPLE]
    assert len(sample) > 10
    assert [name for name, cell in noticed_by(sample, tmp_path).items() if not cell] == []


def test_after_a_mutation_everything_is_as_it_was():
    from core.policy import POLICY
    from teardowns.access import units

    policy = {name: dict(rules) for name, rules in POLICY.items()}
    for mutant in mutants()[::SAMPLE]:
        with mutant.applied():
            pass
    assert policy == POLICY and units.may_moderate.__code__.co_filename == units.__file__


@pytest.mark.skipif(CHOSEN not in os.environ, reason="runs on demand: tests.core.policy_mutations")
def test_every_line_is_missed_when_it_goes(tmp_path, quiet):  # noqa: F811
    found = {mutant.name: noticed.get(mutant.name, "") for mutant in chosen()}
    left = [mutant for mutant in chosen() if not found[mutant.name]]
    found |= noticed_by(left, tmp_path)
    for name, how in found.items():
        print(f"{'noticed by ' + how if how else 'NOT MISSED'}: {name}")
    missed = [name for name, how in found.items() if not how]
    print(f"{len(found) - len(missed)} of {len(found)} lines are missed when they go.")
    assert not missed
