"""What a template's figure adds to a drawn situation: words drawn for it, and letters at its places, with what can be asked of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from string import ascii_uppercase

from saltbridge.bank.figure_key import FigureUse
from saltbridge.bank.template import Template
from saltbridge.document import Inscription, Piece
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.log import Reason
from saltbridge.draw.name_advice import listing_command
from saltbridge.draw.seeds import Seed
from saltbridge.faults import Fault
from saltbridge.graph.laws import Given, Rule, Situation
from saltbridge.scenarios.figures.figure_entries import figures, fitting
from saltbridge.scenarios.figures.figure_records import DRAWN, FigureEntry, LetterPlace

LETTER = "L"
"""Stands for each letter in the names of what can be asked."""
FIGURE = "figure"
"""The owner of words that a figure draws: ``figure.plus``."""


def add_figure(use: FigureUse, situation: Situation, seed: Seed) -> None:
    """Add what the figure draws. Letters go to places by the seed, so that none stands always at the same one."""
    entry = use.entry
    if entry is None:
        return
    for key, word in _drawn_words(use, entry, seed):
        _tell(situation, f"{FIGURE}.{key}", word)
    for letter, place in letters_at(use, seed).items():
        owner = LetterPlace.owner(place)
        situation.labels[f"{owner}.letter"] = _inscribed(letter)
        for name, word in entry.letters[place].what.items():
            _tell(situation, f"{letter}.{name}", word)
        for asked in entry.asked:
            inputs = tuple(_of_letter(name, letter) for name in asked.of)
            situation.laws.append(Rule(f"{letter}.{asked.node}", asked.rule, inputs, keys=asked.keys))
    situation.laws += [Rule(each.node, each.rule, each.of, keys=each.keys) for each in entry.follows]
    for place in use.arrows:
        pair = entry.arrows[place]
        for name, letter in zip(pair.names, seed.shuffle(f"arrows {place}", pair.letters), strict=True):
            situation.labels[name] = _inscribed(letter)


def letters_at(use: FigureUse, seed: Seed) -> Mapping[str, str]:
    """The place of each letter, A first."""
    return dict(zip(ascii_uppercase, seed.shuffle("letters", use.letters), strict=False))


def _drawn_words(use: FigureUse, entry: FigureEntry, seed: Seed) -> Iterator[tuple[str, str]]:
    """The words of keys that are drawn where the template does not say."""
    for key, known in entry.keys.items():
        if known.usual == DRAWN:
            told = use.words.get(key, DRAWN)
            yield key, seed.pick(f"figure {key}", tuple(known.words)) if told == DRAWN else told


def _of_letter(name: str, letter: str) -> str:
    owner, point, rest = name.partition(".")
    return f"{letter}{point}{rest}" if owner == LETTER else name


def _tell(situation: Situation, name: str, word: str) -> None:
    situation.given[name] = Given(word, "", word)


def _inscribed(letter: str) -> Inscription:
    return Inscription("symbol", (Piece("base", letter),), letter)


# ------------------------------------------------------------------ what stands in it


def flags_of(use: FigureUse, drawn: Drawn) -> frozenset[str]:
    """What is drawn in this variant: the words of its keys, and its flags that hold."""
    entry = use.entry
    if entry is None:
        return frozenset()
    words = {use.words.get(key, known.usual) for key, known in entry.keys.items() if known.usual != DRAWN}
    drawn_words = {drawn.situation.given[f"{FIGURE}.{key}"].printed for key, known in entry.keys.items() if known.usual == DRAWN}
    held = {flag for flag, condition in entry.flags.items() if condition.holds(drawn.lookup)}
    return frozenset(words | drawn_words | held)


def shows(situation: Situation, name: str) -> bool:
    """Whether a figure may show a name: what is told, never what is worked out."""
    return name in situation.labels or name in situation.words or _told(situation, name)


def _told(situation: Situation, name: str) -> bool:
    return name in situation.given or any(node.startswith(f"{name}:") for node in situation.given)


def names_in_figure(use: FigureUse, drawn: Drawn) -> frozenset[str]:
    """The names that a student reads in the figure."""
    entry = use.entry
    return entry.shown_names(partial(shows, drawn.situation)) if entry is not None else frozenset()


def empty_figure(template: Template, drawn: Drawn) -> Iterator[Fault]:
    """A figure for which the scenario has nothing to show."""
    use = template.figure
    entry = use.entry
    if entry is None:
        return
    has = partial(shows, drawn.situation)
    lacking = entry.lacks(has, flags_of(use, drawn), drawn.lookup)
    if lacking:
        others = [name for name in fitting(template.scenario.kind) if not figures()[name].lacks(has)]
        hint = f"Write {_or([*others, 'none'])}, or another scenario. {listing_command(template.scenario.kind, drawn.catalogue)}"
        expected = f"{', '.join(entry.needs or lacking)} told in the scenario, to stand in the figure `{use.name}`"
        yield template.fault("figure", "figure", expected=expected, found="none in this scenario", hint=hint)


def unclear_figure(template: Template, drawn: Drawn) -> Iterator[Reason]:
    """Why the figure would not show in this draw what it is there to show."""
    entry = template.figure.entry
    if entry is not None and entry.kept is not None and not entry.kept.holds(drawn.lookup):
        yield Reason(f"the figure {entry.name} needs {entry.kept.source}", "figure", template.lines.get("figure", 0))


def _or(names: Sequence[str]) -> str:
    return " or ".join(f"`figure: {name}`" for name in names)
