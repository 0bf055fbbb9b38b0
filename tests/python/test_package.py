# SPDX-License-Identifier: GPL-3.0-or-later
"""The Python package against the program, the headers and ISO 281. Run from the root of the source tree; SPALLTIME is the
program, PYTHONPATH has src/python."""
import json
import math
import os
import pathlib
import re
import subprocess
import tempfile
import threading
import time
import unittest
import warnings

import spalltime

try:
    import numpy
except ImportError:
    numpy = None

PROGRAM = os.environ.get("SPALLTIME", "build/release/spalltime")
SCENARIOS = pathlib.Path("scenarios")
DRUM = SCENARIOS / "gravel_conveyor_drum.yaml"
PLAIN = {
    "title": "A roller at a given load",
    "bearing": {"type": "cylindrical roller", "bore": "60 mm", "outside_diameter": "110 mm", "width": "22 mm",
                "dynamic_load_rating": "100 kN", "static_load_rating": "100 kN", "fatigue_load_limit": "12 kN"},
    "lubricant": {"kind": "oil bath", "viscosity_40": "150 mm2/s", "viscosity_100": "14.9 mm2/s"},
    "condition": {"cleanliness": "-/17/14"},
    "duty": [{"phase": "run", "time": "100 %", "speed": "1000 rpm", "radial_load": "10 kN", "temperature": "60 degC"}],
}


def program(*words: str, status: int | None = None) -> bytes:
    done = subprocess.run([PROGRAM, *words], capture_output=True, check=False)
    assert status is None or done.returncode == status, done
    return done.stdout


class Commands(unittest.TestCase):
    def test_answers_are_those_of_the_program(self):
        for name in ("beet_trailer_hub", "lesson_2_debris", "two_axle_trailer", "mixer_gearbox_shaft"):
            path = SCENARIOS / f"{name}.yaml"
            for command in (spalltime.life, spalltime.schedule):
                words = (command.__name__, "--format", "json", str(path))
                done = subprocess.run([PROGRAM, *words], capture_output=True, check=False)
                answer = command(path)
                self.assertEqual(dict(answer), json.loads(done.stdout), words)
                self.assertEqual(answer.status, done.returncode)
                self.assertEqual(answer.met, done.returncode == 0)

    def test_text_bytes_path_and_dict_are_one_scenario(self):
        text = DRUM.read_text(encoding="utf-8")
        lives = [spalltime.life(given)["system"] for given in (text, text.encode(), DRUM)]
        self.assertEqual(lives[0], lives[1])
        self.assertEqual(lives[0], lives[2])
        plain = spalltime.life(PLAIN)["system"]["basic_rating_life_h"]
        # L10 = (C/P)^(10/3) of rollers, in 10^6 revolutions: ISO 281:2007, equation 8 and clause 5.3 (from memory)
        self.assertTrue(math.isclose(plain, (100 / 10) ** (10 / 3) * 1e6 / (60 * 1000), rel_tol=1e-9), plain)

    def test_every_command_has_a_function(self):
        listed = re.findall(r"^  ([a-z]+)  ", program("help").decode().split("TOPICS")[0], re.M)
        self.assertGreater(len(listed), 15)
        for name in listed:
            if name not in ("help", "report"):  # those give no JSON: run() and write()
                self.assertTrue(callable(getattr(spalltime, name, None)), name)

    def test_the_verdict_is_that_of_the_answer(self):
        self.assertEqual(spalltime.life(SCENARIOS / "torn_seal_hub.yaml").verdict, "missed")
        self.assertFalse(spalltime.life(SCENARIOS / "torn_seal_hub.yaml").met)

    def test_options_are_keywords(self):
        answer = spalltime.reach(SCENARIOS / "lesson_2_debris.yaml", life="9000 h", lever="water")
        asked = json.loads(program("reach", "--format", "json", "--life=9000 h", "--lever=water",
                                   str(SCENARIOS / "lesson_2_debris.yaml")))
        self.assertEqual(dict(answer), asked)
        chosen = spalltime.choose(DRUM, from_=SCENARIOS / "invented_bearings.csv")
        self.assertIn("invented", json.dumps(dict(chosen)))

    def test_several_scenarios_and_files_in_memory(self):
        both = spalltime.compare(SCENARIOS / "lesson_1_clean.yaml",
                                 (SCENARIOS / "lesson_2_debris.yaml").read_text(encoding="utf-8"))
        self.assertEqual(len(both["cases"]), 2)
        text = (SCENARIOS / "log_infeed_history.csv").read_text(encoding="utf-8")
        measured = spalltime.life(SCENARIOS / "log_infeed.yaml", history="measured.csv", files={"measured.csv": text})
        known = spalltime.life(SCENARIOS / "log_infeed.yaml", history=SCENARIOS / "log_infeed_history.csv")
        self.assertEqual(measured["system"], known["system"])

    def test_other_commands(self):
        self.assertEqual(spalltime.fit(SCENARIOS / "trailer_returns.csv")["failures"], 10)
        self.assertTrue(spalltime.duty(SCENARIOS / "log_infeed_history.csv", SCENARIOS / "log_infeed.yaml"))
        self.assertTrue(spalltime.diagnose(SCENARIOS / "damaged" / "field_hub.yaml")["causes"])
        self.assertTrue(spalltime.damage("milky", "grease")["findings"])
        self.assertTrue(spalltime.catalog("bearings"))
        self.assertEqual(spalltime.schema("case")["title"], "spalltime damage cases")
        self.assertEqual(spalltime.check(DRUM), [None])
        self.assertEqual(spalltime.check(spalltime.example("lesson_1_clean")), [None])
        page = spalltime.write("life", DRUM, format="html")
        self.assertTrue(page.startswith("<!DOCTYPE html>"))
        self.assertEqual(spalltime.run("--version").status, 0)
        self.assertIn(spalltime.__version__, spalltime.run("--version").body.decode())


class Mistakes(unittest.TestCase):
    def test_each_has_its_place(self):
        with self.assertRaises(spalltime.InputError) as caught:
            spalltime.life("title: x\nlubricant: {kind: greese}\n")
        places = {(one.line, one.column) for one in caught.exception.mistakes}
        self.assertIn((2, 19), places)
        self.assertIn("did you mean `grease`", str(caught.exception))

    def test_of_several_files_say_which(self):
        with self.assertRaises(spalltime.InputError) as caught:
            spalltime.compare(DRUM, "title: x\n")
        self.assertEqual({one.file for one in caught.exception.mistakes}, {"scenario 2"})

    def test_check_gives_them(self):
        fine, wrong = spalltime.check(DRUM, "title: x\n")
        self.assertIsNone(fine)
        self.assertEqual(wrong.mistakes[0].line, 1)

    def test_usage_and_missing_files(self):
        with self.assertRaises(spalltime.UsageError):
            spalltime.life(DRUM, colour="red")
        with self.assertRaises(spalltime.SpalltimeError) as caught:
            spalltime.life(pathlib.Path("scenarios/none.yaml"))
        self.assertEqual(caught.exception.status, 4)
        with self.assertRaises(ValueError):
            spalltime.life({"title": math.nan})
        with self.assertRaises(ValueError):
            spalltime.life(DRUM, catalog="a\0b")

    def test_a_path_that_looks_like_an_option_is_a_file(self):
        with self.assertRaises(spalltime.SpalltimeError) as caught:
            spalltime.life(pathlib.Path("--explain"))
        self.assertIn("--explain", str(caught.exception))
        self.assertEqual(caught.exception.status, 4)


class Threads(unittest.TestCase):
    def test_answers_do_not_depend_on_them(self):
        paths = [SCENARIOS / f"lesson_{n}.yaml" for n in ("1_clean", "2_debris", "3_wash_water", "4_old_grease")]
        alone = [dict(spalltime.life(path)) for path in paths]
        found = {}

        def work(number):
            for turn in range(5):
                path = (number + turn) % len(paths)
                found[number, turn] = (path, dict(spalltime.life(paths[path])))

        threads = [threading.Thread(target=work, args=(number,)) for number in range(8)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        self.assertEqual(len(found), 40)
        for path, answer in found.values():
            self.assertEqual(answer, alone[path])

    def test_the_interpreter_goes_on_meanwhile(self):
        done = threading.Event()

        def work():
            spalltime.spread(SCENARIOS / "beet_trailer_fleet.yaml", samples=2000)
            done.set()

        thread = threading.Thread(target=work)
        thread.start()
        turns = 0
        while not done.is_set() and turns < 100:
            time.sleep(0.001)
            turns += 1
        thread.join()
        self.assertGreater(turns, 10, "the lock of the interpreter was held during the call")


@unittest.skipUnless(numpy, "numpy is not there")
class Arrays(unittest.TestCase):
    def test_a_grid_is_that_of_the_program(self):
        path = SCENARIOS / "fan_spindle_sweep.yaml"
        rows = spalltime.sweep(path)
        table = program("sweep", str(path)).decode().splitlines()
        self.assertEqual(list(rows.dtype.names), table[0].split(","))
        self.assertEqual(len(rows), len(table) - 1)
        column = table[0].split(",").index("modified_rating_life_h")
        printed = [float(line.split(",")[column]) for line in table[1:]]
        numpy.testing.assert_allclose(rows["modified_rating_life_h"], printed, rtol=1e-5)

    def test_a_table_in_memory(self):
        path, table = SCENARIOS / "fan_spindle_sweep.yaml", "radial_load [kN],speed [rpm]\n1,700\n2,700\n"
        rows = spalltime.sweep(path, cases="cases.csv", files={"cases.csv": table}, columns="modified_rating_life_h,case")
        self.assertEqual(list(rows["case"]), [2, 3])
        with self.assertRaises(spalltime.InputError) as caught:
            spalltime.sweep(path, cases="cases.csv", files={"cases.csv": table + "x,5\n"})
        self.assertEqual(caught.exception.mistakes[0].line, 4)
        with tempfile.TemporaryDirectory() as folder, warnings.catch_warnings(record=True) as said:
            warnings.simplefilter("always")
            kept = spalltime.sweep(path, cases="cases.csv", files={"cases.csv": table + "x,5\n"},
                                   rejects=os.path.join(folder, "r.csv"), columns="modified_rating_life_h")
        self.assertEqual(len(kept), 2)
        self.assertIn("1 of 3 rows rejected", str(said[0].message))

    def test_names_are_those_of_the_header(self):
        header = pathlib.Path("include/spalltime/sweep.h").read_text(encoding="utf-8")
        columns = re.search(r"enum spt_batch_variable \{(.*?)\};", header, re.S)[1]
        names = [name.lower() for name in re.findall(r"SPT_BATCH_(\w+),", columns)]
        self.assertEqual(names, list(spalltime.BATCH_COLUMNS))
        results = re.search(r"struct spt_batch_results \{(.*?)\};", header, re.S)[1]
        self.assertEqual(re.findall(r"\*(\w+);", results), list(spalltime.BATCH_RESULTS))
        bits = re.search(r"enum spt_batch_bit \{(.*?)\};", header, re.S)[1]
        found = {name.lower(): int(bit) for name, bit in re.findall(r"SPT_BATCH_(\w+) = (\d+)", bits)}
        self.assertEqual(found, spalltime.BATCH_BITS)

    def test_points_are_the_life_of_the_scenario(self):
        phase = spalltime.life(PLAIN)["bearings"][0]["phases"][0]
        made = spalltime.points(
            "cylindrical roller", 85, cleanliness="-/17/14", lubrication="oil bath",
            dynamic_load_rating_n=100e3, fatigue_load_limit_n=12e3,
            speed_rpm=1000, equivalent_load_n=numpy.array([10e3, 20e3]), temperature_c=60,
            nu40_mm2_s=150, nu100_mm2_s=14.9)
        for name in ("viscosity_ratio", "contamination_factor", "life_modification_factor", "modified_rating_life_h"):
            self.assertTrue(math.isclose(made[name][0], phase[name], rel_tol=1e-9), name)
        # twice the load, life by 2^(10/3): ISO 281:2007, clause 5.3 (from memory)
        self.assertAlmostEqual(made["basic_rating_life_h"][0] / made["basic_rating_life_h"][1], 2 ** (10 / 3), 9)
        self.assertTrue(math.isclose(made["basic_rating_life_h"][0], phase["basic_rating_life_h"], rel_tol=1e-12))
        self.assertTrue((made["status"] == 0).all())
        self.assertTrue(spalltime.kernel_variant())

    def test_points_refuse_what_does_not_fit(self):
        for wrong in ({"bearing_type": "taper"}, {"cleanliness": "dirty"}, {"lubrication": "oil bath"}, {"lubrication": "water"}, {"load": 5}, {"speed_rpm": [1, 2, 3]},
                      {"temperature_c": None}, {"reliability_percent": 50}):
            given = {"bearing_type": "tapered roller", "pitch_diameter_mm": 80, "cleanliness": "normal",
                     "dynamic_load_rating_n": 126e3, "fatigue_load_limit_n": 20e3, "speed_rpm": [400, 500],
                     "equivalent_load_n": [1e4, 2e4], "temperature_c": 60, "nu40_mm2_s": 150, "nu100_mm2_s": 15, **wrong}
            given = {name: value for name, value in given.items() if value is not None}
            with self.assertRaises(ValueError, msg=str(wrong)):
                spalltime.points(**given)


if __name__ == "__main__":
    unittest.main(verbosity=0)
