"""Canonical caseless forms, NFC(casefold(NFD(X))), of every letter that has another one, in the scripts that people write.

Usage: python3 make_folding.py >folding.txt
"""
import unicodedata

SCRIPTS = [(0x41, 0x5FF), (0x10A0, 0x1100), (0x13A0, 0x1400), (0x1E00, 0x2000), (0x2C00, 0x2D30), (0xA640, 0xA7F0),
           (0x10400, 0x10450), (0x1E900, 0x1E944)]


def hexed(text):
    return " ".join(f"{ord(c):04X}" for c in text)


def folded(text):
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", text).casefold())


for first, end in SCRIPTS:
    for code in range(first, end):
        letter = chr(code)
        if unicodedata.category(letter)[0] == "L" and folded(letter) != letter:
            print(f"{hexed(letter)};{hexed(folded(letter))}")
# Letters written with their marks apart, in any case.
for base in "aeiouAEIOUnNcCsSzZ":
    for mark in "\u0300\u0301\u0302\u0303\u0308\u030A\u030C\u0327":
        print(f"{hexed(base + mark)};{hexed(folded(base + mark))}")
