"""The build book: pictures, lists and steps from which a stranger can build the piece."""
