# SPDX-License-Identifier: GPL-3.0-or-later
# `make bench`: the batch kernel and the writers beside plain NumPy and the scalar model, in one run.
# NumPy is left out where no python3 has it.
BENCH := $(OUT)/tests/bench/bench
BENCH_OBJECTS := $(call objects,$(addprefix tests/bench/,bench.c kernel.c grid.c numbers.c numpy.c) \
                   tests/support/scalar_chain.c \
                   src/format/number.c src/format/number_cells.c src/format/exact.c src/format/npy.c)

# the loops that measure log2 and exp2 alone are built as the kernel is
$(OUT)/tests/bench/kernel.o: EXTRA_CFLAGS = -O3 -fopenmp-simd -fno-math-errno -fno-trapping-math -ffp-contract=fast

$(BENCH): $(BENCH_OBJECTS) $(STATIC)
	@echo "  LINK  $@"
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(GSL_LIBS) $(LDLIBS)

-include $(wildcard $(patsubst %.o,%.d,$(BENCH_OBJECTS)))

.PHONY: bench
bench: $(BENCH) ## speed of the sweep kernel beside plain NumPy and the scalar model
	@python=""; for p in $(PYTHON) python3 /usr/bin/python3; do \
	  if $$p -c 'import numpy' 2>/dev/null; then python=$$p; break; fi; done; \
	$(BENCH) $(OUT)/tests/bench "$$python" tests/bench/chain_numpy.py
