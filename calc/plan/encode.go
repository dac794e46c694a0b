package plan

import (
	"bytes"
	"encoding/json"
	"io"
	"reflect"
	"slices"
	"strings"
)

// Write writes a plan, or a part of one, as JSON in which every fact stands as a sentence, under the name that it has in
// the contract; say puts facts into words. Beside them stands what the sentences tell: a finding has the kind and the values of its
// message, whatever tells more has an object "facts" with kind and values by the name of the sentence.
func Write(w io.Writer, v any, say func(Fact) string) error {
	e := encoder{say: say, telling: map[reflect.Type]bool{}}
	if err := e.value(reflect.ValueOf(v)); err != nil {
		return err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, e.b.Bytes(), "", " "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err := w.Write(out.Bytes())
	return err
}

// encoder writes what holds facts itself and leaves all else to the standard library.
type encoder struct {
	b       bytes.Buffer
	say     func(Fact) string
	telling map[reflect.Type]bool // by type: it may hold facts
}

var factType = reflect.TypeFor[Fact]()

func (e *encoder) value(v reflect.Value) error {
	if !v.IsValid() || !e.tells(v.Type()) {
		return e.plain(v)
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			return e.plain(v)
		}
		return e.value(v.Elem())
	case reflect.Slice, reflect.Array:
		return e.list(v)
	case reflect.Map:
		return e.table(v)
	case reflect.Struct:
		if v.Type() == factType {
			return e.text(e.say(v.Interface().(Fact)))
		}
		return e.object(v)
	}
	return e.plain(v)
}

// tells reports whether a value of a type may hold a fact.
func (e *encoder) tells(t reflect.Type) bool {
	known, ok := e.telling[t]
	if ok {
		return known
	}
	e.telling[t] = false // while it is looked at: a type that holds itself
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
		known = e.tells(t.Elem())
	case reflect.Interface:
		known = true
	case reflect.Struct:
		known = t == factType
		for i := 0; i < t.NumField() && !known; i++ {
			known = t.Field(i).IsExported() && e.tells(t.Field(i).Type)
		}
	}
	e.telling[t] = known
	return known
}

// plain writes what holds no fact.
func (e *encoder) plain(v reflect.Value) error {
	if !v.IsValid() {
		e.b.WriteString("null")
		return nil
	}
	enc := json.NewEncoder(&e.b)
	enc.SetEscapeHTML(false)
	return enc.Encode(v.Interface())
}

func (e *encoder) text(s string) error { return e.plain(reflect.ValueOf(s)) }

func (e *encoder) list(v reflect.Value) error {
	if v.Kind() == reflect.Slice && v.IsNil() {
		return e.plain(v)
	}
	e.b.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			e.b.WriteByte(',')
		}
		if err := e.value(v.Index(i)); err != nil {
			return err
		}
	}
	e.b.WriteByte(']')
	return nil
}

// table writes a map with the order of its keys, which are texts.
func (e *encoder) table(v reflect.Value) error {
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	e.b.WriteByte('{')
	for i, k := range keys {
		if err := e.name(k.String(), i == 0); err != nil {
			return err
		}
		if err := e.value(v.MapIndex(k)); err != nil {
			return err
		}
	}
	e.b.WriteByte('}')
	return nil
}

func (e *encoder) name(name string, first bool) error {
	if !first {
		e.b.WriteByte(',')
	}
	if err := e.text(name); err != nil {
		return err
	}
	e.b.WriteByte(':')
	return nil
}

// object writes a struct by the names of its JSON form, and what its sentences tell behind them.
func (e *encoder) object(v reflect.Value) error {
	type named struct {
		name string
		fact Fact
	}
	var facts []named
	first := true
	e.b.WriteByte('{')
	for i := range v.NumField() {
		field := v.Type().Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		if name == "" || name == "-" || options == "omitempty" && v.Field(i).IsZero() {
			continue
		}
		if f, ok := v.Field(i).Interface().(Fact); ok && !f.None() {
			if name == messageName {
				if err := e.message(f, first); err != nil {
					return err
				}
				first = false
			} else {
				facts = append(facts, named{name, f})
			}
		}
		if err := e.name(name, first); err != nil {
			return err
		}
		first = false
		if err := e.value(v.Field(i)); err != nil {
			return err
		}
	}
	for i, f := range facts {
		if i == 0 {
			if err := e.name("facts", first); err != nil {
				return err
			}
			e.b.WriteByte('{')
		}
		if err := e.name(f.name, i == 0); err != nil {
			return err
		}
		if err := e.plain(reflect.ValueOf(f.fact)); err != nil {
			return err
		}
		if i == len(facts)-1 {
			e.b.WriteByte('}')
		}
	}
	e.b.WriteByte('}')
	return nil
}

// messageName is the sentence of a finding, which is what the finding is about.
const messageName = "message"

// message writes the kind and the values of a finding's message.
func (e *encoder) message(f Fact, first bool) error {
	if err := e.name("kind", first); err != nil {
		return err
	}
	if err := e.text(f.Kind); err != nil {
		return err
	}
	if err := e.name("values", false); err != nil {
		return err
	}
	return f.appendValues(&e.b)
}
