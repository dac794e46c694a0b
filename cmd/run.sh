#!/bin/sh
# Builds Seamwright and opens a project: the sample, or the file given. Without a display it does the same job
# headless and prints where it wrote the plan, the room picture and the takeoff.
set -eu
if [ $# -gt 0 ]; then
	case $1 in /* | -*) ;; *) set -- "$PWD/$1" ;; esac # it is named from where the user stands
fi
cd "$(dirname "$0")/.."
. cmd/packages.sh
need_go
project=${1:-assets/samples/kiln-yard-studio.seam.yaml}
out=${XDG_CACHE_HOME:-$HOME/.cache}/seamwright
mkdir -p "$out"

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
	if command -v dpkg-query >/dev/null; then
		echo "The window is built with these packages: $window_packages"
		need $window_packages
	fi
	echo "Building the window. The first build takes three to six minutes (the graphics bindings); later ones take seconds."
	go build -tags migrated_fynedo,no_emoji -o "$out/seamwright" ./cmd/seamwright
	if [ $# -gt 0 ]; then exec "$out/seamwright" "$1"; fi
	exec "$out/seamwright"
fi

echo "No display here (DISPLAY and WAYLAND_DISPLAY are empty): doing the same job headless."
CGO_ENABLED=0 go build -o "$out/seamcalc" ./cmd/seamcalc
"$out/seamcalc" plan "$project" >"$out/plan.json"
"$out/seamcalc" render "$project" -o "$out/room.png"
"$out/seamcalc" takeoff "$project" >"$out/takeoff.txt"
echo "Wrote the plan          $out/plan.json"
echo "      the room picture  $out/room.png"
echo "      the takeoff       $out/takeoff.txt"
