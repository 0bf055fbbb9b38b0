# Speed of the hub model, as ratios within one run. Does not need Criterion; uses SciPy if
# installed.
HUB_BENCH := $(OUT)/tests/bench/hub_bench
PYTHON ?= $(firstword $(foreach p,python3 /usr/bin/python3, \
            $(shell $(p) -c 'import scipy.optimize' 2>/dev/null && echo $(p))))

.PHONY: bench-hub
bench-hub: $(HUB_BENCH) $(PROGRAM) ## time the hub model against GSL and SciPy, and hub sweeps
	$(Q)$(HUB_BENCH) "$(PYTHON)" tests/bench/hub_case.py
	$(Q)python3 tests/bench/hub_sweep_bench.py $(PROGRAM) tests/cli/inputs/sweep_hub.yaml

$(HUB_BENCH): $(OUT)/tests/bench/hub_bench.o $(OUT)/tests/support/hub_example.o $(STATIC)
	@echo "  LINK  $@"
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(GSL_LIBS) $(LDLIBS)

-include $(OUT)/tests/bench/hub_bench.d
