"""Pages as pictures: SVG straight from their plans, PNG from their PDF."""
