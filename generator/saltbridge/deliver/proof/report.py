"""From a proof to the moderator's page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from saltbridge import __version__
from saltbridge.catalogue.catalogue_records import title
from saltbridge.deliver.ordinary_files import head_of, replace_file
from saltbridge.deliver.proof.distinct import Distinct
from saltbridge.deliver.proof.findings import WEIGHTS, Finding
from saltbridge.deliver.proof.proof_run import Proof, TemplateProof, coverage, demands, marks_of
from saltbridge.document import Figure
from saltbridge.faults import fault
from saltbridge.forms.registries import LEVELS, outcomes
from saltbridge.render.proof_page import FindingView, OutcomeView, ProofView, SampleView, TemplateView, proof_page
from saltbridge.words import Words
from saltbridge.words import of_bank as words_of

_OURS = b'content="saltbridge proof"'


def write_report(path: Path, proof: Proof) -> None:
    """Write the page. Raises ``Faulty`` (``file-not-ours``, ``not-a-file``) where another file, a link or a device stands there."""
    head = head_of(path)
    if head is not None and _OURS not in head:
        hint = "Name a new file with --to."
        raise fault("file-not-ours", expected="a new file, or a report that saltbridge wrote", found=str(path), hint=hint)
    path.parent.mkdir(parents=True, exist_ok=True)
    replace_file(path, report_html(proof))


def report_html(proof: Proof) -> str:
    """The page as text."""
    words = words_of(proof.bank.settings)
    return proof_page(_view(proof, words), words)


def _view(proof: Proof, words: Words) -> ProofView:
    bank = proof.bank
    titles = {each.template.id: each.template.title for each in proof.templates}
    return ProofView(
        title=bank.settings.title,
        language=bank.settings.language,
        provenance=f"saltbridge {__version__} · {bank.id} · {bank.sheet.title}",
        facts=tuple(_facts(proof, words)),
        counts={weight: len(proof.weighing(weight)) for weight in WEIGHTS},
        findings=tuple(_finding(each, words, titles) for each in proof.findings),
        levels=LEVELS,
        demands=(*(words(DEMANDS[each]) for each in DEMANDS), words("not said")),
        outcomes=tuple(_outcomes(proof, words)),
        templates=tuple(_template(each, words) for each in proof.templates),
        figures=tuple(_figures(proof)),
    )


def _facts(proof: Proof, words: Words) -> Iterator[tuple[str, str]]:
    settings = proof.bank.settings
    yield words("Templates"), str(len(proof.templates))
    yield words("Variants drawn and checked"), str(proof.variants)
    yield words("Data sheet"), proof.bank.sheet.title
    yield words("Marking policy"), settings.policy
    yield words("Signed"), words("{signed} of {count}", signed=_signed(proof), count=len(proof.templates))


def _signed(proof: Proof) -> int:
    return sum(each.standing.state == "signed" for each in proof.templates)


def _figures(proof: Proof) -> Iterator[Figure]:
    for each in proof.templates:
        for sample in each.tally.samples:
            yield from sample.figures


# ------------------------------------------------------------------ findings


def _finding(each: Finding, words: Words, titles: Mapping[str, str] | None = None) -> FindingView:
    """One finding; with ``titles`` it leads to its template."""
    fault_ = each.fault
    place = ":".join(str(part) for part in (fault_.file, fault_.line) if part)
    share = words("{times} of {draws} draws", times=each.times, draws=each.draws) if each.times else ""
    title = (titles or {}).get(each.template, "")
    anchor = f"template-{each.template}" if title else ""
    return FindingView(
        each.weight, place, fault_.key, fault_.expected.rstrip("."), fault_.found.rstrip("."), fault_.hint, fault_.code,
        share, each.seed, anchor, title,
    )  # fmt: skip


# ------------------------------------------------------------------ templates


def _template(proved: TemplateProof, words: Words) -> TemplateView:
    template, tally = proved.template, proved.tally
    signature = proved.standing.signature
    rejected = [(reason.what, str(times)) for reason, times in tally.log.lines()]
    return TemplateView(
        id=template.id,
        title=template.title,
        file=template.file,
        outcome=f"{template.outcome} {words(outcomes()[template.outcome].can)}",
        level=template.level,
        weight=proved.weight or "",
        tally=_tally(proved, words),
        marks=marks_of(proved),
        state=proved.standing.state,
        signed=f"{signature.by}, {signature.on}" if signature else "",
        facts=tuple(_template_facts(proved, words)),
        slips=tuple(
            (title(slip), _share(tally.caught[slip], tally.draws), slip in template.must_reveal) for slip in _by_share(proved)
        ),
        rejected=rejected,
        findings=tuple(_finding(each, words) for each in proved.findings),
        samples=tuple(SampleView(each.seed, each.html) for each in tally.samples),
    )


def _tally(proved: TemplateProof, words: Words) -> str:
    texts = {"fault": words("faults: {count}"), "warning": words("warnings: {count}"), "note": words("notes: {count}")}
    counts = [(weight, sum(each.weight == weight for each in proved.findings)) for weight in WEIGHTS]
    return ", ".join(texts[weight].replace("{count}", str(number)) for weight, number in counts if number)


def _template_facts(proved: TemplateProof, words: Words) -> Iterator[tuple[str, str]]:
    tally, known = proved.tally, proved.distinct
    yield words("Use"), ", ".join(words(USES[use]) for use in proved.template.use)
    yield words("Marks"), ", ".join(str(marks) for marks in sorted(tally.marks)) or "–"
    yield words("Minutes"), str(tally.minutes or "–")
    yield words("Draws kept"), words("{signed} of {count}", signed=tally.log.kept, count=tally.log.draws)
    yield words("Different variants"), _estimate(known, words)
    yield words("Different answers"), _estimate(proved.keys, words)
    if tally.readings:
        hardest = max(tally.readings, key=lambda each: each.lix)
        yield words("Words"), str(hardest.words)
        yield words("Reading level (LIX)"), f"{hardest.lix:.0f}"


def _estimate(known: Distinct, words: Words) -> str:
    if not known.draws:
        return "–"
    return words("at least {count}", count=known.estimate) if known.open_ended else words("about {count}", count=known.estimate)


DEMANDS = {"recall": "Recall", "routine": "Routine", "apply": "Apply", "judge": "Judge"}
USES = {"practice": "practice", "homework": "homework", "exam": "exam"}


def _by_share(proved: TemplateProof) -> list[str]:
    caught = proved.tally.caught
    return sorted(proved.tally.possible, key=lambda slip: (-caught[slip], slip))


def _share(times: int, draws: int) -> str:
    return f"{round(100 * times / draws)} %" if draws else "–"


# ------------------------------------------------------------------ outcomes


def _outcomes(proof: Proof, words: Words) -> Iterator[OutcomeView]:
    grid, asked = coverage(proof.templates), demands(proof.templates)
    for outcome in dict.fromkeys(key[0] for key in grid):
        cells = tuple(grid.get((outcome, level), (0, 0)) for level in LEVELS)
        demanded = tuple(asked.get((outcome, demand), (0, 0)) for demand in (*DEMANDS, ""))
        yield OutcomeView(outcome, words(outcomes()[outcome].can), cells, demanded, tuple(_slips(proof, outcome)))


def _slips(proof: Proof, outcome: str) -> Iterator[tuple[str, str]]:
    """The common errors of an outcome's templates, by title, with the share of all their variants, the best told first."""
    mine = [each.tally for each in proof.templates if each.template.outcome == outcome]
    draws = {slip: sum(tally.draws for tally in mine if slip in tally.possible) for tally in mine for slip in tally.possible}
    caught = {slip: sum(tally.caught[slip] for tally in mine) for slip in draws}
    for slip in sorted(draws, key=lambda each: (-caught[each] / max(1, draws[each]), each)):
        yield title(slip), _share(caught[slip], draws[slip])
