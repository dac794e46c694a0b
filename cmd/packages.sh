# Sourced by run.sh and test.sh: names the Debian packages that are missing and installs them, with sudo where
# this is not root.
need() {
	missing=
	for p in "$@"; do
		dpkg-query -W -f '${Status}' "$p" 2>/dev/null | grep -q 'ok installed' || missing="$missing $p"
	done
	[ -z "$missing" ] && return 0
	echo "Installing system packages:$missing"
	sudo=
	[ "$(id -u)" = 0 ] || sudo=sudo
	$sudo apt-get update -qq &&
		$sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $missing >/dev/null || {
		echo "These packages could not be installed. Install them yourself, then run this again:" >&2
		echo "  apt-get install$missing" >&2
		return 1
	}
}

# what the window is built with
window_packages="gcc pkg-config libgl1-mesa-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev libwayland-dev libxkbcommon-dev"

need_go() {
	command -v go >/dev/null || [ ! -x /usr/local/go/bin/go ] || PATH=$PATH:/usr/local/go/bin
	command -v go >/dev/null || {
		echo "Go is missing: install Go 1.26 or newer first (https://go.dev/dl)." >&2
		return 1
	}
}
