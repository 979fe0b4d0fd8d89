"""Draw the first two pages of each PDF of a folder: `draw_pages.py FOLDER PICTURES`."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
from PIL.Image import Image

DOTS = 96 / 72
MOST_PAGES = 2


def drawn(path: Path) -> Iterator[tuple[str, Image]]:
    """Each page's picture under a name with its number."""
    document = pypdfium2.PdfDocument(path)
    for number in range(min(len(document), MOST_PAGES)):
        picture = document[number].render(scale=DOTS).to_pil().convert("L")
        yield f"{path.stem}-page-{number + 1}.png", picture


def main(folder: Path, pictures: Path) -> None:
    """Draw every PDF of a folder."""
    pictures.mkdir(parents=True, exist_ok=True)
    for path in sorted(folder.glob("*.pdf")):
        for name, picture in drawn(path):
            picture.quantize(16).save(pictures / name, optimize=True)
            print(pictures / name)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
