"""From a template's scenario and a source to a scene."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.declared import declared_scene
from saltbridge.scenarios.declared_models import Declared
from saltbridge.scenarios.scenario import Scenario
from saltbridge.scenarios.scene import Means, Scene, Source


def draw_scene(scenario: Scenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Draw what stands under a scenario's kind. Raises ``Faulty`` where the draw can't be built (a couple not on the sheet)."""
    if isinstance(scenario.body, Declared):
        return declared_scene(scenario.body, source, means, catalogue)
    return CODED[scenario.kind].draw(scenario.body, source, means, catalogue)
