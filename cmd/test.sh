#!/bin/sh
# Installs what the tests need and runs all of them: the calculation and the headless command without cgo, the
# window's tests on the test driver, and the real window under a virtual display.
set -eu
cd "$(dirname "$0")/.."
. cmd/packages.sh
need_go
if command -v dpkg-query >/dev/null; then
	need $window_packages xvfb xauth libgl1-mesa-dri openbox xdotool imagemagick x11-utils glpk-utils coinor-cbc libxml2-utils
fi
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT
export LANG=C.UTF-8 XDG_CONFIG_HOME="$home/config" XDG_STATE_HOME="$home/state"

echo "Building the window (the first build takes three to six minutes)"
go build -tags migrated_fynedo -o "$home/seamwright" ./cmd/seamwright
echo "Driving the real window under a virtual display"
sh cmd/drive.sh "$home/seamwright" "$home/pictures"
echo "Running the tests"
CGO_ENABLED=0 go test -tags "ci migrated_fynedo" -timeout 40m ./...
