package planner

import (
	"bytes"
	"fmt"
	"regexp"
	"sort"
	"strings"
)

// patch gathers the splices of one edit. They are made against one reading of the text; flush makes them and
// reads the YAML again, for edits of several steps.
type patch struct {
	before  []byte // the text as it was read
	src     []byte
	root    *node
	read    *reading // of the text before the edit
	splices []splice
	newline string
}

func newPatch(src []byte, read *reading) *patch {
	return &patch{before: src, src: src, root: read.root, read: read, newline: lineBreak(src)}
}

// lineBreak is how the lines of a text end: as the first of them does.
func lineBreak(src []byte) string {
	switch i := bytes.IndexAny(src, "\r\n"); {
	case i < 0 || src[i] == '\n':
		return "\n"
	case i+1 < len(src) && src[i+1] == '\n':
		return "\r\n"
	default:
		return "\r"
	}
}

// splice replaces src[from:to].
func (p *patch) splice(from, to int, with string) {
	p.splices = append(p.splices, splice{at: from, old: p.src[from:to], new: []byte(with)})
}

// flush makes the splices gathered so far and grows the tree of the new text.
func (p *patch) flush() error {
	if len(p.splices) == 0 {
		return nil
	}
	src, err := spliceAll(p.src, p.splices)
	if err != nil {
		return err
	}
	root, errs := growTree("", src)
	if errs != nil {
		return errs
	}
	p.src, p.root, p.splices = src, root, nil
	return nil
}

// spliceAll makes several splices that do not overlap. Where one inserts and another replaces at the same place,
// the insertion comes first.
func spliceAll(src []byte, splices []splice) ([]byte, error) {
	s := append([]splice(nil), splices...)
	sort.SliceStable(s, func(i, j int) bool {
		if s[i].at != s[j].at {
			return s[i].at < s[j].at
		}
		return len(s[i].old) == 0 && len(s[j].old) > 0
	})
	var out bytes.Buffer
	at := 0
	for _, x := range s {
		if x.at < at {
			return nil, fmt.Errorf("this edit would change the same line of the file twice")
		}
		out.Write(src[at:x.at])
		out.Write(x.new)
		at = x.at + len(x.old)
	}
	out.Write(src[at:])
	return out.Bytes(), nil
}

// finish makes the remaining splices and reads the changed text; a fault in it refuses the edit.
func (p *patch) finish(name string) ([]byte, *reading, error) {
	src, err := spliceAll(p.src, p.splices)
	if err != nil {
		return nil, nil, err
	}
	read, err := readChanged(name, p.read, p.before, src)
	if err != nil {
		return nil, nil, err
	}
	return src, read, nil
}

// set makes a node say what v says.
func (p *patch) set(n *node, v value) {
	switch {
	case matches(n, v):
	case v.kind == list && v.one && len(v.items) == 1 && n.kind == scalar && !n.null:
		p.set(n, v.items[0])
	case v.kind == list && n.kind == list && len(n.items) > 0 && !(v.one && len(v.items) == 1):
		p.setItems(n, v.items)
	case v.kind == mapping && n.kind == mapping && len(n.pairs) > 0 && !n.bare:
		p.setFields(n, v)
	default:
		p.replace(n, v)
	}
}

// matches says whether a node already says what v says.
func matches(n *node, v value) bool {
	switch {
	case v.kind == list && v.one && len(v.items) == 1 && n.kind == scalar:
		return matches(n, v.items[0])
	case n.kind != v.kind || n.null:
		return false
	case v.kind == scalar:
		return n.text == v.plain || v.same != nil && v.same(n.text)
	case v.kind == list:
		if len(n.items) != len(v.items) {
			return false
		}
		for i, x := range v.items {
			if !matches(n.items[i], x) {
				return false
			}
		}
		return true
	}
	for _, f := range v.fields {
		c := n.get(f.key)
		if c == nil && f.rule == always || c != nil && (f.rule == absent || !matches(c, f.value)) {
			return false
		}
	}
	return true
}

// replace writes v in place of a node.
func (p *patch) replace(n *node, v value) {
	from := n.start
	if !n.inside && !n.flow { // a value on lines of its own moves up behind its colon, unless a comment stands between
		for from > 0 && isSpace(p.src[from-1]) {
			from--
		}
		if from == 0 || p.src[from-1] != ':' && p.src[from-1] != '-' || n.kind == scalar && !n.null {
			from = n.start
		}
	}
	switch {
	case from < n.start || n.null && n.text == "":
		lead := ""
		if from == n.start && from > 0 && p.src[from-1] != ':' && p.src[from-1] != '-' {
			lead = ":"
		}
		if n.inside {
			p.splice(from, n.end, lead+" "+v.flow())
			return
		}
		p.splice(from, n.end, lead+v.after(n.indent, p.newline))
	default:
		p.splice(from, n.end, v.flow())
	}
}

// setItems makes a list say what the values say; items that stay, stay as they are written.
func (p *patch) setItems(n *node, want []value) {
	head, tail := 0, 0
	least := min(len(n.items), len(want))
	for head < least && matches(n.items[head], want[head]) {
		head++
	}
	for tail < least-head && matches(n.items[len(n.items)-1-tail], want[len(want)-1-tail]) {
		tail++
	}
	both := least - tail
	for i := head; i < both; i++ {
		p.set(n.items[i], want[i])
	}
	if k := len(n.items) - tail; k > both {
		p.removeItems(n, both, k)
	} else if k := len(want) - tail; k > both {
		p.insertItems(n, both, want[both:k]...)
	}
}

// removeItems takes items from (counted from 0) up to but not including to out of a list.
func (p *patch) removeItems(n *node, from, to int) {
	last := len(n.items)
	switch {
	case n.flow && from == 0 && to == last:
		p.splice(n.start, n.end, "[]")
	case n.flow && to < last:
		p.splice(n.items[from].start, n.items[to].start, "")
	case n.flow:
		p.splice(n.items[from-1].end, n.items[to-1].end, "")
	case from == 0 && to == last:
		p.replace(n, listOf())
	default:
		p.cutLines(p.dash(n, from), n.items[to-1].end)
	}
}

// dash is the place of the dash before an item of a block list.
func (p *patch) dash(n *node, i int) int {
	if i == 0 {
		return n.start
	}
	return skipSpace(p.src, n.items[i-1].end)
}

// cutLines takes out everything from a place to the end of the line that a value ends on. What stands before the
// place on its line stays, and the next line moves up to it.
func (p *patch) cutLines(from, end int) {
	start := lineStart(p.src, from)
	stop := afterBreak(p.src, lineEnd(p.src, end))
	if strings.TrimSpace(string(p.src[start:from])) == "" {
		if stop == len(p.src) && !endsLine(p.src[:stop]) && start > 0 { // the last line has no break: take the one before
			start--
			if start > 0 && p.src[start] == '\n' && p.src[start-1] == '\r' {
				start--
			}
		}
		p.splice(start, stop, "")
		return
	}
	p.splice(from, skipSpace(p.src, stop), "")
}

func endsLine(src []byte) bool {
	return len(src) > 0 && (src[len(src)-1] == '\n' || src[len(src)-1] == '\r')
}

var onlyComma = regexp.MustCompile(`^\s*,\s*$`)

// between is what parts values of a flow collection, after the example of the first two.
func (p *patch) between(firstEnd, secondStart int) string {
	if s := string(p.src[firstEnd:secondStart]); onlyComma.MatchString(s) {
		return s
	}
	return ", "
}

// insertItems puts values into a list before item i, written like their neighbours.
func (p *patch) insertItems(n *node, i int, values ...value) {
	if len(n.items) == 0 {
		p.replaceEmpty(n, value{kind: list, items: values, block: true})
		return
	}
	if n.flow {
		sep := ", "
		if len(n.items) > 1 {
			sep = p.between(n.items[0].end, n.items[1].start)
		}
		texts := make([]string, len(values))
		for k, v := range values {
			texts[k] = v.flow()
		}
		if i == 0 {
			p.splice(n.items[0].start, n.items[0].start, strings.Join(texts, sep)+sep)
		} else {
			p.splice(n.items[i-1].end, n.items[i-1].end, sep+strings.Join(texts, sep))
		}
		return
	}
	neighbour := n.items[max(i-1, 0)]
	pad := strings.Repeat(" ", n.col-1)
	var b strings.Builder
	for k, v := range values {
		v.block = neighbour.kind == mapping && !neighbour.flow
		line := "- " + v.lines(n.col+1, p.newline)
		switch {
		case i > 0:
			b.WriteString(p.newline + pad + line)
		case k == 0:
			b.WriteString(line)
		default:
			b.WriteString(p.newline + pad + line)
		}
	}
	if i == 0 {
		p.splice(n.start, n.start, b.String()+p.newline+pad)
		return
	}
	end := lineEnd(p.src, neighbour.end)
	p.splice(end, end, b.String())
}

// replaceEmpty writes a list or mapping in place of an empty one: on lines of its own where it is a block and
// stands in block text.
func (p *patch) replaceEmpty(n *node, v value) {
	if n.inside || !v.block || n.indent < 0 {
		p.replace(n, v)
		return
	}
	from := n.start
	for from > 0 && p.src[from-1] == ' ' {
		from--
	}
	p.splice(from, n.end, v.after(n.indent, p.newline))
}

// setFields makes a mapping say what the fields of v say; keys that v does not name are left alone.
func (p *patch) setFields(n *node, v value) {
	want := make(map[string]field, len(v.fields))
	for _, f := range v.fields {
		want[f.key] = f
	}
	keep := make([]bool, len(n.pairs))
	kept := 0
	for i, x := range n.pairs {
		f, named := want[x.key.text]
		keep[i] = !named || f.rule != absent
		if keep[i] {
			kept++
			if named {
				p.set(x.value, f.value)
			}
		}
	}
	added := map[int][]field{} // by the pair they follow, -1: before all
	for _, f := range v.fields {
		if f.rule == always && n.get(f.key) == nil {
			at := anchor(n, keep, v, f.key)
			added[at] = append(added[at], f)
		}
	}
	if kept == 0 {
		p.rewrite(n, added[-1])
		return
	}
	p.removePairs(n, keep)
	for _, at := range sortedKeys(added) {
		p.addPairs(n, keep, at, added[at])
	}
}

func sortedKeys(m map[int][]field) []int {
	keys := make([]int, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Ints(keys)
	return keys
}

// anchor is the last pair that stays and whose key comes before the new one, -1 if there is none.
func anchor(n *node, keep []bool, v value, key string) int {
	order := v.order
	if order == nil {
		for _, f := range v.fields {
			order = append(order, f.key)
		}
	}
	place := func(k string) int {
		for i, x := range order {
			if x == k {
				return i
			}
		}
		return len(order)
	}
	at := -1
	for i, x := range n.pairs {
		if keep[i] && place(x.key.text) < place(key) {
			at = i
		}
	}
	return at
}

// rewrite gives a mapping none of whose pairs stays other ones.
func (p *patch) rewrite(n *node, fields []field) {
	v := value{kind: mapping, fields: fields, block: !n.flow && len(fields) > 0}
	if v.block {
		p.splice(n.start, n.end, v.lines(n.col-1, p.newline))
		return
	}
	p.replace(n, v)
}

// removePairs takes out the pairs that do not stay; at least one does.
func (p *patch) removePairs(n *node, keep []bool) {
	for i := 0; i < len(keep); i++ {
		if keep[i] {
			continue
		}
		j := i
		for j+1 < len(keep) && !keep[j+1] {
			j++
		}
		switch {
		case n.flow && j+1 < len(keep):
			p.splice(n.pairs[i].key.start, n.pairs[j+1].key.start, "")
		case n.flow:
			p.splice(n.pairs[i-1].end(), n.pairs[j].end(), "")
		default:
			for k := i; k <= j; k++ {
				p.cutLines(n.pairs[k].key.start, n.pairs[k].end())
			}
		}
		i = j
	}
}

func firstKept(keep []bool) int {
	first := 0
	for !keep[first] {
		first++
	}
	return first
}

// addPairs writes new pairs behind pair at, or before all where at is -1.
func (p *patch) addPairs(n *node, keep []bool, at int, fields []field) {
	if n.flow {
		sep := ", "
		if len(n.pairs) > 1 {
			sep = p.between(n.pairs[0].end(), n.pairs[1].key.start)
		}
		texts := make([]string, len(fields))
		for i, f := range fields {
			texts[i] = f.key + ": " + f.value.flow()
		}
		if at < 0 {
			first := firstKept(keep)
			p.splice(n.pairs[first].key.start, n.pairs[first].key.start, strings.Join(texts, sep)+sep)
			return
		}
		p.splice(n.pairs[at].end(), n.pairs[at].end(), sep+strings.Join(texts, sep))
		return
	}
	pad := strings.Repeat(" ", n.col-1)
	var b strings.Builder
	for i, f := range fields {
		if at >= 0 || i > 0 {
			b.WriteString(p.newline + pad)
		}
		b.WriteString(f.key + ":" + f.value.after(n.col-1, p.newline))
	}
	if at < 0 {
		first := firstKept(keep)
		p.splice(n.pairs[first].key.start, n.pairs[first].key.start, b.String()+p.newline+pad)
		return
	}
	end := lineEnd(p.src, n.pairs[at].end())
	p.splice(end, end, b.String())
}
