"""The press: pages become tagged PDFs, set by our own templates in fonts that come along."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from functools import cached_property
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halfpail.application.page import Link, Page, Paper
from halfpail.documents.letters import plain

if TYPE_CHECKING:
    from typst import Compiler

TEMPLATES = Path(str(files("halfpail.documents"))) / "templates"

# The press never looks for packages: this folder does not exist, and no template asks for one.
_NO_PACKAGES = TEMPLATES / "no-packages"


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What typst is given: the template, the words as JSON, and the moment [s since 1970]."""

    template: str
    words: str
    moment: int


def setting_of(page: Page, paper: Paper, made_at: datetime) -> Setting:
    """A page made ready for typst; what it holds reaches its template as data, never as markup.

    Raises:
        ValueError: `made_at` has no time zone, so it would mean another moment elsewhere.
    """
    if made_at.tzinfo is None:
        raise ValueError("the moment of printing needs its time zone")
    words = {**_words(page), "paper": paper.value, "made_on": made_at.date().isoformat()}
    return Setting(
        template=template_of(type(page)),
        words=json.dumps(words, ensure_ascii=False, sort_keys=True),
        moment=int(made_at.astimezone(UTC).timestamp()),
    )


class TypstPress:
    """Prints pages in this process."""

    def print(self, page: Page, paper: Paper, made_at: datetime) -> bytes:
        """The PDF of a page, which a screen reader can follow (PDF/UA-1).

        Raises:
            ValueError: `made_at` has no time zone.
        """
        return self.set_in_type(setting_of(page, paper, made_at))

    def set_in_type(self, setting: Setting) -> bytes:
        """The PDF of what was made ready."""
        printed = self._compiler.compile(
            TEMPLATES / setting.template,
            format="pdf",
            sys_inputs={"page": setting.words},
            pdf_standards=["ua-1"],
            timestamp=setting.moment,
        )
        assert isinstance(printed, bytes)
        return printed

    @cached_property
    def _compiler(self) -> "Compiler":
        """One compiler for all pages, with the fonts read once and none of the machine's own."""
        import fontpkg_atkinson_hyperlegible
        from typst import Compiler, Fonts

        font_folder = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"
        fonts = Fonts(include_system_fonts=False, font_paths=[font_folder])
        return Compiler(
            root=TEMPLATES,
            font_paths=fonts,
            package_path=_NO_PACKAGES,
            package_cache_path=_NO_PACKAGES,
        )


def template_of(kind: type[Page]) -> str:
    """The file that sets a kind of page: the name of the kind, in small letters.

    >>> class GardenPlan(Page): ...
    >>> template_of(GardenPlan)
    'garden_plan.typ'
    """
    name = "".join(f"_{letter.lower()}" if letter.isupper() else letter for letter in kind.__name__)
    return f"{name.removeprefix('_')}.typ"


def _words(page: Page) -> dict[str, Any]:
    words: dict[str, Any] = _cleaned(asdict(page))
    link = getattr(page, "link", None)
    if link is not None:
        words["link"]["code"] = _code(link)
    return words


def _cleaned(value: Any) -> Any:
    """Every text of a page as paper can carry it."""
    if isinstance(value, str):
        return plain(value)
    if isinstance(value, Mapping):
        return {key: _cleaned(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_cleaned(one) for one in value]
    return value


def _code(link: Link) -> str:
    """The address as a drawing of squares for a phone's camera."""
    import segno

    drawn = BytesIO()
    segno.make_qr(link.address, error="m").save(drawn, kind="svg", border=4, xmldecl=False)
    return drawn.getvalue().decode("utf-8")
