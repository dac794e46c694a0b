package memo

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
)

// Key is a hash of content.
type Key [sha256.Size]byte

// Of is the key of some values: text, numbers, keys, and pointers to plain data, which is followed to its end. Every
// field counts, so that one added later cannot be forgotten; a nil list differs from an empty one.
func Of(values ...any) Key {
	var w Writer
	for _, v := range values {
		w.Any(v)
	}
	return w.Key()
}

// Writer gathers the content of a key. Its zero value is ready. Texts and lists are preceded by their length, so that no
// two contents read alike.
type Writer struct{ buf []byte }

// Key is the hash of what has been written; the writer starts again.
func (w *Writer) Key() Key {
	k := Key(sha256.Sum256(w.buf))
	w.buf = w.buf[:0]
	return k
}

// Int writes a number.
func (w *Writer) Int(n int64) { w.buf = binary.LittleEndian.AppendUint64(w.buf, uint64(n)) }

// Text writes a text.
func (w *Writer) Text(s string) {
	w.Int(int64(len(s)))
	w.buf = append(w.buf, s...)
}

// Add writes the key of other content.
func (w *Writer) Add(k Key) { w.buf = append(w.buf, k[:]...) }

// Bool writes a yes or no.
func (w *Writer) Bool(b bool) {
	n := int64(0)
	if b {
		n = 1
	}
	w.Int(n)
}

// Any writes a value of any plain type.
func (w *Writer) Any(v any) {
	switch v := v.(type) {
	case string:
		w.Text(v)
	case int:
		w.Int(int64(v))
	case Key:
		w.Add(v)
	default:
		w.value(reflect.ValueOf(v))
	}
}

func (w *Writer) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		w.Bool(v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.Int(v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		w.Int(int64(v.Uint()))
	case reflect.Float32, reflect.Float64:
		w.Int(int64(math.Float64bits(v.Float())))
	case reflect.String:
		w.Text(v.String())
	case reflect.Pointer:
		if v.IsNil() {
			w.Int(0)
			return
		}
		w.Int(1)
		w.value(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			w.value(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			w.value(v.Index(i))
		}
	case reflect.Slice:
		w.list(v)
	case reflect.Interface:
		w.typed(v)
	case reflect.Map:
		w.table(v)
	default:
		panic(fmt.Sprintf("memo: %s is no plain data", v.Type()))
	}
}

// typed writes a value that may be of several types, with its type.
func (w *Writer) typed(v reflect.Value) {
	if v.IsNil() {
		w.Int(0)
		return
	}
	w.Int(1)
	w.Text(v.Elem().Type().String())
	w.value(v.Elem())
}

func (w *Writer) list(v reflect.Value) {
	if v.IsNil() {
		w.Int(-1)
		return
	}
	w.Int(int64(v.Len()))
	for i := range v.Len() {
		w.value(v.Index(i))
	}
}

// table writes a map in the order of its keys, which are texts.
func (w *Writer) table(v reflect.Value) {
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
	w.Int(int64(len(keys)))
	for _, k := range keys {
		w.Text(k.String())
		w.value(v.MapIndex(k))
	}
}
