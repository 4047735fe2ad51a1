"""What a wrong option shows, as a student and a teacher read it: a question to the student, the belief itself to the teacher."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from saltbridge.bank.beliefs import is_id, name_of
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.document import CommonError, Text
from saltbridge.words import Words


def hint_of(shows: str, catalogue: Catalogue, words: Words) -> str:
    """What a student is told: the hint of an idea or common error, or the words of the template."""
    if not is_id(shows):
        return shows
    found = catalogue.ideas.get(shows) or catalogue.slips.get(shows)
    return words(words.of_owner(found.hint)) if found else ""


def belief_of(shows: str, catalogue: Catalogue, words: Words) -> str:
    """What a teacher reads: the statement of an idea, else what the student is told."""
    idea = catalogue.ideas.get(shows)
    return words(words.of_owner(idea.statement)) if idea else hint_of(shows, catalogue, words)


def hints_of(shown: Iterable[str], catalogue: Catalogue, words: Words) -> dict[str, str]:
    """The hints of a key by the ids of its beliefs."""
    return {name_of(shows): hint_of(shows, catalogue, words) for shows in shown}


def told_errors(shown: Iterable[str], catalogue: Catalogue, words: Words) -> tuple[CommonError, ...]:
    """The beliefs as a memorandum tells them; a wrong option leaves no marks."""
    return tuple(CommonError(name_of(shows), (Text(belief_of(shows, catalogue, words)),), 0) for shows in dict.fromkeys(shown))


def slips_by_option(shows: Mapping[int, str]) -> dict[str, list[str]]:
    """The ids of a variant's beliefs by the number of their option."""
    return {str(place): [name_of(belief)] for place, belief in shows.items()}
