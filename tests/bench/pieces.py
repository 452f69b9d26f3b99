"""Holdings and runs at random, in the demo's words, for the bench of gaps.

The same seed gives the same files. Of a piece, each part is known, one of
several, excluded, unknown or not said; of the runs, each collects something
over some characters, markets or card backs.
"""
import pathlib
import random

import yaml

LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
COLLECT = ["character", "cardback", "pairing", "combination", "front",
           "variant", "blister", "sticker", "offer", "accessory"]


def records(corpus, kind):
    for path in sorted((corpus / kind).glob("*.yaml")):
        found = yaml.load(path.read_text(), LOADER)
        found = found if isinstance(found, list) else [found]
        yield from (record for record in found if "retired" not in record)


def identity(chance, known, others):
    """What somebody may write of a part that is `known` in truth."""
    roll = chance.random()
    if roll < 0.55:
        return known
    if roll < 0.75:
        other = chance.choice(others)
        return known if other == known else f"{{one_of: [{known}, {other}]}}"
    if roll < 0.85:
        other = chance.choice(others)
        return "unknown" if other == known else f"{{not: [{other}]}}"
    return "unknown" if roll < 0.95 else None


def write_pieces(corpus, path, count, seed=1):
    chance = random.Random(seed)
    pairings = list(records(corpus, "pairing"))
    ids = {kind: [record["id"] for record in records(corpus, kind)]
           for kind in ("cardback", "front", "blister", "variant")}
    with open(path, "w", encoding="utf-8") as out:
        out.write("holding:\n")
        for number in range(count):
            pairing = chance.choice(pairings)
            parts = {"character": pairing["character"],
                     "cardback": identity(chance, pairing["cardback"],
                                          ids["cardback"])}
            combination = chance.choice(pairing.get("combinations", [{}]))
            for part in ("front", "blister", "variant"):
                if part in combination:
                    parts[part] = identity(chance, combination[part],
                                           ids[part])
            form = chance.choice(["carded", "carded", "loose"])
            if form == "loose":
                parts = {key: value for key, value in parts.items()
                         if key in ("character", "variant")}
            out.write(f"  - id: p{number}\n    name: Piece {number}\n"
                      f"    form: {form}\n")
            out.writelines(f"    {key}: {value}\n"
                           for key, value in parts.items() if value)


def write_runs(corpus, path, count, seed=2):
    chance = random.Random(seed)
    ids = {kind: [record["id"] for record in records(corpus, kind)]
           for kind in ("character", "market", "cardback")}
    with open(path, "w", encoding="utf-8") as out:
        out.write("run:\n")
        for number in range(count):
            kind = chance.choice(sorted(ids))
            some = chance.sample(ids[kind], min(len(ids[kind]),
                                                chance.randint(1, 8)))
            out.write(f"  - id: bench-{number}\n    name: Bench {number}\n"
                      f"    collect: {chance.choice(COLLECT)}\n"
                      f"    {kind}s: [{', '.join(some)}]\n")


def make(folder, pieces, runs):
    """Paths of a file of pieces and one of runs, made where not there."""
    corpus = pathlib.Path(__file__).resolve().parent.parent.parent / "corpus"
    folder.mkdir(parents=True, exist_ok=True)
    of_pieces = folder / f"pieces-{pieces}.yaml"
    of_runs = folder / f"runs-{runs}.yaml"
    write_pieces(corpus, of_pieces, pieces)
    write_runs(corpus, of_runs, runs)
    return of_pieces, of_runs
