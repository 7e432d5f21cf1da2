"""Measures rasterised pages: check marks in both directions, the frame of the
window, and whether neighbouring tiles show the same drawing in their overlap.
Arguments: a name, the table of marks in mm, the pages as PGM at 600 dpi."""
import sys

DPI = 600.0
K = DPI / 25.4
EDGE, SIDE, BOTTOM, OVERLAP = 10.0, 15.0, 34.0, 10.0  # the layout of a page, mm


class Page:
    def __init__(self, path):
        data = open(path, "rb").read()
        fields, at = [], 0
        while len(fields) < 4:
            end = at
            while data[end : end + 1] not in (b" ", b"\n"):
                end += 1
            fields.append(data[at:end])
            at = end + 1
        self.w, self.h, self.data = int(fields[1]), int(fields[2]), data[at:]

    def at(self, x, y):  # darkness 0..255 at a pixel, y from below
        return 255 - self.data[(self.h - 1 - y) * self.w + x]

    def column(self, x_mm, y_mm, reach=1.2):
        """The middle in x of the one dark line near x at height y, pixels."""
        y = int(y_mm * K)
        lo, hi = int((x_mm - reach) * K), int((x_mm + reach) * K)
        return centre([(x + 0.5, self.at(x, y)) for x in range(lo, hi)])

    def row(self, x_mm, y_mm, reach=1.2):
        x = int(x_mm * K)
        lo, hi = int((y_mm - reach) * K), int((y_mm + reach) * K)
        return centre([(y + 0.5, self.at(x, y)) for y in range(lo, hi)])


def centre(profile):
    weight = sum(d for _, d in profile)
    if weight < 60:
        raise SystemExit("no line where one should be")
    return sum(p * d for p, d in profile) / weight


worst = 0.0


def check(what, got, want):
    global worst
    off = got - want
    worst = max(worst, abs(off))
    if abs(off) > 1:
        raise SystemExit("%s: %.2f pixels, want %.2f" % (what, got, want))


name, table, files = sys.argv[1], sys.argv[2], sys.argv[3:]
pages = [Page(f) for f in files]
marks = 0
for line in open(table):
    n, x0, y0, x1, y1 = line.split("\t")
    p, x0, y0, x1, y1 = pages[int(n) - 1], float(x0), float(y0), float(x1), float(y1)
    if y0 == y1:
        got = p.column(x1, y0 - 1.8) - p.column(x0, y0 - 1.8)
    else:
        got = p.row(x0 + 1.8, y1) - p.row(x0 + 1.8, y0)
    check("a mark on page " + n, got, max(x1 - x0, y1 - y0) * K)
    marks += 1
if marks != 4 * len(pages):
    raise SystemExit("%d marks on %d pages" % (marks, len(pages)))

for i, p in enumerate(pages):
    w, h = p.w / K, p.h / K
    x0, x1, y0, y1 = EDGE + SIDE, round(w, 1) - EDGE, EDGE + BOTTOM, round(h, 1) - EDGE
    across, up = [], []
    for part in (0.11, 0.27, 0.41, 0.57, 0.73, 0.89):
        try:
            across.append(p.column(x1, y0 + part * (y1 - y0), 0.3) - p.column(x0, y0 + part * (y1 - y0), 0.3))
            up.append(p.row(x0 + part * (x1 - x0), y1, 0.3) - p.row(x0 + part * (x1 - x0), y0, 0.3))
        except SystemExit:
            pass
    across.sort()
    up.sort()
    check("the frame across page %d" % (i + 1), across[len(across) // 2], (x1 - x0) * K)
    check("the frame up page %d (%.0f mm)" % (i + 1, y1 - y0), up[len(up) // 2], (y1 - y0) * K)


def overlap(a, b, ax, ay, bx, by, w, h):
    """Dark pixels of a's band that have no dark pixel of b's within one pixel."""
    lost = seen = 0
    for j in range(int(h * K)):
        for i in range(int(w * K)):
            if a.at(int(ax * K) + i, int(ay * K) + j) < 150:
                continue
            seen += 1
            x, y = int(round(int(ax * K) + i + (bx - ax) * K)), int(round(int(ay * K) + j + (by - ay) * K))
            if not any(b.at(x + u, y + v) > 60 for u in (-1, 0, 1) for v in (-1, 0, 1)):
                lost += 1
    return seen, lost


a, b = pages[0], pages[1]
w, h = round(a.w / K, 1), round(a.h / K, 1)
mid = (EDGE + BOTTOM + h - EDGE) / 2
# Beside the words on the seam: below them.
seen, lost = overlap(a, b, w - EDGE - OVERLAP + 0.5, EDGE + BOTTOM + 12, EDGE + SIDE + 0.5, EDGE + BOTTOM + 12, OVERLAP - 1, mid - EDGE - BOTTOM - 5)
more = overlap(b, a, EDGE + SIDE + 0.5, EDGE + BOTTOM + 12, w - EDGE - OVERLAP + 0.5, EDGE + BOTTOM + 12, OVERLAP - 1, mid - EDGE - BOTTOM - 5)
if seen < 500 or lost + more[1] > 0:
    raise SystemExit("tiles differ: %d and %d of %d pixels have no partner" % (lost, more[1], seen))
print("%s: %d marks and %d frames within %.2f pixels; %d dark pixels of an overlap have their partner" % (name.split("/")[-1], marks, 2 * len(pages), worst, seen))
