package main

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamwright/assets/words"
	"seamwright/calc/plan"
)

// lineWidth is how wide findings are set, in letters.
const lineWidth = 100

// finding is what one rule says at one or more places: what differs in its values only is one.
type finding struct {
	plan.Check
	where []string // places, each once
	times []int    // how often at each
}

// gathered puts findings that say the same of different places together, in the order of the first of each.
func gathered(checks []plan.Check) []finding {
	var all []finding
	index := map[string]int{}
	for _, k := range checks {
		key := string(k.Level) + "\n" + k.Rule + "\n" + shapeOf(k.Says)
		i, ok := index[key]
		if !ok {
			i = len(all)
			index[key] = i
			all = append(all, finding{Check: k})
		}
		f := &all[i]
		n := slices.Index(f.where, k.Where)
		if n < 0 {
			n = len(f.where)
			f.where, f.times = append(f.where, k.Where), append(f.times, 0)
		}
		f.times[n]++
	}
	return all
}

// shapeOf is the kinds that a fact is made of, without its figures, ids and places.
func shapeOf(f plan.Fact) string {
	kinds := f.Kind
	for _, v := range f.Values {
		switch of := v.Of.(type) {
		case plan.Fact:
			kinds += " " + shapeOf(of)
		case []plan.Fact:
			for _, part := range of {
				kinds += " " + shapeOf(part)
			}
		}
	}
	return kinds
}

// writeFindings sets the findings for people: the rule and its level, what is found, where, and the source on a line of
// its own.
func writeFindings(w io.Writer, say *words.Voice, checks []plan.Check) error {
	out := bufio.NewWriter(&plainly{to: w})
	if len(checks) == 0 {
		fmt.Fprintln(out, say.Text("seamcalc.nothing-found"))
	}
	for i, f := range gathered(checks) {
		if i > 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprintf(out, "%s: %s\n", level(say, f.Level), f.Rule)
		wrap(out, "  ", "  ", say.Fact(f.Says))
		places := make([]string, 0, len(f.where))
		count := 0
		for k, p := range f.where {
			if p == "" {
				p = say.Text("seamcalc.whole-job")
			}
			if f.times[k] > 1 {
				p = say.Text("seamcalc.times", "place", p, "number", f.times[k])
			}
			places, count = append(places, p), count+f.times[k]
		}
		label := "  " + say.Text("seamcalc.at") + " "
		if count > 1 {
			label = "  " + say.Text("seamcalc.alike-in-all", "number", count) + " "
		}
		wrap(out, label, "      ", strings.Join(places, ", "))
		wrap(out, "  "+say.Text("seamcalc.source-label")+" ", "          ", say.Fact(f.Source))
	}
	return out.Flush()
}

// wrap sets words in lines no wider than lineWidth where they can be parted.
func wrap(w io.Writer, first, next, text string) {
	line, empty := first, true
	for _, word := range strings.Fields(text) {
		if !empty && len([]rune(line))+1+len([]rune(word)) > lineWidth {
			fmt.Fprintln(w, line)
			line, empty = next, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	if !empty {
		fmt.Fprintln(w, line)
	}
}

// level is the level of a finding in words.
func level(say *words.Voice, l plan.Level) string { return say.Text("level." + string(l)) }
