# Sourced by drive.sh and soak.sh: a virtual display with the window on it, as large as it is, and true mouse and keys.
# $program is the window's program, $pictures where a picture goes when something fails.

# virtual NUMBER SCALE opens display NUMBER for a window of 1280 by 800 at that scale, and a home of its own.
virtual() {
	scale=$2 wide=$((1280 * $2)) high=$((800 * $2))
	mkdir -p "$pictures"
	home=$(mktemp -d)
	export HOME="$home" XDG_CONFIG_HOME="$home/config" XDG_STATE_HOME="$home/state" LANG=C.UTF-8 FYNE_SCALE="$scale"
	mkdir -p "$XDG_CONFIG_HOME/openbox"
	cat >"$XDG_CONFIG_HOME/openbox/rc.xml" <<RC
<openbox_config xmlns="http://openbox.org/3.4/rc"><applications><application class="*"><decor>no</decor>
<position force="yes"><x>0</x><y>0</y></position></application></applications></openbox_config>
RC
	Xvfb ":$1" -screen 0 "${wide}x${high}x24" >/dev/null 2>&1 &
	server=$!
	window=
	trap 'kill $window $server 2>/dev/null; wait; rm -rf "$home"' EXIT
	export DISPLAY=":$1"
	sleep 1
	openbox >/dev/null 2>&1 &
	sleep 1
}

fail() { echo "$(basename "$0" .sh): $1" >&2; import -window root "$pictures/failed.png"; cat "$home/log" >&2; exit 1; }
start() {
	"$program" "$@" >"$home/log" 2>&1 &
	window=$!
	id=$(timeout 60 xdotool search --sync --onlyvisible --name Seamwright | tail -1) || fail "no window appeared"
	xdotool windowsize --sync "$id" "$wide" "$high" || true
	sleep 3
}
alive() { kill -0 "$window" 2>/dev/null; }
to() { xdotool mousemove $(($1 * scale)) $(($2 * scale)); sleep 0.15; }
click() { to "$1" "$2"; xdotool click 1; sleep 0.3; }
key() { for k in "$@"; do xdotool key "$k"; sleep 0.25; done; }
find() { key ctrl+k; sleep 0.6; xdotool type --delay 40 "$1"; sleep 0.6; }
see() { sleep 0.6; import -window root "$pictures/$1.png"; alive || fail "the window is gone at $1"; }
