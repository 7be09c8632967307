"""Model to neutral drawings, tables and pages; knows no file format."""
