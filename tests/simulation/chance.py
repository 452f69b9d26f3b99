"""Chance that is the same everywhere.

A SplitMix64 generator seeded by the FNV-1a hash of a text, so that each piece
of the simulation has a stream of its own: adding a pairing does not disturb the
others. Only integer arithmetic, comparison and products of floats are used, so
that the results do not depend on the version of Python or on the C library.
"""

MASK = (1 << 64) - 1


def hash_text(text):
    """The 64-bit FNV-1a hash of the text's UTF-8 bytes."""
    value = 0xCBF29CE484222325
    for byte in text.encode("utf-8"):
        value = ((value ^ byte) * 0x100000001B3) & MASK
    return value


class Chance:
    """One stream of numbers. The same words give the same stream."""

    def __init__(self, *words):
        self.state = hash_text("/".join(str(word) for word in words))

    def bits(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & MASK
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        return z ^ (z >> 31)

    def below(self, limit):
        """A whole number from 0 to limit - 1."""
        return self.bits() % limit

    def between(self, low, high):
        """A whole number from low to high, both included."""
        return low + self.below(high - low + 1)

    def share(self):
        """A number from 0 up to 1."""
        return (self.bits() >> 11) / 9007199254740992.0

    def hit(self, probability):
        return self.share() < probability

    def pick(self, items):
        return items[self.below(len(items))]

    def weigh(self, pairs):
        """One of the items of (item, weight) pairs; weights are whole."""
        at = self.below(sum(weight for _, weight in pairs))
        for item, weight in pairs:
            if at < weight:
                return item
            at -= weight
        raise AssertionError("unreachable")
