# The program in a browser: one page that holds the same C as a module. Libraries come from source
# packages of the distribution (libraries.sh says what it installs), objects and module are kept in
# build/page.
PAGE_OUT       := build/page
PAGE           := $(PAGE_OUT)/spalltime.html
PAGE_LIBRARIES := $(PAGE_OUT)/libraries
PAGE_MODULE    := $(PAGE_OUT)/spalltime.wasm
PAGE_CC        ?= $(if $(wildcard /usr/bin/ccache),ccache )clang
PAGE_FLAGS      = --target=wasm32-wasi -msimd128 -O2
PAGE_SOURCES   := $(filter-out %/posix.c src/cli/main.c,$(call sources_of,platform) \
                    $(LIBRARY_SOURCES) $(PROGRAM_SOURCES))
PAGE_OBJECTS   := $(patsubst %.c,$(PAGE_OUT)/%.o,$(PAGE_SOURCES)) $(PAGE_OUT)/manual_texts.o
PAGE_FILES     := $(sort $(wildcard catalogs/*.yaml scenarios/*.yaml scenarios/*.csv scenarios/damaged/*.yaml))
PAGE_PARTS     := $(wildcard src/page/*)

.PHONY: page
page: $(PROGRAM) ## build the page that computes in a browser (brings clang and libraries)
	@src/page/libraries.sh $(PAGE_LIBRARIES)
	@$(MAKE) --no-print-directory $(PAGE)

$(PAGE): $(PAGE_MODULE) $(PAGE_PARTS) $(PAGE_FILES) $(PROGRAM)
	$(Q)src/page/assemble.sh $(PROGRAM) $(PAGE_MODULE) $(PAGE_FILES) >$@
	@ls -l $@ | awk '{ printf "%s, %.2f MB\n", $$NF, $$5 / 1e6 }'

$(PAGE_MODULE): $(PAGE_OBJECTS) src/page/exports.list
	@echo "  LINK  $@"
	$(Q)$(PAGE_CC) $(PAGE_FLAGS) -mexec-model=reactor $(patsubst %,-Wl$(COMMA)--export=%,$(shell cat src/page/exports.list)) \
	  -Wl,--gc-sections -Wl,--strip-all -Wl,-z,stack-size=1048576 -o $@ $(PAGE_OBJECTS) \
	  $(PAGE_LIBRARIES)/libgsl.a $(PAGE_LIBRARIES)/libyaml.a -lm

# files of the disk, threads and the like are in src/platform; the vector kernels keep their flags
PAGE_COMPILE = $(PAGE_CC) $(PAGE_FLAGS) -std=c11 -D_XOPEN_SOURCE=700 -DSPT_DATA_DIR='""' \
  -Iinclude -Isrc -isystem $(PAGE_LIBRARIES)/gsl -isystem $(PAGE_LIBRARIES)/yaml/include $(CPPFLAGS) \
  $(PAGE_EXTRA) -MMD -MP -c $< -o $@
$(PAGE_OUT)/%.o: %.c
	@mkdir -p $(@D)
	@[ -n "$(Q)" ] && echo "  PAGE  $<" || true
	$(Q)$(PAGE_COMPILE)
$(PAGE_OUT)/manual_texts.o: $(OUT)/manual_texts.c
	@mkdir -p $(@D)
	$(Q)$(PAGE_COMPILE)
$(PAGE_OUT)/src/model/batch/batch.o $(PAGE_OUT)/src/model/batch/batch_grid.o \
$(PAGE_OUT)/src/format/number/number_cells.o $(PAGE_OUT)/src/model/hub/hub_kernel.o: PAGE_EXTRA = $(VECTOR_CFLAGS)

-include $(wildcard $(patsubst %.o,%.d,$(PAGE_OBJECTS)))
