"""From a template's scenario and a source to a scene."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.declared import declared_scene
from saltbridge.scenarios.declared_models import Declared
from saltbridge.scenarios.scenario import NO_SCENARIO, Scenario
from saltbridge.scenarios.scene import Means, Scene, Source
from saltbridge.tables.benches import cautions, safety


def draw_scene(scenario: Scenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Draw what stands under a scenario's kind. Raises ``Faulty`` where the draw can't be built (a couple not on the sheet)."""
    if scenario is NO_SCENARIO:
        return Scene(_with_cautions(), Facts())
    if isinstance(scenario.body, Declared):
        return declared_scene(scenario.body, source, means, catalogue)
    return CODED[scenario.kind].draw(scenario.body, source, means, catalogue)


def _with_cautions() -> Situation:
    """A situation that knows nothing but the lines of safety that are for every bench."""
    lines = {f"safety.{name}": each.line for name, each in safety().items() if not each.about}
    return Situation(words={**lines, "caution": cautions()["bench"].line})
