"""The riff language: grammar tables, parser with recovery, printer (the formatter), and the document both faces share."""
