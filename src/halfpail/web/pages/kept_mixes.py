"""The mixes that were kept, side by side, and the form to keep one more."""

from dataclasses import dataclass

from halfpail.application.explain_mix import p2o5_words
from halfpail.application.kept import Kept, MixEntry
from halfpail.application.word_mix import grade_text
from halfpail.domain.mix import Mix, Part, stir
from halfpail.quantities.showing import show_price_per_mass
from halfpail.reference.purposes import purposes
from halfpail.web.bench import Bench
from halfpail.web.forms.kept_mix import KeepMixForm
from halfpail.web.home import Home
from halfpail.web.look import Look


@dataclass(frozen=True, slots=True, kw_only=True)
class MixRow:
    """A kept mix in cells, and the address of its sum; none where a bag of it is gone."""

    kept: Kept[MixEntry]
    address: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptMixes:
    """The form, every kept mix, and the bin."""

    form: KeepMixForm
    headings: tuple[str, ...] = ()
    rows: tuple[MixRow, ...] = ()
    bin: tuple[Kept[MixEntry], ...] = ()


def kept_mixes(home: Home, bench: Bench, look: Look, form: KeepMixForm) -> KeptMixes:
    """The mixes of a garden as they were kept."""
    unit = "P2O5 with 0.1 usable N"
    return KeptMixes(
        form=form,
        headings=("mix", "scoops", "for", "grade", "price", unit),
        rows=tuple(_row(kept, bench, look) for kept in home.shelf.mixes.all()),
        bin=home.shelf.mixes.bin(),
    )


def _row(kept: Kept[MixEntry], bench: Bench, look: Look) -> MixRow:
    entry = kept.value
    scoops = ", ".join(f"{count} {name}" for name, count in entry.scoops.items())
    purpose = purposes()[entry.purpose].name if entry.purpose in purposes() else ""
    by_name = {bag.name: bag for bag in bench.bags}
    parts = [
        Part(bag=by_name[name], scoops=count)
        for name, count in entry.scoops.items()
        if name in by_name
    ]
    if not parts or len(parts) < len(entry.scoops):
        return MixRow(kept=kept, address="", cells=(scoops, purpose, "a bag of it is gone", "", ""))
    cells = (scoops, purpose, *_figures(stir(parts, bench.tools.scoop_l), look))
    return MixRow(kept=kept, address=bench.mix_address(parts), cells=cells)


def _figures(mix: Mix, look: Look) -> tuple[str, ...]:
    price = mix.cost_per_kg
    return (
        grade_text(mix.analysis.grade),
        "" if price is None else show_price_per_mass(price, look.currency, look.system),
        p2o5_words(mix),
    )
