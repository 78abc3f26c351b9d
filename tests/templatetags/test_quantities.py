"""The tags print what is known of a number, and escape what surrounds it."""
import pytest
from django.template import Context, Template

THIN = "\u202f"


def render(tag, **context):
    return Template("{% load quantities %}" + tag).render(Context(context))


def test_a_value_is_rounded_to_its_uncertainty():
    # u keeps one digit unless its first is 1, the value its decimals (JCGM 100:2008, 7.2.6)
    shown = render('{% quantity value u "F" %}', value=15.23e-6, u=0.31e-6)
    assert shown == f'<span class="num">15.2{THIN}±{THIN}0.3{THIN}µF</span>'


def test_a_value_without_an_uncertainty_keeps_three_digits():
    assert f">14.6{THIN}W<" in render('{% quantity 14.5678 None "W" %}')


@pytest.mark.parametrize("value", [None, float("nan")])
def test_an_unknown_value_is_a_word_and_never_a_zero(value):
    assert ">unknown<" in render('{% quantity value None "W" %}', value=value)


def test_a_trace_makes_it_a_link():
    shown = render('{% quantity 5 None "V" address %}', address="/units/1/?a=1&b=2")
    assert shown.startswith('<a class="num" href="/units/1/?a=1&amp;b=2">')


def test_a_unit_of_text_is_escaped():
    assert "<b>" not in render('{% quantity 5 None unit %}', unit="<b>")


def test_an_interval_has_one_unit():
    assert f">13.1 to 16.7{THIN}W<" in render('{% interval 13.1 16.7 "W" %}')


@pytest.mark.parametrize(("low", "high"), [(None, 16.7), (13.1, None), (None, None)])
def test_an_interval_with_an_unknown_end_is_unknown(low, high):
    assert ">unknown<" in render('{% interval low high "W" %}', low=low, high=high)
