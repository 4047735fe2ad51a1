"""Makes the pictures of the README again from the shipped bank: a practice page on a phone, a paper, a memorandum, a marking grid.

``python tests/pictures`` publishes into a folder of its own; it needs Chromium and ``pdftoppm``. Look at them before they are kept.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from playwright.sync_api import sync_playwright

sys.path[:0] = [str(Path(__file__).resolve().parents[1])]

from conftest import _chromium  # noqa: E402 - run as a folder, it finds its neighbours here

from saltbridge.build import publish  # noqa: E402 - as above
from saltbridge.deliver.homework.set_run import Wanted, make_set  # noqa: E402 - as above
from saltbridge.home import shipped  # noqa: E402 - as above

HERE = Path(__file__).resolve().parent
PHONE = {"width": 360, "height": 720}
WIDTH, COLOURS = 360, 32  # pixels; few colours keep a picture of text small


def phone(site: Path, to: Path) -> None:
    """A practice page answered in part, as a phone shows it."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=_chromium(), args=["--no-sandbox"])
        page = browser.new_page(viewport=PHONE)
        page.goto((site / "two-metals.html").as_uri())
        page.screenshot(path=to)
        browser.close()


def first_page(pdf: Path, to: Path) -> None:
    """The first page of a PDF."""
    subprocess.run(["pdftoppm", "-r", "90", "-f", "1", "-singlefile", "-png", str(pdf), str(to.with_suffix(""))], check=True)


def grid(pdf: Path, to: Path) -> None:
    """The upper part of a marking grid's second page, in few colours."""
    subprocess.run(
        ["pdftoppm", "-r", "130", "-f", "2", "-l", "2", "-singlefile", "-png", str(pdf), str(to.with_suffix(""))], check=True
    )
    picture = Image.open(to).convert("RGB")
    picture.crop((0, 0, picture.width, round(picture.height * 0.45))).quantize(COLOURS).save(to, optimize=True)


def small(path: Path) -> None:
    """The picture at README size, in few colours, without data of its own."""
    picture = Image.open(path).convert("RGB")
    if picture.width > 2 * WIDTH:
        picture = picture.resize((2 * WIDTH, round(picture.height * 2 * WIDTH / picture.width)))
    picture.quantize(COLOURS).save(path, optimize=True)


def main() -> None:
    """Publish, take, shrink."""
    with TemporaryDirectory() as folder:
        done = publish(None, Path(folder) / "out", variants=3)
        phone(done.site, HERE / "phone.png")
        first_page(
            done.teacher / "papers" / min(each.name for each in (done.teacher / "papers").glob("*.pdf")), HERE / "paper.png"
        )
        memoranda = done.teacher / "memoranda"
        first_page(memoranda / min(each.name for each in memoranda.glob("*.pdf")), HERE / "memorandum.png")
        path = shipped("data") / "demo" / "week-3.yaml"
        make_set(Wanted(path), Path(folder) / "class", lambda _stage: None, lambda _made: None)
        grid(next((Path(folder) / "class").glob("*-marking-grid.pdf")), HERE / "grid.png")
    for name in ("phone", "paper", "memorandum"):
        small(HERE / f"{name}.png")


if __name__ == "__main__":
    main()
