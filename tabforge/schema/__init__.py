"""The JSON Schema guard: loading the schema files, checking documents, mapping errors back to places."""
