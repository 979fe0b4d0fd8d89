"""What can go wrong with the store, each told in a sentence and with a way out of it."""

from typing import Any, ClassVar

from halfpail.findings import Fault, Refusal


class StoreTrouble(Refusal):
    """The store cannot do that now."""

    remedy: ClassVar[str] = "Try again; nothing was changed."

    def __init__(self, place: str = "the store", read: str = "", remedy: str | None = None) -> None:
        sentence = " ".join((type(self).__doc__ or "").split())
        told = self.remedy if remedy is None else remedy
        super().__init__(Fault(place=place, read=read, sentence=sentence, remedy=told))


class Missing(StoreTrouble):
    """It is no longer there: it was removed, perhaps in another window."""

    remedy = "Go back to the list; what was removed lies in the bin."


class Conflict(StoreTrouble):
    """It was changed in another window since you opened it."""

    remedy = "Look at both, and save the one you mean."

    def __init__(self, theirs: Any, place: str = "the store") -> None:
        super().__init__(place)
        self.theirs = theirs


class NameTaken(StoreTrouble):
    """Another one has this name already."""

    remedy = "Give each a name of its own."


class Unwritable(StoreTrouble):
    """The store cannot be written to now, however sound what was typed is."""


class StoreBusy(Unwritable):
    """Something else is writing to the store and did not finish in time."""

    remedy = "Nothing of yours was changed. Wait a moment and try again."


class DiskFull(Unwritable):
    """The disk is full, so this could not be kept. Nothing that was kept before is lost."""

    remedy = "Free some space on the disk and save again; you can still look at everything."


class ReadOnly(Unwritable):
    """The store cannot be written to; you can look at everything but change nothing."""

    remedy = "Make the file and its folder writable, or choose another folder, and start again."


class Damaged(StoreTrouble):
    """The store is damaged and cannot be read safely; it is kept as it is."""

    remedy = "Restore a backup: halfpail restore."


class TooNew(StoreTrouble):
    """A newer Halfpail than this one wrote the file."""

    remedy = "Start the newer Halfpail, or restore an older backup: halfpail restore."


class NotAStore(StoreTrouble):
    """The file is no store of Halfpail, or a copy without the part that held its rows."""

    remedy = "Choose a file made by halfpail backup."


class NoStore(StoreTrouble):
    """There is no store in this folder yet."""

    remedy = "Check the folder."


class AlreadyRunning(StoreTrouble):
    """Halfpail is running on this folder already."""

    remedy = "Use the one that runs, or stop it first."

    def __init__(self, pid: int, address: str) -> None:
        super().__init__(read=address or f"process {pid}")
        self.pid = pid
        self.address = address
