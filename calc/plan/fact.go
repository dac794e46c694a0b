package plan

import (
	"bytes"
	"encoding/json"
	"fmt"

	"seamwright/calc/length"
)

// Fact is something that the calculation tells, without a word: its kind and the named values that it is about. The kind
// is the key of a phrase in the catalog of package words, which puts the fact into a sentence of any language once all is
// worked out; it is stable, and what decides anything goes by it, never by the sentence.
type Fact struct {
	Kind   string
	Values []Value // in the order in which they were told
}

// Value is one of a fact's values. Of is a length.Length, length.Area, money.Money, int, float64, string (an id, or what the
// user has written), one of the quantities below, a Fact or a []Fact.
type Value struct {
	Name string
	Of   any
}

// Quantities that are shown in the project's units.
type (
	Run         length.Length // a length in feet or metres with a decimal, as runs of joint and trim are told
	Litres      float64
	Kilograms   float64
	KilogramsM2 float64 // a load on a floor
	Celsius     float64
	Share       float64 // of one, shown in per cent
)

// Tell makes a fact of a kind and of names and values by turns, as in Tell("check.four-corners", "at", x).
func Tell(kind string, values ...any) Fact {
	f := Fact{Kind: kind}
	if len(values) > 0 {
		f.Values = make([]Value, 0, len(values)/2)
	}
	for i := 0; i+1 < len(values); i += 2 {
		name, _ := values[i].(string)
		f.Values = append(f.Values, Value{name, values[i+1]})
	}
	return f
}

// verbatim is the kind of a fact that is a text as it stands.
const verbatim = "verbatim"

// Verbatim is a text that has no other form in another language: what the user has written, a title.
func Verbatim(text string) Fact {
	if text == "" {
		return Fact{}
	}
	return Fact{verbatim, []Value{{"text", text}}}
}

// Text is the text of a verbatim fact.
func (f Fact) Text() (text string, ok bool) {
	if f.Kind != verbatim {
		return "", false
	}
	text, ok = f.Values[0].Of.(string)
	return text, ok
}

// None tells whether nothing is told.
func (f Fact) None() bool { return f.Kind == "" }

// Of is the value of a name, nil where the fact has none.
func (f Fact) Of(name string) any {
	for _, v := range f.Values {
		if v.Name == name {
			return v.Of
		}
	}
	return nil
}

// With is the fact with one value more.
func (f Fact) With(name string, value any) Fact {
	return Fact{f.Kind, append(f.Values[:len(f.Values):len(f.Values)], Value{name, value})}
}

// String shows a fact to whoever looks for a fault; people read it through package words.
func (f Fact) String() string { return fmt.Sprint(f.Kind, f.Values) }

// MarshalJSON writes kind and values: lengths in millimetres, areas in square metres, volumes in litres, weights
// in kilograms, temperatures in degrees Celsius, shares of one.
func (f Fact) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	kind, _ := json.Marshal(f.Kind)
	fmt.Fprintf(&b, `{"kind":%s,"values":`, kind)
	if err := f.appendValues(&b); err != nil {
		return nil, err
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// appendValues writes the values by their names, in their order.
func (f Fact) appendValues(b *bytes.Buffer) error {
	b.WriteByte('{')
	for i, v := range f.Values {
		if i > 0 {
			b.WriteByte(',')
		}
		of := v.Of
		switch n := of.(type) {
		case Run:
			of = length.Length(n)
		case length.Area:
			of = n.SquareMetres()
		}
		text, err := json.Marshal(of)
		if err != nil {
			return fmt.Errorf("%s, value %s: %w", f.Kind, v.Name, err)
		}
		name, _ := json.Marshal(v.Name)
		b.Write(name)
		b.WriteByte(':')
		b.Write(text)
	}
	b.WriteByte('}')
	return nil
}
