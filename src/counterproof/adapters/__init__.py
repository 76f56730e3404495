"""The edge: files, tables, terminal."""
