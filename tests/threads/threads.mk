# Calls every command through run.h from several threads at the same time. Everything is linked
# statically, so that the thread sanitizer instruments all of it.
THREADS_PROGRAM := $(OUT)/tests/threads/threads
.PHONY: threads threads-tsan
QUICK_TESTS += threads
threads: $(THREADS_PROGRAM) ## the one call from several threads: answers as from one
	$(Q)$(THREADS_PROGRAM) 4 1

$(THREADS_PROGRAM): $(OUT)/tests/threads/threads.o $(TESTED_OBJECTS)
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)

-include $(OUT)/tests/threads/threads.d

threads-tsan: ## the same under the thread sanitizer
	@mkdir -p build/tsan
	$(Q)$(CC) -std=c11 -O1 -g -fsanitize=thread -pthread -Iinclude -Isrc -D_XOPEN_SOURCE=700 -DSPT_SANITIZERS='"thread"' \
	  -DSPT_DATA_DIR='"/none"' tests/threads/threads.c $(filter-out src/cli/main.c,$(LIBRARY_SOURCES) $(PROGRAM_SOURCES)) \
	  -o build/tsan/threads $(YAML_LIBS) $(GSL_LIBS)
	$(Q)TSAN_OPTIONS=halt_on_error=0:exitcode=66 build/tsan/threads 4 1
