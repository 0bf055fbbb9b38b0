# Does any test notice a constant that is 1 % off? Hours for all of them: MUTATIONS=N takes a sample.
MUTATIONS ?= 0
.PHONY: mutation
mutation: ## change each constant of the models by 1 % and list what no test notices (MUTATIONS=N: a sample)
	$(Q)nice python3 tests/mutation/mutation.py --most $(MUTATIONS) $(FILES)
