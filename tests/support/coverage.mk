# Line coverage of the library by the tests; fails below COVERAGE_LEAST percent.
COVERAGE_LEAST ?= 95
.PHONY: coverage coverage-run
coverage: ## line coverage of src/model and src/study by the tests (gcovr)
	@$(MAKE) --no-print-directory BUILD=cov coverage-run

coverage-run: all $(TESTS)
	@find $(OUT) -name '*.gcda' -delete
	$(Q)$(TESTS) --short-filename --quiet
	$(Q)gcovr --root . --filter 'src/(model|study)/' --exclude-throw-branches --object-directory $(OUT) \
	  --fail-under-line $(COVERAGE_LEAST) --sort-uncovered $(OUT)
