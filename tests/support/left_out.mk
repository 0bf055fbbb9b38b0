# Tests that `make test` cannot run on this machine, with the reason, one on each line; written by
# tests (left_out.h), scripts and makefile fragments.
LEFT_OUT = $(CURDIR)/$(OUT)/left_out
export SPT_LEFT_OUT = $(LEFT_OUT)

.PHONY: left-out-none left-out
left-out-none:
	@mkdir -p $(OUT) && : >$(LEFT_OUT)
left-out:
	@if [ -s $(LEFT_OUT) ]; then echo "Left out here:"; sort -u $(LEFT_OUT) | sed 's/^/  /'; else echo "Nothing was skipped or left out."; fi
