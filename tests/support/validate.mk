# One table of all checks against published values, from the rows that the tests check.
.PHONY: validate
validate: deps ## print every check against a published value: source, printed, ours, verdict
	@$(MAKE) --no-print-directory all $(TESTS)
	@rm -f $(OUT)/validate.tsv
	$(Q)SPT_VALIDATE=$(CURDIR)/$(OUT)/validate.tsv $(TESTS) --short-filename --quiet >/dev/null \
	  2>$(OUT)/validate.log || true
	$(Q)tests/support/validate.sh $(OUT)/validate.tsv
