#!/bin/sh
# Runs, under Go's race detector, the tests in which more than one goroutine has a hand: workers, the memo, the renderer, the
# background calculation, and the window that takes its answers in. Needs gcc.
set -eu
cd "$(dirname "$0")/.."
. cmd/packages.sh
need_go
race() { CGO_ENABLED=1 go test -race -tags "ci migrated_fynedo" -timeout 20m "$@"; }
race ./calc/guard ./calc/memo ./scene/raster
race ./calc -run 'SameJobSameBytes|SeamInAnOvertaken'
race ./planner -run 'Engine|Report'
race ./ui -run 'FirstAnswer|PromptAnswers|Fault|WithoutAnAnswer|KeysGoBack'
