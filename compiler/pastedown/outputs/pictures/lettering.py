"""How large the letters of pictures are, and how wide a picture is that has them, in millimetres.

On the screen of a telephone a picture is as wide as its text: 375 CSS pixels less a margin of 16 on either side. There
letters of `SIZE` on a picture of `MOST_WIDTH` are 11 CSS pixels high, which can be read without enlarging it. A choice,
looked at on the examples; no source. On paper they are as large as the text beside them.
"""

SIZE = 3.4
ROW = 5.0
TITLE_SIZE, TITLE_ROW = 4.2, 6.2
MOST_WIDTH = 104.0
