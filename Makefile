# spalltime: rolling bearing life and lubrication adequacy. GNU make; see `make help`.
# May be set by the user: CC CFLAGS CPPFLAGS LDFLAGS LDLIBS PREFIX DESTDIR V=1
# BUILD=release|debug|asan|ubsan|cov|fuzz

BUILD   ?= release
PREFIX  ?= /usr/local
DESTDIR ?=
CC      ?= cc
PKG_CONFIG ?= pkg-config
VARIANTS := release debug asan ubsan cov fuzz
ifeq ($(filter $(BUILD),$(VARIANTS)),)
$(error BUILD=$(BUILD) is not one of: $(VARIANTS))
endif
OUT     := build/$(BUILD)
VERSION := $(shell sed -n 's/.*SPT_VERSION "\(.*\)".*/\1/p' include/spalltime/version.h)
SOVERSION := $(firstword $(subst ., ,$(VERSION)))
ifeq ($(V),1)
Q :=
else
Q := @
endif

# ---- flags ---------------------------------------------------------------------------------
WARNINGS := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes \
            -Wmissing-prototypes -Wcast-qual -Wundef -Wvla -Wdouble-promotion -Wswitch-enum \
            -Wpointer-arith -Wformat=2
# clang warns of NAN and INFINITY as promoted floats (gcc does not, so that it keeps this warning)
# and of loops that it does not vectorise
ifneq ($(findstring clang,$(CC)),)
WARNINGS += -Wno-double-promotion -Wno-pass-failed
endif
OPTIMISE_release := -O2 -g
OPTIMISE_debug   := -O0 -g3
OPTIMISE_asan    := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=undefined \
                    -fno-omit-frame-pointer
OPTIMISE_cov     := -O0 -g --coverage
# clang only: a division of doubles by zero is an error too
OPTIMISE_ubsan   := -O1 -g -fsanitize=undefined,float-divide-by-zero,float-cast-overflow \
                    -fno-sanitize-recover=all
# An empty FUZZ_WATCH= is several times faster and checks only the invariants; use a separate OUT
FUZZ_WATCH       ?= -fsanitize=address,undefined,float-divide-by-zero -fno-sanitize-recover=all
OPTIMISE_fuzz    := -O1 -g -fsanitize=fuzzer-no-link $(FUZZ_WATCH) -fno-omit-frame-pointer
CFLAGS ?= $(OPTIMISE_$(BUILD))
ifneq ($(filter $(BUILD),asan ubsan cov fuzz),)
VARIANT_FLAGS := $(filter -fsanitize% --coverage -fno-sanitize%,$(OPTIMISE_$(BUILD)))
endif
LIBRARY_PKGS := gsl
PROGRAM_PKGS := yaml-0.1
TEST_PKGS    := criterion
ALL_CPPFLAGS = -Iinclude -Isrc -D_XOPEN_SOURCE=700 -D_FILE_OFFSET_BITS=64 \
               -DSPT_DATA_DIR='"$(PREFIX)/share/spalltime"' $(CPPFLAGS)
ALL_CFLAGS   = -std=c11 -fPIC -pthread $(WARNINGS) $(CFLAGS) $(VARIANT_FLAGS)
ALL_LDFLAGS  = -pthread $(LDFLAGS) $(VARIANT_FLAGS)
GSL_LIBS     = $(shell $(PKG_CONFIG) --libs $(LIBRARY_PKGS))
YAML_LIBS    = $(shell $(PKG_CONFIG) --libs $(PROGRAM_PKGS))
TEST_LIBS    = $(shell $(PKG_CONFIG) --libs $(TEST_PKGS))

# ---- files: a new source file needs no edit here -------------------------------------------
sources_of = $(wildcard $(foreach layer,$(1),src/$(layer)/*.c src/$(layer)/*/*.c))
# one file of the platform is for the page (src/page/page.mk)
LIBRARY_SOURCES := $(filter-out %/browser.c,$(call sources_of,platform base words model study))
PROGRAM_SOURCES := $(call sources_of,file scenario format sentence chart answer history sweep \
                     manual cli)
TEST_SOURCES    := $(wildcard tests/unit/*/*.c tests/published/*.c tests/property/*.c \
                     tests/bad_input/*.c tests/cli/*.c tests/support/*.c)
objects = $(patsubst %.c,$(OUT)/%.o,$(1))
LIBRARY_OBJECTS := $(call objects,$(LIBRARY_SOURCES))
PROGRAM_OBJECTS := $(call objects,$(PROGRAM_SOURCES)) $(OUT)/manual_texts.o
# the tests are linked with everything but main.c
TESTED_OBJECTS  := $(LIBRARY_OBJECTS) $(filter-out $(OUT)/src/cli/main.o,$(PROGRAM_OBJECTS))
TEST_OBJECTS    := $(call objects,$(TEST_SOURCES))
PROGRAM := $(OUT)/spalltime
STATIC  := $(OUT)/libspalltime.a
SHARED  := $(OUT)/libspalltime.so.$(VERSION)
RUN     := $(OUT)/libspalltime_run.so.$(VERSION)
TESTS   := $(OUT)/tests/spalltime_tests
SCHEMAS := build/spalltime.schema.json build/spalltime.case.schema.json

.PHONY: quick-tests tidy scan all lib deps demo test asan lint format format-check layers install \
        uninstall clean help
.DELETE_ON_ERROR:
.DEFAULT_GOAL := all

all: lib $(PROGRAM) $(SCHEMAS) ## build the program and the library (default)

lib: $(STATIC) $(SHARED) $(RUN) ## build the static and the shared library

$(OUT)/%.o: %.c
	@mkdir -p $(@D)
	@[ -n "$(Q)" ] && echo "  CC    $<" || true
	$(Q)$(CC) $(ALL_CPPFLAGS) $(ALL_CFLAGS) $(EXTRA_CFLAGS) -MMD -MP -c $< -o $@

# the sweep kernel and its writer are vectorised; results stay within 1e-12 of the scalar model
VECTOR_CFLAGS = -O3 -fopenmp-simd -fno-math-errno -fno-trapping-math -ffp-contract=fast
$(OUT)/src/model/batch/batch.o $(OUT)/src/model/batch/batch_grid.o: EXTRA_CFLAGS = $(VECTOR_CFLAGS)
$(OUT)/src/format/number/number_cells.o: EXTRA_CFLAGS = $(VECTOR_CFLAGS)
$(OUT)/src/model/hub/hub_kernel.o: EXTRA_CFLAGS = $(VECTOR_CFLAGS)

# long loops over rows
$(OUT)/src/study/sweep/sweep.o: EXTRA_CFLAGS = -O3

# `--version` prints the sanitizers
EMPTY :=
COMMA := ,
SANITIZER_NAMES = $(patsubst -fsanitize=%,%,$(filter -fsanitize=%,$(ALL_CFLAGS)))
SANITIZERS = $(subst $(EMPTY) $(EMPTY),$(COMMA) ,$(sort $(subst $(COMMA), ,$(SANITIZER_NAMES))))
$(OUT)/src/cli/version.o: EXTRA_CFLAGS = -DSPT_SANITIZERS='"$(SANITIZERS)"'

# the manual, one file for each command and topic, as arrays of lines
MANUAL := $(sort $(wildcard src/manual/*/*.md))
$(OUT)/manual_texts.c: $(MANUAL) src/manual/texts.awk
	@mkdir -p $(@D)
	$(Q)awk -f src/manual/texts.awk $(MANUAL) > $@
$(OUT)/manual_texts.o: $(OUT)/manual_texts.c
	$(Q)$(CC) $(ALL_CPPFLAGS) $(ALL_CFLAGS) -MMD -MP -c $< -o $@

# the tests run the program of the same build
$(OUT)/tests/%.o: ALL_CPPFLAGS += -Itests -DSPT_TEST_PROGRAM='"$(PROGRAM)"'

$(STATIC): $(LIBRARY_OBJECTS)
	@rm -f $@
	$(Q)$(AR) rcs $@ $^

# only the names in the lists are exported; private names have their own symbol version, which marks
# them as private
$(OUT)/libspalltime.map: src/exports/public.list src/exports/private.list
	@mkdir -p $(@D)
	@{ echo "SPALLTIME_$(SOVERSION) { global:"; sed 's/$$/;/' src/exports/public.list; \
	   echo "local: *; };"; \
	   echo "SPALLTIME_PRIVATE { global:"; sed 's/$$/;/' src/exports/private.list; echo "};"; } >$@
$(OUT)/libspalltime_run.map: src/exports/run.list
	@mkdir -p $(@D)
	@{ echo "SPALLTIME_RUN_$(SOVERSION) { global:"; sed 's/$$/;/' $<; echo "local: *; };"; } >$@

$(SHARED): $(LIBRARY_OBJECTS) $(OUT)/libspalltime.map
	$(Q)$(CC) -shared -Wl,-soname,libspalltime.so.$(SOVERSION) \
	  -Wl,--version-script=$(OUT)/libspalltime.map $(ALL_LDFLAGS) \
	  -o $@ $(LIBRARY_OBJECTS) $(GSL_LIBS) $(LDLIBS)
	@ln -sf $(@F) $(OUT)/libspalltime.so.$(SOVERSION)
	@ln -sf libspalltime.so.$(SOVERSION) $(OUT)/libspalltime.so

# the text interface (run.h): the program without main; linked with the shared library, so that a
# process has one copy of the models. A script loads this library, which finds the other beside it;
# a distribution, whose loader finds both, sets an empty RUN_PATH=
RUN_PATH    ?= -Wl,-rpath,'$$ORIGIN'
RUN_OBJECTS = $(filter-out $(OUT)/src/cli/main.o,$(PROGRAM_OBJECTS))
$(RUN): $(RUN_OBJECTS) $(OUT)/libspalltime_run.map $(SHARED)
	$(Q)$(CC) -shared -Wl,-soname,libspalltime_run.so.$(SOVERSION) \
	  -Wl,--version-script=$(OUT)/libspalltime_run.map $(ALL_LDFLAGS) \
	  $(RUN_PATH) -o $@ $(RUN_OBJECTS) -L$(OUT) -lspalltime $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)

$(PROGRAM): $(PROGRAM_OBJECTS) $(STATIC)
	@echo "  LINK  $@"
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)

# for editors: the first line of each scenario and case refers to one of these files
build/spalltime.schema.json: $(PROGRAM)
	$(Q)$(PROGRAM) schema --format json -o $@

build/spalltime.case.schema.json: $(PROGRAM)
	$(Q)$(PROGRAM) schema --of case --format json -o $@

$(TESTS): $(TEST_OBJECTS) $(TESTED_OBJECTS)
	@mkdir -p $(@D)
	@echo "  LINK  $@"
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(TEST_LIBS) $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)

-include $(wildcard $(patsubst %.o,%.d,$(LIBRARY_OBJECTS) $(PROGRAM_OBJECTS) $(TEST_OBJECTS)))

# ---- targets for users ---------------------------------------------------------------------
deps:
	@.ci/packages

demo: deps ## install missing packages, build, and calculate one scenario
	@$(MAKE) --no-print-directory all
	@echo
	@echo "$$ $(PROGRAM) life scenarios/beet_trailer_hub.yaml"
	@$(PROGRAM) life scenarios/beet_trailer_hub.yaml

test: deps ## install missing packages, build, and run every test
	@$(MAKE) --no-print-directory all $(TESTS) left-out-none
	@$(MAKE) --no-print-directory layers
	@$(MAKE) --no-print-directory quick-tests
	$(Q)$(TESTS) --short-filename
	@$(MAKE) --no-print-directory left-out

# Criterion passes a test that leaks, so that the sanitizers write logs and any log is a failure.
asan: deps ## run every test under the address, leak and undefined-behaviour sanitizers
	@$(MAKE) --no-print-directory BUILD=asan all build/asan/tests/spalltime_tests
	@rm -f build/asan/log.*
	$(Q)ASAN_OPTIONS=log_path=$(CURDIR)/build/asan/log:detect_leaks=1 \
	  UBSAN_OPTIONS=log_path=$(CURDIR)/build/asan/log:print_stacktrace=1 \
	  build/asan/tests/spalltime_tests --short-filename
	@if ls build/asan/log.* >/dev/null 2>&1; then \
	  cat build/asan/log.*; echo "sanitizer logs found"; exit 1; fi
	@echo "sanitizers: no log"

layers: all ## check that includes and symbols only point down the layers
	@tests/support/layers.sh $(OUT)

lint: format-check ## format, compiler warnings as errors, cppcheck
	@$(MAKE) --no-print-directory BUILD=debug CFLAGS="-O1 -g -Werror" all
	cppcheck --quiet --std=c11 --enable=warning,performance,portability --inline-suppr \
	  --suppress=missingIncludeSystem --error-exitcode=1 -Iinclude -Isrc src
	@if command -v clang-tidy >/dev/null; then $(MAKE) --no-print-directory tidy; \
	  else echo "no clang-tidy here"; fi

tidy: ## clang-tidy (.clang-tidy states what it leaves out and why)
	clang-tidy --quiet $(LIBRARY_SOURCES) $(PROGRAM_SOURCES) -- $(ALL_CPPFLAGS) -std=c11 2>/dev/null

scan: ## the analyzer of clang over a whole build (scan-build)
	$(Q)tests/variants/scan.sh build/scan

FORMATTED = $(wildcard include/spalltime/*.h src/*/*.[ch] src/*/*/*.[ch] \
              tests/*/*.c tests/*/*.h tests/*/*/*.c)
format: ## reformat the sources
	clang-format -i $(FORMATTED)
format-check:
	clang-format --dry-run -Werror $(FORMATTED)

# ---- install -------------------------------------------------------------------------------
DEST := $(DESTDIR)$(PREFIX)
# where python3 looks for packages below PREFIX
PYTHON_DIR ?= $(shell python3 -c 'import sysconfig as s; \
  print(s.get_path("purelib", vars=dict.fromkeys(["base", "platbase"], "$(PREFIX)")))' 2>/dev/null || \
  echo $(PREFIX)/lib/python3/dist-packages)
install: all ## install under PREFIX (default /usr/local), into DESTDIR for packagers
	install -d "$(DEST)/bin" "$(DEST)/lib/pkgconfig" "$(DEST)/include/spalltime" \
	  "$(DEST)/share/spalltime/catalogs"
	install -m 755 $(PROGRAM) "$(DEST)/bin/spalltime"
	install -m 644 $(STATIC) "$(DEST)/lib/"
	install -m 755 $(SHARED) $(RUN) "$(DEST)/lib/"
	ln -sf libspalltime.so.$(VERSION) "$(DEST)/lib/libspalltime.so.$(SOVERSION)"
	ln -sf libspalltime.so.$(SOVERSION) "$(DEST)/lib/libspalltime.so"
	ln -sf libspalltime_run.so.$(VERSION) "$(DEST)/lib/libspalltime_run.so.$(SOVERSION)"
	ln -sf libspalltime_run.so.$(SOVERSION) "$(DEST)/lib/libspalltime_run.so"
	install -m 644 include/spalltime/*.h "$(DEST)/include/spalltime/"
	install -m 644 catalogs/*.yaml "$(DEST)/share/spalltime/catalogs/"
	install -d "$(DEST)/share/spalltime/scenarios/damaged"
	install -m 644 scenarios/*.yaml scenarios/*.csv "$(DEST)/share/spalltime/scenarios/"
	install -m 644 scenarios/damaged/*.yaml "$(DEST)/share/spalltime/scenarios/damaged/"
	install -m 644 $(SCHEMAS) "$(DEST)/share/spalltime/"
	install -d "$(DEST)/share/bash-completion/completions" \
	  "$(DEST)/share/zsh/site-functions"
	for path in $(MANUAL); do text=$$(basename $$path .md); \
	  section=$$(sed -n '1s/.*(\([1-8]\)).*/\1/p' $$path); \
	  page=spalltime-$$text; [ $$text = spalltime ] && page=spalltime; \
	  install -d "$(DEST)/share/man/man$$section"; \
	  $(PROGRAM) help $$text --print man > "$(DEST)/share/man/man$$section/$$page.$$section"; done
	install -d "$(DESTDIR)$(PYTHON_DIR)/spalltime"
	install -m 644 src/python/spalltime/*.py src/python/spalltime/py.typed "$(DESTDIR)$(PYTHON_DIR)/spalltime/"
	$(PROGRAM) help --print bash > "$(DEST)/share/bash-completion/completions/spalltime"
	$(PROGRAM) help --print zsh > "$(DEST)/share/zsh/site-functions/_spalltime"
	printf '%s\n' 'prefix=$(PREFIX)' 'libdir=$${prefix}/lib' 'includedir=$${prefix}/include' '' \
	  'Name: spalltime' 'Description: rolling bearing life and lubrication adequacy' \
	  'Version: $(VERSION)' 'Requires.private: gsl' 'Libs: -L"$${libdir}" -lspalltime' \
	  'Cflags: -I"$${includedir}"' > "$(DEST)/lib/pkgconfig/spalltime.pc"

uninstall: ## remove what install put there
	rm -f "$(DEST)/bin/spalltime" "$(DEST)"/lib/libspalltime.* "$(DEST)"/lib/libspalltime_run.* \
	  "$(DEST)/lib/pkgconfig/spalltime.pc"
	rm -rf "$(DEST)/include/spalltime" "$(DEST)/share/spalltime" "$(DESTDIR)$(PYTHON_DIR)/spalltime"
	rm -f "$(DEST)"/share/man/man[1-8]/spalltime.[1-8] "$(DEST)"/share/man/man[1-8]/spalltime-*.[1-8]
	rm -f "$(DEST)/share/bash-completion/completions/spalltime" \
	  "$(DEST)/share/zsh/site-functions/_spalltime"

clean: ## remove every build
	rm -rf build

# fragments: each may add quick targets to `make test` by QUICK_TESTS += name
include $(wildcard src/page/page.mk tests/*/*.mk)
quick-tests: $(QUICK_TESTS)

help: ## list the targets
	@awk -F ':.*## ' '/^[a-z-]+:.*## /{printf "  %-13s %s\n", $$1, $$2}' $(MAKEFILE_LIST)
