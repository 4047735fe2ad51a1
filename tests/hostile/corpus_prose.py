"""Hostile prose: code in holes, markup, links, patterns that a matcher could choke on, chemistry without end."""

from __future__ import annotations

from collections.abc import Iterator

from hostile_cases import Case, keyed, prose, quoted, template

_CODE = {
    "a walk along attributes": ("{{ ''.__class__.__mro__[1].__subclasses__() }}", "prose-forbidden"),
    "a walk from a name": ("{{ left.__class__.__init__.__globals__ }}", "name"),
    "a dunder name": ("{{ __import__ }}", "name"),
    "a call": ("{{ open('../secret.yaml') }}", "prose-forbidden"),
    "a call of a method": ("{{ left.metal.upper() }}", "prose-forbidden"),
    "an index": ("{{ left['metal'] }}", "prose-forbidden"),
    "a loop": ("{% for x in range(1000000000) %}x{% endfor %}", "prose-forbidden"),
    "a macro": ("{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}", "prose-forbidden"),
    "an assignment": ("{% set x = 1 %}", "prose-forbidden"),
    "an include": ("{% include '../secret.yaml' %}", "prose-forbidden"),
    "an import": ("{% import 'os' as os %}", "prose-forbidden"),
    "an extends": ("{% extends '/etc/passwd' %}", "prose-forbidden"),
    "a block": ("{% block x %}{% endblock %}", "prose-forbidden"),
    "a filter block": ("{% filter upper %}x{% endfilter %}", "prose-forbidden"),
    "a huge power": ("{{ 9**9**9**9 }}", "prose-forbidden"),
    "a text times a billion": ("{{ 'x' * 1000000000 }}", "prose-forbidden"),
    "a division by zero": ("{{ 1 / 0 }}", "prose-forbidden"),
    "a filter of the library": ("{{ left.metal | attr('__class__') }}", "prose-filter"),
    "a filter that runs": ("{{ left.metal | map }}", "unknown-filter"),
    "a format of great width": ("{{ '%999999999d' | format(1) }}", "prose-filter"),
    "a test": ("{% if left.metal is callable %}x{% endif %}", "prose-condition"),
    "a condition that calls": ("{% if exit() == 1 %}x{% endif %}", "prose-forbidden"),
    "a number of five thousand digits behind quoted braces": ('{{ "}}" ~ ' + "1" * 5000 + " }}", "prose-syntax"),
    "the same in a condition": ('{% if n == "%}" and n == ' + "1" * 5000 + " %}a{% endif %}", "prose-syntax"),
    "a hole without end": ("{{ " + "a" * 300 + " }}", "prose-too-big"),
    "four thousand holes begun": ("{{" * 3900, "prose-too-big"),
    "four thousand branches begun": ("{%" * 3900, "prose-syntax"),
    "remarks begun": ("{#" * 3900, "prose-syntax"),
    "brackets inside each other": ("{{ " + "(" * 100 + "a" + ")" * 100 + " }}" + "{{ a }}" * 300, "prose-too-big"),
    "three hundred holes": ("{{ n }}" * 300, "prose-too-big"),
    "six hundred branches in a row": ("{%if n==1%}" + "{%elif n<2%}" * 600 + "{%endif%}", "prose-too-big"),
    "branches inside each other": ("{% if n == 1 %}" * 60 + "x" + "{% endif %}" * 60, "prose-too-big"),
    "a hole for a name that is not there": ("{{ secret }}", "unknown-name"),
    "a hole for the machine": ("{{ self.environment }}", "unknown-name"),
    "a condition of a thing that is not there": ("{% if secret == 1 %}x{% endif %}", "unknown-name"),
}
_MARKUP = {
    "a script": ("<script>alert(1)</script>", "raw-html"),
    "a script in capitals": ("<ScRiPt src=//evil.example></sCrIpT>", "raw-html"),
    "a picture with a handler": ("<img src=x onerror=alert(1)>", "raw-html"),
    "a drawing with script": ("<svg onload=alert(1)><script>alert(1)</script></svg>", "raw-html"),
    "a frame": ("<iframe srcdoc='<script>alert(1)</script>'>", "raw-html"),
    "a style": ("<style>@import url(//evil.example)</style>", "raw-html"),
    "a remark of HTML": ("<!-- --><b>x</b>", "raw-html"),
    "a processing instruction": ("<?php system('id') ?>", "raw-html"),
    "a character section": ("<![CDATA[ x ]]>", "raw-html"),
    "an end of a script": ("</script><script>alert(1)</script>", "raw-html"),
    "a tag over two lines": ("<img\nsrc=x onerror=alert(1)>", "raw-html"),
    "an automatic link": ("<https://evil.example>", "raw-html"),
    "a link with script": ("[x](javascript:alert(1))", "prose-link"),
    "a link with script in capitals": ("[x](JaVaScRiPt:alert(1))", "prose-link"),
    "a link with script after a space": ("[x]( javascript:alert(1))", "prose-link"),
    "a link with an entity in its scheme": ("[x](java&#115;cript:alert(1))", "prose-link"),
    "a link to data": ("[x](data:text/html;base64,PHNjcmlwdD4=)", "prose-link"),
    "a link to a file": ("[x](file:///etc/passwd)", "prose-link"),
    "a link by the old scripting": ("[x](vbscript:msgbox)", "prose-link"),
    "a link without encryption": ("[x](http://evil.example)", "prose-link"),
    "a link to whatever host": ("[x](//evil.example)", "prose-link"),
    "a link with a backslash": ("[x](\\\\evil.example)", "prose-link"),
    "a link out of the site": ("[x](../../secret.html)", "prose-link"),
    "a link that breaks out of its quotes": ('[x](https://a.example/"onmouseover="alert(1))', "prose-link"),
    "a link with a hole": ("[x](https://{{ left.metal }}.example)", "prose-link"),
    "a link to nothing": ("[x]()", "prose-link"),
    "an address of six bytes between brackets": ("[x](https://[::1)", "prose-link"),
    "a picture of the network": ("![x](https://evil.example/pixel.png)", "prose-block"),
    "a picture of a file": ("![x](../secret.png)", "prose-block"),
    "a heading": ("# Free marks", "prose-block"),
    "a block of code": ("    import os", "prose-block"),
    "a quotation": ("> x", "prose-block"),
    "quotations inside each other": ("> " * 290 + "x", "prose-block"),
    "a ruled line": ("x\n\n---\n", "prose-block"),
    "eight thousand letters and one": ("x" * 8001, "prose-too-big"),
    "asterisks without end": ("*" * 7000, "prose-too-big"),
    "underscores round every letter": ("_a" * 3000, "prose-too-big"),
    "brackets without end": ("[" * 7000, "prose-too-big"),
    "backticks without end": ("`a" * 3000, "prose-too-big"),
    "bars without end": ("|" * 7000, "prose-too-big"),
    "angle brackets without end": ("< " * 3000, "prose-too-big"),
    "a private-use character": ("\ue000", "yaml-character"),
    "a mark that turns the writing of a number": ("the mass is \u202e5.0\u202c g", "yaml-character"),
    "a typed potential": ("E is -0.76 V.", "typed-number"),
}
_CHEMISTRY = {
    "brackets without end in a formula": ("`" + "(" * 79 + "`", "species-unread"),
    "brackets five deep": ("`((((((Zn))))))`", "species-unread"),
    "a formula of ten thousand letters": ("`" + "Zn" * 3900 + "`", "species-too-long"),
    "a count beyond all": ("`H999999`", "species-unread"),
    "a charge beyond all": ("`Zn^999999+`", "species-unread"),
    "counts that multiply": ("`((((H999)999)999)999)9999`", "species-unread"),
    "an equation of a thousand terms": ("`" + "H + " * 1000 + "H -> H`", "equation-too-long"),
    "an equation of fifty terms": ("`" + "H + " * 50 + "H -> H`", "equation-too-long"),
    "an equation of arrows": ("`" + "->" * 150 + "`", "equation-unread"),
    "a coefficient beyond all": ("`99999H -> H`", "coefficient-unread"),
    "a diagram of bars": ("`" + "| " * 140 + "`", "diagram-unread"),
    "a diagram of three cells": ("`Zn || Cu || Ag`", "diagram-unread"),
    "a Greek letter for a Latin one": ("`Ζn^2+`", "species-unread"),
    "a Cyrillic letter for a Latin one": ("`С`", "species-unread"),
    "markup for a formula": ("`<b>Zn</b>`", "species-unread"),
    "code for a formula": ("`__import__('os')`", "species-unread"),
    "spaces for a formula": ("` `" * 20 + "` " + " " * 300 + "x`", "species-too-long"),
}
_OPTIONS = {
    "a script for an option": ("<script>alert(1)</script>", "raw-html"),
    "a link with script for an option": ("[x](javascript:alert(1))", "prose-link"),
    "code for an option": ("{{ ''.__class__ }}", "prose-forbidden"),
    "an option of nine thousand letters": ("x" * 9000, "prose-too-big"),
}


def cases() -> Iterator[Case]:
    """All cases of this file."""
    yield from prose(_CODE | _MARKUP | _CHEMISTRY)
    for name, (text, code) in _OPTIONS.items():
        part = f"[{{ask: Which one, choose: anode.metal, from: [left.metal, right.metal, {quoted(text)}]}}]"
        yield Case(name, {"lamp.yaml": template(parts=part)}, code)
    asked = {
        "a script in what is asked": ("<script>", "raw-html"),
        "a loop in what is asked": ("{% for a in b %}{% endfor %}", "prose-forbidden"),
    }
    yield from keyed("parts", {name: (f"[{{ask: {quoted(text)}, find: E0_cell}}]", code) for name, (text, code) in asked.items()})
    yield from keyed(
        "parts", {"a script in a hint": (f"[{{ask: x, hint: {quoted('<script>x</script>')}, find: E0_cell}}]", "raw-html")}
    )
