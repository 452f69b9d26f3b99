"""What any handbook must keep, whatever its corpus.

Each check takes a Report and a Pdf (see pdf.py).
"""
import re
import subprocess

from pdf import run

MM = 72 / 25.4


class Paper:
    """Published size, our margins, and the heights between which running
    head, type area and folio stand; the thumb index stands outside them, at
    the very edge. All in millimetres, kept in points."""

    def __init__(self, width, height, inner, outer, top, bottom, tab):
        self.size = (width * MM, height * MM)
        self.inner, self.outer = inner * MM, outer * MM
        self.top, self.bottom, self.tab = top * MM, bottom * MM, tab * MM


# A4 and A5: ISO 216. Letter: 8.5 by 11 inches (ANSI/ASME Y14.1, from memory;
# the same in libpaper's table), and the half of it.
PAPERS = {
    "a5": Paper(148, 210, 18, 16, 10, 202, 7),
    "half-letter": Paper(139.7, 215.9, 17, 15, 10, 207.5, 7),
    "a4": Paper(210, 297, 24, 28, 14, 286, 9.5),
    "letter": Paper(215.9, 279.4, 25, 29, 14, 268.5, 9.5),
    "a4 --large-print": Paper(210, 297, 22, 20, 12, 288, 11.5),
    "letter --large-print": Paper(215.9, 279.4, 23, 21, 12, 271, 11.5),
}


class Report:
    def __init__(self):
        self.passed = self.failed = 0

    def look(self, what, wrong):
        """One check, with what is wrong, a line each."""
        wrong = list(wrong)
        self.failed += bool(wrong)
        self.passed += not wrong
        for line in wrong[:8]:
            print(f"{what}: {line}")

    def close(self):
        print(f"{self.passed} passed, {self.failed} failed")
        return self.failed > 0


def check_file(report, pdf, paper=PAPERS["a5"]):
    done = subprocess.run(["qpdf", "--check", pdf.path], capture_output=True,
                          text=True)
    report.look("qpdf --check", [] if done.returncode == 0 and "WARNING"
                not in done.stdout + done.stderr
                else [done.stdout + done.stderr])
    fonts = run("pdffonts", pdf.path).splitlines()[2:]
    report.look("fonts", [line for line in fonts
                          if not re.search(r" yes yes yes +\d+ +\d+$", line)]
                + ([] if fonts else ["none"]))
    info = run("pdfinfo", pdf.path)
    report.look("pdfinfo", [f"lacks {text}" for text in
                            ("Title:", "Tagged:          yes")
                            if text not in info])
    report.look("paper", [f"page {i}: {box}"
                          for i, box in enumerate(pdf.boxes)
                          if max(abs(box[0] - paper.size[0]),
                                 abs(box[1] - paper.size[1])) > 0.1 * MM])


def contents_pages(pdf):
    """The first and the last page of the contents."""
    first = next(i for i in range(len(pdf.words))
                 if "Contents" in pdf.lines(i))
    last = next(i for i in range(first + 1, len(pdf.words))
                if "Cautions" in pdf.lines(i)) - 1
    return first, last


def check_contents(report, pdf, read, stands_on, least):
    """Each line that `read` finds (contents or linked_contents of pdf.py)
    leads to a page on which `stands_on` finds its title."""
    entries = list(read(pdf, *contents_pages(pdf)))
    report.look("contents", [f'"{title}" is not on page {label}'
                             for title, label in entries
                             if not stands_on(pdf, pdf.labels.index(label),
                                              title)])
    report.look("contents", [] if len(entries) >= least
                else [f"only {len(entries)} lines"])


def check_links(report, pdf, least):
    """A link whose words are a page number leads to that page."""
    wrong, numbers = [], 0
    labels = set(pdf.labels)
    for i in range(len(pdf.words)):
        for box, target in pdf.links(i):
            words = " ".join(w.text for w in pdf.words_in(i, box))
            if re.match(r"https?:|mailto:", target):
                continue
            if target not in pdf.dests:
                wrong.append(f"page {pdf.labels[i]}: no {target}")
                continue
            match = re.fullmatch(r"\W*(\d+)\W*", words)
            if match and match[1] in labels and "/" in target:
                numbers += 1
                if pdf.labels[pdf.dests[target]] != match[1]:
                    wrong.append(f"page {pdf.labels[i]}: {words} for "
                                 f"{target}")
    report.look("page numbers", wrong)
    report.look("page numbers", [] if numbers >= least
                else [f"only {numbers}"])


def check_edges(report, pdf, paper=PAPERS["a5"]):
    """No word outside the margins."""
    wrong = []
    for i, words in enumerate(pdf.words):
        left, right = paper.inner, paper.outer
        if i % 2 == 1:
            left, right = right, left
        for word in words:
            tab = (word.right < paper.tab
                   or word.left > paper.size[0] - paper.tab)
            if tab or (word.left >= left - 1
                       and word.right <= paper.size[0] - right + 1
                       and word.top >= paper.top
                       and word.bottom <= paper.bottom):
                continue
            wrong.append(f"page {pdf.labels[i]}: {word.text}")
    report.look("type area", wrong)


def check_overlaps(report, pdf):
    """No two words of a line over one another."""
    wrong = []
    for i in range(len(pdf.words)):
        for row in pdf.rows(i, 0.5):
            wrong += [f"page {pdf.labels[i]}: {a.text} and {b.text}"
                      for a, b in zip(row, row[1:])
                      if b.left < a.right - 1
                      and abs(a.bottom - b.bottom) < 0.5]
    report.look("overlaps", wrong)
