"""Random expression trees for the derivation's tests."""

from __future__ import annotations

from hypothesis import strategies as st

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree

NAMES = ("E0_cell", "Q", "n", "F", "T", "x")
_ONE = ("ln", "lg", "exp", "exp10", "sqrt", "abs")


@st.composite
def _tree(draw: st.DrawFn, depth: int) -> Tree:
    kind = draw(
        st.sampled_from(("name", "number") if depth == 0 else ("name", "number", "pair", "pair", "pair", "minus", "one", "two"))
    )
    match kind:
        case "name":
            return Ref(draw(st.sampled_from(NAMES)))
        case "number":
            return Num(draw(st.sampled_from(("0", "1", "2", "10", "0.0592", "298.15", "96485", "1e-05", "3.5"))))
        case "minus":
            return Neg(draw(_tree(depth - 1)))
        case "one":
            return Fn(draw(st.sampled_from(_ONE)), (draw(_tree(depth - 1)),))
        case "two":
            return Fn(draw(st.sampled_from(("min", "max"))), (draw(_tree(depth - 1)), draw(_tree(depth - 1))))
    op, left, right = draw(st.sampled_from("+-*/^")), draw(_tree(depth - 1)), draw(_tree(depth - 1))
    if op in "*/" and isinstance(left, Neg):  # read as the negative of the product
        while isinstance(left, Neg):
            left = left.body
        return Neg(Bin(op, left, right))
    return Bin(op, left, right)


trees: st.SearchStrategy[Tree] = _tree(4)
