# Random inputs. A new file tests/fuzz/target/NAME.c is a new target; its corpus is
# tests/fuzz/corpus/NAME. `make test` replays the corpora with any compiler; `make fuzz SECONDS=60`
# searches for failures with clang's libFuzzer, each target for that time. An input that failed is
# added to the corpus when the error is fixed.
SECONDS      ?= 20
FUZZ_TARGETS := $(basename $(notdir $(wildcard tests/fuzz/target/*.c)))
# inputs of other tests are seeds too
MISTAKES = $(OUT)/tests/fuzz/mistakes
FUZZ_SEEDS_scenario = scenarios tests/cli/inputs tests/bad_input/raw $(MISTAKES)
FUZZ_SEEDS_diagnose := scenarios/damaged tests/cli/damaged
FUZZ_SEEDS_catalog  := catalogs tests/cli/catalog tests/bad_input/catalog
FUZZ_SEEDS_sheet    := scenarios
FUZZ_HARNESS := $(addprefix $(OUT)/tests/,fuzz/harness.o fuzz/judge.o support/json_text.o \
                  support/golden.o support/markup.o)
FUZZ_LIBS     = $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)
REPLAYERS    := $(addprefix $(OUT)/tests/fuzz/replay_,$(FUZZ_TARGETS))
FUZZERS      := $(addprefix $(OUT)/tests/fuzz/fuzz_,$(FUZZ_TARGETS))

.PHONY: fuzz fuzz-run fuzz-replay $(addprefix fuzz-run-,$(FUZZ_TARGETS))
.SECONDARY: $(addprefix $(OUT)/tests/fuzz/target/,$(addsuffix .o,$(FUZZ_TARGETS)))

$(REPLAYERS): $(OUT)/tests/fuzz/replay_%: $(OUT)/tests/fuzz/target/%.o $(OUT)/tests/fuzz/replay.o \
              $(FUZZ_HARNESS) $(TESTED_OBJECTS)
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(FUZZ_LIBS)

$(FUZZERS): $(OUT)/tests/fuzz/fuzz_%: $(OUT)/tests/fuzz/target/%.o $(FUZZ_HARNESS) \
            $(TESTED_OBJECTS)
	$(Q)$(CC) $(ALL_LDFLAGS) -fsanitize=fuzzer -o $@ $^ $(FUZZ_LIBS)

# the complete scenarios of the cases of tests/bad_input
$(OUT)/tests/fuzz/expand: $(addprefix $(OUT)/tests/,fuzz/expand.o support/patch.o support/golden.o)
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ -lm
$(MISTAKES): $(OUT)/tests/fuzz/expand \
             $(wildcard tests/bad_input/cases/*.case tests/bad_input/bases/*.yaml)
	@rm -rf $@ && mkdir -p $@
	$(Q)$< tests/bad_input/cases $@ || { rm -rf $@; exit 1; }

QUICK_TESTS += fuzz-replay
fuzz-replay: $(REPLAYERS) $(MISTAKES) ## run every fuzz target on its committed inputs
	$(Q)$(foreach t,$(FUZZ_TARGETS), \
	  $(OUT)/tests/fuzz/replay_$(t) tests/fuzz/corpus/$(t) $(FUZZ_SEEDS_$(t)) \
	  2>$(OUT)/tests/fuzz/$(t).log || { tail -3 $(OUT)/tests/fuzz/$(t).log; exit 1; };)

fuzz: ## search for inputs that cause failures, SECONDS for each target (clang)
	@$(MAKE) --no-print-directory BUILD=fuzz CC=clang fuzz-run

# new inputs are kept in build/fuzz/corpus, failing ones in build/fuzz/found
fuzz-run: $(addprefix fuzz-run-,$(FUZZ_TARGETS))
$(addprefix fuzz-run-,$(FUZZ_TARGETS)): fuzz-run-%: $(OUT)/tests/fuzz/fuzz_% $(MISTAKES)
	@mkdir -p $(OUT)/corpus/$* $(OUT)/found
	$(Q)nice $< -max_total_time=$(SECONDS) -timeout=30 -rss_limit_mb=1500 -max_len=4096 \
	  -print_final_stats=1 -artifact_prefix=$(OUT)/found/$*- \
	  $(addprefix -dict=,$(wildcard tests/fuzz/$*.dict)) \
	  $(OUT)/corpus/$* tests/fuzz/corpus/$* $(FUZZ_SEEDS_$*) >$(OUT)/$*.log 2>&1 || \
	  { tail -40 $(OUT)/$*.log; exit 1; }
	@echo "$*: $$(sed -n 's/stat::number_of_executed_units: *//p' $(OUT)/$*.log) runs, nothing found"

-include $(wildcard $(OUT)/tests/fuzz/*.d $(OUT)/tests/fuzz/target/*.d)
