"""What the page for bringing in a garden file shows: its faults, or what is in it."""

from dataclasses import dataclass, replace

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.open_garden import open_garden
from halfpail.findings import Fault, Refusal
from halfpail.web.forms.garden_file import UploadForm
from halfpail.wiring import Services

NEEDLESS = ("bags", "beds")


@dataclass(frozen=True, slots=True, kw_only=True)
class FilePage:
    """The form, and what was found in the file."""

    form: UploadForm
    text: str = ""
    entry: GardenEntry | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def is_sound(self) -> bool:
        """Whether the garden can be kept."""
        return self.entry is not None


def looked_at(services: Services, form: UploadForm) -> FilePage:
    """The file read whole: its garden, or every fault of it."""
    if not form.is_valid():
        return FilePage(form=form)
    text = form.cleaned_data["file"]
    try:
        return FilePage(form=form, text=text, entry=sound_garden(services, text))
    except Refusal as refusal:
        return FilePage(form=form, faults=refusal.faults)


def sound_garden(services: Services, text: str) -> GardenEntry:
    """The garden of a text; one without bags or beds will do, since they can be added here.

    Raises:
        Refusal: with every fault of it.
    """
    entry = services.read_garden_text(text)
    faults = tuple(fault for fault in entry.faults if fault.place not in NEEDLESS)
    if faults:
        raise Refusal(*entry.in_order(faults))
    open_garden(replace(entry, faults=()))
    return replace(entry, faults=())
