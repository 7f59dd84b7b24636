"""Numbers, quantities, money and temperatures as they are typed."""

from __future__ import annotations

from decimal import Decimal

import pytest

from inventory.errors import WrongInput
from inventory.units import Quantity, celsius, cents, fahrenheit, parse_number, plain


@pytest.mark.parametrize(("typed", "number"), [("2,5", "2.5"), (" 250 ", "250"), ("-3", "-3")])
def test_a_decimal_comma_is_a_decimal_point(typed: str, number: str) -> None:
    """Comma and point mean the same."""
    assert parse_number(typed) == Decimal(number)


@pytest.mark.parametrize("typed", ["1,234", "", "abc", "1.2.3", "٤٥٠", "1e5", "NaN"])
def test_what_could_mean_two_things_is_refused(typed: str) -> None:
    """Thousands or decimals, other digits and words are not guessed."""
    with pytest.raises(WrongInput):
        parse_number(typed)


@pytest.mark.parametrize(
    ("typed", "same"), [("0,1 µF", "100 nF"), ("2.2 kW", "2200 W"), ("4.7kΩ", "4700 ohm")]
)
def test_a_quantity_is_kept_in_its_base_unit(typed: str, same: str) -> None:
    """SI prefixes, SI brochure 9th edition table 7."""
    assert Quantity.parse(typed) == Quantity.parse(same)


def test_a_quantity_without_its_unit_is_refused() -> None:
    """A bare number has no meaning here."""
    with pytest.raises(WrongInput, match="Not a quantity"):
        Quantity.parse("38")


def test_money_is_whole_cents() -> None:
    """Half a cent is a slip."""
    assert cents("4.50") == 450
    with pytest.raises(WrongInput, match="Not a price"):
        cents("4.505")


# NIST SP 811 (2008), appendix B.9: t/°C = (t/°F − 32)/1.8; 212 °F boils, 32 °F freezes.
@pytest.mark.parametrize(("f", "c"), [(212, 100), (32, 0), (-40, -40), (302, 150)])
def test_fahrenheit_and_celsius_agree(f: float, c: float) -> None:
    """Fixed points of both scales."""
    assert celsius(f) == pytest.approx(c)
    assert fahrenheit(c) == pytest.approx(f)


def test_a_plain_number_has_no_exponent() -> None:
    """As a person writes it."""
    assert [plain(Decimal("1E+4")), plain(0.5), plain(250.0)] == ["10000", "0.5", "250"]
