"""From targets to pieces, occasions, specimens and sightings.

A piece is what exists; a specimen is a piece as the lists know it; a target is
the pairing or anomaly that it belongs to.
"""

from chance import Chance
import wording

SQUARE = ["square", "amber"]


class Target:
    """A pairing or an anomaly, with what the plan says of it."""

    def __init__(self, kind, ident, pairings, market, exist, interest):
        self.kind, self.ident, self.pairings = kind, ident, pairings
        self.market, self.exist, self.interest = market, exist, interest
        self.pieces = []

    @property
    def name(self):
        return f"{self.kind}/{self.ident}"


class Piece:
    """One thing that exists. `seen` holds (list, date, how, venue, place)."""

    def __init__(self, target, number, pairing, combination):
        self.target, self.number = target, number
        self.pairing, self.combination = pairing, combination
        self.marks, self.certificates, self.seen = [], [], []
        self.catch, self.doubted, self.missed = 1.0, None, False


def find_targets(corpus, plan):
    """Every target, anomalies first, in the order of the corpus."""
    targets, focal = [], plan["focal"]
    pairings = corpus.pairings
    for ident, anomaly in corpus.anomalies.items():
        chosen = [pairings[p] for p in anomaly["pairings"]]
        told = focal[ident]
        targets.append(
            Target("anomaly", ident, chosen, corpus.market(chosen[0]),
                   int(told["exist"]), float(told["interest"]))
        )
    for ident, pairing in pairings.items():
        exist, interest = rest_of(ident, pairing, plan)
        if ident in focal:
            exist = int(focal[ident]["exist"])
            interest = float(focal[ident]["interest"])
        targets.append(
            Target("pairing", ident, [pairing], corpus.market(pairing), exist,
                   interest)
        )
    return targets


def rest_of(ident, pairing, plan):
    """How many exist of a pairing that the plan does not name."""
    if pairing["concluded"] != "accepted" or not pairing.get("combinations"):
        return 0, 0.0
    chance = Chance(plan["seed"], "exist", ident)
    table = plan["rest"]
    exist = chance.weigh([(int(k), int(v)) for k, v in table["exist"].items()])
    interest = chance.weigh([(int(k), int(v)) for k, v in table["interest"].items()])
    return exist, interest / 100


def ordinary(pairing, anomaly):
    """The combinations of a pairing that a piece of the target can be."""
    found = [
        c for c in pairing.get("combinations", [])
        if c.get("anomaly") == anomaly and c.get("concluded") != "disproved"
    ]
    return found or [{}]


def make_pieces(target, plan):
    anomaly = target.ident if target.kind == "anomaly" else None
    catch = [(int(k), int(v)) for k, v in plan["catchability"].items()]
    known = set()
    extra = 0
    if target.ident in plan["focal"]:
        extra = 1 if Chance(plan["seed"], "doubt", target.name).hit(0.4) else 0
    for number in range(1, target.exist + extra + 1):
        chance = Chance(plan["seed"], target.name, number)
        pairing = chance.pick(target.pairings)
        choices = ordinary(pairing, anomaly)
        weights = [(c, 4 if at == 0 else 2) for at, c in enumerate(choices)]
        piece = Piece(target, number, pairing, chance.weigh(weights))
        piece.catch = chance.weigh(catch) / 10
        while not piece.marks or tuple(piece.marks) in known:
            piece.marks = wording.carded_marks(chance, target.market)
        known.add(tuple(piece.marks))
        if number > target.exist:
            piece.doubted, piece.catch = chance.pick(wording.DOUBTS), 1.0
        target.pieces.append(piece)


def day(chance, year, form, last):
    """A date in the year; the plan's last list stops in August."""
    month = chance.between(1, 8 if year == last else 12)
    if form == "month":
        return f"{year}-{month:02d}"
    return f"{year}-{month:02d}-{chance.between(1, 28):02d}"


def place(chance, source, venue):
    if venue == "auction":
        return f"lot {chance.between(11, 980)}"
    if venue in ("show", "exhibition"):
        return chance.pick(wording.ABROAD.get(source["id"], wording.TOWNS))
    return None


def watch(piece, plan, last):
    """Every occasion, in order; fills piece.seen."""
    target = piece.target
    for source in plan["lists"]:
        effort = float(source["effort"][target.market])
        shows = [(k, int(v)) for k, v in source["shows"].items()]
        venues = [(k, int(v)) for k, v in source["venues"].items()]
        for year in range(int(source["from"]), int(source["to"]) + 1):
            chance = Chance(plan["seed"], "see", target.name, piece.number,
                            source["id"], year)
            if not chance.hit(min(0.9, effort * target.interest * piece.catch)):
                continue
            venue = chance.weigh(venues)
            date = day(chance, year, source["dates"], last)
            piece.seen.append(
                dict(source=source["id"], prefix=source["prefix"], year=year,
                     date=date, how=chance.weigh(shows), venue=venue,
                     place=place(chance, source, venue), again=False)
            )
    piece.seen.sort(key=lambda s: (s["date"], s["source"]))


def list_twice(piece, plan):
    """Auction sightings that the saleroom watch has as well, on the same day."""
    watch_list = next(x for x in plan["lists"] if x["id"] == "saleroom-watch")
    years = range(int(watch_list["from"]), int(watch_list["to"]) + 1)
    taken = {s["year"] for s in piece.seen if s["source"] == "saleroom-watch"}
    for sight in list(piece.seen):
        chance = Chance(plan["seed"], "twice", piece.target.name, piece.number,
                        sight["date"], sight["source"])
        if (
            sight["venue"] == "auction"
            and sight["source"] != "saleroom-watch"
            and sight["year"] in years
            and sight["year"] not in taken
            and chance.hit(4 * float(plan["listed_twice"]))
        ):
            taken.add(sight["year"])
            piece.seen.append({**sight, "source": "saleroom-watch",
                               "prefix": "saleroom", "how": "one-side",
                               "again": True, "beside": sight["source"]})
            sight["beside"] = "saleroom-watch"
    piece.seen.sort(key=lambda s: (s["date"], s["again"], s["source"]))


def certify(piece, corpus, plan):
    chance = Chance(plan["seed"], "case", piece.target.name, piece.number)
    if piece.doubted or not chance.hit(float(plan["certified"])):
        return
    times = 2 if chance.hit(float(plan["certified_again"])) else 1
    year = chance.between(2008, 2023)
    for _ in range(times):
        choices = ["tamblyn-coyle"]
        if piece.target.market != "home":
            choices = ["lichtkamer"]
        elif year >= 2013:
            choices.append("lichtkamer")
        service = chance.pick(choices)
        if service == "lichtkamer" and year < 2013:
            year = chance.between(2013, 2023)
        piece.certificates.append(grading(chance, corpus, service, year))
        year = chance.between(year + 1, year + 3)
        if year > 2025:
            break


def grading(chance, corpus, service, year):
    """A certificate: the overall lies within the range of the parts."""
    scale = corpus.scales[corpus.services[service]["scale"]]
    steps, most = scale["steps"], len(scale["steps"]) - 1
    at = min(most, chance.between(1, 3) + chance.below(4) + chance.below(3))
    made = dict(service=service,
                certificate=f"{service[0].upper()}{year % 100:02d}-{chance.between(1000, 9899)}",
                date=f"{year}-{chance.between(1, 12):02d}", grade=steps[at])
    if chance.hit(0.12):
        made["qualifiers"] = [chance.pick(scale["qualifiers"])]
    if chance.hit(0.5):
        parts = scale["parts"]
        low, high = max(0, at - 2), min(most, at + 2)
        grades = [chance.between(low, high) for _ in parts]
        grades[0] = min(grades[0], at)
        grades[-1] = max(grades[-1], at)
        made["subgrades"] = [
            dict(part=part, grade=steps[grade])
            for part, grade in zip(parts, grades)
        ]
    return made


def case_at(piece, date):
    """The certificate that a piece is cased under on a date, if any."""
    held = [c for c in piece.certificates if c["date"] < date[:7]]
    return held[-1] if held else None


def populate(corpus, plan):
    """All targets with their pieces and what was seen of them."""
    last = max(int(source["to"]) for source in plan["lists"])
    targets = find_targets(corpus, plan)
    doubted = 0
    for target in targets:
        make_pieces(target, plan)
        for piece in target.pieces:
            if piece.doubted:
                doubted += 1
                if doubted > int(plan["doubted"]):
                    piece.doubted = None
                    continue
            certify(piece, corpus, plan)
            watch(piece, plan, last)
            list_twice(piece, plan)
        target.pieces = [
            p for p in target.pieces if p.number <= target.exist or p.doubted
        ]
    return targets
