"""Monthly means as they are pasted."""

from __future__ import annotations

import pytest

from planner.errors import BedwrightError
from planner.importing.monthly_means import PastedMeans, read_monthly_means

LOW = (1.5, 1.4, 2.9, 4.7, 7.5, 10.5, 12.6, 12.4, 10.2, 7.4, 4.1, 1.9)
HIGH = (7.4, 8.1, 11.0, 14.1, 17.4, 20.3, 22.9, 22.6, 19.6, 15.1, 10.6, 7.8)
BOTH = PastedMeans(minimum=LOW, maximum=HIGH)
MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def columns(*series, mark="\t", head=()):
    lines = [mark.join(str(cell) for cell in row) for row in zip(*series, strict=True)]
    return "\n".join([*([mark.join(head)] if head else []), *lines])


def rows(*series, mark="\t"):
    return "\r\n".join(mark.join(map(str, line)) for line in series)


TABLES = {
    "columns": columns(LOW, HIGH),
    "columns with names": columns(MONTHS, LOW, HIGH),
    "columns with numbers of months": columns(range(1, 13), LOW, HIGH),
    "columns with headings": columns(MONTHS, LOW, HIGH, head=("Month", "Min °C", "Max °C")),
    "maximum first, by headings": columns(HIGH, LOW, head=("Mean max", "Mean min")),
    "maximum first, by its numbers": columns(HIGH, LOW),
    "rows": rows(LOW, HIGH),
    "rows with names": rows(("", *MONTHS), ("Minimum", *LOW), ("Maximum", *HIGH)),
    "rows, maximum first": rows(("max", *HIGH), ("min", *LOW)),
    "decimal commas": columns(LOW, HIGH).replace(".", ","),
    "semicolons": columns(LOW, HIGH, mark=";").replace(".", ","),
    "commas": columns(MONTHS, LOW, HIGH, mark=","),
    "blanks": columns(LOW, HIGH, mark="   "),
    "units": columns([f"{v} °C" for v in LOW], [f"{v}°C" for v in HIGH]),
    "true minus": columns(LOW, HIGH) + "\n\n",
}


@pytest.mark.parametrize("name", TABLES)
def test_two_series_are_read(name):
    assert read_monthly_means(TABLES[name]) == BOTH


def test_one_series_is_told_by_its_heading():
    assert read_monthly_means(columns(LOW)) == PastedMeans(either=LOW)
    assert read_monthly_means(rows(LOW)) == PastedMeans(either=LOW)
    assert read_monthly_means(columns(LOW, head=("Mean min",))) == PastedMeans(minimum=LOW)
    assert read_monthly_means(rows(("Max", *HIGH))) == PastedMeans(maximum=HIGH)


def test_numbers_are_in_the_units_of_the_garden():
    assert read_monthly_means("50\t68\n23\t41", "feet_inches") == PastedMeans((10.0, -5.0), (20.0, 5.0))
    assert read_monthly_means("10 C\t20 C\n-5 C\t5 C", "feet_inches") == PastedMeans(
        (10.0, -5.0), (20.0, 5.0)
    )


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\n\t\n",
        "Month\tMin",
        "1\t2\n3",
        columns(range(13)),
        rows(LOW, HIGH, LOW),
        "1\tx2\n3\t4",
        "1e5",
        "9" * 30_000,
    ],
)
def test_what_are_no_monthly_means_is_told_in_a_line(text):
    with pytest.raises(BedwrightError) as error:
        read_monthly_means(text)
    assert "\n" not in str(error.value)
