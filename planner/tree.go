package planner

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Limits of a project file. Beyond them it is refused, politely.
const (
	largestFile = 16 << 20  // bytes
	deepest     = 24        // nested lists and mappings
	mostMarks   = 1_000_000 // commas, colons, brackets, dashes and lines
)

// kind of a node.
type kind int

const (
	scalar kind = iota
	list
	mapping
)

// node is one value of the file with its place in the text: src[start:end] is what it was written as. The end of
// a block list or mapping is the end of its last value.
type node struct {
	kind       kind
	flow       bool   // a list in [ ] or a mapping in { }
	bare       bool   // a single pair inside [ ], without braces of its own
	inside     bool   // stands within a flow collection
	indent     int    // column (from 0) of the block collection around it, -1 at the top
	text       string // of a scalar, as YAML reads it
	quoted     bool
	null       bool // nothing, ~ or null
	items      []*node
	pairs      []pair
	start, end int
	line, col  int
}

// pair is a key with its value.
type pair struct{ key, value *node }

// end is where the pair's text ends.
func (p pair) end() int { return max(p.key.end, p.value.end) }

// get finds the value of a key, or nil.
func (n *node) get(key string) *node {
	if n == nil {
		return nil
	}
	for _, p := range n.pairs {
		if p.key.text == key {
			return p.value
		}
	}
	return nil
}

// growTree parses the text as YAML and finds where every value begins and ends. Only what a project file needs is
// let through: one document of plain values, without anchors, aliases, tags or merge keys.
func growTree(file string, src []byte) (root *node, errs Errors) {
	defer func() {
		// yaml.v3 can panic on hostile input.
		if fault := recover(); fault != nil {
			root, errs = nil, Errors{{File: file, Line: 1, Col: 1, Message: "this is not YAML that can be read",
				Remedy: "write it like the complete example beside the format reference"}}
		}
	}()
	if e := refuseText(file, src); e != nil {
		return nil, Errors{*e}
	}
	decoder := yaml.NewDecoder(bytes.NewReader(withoutDirective(src)))
	var doc, more yaml.Node
	switch err := decoder.Decode(&doc); {
	case errors.Is(err, io.EOF):
		return nil, Errors{{File: file, Line: 1, Col: 1, Message: "the file holds no project", Remedy: "a project begins with `seamwright: 1`"}}
	case err != nil:
		return nil, Errors{syntaxError(file, src, err)}
	}
	switch err := decoder.Decode(&more); {
	case err == nil:
		return nil, Errors{{File: file, Line: more.Line, Col: max(more.Column, 1), Message: "a second document begins here",
			Remedy: "keep one project in a file"}}
	case !errors.Is(err, io.EOF):
		return nil, Errors{syntaxError(file, src, err)}
	}
	g := &grower{file: file, src: src, lines: lineStarts(src)}
	root = g.grow(doc.Content[0], nil, -1, 0)
	if g.faults > 0 {
		return nil, g.errs.sorted().andMore(g.faults - len(g.errs))
	}
	return root, nil
}

// lineStarts is the byte offset of every line.
func lineStarts(src []byte) []int {
	starts := []int{0}
	if bytes.HasPrefix(src, []byte("\ufeff")) {
		starts[0] = 3
	}
	for i, c := range src {
		if c == '\n' || c == '\r' && !(i+1 < len(src) && src[i+1] == '\n') {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// grower turns YAML nodes into nodes with places.
type grower struct {
	file  string
	src   []byte
	lines []int

	errs   Errors
	faults int // listed in errs or not

	line, col, at int // the place asked for last: the next one mostly lies further on in the same line
}

func (g *grower) refuse(y *yaml.Node, message, remedy string) {
	if g.faults++; g.faults > mostFaults {
		return
	}
	g.errs = append(g.errs, Error{File: g.file, Line: y.Line, Col: y.Column, Message: message, Remedy: remedy})
}

// offset is the byte at a line and column; columns count characters.
func (g *grower) offset(line, col int) int {
	if line < 1 || line > len(g.lines) {
		return len(g.src)
	}
	if line != g.line || col < g.col {
		g.line, g.col, g.at = line, 1, g.lines[line-1]
	}
	for ; g.col < col && g.at < len(g.src); g.col++ {
		_, size := utf8.DecodeRune(g.src[g.at:])
		g.at += size
	}
	return g.at
}

// grow makes the node of y, which stands in the collection around it, nil at the top.
func (g *grower) grow(y *yaml.Node, around *node, indent, depth int) *node {
	n := &node{line: y.Line, col: y.Column, start: g.offset(y.Line, y.Column), indent: indent}
	n.end = n.start
	n.inside = around != nil && (around.flow || around.inside)
	switch {
	case y.Kind == yaml.AliasNode:
		g.refuse(y, "aliases (*) are not part of a project file", "write the value out")
		return n
	case y.Anchor != "":
		g.refuse(y, "anchors (&) are not part of a project file", "delete the anchor and write the value out wherever it is needed")
		return n
	case y.Style&yaml.TaggedStyle != 0:
		g.refuse(y, "tags (!) are not part of a project file", "delete the tag")
		return n
	case depth > deepest:
		g.refuse(y, "lists are nested too deep", "no project nests more than a few levels")
		return n
	}
	n.flow = y.Style&yaml.FlowStyle != 0
	switch y.Kind {
	case yaml.ScalarNode:
		n.text = y.Value
		n.quoted = y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0
		n.null = !n.quoted && y.ShortTag() == "!!null"
		n.end = g.scalarEnd(y, n.start, indent)
	case yaml.SequenceNode:
		n.kind = list
		for _, c := range y.Content {
			n.items = append(n.items, g.grow(c, n, y.Column-1, depth+1))
		}
		if !n.flow {
			g.placeDashes(n)
		}
		n.end = g.close(n, ']')
	case yaml.MappingNode:
		n.kind = mapping
		for i := 0; i+1 < len(y.Content); i += 2 {
			k, v := y.Content[i], y.Content[i+1]
			if k.Value == "<<" && k.ShortTag() == "!!merge" {
				g.refuse(k, "merge keys (<<) are not part of a project file", "write the keys out")
				continue
			}
			p := pair{g.grow(k, n, y.Column-1, depth+1), g.grow(v, n, y.Column-1, depth+1)}
			if p.key.kind != scalar || p.key.null {
				g.refuse(k, "this is not a key", "write `key: value`")
				continue
			}
			if p.value.null && p.value.text == "" {
				p.value.start = g.afterColon(p.key.end)
				p.value.end = p.value.start
			}
			n.pairs = append(n.pairs, p)
		}
		n.end = g.close(n, '}')
	}
	return n
}

// placeDashes puts empty items of a block list right behind their dash.
func (g *grower) placeDashes(n *node) {
	at := n.start
	for _, c := range n.items {
		at = skipSpace(g.src, at)
		if c.null && c.text == "" {
			c.start = min(at+1, len(g.src))
			c.end = c.start
		}
		at = max(c.end, at+1)
	}
}

// afterColon is the place behind the colon that follows a key, or behind the key if there is none.
func (g *grower) afterColon(at int) int {
	if colon := skipSpace(g.src, at); colon < len(g.src) && g.src[colon] == ':' {
		return colon + 1
	}
	return at
}

// close finds the end of a collection whose values are placed.
func (g *grower) close(n *node, bracket byte) int {
	end := n.start
	if k := len(n.items); k > 0 {
		end = n.items[k-1].end
	}
	if k := len(n.pairs); k > 0 {
		end = n.pairs[k-1].end()
	}
	if !n.flow {
		return end
	}
	if n.start >= len(g.src) || g.src[n.start] != bracket-2 { // '[' and '{' stand two before ']' and '}'
		n.bare = true
		return end
	}
	end = max(end, n.start+1)
	for {
		end = skipSpace(g.src, end)
		if end >= len(g.src) || g.src[end] == bracket {
			return min(end+1, len(g.src))
		}
		end++ // a trailing comma or a colon without a value
	}
}

// scalarEnd finds where a scalar's text ends.
func (g *grower) scalarEnd(y *yaml.Node, at, indent int) int {
	src := g.src
	switch {
	case y.Style&yaml.SingleQuotedStyle != 0:
		for i := at + 1; i < len(src); i++ {
			if src[i] != '\'' {
				continue
			}
			if i+1 < len(src) && src[i+1] == '\'' {
				i++
				continue
			}
			return i + 1
		}
		return len(src)
	case y.Style&yaml.DoubleQuotedStyle != 0:
		for i := at + 1; i < len(src); i++ {
			switch src[i] {
			case '\\':
				i++
			case '"':
				return i + 1
			}
		}
		return len(src)
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return blockScalarEnd(src, at, indent)
	}
	for v := y.Value; v != "" && at < len(src); {
		if !isSpace(v[0]) {
			v, at = v[1:], at+1
			continue
		}
		v = strings.TrimLeft(v, " \t\n") // line ends inside a plain text are folded
		for at < len(src) && isSpace(src[at]) {
			at++
		}
	}
	return at
}

// blockScalarEnd is the end of the last line that is indented deeper than the collection around it.
func blockScalarEnd(src []byte, at, indent int) int {
	end := lineEnd(src, at)
	for next := end; next < len(src); {
		next = afterBreak(src, next)
		stop := lineEnd(src, next)
		text := bytes.TrimLeft(src[next:stop], " ")
		if len(bytes.TrimSpace(text)) > 0 {
			if stop-next-len(text) <= indent {
				break
			}
			end = stop
		}
		if stop == len(src) {
			break
		}
		next = stop
	}
	return end
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

// skipSpace passes over blanks, line ends and comments.
func skipSpace(src []byte, at int) int {
	for at < len(src) {
		switch {
		case isSpace(src[at]):
			at++
		case src[at] == '#' && (at == 0 || isSpace(src[at-1])):
			at = lineEnd(src, at)
		default:
			return at
		}
	}
	return at
}

// lineEnd is the place of the line's break, or the end of the text.
func lineEnd(src []byte, at int) int {
	for at < len(src) && src[at] != '\n' && src[at] != '\r' {
		at++
	}
	return at
}

// lineStart is the place of the line's first byte.
func lineStart(src []byte, at int) int {
	for at > 0 && src[at-1] != '\n' && src[at-1] != '\r' {
		at--
	}
	return at
}

// afterBreak passes over one line break.
func afterBreak(src []byte, at int) int {
	if at < len(src) && src[at] == '\r' {
		at++
	}
	if at < len(src) && src[at] == '\n' {
		at++
	}
	return at
}
