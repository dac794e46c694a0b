package planner

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/shape"
)

// reading is what a source text says: the tree with its places, and the project with every default filled in but
// no alternative chosen.
type reading struct {
	root     *node
	job      *job.Job
	defaults defaults
	packs    job.Units
	rooms    map[*node]roomRead
}

// reader walks the tree and gathers every fault.
type reader struct {
	file   string
	errs   Errors
	faults int // how many there are, listed in errs or not
}

// mostFaults is how many faults of one file are listed; of the rest is said how many there are.
const mostFaults = 1000

// key is one key that a mapping may have.
type key struct {
	name string
	need bool
	read func(*node)
}

func (r *reader) fault(n *node, message, remedy string) {
	if r.faults++; r.faults <= mostFaults {
		r.errs = append(r.errs, Error{File: r.file, Line: n.line, Col: n.col, Message: message, Remedy: remedy})
	}
}

// full says whether further faults are only counted, so that no words need be sought for them.
func (r *reader) full() bool { return r.faults >= mostFaults }

// all is every fault in the order of the text, and how many more there are.
func (r *reader) all() Errors { return r.errs.sorted().andMore(r.faults - len(r.errs)) }

// keys reads a mapping: every key once, no unknown one, none missing. What names the mapping in messages.
func (r *reader) keys(n *node, what string, keys []key) bool {
	if n.kind != mapping {
		if !n.null {
			r.fault(n, what+" is a set of keys", "write { key: value, … }, or one `key: value` a line")
		}
		return false
	}
	seen := map[string]int{}
	for i, p := range n.pairs {
		name := p.key.text
		if line, twice := seen[name]; twice {
			r.fault(p.key, fmt.Sprintf("%q stands twice in %s", name, what), fmt.Sprintf("keep one of them; the other is on line %d", line))
			continue
		}
		seen[name] = p.key.line
		switch {
		case knows(keys, name):
		case i > 0 && r.splitText(n, n.pairs[i-1], p):
		default:
			remedy := ""
			if !r.full() {
				remedy = suggest(name, keyNames(keys))
			}
			r.fault(p.key, fmt.Sprintf("%s has no key %q", what, name), remedy)
		}
	}
	for _, k := range keys {
		v := n.get(k.name)
		switch {
		case v == nil && k.need:
			r.fault(n, fmt.Sprintf("%s lacks %q", what, k.name), fmt.Sprintf("add `%s:`", k.name))
		case v != nil && v.null && k.need:
			r.fault(v, fmt.Sprintf("%q is empty", k.name), "write its value behind the colon")
		case v != nil && !v.null:
			k.read(v)
		}
	}
	return true
}

// splitText finds a sentence inside { } that YAML has split at its comma: what stands behind it has no colon.
func (r *reader) splitText(n *node, before, p pair) bool {
	v := before.value
	if !n.flow || p.key.quoted || !p.value.null || p.value.end > p.key.end || v.kind != scalar || v.quoted || v.null {
		return false
	}
	whole := v.text + ", " + p.key.text
	r.fault(v, fmt.Sprintf("%s: the text was split at its comma", before.key.text), fmt.Sprintf("quote it: %s: %q", before.key.text, whole))
	return true
}

func knows(keys []key, name string) bool {
	for _, k := range keys {
		if k.name == name {
			return true
		}
	}
	return false
}

func keyNames(keys []key) []string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.name
	}
	return names
}

// suggest names the nearest known word, or all of them where none is near.
func suggest(name string, known []string) string {
	best, least := "", math.MaxInt
	for _, k := range known {
		if d := editDistance(strings.ToLower(name), strings.ToLower(k)); d < least {
			best, least = k, d
		}
	}
	if best != "" && (least <= 2 && least < utf8.RuneCountInString(best) || least <= len(best)/3) {
		return fmt.Sprintf("did you mean %q?", best)
	}
	const few = 16
	if len(known) == 0 {
		return ""
	}
	if len(known) > few {
		return fmt.Sprintf("known are %s and %d more", strings.Join(known[:few], ", "), len(known)-few)
	}
	return "known are " + strings.Join(known, ", ")
}

// editDistance counts the letters to add, drop, change or swap (optimal string alignment).
func editDistance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 64 || len(t) > 64 {
		return math.MaxInt
	}
	rows := make([][]int, len(s)+1)
	for i := range rows {
		rows[i] = make([]int, len(t)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(s); i++ {
		for j := 1; j <= len(t); j++ {
			change := 1
			if s[i-1] == t[j-1] {
				change = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(s)][len(t)]
}

// list reads each item of a list of at most most items. An empty value is an empty list.
func (r *reader) list(n *node, what string, most int, read func(int, *node)) {
	switch {
	case n.null:
	case n.kind != list:
		r.fault(n, what+" is a list", "write [ …, … ], or one item a line behind a dash")
	case len(n.items) > most:
		r.fault(n, fmt.Sprintf("%s has %d entries; the most is %d", what, len(n.items), most), "divide the project into several files")
	default:
		for i, item := range n.items {
			read(i, item)
		}
	}
}

// scalar says whether the node is a single value, and complains otherwise.
func (r *reader) scalar(n *node, what string) bool {
	if n.kind != scalar {
		r.fault(n, what+" is a single value, not a list or a set of keys", "write one value behind the colon")
		return false
	}
	if n.null || n.text == "" {
		r.fault(n, what+" is empty", "write its value behind the colon, or delete the line")
		return false
	}
	return true
}

// text reads a short text.
func (r *reader) text(n *node, what string) string {
	const longest = 400
	if n.quoted && n.kind == scalar && n.text == "" {
		return ""
	}
	if !r.scalar(n, what) {
		return ""
	}
	if utf8.RuneCountInString(n.text) > longest {
		r.fault(n, fmt.Sprintf("%s is longer than %d characters", what, longest), "shorten it")
	}
	if i := strings.IndexFunc(n.text, unshown); i >= 0 {
		c, _ := utf8.DecodeRuneInString(n.text[i:])
		r.fault(n, fmt.Sprintf("%s holds a character that cannot be shown (%U)", what, c), "delete it")
	}
	return n.text
}

// unshown tells of characters that are orders to a terminal, or that turn the order of the text around them.
func unshown(c rune) bool {
	return unicode.IsControl(c) && c != '\n' && c != '\t' || unicode.Is(unicode.Bidi_Control, c)
}

var idPattern = regexp.MustCompile(`^[\pL\pN][\pL\pN_.-]{0,39}$`)

// id reads a name by which the file refers to something.
func (r *reader) id(n *node, what string) string {
	if !r.scalar(n, "the id of "+what) {
		return ""
	}
	if !idPattern.MatchString(n.text) {
		r.fault(n, fmt.Sprintf("%q cannot be the id of %s", n.text, what), "use at most 40 letters, digits, - _ . without spaces")
		return ""
	}
	return n.text
}

// choice reads one of a few words.
func choice[S ~string](r *reader, n *node, what string, of ...S) S {
	if !r.scalar(n, what) {
		return ""
	}
	names := make([]string, len(of))
	for i, s := range of {
		if n.text == string(s) {
			return s
		}
		names[i] = string(s)
	}
	r.fault(n, fmt.Sprintf("%s cannot be %q", what, n.text), suggest(n.text, names))
	return ""
}

// length reads a length between two bounds, both allowed.
func (r *reader) length(n *node, what string, least, most length.Length) length.Length {
	if !r.scalar(n, what) {
		return 0
	}
	l, err := length.Parse(n.text)
	if err != nil {
		var s *length.SyntaxError
		if errors.As(err, &s) {
			r.fault(n, fmt.Sprintf("%s: %q %s", what, n.text, s.Why), s.Remedy)
		} else {
			r.fault(n, what+": "+err.Error(), "write a length with its unit")
		}
		return 0
	}
	switch {
	case l < least && least > 0 && l <= 0:
		r.fault(n, fmt.Sprintf("%s must be more than 0, but is %s", what, n.text), "check the sign and the unit")
	case l < least && least == 0:
		r.fault(n, fmt.Sprintf("%s cannot be negative, but is %s", what, n.text), "check the sign")
	case l < least:
		r.fault(n, fmt.Sprintf("%s is %s; the least is %s", what, n.text, both(least)), "check the unit")
	case l > most:
		r.fault(n, fmt.Sprintf("%s is %s; the most is %s", what, n.text, both(most)), "check the unit")
	}
	return l
}

// both shows a length in feet and inches and in millimetres.
func both(l length.Length) string { return l.Imperial(length.ShownFraction) + " (" + l.Metric() + ")" }

var bareNumber = regexp.MustCompile(`^-?\d+$`)

// lengths reads a list of exactly so many lengths, and knows a decimal comma that YAML has split.
func (r *reader) lengths(n *node, what string, count int, least, most length.Length) []length.Length {
	if n.kind != list {
		r.fault(n, fmt.Sprintf("%s is %d lengths in [ ]", what, count), `write it like [8', 16"] or [2.4 m, 600 mm]`)
		return nil
	}
	if r.splitComma(n, len(n.items) != count) {
		return nil
	}
	if len(n.items) != count {
		r.fault(n, fmt.Sprintf("%s is %d lengths in [ ], but has %d", what, count, len(n.items)), fmt.Sprintf("write %d", count))
		return nil
	}
	out := make([]length.Length, count)
	for i, item := range n.items {
		out[i] = r.length(item, what, least, most)
	}
	return out
}

// splitComma finds a decimal comma inside [ ]: a bare number followed by an item that begins with a digit. A bare 0
// is a length by itself, and counts only where the list has the wrong number of items.
func (r *reader) splitComma(n *node, zero bool) bool {
	for i := 0; i+1 < len(n.items); i++ {
		a, b := n.items[i], n.items[i+1]
		if a.kind != scalar || b.kind != scalar || a.quoted || b.quoted || !bareNumber.MatchString(a.text) ||
			a.text == "0" && !zero {
			continue
		}
		if b.text == "" || b.text[0] < '0' || b.text[0] > '9' {
			continue
		}
		if _, err := length.Parse(b.text); err != nil || b.text == "0" {
			continue
		}
		r.fault(a, fmt.Sprintf("%s,%s was split at its comma", a.text, b.text),
			fmt.Sprintf("quote it, \"%s,%s\", or write %s.%s", a.text, b.text, a.text, b.text))
		return true
	}
	return false
}

// point reads [x, y].
func (r *reader) point(n *node, what string, least, most length.Length) shape.Point {
	if xy := r.lengths(n, what, 2, least, most); xy != nil {
		return shape.Point{X: xy[0], Y: xy[1]}
	}
	return shape.Point{}
}

// number reads a decimal number between two bounds.
func (r *reader) number(n *node, what string, least, most float64) float64 {
	if !r.scalar(n, what) {
		return least
	}
	f, err := strconv.ParseFloat(n.text, 64)
	if err != nil || math.IsNaN(f) || math.IsInf(f, 0) || strings.ContainsAny(n.text, "xXpP_") {
		r.fault(n, fmt.Sprintf("%s is a number, not %q", what, n.text), "write digits with a decimal point")
		return least
	}
	if f < least || f > most {
		r.fault(n, fmt.Sprintf("%s is %s, but must lie between %g and %g", what, n.text, least, most), "check the decimal point")
		return least
	}
	return f
}

// whole reads a whole number between two bounds.
func (r *reader) whole(n *node, what string, least, most int) int {
	if !r.scalar(n, what) {
		return least
	}
	i, err := strconv.Atoi(n.text)
	if err != nil {
		r.fault(n, fmt.Sprintf("%s is a whole number, not %q", what, n.text), "write digits alone, like 2")
		return least
	}
	if i < least || i > most {
		r.fault(n, fmt.Sprintf("%s is %d, but must lie between %d and %d", what, i, least, most), "check the number")
		return least
	}
	return i
}

// yesNo reads true or false.
func (r *reader) yesNo(n *node, what string) bool {
	return choice(r, n, what, "true", "false") == "true"
}

// money reads an amount that is not negative.
func (r *reader) money(n *node, what string) money.Money {
	if !r.scalar(n, what) {
		return 0
	}
	m, err := money.Parse(n.text)
	switch {
	case err != nil:
		r.fault(n, fmt.Sprintf("%s: %q is not an amount of money", what, n.text), "write it like 15.50, without a currency sign")
	case m < 0:
		r.fault(n, what+" cannot be negative", "check the sign")
	case m > 1_000_000_000_00:
		r.fault(n, what+" is more than a thousand million", "check the decimal point")
	}
	return m
}

func parsePercent(s string) (float64, error) {
	digits, ok := strings.CutSuffix(strings.TrimSpace(s), "%")
	if !ok {
		return 0, errors.New("no percent sign")
	}
	f, err := strconv.ParseFloat(strings.TrimSpace(digits), 64)
	if err != nil {
		return 0, err
	}
	return roundShare(f), nil
}

// roundShare turns hundredths into a share without the noise of a binary division: 8.25 gives 0.0825.
func roundShare(hundredths float64) float64 {
	share, _ := strconv.ParseFloat(strconv.FormatFloat(hundredths/100, 'g', 12, 64), 64)
	return share
}

// percent reads a share written like 55 %.
func (r *reader) percent(n *node, what string, most float64) float64 {
	if !r.scalar(n, what) {
		return 0
	}
	f, err := parsePercent(n.text)
	switch {
	case err != nil || math.IsNaN(f):
		r.fault(n, fmt.Sprintf("%s is a percentage, not %q", what, n.text), "write it like 55 %")
		return 0
	case f < 0 || f > most:
		r.fault(n, fmt.Sprintf("%s is %s, but must lie between 0 %% and %g %%", what, n.text, most*100), "check the decimal point")
		return 0
	}
	return f
}

var temperaturePattern = regexp.MustCompile(`^(-?\d+(?:\.\d+)?)\s*°?\s*([FCfc])$`)

func parseTemperature(s string) (celsius float64, ok bool) {
	m := temperaturePattern.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, false
	}
	t, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return 0, false
	}
	if strings.EqualFold(m[2], "F") {
		t = (t - 32) * 5 / 9
	}
	return t, true
}

// temperature reads 68 F or 20 C, in degrees Celsius.
func (r *reader) temperature(n *node, what string) float64 {
	const coldest, hottest = -40, 60
	if !r.scalar(n, what) {
		return 0
	}
	t, ok := parseTemperature(n.text)
	if !ok {
		r.fault(n, fmt.Sprintf("%s is a temperature, not %q", what, n.text), "write it like 68 F or 20 C")
		return 0
	}
	if t < coldest || t > hottest {
		r.fault(n, fmt.Sprintf("%s is %s, but must lie between -40 C and 60 C", what, n.text), "check F and C")
	}
	return t
}

// date reads a day written like 2027-03-01.
func (r *reader) date(n *node, what string) job.Date {
	if !r.scalar(n, what) {
		return job.Date{}
	}
	t, err := time.Parse(time.DateOnly, n.text)
	if err != nil || t.Year() < 1900 || t.Year() > 2999 {
		r.fault(n, fmt.Sprintf("%s: %q is not a day of the calendar", what, n.text), "write it like 2027-03-01 (year-month-day)")
		return job.Date{}
	}
	return job.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}
}
