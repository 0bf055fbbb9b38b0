# Failures outside the program: memory, disks, pipes, permissions, signals, locales, unusual names
# and bytes.
FAULTS := $(OUT)/tests/faults
FAULT_LIBRARY := $(FAULTS)/failing_malloc.so
# number of allocations that are made to fail in each command, out of some thousands; 0: all, which
# takes minutes
FAULT_RUNS ?= 40
FILES_LIBRARY := $(FAULTS)/failing_files.so
LOCALE_PROGRAM := $(FAULTS)/locale

.PHONY: faults fault-memory fault-files fault-locale
QUICK_TESTS += faults
faults: fault-memory fault-files fault-locale ## make memory, disks, pipes and locales fail

# a sanitizer has its own malloc, and the preloaded one would not be called
fault-memory: $(PROGRAM) $(FAULT_LIBRARY)
	@rm -rf $(FAULTS)/memory && mkdir -p $(FAULTS)/memory
	$(Q)tests/faults/memory.sh $(PROGRAM) $(CURDIR)/$(FAULT_LIBRARY) $(FAULTS)/memory $(FAULT_RUNS)

fault-files: $(PROGRAM) $(FILES_LIBRARY)
	$(Q)scratch=$$(mktemp -d) && status=0 && \
	  { tests/faults/files.sh $(CURDIR)/$(PROGRAM) "$$scratch" $(CURDIR)/$(FILES_LIBRARY) || \
	    status=$$?; } && rm -rf "$$scratch" && exit $$status

fault-locale: $(LOCALE_PROGRAM)
	@mkdir -p build/locale
	@[ -d build/locale/de_DE.UTF-8 ] || localedef -i de_DE -f UTF-8 \
	  $(CURDIR)/build/locale/de_DE.UTF-8 2>/dev/null || true
	$(Q)LOCPATH=$(CURDIR)/build/locale $(LOCALE_PROGRAM) de_DE.UTF-8 || { [ $$? = 77 ] && \
	  echo "locale: none with a decimal comma can be made here (Debian: apt-get install locales)" | tee -a $(LEFT_OUT); }

$(FAULT_LIBRARY): tests/faults/failing_malloc.c
	@mkdir -p $(@D)
	$(Q)$(CC) -std=c11 -O1 -fPIC -shared -D_XOPEN_SOURCE=700 -o $@ $<

$(FILES_LIBRARY): tests/faults/failing_files.c
	@mkdir -p $(@D)
	$(Q)$(CC) -std=c11 -O1 -Wall -Wextra -fPIC -shared -D_XOPEN_SOURCE=700 -D_FILE_OFFSET_BITS=64 \
	  -o $@ $< -ldl

$(LOCALE_PROGRAM): $(FAULTS)/locale.o $(TESTED_OBJECTS)
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(YAML_LIBS) $(GSL_LIBS) $(LDLIBS)

-include $(FAULTS)/locale.d
