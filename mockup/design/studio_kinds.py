"""The kinds of value that only a studio book and a job file hold: money, exact shares, hours."""

from __future__ import annotations

import re
from datetime import datetime, time
from decimal import Decimal

from mockup.design.faults import At, shown
from mockup.design.kinds import Number, Schema
from mockup.design.measures import SHARE
from mockup.records import dataclass
from mockup.spelling import did_you_mean

MOST_MONEY = Decimal(1_000_000)
_PLACES = 4
_HOUR = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])", re.ASCII)


@dataclass(frozen=True)
class Exact:
    """A number as it is written, to four decimal places, never rounded: money, minutes, amounts."""

    most: Decimal = MOST_MONEY
    says: str = "an amount of money"
    example: str = "6.80"
    above_zero: bool = False

    def takes(self, written: object) -> bool:
        """Integers and floats; text is taken too, to say that it needs no quotes."""
        return Number(0, 0).takes(written) or isinstance(written, str)

    def read(self, written: object, at: At) -> Decimal | None:
        """The exact decimal: a float of TOML is taken by its shortest form, which is as written."""
        if isinstance(written, bool) or not isinstance(written, int | float):
            at.fault(f"'{at.key}' is {shown(written)}, and must be {self.says} without quotes")
            return None
        value = Decimal(repr(written))
        if not value.is_finite():
            at.fault(f"'{at.key}' is not a number")
        elif value < 0:
            at.fault(f"'{at.key}' is {shown(written)}, which is below zero")
        elif self.above_zero and not value:
            at.fault(f"'{at.key}' is nothing")
        elif value > self.most:
            at.fault(f"'{at.key}' is {shown(written)}", f"write at most {self.most:,}")
        elif value != round(value, _PLACES):
            at.fault(f"'{at.key}' is {shown(written)}", f"write at most {_PLACES} decimal places")
        else:
            return value
        return None

    def schema(self) -> Schema:
        """A number from zero to the most."""
        return {"type": "number", "minimum": 0, "maximum": float(self.most)}


@dataclass(frozen=True)
class PerCent:
    """A share written in per cent, kept exact: ``"8.1%"`` is 0.081."""

    most: Decimal = Decimal(1)
    example: str = '"8%"'

    def takes(self, written: object) -> bool:
        """Any string; a bare number is taken too, to say what it lacks."""
        return isinstance(written, str) or Number(0, 0).takes(written)

    def read(self, written: object, at: At) -> Decimal | None:
        """The share of one."""
        found = re.fullmatch(SHARE, written) if isinstance(written, str) else None
        if found is None:
            at.fault(f"'{at.key}' is {shown(written)}, and must be a share in per cent")
            return None
        share = Decimal(found[1]) / 100
        if share > self.most:
            at.fault(
                f"'{at.key}' is {shown(written)}", f"write at most {float(self.most * 100):g}%"
            )
            return None
        return share

    def schema(self) -> Schema:
        """A string with a per cent sign."""
        return {"type": "string", "pattern": r"^\s*\d{1,6}(\.\d{1,9})?\s*%\s*$"}


@dataclass(frozen=True)
class Currency:
    """A currency by its three letters in ISO 4217, as the CLDR lists them."""

    example: str = '"USD"'

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> str | None:
        """The code in capitals."""
        from babel.core import get_global

        # The CLDR also keeps what is no longer paid with; a currency of today has no last day.
        known = {
            code
            for places in get_global("territory_currencies").values()
            for code, _, last, tender in places
            if tender and last is None
        }
        code = written.strip().upper() if isinstance(written, str) else ""
        if code in known:
            return code
        near = did_you_mean(code, known) if code and len(code) <= 10 else at.right_form()
        at.fault(f"'{at.key}' is {shown(written)}, and there is no such currency", near)
        return None

    def schema(self) -> Schema:
        """Three capital letters."""
        return {"type": "string", "pattern": "^[A-Z]{3}$"}


@dataclass(frozen=True)
class Language:
    """How money and dates are written: a language and a country, such as en_US or de_AT."""

    example: str = '"en_US"'

    def takes(self, written: object) -> bool:
        """Any string."""
        return isinstance(written, str)

    def read(self, written: object, at: At) -> str | None:
        """The identifier as the CLDR writes it."""
        from babel import Locale, UnknownLocaleError

        try:
            if isinstance(written, str) and len(written) <= 40:
                return str(Locale.parse(written.strip().replace("-", "_")))
        except (UnknownLocaleError, ValueError):
            pass  # told below, like everything else that is no locale
        at.fault(f"'{at.key}' is {shown(written)}, and no such language and country is known")
        return None

    def schema(self) -> Schema:
        """A string."""
        return {"type": "string"}


@dataclass(frozen=True)
class Hour:
    """An hour of the day, as ``"14:30"``."""

    example: str = '"14:30"'

    def takes(self, written: object) -> bool:
        """Strings, and times as TOML writes them."""
        return isinstance(written, str | time)

    def read(self, written: object, at: At) -> time | None:
        """The time of day, to the minute."""
        if isinstance(written, time) and not isinstance(written, datetime):
            return written.replace(second=0, microsecond=0)
        found = _HOUR.fullmatch(written.strip()) if isinstance(written, str) else None
        if found is None:
            at.fault(f"'{at.key}' is {shown(written)}, and must be an hour of the day")
            return None
        return time(int(found[1]), int(found[2]))

    def schema(self) -> Schema:
        """Hours and minutes."""
        return {"type": "string", "pattern": "^([01]?[0-9]|2[0-3]):[0-5][0-9]$"}
