"""How much of everything a plan needs."""

from planner.amounts.plants import Amount, Total, amount, amounts, totals

__all__ = ["Amount", "Total", "amount", "amounts", "totals"]
