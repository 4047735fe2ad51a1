"""A question with every kind of block, field and part, made by hand, with three variants of one shape."""

from __future__ import annotations

from typing import Any

from saltbridge.document import (
    Call,
    Caution,
    ChoiceField,
    Emphasis,
    EquationField,
    Fenced,
    Figure,
    FigureSlot,
    Fraction,
    Grid,
    Inscription,
    Items,
    LineBreak,
    Link,
    MathLine,
    Maths,
    NumberField,
    OrderField,
    Paragraph,
    Part,
    Piece,
    Question,
    Root,
    Row,
    Sign,
    Slot,
    Step,
    Strong,
    Symbol,
    Text,
    Variant,
)
from saltbridge.render.part_markup import variant_texts
from saltbridge.render.skeleton import Skeleton, join


def base(text: str, role: Any = "number", spoken: str = "") -> Inscription:
    return Inscription(role, (Piece("base", text),), spoken or text)


def ion(symbol: str, charge: str, phase: str = "") -> Inscription:
    tail = (Piece("base", phase),) if phase else ()
    return Inscription("species", (Piece("base", symbol), Piece("sup", charge), *tail), f"{symbol} {charge} ion")


E_CELL = Symbol("E", "standard cell potential", "°", "cell")
E_CATHODE = Symbol("E", "standard potential of the cathode", "°", "cathode")
E_ANODE = Symbol("E", "standard potential of the anode", "°", "anode")
VOLT = base("V", "unit", "volts")
MINUS = Sign("−", "minus")
SULFATE = Inscription("species", (Piece("base", "SO"), Piece("sub", "4"), Piece("sup", "2−")), "sulfate ion")
POWER_OF_TEN = Inscription("number", (Piece("base", "1.5 × 10"), Piece("sup", "−3")), "1.5 times 10 to the minus 3")
THIN = "\u202f"


def quantity(slot: int) -> Row:
    return Row((Slot(slot), base(f"{THIN}V", "unit", "volts")))


SHARE_A = {"kind": "choice", "node": "anode", "values": ["left", "right"], "hints": {"other": "Compare the two potentials."}}
SHARE_C = {
    "kind": "number",
    "node": "E0_cell",
    "unit": "V",
    "figures": None,
    "decimals": 2,
    "wanted": "to 0.01 V",
    "scale": "linear",
    "signed": True,
    "routes": [{"put": {}, "round": None}],
    "earlier": [["a", "anode"]],
    "slips": [
        {
            "id": "added",
            "hint": "Both potentials were added as printed. The anode's is taken away.",
            "twins": [],
            "put": {"E0_cell": ["+", "E0_cathode", "E0_anode"]},
        }
    ],
}
GRAPH = (
    {"node": "cathode", "tree": ["pick", "anode", {"left": ["text", "right"], "right": ["text", "left"]}]},
    {"node": "E0_cathode", "tree": ["pick", "cathode", {"left": "left.E0", "right": "right.E0"}]},
    {"node": "E0_anode", "tree": ["pick", "anode", {"left": "left.E0", "right": "right.E0"}]},
    {"node": "E0_cell", "tree": ["-", "E0_cathode", "E0_anode"]},
)
SHARE_D = {"kind": "order", "slips": {}}
SHARE_E = {"kind": "equation", "states": False, "slips": {}}


def lead() -> tuple[Any, ...]:
    diagram = Inscription(
        "diagram",
        (
            Piece("base", "Zn(s)\u00a0| Zn"),
            Piece("sup", "2+"),
            Piece("base", "(aq)\u00a0¦¦ Cu"),
            Piece("sup", "2+"),
            Piece("base", "(aq)\u00a0| Cu(s)"),
        ),
        "zinc solid, phase boundary, zinc two plus, liquid junction, copper two plus, phase boundary, copper solid",
    )
    return (
        Paragraph(
            (
                Text("A harbour lamp runs from a cell: a "),
                Slot(0),
                Text(" strip in a solution of "),
                Slot(1),
                Text(" is joined to a "),
                Slot(2),
                Text(" strip in a solution of "),
                Slot(3),
                Text(". Both solutions are 1.0\u202fmol/dm"),
                Inscription("unit", (Piece("sup", "3"),), "cubed"),
                Text(" and at 25\u202f°C. A bridge of potassium nitrate joins them."),
            )
        ),
        FigureSlot(0),
        Paragraph((Text("Such a cell is written, for instance, "), diagram, Text("."))),
        Caution((Paragraph((Text("Wear eye protection and follow the rules of your own laboratory."),)),)),
    )


def part_choice() -> Part:
    return Part(
        "a",
        1,
        (Paragraph((Text("Which electrode is the "), Emphasis((Text("anode"),)), Text("?"))),),
        ChoiceField(((Slot(0), Text(", on the left")), (Slot(2), Text(", on the right"))), "Choose the anode"),
        ((Text("At the anode something is oxidised: it is the couple with the lower potential."),),),
        (
            Step(
                (
                    Text("The couple with the lower potential is oxidised: "),
                    Slot(4),
                    Text("\u202fV is below "),
                    Slot(5),
                    Text("\u202fV."),
                ),
                ((Text("The anode is the "), Strong((Slot(0),)), Text(" electrode.")),),
                {0: 1},
            ),
        ),
        (Slot(0),),
        SHARE_A,
    )


def part_number() -> Part:
    difference = Row((E_CATHODE, MINUS, E_ANODE))
    said = ("standard cell potential equals ", 5, " volts minus ", 4, " volts")
    return Part(
        "b",
        3,
        (
            Paragraph((Text("Calculate the standard cell potential. Use the potentials below."),)),
            Grid(
                (Text("Potentials from the data sheet"),),
                ((Text("Couple"),), (Maths(Symbol("E", "standard potential", "°"), ("standard potential",)), Text("/V"))),
                (((Slot(1),), (Slot(4),)), ((Slot(3),), (Slot(5),))),
                row_heads=True,
                numeric=(1,),
            ),
        ),
        NumberField(Maths(E_CELL, ("standard cell potential",)), VOLT, "Standard cell potential in volts", "to 0.01 V"),
        (
            (Text("The cell potential is the difference of the two."),),
            (Text("Take the anode's potential away from the cathode's, signs and all."),),
        ),
        (
            Step(
                (Text("The cell potential is the difference of the electrode potentials."),),
                (MathLine(E_CELL, "=", difference, ("standard cell potential equals cathode minus anode",)),),
                {0: 1},
            ),
            Step(
                (Text("Put the values in, each with its sign."),),
                (
                    MathLine(None, "=", Row((quantity(5), MINUS, Fenced(quantity(4)))), said),
                    MathLine(E_CELL, "=", quantity(6), ("standard cell potential equals ", 6, " volts")),
                ),
                {0: 1, 1: 1},
            ),
        ),
        (Slot(6), Text("\u202fV")),
        SHARE_C,
    )


def part_order() -> Part:
    return Part(
        "c",
        1,
        (
            Paragraph((Text("Put these in order of falling power to oxidise."),)),
            Items(False, ((Paragraph((Text("Look at the data sheet"),)),), (Paragraph((Text("and mind the signs"),)),))),
        ),
        OrderField(((Slot(1),), (ion("Ag", "+"),), (Slot(3),)), "strongest first", "weakest last", "Order of oxidising agents"),
        ((Text("The higher the potential, the stronger the oxidising agent."),),),
        (),
        (ion("Ag", "+"), Text(", "), Slot(3), Text(", "), Slot(1)),
        SHARE_D,
    )


def part_equation() -> Part:
    nernst = Row(
        (
            Symbol("E", "standard potential", "°"),
            MINUS,
            Fraction(base(f"0.0592{THIN}V", "quantity"), base("2")),
            Call("lg", "log to base ten of", Fenced(Fraction(Slot(1), Root(POWER_OF_TEN)))),
        )
    )
    return Part(
        "d",
        2,
        (
            Paragraph(
                (
                    Text("Write the equation of the cell reaction."),
                    LineBreak(),
                    Text("How to type it is told in "),
                    Link("../guide.html", (Text("the guide"),)),
                    Text(". Sulfate, "),
                    SULFATE,
                    Text(", stays out; its amount is "),
                    POWER_OF_TEN,
                    Text(" mol."),
                )
            ),
        ),
        EquationField("Equation of the cell reaction"),
        (),
        (
            Step(
                (Text("A line that goes wrong, for the look of it."),),
                (
                    MathLine(Symbol("E", "potential"), "=", nernst, ("potential equals …",)),
                    MathLine(None, "=", Row((nernst, Sign("+", "plus"), nernst)), ("equals a line wider than a phone",)),
                ),
                {},
                marked_wrong=True,
            ),
        ),
        (Slot(7),),
        SHARE_E,
    )


def question() -> Question:
    parts = (part_choice(), part_number(), part_order(), part_equation())
    return Question("two-metals", "Cell potential of two metals", 7, 9, lead(), parts, {"template": "two-metals"}, GRAPH)


def cell_figure(left: str, right: str, left_charge: str, right_charge: str, flags: frozenset[str] = frozenset()) -> Figure:
    def solution(metal: str, charge: str) -> Inscription:
        return Inscription("quantity", (Piece("base", metal), Piece("sup", charge), Piece("base", "(aq), 1.0 mol/dm³")), "")

    return Figure(
        "galvanic-cell",
        {
            "left_electrode": base(f"{left}(s)", "species"),
            "right_electrode": base(f"{right}(s)", "species"),
            "left_solution": solution(left, left_charge),
            "right_solution": solution(right, right_charge),
            "bridge": Inscription("species", (Piece("base", "KNO"), Piece("sub", "3"), Piece("base", "(aq)")), ""),
            "meter": "V",
        },
        {},
        flags,
        f"Two beakers. On the left {left} in its own ions, on the right {right}; a bridge between them, a voltmeter above.",
        (Text("The cell of the lamp"),),
    )


def variant(
    number: int, metals: tuple[str, str], charges: tuple[str, str], volts: tuple[str, str], cell: str, equation: str
) -> Variant:
    names = {"Zn": "zinc", "Cu": "copper", "Ni": "nickel", "Pb": "lead", "Ag": "silver"}
    (left, right), (low, high) = metals, volts
    slots = (
        (Text(names[left]),),
        (ion(left, charges[0]),),
        (Text(names[right]),),
        (ion(right, charges[1]),),
        (base(low, "number", low.replace("−", "minus ")),),
        (base(high, "number", high.replace("+", "plus ")),),
        (base(cell, "number", cell.replace("+", "plus ")),),
        (base(equation, "equation", equation),),
    )
    value = cell.replace("+", "")
    sides = [float(printed.replace("−", "-")) for printed in volts]
    given = {"left.E0": sides[0], "right.E0": sides[1], "anode": "left"}
    judge: tuple[dict[str, Any], ...] = (
        {"right": [0], "slips": {"1": ["other"]}, "values": ["left", "right"]},
        {
            "value": value,
            "exact": value,
            "lo": f"{float(value) - 0.005:.3f}",
            "hi": f"{float(value) + 0.005:.3f}",
            "place": "0.01",
            "slips": {"added": [f"{sides[0] + sides[1] - 0.005:.3f}", f"{sides[0] + sides[1] + 0.005:.3f}"]},
        },
        {"right": [1, 2, 0]},
        {"right": equation.replace("→", "->")},
    )
    return Variant(number, 0, slots, (cell_figure(left, right, charges[0], charges[1]),), judge, given)


def variants() -> tuple[Variant, ...]:
    return (
        variant(1, ("Zn", "Cu"), ("2+", "2+"), ("−0.76", "+0.34"), "+1.10", "Zn + Cu^2+ → Zn^2+ + Cu"),
        variant(2, ("Ni", "Ag"), ("2+", "+"), ("−0.26", "+0.80"), "+1.06", "Ni + 2Ag^+ → Ni^2+ + 2Ag"),
        variant(3, ("Pb", "Cu"), ("2+", "2+"), ("−0.13", "+0.34"), "+0.47", "Pb + Cu^2+ → Pb^2+ + Cu"),
    )


def whole(skeleton: Skeleton, variant: Variant) -> str:
    """One variant of a question as HTML."""
    return join(skeleton.chunks, variant_texts(skeleton, variant))
