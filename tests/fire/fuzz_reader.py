"""The reader of garden files, fuzzed by what of its code each input reaches.

It needs ``atheris``, which is none of the test requirements: install it into an environment of its own beside Bedwright's
requirements, then ``python tests/fire/fuzz_reader.py FOLDER --minutes 60``.  FOLDER keeps the inputs between runs (``inputs``);
what went wrong is told at once and kept in ``found``.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
import traceback
from pathlib import Path
from random import Random

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS.parent)]

#: Longest input. [bytes]
LONGEST = 150_000
#: A file so short is read or refused in this time. [s]
MOST_TIME = 1.0
#: Gardens to begin with, and most edits of each.
GARDENS, EDITS = 200, 150


class Fuzzed:
    """The target: it goes on after a fault, and keeps one input of each kind of fault.

    Attributes
    ----------
    tried : int
    """

    def __init__(self, folder: Path) -> None:
        from fire.mutants import read_or_refused

        self.tried = 0
        self._folder, self._read = folder, read_or_refused
        self._kinds: set[str] = set()

    def __call__(self, data: bytes) -> None:
        """Try one input."""
        self.tried += 1
        begun = time.process_time()
        try:
            wrong = kind = self._read(data)
        except Exception as fault:
            wrong = "".join(traceback.format_exception(fault))
            place = traceback.extract_tb(fault.__traceback__)[-1]
            kind = f"{type(fault).__name__} {place.filename}:{place.lineno}"
        took = time.process_time() - begun
        if not wrong and took > MOST_TIME:
            wrong, kind = f"took {took:.1f} s", "too slow"
        if wrong and kind not in self._kinds:
            self._kinds.add(kind)
            file = self._folder / f"{len(self._kinds)}.bedwright"
            file.write_bytes(data)
            print(f"try {self.tried}: {file}: {wrong}", file=sys.stderr, flush=True)


def changed(data: bytes, most: int, seed: int) -> bytes:
    """Another input made of one: by its structure where it is JSON, else by its bytes.

    Parameters
    ----------
    data : bytes
    most : int
        Longest that the other may be.
    seed : int
    """
    import atheris
    from fire.mutants import change_structure

    rng = Random(seed)
    if rng.random() < 0.5:
        try:
            document = json.loads(data)
            if isinstance(document, (dict, list)) and document:
                change_structure(rng, document)
                text = json.dumps(document, ensure_ascii=rng.random() < 0.5).encode("utf-8", "surrogatepass")
                return text if len(text) <= most else data
        except (ValueError, RecursionError):
            pass
    mutated: bytes = atheris.Mutate(data, most)
    return mutated


def _begin(folder: Path) -> tuple[Path, Path]:
    """Folders of inputs and of what is found, and a list of words that a file may hold."""
    from fire.gardens import random_garden

    from planner import resources, storage

    inputs, found = folder / "inputs", folder / "found"
    for one in (inputs, found):
        one.mkdir(parents=True, exist_ok=True)
    for seed in range(GARDENS):
        garden = random_garden(Random(seed), 1 + seed * EDITS // GARDENS)
        (inputs / f"garden_{seed}").write_text(storage.dump(garden), "utf-8")
    for sample in resources.sample_folder().glob("*.bedwright"):
        (inputs / sample.stem).write_bytes(sample.read_bytes())
    words = set[str]()
    left: list[object] = [storage.garden_schema()]
    while left:
        part = left.pop()
        if isinstance(part, dict):
            words.update(
                part.get("properties", ()), map(str, part.get("enum", ())), [str(part.get("const", "x"))]
            )
            left += part.values()
        elif isinstance(part, list):
            left += part
    lines = [json.dumps(f'"{word}"') for word in sorted(words) if word.isascii() and word.isprintable()]
    (folder / "words").write_text("\n".join(lines) + "\n", "utf-8")
    return inputs, found


def main() -> None:
    """Fuzz for some time; the last line tells how many inputs were tried."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--minutes", type=float, default=60.0)
    given = parser.parse_args()
    import atheris

    with atheris.instrument_imports(include=["planner"]):
        import planner.storage  # noqa: F401  # first, so that all of it is followed
    inputs, found = _begin(given.folder)
    options = [
        f"-max_total_time={round(60 * given.minutes)}",
        f"-max_len={LONGEST}",
        f"-dict={given.folder / 'words'}",
        f"-artifact_prefix={found}/",
        "-rss_limit_mb=2048",
        "-timeout=30",
        "-print_final_stats=1",
    ]
    atheris.Setup([sys.argv[0], *options, str(inputs)], Fuzzed(found), custom_mutator=changed)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
