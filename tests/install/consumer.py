# SPDX-License-Identifier: GPL-3.0-or-later
"""An example of a user's script: loads the installed libraries with ctypes. Arguments: library folder, scenario file."""
import ctypes
import json
import sys

library = ctypes.CDLL(sys.argv[1] + "/libspalltime.so.0")
library.spt_life_basic.argtypes = [ctypes.c_int, ctypes.c_double, ctypes.c_double, ctypes.POINTER(ctypes.c_double)]
life = ctypes.c_double()
assert library.spt_life_basic(0, 24.2, 3.0, ctypes.byref(life)) == 0  # 0: deep groove ball
assert abs(life.value - (24.2 / 3.0) ** 3) < 1e-9, life.value

run = ctypes.CDLL(sys.argv[1] + "/libspalltime_run.so.0")
run.spt_run_text.restype = ctypes.c_void_p  # kept as an address, so that spt_free can be called with it
run.spt_run_text.argtypes = [ctypes.c_char_p, ctypes.c_char_p, ctypes.c_char_p, ctypes.c_size_t, ctypes.c_char_p,
                             ctypes.POINTER(ctypes.c_int)]
run.spt_free.argtypes = [ctypes.c_void_p]
text = open(sys.argv[2], "rb").read()
answer = run.spt_run_text(b"life", b"json", text, len(text), None, None)
result = json.loads(ctypes.string_at(answer))
run.spt_free(answer)
assert result["exit_status"] in (0, 1), result
status = ctypes.c_int(-1)
answer = run.spt_run_text(b"life", b"html", text, len(text), None, ctypes.byref(status))
page = ctypes.string_at(answer)
run.spt_free(answer)
assert status.value == result["exit_status"] and page.startswith(b"<!DOCTYPE html>"), page[:200]
print("Python: modified rating life %.0f h" % result["system"]["modified_rating_life_h"])
