"""JSON Schemas of template files, of ``bank.yaml`` and of plans for editors, made from the models; draft-07, which older editors read.

``python -m saltbridge.bank.schema`` writes them as ``data/template.schema.json``, ``bank.schema.json`` and ``plan.schema.json``. An editor with a
YAML language server completes keys and shows their meaning once the file's first line names its schema, with the path
from the file's own folder. For a template of this repository in a topic folder::

    # yaml-language-server: $schema=../../data/template.schema.json
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from saltbridge.bank.bank import own_scenarios
from saltbridge.bank.editor_names import conditions
from saltbridge.bank.plan import PlanKeys
from saltbridge.bank.practical import PracticalKeys
from saltbridge.bank.settings import BankKeys
from saltbridge.bank.template import TemplateKeys
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.home import shipped
from saltbridge.scenarios.scenario import kinds_of

if TYPE_CHECKING:
    from pathlib import Path

    from saltbridge.forms.fields import Keys

MODELS: dict[str, type[Keys]] = {
    "template.schema.json": TemplateKeys,
    "bank.schema.json": BankKeys,
    "plan.schema.json": PlanKeys,
    "practical.schema.json": PracticalKeys,
}


def schema_of(model: type[Keys]) -> dict[str, Any]:
    """Give the draft-07 schema of a model."""
    schema = _draft7(model.model_json_schema(by_alias=True, mode="validation"))
    return {"$schema": "http://json-schema.org/draft-07/schema#", **schema}


def template_schema() -> dict[str, Any]:
    """Give the schema of templates, with the names that each kind of scenario offers their parts."""
    schema = schema_of(TemplateKeys) | {"allOf": conditions(catalogue())}
    return _with_rows(schema)


def bank_schema(folder: Path) -> dict[str, Any]:
    """Give the schema of a bank's templates, with its own kinds of scenario and names beside ours. Raises ``Faulty`` as its files do."""
    schema = schema_of(TemplateKeys) | {"allOf": conditions(catalogue(folder))}
    kinds = _draft7(kinds_of((*catalogue().scenarios.values(), *own_scenarios(folder))).model_json_schema(by_alias=True))
    schema["definitions"] |= kinds.pop("definitions")
    schema["definitions"]["Scenario"] = kinds
    return _with_rows(schema)


def _with_rows(schema: dict[str, Any]) -> dict[str, Any]:
    """Let the keys that a kind of scenario needs come from the rows of a table too: they are asked for only where there are no rows."""
    needed = {}
    for kind, told in schema["definitions"]["Scenario"]["properties"].items():
        (way,) = (each["$ref"] for each in told["allOf"])
        if keys := schema["definitions"][way.rpartition("/")[2]].pop("required", None):
            needed[kind] = {"required": keys}
    without = {"if": {"required": ["rows"]}, "else": {"properties": {"scenario": {"properties": needed}}}}
    return schema | {"allOf": [without, *schema["allOf"]]}


def _draft7(node: Any) -> Any:
    """Turn a 2020-12 schema into draft-07: old names, no null (YAML texts are never null), nothing beside a ``$ref``."""
    if isinstance(node, list):
        return [_draft7(each) for each in node]
    if not isinstance(node, dict):
        return node
    turned = {("definitions" if key == "$defs" else key): _draft7(each) for key, each in node.items() if key != "discriminator"}
    if turned.get("default", "") is None:
        del turned["default"]
    if isinstance(turned.get("anyOf"), list):
        turned["anyOf"] = [each for each in turned["anyOf"] if each != {"type": "null"}]
        if len(turned["anyOf"]) == 1:
            turned |= turned.pop("anyOf")[0]
    if "$ref" in turned:
        target = turned.pop("$ref").replace("#/$defs/", "#/definitions/")
        return {"allOf": [{"$ref": target}], **turned} if turned else {"$ref": target}
    return turned


def text_of(model: type[Keys]) -> str:
    """Give the schema as the text of its file."""
    schema = template_schema() if model is TemplateKeys else schema_of(model)
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def write_schemas(folder: Path) -> None:
    """Write all schemas into a folder."""
    for name, model in MODELS.items():
        (folder / name).write_text(text_of(model), encoding="utf-8")


if __name__ == "__main__":
    write_schemas(shipped("data"))
