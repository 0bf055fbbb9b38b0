# Tests the live page against the program of this machine and in a browser; screenshots are kept in
# build/page/test. The browser and its driver are those of `make browser`. The whole compares also
# the slow answers, and looks at every width in light and dark: for a change of the page.
PAGE_TEST_FOLDER := $(PAGE_OUT)/test

.PHONY: page-numbers page-test page-test-whole
page-numbers: page ## compare the live page with the program (needs node)
	$(Q)node tests/page/numbers_test.mjs $(PAGE) $(PROGRAM) $(PAGE_TEST_EXTENT)
page-test: page-numbers ## check the live page in a browser too (needs node, npm, chromium)
	@tests/browser/bring.sh build/browser
	@mkdir -p $(PAGE_TEST_FOLDER)
	$(Q)node tests/page/page_test.mjs $(PAGE) $(PROGRAM) $(PAGE_TEST_FOLDER) build/browser $(PAGE_TEST_EXTENT)
	@echo "screenshots: $(PAGE_TEST_FOLDER)"
page-test-whole: PAGE_TEST_EXTENT = whole
page-test-whole: page-test ## check the live page with every answer and every look
