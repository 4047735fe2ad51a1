"""The schemas for editors: in step with the models, valid draft-07, and of one mind with the loader."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import pytest
import yaml
from bank_samples import BANK, GALVANIC
from jsonschema import Draft7Validator

from saltbridge.bank.schema import MODELS, schema_of, text_of, write_schemas
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.home import shipped
from saltbridge.scenarios.kinds.offered import kinds
from saltbridge.scenarios.kinds.offered import offered as offered_by

EXAMPLES = Path(__file__).parent / "examples"


def errors(name, text):
    """The paths of what a JSON Schema validator finds wrong in a YAML text, read as an editor reads it."""
    return [[*error.absolute_path] for error in Draft7Validator(whole(name)).iter_errors(yaml.safe_load(text))]


@cache
def whole(name):
    """The schema as its file holds it, with the names of each kind of scenario."""
    return json.loads(text_of(MODELS[name]))


@pytest.mark.parametrize("name", MODELS)
def test_shipped_schemas_are_in_step_with_the_models(name):
    """Run ``python -m saltbridge.bank.schema`` after a change of the models."""
    assert (shipped("data") / name).read_text(encoding="utf-8") == text_of(MODELS[name])


@pytest.mark.parametrize("name", MODELS)
def test_schemas_are_draft_07(name):
    """Nothing of a later draft is left, and no key takes null, which YAML texts never are."""
    Draft7Validator.check_schema(schema_of(MODELS[name]))
    text = text_of(MODELS[name])
    assert not any(word in text for word in ("$defs", "prefixItems", "discriminator", '"null"', "unevaluated"))


def test_the_examples_are_valid():
    found = sorted(path for path in EXAMPLES.rglob("*.yaml") if path.name != "bank.yaml")

    assert len(found) == 4
    assert [errors("template.schema.json", path.read_text(encoding="utf-8")) for path in found] == [[]] * 4
    assert errors("bank.schema.json", (EXAMPLES / "bank.yaml").read_text(encoding="utf-8")) == []
    assert errors("template.schema.json", GALVANIC) == []
    assert errors("bank.schema.json", BANK) == []


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ("level: core", "level: hard", ["level"]),
        ("level: core", "levl: core", []),
        ("[Zn, Cu, Ag]", "[Zn, Qq]", ["scenario", "galvanic cell", "metals", 1]),
        ("decimals: 2", "decimals: two", ["parts", 1]),
        ("decimals: 2", "decimls: 2", ["parts", 1]),
        ("find: E0_cell\n    decimals: 2", "balance: charging equation", ["parts", 1, "balance"]),
    ],
)
def test_an_editor_marks_the_place(old, new, path):
    """What the loader refuses, an editor underlines."""
    assert path in errors("template.schema.json", GALVANIC.replace(old, new))


def test_what_a_kind_needs_may_come_from_rows():
    """Only where a table fills the scenario is a key that it needs not missed."""
    bare = GALVANIC.replace("galvanic cell:\n    metals: [Zn, Cu, Ag]", "electrolysis: {current: 0.50 A, time: 20 min}")
    assert ["scenario", "electrolysis"] in errors("template.schema.json", bare)
    assert errors("template.schema.json", f"rows: rows/metals.csv\n{bare}") == []


def offered(template, key):
    """What an editor offers at a key of a part: by the conditions that hold of a template, each name with what it is."""
    conditions = [each for each in whole("template.schema.json")["allOf"] if "then" in each]
    holding = [each["then"] for each in conditions if Draft7Validator(each["if"]).is_valid(template)]
    described = [each["properties"]["parts"]["items"]["properties"].get(key, {}) for each in holding]
    plain = {name: "" for each in described for way in (each, *each.get("anyOf", ())) for name in way.get("enum", ())}
    return plain | {way["const"]: way["description"] for each in described for way in each.get("anyOf", ()) if "const" in way}


@pytest.mark.parametrize("kind", kinds(catalogue()))
def test_an_editor_offers_the_names_of_the_kind_and_says_what_each_is(kind):
    """All that ``saltbridge names`` lists, for this kind alone."""
    template, names = {"scenario": {kind: {}}}, offered_by(kind, catalogue())

    assert offered(template, "find").keys() == {each.name for each in names.found}
    assert offered(template, "choose").keys() == {each.name for each in names.chosen}
    assert offered(template, "order").keys() == {each.list for each in names.ordered} - {""}
    assert offered(template, "by").keys() == {name for each in names.ordered for name in each.by}
    assert offered(template, "balance").keys() == {each.name for each in names.balanced}
    assert all(offered(template, "find").values())
    for choice in names.chosen:
        if not choice.open:
            assert offered(template, "choose")[choice.name].endswith(" · ".join(each.word for each in choice.words))


def test_a_name_is_explained_with_a_drawn_example():
    template = {"scenario": {"galvanic cell": {}}}

    assert offered(template, "find")["E0_cell"].startswith("standard cell potential, such as 0.")
    assert (
        offered(template, "choose")["drift_reason"]
        == "why the ions drift: both solutions stay neutral · the signs of the electrodes"
    )
    assert offered({"scenario": {}}, "find") == {}


def test_the_schema_stays_small_enough_for_an_editor():
    """A language server reads it at every change of a file."""
    assert len(text_of(MODELS["template.schema.json"])) < 400_000


def test_every_key_says_what_it_means():
    """A key without a description would leave the editor's hover empty."""
    for model in MODELS.values():
        schema = schema_of(model)
        for each in [schema, *schema.get("definitions", {}).values()]:
            for key, described in each.get("properties", {}).items():
                assert described.get("description"), key


def test_modelines_lead_to_the_schemas():
    """The first line of an example names the schema by a path that exists from the file's own folder."""
    for path in (EXAMPLES / "bank.yaml", EXAMPLES / "cells" / "lamp-cell.yaml"):
        lead, _, target = path.read_text(encoding="utf-8").splitlines()[0].partition("=")
        assert lead == "# yaml-language-server: $schema"
        assert (path.parent / target).resolve().parent == shipped("data")


def test_schemas_are_written_as_they_are(tmp_path):
    write_schemas(tmp_path)

    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "bank.schema.json",
        "plan.schema.json",
        "practical.schema.json",
        "template.schema.json",
    ]
    assert json.loads((tmp_path / "bank.schema.json").read_text(encoding="utf-8"))["title"] == "BankKeys"
