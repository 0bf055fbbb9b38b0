# The Python package, by a python3 that has NumPy where there is one.
.PHONY: python-check
QUICK_TESTS += python-check
python-check: all ## try the Python package against the program and the headers
	@python=$$(for p in python3 /usr/bin/python3; do $$p -c "import numpy" 2>/dev/null && echo $$p && break; done); \
	[ -n "$$python" ] || echo "python: no python3 here has NumPy (Debian: apt-get install python3-numpy)" | tee -a $(LEFT_OUT); \
	python=$${python:-python3}; command -v $$python >/dev/null || exit 0; \
	SPALLTIME=$(PROGRAM) SPALLTIME_LIBRARY_DIR=$(CURDIR)/$(OUT) PYTHONPATH=src/python PYTHONDONTWRITEBYTECODE=1 \
	  $$python -W error tests/python/test_package.py 2>$(OUT)/python.log || { cat $(OUT)/python.log; exit 1; }; \
	echo "python: $$(sed -n 's/^Ran \([0-9]* tests\).*/\1/p' $(OUT)/python.log) of the package passed"
