package planner

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"seamwright/calc/length"
	"seamwright/calc/money"
)

// value is what an edit wants to stand in the file. Writing one changes only the text that says something else.
type value struct {
	kind   kind
	text   string            // scalar: as it is written
	plain  string            // scalar: as YAML reads it
	same   func(string) bool // scalar: whether another text means the same; nil: only the same text
	items  []value
	one    bool // list: a single item may be written without [ ]
	fields []field
	order  []string // mapping: the order of keys that new ones are put into; nil: that of fields
	block  bool     // list or mapping: written on lines of its own where it is new
}

// field is one key of a mapping. Keys that are not named are left alone.
type field struct {
	key   string
	value value
	rule  fieldRule
}

type fieldRule int

const (
	always fieldRule = iota
	usual            // the default: written only where the key already stands
	absent           // the key is taken out
)

// need is a field that must stand in the file.
func need(key string, v value) field { return field{key: key, value: v} }

// unless is a field that is not written where it says what is usual, unless its key already stands there.
func unless(isUsual bool, key string, v value) field {
	if isUsual {
		return field{key: key, value: v, rule: usual}
	}
	return field{key: key, value: v}
}

// when is a field that stands in the file only under a condition.
func when(present bool, key string, v value) field {
	if !present {
		return field{key: key, rule: absent}
	}
	return field{key: key, value: v}
}

func listOf(items ...value) value { return value{kind: list, items: items} }
func mapOf(fields ...field) value { return value{kind: mapping, fields: fields} }
func word(s string) value         { return value{text: s, plain: s} }
func number(f float64) value      { return word(strconv.FormatFloat(f, 'f', -1, 64)) }
func count(n int) value           { return word(strconv.Itoa(n)) }
func yesNo(b bool) value          { return word(strconv.FormatBool(b)) }
func each[T any](of []T, f func(T) value) []value {
	items := make([]value, len(of))
	for i, x := range of {
		items[i] = f(x)
	}
	return items
}

// words is a list of plain words.
func words[S ~string](of []S) value {
	return listOf(each(of, func(s S) value { return text(string(s)) })...)
}

// text is a scalar that may need quotes.
func text(s string) value { return value{text: quote(s), plain: s} }

// amount is money, written without needless zeros.
func amount(m money.Money) value {
	s := m.String()
	return value{text: strings.TrimSuffix(s, ".00"), plain: s, same: func(t string) bool {
		other, err := money.Parse(t)
		return err == nil && other == m
	}}
}

// percent is a share written in hundredths.
func percent(share float64) value {
	s := strconv.FormatFloat(share*100, 'g', 10, 64) + " %"
	return value{text: s, plain: s, same: func(t string) bool {
		other, err := parsePercent(t)
		return err == nil && other == share
	}}
}

// lengthValue is a length in the units of the project, exactly.
func lengthValue(l length.Length, imperial bool) value {
	s := l.Exact(imperial)
	return value{text: s, plain: s, same: func(t string) bool {
		other, err := length.Parse(t)
		return err == nil && other == l
	}}
}

var plainScalar = regexp.MustCompile(`^[\pL\pN_./()+][\pL\pN_./()+%' -]*$`)

// quote writes a text so that YAML reads it back, plainly where that is safe everywhere.
func quote(s string) string {
	switch strings.ToLower(s) {
	case "", "null", "true", "false", "yes", "no", "on", "off":
		return strconv.Quote(s)
	}
	if plainScalar.MatchString(s) && !strings.HasSuffix(s, " ") {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case unicode.IsPrint(r):
			b.WriteRune(r)
		default:
			q := strconv.QuoteRuneToASCII(r) // YAML knows every escape that Go writes
			b.WriteString(q[1 : len(q)-1])
		}
	}
	b.WriteByte('"')
	return b.String()
}

// flow writes the value on one line.
func (v value) flow() string {
	var b strings.Builder
	v.writeFlow(&b)
	return b.String()
}

func (v value) writeFlow(b *strings.Builder) {
	switch {
	case v.kind == scalar:
		b.WriteString(v.text)
	case v.kind == list && v.one && len(v.items) == 1:
		v.items[0].writeFlow(b)
	case v.kind == list:
		b.WriteByte('[')
		for i, x := range v.items {
			if i > 0 {
				b.WriteString(", ")
			}
			x.writeFlow(b)
		}
		b.WriteByte(']')
	default:
		b.WriteByte('{')
		for i, f := range v.written() {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(f.key + ": ")
			f.value.writeFlow(b)
		}
		b.WriteByte('}')
	}
}

// written is the fields that a new mapping has.
func (v value) written() []field {
	var w []field
	for _, f := range v.fields {
		if f.rule == always {
			w = append(w, f)
		}
	}
	return w
}

// after writes the value as it stands behind "key:" or "-", on lines of its own where it is a block.
func (v value) after(indent int, newline string) string {
	pad := newline + strings.Repeat(" ", indent+2)
	var b strings.Builder
	switch {
	case v.block && v.kind == list && len(v.items) > 0:
		for _, x := range v.items {
			b.WriteString(pad + "- " + x.lines(indent+4, newline))
		}
	case v.block && v.kind == mapping && len(v.written()) > 0:
		b.WriteString(pad + v.lines(indent+2, newline))
	default:
		b.WriteString(" " + v.flow())
	}
	return b.String()
}

// lines writes a mapping as lines of "key: value", the first one without indent; anything else on one line.
func (v value) lines(indent int, newline string) string {
	if v.kind != mapping || !v.block {
		return v.flow()
	}
	var parts []string
	for _, f := range v.written() {
		parts = append(parts, f.key+":"+f.value.after(indent, newline))
	}
	return strings.Join(parts, newline+strings.Repeat(" ", indent))
}
