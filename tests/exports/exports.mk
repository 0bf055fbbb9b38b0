# What the shared libraries export: src/exports/NAME.list, one name a line. `public` are the functions of the headers,
# `private` what the program and libspalltime_run take beside them and nobody else should, `run` is libspalltime_run's.
EXPORT_LISTS := src/exports/public.list src/exports/private.list src/exports/run.list
RUN_HEADERS  := include/spalltime/run.h
LISTED := $(OUT)/exports

.PHONY: exports exports-check
exports: $(LIBRARY_OBJECTS) $(PROGRAM_OBJECTS) ## write the lists of exported names anew, from headers and objects
	$(Q)tests/exports/list.sh public $(filter-out $(RUN_HEADERS),$(wildcard include/spalltime/*.h)) >src/exports/public.list
	$(Q)tests/exports/list.sh public $(RUN_HEADERS) >src/exports/run.list
	$(Q)tests/exports/list.sh private src/exports/public.list $(PROGRAM_OBJECTS) -- $(LIBRARY_OBJECTS) >src/exports/private.list
	@wc -l $(EXPORT_LISTS)

# a name exported that is not listed, or the other way round, fails
QUICK_TESTS += exports-check
exports-check: lib
	@mkdir -p $(LISTED)
	$(Q)tests/exports/check.sh $(LISTED) $(SHARED) $(RUN) "$(filter-out $(RUN_HEADERS),$(wildcard include/spalltime/*.h))" "$(RUN_HEADERS)" \
	  "$(filter-out $(OUT)/src/cli/main.o,$(PROGRAM_OBJECTS))" "$(LIBRARY_OBJECTS)"
