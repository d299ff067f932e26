"""Money in whole coins, and as it is written where the studio works."""

from __future__ import annotations

from datetime import date
from decimal import ROUND_HALF_UP, Decimal

ROUNDING = "each line to the smallest coin, half a coin up"
"""How amounts are rounded, in words for the sheets."""


def places(currency: str) -> int:
    """How many decimal places a currency has (CLDR supplemental data, after ISO 4217).

    >>> places("USD"), places("JPY")
    (2, 0)
    """
    from babel.numbers import get_currency_precision

    return int(get_currency_precision(currency))


def in_coins(amount: Decimal, currency: str) -> Decimal:
    """The amount rounded to the currency's smallest coin, half a coin up.

    >>> in_coins(Decimal("2.345"), "USD"), in_coins(Decimal("2.5"), "JPY")
    (Decimal('2.35'), Decimal('3'))
    """
    return amount.quantize(Decimal(1).scaleb(-places(currency)), ROUND_HALF_UP)


def money(amount: Decimal, currency: str, locale: str) -> str:
    """The amount as it is written in a language and country, in whole coins.

    >>> money(Decimal("1234.5"), "USD", "en_US"), money(Decimal("1234.5"), "EUR", "de_DE")
    ('$1,234.50', '1.234,50\\xa0€')
    """
    from babel.numbers import format_currency

    return str(format_currency(in_coins(amount, currency), currency, locale=locale))


def share(of_one: Decimal, locale: str) -> str:
    """A share in per cent.

    >>> share(Decimal("0.0825"), "en_US")
    '8.25%'
    """
    from babel.numbers import format_percent

    pattern = format_percent(of_one, locale=locale, decimal_quantization=False)
    return str(pattern)


def day(when: date, locale: str) -> str:
    """A date in words.

    >>> day(date(2027, 5, 8), "en_US"), day(date(2027, 5, 8), "de_AT")
    ('May 8, 2027', '8. Mai 2027')
    """
    from babel.dates import format_date

    return str(format_date(when, format="long", locale=locale))
