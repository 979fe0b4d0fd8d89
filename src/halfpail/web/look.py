"""How one browser wants its pages: units, money, light or dark; kept in cookies."""

from dataclasses import dataclass
from enum import StrEnum

from django.http import HttpRequest

from halfpail.quantities.units import System

A_YEAR_SECONDS = 365 * 24 * 3600
CURRENCIES = ("USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK")


class Theme(StrEnum):
    """Which of the two faces a page shows."""

    AS_MACHINE = "as the machine"
    LIGHT = "light"
    DARK = "dark"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """The units and money that answers are told in, and the face of the page."""

    system: System = System.US
    currency: str = "USD"
    theme: Theme = Theme.AS_MACHINE


def look_of(request: HttpRequest) -> Look:
    """The look that a browser's cookies ask for; what they say wrongly is left aside."""
    units, theme, currency = (
        request.COOKIES.get(name, "") for name in ("units", "theme", "currency")
    )
    return Look(
        system=System(units) if units in tuple(System) else System.US,
        currency=currency if currency in CURRENCIES else "USD",
        theme=Theme(theme) if theme in tuple(Theme) else Theme.AS_MACHINE,
    )
