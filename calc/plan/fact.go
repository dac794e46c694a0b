package plan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"

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
	KilogramsM2 float64 // a load on a floor or a ceiling
	Section     float64 // of a joint, in mm²
	Coverage    float64 // of paint, in m²/l
	HoursM2     float64 // work on an area
	HoursM      float64 // work on a length
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

// Equal tells whether two facts tell the same.
func (f Fact) Equal(as Fact) bool { return reflect.DeepEqual(f, as) }

// Tells tells whether a fact is another, or holds it in a row of Also.
func (f Fact) Tells(other Fact) bool {
	if f.Kind == alsoKind {
		parts, _ := f.Values[0].Of.([]Fact)
		return slices.ContainsFunc(parts, other.Equal)
	}
	return f.Equal(other)
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
		case Fine:
			of = length.Length(n)
		case Film:
			of = length.Length(n)
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

// Kinds of facts that put others in a row.
const (
	alsoKind = "list.also"
	plusKind = "list.plus"
)

// Also is the fact with another told behind it.
func (f Fact) Also(more Fact) Fact { return f.followed(alsoKind, more) }

// Plus is the fact with another as a further term of its sum.
func (f Fact) Plus(more Fact) Fact { return f.followed(plusKind, more) }

func (f Fact) followed(kind string, more Fact) Fact {
	switch {
	case more.None():
		return f
	case f.None():
		return more
	case f.Kind == kind:
		parts, _ := f.Values[0].Of.([]Fact)
		return Fact{kind, []Value{{"parts", append(parts[:len(parts):len(parts)], more)}}}
	}
	return Fact{kind, []Value{{"parts", []Fact{f, more}}}}
}
