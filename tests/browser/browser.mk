# Tests the HTML report and the charts in a browser: needs Node.js, npm and Chromium; screenshots
# are kept in build/browser.
.PHONY: browser browser-whole
browser: all ## check reports and charts in a browser (needs node, npm, chromium)
	@tests/browser/run.sh $(PROGRAM) build/browser
browser-whole: all ## the same for the report of every scenario
	@tests/browser/run.sh $(PROGRAM) build/browser whole
