"""How much of everything a plan needs."""

from planner.amounts.plants import Amount, Total, amount, amounts, totals
from planner.amounts.stock import LotState, Need, lot_state, needs, shortages, stock_states

__all__ = [
    "Amount",
    "LotState",
    "Need",
    "Total",
    "amount",
    "amounts",
    "lot_state",
    "needs",
    "shortages",
    "stock_states",
    "totals",
]
