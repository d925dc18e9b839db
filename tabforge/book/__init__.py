"""Exercise books: a manifest and a folder of studies become a printed book, a web page and a zip of files."""
