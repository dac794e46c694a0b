#!/bin/sh
# What takes a night: everything that test.sh does, then 2,000 drawn projects and more rooms under every aim and rate, full
# answers at every limit, the race detector, 1,000 kills, and the real window used at random for about an hour.
# SEED=7 sh cmd/nightly.sh draws other random use.
set -eu
cd "$(dirname "$0")/.."
. cmd/packages.sh
need_go
sh cmd/test.sh
CGO_ENABLED=0 go test -tags "ci migrated_fynedo" -timeout 6h ./calc/proof -run DrawnProjects -projects 2000
CGO_ENABLED=0 go test -tags "ci migrated_fynedo" -timeout 6h ./calc -run RandomRooms -rooms 24
CGO_ENABLED=0 go test -tags "ci migrated_fynedo" -timeout 6h ./calc -run EveryLimit -v -limits
sh cmd/race.sh
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
go build -tags migrated_fynedo,no_emoji -o "$home/seamwright" ./cmd/seamwright
CGO_ENABLED=0 go build -o "$home/seamcalc" ./cmd/seamcalc
sh cmd/kill.sh "$home/seamwright" 1000 100
sh cmd/soak.sh "$home/seamwright" "$home/seamcalc" "${PICTURES:-/tmp/seamwright-soak}" 45 200 "${SEED:-1}"
