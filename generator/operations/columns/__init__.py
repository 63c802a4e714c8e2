"""Addition and subtraction in columns."""
