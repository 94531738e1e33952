"""Values in the reader's units, sentences, segments."""

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest

from bot.days import whole_days
from bot.letters import segments
from bot.phrases import (
    T_,
    Amount,
    Between,
    Clock,
    Dated,
    Day,
    Head,
    Length,
    Money,
    Number,
    Reader,
    Series,
    Size,
    Span,
    Upper,
    Volume,
    feet_inches,
    lines,
    word,
)  # fmt: skip

METRIC, FEET = Reader(), Reader(units="feet")


@pytest.mark.parametrize(
    ("value_m", "metric", "feet"),
    [
        (1.83, "1.83 m (183 cm)", "1.83 m (6 ft)"),
        (1.8796, "1.88 m (188 cm)", "1.88 m (6 ft 2 in)"),
        (0.105, "10.5 cm (105 mm)", "10.5 cm (4 1/8 in)"),
        ((3.12, 3.08, 3.10), "3.12, 3.08, 3.10 m (312, 308, 310 cm)", "3.12, 3.08, 3.10 m (10 ft 2 7/8 in, 10 ft 1 1/4 in, 10 ft 2 in)"),
        (0.0, "0 cm (0 mm)", "0 cm (0 in)"),
    ],
)  # fmt: skip
def test_a_length_is_told_in_two_forms(value_m, metric, feet):
    assert Length(value_m).show(METRIC) == metric
    assert Length(value_m).show(FEET) == feet


@pytest.mark.parametrize(
    ("value_m", "told"),
    [
        (1.9113, "6 ft 3 1/4 in"),
        (0.1016, "4 in"),
        (0.0889, "3 1/2 in"),
        (3.048, "10 ft"),
        (0.003175, "1/8 in"),
        (-0.0508, "-2 in"),
        (0.0, "0 in"),
    ],
)
def test_feet_and_inches_to_the_eighth(value_m, told):
    assert feet_inches(value_m) == told


@pytest.mark.parametrize(("low", "high"), [(3.0213, 3.2213), (1.3522, 1.4022), (0.1, 0.12), (1.316, 1.336), (0.955, 1.3)])
def test_a_span_is_rounded_inward(low, high):
    """Whatever lies within what is printed lies within the limits."""
    text = Span(low, high).show(METRIC)
    number, unit = text.rsplit(" ", 1)
    told = [float(part) / {"m": 1, "cm": 100}[unit] for part in number.split("-")]
    assert low - 1e-9 <= told[0] <= told[1] <= high + 1e-9
    assert told[0] - low < 0.01
    assert high - told[1] < 0.01


def test_small_values_keep_small_units():
    assert Volume(0.045).show(METRIC) == "45 l"
    assert Volume(2.832).show(METRIC) == "2.83 m3"
    assert Volume(12.34).show(METRIC) == "12.3 m3"
    assert Size(0.473).show(METRIC) == "47 cm"
    assert Size(1.352).show(METRIC) == "1.35 m"
    assert Amount(12.50, "kg").show(METRIC) == "12.5 kg"
    assert Number(4.0).show(METRIC) == "4"
    assert Between(1.04, 1.06, "m3").show(METRIC) == "1-1.1 m3"
    assert Between(2.0, 2.0, "h").show(METRIC) == "2 h"
    assert Head(7845.32).show(METRIC) == "80 cm water"
    assert Series((T_("one"), "two", 3)).show(METRIC) == "one, two, 3"
    assert Upper(T_("pit")).show(METRIC) == "PIT"


@pytest.mark.parametrize(
    ("value", "unit", "told"),
    [
        (1, "bags", "1 bag"),
        (0.99, "bags", "1 bag"),
        (1.1, "bags", "1.1 bags"),
        (0.5, "bags", "0.5 bags"),
        (0, "bags", "0 bags"),
        (2, "bags", "2 bags"),
        (1, "days", "1 day"),
        (1, "boxes", "1 box"),
        (1, "brass", "1 brass"),
        (1, "kg", "1 kg"),
        (1, "trolleys", "1 trolley"),
    ],
)
def test_one_thing_is_no_plural(value, unit, told):
    assert Amount(value, unit, 0 if value == 0.99 else 1).show(METRIC) == told


@pytest.mark.parametrize(
    ("value", "told"),
    [("20000", "20000 shillings"), ("20000.00", "20000 shillings"), ("12.50", "12.50 shillings"), ("1E+3", "1000 shillings")],
)
def test_money_is_exact_and_has_coins_only_where_there_are_some(value, told):
    assert Money(Decimal(value), "shillings").show(METRIC) == told


def test_a_day_long_ago_has_its_year():
    assert Dated(date(2025, 12, 10)).show(METRIC) == "10 Dec 2025"


def test_a_moment_is_told_in_the_sites_time():
    at = datetime(2026, 3, 2, 22, 30, tzinfo=UTC)
    nairobi = Reader(zone="Africa/Nairobi")
    assert Clock(at, at).show(nairobi) == "01:30"
    assert Clock(at, at - timedelta(hours=3)).show(nairobi) == "Tue 03 Mar 01:30"
    assert Day(at).show(nairobi) == "Tue 03 Mar"


def test_sentences_add_up_and_a_percent_sign_stays_one():
    text = lines([T_("Dose 0.2-3 %% of the cement."), T_("%(value)s.", value=Number(2))])
    assert word(text, METRIC) == "Dose 0.2-3 % of the cement. 2."
    assert not lines([])


@pytest.mark.parametrize(
    ("text", "expected"),
    [("x" * 160, (1, "GSM-7")), ("x" * 161, (2, "GSM-7")), ("x" * 306, (2, "GSM-7")), ("x" * 307, (3, "GSM-7")), ("[" * 80, (1, "GSM-7")),
     ("[" * 81, (2, "GSM-7")), ("½" * 70, (1, "UCS-2")), ("½" * 71, (2, "UCS-2")), ("", (1, "GSM-7"))],
)  # fmt: skip
def test_segments_by_the_lengths_of_gsm_03_38(text, expected):
    """GSM 03.38 / 3GPP TS 23.038 and 23.040: 160 septets alone, 153 joined; UCS-2 70 and 67; brackets take two places."""
    assert segments(text) == expected


def test_days_are_full_days():
    assert whole_days(timedelta(hours=121)) == 5
    assert whole_days(timedelta(hours=119)) == 4
