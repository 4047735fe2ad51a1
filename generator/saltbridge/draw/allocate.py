"""Who gets which draw: practice variants by number, a class in the order of its list, no two students the same.

A seed names a draw; what it draws may coincide with another's, so seeds are walked in order and a draw whose content was
given already is passed over.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence

from saltbridge.faults import fault


def practice_seed(variant: int) -> str:
    """Give the seed of practice variant 1, 2, 3…."""
    return f"practice {variant}"


def class_seed(secret: str, place: int) -> str:
    """Give the seed of the ``place``-th draw for a class; ``secret`` keeps a class's draws from being guessed."""
    return f"{secret} {place}"


def allocate(
    students: Sequence[str], seeds: Iterable[str], content: Callable[[str], Hashable | None], given: Iterable[Hashable] = ()
) -> dict[str, str]:
    """Give each student, in the order of the list, the next seed whose content nobody has.

    ``content`` tells what a seed draws (None: rejected); ``given`` are contents already given, such as those of an earlier
    attempt. ``seeds`` is finite: its length bounds the work. Raises ``Faulty`` (``too-few-variants``) where seeds run out.
    """
    if repeated := next((name for name in students if students.count(name) > 1), None):
        raise fault(
            "student-twice", expected="each student once", found=f"`{repeated}` twice", hint="Tell them apart in the list."
        )
    taken = set(given)
    waiting = iter(students)
    shares: dict[str, str] = {}
    student = next(waiting, None)
    for seed in seeds:
        if student is None:
            break
        drawn = content(seed)
        if drawn is None or drawn in taken:
            continue
        taken.add(drawn)
        shares[student] = seed
        student = next(waiting, None)
    if student is not None:
        raise fault(
            "too-few-variants",
            expected=f"{len(students)} different variants, one for each student",
            found=f"{len(shares)}",
            hint="Let the scenario draw from more values, or loosen `keep only if`.",
        )
    return shares
