# Equal results from every compiler and level of optimisation, and runs under other tools.
VARIANT_COMPILERS ?= $(foreach c,gcc clang,$(if $(shell command -v $(c)),$(c)))
VARIANT_LEVELS    ?= -O0 -O1 -O2 -O3
.PHONY: variants ubsan valgrind

variants: ## compare the JSON numbers of gcc and clang, -O0 to -O3, to 1e-12
	$(Q)CC= CFLAGS= tests/variants/variants.sh "$(VARIANT_COMPILERS)" "$(VARIANT_LEVELS)"

# clang: undefined behaviour, and division of doubles by zero
ubsan: ## run every test under clang's undefined-behaviour sanitizer
	@$(MAKE) --no-print-directory BUILD=ubsan CC=clang all build/ubsan/tests/spalltime_tests
	@rm -f build/ubsan/log.*
	$(Q)UBSAN_OPTIONS=log_path=$(CURDIR)/build/ubsan/log:print_stacktrace=1 \
	  build/ubsan/tests/spalltime_tests --short-filename
	@if ls build/ubsan/log.* >/dev/null 2>&1; then \
	  cat build/ubsan/log.*; echo "sanitizer logs found"; exit 1; fi
	@echo "ubsan: no log"

# each test forks a worker, which valgrind follows; any log with an error is a failure
valgrind: ## run the tests and some commands under valgrind
	@$(MAKE) --no-print-directory BUILD=debug CFLAGS="-O1 -g" all build/debug/tests/spalltime_tests
	$(Q)tests/variants/valgrind.sh build/debug
