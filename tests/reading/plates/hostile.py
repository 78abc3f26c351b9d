"""Pieces that, repeated, would send a careless pattern back to its beginning again and again."""
PIECES = ["1O", "9", "1,", "- ", "C1+", "A:", "5V/", "class ", "level ", "model ", "UL EN ",
          "1.1.", "(", "super", "crossed out ", "2 x ", "5-", "O", "．", "total "]
