"""What can be printed: of the plans and mixes that were kept, document by document."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.urls import reverse

from halfpail.application.kept import Job, JobState, Kept, MixEntry, SeasonEntry
from halfpail.application.print_season import PrintedMix
from halfpail.web.forms.paper import MixPaperForm, PaperForm
from halfpail.web.run_jobs import AT_WORK

OF_A_MIX = (
    ("mixing-card", "Mixing card", "stands by the pail: scoops in order, pails, weight check"),
    ("pail-labels", "Pail labels", "grade, guaranteed analysis, sources, how much to give"),
    ("handout", "Handout", "how the mix is worked out, sum by sum"),
    ("exercise", "Exercise", "the same with blanks, and a page of answers"),
)
NOT_WEIGHED = (
    "What each bag is worth was not weighed yet. It takes minutes; you can leave this page and "
    "come back."
)
ONLY_BAGS = (
    "The buying list tells the highest price worth paying, as weighed on the page of bags. The "
    "shop card is not worked out yet; it takes minutes, and you can leave this page and come back."
)
SAID = {
    JobState.WAITING: "The bags are about to be weighed against each other.",
    JobState.RUNNING: "The bags are being weighed against each other; this takes minutes.",
    JobState.DONE: "The bags were weighed: the shop card is ready, and the buying list tells the "
    "highest price worth paying.",
    JobState.STOPPED: "The weighing was stopped.",
    JobState.FAILED: "The weighing failed.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One document: the address of its PDF, its title and what it is for."""

    address: str
    title: str
    use: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Documents:
    """Documents that belong together."""

    title: str
    rows: tuple[Document, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperPage:
    """The plans and mixes that can be printed; the plan that is followed stands first."""

    plans: tuple[Kept[SeasonEntry], ...]
    mixes: tuple[Kept[MixEntry], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixPaperPage:
    """What can be printed of a kept mix."""

    kept: Kept[MixEntry]
    form: MixPaperForm
    documents: tuple[Documents, ...]
    refused: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """How the weighing of the bags stands, and what can be done with it."""

    said: str
    at_work: bool
    stop_asked: bool
    done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPaperPage:
    """What can be printed of a kept plan; `waiting` says that its dates are being worked out."""

    kept: Kept[SeasonEntry]
    form: PaperForm
    documents: tuple[Documents, ...]
    weighing: Weighing
    waiting: bool
    dated: bool
    shop_card: Document | None
    refused: tuple[str, ...] = ()

    @property
    def at_work(self) -> bool:
        """Whether something of it will soon be other than it is."""
        return self.waiting or self.weighing.at_work


def weighing_of(job: Job | None, *, knows_bags: bool) -> Weighing:
    """A weighing in words; what the bags are worth may be known from the page of bags."""
    if job is None:
        said = ONLY_BAGS if knows_bags else NOT_WEIGHED
        return Weighing(said=said, at_work=False, stop_asked=False, done=False)
    at_work, said = job.state in AT_WORK, SAID[job.state]
    if job.state is JobState.FAILED:
        said = f"{said} {job.result}"
    elif at_work and job.stop_asked:
        said = "Stopping the weighing after the bag at hand."
    done = job.state is JobState.DONE
    return Weighing(said=said, at_work=at_work, stop_asked=job.stop_asked, done=done)


def mix_documents(key: int) -> tuple[Documents, ...]:
    """The documents of a kept mix."""
    rows = tuple(
        Document(address=reverse("mix document", args=[key, name]), title=title, use=use)
        for name, title, use in OF_A_MIX
    )
    return (Documents(title="To print", rows=rows),)


def plan_documents(
    key: int, mixes: Sequence[PrintedMix], names: Sequence[str]
) -> tuple[Documents, ...]:
    """The documents of a kept plan, of those that have these names."""
    groups = [Documents(title="For the garden", rows=tuple(_of_garden(key, names)))]
    for number, mix in enumerate(mixes, start=1):
        rows = tuple(
            Document(
                address=reverse("plan document", args=[key, f"{name}-{number}"]),
                title=f"{title}, {mix.name}",
                use=use,
            )
            for name, title, use in OF_A_MIX
        )
        groups.append(Documents(title=mix.name, rows=rows))
    return tuple(groups)


def shop_card_document(key: int) -> Document:
    """The card for the shop."""
    return Document(
        address=reverse("plan document", args=[key, "shop-card"]),
        title="Shop card",
        use="for the pocket: what a bag of any grade is worth",
    )


def _of_garden(key: int, names: Sequence[str]) -> Iterator[Document]:
    told = (
        ("feeding-sheet", "Feeding sheet", "bed by bed, the same amount together, boxes to tick"),
        ("season-list", "Season list", "week by week: stir, plant, feed, soil samples, lime"),
        ("buying-list", "Buying list", "bags, how many, and room for the price found"),
        ("handout-plan", "Handout of the plan", "scoops, rounds, weights and money, sum by sum"),
        ("exercise-plan", "Exercise of the plan", "the same with blanks, and a page of answers"),
    )
    for name, title, use in told:
        if name in names:
            yield Document(address=reverse("plan document", args=[key, name]), title=title, use=use)
    if "season-list" in names:
        use = "the same days for a calendar program, as a file"
        yield Document(address=reverse("plan calendar", args=[key]), title="Calendar", use=use)
