"""Adding, changing and removing what is kept under a name: the same steps for bags and beds."""

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import render
from django.urls import reverse

from halfpail.application.kept import Kept
from halfpail.application.shelf_ports import Drawer
from halfpail.application.store_trouble import Conflict, NameTaken, Unwritable
from halfpail.web.forms.entry import EntryForm
from halfpail.web.forms.fields import said
from halfpail.web.home import GardenRequest, Home
from halfpail.web.pages.keeping import KeptPage, Theirs

SEE_OTHER, CONFLICT, UNPROCESSABLE, UNAVAILABLE = 303, 409, 422, 503
# The button that shows what was understood, for browsers that do not send as one types.
LOOK = "look"
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(Generic[T]):
    """One kind of thing a garden keeps: where it lies, its form, and the page it stands on."""

    name: str
    label: Callable[[T], str]
    drawer: Callable[[Home], Drawer[T]]
    form: type[EntryForm[T]]
    words: Callable[[GardenRequest, T], dict[str, Any]]
    page: Callable[[KeptPage[T]], Any]

    def home(self, request: GardenRequest) -> Home:
        """The garden of a request that has one."""
        assert request.home
        return request.home

    def kept(self, request: GardenRequest) -> Drawer[T]:
        """The drawer of this garden."""
        return self.drawer(self.home(request))

    def draft(self, key: int | None) -> str:
        """Where what is not saved yet is kept."""
        return f"{self.name} {key or 'new'}"


def add(
    request: GardenRequest, kind: Kind[T], begin_with: Mapping[str, Any] | None = None
) -> HttpResponse:
    """The form for a new one, and what comes of it."""
    if request.method != "POST":
        draft = {} if begin_with else _draft_of_new(request, kind)
        form = kind.form(None, kind.home(request), request.look, begin_with or draft)
        return _shown(request, kind, KeptPage(form=form, is_draft=bool(draft)))
    page = _sent(request, kind)
    if not page.is_sound:
        return _shown(request, kind, page)
    return _saved(
        request, kind, page, lambda form: kind.kept(request).add(form.entry(), form.token_sent)
    )


def change(request: GardenRequest, kind: Kind[T], key: int) -> HttpResponse:
    """The form of one that is kept, and what comes of it."""
    if request.method != "POST":
        return _shown(request, kind, _opened(request, kind, key))
    page = _sent(request, kind, key)
    if not page.is_sound:
        return _shown(request, kind, page)
    return _saved(
        request,
        kind,
        page,
        lambda form: kind.kept(request).change(key, form.version_seen, form.entry()),
    )


def remove(request: GardenRequest, kind: Kind[T], key: int) -> HttpResponse:
    """Move one to the bin, as long as it is the one that was seen."""
    version = request.POST.get("version", "")
    seen = int(version) if version.isascii() and version.isdigit() and len(version) < 9 else 0
    kept = kind.kept(request).get(key)
    if kept.version != seen:
        messages.warning(request, f"It was changed in another window. Look at this {kind.name}.")
        return HttpResponseRedirect(reverse(kind.name, args=[key]), status=SEE_OTHER)
    kind.kept(request).remove(key, seen)
    kind.home(request).store.drafts.drop(kind.draft(key))
    messages.success(request, f"The {kind.name} is in the bin; you can put it back from there.")
    return HttpResponseRedirect(f"{reverse(kind.name + 's')}#bin", status=SEE_OTHER)


def put_back(request: GardenRequest, kind: Kind[T], key: int) -> HttpResponse:
    """Take one out of the bin."""
    try:
        kind.kept(request).put_back(key)
    except NameTaken as taken:
        messages.warning(request, said(taken.faults[0]))
    else:
        messages.success(request, f"The {kind.name} is back.")
    return HttpResponseRedirect(reverse(kind.name + "s"), status=SEE_OTHER)


def forget(request: GardenRequest, kind: Kind[T], key: int | None = None) -> HttpResponse:
    """Give up what was typed and not saved."""
    kind.home(request).store.drafts.drop(kind.draft(key))
    where = reverse(kind.name, args=[key]) if key else reverse(f"new {kind.name}")
    return HttpResponseRedirect(where, status=SEE_OTHER)


def _draft_of_new(request: GardenRequest, kind: Kind[T]) -> dict[str, str]:
    """What was typed of a new one; nothing where it was saved meanwhile."""
    draft = dict(kind.home(request).store.drafts.get(kind.draft(None)))
    if not draft:
        return {}
    names = {kind.label(one.value) for one in kind.kept(request).all()}
    return {} if draft.get("name") in names else draft


def _opened(request: GardenRequest, kind: Kind[T], key: int) -> KeptPage[T]:
    kept = kind.kept(request).get(key)
    words = {**kind.words(request, kept.value), "version": kept.version}
    draft = dict(kind.home(request).store.drafts.get(kind.draft(key)))
    form = kind.form(None, kind.home(request), request.look, {**words, **draft})
    return KeptPage(form=form, kept=kept, is_draft=bool(draft))


def _sent(request: GardenRequest, kind: Kind[T], key: int | None = None) -> KeptPage[T]:
    """What was sent; a form that is only being filled in is kept as a draft."""
    kept = kind.kept(request).get(key) if key else None
    words = kind.words(request, kept.value) if kept else {}
    form = kind.form(request.POST, kind.home(request), request.look, words)
    sound = form.is_valid()
    if only_looks := bool(request.htmx) or LOOK in request.POST:
        # A draft that comes in behind the saving of the same form is no draft any more.
        if kept is None or form.cleaned_data.get("version") == kept.version:
            # Where nothing can be kept now, what was understood is told all the same.
            with suppress(Unwritable):
                kind.home(request).store.drafts.keep(kind.draft(key), _plain(request.POST))
        form.be_patient()
    return KeptPage(form=form, kept=kept, is_sound=sound and not only_looks)


def _saved(
    request: GardenRequest,
    kind: Kind[T],
    page: KeptPage[T],
    save: Callable[[EntryForm[T]], Kept[T]],
) -> HttpResponse:
    try:
        kept = save(page.form)
    except NameTaken as taken:
        page.form.add_error("name", said(taken.faults[0]))
        return _shown(request, kind, page)
    except Conflict as conflict:
        return _shown(request, kind, _beside(request, kind, page, conflict.theirs))
    except Unwritable as trouble:
        page.form.add_error("name", said(trouble.faults[0]))
        return _shown(request, kind, page, UNAVAILABLE)
    kind.home(request).store.drafts.drop(kind.draft(page.kept.key if page.kept else None))
    messages.success(request, f"{kind.label(kept.value)} is kept.")
    return HttpResponseRedirect(reverse(kind.name + "s"), status=SEE_OTHER)


def _beside(
    request: GardenRequest, kind: Kind[T], page: KeptPage[T], theirs: Kept[T]
) -> KeptPage[T]:
    """Both versions side by side; saving again puts this one in the place of the other."""
    sent = request.POST.copy()
    sent["version"] = str(theirs.version)
    words = kind.words(request, theirs.value)
    form = kind.form(sent, kind.home(request), request.look, words)
    form.is_valid()
    rows = Theirs.of(form, words)
    return KeptPage(form=form, kept=theirs, theirs=rows)


def _shown(
    request: GardenRequest, kind: Kind[T], page: KeptPage[T], status: int = 200
) -> HttpResponse:
    if page.theirs:
        status = CONFLICT
    elif page.form.faulty and status == 200 and not request.htmx:
        status = UNPROCESSABLE
    context = {"page": kind.page(page)}
    return render(request, f"halfpail/{kind.name}.html", context, status=status)


def _plain(sent: QueryDict) -> dict[str, str]:
    """What was typed, without what only serves the sending."""
    return {name: str(sent[name]) for name in sent if name not in ("csrfmiddlewaretoken", LOOK)}
