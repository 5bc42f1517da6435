"""The machine's book: one PDF of everything that was found, decided, made and proved.

Only ``options`` is light; everything else here loads the PDF library and is imported when a book is built.
"""
