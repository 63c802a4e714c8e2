"""How a question is asked: bare, something missing, from a fact, worked wrongly, or in words."""
