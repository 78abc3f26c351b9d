"""ISO 8601-1:2019 for calendar dates, clock times, decimal fractions and offsets from UTC."""
import pytest

from teardowns.logs.clock_times import has_date, is_clock, is_two_part, possible_orders, seconds_of
from teardowns.logs.refusals import RefusedLog

# From 1 January 2000 to 4 March 2026: 26 years of 365 days, leap days of 2000, 2004 … 2024,
# then January, February and three days of March.
DAY = (26 * 365 + 7 + 31 + 28 + 3) * 86400.0
NOON = DAY + 43200.0


@pytest.mark.parametrize(("cell", "value"), [
    ("00:00:00", 0), ("12:03:04.5", 43384.5), ("12:03:04,25", 43384.25), ("1:02:03", 3723),
    ("23:59:59", 86399), ("25:00:01", 90001), ("12:30:00 AM", 1800), ("12:30:00 PM", 45000),
    ("1:00 pm", 46800), ("03:04", 11040), ("03:04.5", 184.5),
])
def test_a_clock_counts_from_midnight(cell, value):
    assert seconds_of(cell) == value


@pytest.mark.parametrize(("cell", "order"), [
    ("2026-03-04 12:00:00", ""), ("2026-03-04T12:00:00", "ymd"), ("2026-03-04T12:00:00Z", "ymd"),
    ("2026-03-04T13:30:00+01:30", "ymd"), ("2026-03-04T07:00:00-0500", "ymd"),
    ("20260304T120000", ""), ("2026/3/4 12:00", "ymd"), ("04.03.2026 12:00:00", "dmy"),
    ("04.03.26 12:00:00", "dmy"), ("03/04/2026 12:00:00 PM", "mdy"), ("26-03-04 12:00:00", "ymd"),
    ("04-Mar-2026 12:00:00", ""), ("4. März 2026 12:00:00", ""), ("04-mrt-2026 12:00:00", "dmy"),
    ("4 août 2026", ""),
])
def test_a_date_is_read_in_its_order(cell, order):
    # 4 August is 153 days after 4 March (31 + 30 + 31 + 30 + 31), and has no clock here.
    assert seconds_of(cell, order) == (DAY + 153 * 86400 if "août" in cell else NOON)


@pytest.mark.parametrize(("cell", "order"), [
    ("24:60:00", ""), ("12:00:60", ""), ("13:00:00 PM", ""), ("2026-02-29 12:00:00", "ymd"),
    ("31/04/2026", "dmy"), ("03/14/2026", "dmy"), ("2026-03-04 25:00:00", "ymd"),
    ("04-Foo-2026", ""), ("03/04/2026", "ymd"), ("noon", ""), ("12:3:4", ""), ("", ""),
])
def test_what_is_no_time_is_refused(cell, order):
    with pytest.raises(RefusedLog):
        seconds_of(cell, order)


def test_tenths_of_a_microsecond_are_kept_beside_a_date():
    step = seconds_of("2026-03-04 12:00:00.0000002") - seconds_of("2026-03-04 12:00:00.0000000")
    assert step == pytest.approx(2e-7, abs=1.2e-7)


@pytest.mark.parametrize(("cells", "orders"), [
    (["2026-03-04 12:00:00"], ("ymd",)),
    (["03/04/2026 12:00:00", "03/04/2026 12:00:01"], ("dmy", "mdy")),
    (["13/04/2026"], ("dmy",)), (["04/13/2026"], ("mdy",)),
    (["01/02/03"], ("ymd", "dmy", "mdy")),
    (["31/01/2026 23:59:59", "01/02/2026 00:00:00"], ("dmy",)),
    (["03/04/2026 23:59:59", "04/04/2026 00:00:01"], ("dmy",)),
    (["03/04/2026 23:59:59", "03/05/2026 00:00:01"], ("mdy",)),
    (["2026-03-04", "2026-03-03"], ()),
])
def test_the_rows_tell_the_order_of_day_and_month_as_far_as_they_do(cells, orders):
    assert possible_orders(cells) == orders


@pytest.mark.parametrize(("cell", "clock", "date", "two"), [
    ("12:03", True, False, True), ("12:03:04", True, False, False),
    ("12:03 PM", True, False, False),
    ("2026-03-04", True, True, False), ("2026-03-04 12:03", True, True, False),
    ("5.123", False, False, False), ("1.234.567", False, False, False),
    ("5:1", False, False, False),
])
def test_numbers_and_times_are_told_apart(cell, clock, date, two):
    assert (is_clock(cell), has_date(cell), is_two_part(cell)) == (clock, date, two)
