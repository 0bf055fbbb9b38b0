# Speed of the hub model, as ratios within one run. Does not need Criterion; uses SciPy if
# installed.
HUB_BENCH := $(OUT)/tests/bench/hub_bench
PYTHON ?= $(firstword $(foreach p,python3 /usr/bin/python3, \
            $(shell $(p) -c 'import scipy.optimize' 2>/dev/null && echo $(p))))

.PHONY: bench-hub
bench: bench-hub
bench-hub: $(HUB_BENCH) $(PROGRAM) ## time the hub model against GSL, SciPy, the plain way; BEFORE=program
	$(Q)$(HUB_BENCH) "$(PYTHON)" tests/bench/hub_case.py
	$(Q)python3 tests/bench/hub_sweep_bench.py $(PROGRAM) tests/cli/inputs/sweep_hub.yaml
	$(Q)if [ -n "$(BEFORE)" ]; then python3 tests/bench/hub_before.py $(PROGRAM) $(BEFORE) \
	  scenarios/trailer_hub_setting.yaml; fi

HUB_BENCH_OBJECTS := $(call objects,$(addprefix tests/, bench/hub_bench.c bench/hub_study.c \
                       support/hub_example.c support/hub_plain.c))
$(HUB_BENCH): $(HUB_BENCH_OBJECTS) $(STATIC)
	@echo "  LINK  $@"
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(GSL_LIBS) $(LDLIBS)

-include $(patsubst %.o,%.d,$(HUB_BENCH_OBJECTS))
