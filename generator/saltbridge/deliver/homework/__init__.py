"""Sets of papers for a class: who gets which numbers, the record, and what is printed and listed for the teacher."""
