"""How much phosphorus of bone and rock a crop gets in the first year, by the pH of the soil."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.straight_line import on_line
from halfpail.reference.tables import rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class PhosphorusByPh:
    """The points of one group, pH and usable share [0-1], what the share is of, and who says so."""

    group: str
    of_what: str
    points: tuple[tuple[Fraction, Fraction], ...]
    citation: Citation

    def usable_share(self, ph: Fraction) -> Fraction:
        """The usable share at a soil pH [0-1], on straight lines between the points."""
        return on_line(self.points, ph)


@cache
def phosphorus_by_ph(material: str) -> PhosphorusByPh | None:
    """The group of a material by its key; None where pH does not rule its phosphorus.

    >>> float(phosphorus_by_ph("rock_phosphate").usable_share(Fraction("6.5")))
    0.025
    """
    found = [row for row in rows("phosphorus_by_ph") if material in row.words("materials")]
    if not found:
        return None
    return PhosphorusByPh(
        group=found[0].text("group"),
        of_what=found[0].text("of_what"),
        points=tuple((row.needed("ph"), row.needed("usable_percent_of_p2o5")) for row in found),
        citation=found[0].citation(),
    )
