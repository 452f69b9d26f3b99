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
