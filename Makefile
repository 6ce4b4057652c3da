# The tasks of the project. `make` alone lists them.

SHELL       := /bin/bash
.SHELLFLAGS := -euo pipefail -c

VERSION  := $(shell git describe --tags --always --dirty 2>/dev/null || echo unknown)
FUZZTIME ?= 10s

.PHONY: help demo check test fuzz drill lint vuln bench cover readme build clean

help: ## list these tasks
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "make %-6s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

demo: ## play a paddock day on a private Postgres
	@.ci/need postgres
	go run ./cmd/detent demo

check: ## all that a change must pass: tidy, lint, vuln, test
	.ci/run

# The trade and the model start no goroutine: there is nothing to race.
test: ## run every test on a real Postgres, with the race detector, then fuzz
	@.ci/need postgres cc
	go test -timeout 10m ./tuning/...
	go test -race -timeout 10m $$(go list ./... | grep -v '/tuning')
	@$(MAKE) --no-print-directory fuzz

fuzz: ## fuzz every target for FUZZTIME (10s)
	@.ci/fuzz $(FUZZTIME)

drill: ## lose servers and processes under load; DRILL=3000 kills more
	@.ci/need postgres
	go test -tags drill -run '^TestDrill' -count 1 -parallel 6 -timeout 12h -v ./cmd/detent

lint: ## check with vet, staticcheck and gofmt
	go vet -tags drill ./...
	go tool staticcheck -tags drill ./...
	@unformatted=$$(gofmt -l .); [ -z "$$unformatted" ] || { printf 'not as gofmt writes it:\n%s\n' "$$unformatted"; exit 1; }

vuln: ## look for known vulnerabilities that the program can reach
	.ci/vuln

bench: ## run the benchmarks
	@.ci/need postgres
	go test -run '^$$' -bench . -benchmem ./...

cover: ## run the tests and tell what share of the statements they reach
	@.ci/need postgres
	go test -timeout 10m -coverprofile cover.out ./...
	@go tool cover -func cover.out | tail -n 1

readme: ## write the README's tables, answer and picture anew
	@.ci/need postgres
	go test ./cmd/detent -run TestReadme -update

build: ## build the static program bin/detent
	CGO_ENABLED=0 go build -trimpath -ldflags '-s -w -X main.version=$(VERSION)' -o bin/detent ./cmd/detent

clean: ## remove what the tasks made
	rm -rf bin cover.out
