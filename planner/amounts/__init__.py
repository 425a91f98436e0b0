"""How much of everything a plan needs."""

from planner.amounts.begun import begun_before, begun_in_year, begun_on
from planner.amounts.lots import LotState, lot_as_tested, lot_state, stock_states
from planner.amounts.plants import Amount, Total, amount, amounts, totals
from planner.amounts.stock import Need, needs, shortages

__all__ = [
    "Amount",
    "LotState",
    "Need",
    "Total",
    "amount",
    "amounts",
    "begun_before",
    "begun_in_year",
    "begun_on",
    "lot_as_tested",
    "lot_state",
    "needs",
    "shortages",
    "stock_states",
    "totals",
]
