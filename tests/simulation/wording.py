"""The words that make a piece recognisable: punch, creases, stickers, flaws.

Shops are invented. A piece is given marks until no other piece of its target
has the same ones.
"""

TABS = [
    ("unpunched", 4),
    ("punched clean", 6),
    ("punched, disc hanging by a thread", 1),
    ("tab creased across", 3),
    ("tab torn at the hole", 2),
    ("tab bent back", 2),
    ("tab missing", 1),
]

PLACES = [
    "at the lower left corner",
    "at the lower right corner",
    "at the upper left corner",
    "at the upper right corner",
    "down the left edge",
    "down the right edge",
    "across the portrait",
    "through the logo",
    "below the blister",
    "beside the blister, left",
    "beside the blister, right",
    "along the foot",
]

HARMS = [
    ("crease", 6),
    ("soft crease", 4),
    ("scuff", 3),
    ("small tear", 2),
    ("damp stain", 1),
    ("nick", 2),
    ("dent", 1),
]

SHOPS = {
    "home": [
        ("Pengelly", ["99p", "£1.05", "£1.19", "£1.25"]),
        ("Tremlett", ["95p", "£1.10", "£1.35"]),
        ("Corner Toyshop Bude", ["£1.15", "£1.29"]),
        ("Woodrow & Sons", ["£1.20", "50p in red"]),
        ("Harbour Bazaar", ["85p", "£1.09"]),
        ("Hartley", ["£1.25", "£1.40", "3 for £3"]),
    ],
    "lowlands": [
        ("De Speelboom", ["129 fr.", "f 7,95"]),
        ("Huis Verbruggen", ["139 fr.", "99 fr."]),
        ("Kinderhoek", ["f 8,50", "f 5,-"]),
    ],
    "greece": [
        ("Λάμπρου", ["185 δρχ.", "210 δρχ."]),
        ("Το Αερόστατο", ["195 δρχ.", "240 δρχ."]),
    ],
    "nordic": [
        ("Leketorget", ["kr 29,50", "kr 24,-"]),
        ("Leksaksboden", ["19:50", "26:-"]),
    ],
    "germany": [
        ("Spielzeug Amrain", ["DM 6,95", "DM 5,50"]),
        ("Kaufhaus Teck", ["DM 7,45", "öS 49,-"]),
    ],
}

EXTRAS = [
    "initials in pencil on the back",
    "proof of purchase cut out",
    "blister lifted at one corner",
    "blister dented over the head",
    "blister yellowed from the left",
    "faded from the right",
    "ink line on the back",
    "rubber stamp on the back",
    "figure has slipped down",
    "shadow of a round sticker",
    "shadow of an oblong sticker",
    "brown ring of a cup on the back",
    "corner cut off",
    "staple holes at the top",
    "stock number in wax pencil",
]

LOOSE = [
    "ink dot under the left foot",
    "ink dot under the right foot",
    "initials scratched in the back",
    "paint worn from the nose",
    "tooth mark on the left hand",
    "tooth mark on the right hand",
    "crack at the neck",
    "scorch on the sleeve",
    "varnish over the face",
    "hole drilled in the foot",
    "price in ballpoint on the leg",
    "green stain at the belt",
    "left arm stiff",
    "both legs loose",
    "glue at the hip",
]

DOUBTS = [
    "The seal has glue where the press leaves none.",
    "The blister is a modern one: no stems, and a flange that is too smooth.",
    "Torn fibres show under a flat flange: it has been opened.",
    "The figure is of a make that was not yet moulded.",
    "The card is a good print of a photograph; the dots can be seen with a lens.",
]

TOWNS = [
    "Truro", "Exeter", "Bristol", "Leeds", "Cork", "Dublin", "Cardiff",
    "Norwich", "Perth", "Carlisle", "Hull", "Luton",
]
ABROAD = {
    "verhaegen-list": ["Antwerpen", "Gent", "Utrecht", "Namur", "Breda"],
    "kaloudis-list": ["Αθήνα", "Πειραιάς", "Θεσσαλονίκη", "Βόλος"],
    "lindqvist-list": ["Malmö", "Bergen", "Aarhus", "Turku", "Göteborg"],
    "ruhl-list": ["Köln", "Graz", "Kassel", "Basel", "Nürnberg"],
}


def carded_marks(chance, market):
    """One to four marks of a carded piece, the punch first."""
    marks = [chance.weigh(TABS)]
    if chance.hit(0.85):
        marks.append(f"{chance.weigh(HARMS)} {chance.pick(PLACES)}")
    if chance.hit(0.45):
        shop, prices = chance.pick(SHOPS[market])
        marks.append(f"price sticker {shop} {chance.pick(prices)}")
    if chance.hit(0.4):
        marks.append(chance.pick(EXTRAS))
    return marks


def loose_marks(chance):
    first, second = chance.pick(LOOSE), chance.pick(LOOSE)
    return [first] if first == second else [first, second]


# Marks as condition: part, state, note, and a side that shows it.
CONDITION = {
    "unpunched": ("tab", "unpunched", None, "front"),
    "punched clean": ("tab", "punched", None, "front"),
    "punched, disc hanging by a thread":
        ("tab", "punched", "disc hanging by a thread", "front"),
    "tab creased across": ("tab", "creased", "across", "front"),
    "tab torn at the hole": ("tab", "torn", "at the hole", "front"),
    "tab bent back": ("tab", "bent", "back", "front"),
    "tab missing": ("tab", "missing", None, "front"),
    "proof of purchase cut out":
        ("card", "missing", "proof of purchase cut out", "back"),
    "blister lifted at one corner":
        ("blister", "lifted", "at one corner", "front"),
    "blister dented over the head":
        ("blister", "dented", "over the head", "front"),
    "blister yellowed from the left":
        ("blister", "yellowed", "from the left", "front"),
    "faded from the right": ("card", "faded", "from the right", "front"),
    "ink line on the back": ("card", "stained", "ink line", "back"),
    "rubber stamp on the back": ("card", "stained", "rubber stamp", "back"),
    "figure has slipped down": ("figure", "loose", "slipped down", "front"),
    "brown ring of a cup on the back":
        ("card", "stained", "ring of a cup", "back"),
    "corner cut off": ("card", "missing", "a corner", "front"),
}

HARM_STATES = {
    "crease": ("creased", None),
    "soft crease": ("creased", "soft"),
    "scuff": ("scuffed", None),
    "small tear": ("torn", "small"),
    "damp stain": ("stained", "damp"),
    "nick": ("torn", "nick"),
    "dent": ("dented", None),
}

DOUBT_ALTERATIONS = {
    DOUBTS[0]: dict(what="resealed", certainty="suspected",
                    note="glue where the press leaves none"),
    DOUBTS[1]: dict(what="blister-replaced", certainty="known",
                    note="no stems"),
    DOUBTS[2]: dict(what="resealed", certainty="known",
                    note="torn fibres under a flat flange"),
    DOUBTS[3]: dict(what="part-replaced", certainty="suspected",
                    note="a figure of a later make"),
}

ALTERATIONS = [
    dict(what="pressed", certainty="suspected",
         note="flatter than its creases allow"),
    dict(what="pressed", certainty="disclosed", date="2014",
         note="said by the seller"),
    dict(what="touched-up", certainty="disclosed",
         note="colour on a scuff, said by the seller"),
    dict(what="touched-up", certainty="suspected",
         note="ink in a crease that does not shine"),
    dict(what="cleaned", certainty="disclosed", date="2009",
         note="a price sticker and its glue taken off"),
    dict(what="trimmed", certainty="known",
         note="the foot is 2 mm short"),
    dict(what="resealed", certainty="suspected",
         note="a lower corner lies flatter than the rest"),
]

# By service: from which year, what the case looks like, where the label is.
CASES = {
    "tamblyn-coyle": [
        (0, "square box of two halves, a shallow groove in the foot", "top"),
        (2015, "slimmer box with round corners, a groove in the foot", "top"),
    ],
    "lichtkamer": [
        (0, "deep box on a black rail", "back"),
        (2019, "deep box on a black rail, a slot for the label", "side"),
    ],
}

MERGED = [
    "The same price sticker over the same crease, on both photographs.",
    "The owner had kept both sale slips.",
    "The same number on the label of the case.",
    "The nick and the punch agree when one photograph is laid on the other.",
    "One photograph had been printed the wrong way round.",
]

SPLIT = [
    "Two were on one table in 2011; they had been taken for one.",
    "The creases agree, and the punch does not when seen straight.",
    "Sold twice on one day, three hundred miles apart.",
    "One has a staple hole where the other has none.",
]
