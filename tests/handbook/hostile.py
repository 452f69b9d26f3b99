"""Seeded corpora that are sound and yet ill-behaved: very long names, words
that cannot be broken, long tables, empty markets, scripts without a font,
prose of lists in lists. Every text is made up here.
"""
import json
import random

SYLLABLES = ("sal ter mor gan wick od rud hest fen lin tar quo pell aro e ia "
             "straw ket nor bri dun osk").split()
STRANGE = ["Ὀδυσσεύς", "Ελληνική", "Łódź", "ﬁn", "naïve", "שלום", "سلام",
           "漢字", "😀", "a\u0301o\u0308", "x\u00adx\u00adx", "\u200bzero",
           "eighty–three", "A/B/C", "<b>&amp;</b>", "'quoted'", "back\\slash",
           "(p. 12)", "%s%n", "no\u00a0break", "— dash —"]


class Corpus:
    def __init__(self, seed):
        self.random = random.Random(seed)
        self.records = {}

    def word(self):
        r = self.random
        if r.random() < 0.06:
            return r.choice(STRANGE)
        if r.random() < 0.01:
            return "".join(r.choices(SYLLABLES, k=r.randint(20, 120)))
        return "".join(r.choices(SYLLABLES, k=r.randint(1, 4)))

    def text(self, least, most):
        return " ".join(self.word() for _ in range(
            self.random.randint(least, most)))

    def name(self):
        most = 40 if self.random.random() < 0.1 else 4
        own = "".join(self.random.choices("BDFGHKMNPRSTZ", k=9))
        return f"{self.text(1, most)} {own}"

    def prose(self):
        r, out = self.random, []
        for _ in range(r.randint(1, 5)):
            kind = r.random()
            if kind < 0.6:
                out.append(self.plain(5, 120))
            elif kind < 0.75:
                out.append("\n".join(f"{'  ' * min(i % 7, 3)}- "
                                     + self.plain(1, 30)
                                     for i in range(r.randint(1, 15))))
            elif kind < 0.85:
                out.append("    " + "x" * r.randint(1, 300) + "\n    y z")
            elif kind < 0.92:
                out.append("> " + self.plain(3, 60))
            else:
                out.append("### " + self.plain(1, 20))
        return "\n\n".join(out)

    def plain(self, least, most):
        """Text that is its own CommonMark, now and then with a link."""
        words = [word for word in self.text(least, most).split(" ")
                 if word[:1] not in "<>'\\(%—" and "&" not in word]
        if self.random.random() < 0.4 and self.records.get("character"):
            target = self.random.choice(self.records["character"])["id"]
            words.append(f"[{self.random.choice(SYLLABLES)}]"
                         f"(ref:character/{target})")
        return " ".join(words) or "word"

    def add(self, kind, **fields):
        records = self.records.setdefault(kind, [])
        fields = {"id": f"{kind[0]}{len(records)}", **fields}
        records.append(fields)
        return fields["id"]

    def make(self):
        r = self.random
        self.add("source", name=self.name(), text=self.prose())
        self.add("edition", name=self.name(), year=2026,
                 published="2026-02", correct=self.word(),
                 contributors=[self.name() for _ in range(60)])
        markets = [self.add("market", name=self.name())
                   for _ in range(r.randint(1, 12))]
        schemes = {m: self.add("scheme", name=self.name(), market=m)
                   for m in markets}
        people = [self.add("character", names={"en": self.name()},
                           text=self.prose())
                  for _ in range(r.randint(1, 90))]
        pairs = []
        for market in markets[1:] or markets:
            for i in range(r.randint(0, 14)):
                label = f"{r.randint(1, 99)}{chr(65 + i)}"
                if r.random() < 0.1:
                    label += "".join(r.choices(SYLLABLES, k=40))
                card = self.add("cardback", market=market,
                                number=r.randint(1, 99), text=self.prose(),
                                labels=[{"scheme": schemes[market],
                                         "label": label}])
                pairs += [self.add("pairing", character=one, cardback=card,
                                   concluded=r.choice(
                                       ["accepted", "open", "doubted"]))
                          for one in r.sample(people, r.randint(
                              0, len(people)))]
        for _ in range(3 if pairs else 0):
            some = r.sample(pairs, min(len(pairs), r.choice([1, 5, 300])))
            self.add("anomaly", name=self.name(), standing="avoided",
                     tells=[self.text(1, 60)], how_to_tell=self.prose(),
                     pairings=some, estimates=[
                         {"pairing": pair, "of": "made", "low": 1,
                          "high": 10**9, "date": "1999", "source": "s0"}
                         for pair in some[:50]])
        for _ in range(r.randint(0, 120)):
            self.add("term", name=self.name(), meaning=self.plain(1, 80))
        return self

    def write(self, folder):
        """JSON is YAML; a list of records a kind."""
        folder.mkdir(parents=True)
        title = json.dumps(self.name(), ensure_ascii=False)
        (folder / "corpus.yaml").write_text(f"format: 1\ntitle: {title}\n")
        for kind, records in self.records.items():
            (folder / kind).mkdir()
            (folder / kind / "all.yaml").write_text(json.dumps(
                records, ensure_ascii=False, indent=1) + "\n")
