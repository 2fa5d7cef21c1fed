# Everything is one command from a clone: make serve, make test. On Debian, as root,
# what is missing besides Go and Node is installed; elsewhere a sentence says what is.

.PHONY: serve test test-sources test-page test-core test-native test-wasm test-browser test-browsers speed bench build reference clean tools setup setup-test
.SILENT:

GO      := go
BUILD   := $(GO) run ./build
WASMRUN := env -i PATH="$$PATH" HOME="$$HOME" $$($(GO) env GOROOT)/lib/wasm/go_js_wasm_exec
LOG      = printf '\n== %s\n'

# Commands that the tests run, each with the Debian package that brings it.
TESTTOOLS := rsvg-convert:librsvg2-bin pdftotext:poppler-utils qpdf:qpdf unzip:unzip ezdxf:python3-ezdxf
# The other browsers, likewise.
BROWSERS := firefox-esr:firefox-esr WebKitWebDriver:webkit2gtk-driver Xvfb:xvfb
# Python modules that they use, likewise.
TESTMODULES := shapely:python3-shapely

serve: setup
	$(BUILD) serve

build: setup
	$(BUILD)

# What needs nothing of each other runs side by side, on two cores: first what only reads the
# sources, then all that runs the core on one side and the browser, which mostly waits for its
# page, on the other.
test: setup-test
	$(MAKE) --no-print-directory -j2 test-sources test-page
	$(LOG) "sizes"
	$(BUILD)
	$(MAKE) --no-print-directory -j2 test-core test-browser
	printf '\nAll tests passed: vet, formatting, nothing dead, types, page units, native, sizes, wasm, Chromium.\n'

test-sources:
	$(LOG) "vet, formatting, staticcheck, nothing dead, tidy"
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm
	out=$$(gofmt -l build internal wasm); test -z "$$out" || { echo "not formatted by gofmt:" $$out; exit 1; }
	$(GO) tool staticcheck -checks inherit,-ST1005 ./...  # errors of the core are sentences for a person
	$(BUILD) dead
	$(GO) mod tidy -diff

test-page:
	$(LOG) "types of the page"
	site/node_modules/.bin/tsc -p site
	$(LOG) "units of the page"
	$(BUILD) unit

test-core:
	$(MAKE) --no-print-directory test-native
	$(MAKE) --no-print-directory test-wasm

# The packages that take longest come first, so that none is left to run alone at the end.
test-native:
	$(LOG) "the core, natively"
	$(GO) test -timeout 60m ./internal/view ./internal/trial ./internal/check ./internal/plan ./internal/... ./build

test-wasm:
	$(LOG) "the core, as wasm under node"
	GOOS=js GOARCH=wasm $(GO) test -timeout 60m -short -exec "$(WASMRUN)" ./internal/view ./internal/plan ./internal/...  # the same tests, shorter loops

test-browser:
	$(LOG) "the page in Chromium, served and from disk"
	$(GO) test -timeout 60m -count=1 ./build/browser

# The page in Firefox and in WebKit, with what they need installed.
test-browsers: setup-test
	for pair in $(BROWSERS); do command -v $${pair%%:*} >/dev/null || { $(call install,$${pair%%:*},$${pair##*:}); } || exit 1; done
	$(LOG) "the page in Firefox and WebKit"
	$(GO) test -timeout 20m -count=1 -v -run 'Firefox|WebKit' ./build/browser

# Measures, and tests nothing.
speed: setup-test
	$(BUILD)
	$(GO) test -count=1 -run '^$$' -bench 'Drawing|Redraw|Drag' -benchtime 15x ./build/browser
	$(GO) test -count=1 -run '^$$' -bench 'Packing|ManyParts' -benchtime 1x ./build/browser
	$(BUILD) packing  # of the public instances in the folder that SPRINGRIB_PACKING names

bench: speed # the word that Go's people would try

# The law against a finite-element solver, run on this machine.
reference:
	command -v ccx >/dev/null || { test "$$(id -u)" = 0 && command -v apt-get >/dev/null && apt-get update -qq && apt-get install -y -qq calculix-ccx >/dev/null; } || { echo "This needs the solver ccx: apt-get install calculix-ccx"; exit 1; }
	$(BUILD) reference

clean:
	rm -rf dist site/node_modules

# The page's packages, once for each state of the lock file.
setup: tools site/node_modules/.package-lock.json

tools:
	for tool in $(GO) node npm; do command -v $$tool >/dev/null || \
		{ echo "Springrib needs Go 1.26 or newer and Node 20 or newer; there is no '$$tool' here."; exit 1; }; done

site/node_modules/.package-lock.json: site/package.json site/package-lock.json
	npm ci --prefix site --no-audit --no-fund --loglevel=error
	touch $@

setup-test: setup
	for name in chromium chromium-browser google-chrome; do command -v $$name >/dev/null && exit 0; done; \
		$(call install,Chromium,chromium)
	for pair in $(TESTTOOLS); do command -v $${pair%%:*} >/dev/null || { $(call install,$${pair%%:*},$${pair##*:}); } || exit 1; done
	for pair in $(TESTMODULES); do for python in python3 /usr/bin/python3; do $$python -c "import $${pair%%:*}" 2>/dev/null && continue 2; done; \
		{ $(call install,$${pair%%:*},$${pair##*:}); } || exit 1; done

# install names what is missing ($1) and installs its Debian package ($2) where that is possible.
install = if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
		echo "Installing $(2) for the tests."; \
		{ apt-get -qq update && DEBIAN_FRONTEND=noninteractive apt-get -qq install -y --no-install-recommends $(2); } >/dev/null || exit 1; \
	else echo "The tests need $(1); on Debian: sudo apt-get install $(2)"; exit 1; fi
