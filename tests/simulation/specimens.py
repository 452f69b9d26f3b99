"""From pieces that were seen to records: specimens, and their sightings.

Also what lies outside the model: loose pieces, pieces seen from the front alone,
and sightings of pieces that nobody could recognise.
"""

from chance import Chance
import later
import pieces as piece_tools
import wording

SIDES = {
    "in-hand": ["front", "back", "edge"],
    "both-sides": ["front", "back"],
    "one-side": ["front"],
}


def describe(corpus, piece):
    pairing = piece.pairing
    title = corpus.title(pairing["character"])
    label = corpus.label(pairing["cardback"])
    return ", ".join([f"{title} {label}"] + piece.marks[:3])


def identity(corpus, piece, sights, plan):
    """What the sightings settle of the piece, as fields of the specimen."""
    made, combination = piece.combination, {}
    pairing = piece.pairing
    chance = Chance(plan["seed"], "settle", piece.target.name, piece.number)
    combination["character"] = pairing["character"]
    combination["cardback"] = pairing["cardback"]
    if "front" in made:
        combination["front"] = made["front"]
    if "blister" in made:
        settled = any(s["how"] == "in-hand" for s in sights)
        if made["blister"] in piece_tools.SQUARE and not settled:
            combination["blister"] = {"one_of": piece_tools.SQUARE}
        else:
            combination["blister"] = made["blister"]
    if "variant" in made:
        others = [v for v in corpus.variants_of(pairing["character"])
                  if v != made["variant"]]
        roll = chance.below(10)
        if roll < 4:
            combination["variant"] = made["variant"]
        elif roll < 6 and others:
            combination["variant"] = {"not": [chance.pick(others)]}
        elif roll < 8 and others:
            combination["variant"] = {"one_of": [made["variant"], others[0]]}
        else:
            combination["variant"] = "unknown"
    if "anomaly" in made:
        combination["anomaly"] = made["anomaly"]
    if "sticker" in made:
        combination["stickers"] = [made["sticker"]]
    return combination


def form_of(piece):
    return "carded-cased" if piece.certificates else "carded"


def specimen(corpus, piece, ident, sights, plan, likely=False):
    record = dict(id=ident, name=describe(corpus, piece), form=form_of(piece))
    record.update(identity(corpus, piece, sights, plan))
    record["marks"] = piece.marks
    record["identity"] = "likely" if likely else "certain"
    if piece.doubted:
        record["doubted"] = piece.doubted
    if piece.certificates:
        record["certificates"] = piece.certificates
    return record


def sighting(piece, ident, sight):
    record = dict(specimen=ident, date=sight["date"], venue=sight["venue"],
                  source=sight["source"])
    if sight["place"]:
        record["place"] = sight["place"]
    held = piece_tools.case_at(piece, sight["date"])
    record["form"] = "carded-cased" if held else "carded"
    record["sides"] = SIDES[sight["how"]]
    record["seen"] = sight["how"]
    if held:
        record["grading"] = {
            key: held[key] for key in ("service", "certificate", "grade")
        }
    return record


def record_target(corpus, target, plan, out):
    """Appends the target's specimens and sightings to `out`."""
    seen = [p for p in target.pieces if p.seen]
    made = 0
    target.records = []
    for piece in seen:
        groups = [piece.seen]
        chance = Chance(plan["seed"], "match", target.name, piece.number)
        if len(piece.seen) > 3 and chance.hit(4 * float(plan["missed_match"])):
            middle = len(piece.seen) // 2
            groups = [piece.seen[:middle], piece.seen[middle:]]
        piece.missed = len(groups) > 1
        for at, sights in enumerate(groups):
            made += 1
            ident = f"{target.ident}-{made:02d}"
            record = specimen(corpus, piece, ident, sights, plan, at > 0)
            if at > 0:
                record["name"] += ", second entry"
            later.add_to_specimen(corpus, record, piece, sights, plan)
            out.specimen(corpus.file_of(target, piece), record)
            target.records.append((piece, record, sights))
            for sight in sights:
                held = piece_tools.case_at(piece, sight["date"])
                out.sighting(
                    sight, sighting(piece, ident, sight),
                    later.of_sighting(piece, sight, SIDES[sight["how"]], held,
                                      plan))
    later.split(target, plan)


def outside_grades(targets, corpus, plan):
    """Two cards whose overall grade lies outside the parts, with the reason."""
    left = int(plan["outside"])
    for target in targets:
        for piece, record, _ in getattr(target, "records", []):
            held = record.get("certificates", [])
            if not left or len(held) != 1 or "subgrades" not in held[0]:
                continue
            if held[0]["service"] != ["tamblyn-coyle", "lichtkamer"][left % 2]:
                continue
            scale = corpus.scales[corpus.services[held[0]["service"]]["scale"]]
            steps = scale["steps"]
            at = steps.index(held[0]["grade"])
            if at < 2:
                continue
            for part in held[0]["subgrades"]:
                part["grade"] = steps[at - 1 - len(part["part"]) % 2]
            record["exceptions"] = [dict(
                rule="overall-outside-subgrades",
                reason="The overall is below every part on the label, and the "
                       "service confirmed that it is what was meant.",
                source="photo-pool",
            )]
            left -= 1


def loose(corpus, plan, out):
    """Loose figures, known by a scratch or a dot."""
    names = [c for c in corpus.characters if corpus.variants_of(c)]
    for number in range(1, int(plan["loose"]) + 1):
        chance = Chance(plan["seed"], "loose", number)
        character = chance.pick(names)
        variants = corpus.variants_of(character)
        ident = f"loose-{character}-{number:02d}"
        marks = wording.loose_marks(chance)
        cased = chance.hit(0.1)
        record = dict(
            id=ident,
            name=f"{corpus.title(character)}, loose, " + ", ".join(marks),
            form="loose-cased" if cased else "loose",
            character=character, cardback="unknown",
        )
        roll = chance.below(4)
        if roll == 0 or len(variants) == 1:
            record["variant"] = "unknown"
        elif roll == 1:
            record["variant"] = {"one_of": variants[:2]}
        else:
            record["variant"] = chance.pick(variants)
        record["marks"] = marks
        record["identity"] = chance.weigh([("certain", 2), ("likely", 3)])
        state, own = later.loose(corpus, character, number, plan)
        sights = casual(chance, plan, chance.between(1, 3))
        record["accessories"] = own
        record["condition"] = [
            {"part": s["part"], "state": s["state"], "date": sights[-1]["date"]}
            for s in state]
        out.specimen("loose", record)
        for sight in sights:
            out.sighting(sight, dict(
                specimen=ident, date=sight["date"], venue=sight["venue"],
                source=sight["source"], form="loose",
                sides=["front", "back"], seen="both-sides"),
                dict(condition=state, accessories=own,
                     **later.sale(sight, ["loose", number], plan)))


def casual(chance, plan, count):
    """Sightings at any time, on any list, in order of date."""
    made = []
    for _ in range(count):
        source = chance.pick(plan["lists"])
        year = chance.between(int(source["from"]), min(2025, int(source["to"])))
        made.append(dict(
            source=source["id"], prefix=source["prefix"], year=year,
            date=piece_tools.day(chance, year, source["dates"], 2026),
            venue=chance.weigh([(k, int(v)) for k, v in source["venues"].items()]),
            again=False))
    made.sort(key=lambda s: (s["date"], s["source"]))
    return made


def backs_of_front(corpus, front):
    """The card backs that a front has been found with."""
    found = []
    for pairing in corpus.pairings.values():
        for combination in pairing.get("combinations", []):
            if combination.get("front") == front and "anomaly" not in combination:
                found.append(pairing["cardback"])
    return list(dict.fromkeys(found))


def front_only(corpus, plan, out):
    """Recognised pieces of which nobody has shown the back."""
    backs_of = {f: backs_of_front(corpus, f) for f in corpus.fronts}
    fronts = [f for f, backs in backs_of.items() if 1 < len(backs) < 8]
    for number in range(1, int(plan["front_only"]) + 1):
        chance = Chance(plan["seed"], "front", number)
        front = chance.pick(fronts)
        record_of = corpus.fronts[front]
        backs = backs_of[front]
        marks = wording.carded_marks(chance, record_of["market"])
        ident = f"front-{number:02d}-{record_of['character']}"
        title = corpus.title(record_of["character"])
        out.specimen("front-only", dict(
            id=ident, name=f"{title}, front only, " + ", ".join(marks),
            form="carded", character=record_of["character"],
            cardback={"one_of": backs}, front=front, blister="unknown",
            marks=marks, identity="likely"))
        for sight in casual(chance, plan, chance.between(1, 2)):
            out.sighting(sight, dict(
                specimen=ident, date=sight["date"], venue=sight["venue"],
                source=sight["source"], form="carded", sides=["front"],
                seen="one-side"))


def unrecognised(corpus, plan, out):
    """Sightings of pieces that were not sharp enough to know again."""
    backs_of = {f: backs_of_front(corpus, f) for f in corpus.fronts}
    fronts = [f for f, backs in backs_of.items() if 0 < len(backs) < 8]
    for number in range(1, int(plan["unrecognised"]) + 1):
        chance = Chance(plan["seed"], "passing", number)
        front = chance.pick(fronts)
        backs = backs_of[front]
        sight = casual(chance, plan, 1)[0]
        record = dict(date=sight["date"], venue=sight["venue"],
                      source=sight["source"], form="carded", sides=["front"],
                      seen="one-side",
                      character=corpus.fronts[front]["character"])
        record["cardback"] = {"one_of": backs} if len(backs) > 1 else backs[0]
        record["front"] = front
        if chance.hit(0.3):
            record["blister"] = {"not": ["twin"]}
        out.sighting(sight, record)
