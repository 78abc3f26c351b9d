"""Capability lists for tests: two found in public logs, and single words of the power data object
tables of USB PD revision 3.2 (see tests/engine/physics/test_power_objects.py).
"""
# 5, 9, 12, 15 V 3 A, 20 V 5 A, 3.3 to 21 V 5 A: 100 W
HUNDRED = (0x0A01912C, 0x0002D12C, 0x0003C12C, 0x0004B12C, 0x000641F4, 0xC1A42164)
# 5, 9 V 3 A, 12 V 5 A, 15 V 4.33 A, 20 V 3.25 A: 65 W
SIXTY_FIVE = (0x0A01912C, 0x0002D12C, 0x0003C1F4, 0x0004B1B1, 0x00064145)
FIVE = 0x0A01912C           # 5 V 3 A with flags
NINE = 0x0002D12C           # 9 V 3 A
FIFTEEN = 0x0004B12C        # 15 V 3 A
TWENTY = 0x00064145         # 20 V 3.25 A
EPR_FLAG = 1 << 23
