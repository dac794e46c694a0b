#!/bin/sh
# Installs what the tests need and runs all of them: the calculation and the headless command without cgo, the
# window's tests on the test driver, and the real window under a virtual display.
set -eu
cd "$(dirname "$0")/.."
. cmd/packages.sh
. cmd/readers.sh
need_go
if command -v dpkg-query >/dev/null; then
	need $window_packages xvfb xauth libgl1-mesa-dri openbox xdotool imagemagick x11-utils glpk-utils coinor-cbc $reader_packages
fi
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
export LANG=C.UTF-8 XDG_CONFIG_HOME="$home/config" XDG_STATE_HOME="$home/state"

echo "Building the window (the first build takes three to six minutes)"
go build -tags migrated_fynedo,no_emoji -o "$home/seamwright" ./cmd/seamwright
echo "Driving the real window under a virtual display"
sh cmd/drive.sh "$home/seamwright" "$home/pictures"
echo "Killing what writes, and the real window while it is edited"
sh cmd/kill.sh "$home/seamwright" 100 10
echo "Installing what reads the documents back"
readers "$home/readers"
echo "Running the tests"
# Random cases are drawn from a fixed seed, so that one state of the code has one result; SEED=0 draws new ones.
export CGO_ENABLED=0 SEAMWRIGHT_ARM64=1
drawn=$(grep -rl --include='*_test.go' pgregory.net/rapid . | xargs -n1 dirname | sort -u)
all=$(go list -f '{{.Dir}}' -tags "ci migrated_fynedo" ./... | sed "s|^$(pwd)|.|")
plain=$(echo "$all" | grep -vxF "$drawn")
go test -tags "ci migrated_fynedo" -timeout 40m $plain
go test -tags "ci migrated_fynedo" -timeout 40m $drawn -rapid.seed="${SEED:-1}"
