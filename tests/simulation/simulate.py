#!/usr/bin/env python3
"""Writes the specimens, sightings and population reports of the demo corpus.

Reads the made part of the corpus and plan.yaml; see README.md. With --check it
writes nothing and fails if a file would come out different.
"""

import argparse
import csv
import io
import pathlib
import sys

import yaml

import pieces
import reports
import specimens
import writer

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
SIGNED = "Made by tests/simulation/simulate.py."
MADE_BY = "# " + SIGNED
LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def load(path):
    return yaml.load(path.read_text(encoding="utf-8"), Loader=LOADER)


class Corpus:
    """What the simulation needs of the made part, in the order of the files."""

    def __init__(self, folder):
        self.folder = folder
        self.characters = self.read("character")
        self.cardbacks = self.read("cardback")
        self.pairings = self.read("pairing")
        self.anomalies = self.read("anomaly")
        self.fronts = self.read("front")
        self.scales = self.read("scale")
        self.services = self.read("service")
        self.variants = {}
        for ident, variant in self.read("variant").items():
            if variant.get("concluded") == "accepted":
                self.variants.setdefault(variant["character"], []).append(ident)

    def read(self, kind):
        found = {}
        for path in sorted((self.folder / kind).glob("*.yaml")):
            records = load(path)
            for record in records if isinstance(records, list) else [records]:
                found[record["id"]] = record
        return found

    def market(self, pairing):
        return self.cardbacks[pairing["cardback"]]["market"]

    def label(self, cardback):
        return self.cardbacks[cardback]["labels"][0]["label"]

    def title(self, character):
        return next(iter(self.characters[character]["names"].values()))

    def variants_of(self, character):
        return self.variants.get(character, [])

    def file_of(self, target, piece):
        if target.kind == "anomaly":
            return "anomalies"
        return piece.pairing["character"]


class Output:
    """Specimens by file and sightings by list, until they are written."""

    def __init__(self):
        self.specimens, self.sightings = {}, {}

    def specimen(self, name, record):
        self.specimens.setdefault(name, []).append(record)

    def sighting(self, sight, record, more=None):
        """`more` is told beside the record and has no part in its place."""
        key = (record["date"], record.get("specimen", "~"), str(record))
        self.sightings.setdefault(sight["source"], []).append(
            (key, sight["prefix"], sight["year"], {**record, **(more or {})}))

    def files(self):
        """Path under the corpus → text."""
        made = {}
        for name, records in self.specimens.items():
            made[f"specimen/{name}.yaml"] = writer.document(
                [SIGNED], "specimen", records)
        for source, rows in self.sightings.items():
            rows.sort(key=lambda row: row[0])
            counts, records = {}, []
            for _, prefix, year, record in rows:
                counts[year] = counts.get(year, 0) + 1
                ident = f"{prefix}-{year}-{counts[year]:03d}"
                records.append({"id": ident, **record})
            made[f"sighting/{source}.yaml"] = writer.document(
                [SIGNED], "sighting", records)
        return made


def truth(targets):
    """truth.csv: what exists, beside what was seen of it."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(["target", "market", "existing", "catchability", "specimens",
                   "pieces", "sightings", "occasions", "lists", "once", "twice"])
    for target in targets:
        if target.exist == 0:
            continue
        sound = [p for p in target.pieces if not p.doubted]
        seen = [p for p in sound if p.seen]
        sights = [s for p in seen for s in p.seen]
        times = [sum(not s["again"] for s in p.seen) for p in seen]
        records = [r for r in target.records if not r[0].doubted]
        rows.writerow([
            target.name, target.market, target.exist,
            f"{chance_of_any(target, sound):.3f}", len(records), len(seen),
            len(sights), sum(times), len({s["source"] for s in sights}),
            times.count(1), times.count(2)])
    return text.getvalue()


def chance_of_any(target, sound):
    """Mean over the pieces of the probability to be seen at least once."""
    total = 0.0
    for piece in sound:
        never = 1.0
        for effort in target.efforts:
            never *= 1 - min(0.9, effort * target.interest * piece.catch)
        total += 1 - never
    return total / len(sound)


def set_efforts(targets, plan):
    for target in targets:
        target.efforts = [
            float(source["effort"][target.market])
            for source in plan["lists"]
            for _ in range(int(source["from"]), int(source["to"]) + 1)]


def simulate(folder):
    """Everything the simulation makes: path → text."""
    plan = load(HERE / "plan.yaml")
    corpus, out = Corpus(folder), Output()
    targets = pieces.populate(corpus, plan)
    set_efforts(targets, plan)
    for target in targets:
        specimens.record_target(corpus, target, plan, out)
    specimens.outside_grades(targets, corpus, plan)
    specimens.loose(corpus, plan, out)
    specimens.front_only(corpus, plan, out)
    specimens.unrecognised(corpus, plan, out)
    made = {folder / path: text for path, text in out.files().items()}
    for record in reports.all_reports(targets, corpus, plan):
        made[folder / "census" / f"{record['id']}.yaml"] = writer.document(
            [SIGNED], "census", [record])
    made[HERE / "truth.csv"] = truth(targets)
    return made


def stale(made, folder):
    """Files that the simulation made once and would not make now."""
    found = []
    for kind in ("specimen", "sighting", "census"):
        for path in (folder / kind).glob("*.yaml"):
            ours = path.read_text(encoding="utf-8").startswith(MADE_BY)
            if ours and path not in made:
                found.append(path)
    return sorted(found)


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--check", action="store_true",
                         help="compare, and write nothing")
    check = options.parse_args().check
    folder = ROOT / "corpus"
    made = simulate(folder)
    wrong = [str(path.relative_to(ROOT)) for path in stale(made, folder)]
    for path, text in sorted(made.items()):
        same = path.exists() and path.read_text(encoding="utf-8") == text
        if same:
            continue
        wrong.append(str(path.relative_to(ROOT)))
        if not check:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
    if not check:
        for path in stale(made, folder):
            path.unlink()
    for path in wrong:
        print(f"{'differs' if check else 'written'}: {path}")
    print(f"simulation: {len(made)} files, {len(wrong)} differ")
    return 1 if check and wrong else 0


if __name__ == "__main__":
    sys.exit(main())
