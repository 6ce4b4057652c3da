#!/usr/bin/python3
"""Makes the fonts of this folder from three Debian packages (see README.md).

make.py ROOT: ROOT is where the packages are unpacked. Glyphs that no name
needs, hinting and vertical metrics are left out; family names too, since one
of the licences reserves its own.
"""
import sys

from fontTools import subset
from fontTools.ttLib import TTFont

NOTO = "usr/share/fonts/truetype/noto/NotoSans%s-Regular.ttf"
INDIC = "Devanagari Bengali Gurmukhi Gujarati Oriya Tamil Telugu Kannada Malayalam Sinhala"
OTHERS = "Arabic Thai Lao Khmer Myanmar Georgian Armenian Ethiopic"

# file: (from, the characters to keep, None for all)
FONTS = {name.lower(): (NOTO % name, None) for name in (INDIC + " " + OTHERS).split()}
FONTS["han"] = (
    "usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf",
    [(0x3000, 0x33FF), (0x4E00, 0x9FFF), (0xF900, 0xFAFF), (0xFF00, 0xFFEF)],
)
FONTS["hangul"] = (
    "usr/share/fonts/truetype/nanum/NanumBarunGothic.ttf",
    [(0x3130, 0x318F), (0xAC00, 0xD7A3)],
)


def make(root, name, source, ranges):
    font = TTFont(f"{root}/{source}", recalcTimestamp=False)
    options = subset.Options()
    options.hinting = False
    options.name_IDs = [0, 13, 14]  # the copyright and the licence
    options.drop_tables += ["vhea", "vmtx", "FFTM"]
    if name == "ethiopic":
        options.layout_features.remove("kern")  # two thirds of the font
    subsetter = subset.Subsetter(options)
    subsetter.populate(
        unicodes=font.getBestCmap()
        if ranges is None
        else [c for first, last in ranges for c in range(first, last + 1)]
    )
    subsetter.subset(font)
    for id in (1, 4, 6):
        font["name"].setName(f"Detent-{name}", id, 3, 1, 0x409)
    font.save(f"{name}.ttf")


for name, (source, ranges) in FONTS.items():
    make(sys.argv[1], name, source, ranges)
