# Tests the live page in a browser against the program of this machine; screenshots are kept in
# build/page/test. The browser and its driver are those of `make browser`.
.PHONY: page-test
page-test: page ## check the live page in a browser (needs node, npm, chromium)
	@tests/browser/bring.sh build/browser
	@mkdir -p $(PAGE_OUT)/test
	$(Q)node tests/page/page_test.mjs $(PAGE) $(PROGRAM) $(PAGE_OUT)/test build/browser
	@echo "screenshots: $(PAGE_OUT)/test"
