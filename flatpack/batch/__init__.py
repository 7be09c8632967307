"""Many variants of pieces, unattended: made, kept, resumed and told in one overview.

    table ─► variants, one after the other ─► up to date?  kept
       (CSV, combinations, folder)              │ no
                                                ▼
                             chunks ─► any concurrent.futures executor ─► one folder a variant
                                                │
                                                ▼
                             ledger (on disk) ─► summary.csv, overview.html

Nothing here holds more than a few chunks at a time, so that a table may be as long as it likes.
"""
