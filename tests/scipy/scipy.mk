# SPDX-License-Identifier: GPL-3.0-or-later
# Compares results with SciPy, which uses other methods. Not part of `make test`.
.PHONY: cross-check
cross-check: $(PROGRAM) $(SHARED) ## compare Weibull fits, plans, ranks and timelines with SciPy
	@python=""; for p in $(PYTHON) python3 /usr/bin/python3; do \
	  if $$p -c 'import scipy' 2>/dev/null; then python=$$p; break; fi; done; \
	if [ -z "$$python" ]; then echo "cross-check: left out, no python3 here has SciPy"; \
	else $$python tests/scipy/weibull_check.py $(SHARED) && \
	  $$python tests/scipy/timeline_check.py $(PROGRAM); fi
