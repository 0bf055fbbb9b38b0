# Names exported by the shared libraries: src/exports/NAME.list, one name per line. `public`:
# functions of the headers; `private`: other functions that the program and libspalltime_run use,
# and nobody else should; `run`: those of libspalltime_run.
EXPORT_LISTS := src/exports/public.list src/exports/private.list src/exports/run.list
RUN_HEADERS  := include/spalltime/run.h
PUBLIC_HEADERS := $(filter-out $(RUN_HEADERS),$(wildcard include/spalltime/*.h))
LISTED := $(OUT)/exports

.PHONY: exports exports-check
exports: $(LIBRARY_OBJECTS) $(PROGRAM_OBJECTS) ## rewrite the lists of exported names
	$(Q)tests/exports/list.sh public $(PUBLIC_HEADERS) >src/exports/public.list
	$(Q)tests/exports/list.sh public $(RUN_HEADERS) >src/exports/run.list
	$(Q)tests/exports/list.sh private src/exports/public.list $(PROGRAM_OBJECTS) -- \
	  $(LIBRARY_OBJECTS) >src/exports/private.list
	@wc -l $(EXPORT_LISTS)

# fails for an exported name that is not listed, and for a listed one that is not exported
QUICK_TESTS += exports-check
exports-check: lib
	@mkdir -p $(LISTED)
	$(Q)tests/exports/check.sh $(LISTED) $(SHARED) $(RUN) "$(PUBLIC_HEADERS)" "$(RUN_HEADERS)" \
	  "$(filter-out $(OUT)/src/cli/main.o,$(PROGRAM_OBJECTS))" "$(LIBRARY_OBJECTS)"
