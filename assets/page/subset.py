"""Cuts the program's fonts down to the letters of the client's page: python3 subset.py, in this folder.

The licence of the fonts (OFL 1.1) asks that what is changed bears another name."""
from fontTools import subset

LATIN = [*range(0x20, 0x7F), *range(0xA0, 0x100)]
MARKS = [ord(c) for c in "–—‘’“”•…′″€−≤≥□✓→⅛⅜⅝⅞"]

for weight in "Regular", "Semibold":
    options = subset.Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "liga", "mark"]
    options.hinting = False
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    font = subset.load_font(f"../fonts/Lato-{weight}.ttf", options)
    font.recalcTimestamp = False
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=LATIN + MARKS)
    cutter.subset(font)
    for record in font["name"].names:
        if record.nameID in (1, 3, 4, 6):
            record.string = f"Sheet{'' if record.nameID == 6 else ' '}{weight}"
    subset.save_font(font, f"sheet-{weight.lower()}.woff2", options)
