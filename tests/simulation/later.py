"""What is told of a piece beyond what it is: condition, cases, alterations,
what happened to it, what came of a sale, and who saw it.

Everything here is decided by streams of chance of its own, and is added to
records that are already made: nothing of it changes what is seen, when, or the
ids. See README.md.
"""

from chance import Chance
import wording

READERS = {
    "photo-pool": [("reader-west", 2011), ("tam-quernstone", 2022),
                   ("dealer-withheld", 2014)],
    "verhaegen-list": [("reader-gent", 2016)],
    "kaloudis-list": [("reader-volos", 2012)],
    "lindqvist-list": [("reader-turku", 2015)],
    "ruhl-list": [("dealer-withheld", 2014)],
}

OUTCOMES = {
    "auction": {"sold": 14, "unsold": 4, "withdrawn": 1, "unknown": 1},
    "dealer": {"sold": 3, "unknown": 5},
    "trade": {"sold": 4, "withdrawn": 1, "unknown": 4},
    "show": {"sold": 2, "unknown": 6},
    "collection": {"not-for-sale": 1},
    "exhibition": {"not-for-sale": 1},
}


def part(name, state, note=None, date=None):
    made = dict(part=name, state=state)
    if date:
        made["date"] = date
    if note:
        made["note"] = note
    return made


def told_by(mark):
    """(part, state, note, side) of a mark, or None if it is no condition."""
    if mark in wording.CONDITION:
        return wording.CONDITION[mark]
    for harm, (state, said) in wording.HARM_STATES.items():
        if mark.startswith(harm + " "):
            place = mark[len(harm) + 1:]
            return ("card", state, (said + ", " if said else "") + place,
                    "front")
    return None


def yellowed_since(piece, plan):
    """The year when the blister was first yellow, or None."""
    chance = Chance(plan["seed"], "yellow", piece.target.name, piece.number)
    if not chance.hit(float(plan["later"]["yellowed"])):
        return None
    return chance.between(1992, 2022)


def condition(piece, sides, date, plan, dated=False):
    """The parts that these sides show on that day."""
    on = date if dated else None
    made = []
    for mark in piece.marks:
        told = told_by(mark)
        if told and told[3] in sides:
            made.append(part(*told[:3], date=on))
    since = yellowed_since(piece, plan)
    blister = any(m["part"] == "blister" for m in made)
    if since and int(date[:4]) >= since and not blister:
        made.append(part("blister", "yellowed", "a little", on))
    elif "edge" in sides and not blister:
        made.append(part("blister", "sound", None, on))
    return made or [part("card", "sound", None, on)]


def alterations(piece, plan):
    """What was changed on the piece, each with how sure that is."""
    made = []
    if piece.doubted in wording.DOUBT_ALTERATIONS:
        made.append(dict(wording.DOUBT_ALTERATIONS[piece.doubted]))
    chance = Chance(plan["seed"], "alter", piece.target.name, piece.number)
    if any(m.startswith("shadow of") for m in piece.marks) and chance.hit(0.5):
        made.append(dict(what="sticker-removed", certainty="known",
                         note="its shadow is left"))
    if chance.hit(float(plan["later"]["altered"])):
        made.append(dict(chance.pick(wording.ALTERATIONS)))
    return made


def case(certificate, opened):
    """The case of a certificate, in our own words."""
    service, year = certificate["service"], int(certificate["date"][:4])
    style, label = [
        (said, place) for first, said, place in wording.CASES[service]
        if year >= first][-1]
    return dict(service=service, style=style, label_place=label,
                sealed="opened" if opened else "sealed")


def opened(piece, plan):
    """Whether the last case of the piece was opened at some time."""
    chance = Chance(plan["seed"], "open", piece.target.name, piece.number)
    return bool(piece.certificates) and chance.hit(
        float(plan["later"]["case_opened"]))


def between_certificates(before, after):
    if before["service"] != after["service"]:
        return "crossed-over", "from one case to the other, by both labels"
    if before["grade"] != after["grade"]:
        return "re-graded", "a new number and another grade"
    return "re-cased", "a new number and the same grade"


def history(piece, changed, plan):
    """What happened to the piece, in order of time."""
    made = []
    for before, after in zip(piece.certificates, piece.certificates[1:]):
        event, note = between_certificates(before, after)
        made.append(dict(date=after["date"], event=event,
                         service=after["service"], note=note))
    last = piece.certificates[-1] if piece.certificates else None
    chance = Chance(plan["seed"], "history", piece.target.name, piece.number)
    if last and not made and chance.hit(float(plan["later"]["re_cased"])):
        year = int(last["date"][:4]) + chance.between(1, 3)
        if year < 2026:
            made.append(dict(date=str(year), event="re-cased",
                             service=last["service"],
                             note="the case had cracked; the same number"))
    if opened(piece, plan):
        made.append(dict(date="2026", event="opened",
                         service=last["service"],
                         note="a gap in the weld at the foot"))
    made += [dict(date=a["date"], event="altered", note=a["note"])
             for a in changed if "date" in a]
    return sorted(made, key=lambda event: event["date"])


def merged(piece, ident, plan):
    """The entry that turned out to be this same piece, if there was one."""
    chance = Chance(plan["seed"], "merge", piece.target.name, piece.number)
    if len(piece.seen) < 3 or piece.missed or piece.doubted:
        return None
    if not chance.hit(float(plan["later"]["merged"])):
        return None
    return dict(was=f"{ident}-bis",
                date=f"{chance.between(2016, 2025)}",
                reason=chance.pick(wording.MERGED))


def carded_accessories(corpus, piece, plan):
    """What can be seen under the blister, for some pieces."""
    chance = Chance(plan["seed"], "with", piece.target.name, piece.number)
    without = piece.target.ident == "receivers-cards"
    if not without and not chance.hit(float(plan["later"]["accessories"])):
        return []
    own = corpus.characters[piece.pairing["character"]].get("accessories", [])
    word = "missing" if without else "original"
    return [dict(accessory=name, original=word) for name in own]


def add_to_specimen(corpus, record, piece, sights, plan):
    """Adds to the record of a piece all that is told of it here."""
    later = plan["later"]
    chance = Chance(plan["seed"], "state", piece.target.name, piece.number)
    found = carded_accessories(corpus, piece, plan)
    if found:
        record["accessories"] = found
    if piece.certificates and chance.hit(0.8):
        record["case"] = case(piece.certificates[-1], opened(piece, plan))
    shown = [s for s in sights if s["how"] != "one-side"]
    if shown and chance.hit(float(later["specimen_condition"])):
        record["condition"] = over_time(piece, shown, plan)
    changed = alterations(piece, plan)
    if changed:
        record["alterations"] = changed
    events = history(piece, changed, plan)
    if events:
        record["history"] = events
    once = merged(piece, record["id"], plan)
    if once and not record["name"].endswith("second entry"):
        record["merged"] = [once]
        record["formerly"] = [once["was"]]


def over_time(piece, shown, plan):
    """Condition on the last day it was seen, and what it was like before."""
    last = shown[-1]["date"]
    made = condition(piece, ["front", "back"], last, plan, dated=True)
    since = yellowed_since(piece, plan)
    first = shown[0]["date"]
    if since and int(first[:4]) < since <= int(last[:4]) and any(
            m["part"] == "blister" and m["state"] == "yellowed" for m in made):
        made.insert(0, part("blister", "sound", None, first))
    return made


def split(target, plan):
    """Gives some specimens the entry that they were once taken for."""
    records = [r for r in target.records if not r[0].doubted]
    for (first, one, _), (second, other, _) in zip(records, records[1:]):
        chance = Chance(plan["seed"], "split", target.name, second.number)
        alike = first.marks[0] == second.marks[0] and first is not second
        if alike and chance.hit(float(plan["later"]["split"])):
            other["split_from"] = one["id"]
            other["split_reason"] = chance.pick(wording.SPLIT)


def sale(sight, words, plan):
    """What came of it, and who saw it."""
    made = {}
    chance = Chance(plan["seed"], "outcome", *words, sight["date"])
    if chance.hit(float(plan["later"]["outcome"])):
        table = OUTCOMES[sight["venue"]]
        made["outcome"] = chance.weigh(list(table.items()))
    if sight.get("beside"):
        made["also_listed"] = [sight["beside"]]
    chance = Chance(plan["seed"], "reader", *words, sight["date"],
                    sight["source"])
    readers = [who for who, since in READERS.get(sight["source"], [])
               if sight["year"] >= since]
    if readers and not sight["again"] and chance.hit(
            float(plan["later"]["seen_by"])):
        made["seen_by"] = chance.pick(readers)
    return made


def of_sighting(piece, sight, sides, held, plan):
    """What a sighting of a carded piece tells beyond where and when."""
    words = [piece.target.name, piece.number]
    chance = Chance(plan["seed"], "noted", *words, sight["date"],
                    sight["source"])
    made = {}
    if held and chance.hit(0.5):
        made["case"] = case(held, False)
    if chance.hit(float(plan["later"]["condition"][sight["how"]])):
        made["condition"] = condition(piece, sides, sight["date"], plan)
    told = [a for a in alterations(piece, plan)
            if a["certainty"] == "disclosed"]
    if told and sight["venue"] in ("dealer", "trade", "auction"):
        made["alterations"] = [
            {key: a[key] for key in ("what", "certainty")} for a in told]
    made.update(sale(sight, words, plan))
    return made


def loose(corpus, character, number, plan):
    """Condition of a loose figure, and what is with it."""
    chance = Chance(plan["seed"], "loose-state", number)
    table = plan["later"]["loose"]
    paint = chance.weigh([(k, int(v)) for k, v in table["paint"].items()])
    joints = chance.weigh([(k, int(v)) for k, v in table["joints"].items()])
    made = [part("paint", paint), part("joints", joints)]
    words = [(k, int(v)) for k, v in table["accessories"].items()]
    own = corpus.characters[character].get("accessories", [])
    return made, [dict(accessory=name, original=chance.weigh(words))
                  for name in own]
