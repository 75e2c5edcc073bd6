# Go and make are all that test, demo and build need. See DEVELOPERS.md.

GO       ?= go
FUZZTIME ?= 1m
BENCH    ?= .

# Marks such as – and ° are one column wide in what tests expect, whatever LC_ALL
# says; where it names Chinese, Japanese or Korean, tables take them for two.
test test-long race endure golden: export RUNEWIDTH_EASTASIAN = 0

.PHONY: help demo build test lint race calibration endure fuzz test-long bench golden

help:
	@echo "make demo       the whole job on invented data, into .demo/"
	@echo "make build      bin/lowsone"
	@echo "make test       every test; a few minutes on two cores"
	@echo "make lint       gofmt, go vet, staticcheck"
	@echo "make test-long  race detector, ranges against simulated truth, endurance, and each fuzz target for FUZZTIME ($(FUZZTIME))"
	@echo "make endure     imports killed 120 times, disk full, damage to every file of a catalogue"
	@echo "make fuzz       the fuzz targets alone"
	@echo "make bench      benchmarks, BENCH=REGEXP for some; compares with sqlite3 and numpy where they are installed"
	@echo "make golden     writes the golden files anew; look at the difference before you commit it"

demo:
	$(GO) run ./cmd/lowsone demo

build:
	$(GO) build -o bin/lowsone ./cmd/lowsone

test:
	$(GO) test ./...

lint:
	@GO=$(GO) bash .ci/gofmt
	$(GO) vet ./...
	$(GO) tool staticcheck -checks inherit,ST1000,ST1016,ST1020,ST1021,ST1022 ./...

test-long: race calibration endure fuzz

race:
	@GO=$(GO) bash .ci/race

calibration:
	@GO=$(GO) bash .ci/calibration

endure:
	@GO=$(GO) bash .ci/endure

fuzz:
	@GO=$(GO) bash .ci/fuzz $(FUZZTIME)

bench:
	@GO=$(GO) bash .ci/bench '$(BENCH)'

golden:
	@GO=$(GO) bash .ci/golden
