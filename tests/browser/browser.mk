# Tests the HTML report and the charts in a browser: needs Node.js, npm and Chromium; screenshots
# are kept in build/browser.
.PHONY: browser
browser: all ## check reports and charts in a browser (needs node, npm, chromium)
	@tests/browser/run.sh $(PROGRAM) build/browser
