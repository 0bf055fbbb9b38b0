# SPDX-License-Identifier: GPL-3.0-or-later
# Compares the whole program with NumPy; skipped where no python3 has it.
.PHONY: bench-sweep
bench: bench-sweep
bench-sweep: $(PROGRAM) ## time sweeps to CSV against numpy.savetxt, and the start-up
	@python=""; for p in $(PYTHON) python3 /usr/bin/python3; do \
	  if $$p -c 'import numpy' 2>/dev/null; then python=$$p; break; fi; done; \
	if [ -z "$$python" ]; then echo "bench-sweep: left out, no python3 here has NumPy"; \
	else $$python tests/bench/sweep_bench.py $(PROGRAM) tests/bench/sweep_grid.yaml; fi
