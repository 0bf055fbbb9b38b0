# Does any test notice a constant that is 1 % off? About a second for each that one notices, half a minute for one
# that none does; MUTATIONS=N takes a sample, FILES="src/model/life.c:40" a file or a line, WORKERS=2 two at a time.
MUTATIONS ?= 0
WORKERS   ?= 1
MUTATED   := build/mutation
MUTATION_FLAGS = -D_XOPEN_SOURCE=700 -std=c11 -fPIC -pthread -O1 -Werror=float-conversion -Werror=overflow
.PHONY: mutation mutation-build
mutation: ## change each constant of the models by 1 % and list what no test notices (MUTATIONS=N: a sample)
	@$(MAKE) --no-print-directory -s OUT=$(MUTATED) CFLAGS=-O1 mutation-build
	$(Q)nice python3 tests/mutation/mutation.py $(MUTATED) --flags='$(MUTATION_FLAGS)' --library libspalltime.so.$(SOVERSION) \
	  --libraries='$(GSL_LIBS)' --most $(MUTATIONS) --workers $(WORKERS) $(if $(RESUME),--resume) $(FILES)

# the tests with the two layers as a shared library, which a changed one takes the place of
mutation-build: $(SHARED) $(TEST_OBJECTS) $(filter-out $(LIBRARY_OBJECTS),$(TESTED_OBJECTS))
	@mkdir -p $(OUT)/tests
	@echo '$(ALL_LDFLAGS) $(filter-out $(SHARED),$^) $(SHARED) $(TEST_LIBS) $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)' >$(OUT)/tests/link
	$(Q)$(CC) $$(cat $(OUT)/tests/link) -o $(OUT)/tests/spalltime_tests
