# SPDX-License-Identifier: GPL-3.0-or-later
# NumPy reads the arrays; part of `make test`, skipped if no python3 has NumPy.
.PHONY: sweep-numpy
QUICK_TESTS += sweep-numpy
sweep-numpy: $(PROGRAM) ## arrays of sweeps read by NumPy, against the same rows as CSV
	@python=""; for p in $(PYTHON) python3 /usr/bin/python3; do \
	  if $$p -c 'import numpy' 2>/dev/null; then python=$$p; break; fi; done; \
	if [ -z "$$python" ]; then echo "sweep-numpy: no python3 here has NumPy (Debian: apt-get install python3-numpy)" | tee -a $(LEFT_OUT); \
	else $$python tests/sweep/numpy_check.py $(PROGRAM); fi

# number of system calls of each kind at which a sweep is killed; 0: all of them
KILL_RUNS ?= 8
.PHONY: sweep-kills
QUICK_TESTS += sweep-kills
sweep-kills: $(PROGRAM) $(OUT)/tests/faults/failing_files.so ## resume killed and damaged sweeps
	$(Q)scratch=$$(mktemp -d) && status=0 && \
	  { tests/sweep/kills.sh $(CURDIR)/$(PROGRAM) \
	    $(CURDIR)/$(OUT)/tests/faults/failing_files.so "$$scratch" $(KILL_RUNS) || \
	  status=$$?; } && rm -rf "$$scratch" && exit $$status

# Sweeps split over processes, and under the thread sanitizer. None of these is part of `make test`.
.PHONY: sweep-tsan sweep-parallel sweep-slurm
# clang: with gcc the selection of the kernel's variants runs before the sanitizer has started
sweep-tsan: ## sweeps and spreads under the thread sanitizer (clang)
	@mkdir -p build/tsan
	clang -O1 -g -fsanitize=thread -std=c11 -pthread -Iinclude -Isrc -D_XOPEN_SOURCE=700 \
	  -DSPT_DATA_DIR='"/none"' src/*/*.c src/*/*/*.c -o build/tsan/spalltime $(GSL_LIBS) $(YAML_LIBS)
	tests/sweep/tsan.sh build/tsan/spalltime

sweep-parallel: $(PROGRAM) ## shards of a sweep under GNU parallel, compared with one run
	tests/sweep/parallel.sh $(PROGRAM)

sweep-slurm: $(PROGRAM) ## shards of a sweep as a Slurm job array, compared with one run
	tests/sweep/slurm.sh $(PROGRAM)
