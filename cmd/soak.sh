#!/bin/sh
# Uses the real window at random, with true mouse and keys under a virtual display: rounds that begin with the sample and end
# with a saved project. After each the program must be alive, have printed nothing and reported no fault of its own, and
# seamcalc must read what was saved, and plan it or refuse it with its place. Prints the memory at rest after every round. The seed says what is done.
# usage: soak.sh PROGRAM SEAMCALC PICTURES ROUNDS STEPS [SEED]
set -eu
program=$1 seamcalc=$2 pictures=$3 rounds=$4 steps=$5 seed=${6:-1}
. "$(dirname "$0")/display.sh"
virtual "${SOAK_DISPLAY:-38}" 1

# walk SEED draws the steps of one round: clicks, drags, the wheel, keys, and lengths that are typed, right ones and wrong ones.
walk() {
	awk -v seed="$1" -v steps="$steps" '
	function any(n) { return int(rand() * n) }
	function place() { x = any(1278) + 1; y = any(798) + 1; if (y < 44 && x < 200) y += 44; return "mousemove " x " " y }
	BEGIN {
		srand(seed)
		nkeys = split("r d w k h b z c p g f s t x l o n j m y e q u v i Up Down Left Right Home Tab space Return Escape Delete 1 2 3 5 bracketleft bracketright " \
			"ctrl+1 ctrl+2 ctrl+3 ctrl+4 ctrl+5 ctrl+6 ctrl+7 ctrl+1 ctrl+z ctrl+z ctrl+shift+z ctrl+u ctrl+d ctrl+e ctrl+k F11 ctrl+shift+a ctrl+shift+1 ctrl+shift+2 " \
			"ctrl+shift+3 shift+l shift+y shift+d ctrl+alt+a plus minus F1", keys, " ")
		ntexts = split("12" "\047" "|8" "\047" " 6 1/2\"|2.4 m|600 mm|1/2\"|0|-3|999999" "\047" "|1/08\"|gyp|north|plywood 3/4|;|7.25 %", texts, "|")
		for (i = 0; i < steps; i++) {
			r = rand()
			if (r < 0.36) { print place(); print "sleep 0.05"; print "click 1" }
			else if (r < 0.40) { print place(); print "click --repeat 2 --delay 80 1" }
			else if (r < 0.43) { print place(); print "click 3" }
			else if (r < 0.60) {
				print place(); print "mousedown 1"
				for (k = 0; k < 6; k++) { print "mousemove_relative -- " any(120) - 60 " " any(90) - 45; print "sleep 0.03" }
				print "mouseup 1"
			}
			else if (r < 0.68) { print place(); print "click --repeat " any(6) + 1 " --delay 30 " (rand() < 0.5 ? 4 : 5) }
			else if (r < 0.92) print "key " keys[any(nkeys) + 1]
			else { print "type --delay 25 -- \"" escaped(texts[any(ntexts) + 1]) "\""; print "key Return" }
			print "sleep 0.12"
		}
	}
	function escaped(s) { gsub(/"/, "\\\"", s); return s }'
}

# ticks is the processor time that the window has used, in hundredths of a second.
ticks() { awk '{ print $14 + $15 }' "/proc/$window/stat"; }

# rest brings the window back to the sample's cut sheets, since what the room view holds depends on the light that it is seen
# in, waits until it has nothing to do and has given back what it can, and gives the memory that it holds then, in KB.
rest() {
	key Escape Escape Escape ctrl+1
	find "open the sample"; key Return; sleep 2
	key ctrl+2; xdotool mousemove 640 799; sleep 8
	waited=0
	while before=$(ticks); sleep 3; [ $(($(ticks) - before)) -gt 3 ]; do
		waited=$((waited + 3))
		[ $waited -lt 900 ] || fail "the window finds no rest after round $round of seed $seed"
	done
	memory=$(awk '/RssAnon/ { print $2 }' "/proc/$window/status")
	key ctrl+1
}

start
begun=$(wc -c <"$home/log") # what a bare system lacks is said at the start
round=0
while [ $round -lt "$rounds" ]; do
	rest
	[ $round -eq 0 ] || echo "$memory" >>"$home/memory"
	round=$((round + 1))
	walk $((seed * 1000 + round)) | xdotool -
	alive || fail "the window is gone in round $round of seed $seed"
	sleep 1; key Escape Escape Escape Escape
	see "round-$round"
	key ctrl+shift+s; sleep 0.5; key ctrl+a; xdotool type --delay 25 "$home/walk-$round"; key Return
	waited=0
	until [ -f "$home/walk-$round.seam.yaml" ] || [ $waited -ge 60 ]; do sleep 0.5; waited=$((waited + 1)); done
	[ -f "$home/walk-$round.seam.yaml" ] || { see "unsaved-$round"; fail "nothing was saved in round $round of seed $seed"; }
	# What hands draw at random may be refused, with its place and a remedy, as it was in the window; it may never break the program.
	if ! "$seamcalc" plan "$home/walk-$round.seam.yaml" >/dev/null 2>"$home/refused"; then
		if grep -q "goroutine\|fault of the program" "$home/refused" || ! grep -q "^walk-$round.seam.yaml:[0-9]*:[0-9]*: " "$home/refused"; then
			cat "$home/refused" >&2; fail "what round $round of seed $seed saved cannot be read"
		fi
		echo "Round $round, refused: $(head -1 "$home/refused")"
	fi
	for fault in "$XDG_STATE_HOME"/seamwright/faults/*; do
		[ ! -f "$fault" ] || { cat "$fault" >&2; fail "a fault in round $round of seed $seed"; }
	done
	[ "$(wc -c <"$home/log")" = "$begun" ] || fail "the window printed something in round $round of seed $seed"
done
rest
echo "$memory" >>"$home/memory"
# The first round fills caches that stay: what is compared is the rounds after it, their first third with their last.
awk -v steps="$steps" -v seed="$seed" '{ m[NR] = $1 / 1024; printf "%s%.0f", NR == 1 ? "Memory at rest after each round, MB: " : " ", m[NR] }
	function mean(from, to,   i, sum) { for (i = from; i <= to; i++) sum += m[i]; return sum / (to - from + 1) }
	END {
		printf "\nUsed the window at random: %d rounds of %d steps, seed %d\n", NR, steps, seed
		if (NR >= 7) { third = int((NR - 1) / 3); printf "Memory of the last third against the first: %+.1f %%\n", 100 * (mean(NR - third + 1, NR) / mean(2, third + 1) - 1) }
	}' "$home/memory"
