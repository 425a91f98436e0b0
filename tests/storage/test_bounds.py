"""Files that would fill the memory are refused before they do, whatever they hold up to the size limit."""

from __future__ import annotations

import json
import subprocess
import sys
import textwrap

import pytest

from planner.storage import FileError, parse
from planner.storage.bounds import MOST_LISTS, MOST_TABLES, MOST_THINGS, MOST_VALUES

#: Most memory that refusing takes, the program itself included. [MiB]
MOST_MEMORY = 300

HEAD = '{"format": "bedwright garden", "schema": 1, '
#: Texts near the size limit or the limits of counts, as expressions of Python; ``H`` is the head of a garden.
HOSTILE = {
    "empty lists": '"[" + "[]," * 16_000_000 + "[]]"',
    "lists to the limit": f'H + \'"beds": [\' + "[]," * {MOST_LISTS - 2} + "[]]}}"',
    "empty beds": 'H + \'"beds": [\' + "{}," * 300_000 + "{}]}"',
    "beds to the limit": f'H + \'"beds": [\' + "{{}}," * {MOST_THINGS["beds"] - 1} + "{{}}]}}"',
    "records to the limit of tables": f'H + \'"records": [\' + \'{{"a":1}},\' * {MOST_TABLES - 2} + "{{}}]}}"',
    "numbers": 'H + \'"beds": [\' + "1," * 30_000_000 + "1]}"',
    "numbers to the limit": f'H + \'"beds": [\' + "1.5," * {MOST_VALUES - 3} + "1]}}"',
    "short texts to the limit": f'H + \'"beds": [\' + \'"ab",\' * {MOST_VALUES - 3} + "1]}}"',
    "one long text": 'H + \'"site": {"name": "\' + "x" * 60_000_000 + \'"}}\'',
    "one long number": 'H + \'"site": {"latitude": \' + "9" * 60_000_000 + "}}"',
    "a key twice among many": 'H + ",".join(f\'"k{n % 99_999}": 1\' for n in range(100_000)) + "}"',
    "deep lists": '"[" * 30_000_000',
    "deep tables": "'{\"a\":' * 10_000_000",
    "spaces": '" " * 60_000_000',
}
PROGRAM = """
H = {head!r}
text = ({text}).encode()
with open({path!r}, "wb") as file:
    file.write(text)
"""
READ = """
import sys, time
from planner.storage import FileError, load
begin = time.process_time()
try:
    load({path!r})
except FileError as error:
    print(str(error)[:300])
# Not ru_maxrss, which a process begins with from the one that has started it.
high = next(line for line in open("/proc/self/status") if line.startswith("VmHWM:"))
print(int(high.split()[1]) // 1024)
print(time.process_time() - begin, file=sys.stderr)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="memory is measured as Linux counts it")
@pytest.mark.parametrize("name", HOSTILE)
def test_refusing_takes_little_memory(tmp_path, name):
    path = str(tmp_path / "hostile.bedwright")
    for program in (PROGRAM, READ):
        made = textwrap.dedent(program).format(head=HEAD, text=HOSTILE[name], path=path)
        options = ["-I", "-S"] if program is PROGRAM else []  # it only writes a file
        done = subprocess.run(
            [sys.executable, *options, "-c", made], capture_output=True, text=True, check=True
        )
    line, memory = done.stdout.splitlines()
    assert line.startswith(path)
    assert int(memory) < MOST_MEMORY
    print(name, memory, "MiB", done.stderr.strip(), "s")


def refusal(text: str) -> str:
    with pytest.raises(FileError) as caught:
        parse(text, "plot.bedwright")
    return str(caught.value)


def test_the_limit_is_named():
    assert f"holds {MOST_LISTS + 1:,} lists; {MOST_LISTS:,} is the most that is read" in refusal(
        "[" * (MOST_LISTS + 1)
    )
    beds = [{}] * (MOST_THINGS["beds"] + 1)
    line = refusal(json.dumps({"format": "bedwright garden", "schema": 1, "beds": beds}))
    assert "beds: 20,001 of them; 20,000 is the most" in line


def test_faults_are_counted_as_far_as_they_are_looked_at():
    beds = [{"id": f"b{n}", "name": "x"} for n in range(5_000)]
    line = refusal(json.dumps({"format": "bedwright garden", "schema": 1, "beds": beds}))
    assert "and at least 995 more" in line


@pytest.mark.parametrize(
    ("more", "place"),
    [
        ('"site": {"name": "A", "name": "B"}', 'site: gives "name" twice'),
        ('"beds": [{}, {"id": "b1", "id": "b1"}]', 'beds[1]: gives "id" twice'),
        ('"site": {"latitude": NaN}', "site.latitude: holds NaN"),
        ('"site": {"latitude": ' + "9" * 400 + "}", "site.latitude: holds a number that is too long"),
    ],
)
def test_what_json_forbids_is_named_with_its_place(more, place):
    assert place in refusal(HEAD + more + "}")


def test_an_id_given_twice_is_named_with_both_places():
    outline = {"shape": "rectangle", "length": 2, "width": 1}
    beds = [{"id": key, "name": "x", "outline": outline} for key in ("a", "b", "a")]
    line = refusal(json.dumps({"format": "bedwright garden", "schema": 1, "beds": beds}))
    assert "the id 'a' is given twice, in beds[0] and beds[2]" in line


def test_a_long_list_of_numbers_without_a_quote_is_no_long_text():
    points = ",".join(f"[{n % 900},{n % 700 / 10}]" for n in range(150_000))
    line = refusal(HEAD + f'"beds": [], "plantings": [{{"arrangement": [{points}]}}]}}')
    assert "text or number" not in line
    assert "plantings[0]" in line
