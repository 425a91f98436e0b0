"""The guard of tables against formulas: what it guards, what it leaves alone, by another reader of formulas."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError

from planner.importing.stock_cells import unguarded
from planner.listings.formulas import FORMULA_SIGNS, might_be_computed, safe_text

HONEST = [
    "-1 °C shelf", "+Plus", "- cold frame", "+ late sowing", "-Nord", "+Carrots-and-peas", "-18 °C freezer", "+Dr. Plus", "+5 extra rows",
    "－1 ℃ の棚", "+Grün und rot", "-O'Brien",
]  # fmt: skip
FORMULAS = [
    "=1", "+1", "-1", "+1.5", "-1,5", "+1e5", "-1 2", "+A1", "-a1", "+AB12 B3", "+R1C1", "-RC", "+SUM(A1)", "+SUM (A1)", "-cmd|' /C calc'!A0",
    "+Sheet1!A1", "+true", "-FALSE", "+name&name", "+name*2", "-x^2", "+a:b", "+{1}", "+[book]x", '+"x"', "@SUM(A1)", "@home", "|x", "%x", "＝1",
    "＋Ａ１", "＋ＳＵＭ（Ａ１）", "+", "-", "--", "+ ", "-2-3", "+x_1", "+a b1", "+10%", "-#REF!", "+Plus A1", "-5 °",
]  # fmt: skip


@pytest.mark.parametrize("text", HONEST)
def test_honest_names_are_left_alone(text):
    assert safe_text(text) == text
    assert safe_text(f"Bed; {text}") == f"Bed; {text}"
    assert unguarded(text) == text


@pytest.mark.parametrize("text", FORMULAS)
def test_what_might_be_a_formula_is_guarded_and_read_again(text):
    assert safe_text(text) == f"'{text}"
    assert safe_text(f"  {text}") == f"'  {text}"
    assert safe_text(f"Bed; {text}") == f"Bed; '{text}"
    assert unguarded(safe_text(text)) == text
    assert unguarded(safe_text(f"Bed; {text}")) == f"Bed; {text}"


@pytest.mark.parametrize("text", [*HONEST, *FORMULAS])
def test_apostrophes_of_a_persons_own_are_read_again(text):
    for own in (f"x;'{text}", f"x; ''{text}", f"x\t'{text}"):
        assert unguarded(safe_text(own)) == own


SIGNED = st.tuples(
    st.sampled_from(FORMULA_SIGNS),
    st.lists(
        st.sampled_from(["a", "A1", "Bed", "12", "1", " ", "-", "+", ".", "°", "'", "(", ")", "!", "SUM", "e", "é", "畑", "R", "C", ":", "%"]),
        max_size=6,
    ),
).map(lambda parts: parts[0] + "".join(parts[1]))  # fmt: skip


@given(SIGNED | st.text(max_size=12).map("+{}".format))
def test_what_is_left_alone_has_nothing_to_compute_by_another_reader(text):
    """openpyxl's reader of formulas finds no call, no value and no cell in it: words at most, or no formula at all."""
    if might_be_computed(text) or not text.lstrip().startswith(FORMULA_SIGNS):
        return
    try:
        tokens = Tokenizer(f"={text.strip()}").items
    except TokenizerError:
        return
    assert not [token for token in tokens if token.type in (Token.FUNC, Token.ARRAY, Token.OP_POST)]
    words = [token for token in tokens if token.type == Token.OPERAND]
    assert any(word.subtype == Token.RANGE and not word.value[-1:].isdigit() for word in words)
    assert not [word for word in words if word.subtype in (Token.LOGICAL, Token.ERROR, Token.TEXT)]
