#!/bin/sh
# Drives the real window with real mouse and keys under a virtual display: from an empty project over a drawn room, a
# door, finishes and an alternative to a saved file, and opens that again; then the named answers, a dragged seam, a step
# that is noted, lights, client mode and a turned room, whose frame times, idle work and memory are printed.
# usage: drive.sh PROGRAM PICTURES [SCALE]
set -eu
program=$1 pictures=$2 scale=${3:-1}
. "$(dirname "$0")/display.sh"
virtual "${DRIVE_DISPLAY:-37}" "$scale"
export SEAMWRIGHT_FRAMES="$home/frames"

# swing X Y SECONDS WHAT turns what lies there to and fro and prints what its frames cost, and how far apart they are.
swing() {
	: >"$home/frames"
	to "$1" "$2"; xdotool mousedown 1
	i=0
	while [ $i -lt $(($3 * 100)) ]; do
		i=$((i + 1))
		echo "mousemove $((($1 + (i * 7 % 180 - 90) * (i * 7 / 180 % 2 * 2 - 1)) * scale)) $(($2 * scale))"; echo "sleep 0.01"
	done | xdotool -
	xdotool mouseup 1; sleep 0.6
	# The window writes on where it was in the file: what stands before is empty.
	for column in 1 2; do
		tr -d '\000' <"$home/frames" | sort -n -k "$column,$column" | awk -v c="$column" -v what="$4" '{ t[NR] = $c } END {
			if (NR < 1) { print "drive: no frame while " what " turned"; exit 1 }
			printf "Turning %s, %s: %d frames, median %.1f ms, 95 of 100 within %.1f ms\n", what, c == 1 ? "drawn and presented" : "from frame to frame",
				NR, t[int((NR + 1) / 2)], t[int(NR * 0.95 + 0.5)] }' || fail "$4 did not turn"
	done
}

start
see 01-sample
key ctrl+n; see 02-empty
click 160 370
to 300 370; xdotool type 20; see 03-typed; key Return
to 380 250; xdotool type "14'"; key Return
to 200 218; xdotool type 20; key Return Return; see 04-room
click 53 155; to 427 245; see 05-in-hand; click 427 245
click 316 174; click 207 250; click 316 329; key Escape; see 06-lined
find "flat ceil"; see 07-finder; key Return; see 08-ceiling
click 316 329; key d; see 09-door
click 316 174; key w; see 10-window
key ctrl+shift+a; see 11-alternative
click 53 660; click 316 174; key Escape; see 12-plywood
key ctrl+d; sleep 1; see 13-compare; key Escape
key ctrl+2; see 14-sheets
key ctrl+3; see 15-shopping
key ctrl+4; see 16-sequence
key ctrl+5; see 17-price
key ctrl+6; see 18-checks
key ctrl+7; see 19-job
key ctrl+1 ctrl+s; see 20-save; key ctrl+a; xdotool type "shed"; key Return; see 21-saved
saved="$home/shed.seam.yaml"
for word in "kind: door" "kind: window" "gyp-12" "ply-" "alternative 1" "ceiling"; do
	grep -q "$word" "$saved" || fail "the saved project has no $word"
done
key ctrl+n; see 22-new
find "shed.seam"; key Return; see 23-reopened
xdotool getwindowname "$id" | grep -q "^shed" || fail "the saved project did not open again"

# The sample: one click chooses another answer, one undo takes it back.
find "sample"; key Return; sleep 2
key ctrl+shift+3; sleep 1; see 24-fewest-joints; key ctrl+z
# A seam is pulled to another stud: the west wall alone, as large as it goes, and the joint in its lowest course.
drag() {
	to "$1" "$2"; xdotool mousedown 1
	for i in 1 2 3 4 5 6 7 8; do xdotool mousemove $((($1 + ($3 - $1) * i / 8) * scale)) $(($2 * scale)); sleep 0.05; done
	sleep 0.5; see 26-seam-in-hand; xdotool mouseup 1
}
to 330 570; xdotool click --repeat 2 --delay 90 1; sleep 0.6; key f; sleep 0.6; see 25-one-wall
drag 410 500 533 500; see 27-seam-moved; key f; key Escape
# A step is ticked off and its hours are noted.
key ctrl+4; click 135 386; click 300 386; see 28-step; key ctrl+z ctrl+1
# The finished wall under its lights, and what a client is shown.
key l; sleep 1; see 29-raking; key o; sleep 0.5; see 30-ceiling-lamps; key l F11; sleep 1; see 31-client
key Escape
# Alternatives with their rooms locked together: turned by key and by hand, then looked at from inside.
key ctrl+d; sleep 3; key e Right; sleep 1; see 32-compare
swing 240 460 2 "three rooms"; see 33-compare-turned; key i; sleep 1; see 34-compare-inside; key Escape
# Every view of the room by key: from above, straight before a wall, a walk.
key u; sleep 0.5; see 35-above; key v; sleep 0.5; see 36-wall; key i Up Up Right; sleep 0.5; see 37-walked; key Home
# The room as a picture and as a model.
key ctrl+shift+p; see 38-picture; click 461 396; key ctrl+a; xdotool type "room.png"; key Return; sleep 2
identify -format "%w x %h" "$home/room.png" | grep -q "1920 x 1080" || fail "no picture of the room was written"
# The job book is looked at page by page and written; then the model, from the same view.
wrote() { i=0; while [ ! -s "$home/$1" ] && [ $i -lt 120 ]; do i=$((i + 1)); sleep 0.5; done; }
key ctrl+p; sleep 3; see 40-documents; key Next; sleep 1; see 41-page; key Next
click 40 776; key ctrl+a; xdotool type "book.pdf"; key Return; wrote book.pdf
head -c 5 "$home/book.pdf" | grep -q %PDF || fail "no job book was written"
see 42-written; click 60 312; sleep 0.5; click 40 776; key ctrl+a; xdotool type "room.glb"; key Return; wrote room.glb
head -c 4 "$home/room.glb" | grep -q glTF || fail "no model of the room was written"
key Escape

# The room is turned by hand for four seconds.
swing 742 250 4 "the room"; see 39-turned
sleep 6
work() { awk '{ print $14 + $15 }' "/proc/$window/stat"; }
memory() { awk '/VmRSS/ { r = $2 } /RssAnon/ { a = $2 } END { printf "%d MB resident, %d of them not files\n", r / 1024, a / 1024 }' "/proc/$window/status"; }
before=$(work); sleep 5; after=$(work)
echo "Idle: $((after - before)) of 500 clock ticks in 5 s, $(memory)"
sleep 70
echo "Idle for more than a minute: $(memory)"

key ctrl+q; sleep 1; key Tab Tab Return; sleep 2 # asks, since the sample has steps to do again
if kill -0 "$window" 2>/dev/null; then fail "the window did not close"; fi
window=
echo "Drove the window; its pictures are in $pictures"
