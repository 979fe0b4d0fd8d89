"""Pages as a test reads them: the text, the fields with their labels, what is forbidden."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

APART = {"td", "th", "li", "p", "dt", "dd", "h1", "h2", "option"}
VOID = {"meta", "link", "input", "br", "hr", "img", "rect", "line", "circle", "polyline"}


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]
    text: str = ""


@dataclass
class Page(HTMLParser):
    """Every element of a page in order, with the text right inside it."""

    html: str
    elements: list[Element] = field(default_factory=list)
    open: list[Element] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()
        self.feed(self.html)

    def handle_starttag(self, tag, attrs):
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag, attrs):
        self.elements.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag):
        while self.open:
            if self.open.pop().tag == tag:
                break
        if tag in APART:
            self.handle_data(" ")

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.text += data

    def all(self, tag: str, **attributes: str) -> list[Element]:
        return [
            one
            for one in self.elements
            if one.tag == tag
            and all(one.attributes.get(name) == value for name, value in attributes.items())
        ]

    def by_id(self, wanted: str) -> Element:
        (found,) = [one for one in self.elements if one.attributes.get("id") == wanted]
        return found

    @property
    def chosen(self) -> dict[str, str]:
        """What is chosen in each list of choices."""
        found: dict[str, str] = {}
        name = ""
        for one in self.elements:
            if one.tag == "select":
                name = one.attributes["name"]
            elif one.tag == "option" and (name not in found or "selected" in one.attributes):
                found[name] = one.attributes["value"]
        return found

    @property
    def text(self) -> str:
        return " ".join(self.all("body")[0].text.split())

    @property
    def title(self) -> str:
        return self.all("title")[0].text


def read(response) -> Page:
    return Page(response.content.decode())


def unlabelled(page: Page) -> list[str]:
    """Boxes that nothing names."""
    named = {label.attributes.get("for") for label in page.all("label")}
    return [
        str(box.attributes)
        for box in (*page.all("input"), *page.all("select"), *page.all("textarea"))
        if box.attributes.get("type") != "hidden"
        and box.attributes.get("id") not in named
        and "aria-label" not in box.attributes
    ]


def inline(page: Page) -> list[str]:
    """What a strict policy forbids: styles, scripts and handlers written into the page."""
    found = [one for one in page.elements if one.tag == "style" or "style" in one.attributes]
    found += [one for one in page.all("script") if one.text.strip() or not one.attributes["src"]]
    found += [one for one in page.elements if any(name.startswith("on") for name in one.attributes)]
    return [f"{one.tag} {one.attributes}" for one in found]


def from_elsewhere(page: Page) -> list[str]:
    """Addresses of other machines that a browser would fetch by itself."""
    loaded = [
        one.attributes.get(name, "")
        for one in page.elements
        for name in ("src", "srcset", "poster", "data", *(["href"] if one.tag == "link" else []))
    ]
    return [address for address in loaded if "//" in address]


def doubled_ids(page: Page) -> list[str]:
    ids = [one.attributes["id"] for one in page.elements if "id" in one.attributes]
    return sorted({one for one in ids if ids.count(one) > 1})
