"""Figures in data: which drawings there are, which scenarios each fits, and what fills its labels."""
