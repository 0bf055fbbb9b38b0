# Installed trees, source archives and the Debian packages.
INSTALLED := $(OUT)/installed
DIST      := build/spalltime-$(VERSION).tar.gz
DEB       := build/deb

.PHONY: install-check dist dist-check deb
QUICK_TESTS += install-check
install-check: all ## install into build/ and use the installed files
	@rm -rf $(INSTALLED)
	@$(MAKE) --no-print-directory -s install DESTDIR=$(CURDIR)/$(INSTALLED) PREFIX=/usr/local \
	  >/dev/null
	$(Q)tests/install/install.sh $(CURDIR)/$(INSTALLED) /usr/local $(CC)
	@$(MAKE) --no-print-directory -s uninstall DESTDIR=$(CURDIR)/$(INSTALLED) PREFIX=/usr/local \
	  >/dev/null
	@left=$$(find $(INSTALLED)/usr ! -type d); \
	  [ -z "$$left" ] || { echo "install: left after uninstall: $$left"; exit 1; }
	$(Q)tests/install/spaces.sh "$(CURDIR)/$(INSTALLED)/a place" $(MAKE)

# the archive has the time of the last commit and no names of this machine, so that it is always the same bytes
dist: ## the source archive of the last commit, in build/
	@mkdir -p build
	git archive --format=tar --prefix=spalltime-$(VERSION)/ HEAD > $(DIST:.gz=) || \
	  { rm -f $(DIST:.gz=); exit 1; }
	gzip -n -9 -f $(DIST:.gz=)
	@sha256sum $(DIST)

dist-check: ## make the source archive twice and compare
	@$(MAKE) --no-print-directory dist >/dev/null && sha256sum < $(DIST) > build/dist.first && \
	  sleep 1.1
	@$(MAKE) --no-print-directory dist >/dev/null && \
	  sha256sum < $(DIST) | cmp - build/dist.first && echo "dist: the same bytes twice"

deb: dist ## the Debian packages of the last commit, in build/deb (debhelper, lintian)
	@rm -rf $(DEB) && mkdir -p $(DEB)
	cp $(DIST) $(DEB)/spalltime_$(VERSION).orig.tar.gz
	tar -xzf $(DIST) -C $(DEB)
	cp -r $(DEB)/spalltime-$(VERSION)/.packaging/debian $(DEB)/spalltime-$(VERSION)/debian
	cd $(DEB)/spalltime-$(VERSION) && dpkg-buildpackage -us -uc
	cd $(DEB) && lintian --fail-on error *.changes
