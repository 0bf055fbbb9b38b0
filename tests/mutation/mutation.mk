# Mutation test: does any test fail if a constant is 1 % off, < becomes <=, or + becomes -? Takes
# about a second for each change that a test notices, half a minute for others. MUTATIONS=N: a
# random sample, FILES="src/model/life/life.c:40": one file or line, KIND=constants|operators: one
# kind, WORKERS=2: two in parallel.
MUTATIONS ?= 0
WORKERS   ?= 1
MUTATED   := build/mutation
MUTATED_LIBRARY = $(OUT)/libmutated.so
MUTATED_OBJECTS = $(LIBRARY_OBJECTS) \
                  $(filter $(OUT)/src/scenario/% $(OUT)/src/file/%,$(PROGRAM_OBJECTS))
MUTATION_FLAGS = -D_XOPEN_SOURCE=700 -std=c11 -fPIC -pthread -O1 -Werror=float-conversion \
                 -Werror=overflow
.PHONY: mutation mutation-build
mutation: ## change each constant and operator; list what no test notices (MUTATIONS=N: a sample)
	@$(MAKE) --no-print-directory -s OUT=$(MUTATED) CFLAGS=-O1 mutation-build
	$(Q)nice python3 tests/mutation/mutation.py $(MUTATED) --flags='$(MUTATION_FLAGS)' \
	  --library $(notdir $(MUTATED_LIBRARY)) --libraries='$(YAML_LIBS) $(GSL_LIBS)' \
	  --most $(MUTATIONS) --workers $(WORKERS) $(if $(KIND),--kind $(KIND)) \
	  $(if $(RESUME),--resume) $(FILES)

$(MUTATED_LIBRARY): $(MUTATED_OBJECTS)
	$(Q)$(CC) -shared -Wl,-soname,$(@F) $(ALL_LDFLAGS) -o $@ $^ $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)

# the tests with these layers as a shared library, which is replaced by a changed one
mutation-build: $(MUTATED_LIBRARY) $(TEST_OBJECTS) \
                $(filter-out $(MUTATED_OBJECTS),$(TESTED_OBJECTS))
	@mkdir -p $(OUT)/tests
	@echo '$(ALL_LDFLAGS) $(filter-out $(MUTATED_LIBRARY),$^)' \
	  '$(MUTATED_LIBRARY) $(TEST_LIBS) $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)' >$(OUT)/tests/link
	$(Q)$(CC) $$(cat $(OUT)/tests/link) -o $(OUT)/tests/spalltime_tests
