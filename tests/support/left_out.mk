# What a run of `make test` cannot try on this machine, and why: a line each, from tests
# (left_out.h), scripts and fragments.
LEFT_OUT = $(CURDIR)/$(OUT)/left_out
export SPT_LEFT_OUT = $(LEFT_OUT)

.PHONY: left-out-none left-out
left-out-none:
	@mkdir -p $(OUT) && : >$(LEFT_OUT)
left-out:
	@if [ -s $(LEFT_OUT) ]; then echo "Left out here:"; sort -u $(LEFT_OUT) | sed 's/^/  /'; else echo "Nothing was skipped or left out."; fi
