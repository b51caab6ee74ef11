.PHONY: run test bench long generate

run: ## the first example, on the terminal
	go run ./cmd/awn malt

test: ## first tier: everything that must hold before a change is taken
	go run ./internal/tools/check

bench: ## the benchmarks, as a table
	go run ./internal/tools/long -parts bench

long: ## second tier: long fuzzing, benchmarks, the C peer; writes docs/figures.md
	go run ./internal/tools/long -write

generate: ## what is made from the source: catalogue, codes, parameters, NOTICE; pictures and output in README
	go run ./internal/tools/formulas
	go run ./internal/tools/codes
	go run ./internal/tools/parameters
	go run ./internal/tools/notice
	go run ./internal/tools/pictures
	go run ./internal/tools/readme
