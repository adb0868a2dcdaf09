#!/usr/bin/python3
"""Make the embedded fonts from the go-fonts modules (needs Debian's python3-fonttools). Run in this folder.

The subsets carry a name of their own, because the licence of the first reserves its name for unchanged copies.
"""
import subprocess
from fontTools import subset
from fontTools.ttLib import TTFont

def module(path):
    return subprocess.check_output(["go", "list", "-m", "-f", "{{.Dir}}", path], text=True).strip()

lib, dej = module("github.com/go-fonts/liberation"), module("github.com/go-fonts/dejavu")
text = set(range(0x20, 0x7F)) | set(range(0xA0, 0x180)) | set(range(0x370, 0x400)) | set(range(0x2010, 0x203B)) | {
    0x2044, 0x20AC, 0x2122, 0x2126}
symbols = (set(range(0x2070, 0x20A0)) | set(range(0x2150, 0x215F)) | set(range(0x2190, 0x2200)) |
           set(range(0x2200, 0x2300)) | set(range(0x25A0, 0x2600)) | {0x2302, 0x2315, 0x231B, 0x23CE, 0x23CF, 0x23F8,
           0x23EE, 0x23ED, 0x23E9, 0x23EA, 0x2605, 0x2606, 0x2610, 0x2611, 0x2612, 0x2639, 0x263A, 0x2660, 0x2665,
           0x2690, 0x2691, 0x2699, 0x26A0, 0x26A1, 0x2713, 0x2714, 0x2715, 0x2716, 0x2717, 0x2718, 0x2794, 0x279C,
           0x27F2, 0x27F3, 0x2B06, 0x2B07, 0xFFFD})

def make(source, name, runes, out):
    options = subset.Options(layout_features=["kern"], hinting=False, legacy_kern=True, glyph_names=False,
                             notdef_outline=True, name_IDs=[1, 2, 4, 6], drop_tables=["GPOS", "GSUB", "GDEF", "DSIG"])
    f = TTFont(source, recalcTimestamp=False)
    s = subset.Subsetter(options)
    s.populate(unicodes=runes)
    s.subset(f)
    for r in f["name"].names:
        r.string = {1: name, 2: "Regular", 4: name, 6: name.replace(" ", "")}[r.nameID]
    f.save(out)
    print(out, len(f.getBestCmap()), "characters")

make(lib + "/liberationsansregular/LiberationSans-Regular.ttf", "Annuloscope Text", text, "text-regular.ttf")
make(lib + "/liberationsansbold/LiberationSans-Bold.ttf", "Annuloscope Text Bold", text, "text-bold.ttf")
make(dej + "/dejavusans/DejaVuSans.ttf", "Annuloscope Symbols", symbols, "symbols.ttf")
