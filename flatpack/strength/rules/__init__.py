"""Formulas of published rules: Eurocode 5 and, set apart, American and handbook ones.

Forces in N, moments in N mm, lengths in mm, stresses in N/mm2, densities in kg/m3, angles in
degrees.  "EC5" is EN 1995-1-1:2004 with its amendment A1:2008 and the recommended values where a
country may choose.
"""
