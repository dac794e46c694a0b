package planner

import (
	"slices"
	"strings"
)

// DiffLine is one line of a comparison of two texts.
type DiffLine struct {
	Sign rune // '+' only in the second text, '-' only in the first, ' ' in both, '…' for lines left out
	Text string
}

const (
	diffContext = 3       // lines in both texts that are shown beside a change
	mostPairs   = 4 << 20 // above so many pairs of lines a change is shown as a whole, not line by line
)

// Diff compares two texts line by line and leaves out what is far from any change.
func Diff(before, after []byte) []DiffLine {
	a, b := strings.SplitAfter(string(before), "\n"), strings.SplitAfter(string(after), "\n")
	head := 0
	for head < min(len(a), len(b)) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < min(len(a), len(b))-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	all := signed(nil, ' ', a[:head])
	all = append(all, changes(a[head:len(a)-tail], b[head:len(b)-tail])...)
	return near(signed(all, ' ', a[len(a)-tail:]))
}

func signed(to []DiffLine, sign rune, lines []string) []DiffLine {
	for _, l := range lines {
		to = append(to, DiffLine{sign, strings.TrimRight(l, "\r\n")})
	}
	return to
}

// changes finds a longest common subsequence of lines (Wagner and Fischer, J. ACM 21, 1974: the table of lengths).
func changes(a, b []string) (out []DiffLine) {
	if len(a)*len(b) > mostPairs {
		return signed(signed(nil, '-', a), '+', b)
	}
	wide := len(b) + 1
	common := make([]int32, (len(a)+1)*wide) // of a[i:] and b[j:]
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i] == b[j] {
				common[i*wide+j] = common[(i+1)*wide+j+1] + 1
			} else {
				common[i*wide+j] = max(common[(i+1)*wide+j], common[i*wide+j+1])
			}
		}
	}
	i, j := 0, 0
	for i < len(a) && j < len(b) {
		switch {
		case a[i] == b[j]:
			out = signed(out, ' ', a[i:i+1])
			i, j = i+1, j+1
		case common[(i+1)*wide+j] >= common[i*wide+j+1]:
			out = signed(out, '-', a[i:i+1])
			i++
		default:
			out = signed(out, '+', b[j:j+1])
			j++
		}
	}
	return signed(signed(out, '-', a[i:]), '+', b[j:])
}

// near keeps changes and the lines beside them.
func near(all []DiffLine) (out []DiffLine) {
	isChange := func(l DiffLine) bool { return l.Sign != ' ' }
	for i, l := range all {
		if slices.ContainsFunc(all[max(0, i-diffContext):min(len(all), i+diffContext+1)], isChange) {
			out = append(out, l)
		} else if n := len(out); n == 0 || out[n-1].Sign != '…' {
			out = append(out, DiffLine{Sign: '…'})
		}
	}
	return out
}
