"""`manage.py rebuild_reference_set`: says what would change, and changes it only when told to."""
import io

import pytest
from django.core.management import CommandError, call_command

from teardowns.engine import rulebook
from teardowns.models import Assessment, Publication, ReferenceSet
from tests.services.measured_units import measured_unit, measured_units

pytestmark = pytest.mark.django_db


def rebuild(*options):
    out = io.StringIO()
    call_command("rebuild_reference_set", *options, stdout=out)
    return out.getvalue()


def test_it_prints_old_and_new_with_the_number_of_units_and_changes_nothing(alice):
    measured_units(alice)
    measured_unit(alice, 50.0, components=[{"role": "ballast", "key": "iron"}])
    known = Assessment.objects.count()
    text = rebuild()
    assert "(not in force)\nIn force: none" in text
    assert "14 published units whose capability was measured, 1 not used" in text
    assert "Mass per watt (power/mass_per_watt): 14 units with this size\n  n 14, 20 to" in text
    assert "1  a part without function was found" in text
    assert ReferenceSet.objects.count() == 0 and Assessment.objects.count() == known


def test_the_old_power_at_a_size_stands_before_the_new(alice):
    measured_units(alice, noise=0.0)
    # At √(20 · 160) = 56.6 g: 5 W · (56.57/25)^1.7297 = 20.5 W before, 0.1 W · 56.57^1.3 = 19 W
    # after. ×/÷ e^0.55 = 1.73 before; without residuals e^0.1 = 1.11, the least.
    assert "56.6 g: 20.5 W ×/÷ 1.73 → 19 W ×/÷ 1.11" in rebuild()


def test_with_activate_it_is_in_force_and_every_unit_is_assessed_by_it(alice):
    units = measured_units(alice)
    draft = measured_unit(alice, 50.0, status="draft")
    text = rebuild("--activate", "--as", "alice")
    stored = ReferenceSet.objects.get()
    assert stored.is_active and stored.author == alice
    assert f"{stored.version} is in force now.\n{len(units) + 1} units assessed." in text
    by_it = f"{rulebook.load().version}+{stored.version}"
    newest = {unit.assessments.filter(confirmed_only=False).first().rulebook
              for unit in (*units, draft)}
    assert newest == {by_it}
    assert set(Publication.objects.values_list("standing__rulebook", flat=True)) == {by_it}


def test_twice_is_as_once(alice):
    measured_units(alice)
    rebuild("--activate")
    known = Assessment.objects.count()
    again = rebuild("--activate")
    assert "(in force)" in again and "is in force now" not in again
    assert ReferenceSet.objects.count() == 1 and Assessment.objects.count() == known


def test_where_nothing_was_learned_nothing_is_put_into_force(alice):
    measured_units(alice, n=3)
    text = rebuild("--activate")
    assert "no fit: it takes 12 units, a factor of 5 in size" in text
    assert text.endswith("Nothing was learned, so nothing was activated.\n")
    assert ReferenceSet.objects.count() == 0


def test_units_whose_verdict_would_change_are_listed(alice):
    for grams in range(20, 160, 10):
        measured_unit(alice, float(grams), 0.055 * grams)
    measured_unit(alice, 55.0).measurements.exclude(key="mass").delete()
    assert "Lamplit of 55 g: possible (0." in rebuild()


def test_an_unknown_account_is_named_and_nothing_happens(alice):
    measured_units(alice)
    with pytest.raises(CommandError, match='no account "nobody"; give the name') as refused:
        rebuild("--activate", "--as", "nobody")
    assert refused.value.returncode == 2 and ReferenceSet.objects.count() == 0
