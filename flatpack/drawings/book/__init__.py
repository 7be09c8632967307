"""The build book: pictures, lists and steps from which a stranger can build the piece."""

from flatpack.drawings.book.content import Book
from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.book.whole_book import FORMATS, book, sheets

__all__ = ["FORMATS", "Book", "BookSettings", "book", "sheets"]
