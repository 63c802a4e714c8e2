"""A decimal as digits in place-value columns, and a question as an operation on decimals."""
