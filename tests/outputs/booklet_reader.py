"""A booklet read back as a browser would, without one: its elements in order, each with its parents and its text."""

from html.parser import HTMLParser

from attrs import define, field

VOID = {"meta", "input", "link", "br", "img"}


@define
class Element:
    """An element with its attributes; `text` is all the text in it."""

    tag: str
    attributes: dict[str, str]
    parents: list["Element"]
    text: str = ""

    def within(self, tag: str) -> bool:
        return any(parent.tag == tag for parent in self.parents)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[Element] = []
        self.elements: list[Element] = []
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attributes}, list(self.open))
        if len(element.attributes) != len(attributes):
            self.faults.append(f"an attribute twice in {tag}")
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.elements.append(Element(tag, {name: value or "" for name, value in attributes}, list(self.open)))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open[-1].tag != tag:
            self.faults.append(f"</{tag}> ends {self.open[-1].tag if self.open else 'nothing'}")
        else:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.text += data


@define
class Page:
    """The file read back: every element in order, and what is not well formed."""

    elements: list[Element] = field(factory=list)
    faults: list[str] = field(factory=list)

    def all(self, *tags: str) -> list[Element]:
        return [element for element in self.elements if element.tag in tags]

    def one(self, tag: str) -> Element:
        (found,) = self.all(tag)
        return found

    def named(self, name: str) -> Element:
        (found,) = [element for element in self.elements if element.attributes.get("id") == name]
        return found


def read_page(made: bytes) -> Page:
    reader = _Reader()
    reader.feed(made.decode("utf-8"))
    reader.close()
    left_open = [f"{element.tag} is left open" for element in reader.open]
    return Page(reader.elements, [*reader.faults, *left_open])
