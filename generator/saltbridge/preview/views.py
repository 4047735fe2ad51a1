"""From the bank as it stands to what its preview pages show."""

from __future__ import annotations

from pathlib import PurePosixPath

from saltbridge.deliver.proof.findings import Finding
from saltbridge.faults import Fault, Faulty
from saltbridge.preview.made_template import DRAWS, KINDS, Made
from saltbridge.preview.watched_bank import Shown, WatchedBank
from saltbridge.render.preview_page import FaultView, IndexView, LinkView, PrintedView, TemplateView


def index_view(bank: WatchedBank) -> IndexView:
    """All templates by folder, and every fault that shows without drawing."""
    titles = {each.id: (each.file, each.title) for each in bank.bank.templates}
    files = {PurePosixPath(each.file).stem: each.file for each in bank.faults}
    links = []
    for name in bank.ids():
        file, title = titles.get(name, (files.get(name, name), name))
        links.append(LinkView(name, title, file, len(bank.of_template(name))))
    return IndexView(
        bank.bank.settings.title, str(bank.folder), bank.stamp(), tuple(links), tuple(fault_view(each) for each in bank.faults)
    )


def template_view(bank: WatchedBank, shown: Shown, version: int) -> TemplateView:
    """A template in one of its versions: faults first, then what proof says, then page, paper and memorandum."""
    made = shown.made
    count = len(made.variants) if made else 0
    version = min(max(version, 1), max(count, 1))
    faults = [*bank.of_bank(), *shown.faults]
    findings = made.findings if made and not shown.faults else ()
    told = {(each.code, each.line, each.key) for each in faults}
    faults += [each.fault for each in findings if each.weight == "fault" and _place(each.fault) not in told]
    printed, unset = _printed(made, version) if made else ((), ())
    return TemplateView(
        id=shown.id,
        title=made.template.title if made else shown.id,
        bank=bank.bank.settings.title,
        file=shown.file,
        stamp=bank.stamp(shown.id),
        version=version,
        versions=count,
        kept=made is not None and bool(shown.faults),
        faults=tuple(fault_view(each) for each in (*faults, *unset)),
        findings=tuple(_finding_view(each) for each in findings if each.weight != "fault"),
        draws=DRAWS,
        printed=printed,
    )


def _place(fault: Fault) -> tuple[str, int, str]:
    return fault.code, fault.line, fault.key


def _printed(made: Made, version: int) -> tuple[tuple[PrintedView, ...], tuple[Fault, ...]]:
    """Paper and memorandum of a version with the number of their pages, and why one could not be set."""
    views, faults = [], []
    for kind in KINDS:
        try:
            views.append(PrintedView(kind, len(made.pictures(kind, version))))
        except Faulty as error:
            faults += [each.at(file=made.template.file) for each in error.faults]
    return tuple(views), tuple(faults)


def fault_view(fault: Fault, weight: str = "fault", share: str = "") -> FaultView:
    """A fault in the pieces that a page sets apart."""
    place = ":".join(str(part) for part in (fault.file, fault.line) if part)
    return FaultView(weight, place, fault.key, fault.expected.rstrip("."), fault.found.rstrip("."), fault.hint, share)


def _finding_view(found: Finding) -> FaultView:
    share = f"{found.times} of {found.draws} draws, as in {found.seed}" if found.times and found.seed else ""
    return fault_view(found.fault, found.weight, share)
