"""Run every published or exact reference value against this very installation.

The rows are written once, under ``tests/reference`` (its README tells their form); an installed
package carries a copy of them beside this module.
"""

from shedlight.verification.rows import Outcome, Row, outcome, outcomes, rows

__all__ = ["Outcome", "Row", "outcome", "outcomes", "rows"]
