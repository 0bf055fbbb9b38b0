# The HTML report and the charts in a real browser: needs Node.js, npm and Chromium; screenshots stay in build/browser.
.PHONY: browser
browser: all ## look at reports and charts in a browser (needs node, npm, chromium)
	@tests/browser/run.sh $(PROGRAM) build/browser
