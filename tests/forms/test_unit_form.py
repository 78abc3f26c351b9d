import pytest

from tests.forms.sent import checked, messages

pytestmark = pytest.mark.django_db


def origin(unit, **typed):
    return checked(unit, "origin", {f"unit-{name}": text for name, text in typed.items()})


def test_what_is_typed_becomes_the_unit_s_change(unit):
    change = origin(unit, maker="Veltrice", price="7.90", currency="eur").unit_change()
    assert (change.version, change.values["maker"], change.values["currency"]) == (
        1, "Veltrice", "EUR",
    )


@pytest.mark.parametrize("typed, remedy", [
    ({"title": " "}, "write maker, model and power"), ({"price": "7.90"}, "needs its currency"),
    ({"price": "-1", "currency": "EUR"}, "not negative"), ({"currency": "$"}, "three-letter"),
    ({"obtained_on": "2999-01-01"}, "has not come yet"), ({"listing_reach": "many"}, "number"),
])
def test_what_is_wrong_is_named_with_its_remedy(unit, typed, remedy):
    assert remedy in messages(origin(unit, **typed))


@pytest.mark.parametrize("price, currency, stored", [
    ("12,99 €", "€", ("12.99", "EUR")), ("7.5 GBP", "£", ("7.5", "GBP")),
    ("12,99 €", "", ("12.99", "EUR")), ("7.5 CHF", "", ("7.5", "CHF"))])
def test_a_price_may_carry_its_sign(unit, price, currency, stored):
    values = origin(unit, price=price, currency=currency).unit_change().values
    assert (str(values["price"]), values["currency"]) == stored


def test_the_stored_unit_is_not_touched_by_checking(unit):
    form = origin(unit, maker="Someone")
    assert form.unit.maker == ""


def test_a_unit_that_changed_elsewhere_is_shown_beside_what_was_typed(unit):
    stale = checked(unit, "origin", {"unit-maker": "Mine", "unit-version": "0"})
    assert "changed elsewhere" in messages(stale)


def test_a_section_leaves_the_unit_s_other_fields_alone(unit):
    form = checked(unit, "ballast", {"unit-notes": "Iron block."})
    assert form.unit_change().values == {"notes": "Iron block."}
