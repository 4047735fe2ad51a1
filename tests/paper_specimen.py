"""A hand-built paper with every kind of field, for tests of the writers.

Potentials in it (Zn −0.76 V, Ag +0.80 V, Cu +0.34 V) are the usual two-decimal school values, from memory; the tests look
at how they are set, not at whether they are right.
"""

from __future__ import annotations

from saltbridge import document as doc
from saltbridge.document import Inscription, MathLine, Maths, Paragraph, Piece, Row, Sign, Slot, Step, Symbol, Text


def inscription(role, spoken, *pieces):
    """``base^sup_sub`` made of ready pairs: plain strings are on the line."""
    ready = [Piece("base", piece) if isinstance(piece, str) else Piece(*piece) for piece in pieces]
    return Inscription(role, tuple(ready), spoken)


def up(text):
    return ("sup", text)


def down(text):
    return ("sub", text)


ZINC_ION = inscription("species", "Z n two plus", "Zn", up("2+"))
SILVER_ION = inscription("species", "A g plus", "Ag", up("+"))
SULFATE_ION = inscription("species", "S O four two minus", "SO", down("4"), up("2−"))
VOLT = inscription("unit", "volts", "V")
GRAM = inscription("unit", "grams", "g")
DIAGRAM = inscription(
    "diagram",
    "zinc solid, phase boundary, zinc two plus, junction, silver plus, phase boundary, silver solid",
    "Zn(s) | Zn",
    up("2+"),
    "(aq) ¦¦ Ag",
    up("+"),
    "(aq) | Ag(s)",
)
EQUATION = inscription(
    "equation", "two A g plus plus Z n gives two A g plus Z n two plus",
    "2 Ag", up("+"), " + Zn → 2 Ag + Zn", up("2+"),
)  # fmt: skip
SECOND_METAL = Text("silver")

E_CELL = Symbol("E", "E standard cell", "°", "cell")
E_CATHODE = Symbol("E", "E standard cathode", "°", "cathode")
E_ANODE = Symbol("E", "E standard anode", "°", "anode")
MINUS = Sign("−", "minus")


def volts(printed, spoken):
    return inscription("quantity", spoken, f"{printed}\u202fV")


def words(text):
    return (Text(text),)


def choice_part():
    return doc.Part(
        label="a", marks=1,
        body=(Paragraph(words("Which electrode is the anode?")),),
        field=doc.ChoiceField((words("the zinc electrode"), (Text("the "), Slot(1), Text(" electrode")), words("neither: no current flows")), "the anode"),
        hints=(words("Compare the two potentials."),),
        working=(Step(words("The half-cell with the lower potential is the anode."), (words("zinc: −0.76 V is below +0.80 V"),), {0: 1}),),
        answer=words("A: the zinc electrode"), judge={"kind": "choice"},
    )  # fmt: skip


def equation_part():
    return doc.Part(
        label="b", marks=2,
        body=(Paragraph(words("Write the equation for the cell reaction.")),),
        field=doc.EquationField("the cell reaction"), hints=(),
        working=(
            Step(words("Take silver’s half-reaction twice, turn zinc’s round and add."), ((EQUATION,),), {0: 2}),
        ),
        answer=(EQUATION,), judge={"kind": "equation", "right": "2Ag^+ + Zn -> 2Ag + Zn^2+"},
    )  # fmt: skip


def potential_steps():
    """A working in five steps, with a slot in the formula and one line that is not a formula."""
    return (
        Step(words("The cathode is the half-cell with the higher potential."), (words("silver"),), {0: 1}),
        Step(words("Read its potential from the data sheet."), (MathLine(E_CATHODE, "=", volts("+0.80", "plus 0.80 volts"), ("E standard cathode equals plus 0.80 volts",)),), {}),
        Step(words("Read the anode’s potential."), (MathLine(E_ANODE, "=", Slot(0), ("E standard anode equals ", 0)),), {}),
        Step(
            words("The cell potential is the cathode’s minus the anode’s."),
            (
                MathLine(E_CELL, "=", Row((E_CATHODE, MINUS, E_ANODE)), ("E standard cell equals E standard cathode minus E standard anode",)),
                MathLine(None, "=", Row((volts("+0.80", "plus 0.80 volts"), MINUS, doc.Fenced(Slot(0)))), ("equals plus 0.80 volts minus ", 0)),
            ),
            {0: 1, 1: 1},
        ),
        Step(words("Work it out."), (MathLine(E_CELL, "=", volts("+1.56", "plus 1.56 volts"), ("E standard cell equals plus 1.56 volts",)),), {0: 1}),
    )  # fmt: skip


def number_part():
    return doc.Part(
        label="c", marks=4,
        body=(Paragraph((Text("Calculate the standard cell potential, "), Maths(E_CELL, ("E standard cell",)), Text(", to two decimals."))),),
        field=doc.NumberField(Maths(E_CELL, ("E standard cell",)), VOLT, "standard cell potential", "to 0.01 V"),
        hints=(words("Subtract, never add."),), working=potential_steps(),
        answer=(Maths(E_CELL, ("E standard cell",)), Text(" = "), volts("+1.56", "plus 1.56 volts")),
        judge={"kind": "number", "node": "E0_cell", "unit": "V", "signed": True},
        errors=(
            doc.CommonError("added", (Maths(Row((E_CELL, Sign("=", "equals"), E_CATHODE, Sign("+", "plus"), E_ANODE)), ("added",)),), 2),
            doc.CommonError("turned", words("Which potential is taken away from which?"), 3),
        ),
    )  # fmt: skip


def galvanic_question():
    situation = (
        Paragraph((Text("A zinc strip in a solution of zinc ions, "), ZINC_ION, Text(", is joined to a "), Slot(1), Text(" strip in a solution of its ions: "), DIAGRAM, Text(". Both solutions are at standard concentration; the bridge holds a sulfate, "), SULFATE_ION, Text("."))),
        doc.FigureSlot(0),
    )  # fmt: skip
    return doc.Question(
        "two-metals", "Cell potential of two metals", 7, 8, situation,
        (choice_part(), equation_part(), number_part()), {"bank": "specimen"},
    )  # fmt: skip


def galvanic_variant():
    labels = {
        "left_electrode": inscription("species", "zinc", "Zn(s)"), "right_electrode": inscription("species", "silver", "Ag(s)"),
        "left_solution": ZINC_ION, "right_solution": SILVER_ION, "bridge": "salt bridge", "meter": "V",
    }  # fmt: skip
    spoken = "A zinc electrode and a silver electrode in two beakers joined by a salt bridge."
    figure = doc.Figure("galvanic-cell", labels, {}, frozenset(), spoken)
    return doc.Variant(
        3, 0, ((volts("−0.76", "minus 0.76 volts"),), (SECOND_METAL,)), (figure,),
        ({"right": [0]}, {}, {"value": "1.56", "exact": "1.5606", "lo": "1.555", "hi": "1.565", "slips": {"added": ["0.035", "0.045"]}}),
    )  # fmt: skip


def ranking_question():
    grid = doc.Grid(
        caption=words("Readings of four strips against copper"),
        head=(words("Metal"), (Maths(Symbol("E", "E"), ("reading E",)), Text("\u2009/\u2009V"))),
        rows=((words("zinc"), words("−1.09")), (words("tin"), words("−0.45")), (words("silver"), words("+0.44")), (words("nickel"), words("−0.58"))),
        row_heads=True, numeric=(1,),
    )  # fmt: skip
    metals = (words("silver"), words("tin"), words("zinc"), words("nickel"))
    part = doc.Part(
        "a", 3, (Paragraph(words("Put the metals in order of their readings.")),),
        doc.OrderField(metals, "lowest", "highest", "the metals"), (),
        (Step(words("The most negative reading comes first."), (words("zinc, nickel, tin, silver"),), {0: 3}),),
        words("zinc, nickel, tin, silver"), {"kind": "order", "right": [2, 3, 1, 0]},
    )  # fmt: skip
    caution = doc.Caution((Paragraph(words("Wear eye protection. Your school’s own rules come first.")),))
    items = doc.Items(
        False,
        ((Paragraph(words("The copper strip stays in place.")),), (Paragraph(words("The other strip is changed each time.")),)),
    )
    blocks = (Paragraph(words("A class presses strips on salt paper against a copper strip.")), items, grid, caution)
    return doc.Question("ranking", "Readings in order", 3, 4, blocks, (part,), {"bank": "specimen"})


def nernst_steps():
    nernst = Row((
        E_CELL, MINUS, doc.Fraction(inscription("quantity", "0.0592 volts", "0.0592\u202fV"), Symbol("n", "n")),
        doc.Call("lg", "log", Symbol("Q", "Q")),
    ))  # fmt: skip
    put_in = Row((
        volts("+1.56", "plus 1.56 volts"), MINUS, doc.Fraction(inscription("quantity", "0.0592 volts", "0.0592\u202fV"), inscription("number", "2", "2")),
        doc.Call("lg", "log", doc.Fraction(inscription("number", "0.10", "0.10"), doc.Power(doc.Fenced(inscription("number", "0.010", "0.010")), inscription("number", "squared", "2")))),
    ))  # fmt: skip
    e = Symbol("E", "E", "", "cell")
    quotient = MathLine(Symbol("Q", "Q"), "=", doc.Fraction(
        Symbol("c", "c", "", ZINC_ION), doc.Power(Symbol("c", "c", "", SILVER_ION), inscription("number", "squared", "2"))), ("Q equals c zinc over c silver squared",))  # fmt: skip
    return (
        Step(words("Write the reaction quotient."), (quotient,), {0: 1}),
        Step(words("Use the Nernst equation at 25 °C."), (MathLine(e, "=", nernst, ("E cell equals E standard cell minus 0.0592 volts over n times log Q",)),
             MathLine(None, "=", put_in, ("equals plus 1.56 volts minus 0.0592 volts over 2 times log 0.10 over 0.010 squared",))), {0: 1, 1: 1}),
        Step(words("Work it out."), (MathLine(e, "=", volts("+1.47", "plus 1.47 volts"), ("E cell equals plus 1.47 volts",)),), {0: 1}),
    )  # fmt: skip


def nernst_question():
    part = doc.Part(
        "a", 4, (Paragraph(words("Calculate the cell potential at 25 °C.")),),
        doc.NumberField(Maths(Symbol("E", "E", "", "cell"), ("E cell",)), VOLT, "cell potential"), (), nernst_steps(),
        (Maths(Symbol("E", "E", "", "cell"), ("E cell",)), Text(" = "), volts("+1.47", "plus 1.47 volts")),
        {"kind": "number", "signed": True, "lo": "1.465", "hi": "1.475"},
    )  # fmt: skip
    second = doc.Part(
        "b", 2, (Paragraph(words("Say what happens to the potential as the cell runs, and why.")),),
        doc.NumberField(None, GRAM, "mass"), (), (), words("it falls"), {"kind": "number"},
    )  # fmt: skip
    blocks = (
        Paragraph((Text("The same cell is filled with 0.10 mol/L "), ZINC_ION, Text(" and 0.010 mol/L "), SILVER_ION, Text("."))),
    )
    return doc.Question("nernst", "Away from standard", 6, 9, blocks, (part, second), {"bank": "specimen"})


def plain_variant(parts=1):
    return doc.Variant(1, 0, (), (), tuple({} for _ in range(parts)))


def specimen_paper(*, memorandum=False, times=1, **changes):
    """The paper of the tests; ``times`` repeats its questions to make it longer."""
    pairs = (
        (galvanic_question(), galvanic_variant()),
        (ranking_question(), plain_variant()),
        (nernst_question(), plain_variant(2)),
    )
    fields = {
        "title": "Cells and their potentials", "set_title": "Homework 3", "code": "CELLS3-B-7",
        "lead": (Paragraph((Text("Show each step. Use the data sheet. "), doc.Strong(words("Write units.")))),),
        "questions": pairs * times, "marks": 16 * times, "minutes": 21 * times, "memorandum": memorandum,
        "footer": "specimen bank 1 · two-metals, ranking, nernst · table: school",
    } | changes  # fmt: skip
    return doc.Paper(**fields)


def _line(volts_text, number, couple, half):
    spoken = volts_text.replace("−", "minus ").replace("+", "plus ")
    return doc.SheetLine(half, inscription("number", spoken, volts_text), couple, number)


def _couple(symbol, charge, spoken):
    label = inscription("species", f"{spoken} couple", symbol, up(charge), f"/{symbol}")
    electrons = charge[:-1] or "1"
    front = "" if electrons == "1" else f"{electrons} "
    half = inscription(
        "equation",
        f"{spoken} ion plus {electrons} electrons gives {spoken}",
        symbol,
        up(charge),
        f" + {front}e",
        up("−"),
        f" ⇌ {symbol}",
    )
    return label, half


def specimen_sheet(order="downward"):
    """Twenty couples, crowded where tables are; two-decimal values from memory (how they are set is under test)."""
    table = [
        ("Li", "+", -3.04), ("K", "+", -2.93), ("Ba", "2+", -2.91), ("Ca", "2+", -2.87), ("Na", "+", -2.71), ("Mg", "2+", -2.37), ("Al", "3+", -1.66),
        ("Mn", "2+", -1.18), ("Zn", "2+", -0.76), ("Cr", "3+", -0.74), ("Fe", "2+", -0.44), ("Cd", "2+", -0.40), ("Co", "2+", -0.28), ("Ni", "2+", -0.25),
        ("Sn", "2+", -0.14), ("Pb", "2+", -0.13), ("Cu", "2+", 0.34), ("Ag", "+", 0.80), ("Hg", "2+", 0.85), ("Au", "3+", 1.50),
    ]  # fmt: skip
    rows = []
    for symbol, charge, number in table:
        label, half = _couple(symbol, charge, symbol)
        rows.append(_line(f"{number:+.2f}".replace("-", "−"), number, label, half))
    constants = (
        doc.SheetConstant(
            "Faraday constant", Symbol("F", "F"), inscription("quantity", "96 500 coulombs per mole", "96\u202f500\u202fC/mol")
        ),
        doc.SheetConstant(
            "gas constant", Symbol("R", "R"), inscription("quantity", "8.314 joules per kelvin mole", "8.314\u202fJ/(K·mol)")
        ),
    )
    masses = (("Ag", "107.9"), ("Al", "27.0"), ("Cu", "63.5"), ("H", "1.0"), ("Zn", "65.4"))
    ordered = tuple(rows if order == "downward" else reversed(rows))
    return doc.SheetPage("Data sheet", order, ordered, constants, masses, "Specimen values for tests, from memory.")
