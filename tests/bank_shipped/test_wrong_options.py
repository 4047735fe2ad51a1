"""A word for each wrong option: the error that it shows, else the question of the step that decides."""

from __future__ import annotations

from snapshot.taking import banks

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed

VARIANTS = 6
WITHOUT = {"concentration-cell (c)", "equilibrium-constant (c)"}
"""Parts whose options are the author's own words: nothing of the graph decides between them."""
OWN = 0.55
"""Share of wrong options that a common error of their own explains; it may only grow."""


def _wrong_options():
    """Bank and part, and of each wrong option of a variant how it is explained: error, question or nothing."""
    for bank in banks().values():
        for template in bank.templates:
            composer = Composer(template, bank, catalogue(bank.folder))
            for number in range(1, VARIANTS + 1):
                variant = composer.variant(number, practice_seed(number))
                for place, part in enumerate(composer.question(variant).parts):
                    key = {**part.judge, **variant.judge[place]}
                    if key["kind"] == "choice":
                        for option in set(range(len(part.field.options))) - set(key["right"]):
                            how = "error" if str(option) in key["slips"] else "question" if key.get("otherwise") else "nothing"
                            yield f"{template.id} ({part.label})", how


def test_each_wrong_option_of_a_choice_has_a_word():
    found = list(_wrong_options())
    silent = {part for part, how in found if how == "nothing"}
    own = sum(how == "error" for _, how in found) / len(found)
    asked = sorted({part for part, how in found if how == "question"})
    print(f"{len(found)} wrong options, {own:.0%} with an error of their own; only a question: {', '.join(asked)}")
    assert silent <= WITHOUT, sorted(silent)
    assert own >= OWN
