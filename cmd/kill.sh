#!/bin/sh
# Kills what writes, again and again, and prints what was lost: a child that saves, one whose edits are kept as they happen,
# and the real window under a virtual display while random keys and clicks edit a project.
# usage: kill.sh PROGRAM KILLS [KILLS_OF_THE_WINDOW]
set -eu
cd "$(dirname "$0")/.."
program=$1 kills=$2 windows=${3:-$2}
CGO_ENABLED=0 go test -tags "ci migrated_fynedo" ./planner -count 1 -timeout 5h -v -run Killed -kills "$kills"
CGO_ENABLED=0 go test -tags "ci migrated_fynedo" ./cmd -count 1 -timeout 12h -v -run TestWindowSurvivesKills \
	-window "$program" -kills "$windows" -display "${KILL_DISPLAY:-55}"
