# SPDX-License-Identifier: GPL-3.0-or-later
# `make bench`: compares the batch kernel and the writers with NumPy and the scalar model in one
# run; NumPy is left out if no python3 has it.
BENCH := $(OUT)/tests/bench/bench
BENCH_OBJECTS := $(call objects, \
                   $(addprefix tests/bench/,bench.c kernel.c grid.c machine.c choose.c numbers.c numpy.c) \
                   tests/support/scalar_chain.c \
                   $(addprefix src/format/number/,number.c number_cells.c exact.c npy.c))

# the loops that measure log2 and exp2 separately are compiled with the flags of the kernel
$(OUT)/tests/bench/kernel.o: EXTRA_CFLAGS = $(VECTOR_CFLAGS)

$(BENCH): $(BENCH_OBJECTS) $(STATIC)
	@echo "  LINK  $@"
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(GSL_LIBS) $(LDLIBS)

-include $(wildcard $(patsubst %.o,%.d,$(BENCH_OBJECTS)))

.PHONY: bench
bench: $(BENCH) ## speed of the sweep kernel compared with NumPy and the scalar model
	@python=""; for p in $(PYTHON) python3 /usr/bin/python3; do \
	  if $$p -c 'import numpy' 2>/dev/null; then python=$$p; break; fi; done; \
	$(BENCH) $(OUT)/tests/bench "$$python" tests/bench/chain_numpy.py
