# Line coverage of the library by the tests; fails below COVERAGE_LEAST percent.
COVERAGE_LEAST ?= 95
.PHONY: coverage coverage-run
coverage: ## line coverage of src/model and src/study by the tests (gcov)
	@$(MAKE) --no-print-directory BUILD=cov coverage-run

coverage-run: all $(TESTS)
	@find $(OUT) -name '*.gcda' -delete
# one test case prevents files from growing, also those of gcov: its messages are discarded
	$(Q)GCOV_ERROR_FILE=/dev/null $(TESTS) --short-filename --quiet >/dev/null \
	  2>$(OUT)/test.log || { cat $(OUT)/test.log; exit 1; }
	$(Q)tests/support/coverage.sh $(OUT) $(COVERAGE_LEAST) $(LIBRARY_SOURCES)
