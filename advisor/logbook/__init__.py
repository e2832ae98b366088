"""The logbook: what was told, measured, advised and done at each cook, kept in a database. It knows nothing of advice.

SQLite in a folder, or PostgreSQL by its address. `opening.open_logbook` is the way in; all moments are UTC milliseconds.
"""
