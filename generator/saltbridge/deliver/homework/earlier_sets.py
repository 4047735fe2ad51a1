"""What earlier sets of a folder have given out, read from their records."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saltbridge.bank.plan import Plan
from saltbridge.deliver.homework.asked_questions import AskedQuestion
from saltbridge.deliver.homework.pools import EARLIER
from saltbridge.deliver.homework.record import Draw, read_record
from saltbridge.faults import FaultList, Faulty

MOST_RECORDS = 500


@dataclass(frozen=True, slots=True)
class EarlierSets:
    """The draws of earlier sets."""

    draws: tuple[Draw, ...] = ()
    by: str = "numbers"

    def barred(self) -> dict[str, str]:
        """The keys or the situations that are not to come again."""
        return {each.situation if self.by == "situation" else each.key: EARLIER for each in self.draws}

    def refuse_templates(self, plan: Plan, asked: Sequence[AskedQuestion]) -> None:
        """Raise ``Faulty`` where templates may not come again and do."""
        if self.by != "template":
            return
        used, faults = {each.template for each in self.draws}, FaultList()
        for place, each in enumerate(asked, 1):
            if again := [one.id for one in each.templates if one.id in used]:
                hint = "Take another template, or avoid by `numbers`."
                found = ", ".join(f"`{one}`" for one in again)
                key = f"questions[{place}]"
                faults.faults.append(
                    plan.fault(key, "set-before", expected="a template of no earlier set", found=found, hint=hint)
                )
        faults.stop_if_any()


def earlier_sets(plan: Plan, own_secret: str) -> EarlierSets:
    """The earlier sets that a plan avoids; the set's own record is not one of them. Raises ``Faulty``."""
    avoid = plan.keys.avoid
    if avoid is None:
        return EarlierSets()
    folder = plan.folder / avoid.folder
    if not folder.is_dir():
        found = f"no folder `{avoid.folder}` beside the plan"
        raise Faulty([plan.fault("avoid", "no-folder", expected="the folder of earlier records", found=found)])
    paths = sorted(path for path in (*folder.glob("*.zip"), *folder.glob("*/*.zip")) if path.is_file())
    if len(paths) > MOST_RECORDS:
        raise Faulty([plan.fault("avoid", "too-many", expected=f"at most {MOST_RECORDS} records", found=f"{len(paths)}")])
    draws: list[Draw] = []
    for path in paths:
        record = read_record(path)
        if record.secret != own_secret:
            draws += [draw for entry in record.entries for draw in entry.draws]
    return EarlierSets(tuple(draws), avoid.by)
